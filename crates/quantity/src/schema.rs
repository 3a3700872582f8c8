//! The shape of a written value as a regular expression (ECMA-262, for a JSON Schema): it accepts exactly what `read`
//! does not refuse by its shape. Only alternation, classes and repetition, so that any engine runs it in linear time.

use crate::designation::GAUGES;
use crate::m;
use crate::measure::{Kind, Measure};
use crate::read::Stated;
use crate::scan::{BLANKS, HUGGING, PLUS_MINUS, shares, signed};

/// Digits with a point and an exponent, without sign.
const NUMBER: &str = r"(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?";

/// A pattern for [`read`](crate::read()).
#[must_use]
pub fn pattern(kind: &Kind) -> String {
    let gap = gap();
    if kind == m::WireSize::KIND {
        return format!("^{gap}*(?:{GAUGES}{gap}+AWG|{}){gap}*$", value(kind));
    }
    format!("^{gap}*{}{gap}*$", value(kind))
}

/// A pattern for [`read_range`](crate::read_range).
#[must_use]
pub fn range_pattern(kind: &Kind) -> String {
    let (gap, value, number) = (gap(), value(kind), number(kind));
    format!("^{gap}*(?:(?:{value}|{number}){gap}+to{gap}+)?{value}{gap}*$")
}

pub(crate) fn gap() -> String {
    let escaped: String =
        BLANKS.iter().map(|c| if *c == ' ' { " ".into() } else { format!("\\u{:04x}", u32::from(*c)) }).collect();
    format!("[{escaped}]")
}

/// One value with its tail, without anchors.
pub(crate) fn value(kind: &Kind) -> String {
    let unit = if kind.bare { format!("(?:{})?", unit(kind, false)) } else { unit(kind, false) };
    let unit = if kind.units.is_empty() { String::new() } else { unit };
    format!("{}{unit}{}", number(kind), tail(kind))
}

/// Number and unit alone.
pub(crate) fn plain(kind: &Kind) -> String {
    format!("{}{}", number(kind), unit(kind, false))
}

fn number(kind: &Kind) -> String {
    let sign = if signed(kind) { "[+−-]?" } else { r"\+?" };
    format!("{sign}{}", if kind.whole { "[0-9]+" } else { NUMBER })
}

/// A unit with the blanks before it.
fn unit(kind: &Kind, or_share: bool) -> String {
    let gap = gap();
    let spellings = kind.units.iter().flat_map(|unit| std::iter::once(&unit.symbol).chain(unit.also)).copied();
    let share = if or_share { Some("%") } else { None };
    let (hugging, apart): (Vec<&str>, Vec<&str>) = spellings.chain(share).partition(|s| HUGGING.contains(s));
    match (hugging.is_empty(), apart.is_empty()) {
        (true, _) => format!("{gap}+{}", any(&apart)),
        (_, true) => format!("{gap}*{}", any(&hugging)),
        _ => format!("(?:{gap}*{}|{gap}+{})", any(&hugging), any(&apart)),
    }
}

fn tail(kind: &Kind) -> String {
    let gap = gap();
    let share = shares(kind);
    let unit = if kind.units.is_empty() && !share { String::new() } else { format!("(?:{})?", unit(kind, share)) };
    let tolerance = format!("{gap}*{}{gap}*{NUMBER}{unit}", any(&PLUS_MINUS));
    let basis = format!("{gap}*{}", any(&Stated::ALL.map(Stated::written)));
    format!("(?:(?:{tolerance})?(?:{basis})?|{basis}{tolerance})")
}

pub(crate) fn any(words: &[&str]) -> String {
    format!("(?:{})", words.iter().map(|word| escaped(word)).collect::<Vec<_>>().join("|"))
}

/// Only the syntax characters, as the unicode mode of ECMA-262 wants it.
fn escaped(word: &str) -> String {
    let mut out = String::with_capacity(word.len());
    for c in word.chars() {
        if r"^$\.*+?()[]{}|".contains(c) {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn patterns_know_shape_but_not_size() {
        let length = regex::Regex::new(&pattern(m::Length::KIND)).unwrap();
        for text in ["12 mm", "1.9e-3 m ± 5 %", "12 \"", "12\"", "0 mm", "1e999 mm", "5 m ± 9 m (guess)"] {
            assert!(length.is_match(text), "{text}");
        }
        for text in ["", "12", "12mm", "-3 mm", "12 Mm", "12 mm²", "1,5 mm", "12 mm (w)", "12 mm to 13 mm", "12 mm\n"]
        {
            assert!(!length.is_match(text), "{text}");
        }
        let air = regex::Regex::new(&range_pattern(m::Temperature::KIND)).unwrap();
        for text in ["-30 °C to 8 °C", "-30 to 8 °C", "−30 °C", "8 °C to -30 °C", "-300 °C"] {
            assert!(air.is_match(text), "{text}");
        }
        for text in ["-30 °C - 8 °C", "-30 °Cto 8 °C", "-30 to 8", "20 °C ± 5 %"] {
            assert!(!air.is_match(text), "{text}");
        }
    }
}
