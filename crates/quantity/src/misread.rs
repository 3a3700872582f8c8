//! The words for a text that cannot be read: what is wrong, where, and what was probably meant.

use crate::guess::{self, Mark};
use crate::measure::{Kind, Unit};
use crate::read::Stated;
use crate::scan::{self, BLANKS};
use crate::show::{show, show_bare};
use std::ops::Range;

/// Why a text was refused, in words for the person who wrote it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Misread {
    /// Bytes of the text: the unit or the number that is wrong.
    pub span: Range<usize>,
    pub says: String,
    pub help: String,
    pub class: MisreadClass,
}

/// Who else refuses the text.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum MisreadClass {
    /// The schema's pattern refuses it too.
    Shape,
    /// Only arithmetic or the calendar shows it.
    Value,
}

#[derive(Debug, Clone)]
pub(crate) struct Snag {
    pub(crate) what: What,
    pub(crate) span: Range<usize>,
    /// The number read last.
    pub(crate) number: Range<usize>,
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum What {
    NoNumber,
    SpacedSign,
    Negative,
    NotWhole,
    NoBlank,
    Unit,
    ToleranceNumber,
    ToleranceUnit,
    Basis,
    Rest,
    Below,
    Above,
    TooLarge,
    WideTolerance,
    UpsideDown {
        second: usize,
        /// Where only the high end has one.
        unit: Option<&'static Unit>,
    },
}

impl What {
    fn class(self) -> MisreadClass {
        match self {
            Self::Below | Self::Above | Self::TooLarge | Self::WideTolerance | Self::UpsideDown { .. } => {
                MisreadClass::Value
            }
            _ => MisreadClass::Shape,
        }
    }
}

pub(crate) fn cut(text: &str, span: Range<usize>) -> &str {
    text.get(span).unwrap_or("")
}

/// What a kind is called inside a sentence: its name up to the comma, without its bound.
pub(crate) fn name(kind: &Kind) -> &'static str {
    let name = kind.name.split(',').next().unwrap_or(kind.name);
    name.strip_suffix(" above zero").unwrap_or(name)
}

fn must(kind: &Kind) -> &'static str {
    if kind.bounds.above_least { "above zero" } else { "zero or more" }
}

/// `mm, cm or m`.
fn accepted(kind: &Kind) -> String {
    let symbols: Vec<_> = kind.units.iter().map(|unit| unit.symbol).collect();
    match symbols.split_last() {
        None => String::new(),
        Some((last, [])) => (*last).into(),
        Some((last, others)) => format!("{} or {last}", others.join(", ")),
    }
}

pub(crate) fn explain(text: &str, kind: &Kind, snag: &Snag, range: bool) -> Misread {
    let Words { span, says, help } = words(text, kind, snag, range);
    Misread { span, says, help, class: snag.what.class() }
}

struct Words {
    span: Range<usize>,
    says: String,
    help: String,
}

