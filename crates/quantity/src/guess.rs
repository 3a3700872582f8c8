//! What the author probably meant. Only asked after a text has been refused, never taken silently.

use crate::m;
use crate::measure::{Kind, Unit};
use crate::misread::{Snag, cut};
use crate::read::Stated;
use crate::scan::{self, BLANKS};
use crate::show::{show, show_bare};
use std::ops::Range;

/// Marks between digits: a comma for the point, or groups of three.
pub(crate) struct Mark {
    pub(crate) span: Range<usize>,
    pub(crate) says: String,
    pub(crate) help: String,
}

impl Mark {
    /// Looks behind the number that was read last.
    pub(crate) fn find(text: &str, number: &Range<usize>) -> Option<Self> {
        let behind = cut(text, number.end..text.len());
        let mut next = behind.chars();
        let mark = next.next().filter(|c| ",_'’".contains(*c) || BLANKS.contains(c))?;
        next.next().filter(char::is_ascii_digit)?;
        let within = |c: char| c.is_ascii_digit() || ",._'’".contains(c);
        let run: usize = if BLANKS.contains(&mark) {
            let digits = behind.get(mark.len_utf8()..).unwrap_or("");
            mark.len_utf8() + digits.find(|c| !within(c)).unwrap_or(digits.len())
        } else {
            behind.find(|c| !within(c)).unwrap_or(behind.len())
        };
        let span = number.start..number.end + run;
        let written = cut(text, span.clone());
        let after = token(cut(text, span.end..text.len()).trim_start_matches(BLANKS));
        let with_unit = |digits: &str| if after.is_empty() { digits.to_owned() } else { format!("{digits} {after}") };
        let joined: String = written.chars().filter(|c| c.is_ascii_digit() || "+-−.".contains(*c)).collect();
        let one_comma = mark == ',' && !written.contains('.') && written.matches(',').count() == 1;
        let (says, help) = if one_comma && run != 4 {
            let point = with_unit(&written.replace(',', "."));
            (format!("'{written}' has a comma; a decimal point is wanted"), format!("did you mean {point}?"))
        } else if one_comma {
            let point = with_unit(&written.replace(',', "."));
            let says = format!("'{written}' can be read in two ways: the comma as decimal point, or between thousands");
            (says, format!("write {point} or {}", with_unit(&joined)))
        } else if written.matches('.').count() > 1 || (written.contains(',') && written.contains('.')) {
            let says = format!("'{written}' has more than one kind of mark between its digits");
            (says, "write the digits with one decimal point and nothing else between them".into())
        } else {
            let says = format!("'{written}' has marks or spaces between its digits");
            let mut groups = written.split(|c: char| !c.is_ascii_digit() && c != '.').skip(1);
            let thousands = groups.all(|group| group.split('.').next().is_some_and(|digits| digits.len() == 3));
            let help = if thousands { format!("write {}", with_unit(&joined)) } else { "write one number".into() };
            (says, help)
        };
        Some(Self { span, says, help })
    }
}

/// Up to the next blank or `±`.
pub(crate) fn token(text: &str) -> &str {
    cut(text, 0..text.find(|c| BLANKS.contains(&c) || c == '±').unwrap_or(text.len()))
}

/// Where something else than ` to ` stands between the ends of a range.
pub(crate) fn dash(text: &str, snag: &Snag) -> Option<Range<usize>> {
    // In `-30..8` the number took the first point.
    let before = usize::from(cut(text, snag.number.clone()).ends_with('.') && snag.number.end == snag.span.start);
    let start = snag.span.start - before;
    let behind = cut(text, start..text.len());
    ["...", "..", "…", "–", "—", "-", "to", "until"].into_iter().find_map(|sign| {
        let number = behind.strip_prefix(sign)?.trim_start_matches(BLANKS).trim_start_matches(['-', '−', '+']);
        number.starts_with(|c: char| c.is_ascii_digit()).then(|| start..start + sign.len())
    })
}

