//! Tracks: bands, pinned links and lugs at speed. A track that bursts throws fragments in its own plane.

use crate::range::{OutsideRange, within};
use quantity::*;
use std::f64::consts::PI;

/// Bending stress at the surface of a band that is wrapped to a radius, σ = E·t/2 · |1/R − 1/R₀|.
///
/// Inputs: modulus E (Pa) at the case's temperature; thickness t (m) of the band between the lugs; radius R (m) it is bent to, at
/// mid-thickness; radius R₀ (m) it was made at, infinite if printed flat.
/// Returns: stress (Pa), tension outside.
/// Valid for: t under about a fifth of R; corded belts bend about their cords, so count t/2 from there.
/// Source: bending of a beam to a curvature, textbook.
#[must_use]
pub fn band_bending(modulus: Pressure, thickness: Length, bent_to: Length, made_at: Length) -> Pressure {
    let curvature = (1.0 / bent_to.si() - 1.0 / made_at.si()).abs();
    Pressure::from_si(modulus.si() * thickness.si() / 2.0 * curvature)
}

/// Swing of that stress as the band runs from straight onto a wheel, E·t / (2·R): the radius it was made at has no part in it.
///
/// Inputs: modulus E (Pa); thickness t (m); radius R (m) of the smallest wheel at mid-thickness.
/// Returns: stress range (Pa), highest less lowest.
/// Valid for: as [`band_bending`].
/// Source: difference of two [`band_bending`] states.
#[must_use]
pub fn band_bending_range(modulus: Pressure, thickness: Length, bent_to: Length) -> Pressure {
    band_bending(modulus, thickness, bent_to, Length::from_si(f64::INFINITY))
}

/// Pull of a lug outward as it goes round a wheel, F = m·(v/R)²·r.
///
/// Inputs: mass m (kg) of the lug; track speed v (m/s); radius R (m) at which the band runs; radius r (m) of the lug's own centre of
/// gravity from the axle, more than R.
/// Returns: force (N).
/// Valid for: a band that follows the wheel.
/// Source: centripetal acceleration, textbook.
#[must_use]
pub fn lug_pull(mass: Mass, speed: Velocity, wrap_radius: Length, gravity_radius: Length) -> Force {
    Force::from_si(mass.si() * (speed.si() / wrap_radius.si()).powi(2) * gravity_radius.si())
}

/// Greatest stress at the root of a lug, σ = N/(b·t) + 6·M/(b·t²).
///
/// Inputs: pull N (N) out of the root; moment M (N·m) about it: a force across the lug times its height, or the pull times how far
/// the lug leans; root width b (m) across the track; root thickness t (m) along it.
/// Returns: tension (Pa), before the notch factor of the root's fillet.
/// Valid for: lugs up to about as thick as high; a squat one shears rather than bends.
/// Source: textbook.
#[must_use]
pub fn lug_root_stress(pull: Force, moment: Torque, width: Length, thickness: Length) -> Pressure {
    let (b, t) = (width.si(), thickness.si());
    Pressure::from_si(pull.si() / (b * t) + 6.0 * moment.si().abs() / (b * t * t))
}

/// Tension that a running track gives itself, m′·v²: it pulls everywhere and presses on no wheel.
///
/// Inputs: mass per length m′ (kg/m), lugs and pins included; speed v (m/s).
/// Returns: force (N).
/// Valid for: any path of the track.
/// Source: textbook (belt drives, Shigley, ch. 17).
#[must_use]
pub fn centrifugal_tension(mass_per_length: LinearMassDensity, speed: Velocity) -> Force {
    Force::from_si(mass_per_length.si() * speed.si() * speed.si())
}

/// Mean stress on what is left beside holes and windows, σ = F / ((b − lost)·t).
///
/// Inputs: tension F (N); full width b (m); width lost to holes in one row (m); thickness t (m).
/// Returns: stress (Pa), before the notch factor.
/// Valid for: a pull through the middle of the section.
/// Source: textbook.
///
/// # Errors
/// Holes as wide as the band.
pub fn net_section_stress(
    tension: Force,
    width: Length,
    lost: Length,
    thickness: Length,
) -> Result<Pressure, OutsideRange> {
    let left = within("width left beside the holes", "m", f64::MIN_POSITIVE, width.si(), width.si() - lost.si())?;
    Ok(Pressure::from_si(tension.si() / (left * thickness.si())))
}