fn words(text: &str, kind: &Kind, snag: &Snag, range: bool) -> Words {
    let wanted = name(kind);
    let written = cut(text, snag.span.clone());
    let here = |says: String, help: String| Words { span: snag.span.clone(), says, help };
    let own_unit = || {
        let behind = cut(text, snag.number.end..text.len()).trim_start_matches(BLANKS);
        scan::spelled(behind, kind.units).map(|(unit, _)| unit)
    };
    let bound = |si| if kind.bare { show_bare(si, kind) } else { show(si, kind, own_unit()) };
    let example = || format!("write for example {}", if range { sample(kind) } else { kind.example.into() });
    match snag.what {
        What::NoNumber => no_number(text, kind, snag, example()),
        What::ToleranceNumber => here(
            if written.starts_with(['-', '+', '−']) {
                format!("'{written}' has a sign; ± already means more and less")
            } else {
                "a number is missing behind ±".into()
            },
            format!("write for example {} ± 5{}", kind.example, if scan::shares(kind) { " %" } else { "" }),
        ),
        What::SpacedSign => {
            let joined = text.trim_matches(BLANKS).replacen(BLANKS, "", 1);
            here("a space stands between the sign and its number".into(), format!("write {joined}"))
        }
        What::Negative => below_zero(text, kind, snag),
        What::NotWhole => here(format!("'{written}' is not whole; {wanted} is wanted here"), example()),
        What::NoBlank => {
            let number = cut(text, snag.number.clone());
            let symbol = scan::spelled(written, kind.units).map_or(written, |(unit, _)| unit.symbol);
            here(format!("a space is missing between {number} and {written}"), format!("write {number} {symbol}"))
        }
        What::Unit | What::Rest | What::ToleranceUnit => {
            if let Some(mark) = Mark::find(text, &snag.number) {
                let Mark { span, says, help } = mark;
                Words { span, says, help }
            } else {
                stranger(text, kind, snag, range)
            }
        }
        What::Basis => {
            let end = written.find(')').map_or(written.len(), |at| at + 1);
            let written = cut(written, 0..end);
            let meant = guess::basis(written).map_or_else(
                || format!("write {}", sources()),
                |stated| format!("did you mean {}? Known are {}", stated.written(), sources()),
            );
            Words {
                span: snag.span.start..snag.span.start + end,
                says: format!("'{written}' does not say in a known word where the figure comes from"),
                help: meant,
            }
        }
        What::Below if scan::scaled(kind) => {
            let zero = guess::absolute_zero(own_unit());
            here(format!("'{written}' is below absolute zero, {zero}"), example())
        }
        What::Below if kind.bounds.least == 0.0 => {
            let is = if written.starts_with('-') { "below zero" } else { "zero" };
            here(format!("'{written}' is {is}; {wanted} must be {}", must(kind)), example())
        }
        What::Below => here(
            format!("'{written}' is below {}, the least that {wanted} can be", bound(kind.bounds.least)),
            example(),
        ),
        What::Above => {
            here(format!("'{written}' is above {}, the most that {wanted} can be", bound(kind.bounds.most)), example())
        }
        What::TooLarge => here(format!("'{written}' is too large to reckon with"), example()),
        What::WideTolerance => here(
            if scan::scaled(kind) {
                format!("'{written}' reaches below absolute zero")
            } else {
                format!("'{written}' is larger than the value itself; {wanted} cannot go below zero")
            },
            if scan::shares(kind) {
                "write a smaller tolerance, or a share of the value such as ± 5 %".into()
            } else {
                "write a smaller tolerance".into()
            },
        ),
        What::UpsideDown { second, unit } => {
            let low = cut(text, snag.number.clone()).trim_matches(BLANKS);
            let high = cut(text, second..snag.span.end).trim_matches(BLANKS);
            let low = unit.map_or_else(|| low.to_owned(), |unit| format!("{low} {}", unit.symbol));
            here(format!("'{written}' has its low end above its high end"), format!("did you mean {high} to {low}?"))
        }
    }
}

fn no_number(text: &str, kind: &Kind, snag: &Snag, example: String) -> Words {
    let wanted = name(kind);
    let written = cut(text, snag.span.clone()).trim_end_matches(BLANKS);
    let span = snag.span.start..snag.span.start + written.len();
    let bare = written.trim_start_matches(['+', '-', '−']);
    let word = bare.split(BLANKS).next().unwrap_or("").to_ascii_lowercase();
    let says = if written.is_empty() {
        format!("nothing is written here; {wanted} is wanted")
    } else if matches!(word.as_str(), "nan" | "inf" | "infinity" | "∞" | ".inf" | ".nan") {
        format!("'{written}' is no number that can be measured; {wanted} is wanted here")
    } else if guess::units_anywhere(bare).is_some_and(|(_, _, spelling)| spelling == bare) {
        format!("a number is missing before '{written}'; {wanted} is wanted here")
    } else {
        format!("'{written}' does not start with a number; {wanted} is wanted here")
    };
    Words { span, says, help: example }
}

