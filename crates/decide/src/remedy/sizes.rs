//! Rounding a number to one that can be bought or set: away from what is written, so that the reserve stays met.

use quantity::Kind;

/// R20 of ISO 3:1973, preferred numbers (published): twenty steps a decade.
const R20: [f64; 20] =
    [1.0, 1.12, 1.25, 1.4, 1.6, 1.8, 2.0, 2.24, 2.5, 2.8, 3.15, 3.55, 4.0, 4.5, 5.0, 5.6, 6.3, 7.1, 8.0, 9.0];
/// Modules of gears in mm, first series of ISO 54:1996 (from memory), and 0.5 to 0.8 that small gears are cut in.
const MODULES: [f64; 15] = [0.5, 0.6, 0.8, 1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0];

/// In which steps something comes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Series {
    Preferred,
    Modules,
    Whole,
    /// Two digits.
    Rounded,
}

/// By what it is a number of, and the name of its field.
pub(super) fn series(kind: &Kind, field: &str, symbol: &str) -> Series {
    let metric = matches!(symbol, "µm" | "mm" | "cm" | "m");
    match kind.key {
        _ if kind.whole => Series::Whole,
        "length" | "distance" if field == "module" && symbol == "mm" => Series::Modules,
        "length" | "distance" if metric => Series::Preferred,
        "temperature" | "temperature_difference" | "angle" | "grade" => Series::Whole,
        _ => Series::Rounded,
    }
}

/// The next number of a series at or beyond `number`, upwards or downwards; strictly beyond it if asked.
pub(super) fn round(number: f64, up: bool, strictly: bool, series: Series) -> f64 {
    let beyond = |size: f64| {
        // A hair of the search is not another size.
        let hair = 1e-9 * number.abs();
        let away = if up { size - number } else { number - size };
        if strictly { away > hair } else { away >= -hair }
    };
    let decades = |mantissas: &[f64]| {
        let decade = if number == 0.0 { 0 } else { number.abs().log10().floor() as i32 };
        let mut sizes: Vec<f64> = (decade - 1..=decade + 1)
            .flat_map(|decade| mantissas.iter().map(move |mantissa| scaled(*mantissa, decade)))
            .flat_map(|size| [size, -size])
            .collect();
        sizes.sort_by(f64::total_cmp);
        sizes
    };
    let sizes = match series {
        Series::Whole => {
            let size = if up { number.ceil() } else { number.floor() };
            let hair = if up { (number - 1e-9).ceil() } else { (number + 1e-9).floor() };
            let step = if up { 1.0 } else { -1.0 };
            return if strictly && !beyond(size) {
                size + step
            } else if strictly {
                size
            } else {
                hair
            };
        }
        Series::Preferred => decades(&R20),
        Series::Modules => MODULES.to_vec(),
        Series::Rounded => decades(&(10..100).map(|digits| f64::from(digits) / 10.0).collect::<Vec<f64>>()),
    };
    let mut fits = sizes.into_iter().filter(|size| beyond(*size));
    (if up { fits.next() } else { fits.next_back() }).unwrap_or(number)
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
            (12.5, false, true, Series::Preferred, "11.2"),
            (95.0, true, false, Series::Preferred, "100"),
            (101.0, false, false, Series::Preferred, "100"),
            (-15.2, true, false, Series::Preferred, "-14"),
            (1.3, true, false, Series::Modules, "1.5"),
            (6.01, true, false, Series::Whole, "7"),
            (6.0, true, false, Series::Whole, "6"),
            (6.0, true, true, Series::Whole, "7"),
            (6.0, false, true, Series::Whole, "5"),
            (-18.4, true, false, Series::Whole, "-18"),
            (61.26, false, false, Series::Rounded, "61"),
            (1234.0, true, false, Series::Rounded, "1300"),
            (0.01234, false, false, Series::Rounded, "0.012"),
        ] {
            assert_eq!(digits(round(number, up, strictly, series)), expected, "{number} {up} {strictly} {series:?}");
        }
    }
}
