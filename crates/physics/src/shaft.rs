//! Turning shafts: what fatigue leaves of them, how notches cut that, and at which speed they begin to whirl.

pub mod critical;

use quantity::*;

/// How the surface of a shaft was left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surface {
    Ground,
    Machined,
    HotRolled,
    Forged,
}

/// Bending stress amplitude that a turning shaft of steel or light metal takes for ever, smooth, Se = ka·kb·kr·f·Sut.
///
/// Inputs: ultimate strength Sut (Pa); surface; diameter (m); reliability factor kr (1 for even odds, 0.814 for 99 of 100); f, the
/// share of the ultimate strength that a polished test bar takes (0.5 steel, 0.4 aluminium, 0.45 titanium).
/// Returns: stress (Pa).
/// Valid for: Sut of 300 to 1400 MPa; diameter to 51 mm by one law and to 254 mm by another; light metals have no true endurance limit,
/// theirs is that at some hundred million turns. The surface factor is at most 1.
/// Source: Marin's factors; Shigley, ch. 6, eq. 6-8 to 6-20; published.
#[must_use]
pub fn endurance(ultimate: Pressure, surface: Surface, diameter: Length, reliability: Ratio, share: Ratio) -> Pressure {
    let (a, b) = match surface {
        Surface::Ground => (1.58, -0.085),
        Surface::Machined => (4.51, -0.265),
        Surface::HotRolled => (57.7, -0.718),
        Surface::Forged => (272.0, -0.995),
    };
    let ka = (a * (ultimate.si() / 1e6).powf(b)).min(1.0);
    Pressure::from_si(ka * size_factor(diameter) * reliability.si() * share.si() * ultimate.si())
}

fn size_factor(diameter: Length) -> f64 {
    let d = diameter.si() * 1e3;
    if d <= 51.0 { 1.24 * d.powf(-0.107) } else { 1.51 * d.powf(-0.157) }
}

/// Nominal stresses and notch factors of one place of a shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Nominal, 32·M/(π·d³).
    pub bending: Pressure,
    /// Nominal, 16·T/(π·d³), of the highest torque.
    pub shear: Pressure,
    /// Lowest torque over the highest; −1 where it turns round, 1 where it stays.
    pub torque_ratio: Ratio,
    /// Fatigue notch factors in bending and in torsion.
    pub notch: (Ratio, Ratio),
}

/// Reserve of one place of a turning shaft against breaking by fatigue, 1/n = σa/Se + σm/Sut.
///
/// Inputs: the place; endurance limit Se (Pa); ultimate strength Sut (Pa).
/// Returns: n; infinite where nothing loads the place.
/// Valid for: ductile metals; bending that turns with the shaft is fully reversed.
/// Source: modified Goodman line with the distortion energy of amplitude and mean; Shigley, ch. 7, eq. 7-7; published.
#[must_use]
pub fn goodman(place: &Place, endurance: Pressure, ultimate: Pressure) -> Ratio {
    let (kf, kfs) = (place.notch.0.si(), place.notch.1.si());
    let (t, r) = (place.shear.si(), place.torque_ratio.si());
    let amplitude = (kf * place.bending.si()).hypot(3f64.sqrt() * kfs * t * (1.0 - r) / 2.0);
    let mean = 3f64.sqrt() * (kfs * t * (1.0 + r) / 2.0).abs();
    Ratio::from_si(1.0 / (amplitude / endurance.si() + mean / ultimate.si()))
}

/// How many times as thick a full round shaft has to be to take so many times the load, ∛n.
///
/// Inputs: n.
/// Returns: ratio of diameters.
/// Valid for: bending and torsion; that a thicker shaft tires a little sooner is left out.
/// Source: W = π·d³/32, textbook.
#[must_use]
pub fn thicker_by(times: Ratio) -> Ratio {
    Ratio::from_si(times.si().cbrt())
}

/// What a shaft is cut with, where no radius is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cut {
    Smooth,
    /// A step with a corner radius of a tenth of the diameter.
    RoundedStep,
    /// A step with a corner radius of a fiftieth.
    SharpStep,
    RingGroove,
    Keyway,
    CrossHole,
    Thread,
    PressedOn,
}

/// Notch factors in bending and in torsion for a first look, taken in full (Kf = Kt).
///
/// Inputs: what it is cut with.
/// Returns: bending, torsion.
/// Valid for: ductile metals; the real ones are lower where radii are generous or the steel is soft.
/// Source: Shigley, table 7-1 (steps 1.7 and 1.5, 2.7 and 2.2; keyway 2.14 and 3.0; groove 5.0 and 3.0), published, from memory; a
/// hole across, a thread and a pressed hub: common practice, no source.
#[must_use]
pub fn estimated_notch(cut: Cut) -> (Ratio, Ratio) {
    let (bending, torsion) = match cut {
        Cut::Smooth => (1.0, 1.0),
        Cut::RoundedStep => (1.7, 1.5),
        Cut::SharpStep => (2.7, 2.2),
        Cut::RingGroove => (5.0, 3.0),
        Cut::Keyway => (2.14, 3.0),
        Cut::CrossHole => (2.5, 2.0),
        Cut::Thread => (3.0, 2.0),
        Cut::PressedOn => (2.0, 1.6),
    };
    (Ratio::from_si(bending), Ratio::from_si(torsion))
}