/// Ratio of tight to slack tension that friction alone holds on a wheel, e^(µ·θ).
///
/// Inputs: friction coefficient µ; wrap angle θ (rad).
/// Returns: a plain number, of the tensions less their centrifugal part.
/// Valid for: smooth wheels; teeth hold more until they climb.
/// Source: Euler–Eytelwein; Shigley, ch. 17; published.
#[must_use]
pub fn wrap_ratio(friction: Ratio, wrap: Angle) -> Ratio {
    Ratio::from_si((friction.si() * wrap.si()).exp())
}

/// Slack-side tension below which a friction-driven track slips, T₂ = m′v² + pull/(e^(µθ) − 1).
///
/// Inputs: pull (N), tight less slack; wrap ratio, above 1; centrifugal tension (N).
/// Returns: force (N).
/// Valid for: smooth wheels.
/// Source: as [`wrap_ratio`].
///
/// # Errors
/// A wrap ratio of 1 or less: it holds nothing.
pub fn slack_tension(pull: Force, wrap_ratio: Ratio, centrifugal: Force) -> Result<Force, OutsideRange> {
    let ratio = within("ratio of tight to slack tension", "", 1.0 + 1e-9, f64::MAX, wrap_ratio.si())?;
    Ok(Force::from_si(centrifugal.si() + pull.si() / (ratio - 1.0)))
}

/// Share by which a track's speed dips as its links go round a sprocket as a polygon, 1 − cos(π/z).
///
/// Inputs: pitches z on the whole circumference of the wheel.
/// Returns: share of the highest speed.
/// Valid for: stiff links; a soft band evens it out. From four pitches up, 1 + this share covers by how much both the square of the
/// speed, ((π/z)/sin(π/z))², and the pull of a steady torque, tan(π/z)/(π/z), rise above their means.
/// Source: chain drives, textbook (Shigley, ch. 17).
#[must_use]
pub fn chordal_ripple(pitches: Ratio) -> Ratio {
    Ratio::from_si(1.0 - (PI / pitches.si()).cos())
}

/// Shear stress that tears a pin out of the end of its link, τ = F / (2·e·t).
///
/// Inputs: force F (N); edge e (m), from the edge of the hole to the end of the link; thickness t (m), all ears that share F together.
/// Returns: shear stress (Pa).
/// Valid for: e up to about two hole diameters; more is not all used.
/// Source: pin and lug joints, textbook (Shigley, ch. 8).
#[must_use]
pub fn tear_out(force: Force, edge: Length, thickness: Length) -> Pressure {
    Pressure::from_si(force.si() / (2.0 * edge.si() * thickness.si()))
}

/// Mean shear stress in a pin, τ = F / (planes·π·d²/4).
///
/// Inputs: force F (N); pin diameter d (m); planes that share it, twice the middle ears.
/// Returns: shear stress (Pa).
/// Valid for: close fits.
/// Source: textbook (Shigley, ch. 8).
#[must_use]
pub fn pin_shear(force: Force, pin: Length, planes: Ratio) -> Pressure {
    Pressure::from_si(force.si() / (planes.si() * PI / 4.0 * pin.si().powi(2)))
}

/// Bending stress in a pin held in two ears and pulled by one between them, M = F·s/4 − F·b/8, σ = 32·M / (π·d³).
///
/// Inputs: force F (N); pin diameter d (m); span s (m) between the middles of the outer ears; width b (m) of the ear between them.
/// Returns: stress (Pa).
/// Valid for: b up to s; ears stiff against the pin would carry at their edges and give less.
/// Source: simply supported beam with a load spread over its middle; textbook.
#[must_use]
pub fn pin_bending(force: Force, pin: Length, span: Length, pulled_width: Length) -> Pressure {
    let moment = force.si() * (span.si() / 4.0 - pulled_width.si() / 8.0);
    Pressure::from_si(32.0 * moment / (PI * pin.si().powi(3)))
}

