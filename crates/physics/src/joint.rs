//! Joints between shaft and hub: what torque each holds. Every function gives the torque at which the joint lets go; pressure and
//! shear stresses that are allowed go in, load factors stay outside.

mod sizes;

pub use sizes::{Key, Spline, parallel_key, parallel_spline, set_screw_holding};

use quantity::*;
use std::f64::consts::PI;

/// Torque at which the side of a parallel key is crushed, T = p·(h − t)·l·d/2.
///
/// Inputs: crushing pressure p (Pa) of the softest of key, shaft and hub; shaft diameter d (m); key; length l (m) that bears.
/// Returns: torque (N·m).
/// Valid for: one key, lengths up to 1.3·d; longer ends carry little.
/// Source: DIN 6892, method C, published; Shigley, ch. 7.
#[must_use]
pub fn key_crushing(pressure: Pressure, shaft: Length, key: &Key, length: Length) -> Torque {
    let in_hub = key.height.si() - key.depth_in_shaft.si();
    let bears = length.si().min(1.3 * shaft.si());
    Torque::from_si(pressure.si() * in_hub * bears * shaft.si() / 2.0)
}

/// Torque at which a parallel key is sheared, T = τ·b·l·d/2.
///
/// Inputs: shear strength τ (Pa) of the key; shaft diameter d (m); key; length l (m).
/// Returns: torque (N·m).
/// Valid for: as [`key_crushing`].
/// Source: Shigley, ch. 7, published.
#[must_use]
pub fn key_shear(shear: Pressure, shaft: Length, key: &Key, length: Length) -> Torque {
    Torque::from_si(shear.si() * key.width.si() * length.si().min(1.3 * shaft.si()) * shaft.si() / 2.0)
}

/// Torque at which a pin through hub and shaft is sheared, T = τ·(π·dp²/4)·d: two sections, each at half the shaft's diameter.
///
/// Inputs: shear strength τ (Pa) of the pin; its diameter dp (m); shaft diameter d (m).
/// Returns: torque (N·m).
/// Valid for: close holes, pins of up to a third of the shaft.
/// Source: textbook; Roloff/Matek, Maschinenelemente, ch. 9, published.
#[must_use]
pub fn pin_shear(shear: Pressure, pin: Length, shaft: Length) -> Torque {
    Torque::from_si(shear.si() * PI * pin.si().powi(2) / 4.0 * shaft.si())
}

/// Torque at which a pin through hub and shaft crushes the hub's hole, T = p·dp·(D² − d²)/4.
///
/// Inputs: crushing pressure p (Pa) of the hub; pin dp (m); shaft diameter d (m); outside diameter D (m) of the hub.
/// Returns: torque (N·m).
/// Valid for: even pressure along the hole in both walls.
/// Source: textbook; Roloff/Matek, ch. 9, published.
#[must_use]
pub fn pin_crushing_hub(pressure: Pressure, pin: Length, shaft: Length, outside: Length) -> Torque {
    Torque::from_si(pressure.si() * pin.si() * (outside.si().powi(2) - shaft.si().powi(2)) / 4.0)
}

/// Torque at which a hexagon crushes the flats of its hole, T = p·s²·l/4: half of each flat bears, at a quarter of its length.
///
/// Inputs: crushing pressure p (Pa), even over the bearing halves; width across flats s (m); length l (m).
/// Returns: torque (N·m).
/// Valid for: hexagons with a little play. The pressure peaks at the corners; that is taken off the strength.
/// Source: equilibrium of six halves of a side a = s/√3, T = 6·p·(a/2)·l·(a/4); that halves bear: common practice, no source.
#[must_use]
pub fn hex_crushing(pressure: Pressure, across_flats: Length, length: Length) -> Torque {
    Torque::from_si(pressure.si() * across_flats.si().powi(2) * length.si() / 4.0)
}

/// Torque at which the flat of a D-shaped shaft crushes its hole, T = p·w²·l/8, w the width of the flat.
///
/// Inputs: crushing pressure p (Pa); shaft diameter d (m); thickness h (m) left from the flat to the far side; length l (m).
/// Returns: torque (N·m); nothing where there is no flat.
/// Valid for: one flat with a little play, half of which bears; friction left out.
/// Source: equilibrium; the half: common practice, no source.
#[must_use]
pub fn flat_crushing(pressure: Pressure, shaft: Length, left: Length, length: Length) -> Torque {
    let (radius, from_middle) = (shaft.si() / 2.0, left.si() - shaft.si() / 2.0);
    let width_squared = 4.0 * (radius.powi(2) - from_middle.powi(2)).max(0.0);
    Torque::from_si(pressure.si() * width_squared * length.si() / 8.0)
}

/// Torque at which straight-sided splines are crushed, T = 0.75·p·z·h·l·r.
///
/// Inputs: crushing pressure p (Pa); spline; length l (m).
/// Returns: torque (N·m).
/// Valid for: sides that share unevenly: three quarters of them bear.
/// Source: Roloff/Matek, ch. 12, published.
#[must_use]
pub fn spline_crushing(pressure: Pressure, spline: &Spline, length: Length) -> Torque {
    let (inner, outer) = (spline.inner.si(), spline.outer.si());
    let (height, radius) = ((outer - inner) / 2.0, (outer + inner) / 4.0);
    Torque::from_si(0.75 * pressure.si() * spline.teeth.si() * height * length.si() * radius)
}

