//! The trade's typed designations: threads, wire gauges, counts in front of them, and dates.

use crate::m;
use crate::measure::{Kind, Measure};
use crate::misread::{Misread, MisreadClass, cut};
use crate::read::{Written, read};
use crate::scan::{BLANKS, Scan};
use crate::schema::{any, gap, plain, value};
use crate::types::{Area, Length, Quantity};
use std::fmt;

/// A metric screw thread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thread {
    pub diameter: Length,
    pub pitch: Length,
}

/// Nominal diameter as written, and coarse pitch in mm: ISO 261, table of preferred sizes; from memory.
const COARSE: [(&str, f64); 18] = [
    ("1.6", 0.35),
    ("2", 0.4),
    ("2.5", 0.45),
    ("3", 0.5),
    ("3.5", 0.6),
    ("4", 0.7),
    ("5", 0.8),
    ("6", 1.0),
    ("7", 1.0),
    ("8", 1.25),
    ("10", 1.5),
    ("12", 1.75),
    ("14", 2.0),
    ("16", 2.0),
    ("18", 2.5),
    ("20", 2.5),
    ("22", 2.5),
    ("24", 3.0),
];

/// So many of something: `4 x M5`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Counted<T> {
    pub count: u32,
    pub each: T,
}

/// A stranded or solid wire by the cross-section of its metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wire {
    /// American wire gauge; below zero for 00 (-1) to 0000 (-3); none where the area is written.
    pub gauge: Option<i8>,
    pub area: Area,
    /// Of a solid wire of this area.
    pub diameter: Length,
}

/// A day of the calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Date {
    pub year: u16,
    pub month: u8,
    pub day: u8,
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// The whole text but for the blanks around it.
fn whole(text: &str, class: MisreadClass, says: String, help: String) -> Misread {
    let start = text.len() - text.trim_start_matches(BLANKS).len();
    Misread { span: start..start + text.trim_matches(BLANKS).len(), says, help, class }
}

/// Reads `M4` (coarse pitch) or `M8x1`.
///
/// # Errors
/// Not a metric thread of the table, or a pitch coarser than coarse.
pub fn read_thread(text: &str) -> Result<Thread, Misread> {
    let written = text.trim_matches(BLANKS);
    let Some((size, coarse, pitch)) = thread_parts(text) else {
        let upper = written.to_uppercase().replace('X', "x");
        let help = if upper != written && thread_parts(&upper).is_some() {
            format!("did you mean {upper}?")
        } else {
            let sizes: Vec<String> = COARSE.iter().map(|(size, _)| format!("M{size}")).collect();
            format!("write for example M4, or M8x1 with its pitch; known are {}", sizes.join(", "))
        };
        return Err(whole(text, MisreadClass::Shape, format!("'{written}' is not a metric thread known here"), help));
    };
    let pitch = match pitch {
        None => coarse,
        Some(pitch) if pitch > 0.0 && pitch <= coarse => pitch,
        Some(pitch) => {
            let says = format!("'{written}' has a pitch of {pitch} mm; M{size} has {coarse} mm or less");
            return Err(whole(text, MisreadClass::Value, says, format!("write M{size} for the coarse pitch")));
        }
    };
    let mm = |size: f64| Length::from_si(size * 1e-3);
    Ok(Thread { diameter: mm(size), pitch: mm(pitch) })
}

/// Nominal size, its coarse pitch, and the pitch as written.
fn thread_parts(text: &str) -> Option<(f64, f64, Option<f64>)> {
    let mut scan = Scan::new(text);
    if !scan.eat("M") {
        return None;
    }
    let size = decimal(text, &mut scan)?;
    let (_, coarse) = COARSE.iter().find(|(known, _)| *known == size)?;
    scan.blanks();
    let pitch = if scan.eat("x") || scan.eat("×") {
        scan.blanks();
        Some(decimal(text, &mut scan)?.parse().ok()?)
    } else {
        None
    };
    scan.finish().ok()?;
    Some((size.parse().ok()?, *coarse, pitch))
}

/// Digits, and digits behind a point.
fn decimal<'t>(text: &'t str, scan: &mut Scan<'t>) -> Option<&'t str> {
    let start = scan.at();
    if scan.digits() == 0 || (scan.eat(".") && scan.digits() == 0) {
        return None;
    }
    Some(cut(text, start..scan.at()))
}

fn thread() -> String {
    format!("M{}(?:{gap}*[x×]{gap}*[0-9]+(?:\\.[0-9]+)?)?", any(&COARSE.map(|(size, _)| size)), gap = gap())
}

/// A pattern for [`read_thread`].
#[must_use]
pub fn thread_pattern() -> String {
    format!("^{gap}*{}{gap}*$", thread(), gap = gap())
}