/// Fatigue notch factor from the stress concentration, Kf = 1 + q·(Kt − 1), with Neuber's q = 1/(1 + √a/√r).
///
/// Inputs: Kt; radius at the notch's root r (m); ultimate strength (Pa); whether it is torsion.
/// Returns: Kf.
/// Valid for: steel of 340 to 1700 MPa in bending, 340 to 1500 MPa in torsion; strengths beyond are taken as the end of that range.
/// Source: Neuber's constant as Shigley, ch. 6, eq. 6-34 to 6-36, fits it over strength in ksi; published.
#[must_use]
pub fn notch_factor(concentration: Ratio, radius: Length, ultimate: Pressure, torsion: bool) -> Ratio {
    let ksi = (ultimate.si() / 6.894_757e6).clamp(50.0, if torsion { 220.0 } else { 250.0 });
    let root_a = if torsion {
        0.190 - 2.51e-3 * ksi + 1.35e-5 * ksi.powi(2) - 2.67e-8 * ksi.powi(3)
    } else {
        0.246 - 3.08e-3 * ksi + 1.51e-5 * ksi.powi(2) - 2.67e-8 * ksi.powi(3)
    };
    let radius_in = radius.si() / 0.0254;
    let q = 1.0 / (1.0 + root_a / radius_in.sqrt());
    Ratio::from_si(1.0 + q * (concentration.si() - 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mpa(x: f64) -> Pressure {
        Pressure::from_si(x * 1e6)
    }
    fn one(x: f64) -> Ratio {
        Ratio::from_si(x)
    }

    #[test]
    fn pure_bending_and_steady_torque_are_the_ends_of_the_line() {
        let place = |bending, shear, ratio| Place {
            bending: mpa(bending),
            shear: mpa(shear),
            torque_ratio: one(ratio),
            notch: (one(2.0), one(1.5)),
        };
        let n = |place: Place| goodman(&place, mpa(200.0), mpa(600.0)).si();
        assert!((n(place(50.0, 0.0, 1.0)) - 2.0).abs() < 1e-12);
        assert!((n(place(0.0, 100.0, 1.0)) - 600.0 / (3f64.sqrt() * 150.0)).abs() < 1e-12);
        assert!((n(place(0.0, 100.0, -1.0)) - 200.0 / (3f64.sqrt() * 150.0)).abs() < 1e-12);
        assert_eq!(n(place(0.0, 0.0, 1.0)), f64::INFINITY);
    }

    #[test]
    fn a_sharp_notch_in_hard_steel_counts_almost_in_full_and_a_tiny_one_hardly() {
        let kf =
            |radius: f64, strength: f64| notch_factor(one(2.5), Length::from_si(radius), mpa(strength), false).si();
        assert!(kf(3e-3, 1500.0) > 2.35 && kf(1e-5, 400.0) < 1.5);
        assert!((kf(1e3, 700.0) - 2.5).abs() < 1e-3);
        assert_eq!(notch_factor(one(1.0), Length::from_si(1e-3), mpa(700.0), true).si(), 1.0);
    }

    #[test]
    fn a_step_turned_sharp_costs_more_than_a_rounded_one_and_a_groove_the_most() {
        let kf = |cut| estimated_notch(cut).0.si();
        assert_eq!(kf(Cut::Smooth), 1.0);
        assert!(kf(Cut::RoundedStep) < kf(Cut::SharpStep) && kf(Cut::SharpStep) < kf(Cut::RingGroove));
        for cut in [Cut::Keyway, Cut::CrossHole, Cut::Thread, Cut::PressedOn] {
            assert!(kf(cut) > 1.5 && kf(cut) <= 3.0);
        }
    }

    #[test]
    fn size_laws_meet_near_fifty_millimetres() {
        let near = |d: f64| size_factor(Length::from_si(d * 1e-3));
        assert!((near(50.99) / near(51.01) - 1.0).abs() < 0.01);
        assert!(near(7.62) > 0.99 && near(7.62) < 1.01);
    }

    #[test]
    fn surface_never_makes_a_shaft_stronger_than_polished() {
        for surface in [Surface::Ground, Surface::Machined, Surface::HotRolled, Surface::Forged] {
            for strength in [300.0, 700.0, 1400.0] {
                let se = endurance(mpa(strength), surface, Length::from_si(7.62e-3), one(1.0), one(0.5)).si();
                assert!(se <= 0.5 * strength * 1e6 * size_factor(Length::from_si(7.62e-3)) + 1.0);
            }
        }
    }
}