fn below_zero(text: &str, kind: &Kind, snag: &Snag) -> Words {
    let written = text.trim_matches(BLANKS);
    let without = cut(text, snag.span.start..text.len()).trim_start_matches(['-', '−']).trim_end_matches(BLANKS);
    Words {
        span: snag.span.clone(),
        says: format!("'{written}' is below zero; {} must be {}", name(kind), must(kind)),
        help: format!("did you mean {without}?"),
    }
}

/// Something that is no unit of this measure, or that nothing is known about.
fn stranger(text: &str, kind: &Kind, snag: &Snag, range: bool) -> Words {
    let wanted = name(kind);
    let number = cut(text, snag.number.clone());
    let left = cut(text, snag.span.clone());
    let start = snag.span.start;
    if left.trim_matches(BLANKS).is_empty() || (snag.what == What::Unit && left.starts_with(['(', '±'])) {
        let says = format!("'{number}' has no unit; {wanted} is wanted here");
        let help = format!("write for example {}; {}", kind.example, units(kind));
        return Words { span: snag.number.clone(), says, help };
    }
    if let Some(dash) = guess::dash(text, snag) {
        let (low, high) = (cut(text, 0..dash.start), cut(text, dash.end..text.len()));
        let (low, high) = (low.trim_matches(BLANKS), high.trim_matches(BLANKS));
        let (says, help) = if range {
            let says = format!("'{}' is not known between two ends", cut(text, dash.clone()));
            (says, format!("write {low} to {high}"))
        } else {
            let says = format!("two ends seem to stand here; one value is wanted for {wanted}");
            (says, format!("write for example {}", kind.example))
        };
        return Words { span: dash, says, help };
    }
    if snag.what == What::ToleranceUnit && scan::scaled(kind) && left.starts_with('%') {
        let says = format!("a share of {wanted} in per cent means nothing");
        return Words { span: start..start + 1, says, help: "write a difference, for example ± 2 K".into() };
    }
    if snag.what == What::Rest && !kind.bare {
        let left = left.trim_end_matches(BLANKS);
        return Words {
            span: start..start + left.len(),
            says: format!("'{left}' is not understood behind '{}'", cut(text, 0..start).trim_matches(BLANKS)),
            help: format!("behind a value may stand a tolerance such as ± 5 % and its source: {}", sources()),
        };
    }
    let token = guess::token(left);
    let span = start..start + token.len();
    if token == "mil" && kind.units.iter().any(|unit| unit.symbol == "thou") {
        let says = "'mil' can mean a thousandth of an inch or a millimetre".into();
        return Words { span, says, help: format!("write {number} thou or {number} mm") };
    }
    let and_units = |guess: Option<String>| match guess {
        Some(guess) if guess.ends_with('?') => format!("{guess} {}", capital(&units(kind))),
        Some(guess) => format!("{guess}; {}", units(kind)),
        None => units(kind),
    };
    if let Some((foreign, unit, spelling)) = guess::units_anywhere(left) {
        let says = format!("'{number} {spelling}' is {}; {wanted} is wanted here", name(foreign));
        let help = and_units(guess::converted(number, unit, foreign, kind));
        return Words { span: start..start + spelling.len(), says, help };
    }
    let meant = guess::unit(token, kind).map(|symbol| format!("did you mean {number} {symbol}?"));
    Words { span, says: format!("'{token}' is not a unit known for {wanted}"), help: and_units(meant) }
}

fn units(kind: &Kind) -> String {
    if kind.units.is_empty() {
        return format!("write the number alone, for example {}", kind.example);
    }
    let note = if kind.note.is_empty() { String::new() } else { format!(" ({})", kind.note) };
    format!("accepted units: {}{note}", accepted(kind))
}

fn capital(sentence: &str) -> String {
    let mut rest = sentence.chars();
    rest.next().map(|first| first.to_uppercase().chain(rest).collect()).unwrap_or_default()
}

fn sources() -> String {
    let [a, b, c, d] = Stated::ALL.map(Stated::written);
    format!("{a}, {b}, {c} or {d}")
}

fn sample(kind: &Kind) -> String {
    format!("{0} to {0}", kind.example)
}