/// Bending stress in a pin that runs through a whole row of ears, every other one pulled the other way: [`pin_bending`] over the span
/// in which each ear lends half of itself to either neighbour, M = F·(b + 2·g)/4.
///
/// Inputs: force F (N) of one ear; pin diameter d (m); ear width b (m); gap g (m) between neighbouring ears.
/// Returns: stress (Pa).
/// Valid for: ears of equal width; it stands for the last ear, beyond which the pin is free. Between inner ears, where the pin is held
/// on both sides, it is twice too high.
/// Source: arm b/4 + b/4 + g of two half ears, the usual way for pinned lugs (Bruhn, Analysis and Design of Flight Vehicle Structures,
/// ch. D1), from memory.
#[must_use]
pub fn pin_bending_in_row(force: Force, pin: Length, ear: Length, gap: Length) -> Pressure {
    pin_bending(force, pin, ear * 1.5 + gap * 2.0, ear)
}

/// Radius to which a thin hinge between stiff links bends on a wheel, R·L/p: the hinge alone makes the whole angle p/R.
///
/// Inputs: radius R (m) of the wheel at the hinge's mid-thickness; pitch p (m) of the links; free length L (m) of the hinge.
/// Returns: radius (m).
/// Valid for: links that do not bend; a hinge as long as the pitch is a band and lies at R.
/// Source: geometry, small angles.
#[must_use]
pub fn hinge_radius(wheel: Length, pitch: Length, free_length: Length) -> Length {
    wheel * (free_length / pitch)
}

/// How many times m′·v² and a lug's pull grow from one speed to another, (v₂/v₁)².
///
/// Inputs: speed v₁ (m/s), not zero; speed v₂ (m/s).
/// Returns: a plain number.
/// Valid for: any two speeds.
/// Source: [`centrifugal_tension`], [`lug_pull`].
#[must_use]
pub fn thrown_ratio(speed: Velocity, other: Velocity) -> Ratio {
    let ratio = other / speed;
    ratio * ratio
}

/// Speed at which a load of one part that stands still and one that grows with v² uses up what is allowed, v·√((1 − still)/moving).
///
/// Inputs: speed v (m/s); at that speed the part that stands still and the part that grows, each as a share of what is allowed.
/// Returns: speed (m/s), infinite where nothing grows; none where the part that stands still is too much alone.
/// Valid for: a pull that does not change with the speed.
/// Source: still + moving·(v₂/v)² = 1 solved for v₂.
#[must_use]
pub fn speed_at_limit(speed: Velocity, still: Ratio, moving: Ratio) -> Option<Velocity> {
    let left = 1.0 - still.si();
    (left >= 0.0).then(|| Velocity::from_si(speed.si() * (left / moving.si()).sqrt()))
}

/// Share of a tension by shrinking that another temperature gives, (T₂ − T₀)/(T₁ − T₀).
///
/// Inputs: temperature T₁ (K) at which it is known; T₂ (K); T₀ (K) of the assembly.
/// Returns: a plain number, negative on the other side of T₀; none at T₀ itself, where there is no such tension.
/// Valid for: stiffness that is nearly the same at both: exact with a soft tensioner, within a few tens of per cent for a rigid one.
/// Source: [`crate::expansion::growth`].
#[must_use]
pub fn contraction_share(
    known_at: ThermodynamicTemperature,
    other: ThermodynamicTemperature,
    assembled: ThermodynamicTemperature,
) -> Option<Ratio> {
    let (known, other) = (difference(known_at, assembled).si(), difference(other, assembled).si());
    (known != 0.0).then(|| Ratio::from_si(other / known))
}