/// How many, and where the rest starts; one where nothing is said.
fn count(text: &str) -> (u32, usize) {
    let mut scan = Scan::new(text);
    let start = scan.at();
    let digits = scan.digits();
    let number = cut(text, start..scan.at());
    scan.blanks();
    let times = scan.eat("x") || scan.eat("×");
    match number.parse() {
        Ok(count) if times && digits <= 3 && !number.starts_with('0') => (count, scan.at()),
        _ => (1, 0),
    }
}

fn counted(inner: &str) -> String {
    format!("^{gap}*(?:[1-9][0-9]{{0,2}}{gap}*[x×]{gap}*)?{inner}{gap}*$", gap = gap())
}

fn each<T>(text: &str, read: impl FnOnce(&str) -> Result<T, Misread>) -> Result<Counted<T>, Misread> {
    let (count, start) = count(text);
    let each = read(cut(text, start..text.len()))
        .map_err(|misread| Misread { span: misread.span.start + start..misread.span.end + start, ..misread })?;
    Ok(Counted { count, each })
}

/// Reads `2 x 2.5 A`, or `2.5 A` as one.
///
/// # Errors
/// As [`read`].
pub fn read_counted(text: &str, kind: &'static Kind) -> Result<Counted<Written>, Misread> {
    each(text, |text| read(text, kind))
}

/// A pattern for [`read_counted`].
#[must_use]
pub fn counted_pattern(kind: &Kind) -> String {
    counted(&value(kind))
}

/// Reads `4 x M5`, or `M5` as one.
///
/// # Errors
/// As [`read_thread`].
pub fn read_counted_thread(text: &str) -> Result<Counted<Thread>, Misread> {
    each(text, read_thread)
}

/// A pattern for [`read_counted_thread`].
#[must_use]
pub fn counted_thread_pattern() -> String {
    counted(&thread())
}

/// Sizes from four noughts to 40.
pub(crate) const GAUGES: &str = "(?:0{1,4}|[1-9]|[1-3][0-9]|40)";

/// Reads `10 AWG` (diameter by ASTM B258: 0.127 mm · 92^((36 − n)/39), published) or an area such as `6 mm²`.
///
/// # Errors
/// Neither of the two.
pub fn read_wire(text: &str) -> Result<Wire, Misread> {
    let example = "write for example 10 AWG or 6 mm²";
    let written = text.trim_matches(BLANKS);
    if written.to_ascii_uppercase().contains("AWG") {
        let gauge = gauge(written).ok_or_else(|| {
            let digits: String = written.chars().filter(char::is_ascii_digit).collect();
            let meant = format!("{digits} AWG");
            let help = if gauge(&meant).is_some() { format!("did you mean {meant}?") } else { example.into() };
            whole(text, MisreadClass::Shape, format!("'{written}' is not a wire size known here"), help)
        })?;
        let (area, diameter) = (gauge_area(gauge), gauge_diameter(gauge));
        return Ok(Wire { gauge: Some(gauge), area: Area::from_si(area), diameter: Length::from_si(diameter) });
    }
    let area = read(text, m::Area::KIND).map_err(|misread| Misread { help: example.into(), ..misread })?;
    if area.plus_minus.is_some() || area.basis.is_some() {
        let says = "a wire size has no tolerance and no source behind it".into();
        return Err(whole(text, MisreadClass::Shape, says, example.into()));
    }
    let diameter = (area.si / std::f64::consts::FRAC_PI_4).sqrt();
    Ok(Wire { gauge: None, area: Area::from_si(area.si), diameter: Length::from_si(diameter) })
}

/// The thinnest gauge with at least so much metal, as a builder would ask for it: `10 AWG`. None where even four noughts
/// have less.
#[must_use]
pub fn gauge_of(metal: Area) -> Option<String> {
    gauges().filter(|(_, has)| has.si() >= metal.si()).last().map(|(name, _)| name)
}

/// Every gauge with the metal that it has, the thickest first.
pub fn gauges() -> impl Iterator<Item = (String, Area)> {
    (-3..=40_i8).map(|gauge| {
        let name = match gauge {
            1.. => format!("{gauge} AWG"),
            _ => format!("{} AWG", "0".repeat(usize::from(gauge.unsigned_abs()) + 1)),
        };
        (name, Area::from_si(gauge_area(gauge)))
    })
}

/// In m².
fn gauge_area(gauge: i8) -> f64 {
    let diameter = gauge_diameter(gauge);
    std::f64::consts::FRAC_PI_4 * diameter * diameter
}

