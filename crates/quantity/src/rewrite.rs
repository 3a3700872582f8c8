//! The same text with another number in it: the author's unit and spelling stay.

use crate::measure::Kind;
use crate::read::{read, read_range};
use crate::scan;

/// Which number of a text is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The low end of a range, or the only number.
    Low,
    High,
}

/// `12 mm ± 1 mm (measured)` with 14 in it is `14 mm ± 1 mm`: a number that is aimed at has not been measured. A tolerance
/// that no longer fits goes too. `number` is in the unit in which the old one stands. None when the text, or what would
/// become of it, does not read.
#[must_use]
pub fn rewritten(text: &str, kind: &'static Kind, end: End, number: &str) -> Option<String> {
    let (low, high) = scan::range(text, kind).ok()?;
    let (part, ranged) = match (end, high) {
        (End::Low, high) => (low, high.is_some()),
        (End::High, Some(high)) => (high, true),
        (End::High, None) => (low, false),
    };
    let upto = |stop: usize| {
        let (before, after) = (text.get(..part.number_at.start)?, text.get(part.number_at.end..stop)?);
        Some(format!("{before}{number}{after}"))
    };
    if ranged {
        return upto(text.len()).filter(|text| read_range(text, kind).is_ok());
    }
    let tolerance = part.tolerance.as_ref().map_or(part.value_at.end, |tolerance| tolerance.at.end);
    [tolerance, part.value_at.end].into_iter().filter_map(upto).find(|text| read(text, kind).is_ok())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::m;
    use crate::measure::Measure;

    #[test]
    fn the_unit_stays_and_the_basis_goes() {
        for (text, kind, end, number, expected) in [
            ("12 mm", m::Length::KIND, End::Low, "14", Some("14 mm")),
            ("12 mm ± 1 mm (measured)", m::Length::KIND, End::Low, "14", Some("14 mm ± 1 mm")),
            ("41 kg ± 5 % (weighed)", m::Mass::KIND, End::Low, "20", Some("20 kg ± 5 %")),
            ("41 kg ± 30 kg", m::Mass::KIND, End::Low, "20", Some("20 kg")),
            ("0.5 in (label)", m::Length::KIND, End::Low, "0.6", Some("0.6 in")),
            ("4", m::Count::KIND, End::Low, "5", Some("5")),
            ("-30 to 8 °C (guess)", m::Temperature::KIND, End::Low, "-18", Some("-18 to 8 °C (guess)")),
            ("-30 °C to 8 °C", m::Temperature::KIND, End::High, "4", Some("-30 °C to 4 °C")),
            ("-30 °C to 8 °C", m::Temperature::KIND, End::High, "-40", None),
            ("5 mm", m::Length::KIND, End::Low, "0", None),
        ] {
            assert_eq!(rewritten(text, kind, end, number).as_deref(), expected, "{text}");
        }
    }
}