/// Torque at which a clamped hub slips, T = n·F·µ·d.
///
/// Inputs: screws n; preload F (N) of each; friction coefficient µ; shaft diameter d (m).
/// Returns: torque (N·m).
/// Valid for: a split hub that touches along two lines, the safe side; one that fits all round holds up to π/2 as much.
/// Source: Roloff/Matek, ch. 12, published.
#[must_use]
pub fn clamp_slip(screws: Ratio, preload: Force, friction: Ratio, shaft: Length) -> Torque {
    Torque::from_si(screws.si() * preload.si() * friction.si() * shaft.si())
}

/// Torque at which set screws slip on their shaft, T = F·d/2 for the first and half as much for each further one.
///
/// Inputs: holding force F (N) of one; screws, one or more; shaft diameter d (m).
/// Returns: torque (N·m).
/// Valid for: cup points, screws tightened to their table's torque, shafts softer than the screw.
/// Source: Shigley, ch. 7, published; the half for further screws: common practice, no source.
#[must_use]
pub fn set_screw_slip(holding: Force, screws: Ratio, shaft: Length) -> Torque {
    Torque::from_si(holding.si() * shaft.si() / 2.0 * (1.0 + 0.5 * (screws.si() - 1.0).max(0.0)))
}

/// Torque at which a glued hub turns on its shaft, T = τ·π·d²·l/2.
///
/// Inputs: shear strength τ (Pa) of the bond; shaft diameter d (m); length l (m).
/// Returns: torque (N·m).
/// Valid for: lengths up to about the diameter; longer bonds are not used evenly.
/// Source: textbook: shear over the cylinder at half the diameter.
#[must_use]
pub fn glue_shear(shear: Pressure, shaft: Length, length: Length) -> Torque {
    Torque::from_si(shear.si() * PI * shaft.si().powi(2) * length.si() / 2.0)
}

/// Highest pressure in a bore whose load does not pass through its middle, p = F/(d·l)·(1 + 6·e/l).
///
/// Inputs: force F (N) across the axis; bore d (m); length l (m); offset e (m) from the middle of the bore.
/// Returns: pressure (Pa) at the end that is pressed most.
/// Valid for: a bore that fits its shaft; from e = l/6 on only part of it touches and the true peak is higher still: up to e = l/2,
/// 2/(3·(1/2 − e/l)) is taken instead.
/// Source: pressure that rises evenly along the bore, textbook.
#[must_use]
pub fn tilted_pressure(force: Force, bore: Length, length: Length, offset: Length) -> Pressure {
    let share = offset.si().abs() / length.si();
    let raised = if share <= 1.0 / 6.0 { 1.0 + 6.0 * share } else { 2.0 / (3.0 * (0.5 - share).max(1e-3)) };
    Pressure::from_si(force.si() / (bore.si() * length.si()) * raised)
}

/// Stress in the wall of a hub that is pulled against its shaft, F/((D − d)·l)·Kt.
///
/// Inputs: force F (N); outside diameter D (m); bore d (m); length l (m).
/// Returns: tension (Pa) at the side of the bore.
/// Valid for: walls of a tenth of the bore and more; Kt = 2 + (1 − d/D)³ of a hole in a strip, taken for the pin that fills it.
/// Source: net section of a lug, Shigley, ch. 8; Kt: Heywood's fit for a hole in a strip, Peterson's Stress Concentration Factors,
/// published; that it also serves a filled hole: common practice, no source.
#[must_use]
pub fn hub_wall_stress(force: Force, outside: Length, bore: Length, length: Length) -> Pressure {
    let wall = (outside.si() - bore.si()).max(0.0);
    let notch = 2.0 + (1.0 - bore.si() / outside.si()).powi(3);
    Pressure::from_si(force.si() / (wall * length.si()) * notch)
}

/// Hoop stress in the wall of a hub whose hexagon spreads it: half of the circumference is pressed, Lamé for half that pressure.
///
/// Inputs: torque T (N·m); width across flats s (m); length l (m); outside diameter D (m) of the hub.
/// Returns: tension (Pa) at the hole, before the notch of its corners; without end where there is no wall.
/// Valid for: hexagons with a little play, round hubs.
/// Source: pressure p = 4·T/(s²·l) of [`hex_crushing`]; Lamé, Shigley, ch. 3, published; the half: common practice, no source.
#[must_use]
pub fn hex_spreading(torque: Torque, across_flats: Length, length: Length, outside: Length) -> Pressure {
    let pressure = 4.0 * torque.si() / (across_flats.si().powi(2) * length.si());
    let (hole, rim) = (across_flats.si().powi(2), outside.si().powi(2));
    Pressure::from_si(0.5 * pressure * (rim + hole) / (rim - hole).max(0.0))
}

#[cfg(test)]
mod tests;