/// Notch factor of a round hole in the middle of a pulled strip, on the mean stress of what is left beside it.
///
/// Inputs: hole diameter d (m); width w (m) of the strip that belongs to it.
/// Returns: a plain number, 3 for a small hole, 2 for one that nearly cuts the strip.
/// Valid for: elastic and brittle (cold) material; a tough one gives way and evens out.
/// Source: 3.00 − 3.13·x + 3.66·x² − 1.53·x³ with x = d/w; Roark, table 17.1; Peterson's Stress Concentration Factors; published.
///
/// # Errors
/// A hole as wide as the strip.
pub fn hole_notch(hole: Length, width: Length) -> Result<Ratio, OutsideRange> {
    let x = within("hole diameter over the width round it", "", 0.0, 1.0, hole.si() / width.si())?;
    Ok(Ratio::from_si(3.0 - 3.13 * x + 3.66 * x * x - 1.53 * x.powi(3)))
}

/// Notch factor of an eye that a closely fitting pin pulls, on the mean stress of what is left beside the hole.
///
/// Inputs: hole diameter d (m); width w (m) of the eye across the pull.
/// Returns: a plain number, 5.5 at d/w = 0.2, 2.5 at 0.5: far more than an open hole's, for all of the load comes in at the hole.
/// Valid for: d/w of 0.15 to 0.75. A wider hole counts as at 0.75, where the factor still falls; beside a narrower one the stress is
/// no more than the same multiple of the pressure in the hole, F/(d·t), as at 0.15: both on the safe side. Elastic and brittle (cold)
/// material. A pin with play raises it by a third to a half; an end closer to the hole than the eye is wide raises it as well
/// (Shigley, figure A-15-12, from memory); a tough material gives way and evens out.
/// Source: 12.882 − 52.714·x + 89.762·x² − 51.667·x³ with x = d/w; Pilkey, Formulas for Stress, Strain, and Structural Matrices, pin
/// joint with a closely fitting pin, after Frocht and Hill 1940, as in Peterson's Stress Concentration Factors; from memory.
///
/// # Errors
/// A hole as wide as the eye.
pub fn eye_notch(hole: Length, width: Length) -> Result<Ratio, OutsideRange> {
    let x = within("hole diameter over the width of the eye", "", 0.0, 1.0, hole.si() / width.si())?;
    let at = |x: f64| 12.882 - 52.714 * x + 89.762 * x * x - 51.667 * x.powi(3);
    let (least, most) = (0.15, 0.75);
    Ok(Ratio::from_si(if x < least { at(least) * (least / (1.0 - least)) * ((1.0 - x) / x) } else { at(x.min(most)) }))
}

/// What a material feels of a notch factor, 1 + (Kt − 1)/(1 + √(ρ/r)): over a length of its own grain it evens out the peak.
///
/// Inputs: elastic notch factor Kt; radius r (m) of the notch; length ρ (m) over which the material evens out.
/// Returns: a plain number between 1 and Kt.
/// Valid for: materials of one grain size; all of Kt for a notch that is large beside it.
/// Source: Neuber, as in Shigley, ch. 6 (notch sensitivity), published, from memory.
#[must_use]
pub fn felt_notch(factor: Ratio, radius: Length, grain: Length) -> Ratio {
    Ratio::from_si(1.0 + (factor.si() - 1.0) / (1.0 + (grain.si() / radius.si()).sqrt()))
}

/// What loads a stepped strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pulled {
    Lengthwise,
    Bent,
}

