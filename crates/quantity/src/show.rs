//! Printing a number back in the author's own unit, so that what is printed reads again.

use crate::measure::{Kind, Unit};
use crate::read::read;

/// Significant digits of a printed number.
pub const DIGITS: usize = 3;

/// Units that only an author picks: the shop's, and those between the steps of a thousand.
const BY_AUTHORS_ONLY: [&str; 37] = [
    "cm", "in", "ft", "thou", "in²", "lb", "oz", "g/mm", "m/s", "mph", "ft/s", "kgf", "lbf", "N·cm", "kgf·cm",
    "lbf·ft", "lbf·in", "hPa", "mbar", "bar", "psi", "ksi", "rad", "mrad", "g/cm³", "kg/L", "g/L", "Wh", "kWh", "hp",
    "kN/m", "kgf/mm", "lbf/in", "N·s/mm", "‰", "1/min", "rad/s",
];
/// The same, in one measure only.
const BY_AUTHORS_ONLY_IN: [(&str, &str); 7] = [
    ("altitude", "km"),
    ("stress", "GPa"),
    ("rotational_speed", "Hz"),
    ("charge", "C"),
    ("flow_rate", "m³/s"),
    ("flow_rate", "mL/s"),
    ("flow_rate", "L/h"),
];

/// In the author's unit, or in one that suits the size.
#[must_use]
pub fn show(si: f64, kind: &Kind, unit: Option<&Unit>) -> String {
    if kind.bare && unit.is_none() {
        return show_bare(si, kind);
    }
    let Some(unit) = unit.or_else(|| unit_for(si, kind)) else { return show_bare(si, kind) };
    let number = (si - unit.offset) / unit.factor;
    if !number.is_finite() {
        return words(number);
    }
    let digits = if unit.offset != 0.0 || kind.key == "temperature" { tenths(number) } else { significant(number) };
    format!("{digits} {}", unit.symbol)
}

/// On which side of a number one must stay.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    AtLeast,
    AtMost,
}

/// A number to keep to, rounded to the safe side, as [`show`] prints it, and the SI number that the print reads as. None
/// where no finite number of this kind would do.
#[must_use]
pub fn show_bound(si: f64, kind: &'static Kind, unit: Option<&'static Unit>, bound: Bound) -> Option<(String, f64)> {
    let unit = if kind.bare { unit } else { unit.or_else(|| unit_for(si, kind)) };
    let (factor, offset) = unit.map_or((1.0, 0.0), |unit| (unit.factor, unit.offset));
    let number = (si - offset) / factor;
    if !number.is_finite() {
        return None;
    }
    let step = if kind.whole {
        1.0
    } else if offset != 0.0 || kind.key == "temperature" {
        0.1
    } else if number == 0.0 {
        return None;
    } else {
        10_f64.powi(number.abs().log10().floor() as i32 + 1 - DIGITS as i32)
    };
    // The print decides, not the arithmetic: what reads as too little goes one step on.
    let (nearest, away) = ((number / step).round(), if bound == Bound::AtLeast { step } else { -step });
    let printed = [-1.0, 0.0, 1.0, 2.0].into_iter().filter_map(|steps| {
        let text = show((nearest * step + steps * away) * factor + offset, kind, unit);
        let reads = read(&text, kind).ok()?.si;
        Some((text, reads))
    });
    let safe = |reads: f64| if bound == Bound::AtLeast { reads >= si } else { reads <= si };
    printed.into_iter().find(|(_, reads)| safe(*reads))
}

/// A ratio, or a count with all its digits.
#[must_use]
pub fn show_bare(number: f64, kind: &Kind) -> String {
    if !number.is_finite() {
        words(number)
    } else if kind.whole {
        signless_zero(format!("{number:.0}"))
    } else {
        significant(number)
    }
}

/// Neither reads back, and neither should.
fn words(number: f64) -> String {
    if number.is_nan() { "not known".into() } else { "no limit".into() }
}

/// The largest unit that still gives one or more; the smallest where none does.
#[must_use]
pub fn unit_for(si: f64, kind: &Kind) -> Option<&'static Unit> {
    let usual = kind.units.first()?;
    if si == 0.0 || !si.is_finite() || usual.offset != 0.0 {
        return Some(usual);
    }
    let ours = |unit: &&Unit| {
        !BY_AUTHORS_ONLY.contains(&unit.symbol) && !BY_AUTHORS_ONLY_IN.contains(&(kind.key, unit.symbol))
    };
    // A hair below one is printed as one.
    let fits = |unit: &&Unit| si.abs() / unit.factor >= 0.9995;
    let units = || kind.units.iter().filter(ours);
    let larger = |best: &'static Unit, unit: &'static Unit| if unit.factor > best.factor { unit } else { best };
    let smaller = |best: &'static Unit, unit: &'static Unit| if unit.factor < best.factor { unit } else { best };
    units().filter(fits).reduce(larger).or_else(|| units().reduce(smaller)).or(Some(usual))
}

fn tenths(number: f64) -> String {
    signless_zero(without_trailing_zeros(format!("{number:.1}")))
}

