//! A box-shaped body in air, bare or wrapped, such as a pack of cells: its surface, what its wrap lets through, and the
//! time until its middle has followed.

use super::cooling;
use quantity::*;

/// Coefficient through a wrap and the air behind it, 1/(1/h + δ/k).
///
/// Inputs: coefficient h (W/(m²·K)) of the bare surface, radiation included; thickness δ (m) and conductivity k
/// (W/(m·K)) of the wrap.
/// Returns: heat transfer coefficient (W/(m²·K)), on the area of the body.
/// Valid for: wraps thin against the body: a thick one has more outside than inside and insulates a little less.
/// Source: resistances in series; Bergman and others, Introduction to Heat Transfer, 6th edition, ch. 3; published.
#[must_use]
pub fn wrapped(bare: HeatTransfer, thickness: Length, conductivity: ThermalConductivity) -> HeatTransfer {
    HeatTransfer::from_si(1.0 / (1.0 / bare.si() + thickness.si() / conductivity.si()))
}

/// Surface of a box.
///
/// Inputs: its three edges (m).
/// Returns: area (m²).
/// Valid for: any.
/// Source: geometry.
#[must_use]
pub fn surface([a, b, c]: [Length; 3]) -> Area {
    Area::from_si(2.0 * (a.si() * b.si() + b.si() * c.si() + c.si() * a.si()))
}

/// Edges of a cube of a mass.
///
/// Inputs: mass (kg); mean density (kg/m³).
/// Returns: three edges (m).
/// Valid for: where the shape is not known. A cube has the least surface of all boxes, so it warms and cools slowest.
/// Source: geometry.
#[must_use]
pub fn cube(mass: Mass, density: MassDensity) -> [Length; 3] {
    [Length::from_si((mass.si() / density.si()).cbrt()); 3]
}

/// What a body is made of, evenly.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stuff {
    pub conductivity: ThermalConductivity,
    pub density: MassDensity,
    pub heat_capacity: SpecificHeatCapacity,
}

/// Difference left in the middle of a box suddenly put into other surroundings, over the first difference: that of three
/// crossed slabs, multiplied.
///
/// Inputs: three edges (m); coefficient (W/(m²·K)) at all six faces; what it is made of; time (s).
/// Returns: a share, 1 at first to 0 in the end.
/// Valid for: as [`cooling::slab_centre`].
/// Source: product solution; Bergman, ch. 5 (supplement), Carslaw and Jaeger, Conduction of Heat in Solids, art. 1.15;
/// published.
#[must_use]
pub fn box_centre(edges: [Length; 3], coefficient: HeatTransfer, stuff: &Stuff, time: Time) -> f64 {
    Crossed::new(edges, coefficient, stuff).left(time)
}

/// Three slabs across one another, each with its Fourier number of a second.
struct Crossed([(cooling::Slab, f64); 3]);

impl Crossed {
    fn new(edges: [Length; 3], coefficient: HeatTransfer, stuff: &Stuff) -> Self {
        Self(edges.map(|edge| {
            let half = Length::from_si(0.5 * edge.si());
            let biot = cooling::biot(coefficient, half, stuff.conductivity);
            let second = Time::from_si(1.0);
            let rate = cooling::fourier(second, half, stuff.conductivity, stuff.density, stuff.heat_capacity);
            (cooling::Slab::new(biot), rate)
        }))
    }

    fn left(&self, time: Time) -> f64 {
        self.0.iter().map(|(slab, rate)| slab.centre(rate * time.si())).product()
    }
}

/// Time until the middle of a box has reached a temperature: [`box_centre`] turned round.
///
/// Inputs: as there; temperature at first, that around it, and the one reached (K).
/// Returns: time (s), or nothing if it never gets there; nothing beyond a hundred days either.
/// Valid for: as there.
/// Source: as there.
#[must_use]
pub fn box_time(
    edges: [Length; 3],
    coefficient: HeatTransfer,
    stuff: &Stuff,
    first: ThermodynamicTemperature,
    around: ThermodynamicTemperature,
    reached: ThermodynamicTemperature,
) -> Option<Time> {
    const MOST: f64 = 100.0 * 86_400.0;
    let left = (reached.si() - around.si()) / (first.si() - around.si());
    if left >= 1.0 {
        return Some(Time::ZERO);
    }
    let crossed = Crossed::new(edges, coefficient, stuff);
    let share = |seconds: f64| crossed.left(Time::from_si(seconds));
    if left.is_nan() || left <= 0.0 || share(MOST) > left {
        return None;
    }
    Some(Time::from_si(crate::root::rising(0.0, MOST, -left, |seconds| -share(seconds))))
}