/// Notch factor of the two fillets where a strip steps from wide to narrow, on the stress of the narrow part.
///
/// Inputs: wide width D and narrow width d (m), in the plane of the step; fillet radius r (m); how it is loaded.
/// Returns: a plain number from 1 up.
/// Valid for: step height (D − d)/2 of 0.1 to 20 radii; a sharp corner has no such factor at all.
/// Source: Roark, table 17.1 (stepped flat bar), after Peterson; from memory: the coefficients meet the two conditions that they must
/// (factor 1 where the narrow part vanishes, both branches alike where they meet).
///
/// # Errors
/// A fillet too sharp or too round, or a narrow part wider than the wide one.
pub fn fillet_notch(wide: Length, narrow: Length, radius: Length, pulled: Pulled) -> Result<Ratio, OutsideRange> {
    let h = (wide.si() - narrow.si()) / 2.0;
    let q = within("step height over fillet radius", "", 0.1, 20.0, h / radius.si())?;
    let x = within("step share of the wide part", "", 0.0, 1.0, 2.0 * h / wide.si())?;
    let s = q.sqrt();
    let c = match (pulled, q <= 2.0) {
        (Pulled::Lengthwise, true) => [
            1.007 + s - 0.031 * q,
            -0.114 - 0.585 * s + 0.314 * q,
            0.241 - 0.992 * s - 0.271 * q,
            -0.134 + 0.577 * s - 0.012 * q,
        ],
        (Pulled::Lengthwise, false) => [
            1.042 + 0.982 * s - 0.036 * q,
            -0.074 - 0.156 * s - 0.010 * q,
            -3.418 + 1.220 * s - 0.005 * q,
            3.450 - 2.046 * s + 0.051 * q,
        ],
        (Pulled::Bent, true) => [
            1.007 + s - 0.031 * q,
            -0.270 - 2.404 * s + 0.749 * q,
            0.677 + 1.133 * s - 0.904 * q,
            -0.414 + 0.271 * s + 0.186 * q,
        ],
        (Pulled::Bent, false) => [
            1.042 + 0.982 * s - 0.036 * q,
            -3.599 + 1.619 * s - 0.431 * q,
            6.084 - 5.607 * s + 1.158 * q,
            -2.527 + 3.006 * s - 0.691 * q,
        ],
    };
    let [c1, c2, c3, c4] = c;
    Ok(Ratio::from_si((c1 + x * (c2 + x * (c3 + x * c4))).max(1.0)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(x: f64) -> Length {
        Length::from_si(x * 1e-3)
    }
    fn n(x: f64) -> Force {
        Force::from_si(x)
    }

    #[test]
    fn an_eye_pulled_by_its_pin_is_worse_off_than_an_open_hole() {
        let notch = |x: f64| eye_notch(mm(x), mm(1.0)).unwrap().si();
        // Shigley, figure A-15-12, eyes with long ends, read off and from memory: 5.5, 2.5 and 2.0.
        for (x, read) in [(0.2, 5.5), (0.5, 2.5), (0.75, 2.0)] {
            assert!((notch(x) - read).abs() < 0.1, "{x}: {}", notch(x));
        }
        let open = |x: f64| hole_notch(mm(x), mm(1.0)).unwrap().si();
        let all: Vec<f64> = (1..99).map(|x| f64::from(x) / 100.0).collect();
        // Wide holes come near to it: there the pin pulls two straight strips.
        assert!(all.iter().filter(|x| **x < 0.6).all(|x| notch(*x) > 1.1 * open(*x)));
        // The wider the hole, the less; and of the pressure in the hole no more than 1.2 times beside a narrow one.
        assert!(all.windows(2).all(|pair| notch(pair[1]) <= notch(pair[0])));
        let of_pressure = |x: f64| notch(x) * x / (1.0 - x);
        assert!((of_pressure(0.01) - of_pressure(0.15)).abs() < 1e-12 && of_pressure(0.15) < of_pressure(0.3));
        assert!(eye_notch(mm(1.1), mm(1.0)).is_err());
    }

    #[test]
    fn a_small_notch_is_felt_less_than_a_large_one() {
        let felt = |radius: f64| felt_notch(Ratio::from_si(3.0), mm(radius), mm(0.2)).si();
        assert!((felt(0.2) - 2.0).abs() < 1e-12 && (felt(1e9) - 3.0).abs() < 1e-4 && felt(1e-9) < 1.001);
        // Shigley, figure 6-20, from memory: steel of 100 kpsi has a √a of 0.0622 √in, and at a radius of 0.1 in a sensitivity of 0.84.
        let steel = felt_notch(Ratio::from_si(2.0), mm(2.54), mm(0.0622f64.powi(2) * 25.4)).si() - 1.0;
        assert!((steel - 0.84).abs() < 0.01, "{steel}");
    }

    #[test]
    fn a_band_made_round_bends_less_on_its_wheel_but_swings_as_far() {
        let e = Pressure::from_si(60e6);
        let (t, r, made) = (mm(4.0), mm(40.0), mm(120.0));
        let (on_wheel, straight) =
            (band_bending(e, t, r, made).si(), band_bending(e, t, Length::from_si(f64::INFINITY), made).si());
        assert!((on_wheel + straight - band_bending_range(e, t, r).si()).abs() < 1e-6);
        assert!((band_bending_range(e, t, r).si() - 3e6).abs() < 1e-6);
        assert_eq!(band_bending(e, t, r, r).si(), 0.0);
    }

    #[test]
    fn centrifugal_tension_is_the_hoop_stress_of_a_ring() {
        // A band of 1240 kg/m³, 200 mm²: m′ = 0.248 kg/m; tension over area is ρ·v².
        let tension = centrifugal_tension(LinearMassDensity::from_si(0.248), Velocity::from_si(20.0));
        let stress = net_section_stress(tension, mm(50.0), mm(0.0), mm(4.0)).unwrap();
        let ring = crate::ring::thin_ring_stress(MassDensity::from_si(1240.0), Velocity::from_si(20.0));
        assert!((stress.si() / ring.si() - 1.0).abs() < 1e-12);
        assert!(net_section_stress(tension, mm(50.0), mm(50.0), mm(4.0)).is_err());
    }

    #[test]
    fn a_lug_in_the_band_itself_pulls_like_a_piece_of_it() {
        let pull = lug_pull(Mass::from_si(0.02), Velocity::from_si(10.0), mm(50.0), mm(50.0));
        assert!((pull.si() - 0.02 * 100.0 / 0.05).abs() < 1e-9);
        let root = lug_root_stress(pull, Torque::from_si(0.0), mm(20.0), mm(10.0));
        assert!((root.si() - 40.0 / 2e-4).abs() < 1e-6);
        // 60 N at 15 mm on a 20 × 10 mm root: 6·0.9/(0.02·1e-4) = 2.7 MPa.
        let bent = lug_root_stress(n(0.0), Torque::from_si(-0.9), mm(20.0), mm(10.0));
        assert!((bent.si() - 2.7e6).abs() < 1e-3);
    }

    #[test]
    fn wrap_and_slack() {
        let ratio = wrap_ratio(Ratio::from_si(0.3), Angle::from_si(PI));
        assert!((ratio.si() - 2.566).abs() < 1e-3);
        let slack = slack_tension(n(100.0), ratio, n(12.0)).unwrap();
        assert!(((slack.si() + 100.0 - 12.0) / (slack.si() - 12.0) / ratio.si() - 1.0).abs() < 1e-12);
        assert!(slack_tension(n(100.0), wrap_ratio(Ratio::from_si(0.0), Angle::from_si(PI)), n(0.0)).is_err());
    }

    #[test]
    fn ripple_of_a_square_and_of_a_circle() {
        assert!((chordal_ripple(Ratio::from_si(4.0)).si() - (1.0 - 0.5f64.sqrt())).abs() < 1e-12);
        let many = chordal_ripple(Ratio::from_si(100.0)).si();
        assert!((many / (PI * PI / 2.0 / 1e4) - 1.0).abs() < 1e-3);
        for z in 4..60 {
            let (x, covered) = (PI / f64::from(z), 1.0 + chordal_ripple(Ratio::from_si(f64::from(z))).si());
            assert!(covered >= (x / x.sin()).powi(2) && covered >= x.tan() / x, "{z}");
        }
    }

    #[test]
    fn a_pin_by_hand() {
        // 400 N, pin 5 mm, ears 20 mm apart, 10 mm between: M = 2 − 0.5 = 1.5 N·m, W = 12.27 mm³.
        assert!((pin_bending(n(400.0), mm(5.0), mm(20.0), mm(10.0)).si() / 122.231e6 - 1.0).abs() < 1e-4);
        assert!((pin_shear(n(400.0), mm(5.0), Ratio::from_si(2.0)).si() / 10.186e6 - 1.0).abs() < 1e-4);
        assert!((tear_out(n(400.0), mm(4.0), mm(10.0)).si() - 5e6).abs() < 1e-6);
        // A load in one point is the plain middle load of the handbook.
        let point = pin_bending(n(400.0), mm(5.0), mm(20.0), mm(0.0)).si();
        let section = crate::section::round(mm(5.0)).section_modulus;
        assert!((point / crate::section::bending_stress(Torque::from_si(2.0), section).si() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_pin_in_a_row_is_at_most_the_free_pin_and_twice_the_inner_one() {
        let row = pin_bending_in_row(n(200.0), mm(3.0), mm(9.0), mm(0.5)).si();
        // M = 200·10 mm/4 = 0.5 N·m, W = 2.6507 mm³.
        assert!((row / 188.63e6 - 1.0).abs() < 1e-4);
        assert!(row < pin_bending(n(200.0), mm(3.0), mm(19.0), mm(9.0)).si());
        // Second route: the shear of an endless row, summed from the middle of one ear to that of the next, swings the moment by
        // F/2·(b/2 + g), half to each side.
        let inner = 200.0 / 4.0 * (4.5e-3 + 0.5e-3);
        let section = crate::section::round(mm(3.0)).section_modulus;
        assert!((row / crate::section::bending_stress(Torque::from_si(inner), section).si() - 2.0).abs() < 1e-9);
    }

    #[test]
    fn a_hinge_as_long_as_the_pitch_is_a_band() {
        assert_eq!(hinge_radius(mm(40.0), mm(30.0), mm(30.0)), mm(40.0));
        assert!((hinge_radius(mm(40.0), mm(40.0), mm(4.0)).si() - 4e-3).abs() < 1e-15);
    }

    #[test]
    fn the_limit_speed_uses_up_exactly_what_is_allowed() {
        let (v, share) = (Velocity::from_si(20.0), Ratio::from_si);
        let limit = speed_at_limit(v, share(0.4), share(0.15)).unwrap();
        assert!((limit.si() - 40.0).abs() < 1e-12);
        assert!((0.4 + 0.15 * thrown_ratio(v, limit).si() - 1.0).abs() < 1e-12);
        assert_eq!(speed_at_limit(v, share(1.01), share(0.1)), None);
        assert_eq!(speed_at_limit(v, share(0.75), share(0.25)), Some(v));
    }

    #[test]
    fn shrinking_is_counted_from_the_assembly() {
        let share = |known, other| contraction_share(celsius(known), celsius(other), celsius(20.0));
        assert!((share(-20.0, -10.0).unwrap().si() - 0.75).abs() < 1e-12);
        assert!((share(-20.0, 40.0).unwrap().si() + 0.5).abs() < 1e-12);
        assert_eq!(share(20.0, -10.0), None);
    }

    #[test]
    fn holes_from_a_pinhole_to_a_cut() {
        assert!((hole_notch(mm(1e-9), mm(10.0)).unwrap().si() - 3.0).abs() < 1e-6);
        assert!((hole_notch(mm(10.0), mm(10.0)).unwrap().si() - 2.0).abs() < 1e-9);
        assert!(hole_notch(mm(11.0), mm(10.0)).is_err());
    }

    #[test]
    fn fillets_vanish_with_the_narrow_part_meet_at_two_and_fall_with_the_radius() {
        for pulled in [Pulled::Lengthwise, Pulled::Bent] {
            let k = |wide: f64, narrow: f64, r: f64| fillet_notch(mm(wide), mm(narrow), mm(r), pulled).unwrap().si();
            assert!((k(10.0, 1e-9, 4.0) - 1.0).abs() < 1e-3);
            assert!((k(14.0, 10.0, 1.0) / k(14.0, 10.0, 0.9999) - 1.0).abs() < 0.03, "{pulled:?}");
            let falling: Vec<f64> = [0.3, 0.5, 1.0, 2.0, 4.0].iter().map(|r| k(14.0, 10.0, *r)).collect();
            assert!(falling.windows(2).all(|w| w[0] > w[1]), "{pulled:?} {falling:?}");
            assert!(fillet_notch(mm(14.0), mm(10.0), mm(0.01), pulled).is_err());
        }
    }
}