fn significant(number: f64) -> String {
    if number == 0.0 {
        return "0".into();
    }
    let scientific = format!("{number:.*e}", DIGITS - 1);
    // Rounded first: 0.00009999 has the size of 0.0001.
    let rounded: f64 = scientific.parse().unwrap_or(number);
    let (mantissa, exponent) = scientific.split_once('e').unwrap_or((&scientific, "0"));
    if !(1e-4..1e7).contains(&rounded.abs()) {
        return format!("{}e{exponent}", without_trailing_zeros(mantissa.to_owned()));
    }
    let decade: i32 = exponent.parse().unwrap_or(0);
    let last = i32::try_from(DIGITS).unwrap_or(0) - 1 - decade;
    without_trailing_zeros(format!("{rounded:.*}", usize::try_from(last).unwrap_or(0)))
}

fn without_trailing_zeros(digits: String) -> String {
    if digits.contains('.') { digits.trim_end_matches('0').trim_end_matches('.').to_owned() } else { digits }
}

fn signless_zero(digits: String) -> String {
    if digits == "-0" { "0".into() } else { digits }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::m;
    use crate::measure::Measure;
    use crate::read::unit_of;

    #[test]
    fn a_bound_is_rounded_to_the_safe_side_and_reads_as_told() {
        let told = |si: f64, kind, text: &str, bound| show_bound(si, kind, unit_of(text, kind), bound).unwrap().0;
        let (least, most) = (Bound::AtLeast, Bound::AtMost);
        assert_eq!(told(23.412e-3, m::Length::KIND, "12 mm", least), "23.5 mm");
        assert_eq!(told(23.412e-3, m::Length::KIND, "12 mm", most), "23.4 mm");
        assert_eq!(told(23.4e-3, m::Length::KIND, "12 mm", least), "23.4 mm");
        assert_eq!(told(99.91e-3, m::Length::KIND, "12 mm", least), "100 mm");
        assert_eq!(told(7.0e-3, m::Length::KIND, "0.5 in", most), "0.275 in");
        assert_eq!(told(268.11, m::Temperature::KIND, "5 °C", least), "-5 °C");
        assert_eq!(told(268.11, m::Temperature::KIND, "5 °C", most), "-5.1 °C");
        assert_eq!(told(12.2, m::Count::KIND, "4", least), "13");
        assert_eq!(told(12.2, m::Count::KIND, "4", most), "12");
        assert_eq!(show_bound(f64::INFINITY, m::Length::KIND, None, least), None);
        assert_eq!(show_bound(-1.0, m::Length::KIND, None, most), None);
        let mut si = 1e-4;
        while si < 1e4 {
            for bound in [least, most] {
                let (text, reads) = show_bound(si, m::Mass::KIND, unit_of("1 kg", m::Mass::KIND), bound).unwrap();
                assert_eq!(read(&text, m::Mass::KIND).unwrap().si.to_bits(), reads.to_bits());
                assert!(
                    (if bound == least { reads - si } else { si - reads }) >= 0.0 && (reads / si - 1.0).abs() < 0.011
                );
            }
            si *= 1.0173;
        }
    }

    #[test]
    fn a_suitable_unit_and_three_digits() {
        for (si, kind, expected) in [
            (0.0031, m::Length::KIND, "3.1 mm"),
            (3500.0, m::Length::KIND, "3.5 km"),
            (0.0, m::Distance::KIND, "0 mm"),
            (-0.015, m::Position::KIND, "-15 mm"),
            (1400.0, m::Altitude::KIND, "1400 m"),
            (1.2e6, m::Pressure::KIND, "1.2 MPa"),
            (101_325.0, m::Pressure::KIND, "101 kPa"),
            (1.2e9, m::Stress::KIND, "1200 MPa"),
            (0.0022, m::Area::KIND, "22 cm²"),
            (2100.0, m::Duration::KIND, "35 min"),
            (243.15, m::Temperature::KIND, "-30 °C"),
            (273.149, m::Temperature::KIND, "0 °C"),
            (293.47, m::Temperature::KIND, "20.3 °C"),
            (921.53, m::RotationalSpeed::KIND, "8800 rpm"),
            (0.4, m::Percentage::KIND, "40 %"),
            (1.9e-3, m::Inertia::KIND, "19 kg·cm²"),
            (f64::INFINITY, m::Length::KIND, "no limit"),
            (0.6234, m::Ratio::KIND, "0.623"),
            (1234.0, m::Count::KIND, "1234"),
            (5e-9, m::Length::KIND, "0.005 µm"),
            (1e-12, m::Length::KIND, "1e-6 µm"),
            (0.9999, m::Mass::KIND, "1 kg"),
        ] {
            assert_eq!(show(si, kind, None), expected);
        }
    }

    #[test]
    fn the_authors_own_unit() {
        let unit = unit_of("1.5 in ± 5 %", m::Length::KIND);
        assert_eq!(show(0.0508, m::Length::KIND, unit), "2 in");
        let unit = unit_of("-20 to 40 F", m::Temperature::KIND);
        assert_eq!(show(273.15, m::Temperature::KIND, unit), "32 °F");
        assert_eq!(unit_of("12", m::Length::KIND), None);
    }
}
