//! Rounding a number to one that can be bought or set: away from what is written, so that the reserve stays met.

use quantity::Kind;

/// Rounded preferred numbers R'20 of ISO 497:1973 to the series R20 of ISO 3:1973, twenty steps a decade (from memory).
const PREFERRED: [f64; 20] =
    [1.0, 1.1, 1.25, 1.4, 1.6, 1.8, 2.0, 2.2, 2.5, 2.8, 3.2, 3.6, 4.0, 4.5, 5.0, 5.6, 6.3, 7.1, 8.0, 9.0];
/// Modules of gears in mm, first series of ISO 54:1996 (from memory), and 0.5 to 0.8 that small gears are cut in.
const MODULES: [f64; 15] = [0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0];
/// Spring wire in mm, usual diameters of EN 10270-1 (from memory).
const WIRES: [f64; 40] = [
    0.5, 0.56, 0.6, 0.63, 0.7, 0.75, 0.8, 0.85, 0.9, 1.0, 1.1, 1.2, 1.25, 1.4, 1.5, 1.6, 1.7, 1.8, 2.0, 2.1, 2.25, 2.4,
    2.5, 2.6, 2.8, 3.0, 3.2, 3.4, 3.6, 3.8, 4.0, 4.25, 4.5, 4.75, 5.0, 5.3, 5.6, 6.0, 7.0, 8.0,
];
/// Rods, tubes, pins, bushes and bores of bearings in mm, as they are sold (common practice; bores of ball bearings go 10, 12,
/// 15, 17, 20 and on by fives, ISO 15, from memory).
const ROUNDS: [f64; 26] = [
    1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 14.0, 15.0, 16.0, 17.0, 18.0, 20.0, 22.0, 25.0,
    28.0, 30.0, 35.0, 40.0, 50.0,
];
/// Hoses by their bore in mm, as they are sold (common practice).
const HOSES: [f64; 10] = [3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 19.0, 25.0];
/// Sheet and plate in mm, as it is sold (common practice).
const SHEETS: [f64; 15] = [0.5, 0.8, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0];
/// Pitches of roller chains in mm (ISO 606, from memory).
const CHAINS: [f64; 6] = [6.35, 8.0, 9.525, 12.7, 15.875, 19.05];

/// Strip and blade fuses in A, as they are sold (common practice; the sizes of ISO 8820, from memory).
const FUSES: [f64; 20] = [
    5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 100.0, 125.0, 150.0, 175.0, 200.0, 250.0,
    300.0, 350.0,
];

/// Copper of wires in mm², as they are sold (nominal cross-sections of IEC 60228, from memory).
const CONDUCTORS: [f64; 15] = [0.5, 0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0, 120.0];

/// In which steps something comes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Series {
    /// A list in mm, mm² or A; beyond its ends preferred numbers.
    Sold(&'static [f64]),
    Preferred,
    Whole,
    /// Multiples of a step, in the author's unit.
    Steps(f64),
    /// Two digits.
    Rounded,
}

/// By what it is a number of, and its path.
pub(super) fn series(kind: &Kind, path: &str, symbol: &str) -> Series {
    let field = path.rsplit('.').next().unwrap_or("");
    let within = |section: &str| path.starts_with(section);
    let metric = matches!(symbol, "µm" | "mm" | "cm" | "m");
    match kind.key {
        _ if kind.whole => Series::Whole,
        "length" | "distance" if symbol == "mm" => match field {
            "module" => Series::Sold(&MODULES),
            "wire" => Series::Sold(&WIRES),
            "bore" if within("cooling.hoses.") => Series::Sold(&HOSES),
            "bore" | "rod" | "diameter" | "outer_diameter" | "pin_diameter" => Series::Sold(&ROUNDS),
            "thickness" if within("structure.parts.") => Series::Sold(&SHEETS),
            "pitch" if within("powertrain.stages.") => Series::Sold(&CHAINS),
            // Drills come by tenths.
            "hole_diameter" => Series::Steps(0.1),
            "free_length" => Series::Rounded,
            _ => Series::Preferred,
        },
        "length" | "distance" if metric => Series::Preferred,
        "wire_size" if symbol == "mm²" => Series::Sold(&CONDUCTORS),
        "current" if field == "fuse" && symbol == "A" => Series::Sold(&FUSES),
        "temperature" | "temperature_difference" | "angle" | "grade" => Series::Whole,
        // Coils are wound by halves.
        "factor" if field == "active_coils" => Series::Steps(0.5),
        _ => Series::Rounded,
    }
}

/// A size at hand beats the series when it goes no further beyond what is needed than this.
const AT_HAND: f64 = 1.25;