/// In m.
fn gauge_diameter(gauge: i8) -> f64 {
    0.127e-3 * 92f64.powf((36.0 - f64::from(gauge)) / 39.0)
}

fn gauge(written: &str) -> Option<i8> {
    let number = written.strip_suffix("AWG")?;
    let digits = number.trim_end_matches(BLANKS);
    if digits.len() == number.len() || !digits.bytes().all(|b| b.is_ascii_digit()) {
        return None;
    }
    match digits {
        "00" => Some(-1),
        "000" => Some(-2),
        "0000" => Some(-3),
        _ => digits.parse().ok().filter(|size| *size <= 40 && (digits.len() == 1 || !digits.starts_with('0'))),
    }
}

/// A pattern for [`read_wire`].
#[must_use]
pub fn wire_pattern() -> String {
    format!("^{gap}*(?:{GAUGES}{gap}+AWG|{}){gap}*$", plain(m::Area::KIND), gap = gap())
}

/// Reads `2026-04-30`.
///
/// # Errors
/// Written in another way, or not in the calendar.
pub fn read_date(text: &str) -> Result<Date, Misread> {
    let written = text.trim_matches(BLANKS);
    let Some(date) = date(written) else {
        let says = format!("'{written}' is not a date in the form that is read here");
        return Err(whole(text, MisreadClass::Shape, says, "write year-month-day, for example 2026-04-30".into()));
    };
    let leap = date.year.is_multiple_of(4) && (!date.year.is_multiple_of(100) || date.year.is_multiple_of(400));
    let days = match date.month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    };
    if date.day > days {
        let says = format!("'{written}' is not in the calendar; that month has {days} days");
        let last = Date { day: days, ..date };
        return Err(whole(text, MisreadClass::Value, says, format!("did you mean {last}?")));
    }
    Ok(date)
}

/// In form, not yet in the calendar.
fn date(written: &str) -> Option<Date> {
    let (year, rest) = written.split_once('-')?;
    let (month, day) = rest.split_once('-')?;
    let digits = |text: &str, count| text.len() == count && text.bytes().all(|b| b.is_ascii_digit());
    if !digits(year, 4) || !digits(month, 2) || !digits(day, 2) {
        return None;
    }
    let date = Date { year: year.parse().ok()?, month: month.parse().ok()?, day: day.parse().ok()? };
    ((1..=12).contains(&date.month) && (1..=31).contains(&date.day)).then_some(date)
}