/// A unit of any measure that starts the text.
pub(crate) fn units_anywhere(text: &str) -> Option<(&'static Kind, &'static Unit, &'static str)> {
    let mut found: Option<(&'static Kind, &'static Unit, &'static str)> = None;
    for kind in m::ALL {
        if let Some((unit, spelling)) = scan::spelled(text, kind.units)
            && found.is_none_or(|(_, _, best)| spelling.len() > best.len())
        {
            found = Some((kind, unit, spelling));
        }
    }
    found
}

/// What a number with another measure's unit was probably meant to be.
pub(crate) fn converted(number: &str, unit: &Unit, from: &Kind, kind: &Kind) -> Option<String> {
    let has = |symbol: &str| kind.units.iter().any(|unit| unit.symbol == symbol);
    if from.key == "mass" && kind.key == "force" {
        let value: f64 = number.parse().ok()?;
        let newtons = kind.units.iter().find(|unit| unit.symbol == "N");
        let newtons = show(value * unit.factor * STANDARD_GRAVITY, kind, newtons);
        let scale = format!("{}f", unit.symbol);
        return Some(if has(&scale) {
            format!("write {number} {scale} (what a scale shows) or {newtons}")
        } else {
            format!("write {newtons} if it is a weight")
        });
    }
    if from.key == "temperature" && kind.key == "temperature_difference" {
        let symbol = if unit.symbol == "°F" { "Δ°F" } else { "K" };
        return Some(format!("did you mean {number} {symbol}?"));
    }
    if from.key == "percentage" && kind.bare && !kind.whole {
        let value: f64 = number.parse().ok()?;
        return Some(format!("did you mean {}?", show_bare(value * unit.factor, kind)));
    }
    near(unit.symbol, kind).map(|symbol| format!("did you mean {number} {symbol}?"))
}

const STANDARD_GRAVITY: f64 = 9.80665;

/// Units in words, with the symbol that we print.
const IN_WORDS: [(&str, &str); 38] = [
    ("millimetre", "mm"),
    ("millimeter", "mm"),
    ("centimetre", "cm"),
    ("centimeter", "cm"),
    ("metre", "m"),
    ("meter", "m"),
    ("kilometre", "km"),
    ("kilometer", "km"),
    ("micron", "µm"),
    ("inch", "in"),
    ("inche", "in"),
    ("foot", "ft"),
    ("feet", "ft"),
    ("gram", "g"),
    ("kilo", "kg"),
    ("kilogram", "kg"),
    ("tonne", "t"),
    ("pound", "lb"),
    ("lb", "lb"),
    ("ounce", "oz"),
    ("second", "s"),
    ("sec", "s"),
    ("minute", "min"),
    ("min", "min"),
    ("hour", "h"),
    ("hr", "h"),
    ("newton", "N"),
    ("pascal", "Pa"),
    ("celsius", "°C"),
    ("fahrenheit", "°F"),
    ("kelvin", "K"),
    ("degree", "°"),
    ("volt", "V"),
    ("amp", "A"),
    ("watt", "W"),
    ("litre", "L"),
    ("liter", "L"),
    ("percent", "%"),
];

/// The nearest unit of the measure, as we print it.
pub(crate) fn unit(token: &str, kind: &Kind) -> Option<&'static str> {
    let lower = token.to_lowercase();
    let singular = lower.strip_suffix('s').unwrap_or(&lower);
    let has = |symbol: &str| kind.units.iter().any(|unit| unit.symbol == symbol);
    let words = || IN_WORDS.iter().filter(|(_, symbol)| has(symbol));
    let exact = words().find(|(word, _)| *word == lower || *word == singular);
    // A slip in a long word only: in a short one it makes another unit.
    let close = || {
        let distance = |word: &str| strsim::osa_distance(word, singular);
        words().filter(|(word, _)| word.len() > 4 && distance(word) <= 2).min_by_key(|(word, _)| distance(word))
    };
    exact.or_else(close).map(|(_, symbol)| *symbol).or_else(|| near(token, kind)).or_else(|| misspelt(token, kind))
}

/// The same letters, but for capitals and powers.
fn near(token: &str, kind: &Kind) -> Option<&'static str> {
    let flat = |word: &str| word.chars().filter(|c| !"²³23^·*()".contains(*c)).collect::<String>().to_lowercase();
    // milli is not a slip for mega.
    let mega = |symbol: &str| symbol.strip_prefix('M').is_some_and(|rest| token.strip_prefix('m') == Some(rest));
    let pick = |same: &dyn Fn(&str) -> bool| {
        let mut units = kind.units.iter().filter(|unit| !mega(unit.symbol));
        units.find(|unit| same(unit.symbol) || unit.also.iter().any(|also| same(also))).map(|unit| unit.symbol)
    };
    pick(&|spelling| spelling.to_lowercase() == token.to_lowercase())
        .or_else(|| pick(&|spelling| flat(spelling) == flat(token) && !flat(token).is_empty()))
}

/// A slip of one key, of two in a long word.
fn misspelt(token: &str, kind: &Kind) -> Option<&'static str> {
    let letters = token.chars().count();
    let most = if letters > 4 { 2 } else { 1 };
    let spellings = kind
        .units
        .iter()
        .flat_map(|unit| std::iter::once(&unit.symbol).chain(unit.also).map(|spelling| (unit.symbol, *spelling)));
    let distance = |spelling: &str| strsim::osa_distance(spelling, token);
    let nearest = spellings.map(|(symbol, spelling)| (distance(spelling), symbol)).min_by_key(|(far, _)| *far)?;
    (letters > 2 && nearest.0 <= most).then_some(nearest.1)
}

/// `(w)` and `(measurd)`.
pub(crate) fn basis(written: &str) -> Option<Stated> {
    let bare = |word: &str| word.trim_matches(['(', ')']).trim_matches(BLANKS).to_lowercase();
    let word = bare(written);
    let first = word.chars().next()?;
    let far = |stated: &Stated| strsim::osa_distance(&bare(stated.written()), &word);
    let find = |same: &dyn Fn(&str) -> bool| Stated::ALL.into_iter().find(|stated| same(&bare(stated.written())));
    let close = Stated::ALL.into_iter().min_by_key(far).filter(|stated| far(stated) <= 2);
    close
        .or_else(|| find(&|known| word.starts_with(known)))
        .or_else(|| if word.len() == 1 { find(&|known| known.starts_with(first)) } else { None })
}

/// In the author's unit.
pub(crate) fn absolute_zero(unit: Option<&Unit>) -> String {
    match unit.map(|unit| unit.symbol) {
        Some("°F") => "-459.67 °F".into(),
        Some("K") => "0 K".into(),
        _ => "-273.15 °C".into(),
    }
}
