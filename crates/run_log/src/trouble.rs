//! What can be wrong with a log, with its place in the file.

use crate::columns::Role;
use std::fmt;

/// A line of the file, counted from 1, and the column by number and heading.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Place {
    pub line: u64,
    pub column: Option<(usize, String)>,
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}", self.line)?;
        self.column.as_ref().map_or(Ok(()), |(number, heading)| write!(f, ", column {number} (`{}`)", clip(heading)))
    }
}

#[derive(Debug, Clone, PartialEq)]
pub struct Trouble {
    pub place: Place,
    pub why: Why,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    Empty,
    NoRows,
    OneRow,
    NoTimePasses,
    NoHeading { heading: String, role: Role, has: Vec<String> },
    TwoHeadings { heading: String },
    PartedBy { mark: char },
    DecimalComma { text: String },
    NotNumber { text: String },
    NothingInCell,
    NotFinite { text: String },
    TooLarge { text: String },
    Cells { has: usize, wanted: usize },
    Backwards { before: f64, now: f64 },
    Gap { seconds: f64, usual: f64 },
    Endless { bytes: u64 },
    NotUtf8,
    Utf16,
    NoText,
    Unreadable { reason: String },
}

/// What stands in a cell or above a column, short enough for a line.
pub(crate) fn clip(text: &str) -> String {
    let plain = |c: char| if c.is_control() { '\u{fffd}' } else { c };
    let short: String = text.chars().take(40).map(plain).collect();
    if text.chars().nth(40).is_some() { short + "…" } else { short }
}

impl Why {
    /// The way out.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::Empty | Self::NoRows => "export the run again; the first line names the columns, each line below is a moment".into(),
            Self::OneRow => "a run has a beginning and an end: two rows at least".into(),
            Self::NoTimePasses => "is this the column of the time, and not that of a counter?".into(),
            Self::NoHeading { has, .. } => {
                let shown: Vec<String> = has.iter().take(20).map(|heading| format!("`{}`", clip(heading))).collect();
                let more = if has.len() > 20 { " …" } else { "" };
                format!("the first line of the file names {}{more}: write one of them as `heading`", shown.join(", "))
            }
            Self::TwoHeadings { .. } => "rename one of the two in the file".into(),
            Self::PartedBy { mark } => format!(
                "export it with commas between the columns and points in the numbers; or replace `,` by `.` first and then {} by `,`",
                mark_in_words(*mark)
            ),
            Self::DecimalComma { text } => format!("write `{}`; set the export to decimal points", clip(&text.replace(',', "."))),
            Self::NotNumber { .. } | Self::NothingInCell | Self::NotFinite { .. } => {
                "repair the cell, or delete the row: for as long as a row is missing the one before it counts".into()
            }
            Self::TooLarge { .. } => "check the logger, or delete the row".into(),
            Self::Cells { has, wanted } if *has == 2 * wanted || *has == 2 * wanted - 1 => {
                "decimal commas look like that: export it with decimal points".into()
            }
            Self::Cells { .. } => "the row was cut off, or has one comma too many: repair or delete it".into(),
            Self::Backwards { .. } => {
                "the logger was started anew, or its clock was set: make two files of it, and a case of each".into()
            }
            Self::Gap { .. } => {
                "nobody knows what it did meanwhile: make two files of it, and a case of each; if it only stood, add a row \
                 of zeros at both ends of the gap and one every few seconds between"
                    .into()
            }
            Self::Endless { .. } => "is a quotation mark opened there that nothing closes?".into(),
            Self::NoText => "is this the logger's own file? Export the run as a table with commas (CSV)".into(),
            Self::NotUtf8 | Self::Utf16 => "save the file as UTF-8 text, comma separated".into(),
            Self::Unreadable { .. } => "check that the file may be read, and is whole".into(),
        }
    }
}

fn mark_in_words(mark: char) -> String {
    if mark == '\t' { "each tab".into() } else { format!("`{mark}`") }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(f, "the file is empty"),
            Self::NoRows => write!(f, "there are headings, but no row below them"),
            Self::OneRow => write!(f, "there is one row alone"),
            Self::NoTimePasses => write!(f, "no time passes from the first row to the last"),
            Self::NoHeading { heading, role, .. } => {
                write!(f, "no column is headed `{}`, which is to be the {}", clip(heading), role.word())
            }
            Self::TwoHeadings { heading } => write!(f, "two columns are headed `{}`", clip(heading)),
            Self::PartedBy { mark } => {
                let by = if *mark == '\t' { "tabs".to_owned() } else { "semicolons".to_owned() };
                write!(f, "the columns are parted by {by}; commas are wanted")
            }
            Self::DecimalComma { text } => write!(f, "`{}` has a comma; a decimal point is wanted", clip(text)),
            Self::NotNumber { text } => write!(f, "`{}` stands where a number is wanted", clip(text)),
            Self::NothingInCell => write!(f, "the cell is empty"),
            Self::NotFinite { text } => write!(f, "`{}` is no number that anything could have", clip(text)),
            Self::TooLarge { text } => write!(f, "`{}` is more than anything of this kind could be", clip(text)),
            Self::Cells { has, wanted } => {
                write!(f, "this row has {has} cells, the first line names {wanted} columns")
            }
            Self::Backwards { before, now } => write!(f, "time goes back here, from {before} s to {now} s"),
            Self::Gap { seconds, usual } => {
                write!(
                    f,
                    "nothing was recorded for {seconds:.1} s before this row; until there a row came every {usual:.3} s"
                )
            }
            Self::Endless { bytes } => write!(f, "this row does not end within {bytes} bytes"),
            Self::NotUtf8 => write!(f, "there are bytes here that are not UTF-8 text"),
            Self::NoText => write!(f, "this file is no text"),
            Self::Utf16 => write!(f, "this file is UTF-16 text"),
            Self::Unreadable { reason } => write!(f, "the file cannot be read further: {reason}"),
        }
    }
}