/// A pattern for [`read_date`].
#[must_use]
pub fn date_pattern() -> String {
    format!("^{gap}*[0-9]{{4}}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12][0-9]|3[01]){gap}*$", gap = gap())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(length: Length) -> f64 {
        (length.si() * 1e6).round() / 1e3
    }

    #[test]
    fn threads() {
        let thread =
            |text| read_thread(text).map(|t| (mm(t.diameter), mm(t.pitch))).map_err(|e| (e.class, e.says, e.help));
        assert_eq!(thread("M4"), Ok((4.0, 0.7)));
        assert_eq!(thread("M2.5"), Ok((2.5, 0.45)));
        assert_eq!(thread("M8 x 1"), Ok((8.0, 1.0)));
        let known = "write for example M4, or M8x1 with its pitch; known are M1.6, M2, M2.5, M3, M3.5, M4, M5, M6, M7, M8, M10, M12, M14, M16, M18, M20, M22, M24";
        for (text, class, says, help) in [
            ("m4", MisreadClass::Shape, "'m4' is not a metric thread known here", "did you mean M4?"),
            ("M21", MisreadClass::Shape, "'M21' is not a metric thread known here", known),
            (
                "M5x0.9",
                MisreadClass::Value,
                "'M5x0.9' has a pitch of 0.9 mm; M5 has 0.8 mm or less",
                "write M5 for the coarse pitch",
            ),
        ] {
            assert_eq!(thread(text), Err((class, says.to_owned(), help.to_owned())));
        }
        let four = read_counted_thread("4 x M5").unwrap();
        assert_eq!((four.count, mm(four.each.diameter)), (4, 5.0));
        assert_eq!(read_counted_thread("M5").unwrap().count, 1);
        assert_eq!(read_counted_thread("4 x M21").unwrap_err().span, 4..7);
    }

    #[test]
    fn the_gauge_with_enough_metal_is_named() {
        let named = |mm2: f64| gauge_of(Area::from_si(mm2 * 1e-6));
        // ASTM B258, figures from memory: 10 AWG has 5.26 mm², 9 AWG 6.63 mm², 0 AWG 53.5 mm², 0000 AWG 107.2 mm².
        assert_eq!(named(5.2).as_deref(), Some("10 AWG"));
        assert_eq!(named(5.3).as_deref(), Some("9 AWG"));
        assert_eq!(named(53.0).as_deref(), Some("0 AWG"));
        assert_eq!(named(107.0).as_deref(), Some("0000 AWG"));
        assert_eq!(named(108.0), None);
        for text in ["40 AWG", "24 AWG", "1 AWG", "0 AWG", "00 AWG"] {
            assert_eq!(gauge_of(read_wire(text).unwrap().area).as_deref(), Some(text));
        }
    }

    /// ASTM B258 table: 10 AWG 2.588 mm, 24 AWG 0.5106 mm, 0000 AWG 11.684 mm (0.46 in, exact by definition).
    #[test]
    fn wires() {
        for (text, diameter) in [("10 AWG", 2.588), ("24 AWG", 0.5106), ("0000 AWG", 11.684), ("36 AWG", 0.127)] {
            let wire = read_wire(text).unwrap();
            assert!((wire.diameter.si() * 1e3 / diameter - 1.0).abs() < 1e-4, "{text}");
        }
        assert!((read_wire("10 AWG").unwrap().area.si() * 1e6 - 5.26).abs() < 5e-3);
        assert_eq!(read_wire("6 mm²").unwrap().area.si(), 6e-6);
        for (text, says, help) in [
            ("10AWG", "'10AWG' is not a wire size known here", "did you mean 10 AWG?"),
            ("AWG 10", "'AWG 10' is not a wire size known here", "did you mean 10 AWG?"),
            ("6 mm", "'6 mm' is a length; an area is wanted here", "write for example 10 AWG or 6 mm²"),
        ] {
            let misread = read_wire(text).unwrap_err();
            assert_eq!((misread.says.as_str(), misread.help.as_str()), (says, help));
        }
    }

    #[test]
    fn counts_of_a_quantity() {
        let servos = read_counted("2 x 2.5 A", m::Current::KIND).unwrap();
        assert_eq!((servos.count, servos.each.si), (2, 2.5));
        assert_eq!(read_counted("2.5 A", m::Current::KIND).unwrap().count, 1);
        assert_eq!(read_counted("2 x 2.5 kg", m::Current::KIND).unwrap_err().span, 8..10);
    }

    #[test]
    fn dates() {
        assert_eq!(read_date("2028-02-29").unwrap().to_string(), "2028-02-29");
        assert!(read_date("2026-04-30").unwrap() < read_date("2026-05-01").unwrap());
        let late = read_date("2026-02-30").unwrap_err();
        assert_eq!(late.class, MisreadClass::Value);
        assert_eq!(late.says, "'2026-02-30' is not in the calendar; that month has 28 days");
        assert_eq!(late.help, "did you mean 2026-02-28?");
        assert_eq!(read_date("30.4.2026").unwrap_err().help, "write year-month-day, for example 2026-04-30");
    }

    #[test]
    fn patterns_agree() {
        let agree = |pattern: String, shape: &dyn Fn(&str) -> Option<MisreadClass>| {
            let pattern = regex::Regex::new(&pattern).unwrap();
            for text in [
                "M4",
                "M4 ",
                "M2.5",
                "M5x0.8",
                "M5 × 0.8",
                "M5x9",
                "M5x",
                "M5x0.8.1",
                "M21",
                "M05",
                "4 x M5",
                "4xM5x0.8",
                "0 x M5",
                "1000 x M5",
                "4 x",
                "x M5",
                "10 AWG",
                "10  AWG",
                "10AWG",
                "00 AWG",
                "00000 AWG",
                "010 AWG",
                "41 AWG",
                "40 AWG",
                "6 mm²",
                "6 mm2 (label)",
                "0 mm²",
                "6mm²",
                "2026-04-30",
                "2026-02-31",
                "2026-13-01",
                "2026-4-30",
                "0000-01-00",
                " 2026-04-30",
                "2 x 2.5 A",
                "2x2.5 A ± 5 %",
                "2.5 A",
                "2 x -1 A",
                "2 x 4 x 5 A",
                "",
                "10 AWG AWG",
                "-10 AWG",
                "M5 x .8",
            ] {
                assert_eq!(pattern.is_match(text), shape(text) != Some(MisreadClass::Shape), "{text}");
            }
        };
        agree(thread_pattern(), &|text| read_thread(text).err().map(|e| e.class));
        agree(counted_thread_pattern(), &|text| read_counted_thread(text).err().map(|e| e.class));
        agree(counted_pattern(m::Current::KIND), &|text| read_counted(text, m::Current::KIND).err().map(|e| e.class));
        agree(wire_pattern(), &|text| read_wire(text).err().map(|e| e.class));
        agree(date_pattern(), &|text| read_date(text).err().map(|e| e.class));
    }
}
