//! Deep-groove ball bearings by their trade designation: `6001-2RS`, `608-ZZ`, `61804/C3`.

use crate::misread::{Misread, MisreadClass};
use crate::scan::BLANKS;
use crate::schema::{any, gap};
use crate::types::{Length, Quantity};

/// A deep-groove ball bearing with its boundary dimensions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bearing {
    /// The designation without suffix, as the table has it: `6001`, `61804`.
    pub code: &'static str,
    pub bore: Length,
    pub outer: Length,
    pub width: Length,
    pub seal: Seal,
    /// 0, 1 or 2.
    pub closed_sides: u8,
    pub clearance: Clearance,
}

/// What closes the gap between the rings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Seal {
    Open,
    /// Sheet metal that does not touch the inner ring (Z): keeps grit out, not water.
    Shield,
    /// A rubber lip that touches the inner ring (RS).
    Lip,
}

/// Radial internal clearance group of ISO 5753-1; `Normal` where nothing is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Clearance {
    C2,
    Normal,
    C3,
    C4,
}

/// Designation, bore, outer diameter, width open and width closed, mm.
/// Boundary dimensions of ISO 15, dimension series 18, 19, 10, 02 and 03; from memory. Closed bearings of the smallest
/// sizes are wider (common practice, from memory).
const SIZES: [(&str, f64, f64, f64, f64); 76] = [
    ("604", 4.0, 12.0, 4.0, 4.0),
    ("605", 5.0, 14.0, 5.0, 5.0),
    ("606", 6.0, 17.0, 6.0, 6.0),
    ("607", 7.0, 19.0, 6.0, 6.0),
    ("608", 8.0, 22.0, 7.0, 7.0),
    ("609", 9.0, 24.0, 7.0, 7.0),
    ("623", 3.0, 10.0, 4.0, 4.0),
    ("624", 4.0, 13.0, 5.0, 5.0),
    ("625", 5.0, 16.0, 5.0, 5.0),
    ("626", 6.0, 19.0, 6.0, 6.0),
    ("627", 7.0, 22.0, 7.0, 7.0),
    ("628", 8.0, 24.0, 8.0, 8.0),
    ("629", 9.0, 26.0, 8.0, 8.0),
    ("634", 4.0, 16.0, 5.0, 5.0),
    ("635", 5.0, 19.0, 6.0, 6.0),
    ("683", 3.0, 7.0, 2.0, 3.0),
    ("684", 4.0, 9.0, 2.5, 4.0),
    ("685", 5.0, 11.0, 3.0, 5.0),
    ("686", 6.0, 13.0, 3.5, 5.0),
    ("687", 7.0, 14.0, 3.5, 5.0),
    ("688", 8.0, 16.0, 4.0, 5.0),
    ("689", 9.0, 17.0, 4.0, 5.0),
    ("693", 3.0, 8.0, 3.0, 4.0),
    ("694", 4.0, 11.0, 4.0, 4.0),
    ("695", 5.0, 13.0, 4.0, 4.0),
    ("696", 6.0, 15.0, 5.0, 5.0),
    ("697", 7.0, 17.0, 5.0, 5.0),
    ("698", 8.0, 19.0, 6.0, 6.0),
    ("699", 9.0, 20.0, 6.0, 6.0),
    ("6000", 10.0, 26.0, 8.0, 8.0),
    ("6001", 12.0, 28.0, 8.0, 8.0),
    ("6002", 15.0, 32.0, 9.0, 9.0),
    ("6003", 17.0, 35.0, 10.0, 10.0),
    ("6004", 20.0, 42.0, 12.0, 12.0),
    ("6005", 25.0, 47.0, 12.0, 12.0),
    ("6006", 30.0, 55.0, 13.0, 13.0),
    ("6007", 35.0, 62.0, 14.0, 14.0),
    ("6008", 40.0, 68.0, 15.0, 15.0),
    ("6009", 45.0, 75.0, 16.0, 16.0),
    ("6010", 50.0, 80.0, 16.0, 16.0),
    ("6200", 10.0, 30.0, 9.0, 9.0),
    ("6201", 12.0, 32.0, 10.0, 10.0),
    ("6202", 15.0, 35.0, 11.0, 11.0),
    ("6203", 17.0, 40.0, 12.0, 12.0),
    ("6204", 20.0, 47.0, 14.0, 14.0),
    ("6205", 25.0, 52.0, 15.0, 15.0),
    ("6206", 30.0, 62.0, 16.0, 16.0),
    ("6207", 35.0, 72.0, 17.0, 17.0),
    ("6208", 40.0, 80.0, 18.0, 18.0),
    ("6300", 10.0, 35.0, 11.0, 11.0),
    ("6301", 12.0, 37.0, 12.0, 12.0),
    ("6302", 15.0, 42.0, 13.0, 13.0),
    ("6303", 17.0, 47.0, 14.0, 14.0),
    ("6304", 20.0, 52.0, 15.0, 15.0),
    ("6305", 25.0, 62.0, 17.0, 17.0),
    ("6306", 30.0, 72.0, 19.0, 19.0),
    ("6307", 35.0, 80.0, 21.0, 21.0),
    ("6308", 40.0, 90.0, 23.0, 23.0),
    ("61800", 10.0, 19.0, 5.0, 5.0),
    ("61801", 12.0, 21.0, 5.0, 5.0),
    ("61802", 15.0, 24.0, 5.0, 5.0),
    ("61803", 17.0, 26.0, 5.0, 5.0),
    ("61804", 20.0, 32.0, 7.0, 7.0),
    ("61805", 25.0, 37.0, 7.0, 7.0),
    ("61806", 30.0, 42.0, 7.0, 7.0),
    ("61807", 35.0, 47.0, 7.0, 7.0),
    ("61808", 40.0, 52.0, 7.0, 7.0),
    ("61900", 10.0, 22.0, 6.0, 6.0),
    ("61901", 12.0, 24.0, 6.0, 6.0),
    ("61902", 15.0, 28.0, 7.0, 7.0),
    ("61903", 17.0, 30.0, 7.0, 7.0),
    ("61904", 20.0, 37.0, 9.0, 9.0),
    ("61905", 25.0, 42.0, 9.0, 9.0),
    ("61906", 30.0, 47.0, 9.0, 9.0),
    ("61907", 35.0, 55.0, 10.0, 10.0),
    ("61908", 40.0, 62.0, 12.0, 12.0),
];