/// The next number of a series at or beyond `number`, upwards or downwards; strictly beyond it if asked. Sizes at hand come
/// first.
pub(super) fn round(number: f64, up: bool, strictly: bool, series: Series, at_hand: impl Iterator<Item = f64>) -> f64 {
    let beyond = |size: &f64| {
        // A hair of the search is not another size.
        let hair = 1e-9 * number.abs();
        let away = if up { size - number } else { number - size };
        if strictly { away > hair } else { away >= -hair }
    };
    let nearest = |sizes: &mut dyn Iterator<Item = f64>| {
        let fits = sizes.filter(|size| beyond(size));
        fits.min_by(|a, b| (a - number).abs().total_cmp(&(b - number).abs()))
    };
    let near = |size: &f64| size / number < AT_HAND && number / size < AT_HAND;
    if let Some(size) = nearest(&mut at_hand.filter(near)) {
        return size;
    }
    let decades = |mantissas: &[f64]| {
        let decade = if number == 0.0 { 0 } else { number.abs().log10().floor() as i32 };
        let sizes =
            (decade - 1..=decade + 1).flat_map(|decade| mantissas.iter().map(move |size| scaled(*size, decade)));
        nearest(&mut sizes.flat_map(|size| [size, -size]))
    };
    let steps = |step: f64| {
        let count = number / step;
        let whole = if up { (count - 1e-9).ceil() } else { (count + 1e-9).floor() };
        let next = if up { whole + 1.0 } else { whole - 1.0 };
        // Through decimal text, so that 7 tenths are 0.7.
        nearest(&mut [whole, next].into_iter().map(|count| tidy(count * step)))
    };
    let size = match series {
        Series::Whole => steps(1.0),
        Series::Steps(step) => steps(step),
        Series::Sold(list) => nearest(&mut list.iter().copied()).or_else(|| decades(&PREFERRED)),
        Series::Preferred => decades(&PREFERRED),
        Series::Rounded => decades(&(10..100).map(|digits| f64::from(digits) / 10.0).collect::<Vec<f64>>()),
    };
    size.unwrap_or(number)
}

fn tidy(number: f64) -> f64 {
    format!("{number:.6}").parse().unwrap_or(number)
}

fn scaled(mantissa: f64, decade: i32) -> f64 {
    // Through decimal text, so that 1.12 · 10 is 11.2.
    format!("{mantissa}e{decade}").parse().unwrap_or(mantissa)
}

/// Digits of a size, without an exponent.
pub(super) fn digits(size: f64) -> String {
    let text = format!("{size}");
    if text == "-0" { "0".into() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_lie_beyond_and_are_the_nearest() {
        for (number, up, strictly, series, expected) in [
            (17.3, true, false, Series::Preferred, "18"),
            (17.3, false, false, Series::Preferred, "16"),
            (0.0231, true, false, Series::Preferred, "0.025"),
            (12.5, true, false, Series::Preferred, "12.5"),
            (12.5, true, true, Series::Preferred, "14"),
            (12.5, false, true, Series::Preferred, "11"),
            (95.0, true, false, Series::Preferred, "100"),
            (101.0, false, false, Series::Preferred, "100"),
            (97.3, false, false, Series::Sold(&FUSES), "80"),
            (5.5, true, false, Series::Sold(&CONDUCTORS), "6"),
            (-15.2, true, false, Series::Preferred, "-14"),
            (1.3, true, false, Series::Sold(&MODULES), "1.5"),
            (2.65, true, false, Series::Sold(&WIRES), "2.8"),
            (2.65, false, false, Series::Sold(&WIRES), "2.6"),
            (10.1, true, false, Series::Sold(&ROUNDS), "12"),
            (61.0, true, false, Series::Sold(&ROUNDS), "63"),
            (6.01, true, false, Series::Whole, "7"),
            (6.0, true, false, Series::Whole, "6"),
            (6.0, true, true, Series::Whole, "7"),
            (6.0, false, true, Series::Whole, "5"),
            (-18.4, true, false, Series::Whole, "-18"),
            (1.18, false, false, Series::Steps(0.1), "1.1"),
            (0.7, true, false, Series::Steps(0.1), "0.7"),
            (6.78, false, false, Series::Steps(0.5), "6.5"),
            (61.26, false, false, Series::Rounded, "61"),
            (1234.0, true, false, Series::Rounded, "1300"),
            (0.01234, false, false, Series::Rounded, "0.012"),
        ] {
            let size = round(number, up, strictly, series, std::iter::empty());
            assert_eq!(digits(size), expected, "{number} {up} {strictly} {series:?}");
        }
    }

    #[test]
    fn what_lies_in_the_drawer_comes_first_if_it_is_not_far_off() {
        let of =
            |number: f64, up: bool| digits(round(number, up, false, Series::Preferred, [13.0, 15.0, 30.0].into_iter()));
        assert_eq!([of(12.6, true), of(15.5, false)], ["13", "15"]);
        assert_eq!([of(16.0, true), of(40.0, true)], ["16", "40"], "nothing at hand is near enough");
    }

    #[test]
    fn lists_rise() {
        for list in [&MODULES[..], &WIRES, &ROUNDS, &HOSES, &SHEETS, &CHAINS, &FUSES, &CONDUCTORS, &PREFERRED] {
            assert!(list.is_sorted_by(|a, b| a < b), "{list:?}");
        }
    }

    #[test]
    fn each_field_has_the_steps_in_which_it_is_sold() {
        use quantity::{Measure, m};
        let of = |path: &str| series(m::Length::KIND, path, "mm");
        assert_eq!(of("suspension.rear.spring.wire"), Series::Sold(&WIRES));
        assert_eq!(of("cooling.hoses.rest.bore"), Series::Sold(&HOSES));
        assert_eq!(of("powertrain.bearings.idler.bore"), Series::Sold(&ROUNDS));
        assert_eq!(of("powertrain.track.form.thickness"), Series::Preferred);
        assert_eq!(series(m::Length::KIND, "suspension.rear.spring.wire", "in"), Series::Rounded);
        assert_eq!(series(m::WireSize::KIND, "powertrain.motor.wire.size", "mm²"), Series::Sold(&CONDUCTORS));
        assert_eq!(series(m::Count::KIND, "powertrain.track.form.ears", ""), Series::Whole);
        assert_eq!(series(m::Factor::KIND, "suspension.rear.spring.active_coils", ""), Series::Steps(0.5));
    }
}