#[cfg(test)]
mod tests {
    use super::*;

    const CELLS: fn(f64) -> Stuff = |conductivity| Stuff {
        conductivity: ThermalConductivity::from_si(conductivity),
        density: MassDensity::from_si(2000.0),
        heat_capacity: SpecificHeatCapacity::from_si(1000.0),
    };

    fn edges(a: f64, b: f64, c: f64) -> [Length; 3] {
        [a, b, c].map(Length::from_si)
    }

    #[test]
    fn a_wrap_of_nothing_is_none_and_of_much_is_its_own() {
        let bare = HeatTransfer::from_si(8.0);
        let foam = |mm: f64| wrapped(bare, Length::from_si(mm * 1e-3), ThermalConductivity::from_si(0.04)).si();
        assert!((foam(0.0) - 8.0).abs() < 1e-12);
        // 10 mm of 0.04 W/(m·K) alone lets 4 W/(m²·K) through; with 8 in front: 8/3.
        assert!((foam(10.0) - 8.0 / 3.0).abs() < 1e-12);
        assert!((foam(1000.0) / 0.04 - 1.0).abs() < 0.005);
    }

    #[test]
    fn geometry() {
        assert!((surface(edges(1.0, 2.0, 3.0)).si() - 22.0).abs() < 1e-12);
        let cube = cube(Mass::from_si(2.0), MassDensity::from_si(2000.0));
        assert!(cube.iter().all(|edge| (edge.si() - 0.1).abs() < 1e-12));
    }

    #[test]
    fn a_box_that_conducts_well_is_lumped() {
        // m·cp over h·A by hand: 2 kg·1000/(8·0.06) = 4167 s.
        let (cube, h) = (edges(0.1, 0.1, 0.1), HeatTransfer::from_si(8.0));
        let tau = 2000.0 / (8.0 * 0.06);
        for share in [0.5, 1.0, 2.0] {
            let left = box_centre(cube, h, &CELLS(200.0), Time::from_si(share * tau));
            assert!((left - (-share).exp()).abs() < 2e-3, "{left}");
        }
        let slow = box_centre(cube, h, &CELLS(0.5), Time::from_si(tau));
        assert!(slow > (-1f64).exp() + 0.05, "{slow}");
    }

    #[test]
    fn a_flat_box_is_a_slab() {
        let (flat, h, stuff) = (edges(0.02, 50.0, 50.0), HeatTransfer::from_si(30.0), CELLS(0.5));
        let half = Length::from_si(0.01);
        let time = Time::from_si(600.0);
        let bi = cooling::biot(h, half, stuff.conductivity);
        let fo = cooling::fourier(time, half, stuff.conductivity, stuff.density, stuff.heat_capacity);
        assert!((box_centre(flat, h, &stuff, time) - cooling::slab_centre(bi, fo)).abs() < 1e-6);
    }

    #[test]
    fn time_there_and_back() {
        let (pack, h, stuff) = (edges(0.2, 0.15, 0.09), HeatTransfer::from_si(2.7), CELLS(0.8));
        let (cold, room) = (celsius(-30.0), celsius(20.0));
        let time = |to: f64| box_time(pack, h, &stuff, cold, room, celsius(to));
        let five = time(5.0).unwrap();
        assert!((box_centre(pack, h, &stuff, five) - 15.0 / 50.0).abs() < 1e-9);
        // Some hours, in foam.
        assert!(five.si() > 3.0 * 3600.0 && five.si() < 12.0 * 3600.0, "{}", five.si());
        assert!(time(19.0).unwrap() > five && time(20.0).is_none() && time(25.0).is_none());
        assert_eq!(time(-35.0).unwrap().si(), 0.0);
    }
}