/// `RZ` and maker's own suffixes are left out: what they keep out differs.
const CLOSED: [(&str, Seal, u8); 5] = [
    ("2RS", Seal::Lip, 2),
    ("RS", Seal::Lip, 1),
    ("ZZ", Seal::Shield, 2),
    ("2Z", Seal::Shield, 2),
    ("Z", Seal::Shield, 1),
];

const CLEARANCES: [(&str, Clearance); 4] =
    [("C2", Clearance::C2), ("CN", Clearance::Normal), ("C3", Clearance::C3), ("C4", Clearance::C4)];

/// The usual short form of the thin series: `6804` for `61804`.
fn short(code: &str) -> Option<String> {
    let rest = code.strip_prefix("61").filter(|_| code.len() == 5)?;
    Some(format!("6{rest}"))
}

/// The table's row of a written designation, which may be a short one.
fn row(code: &str) -> Option<&'static (&'static str, f64, f64, f64, f64)> {
    SIZES.iter().find(|(known, ..)| {
        *known == code || (known.len() == 5 && code.len() == 4 && known.strip_prefix("61") == code.strip_prefix('6'))
    })
}

/// Reads `6001-2RS`, `608ZZ`, `6804/C3`.
///
/// # Errors
/// Not a bearing of the table, or an unknown suffix.
pub fn read_bearing(text: &str) -> Result<Bearing, Misread> {
    let written = text.trim_matches(BLANKS);
    let start = text.len() - text.trim_start_matches(BLANKS).len();
    let digits = written.bytes().take_while(u8::is_ascii_digit).count();
    let misread = |from: usize, says: String, help: String| Misread {
        span: start + from..start + written.len(),
        says,
        help,
        class: MisreadClass::Shape,
    };
    // `6082Z` is 608-2Z without its hyphen: the longest code that leaves a known suffix counts.
    let whole = written.get(..digits).unwrap_or("");
    let shorter = whole.strip_suffix('2').filter(|code| row(code).is_some() && row(whole).is_none());
    let code = shorter.unwrap_or(whole);
    let Some((code, bore, outer, open, closed)) = row(code) else {
        return Err(misread(
            0,
            format!("'{written}' is not a deep-groove bearing known here"),
            "write its number and its seals, for example 6001-2RS (rubber lips), 6001-ZZ (metal shields) or 6001 (open); known are 60, 62, 63, 618 and 619 up to a bore of 40 mm, and the small ones from 604 to 699".into(),
        ));
    };
    let consumed = shorter.map_or(digits, str::len);
    let mut left = written.get(consumed..).unwrap_or("");
    let (mut seal, mut closed_sides, mut clearance) = (Seal::Open, 0, Clearance::Normal);
    let suffix = left.strip_prefix('-').unwrap_or(left);
    if let Some((mark, kind, sides)) = CLOSED.iter().find(|(mark, ..)| suffix.starts_with(mark)) {
        (seal, closed_sides) = (*kind, *sides);
        left = suffix.get(mark.len()..).unwrap_or("");
    }
    let group = left.strip_prefix(['/', '-', ' ']).unwrap_or("");
    if let Some((_, known)) = CLEARANCES.iter().find(|(mark, _)| *mark == group) {
        clearance = *known;
        left = "";
    }
    if !left.is_empty() {
        let upper = written.to_uppercase();
        let meant = if upper != written && read_bearing(&upper).is_ok() {
            format!("did you mean {upper}?")
        } else {
            format!(
                "write for example {code}-2RS (rubber lips), {code}-ZZ (metal shields) or {code} (open), then /C3 if the clearance is marked"
            )
        };
        return Err(misread(
            written.len() - left.len(),
            format!("'{left}' is not a suffix known behind {code}"),
            meant,
        ));
    }
    let mm = |size: f64| Length::from_si(size * 1e-3);
    let width = mm(if seal == Seal::Open { *open } else { *closed });
    Ok(Bearing { code, bore: mm(*bore), outer: mm(*outer), width, seal, closed_sides, clearance })
}

/// A pattern for [`read_bearing`].
#[must_use]
pub fn bearing_pattern() -> String {
    let short: Vec<String> = SIZES.iter().filter_map(|(code, ..)| short(code)).collect();
    let mut codes: Vec<&str> = SIZES.iter().map(|(code, ..)| *code).collect();
    codes.extend(short.iter().map(String::as_str));
    let (closed, clearance) = (any(&CLOSED.map(|(mark, ..)| mark)), any(&CLEARANCES.map(|(mark, _)| mark)));
    format!("^{gap}*{}(?:-?{closed})?(?:[/ -]{clearance})?{gap}*$", any(&codes), gap = gap())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dimensions_and_suffixes() {
        let bearing = read_bearing("6001-2RS").unwrap();
        assert_eq!((bearing.bore.si(), bearing.outer.si(), bearing.width.si()), (0.012, 0.028, 0.008));
        assert_eq!((bearing.seal, bearing.closed_sides, bearing.clearance), (Seal::Lip, 2, Clearance::Normal));
        assert_eq!(read_bearing("688").unwrap().width.si(), 0.004);
        assert_eq!(read_bearing("688ZZ").unwrap().width.si(), 0.005);
        assert_eq!(read_bearing("6804").unwrap().code, "61804");
        assert_eq!(read_bearing("6804-RS/C3").unwrap().clearance, Clearance::C3);
        assert_eq!(read_bearing("6082Z").unwrap().seal, Seal::Shield);
    }

    /// ISO 15: bore codes 00, 01, 02, 03 are 10, 12, 15, 17 mm; from 04 on five times the code; one digit is the bore.
    #[test]
    fn the_table_obeys_the_bore_code_and_the_series() {
        for (code, bore, outer, open, closed) in SIZES {
            let number: f64 = code[code.len() - if code.len() == 3 { 1 } else { 2 }..].parse().unwrap();
            let expected = match (code.len(), number as u32) {
                (3, bore) => f64::from(bore),
                (_, 0) => 10.0,
                (_, 1) => 12.0,
                (_, 2) => 15.0,
                (_, 3) => 17.0,
                (_, code) => 5.0 * f64::from(code),
            };
            assert_eq!(bore, expected, "{code}");
            assert!(bore < outer && open <= closed && closed < bore + 5.0, "{code}");
        }
        for pair in SIZES.windows(2).filter(|pair| pair[0].0[..pair[0].0.len() - 1] == pair[1].0[..pair[1].0.len() - 1])
        {
            assert!(pair[0].2 < pair[1].2 && pair[0].3 <= pair[1].3, "{} {}", pair[0].0, pair[1].0);
        }
    }

    #[test]
    fn words_and_pattern_agree() {
        let pattern = regex::Regex::new(&bearing_pattern()).unwrap();
        for (text, help) in [
            ("6001-2rs", "did you mean 6001-2RS?"),
            (
                "6001-XX",
                "write for example 6001-2RS (rubber lips), 6001-ZZ (metal shields) or 6001 (open), then /C3 if the clearance is marked",
            ),
        ] {
            assert_eq!(read_bearing(text).unwrap_err().help, help);
        }
        assert_eq!(read_bearing("12 mm").unwrap_err().says, "'12 mm' is not a deep-groove bearing known here");
        let codes = ["608", "6001", "6804", "61804", "6084", "1601", "", "68", "6806", "688"];
        let suffixes =
            ["", "-2RS", "2RS", "-ZZ", "ZZ", "2Z", "-2Z", "Z", "-", "/C3", " C3", "-C3", "2Z/C4", "2", "-2RS-2RS"];
        for code in codes {
            for suffix in suffixes {
                let text = format!(" {code}{suffix}");
                assert_eq!(pattern.is_match(&text), read_bearing(&text).is_ok(), "{text}");
            }
        }
    }
}
