//! The rows of a log one after the other, in SI units, never more than one of them in memory.

use crate::columns::{Column, Role};
use crate::number::number;
use crate::trouble::{Place, Trouble, Why};
use csv::{ByteRecord, ErrorKind, Reader, ReaderBuilder};
use quantity::Unit;
use std::cell::Cell;
use std::io::{self, Read};
use std::rc::Rc;

/// Longer than any row: a quotation mark that nothing closes would take in the rest of the file.
const LONGEST_ROW: u64 = 256 << 10;
const BUFFER: usize = 64 << 10;

/// Lets through no more than a row may be long, between two rows.
struct Bounded<R> {
    inner: R,
    since: Rc<Cell<u64>>,
}

impl<R: Read> Read for Bounded<R> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        if self.since.get() > LONGEST_ROW {
            return Err(io::ErrorKind::FileTooLarge.into());
        }
        let read = self.inner.read(into)?;
        self.since.set(self.since.get() + read as u64);
        Ok(read)
    }
}

/// Where a role stands in each row.
struct Found {
    role: Role,
    index: usize,
    unit: &'static Unit,
    heading: String,
}

pub(crate) struct Rows<R> {
    reader: Reader<Bounded<R>>,
    since: Rc<Cell<u64>>,
    record: ByteRecord,
    width: usize,
    found: Vec<Found>,
    /// Of the last row that was read.
    pub line: u64,
}

/// One moment by role; only roles that the spec names are set.
pub(crate) type Row = [Option<f64>; Role::ALL.len()];

impl<R: Read> Rows<R> {
    /// Reads the first line and finds the columns in it. Columns whose unit nobody knows are left out.
    pub fn new(input: R, columns: &[Column]) -> Result<Self, Trouble> {
        let since = Rc::new(Cell::new(0));
        let bounded = Bounded { inner: input, since: Rc::clone(&since) };
        let reader =
            ReaderBuilder::new().has_headers(false).flexible(true).buffer_capacity(BUFFER).from_reader(bounded);
        let mut rows = Self { reader, since, record: ByteRecord::new(), width: 0, found: Vec::new(), line: 0 };
        let first = |why| Trouble { place: Place { line: 1, column: None }, why };
        if !rows.advance()? {
            return Err(first(Why::Empty));
        }
        let bytes = rows.record.as_slice();
        let zeros = bytes.iter().filter(|byte| **byte == 0).count();
        if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) || 3 * zeros > bytes.len() {
            return Err(first(Why::Utf16));
        }
        if zeros > 0 {
            return Err(first(Why::NoText));
        }
        let headings: Result<Vec<String>, _> = rows.record.iter().map(heading).collect();
        let Ok(headings) = headings else { return Err(first(Why::NotUtf8)) };
        if headings.iter().all(String::is_empty) {
            return Err(first(Why::Empty));
        }
        if let [one] = headings.as_slice()
            && let Some(mark) = [';', '\t'].into_iter().find(|mark| one.contains(*mark))
        {
            return Err(first(Why::PartedBy { mark }));
        }
        rows.width = headings.len();
        for column in columns {
            let mut places = headings.iter().enumerate().filter(|(_, heading)| **heading == column.heading.trim());
            let (index, heading) = match (places.next(), places.next()) {
                (Some(found), None) => found,
                (Some(_), Some(_)) => return Err(first(Why::TwoHeadings { heading: column.heading.clone() })),
                (None, _) => {
                    let (heading, role) = (column.heading.clone(), column.role);
                    return Err(first(Why::NoHeading { heading, role, has: headings }));
                }
            };
            if let Some(unit) = column.role.unit(&column.unit) {
                rows.found.push(Found { role: column.role, index, unit, heading: heading.clone() });
            }
        }
        Ok(rows)
    }

    pub fn has(&self, role: Role) -> bool {
        self.found.iter().any(|found| found.role == role)
    }

    pub fn here(&self, role: Role) -> Place {
        let found = self.found.iter().find(|found| found.role == role);
        Place { line: self.line, column: found.map(|found| (found.index + 1, found.heading.clone())) }
    }

    /// Whether there was another record.
    fn advance(&mut self) -> Result<bool, Trouble> {
        self.since.set(0);
        let read = self.reader.read_byte_record(&mut self.record);
        let line = self.record.position().map_or(self.line + 1, csv::Position::line);
        let trouble = |why| Trouble { place: Place { line, column: None }, why };
        match read {
            Ok(true) => {
                self.line = line;
                Ok(true)
            }
            Ok(false) => Ok(false),
            Err(error) => Err(match error.into_kind() {
                ErrorKind::Io(error) if error.kind() == io::ErrorKind::FileTooLarge => {
                    trouble(Why::Endless { bytes: LONGEST_ROW })
                }
                ErrorKind::Io(error) => trouble(Why::Unreadable { reason: error.to_string() }),
                _ => trouble(Why::Unreadable { reason: "it is no table".into() }),
            }),
        }
    }

    /// The next moment; nothing behind the last one.
    pub fn next(&mut self) -> Result<Option<Row>, Trouble> {
        if !self.advance()? {
            return Ok(None);
        }
        if self.record.len() != self.width {
            let why = Why::Cells { has: self.record.len(), wanted: self.width };
            return Err(Trouble { place: Place { line: self.line, column: None }, why });
        }
        let mut row: Row = [None; Role::ALL.len()];
        for found in &self.found {
            let cell = self.record.get(found.index).unwrap_or(&[]);
            let number = number(cell).map_err(|why| {
                let place = Place { line: self.line, column: Some((found.index + 1, found.heading.clone())) };
                Trouble { place, why }
            })?;
            if let Some(slot) = row.get_mut(found.role.index()) {
                *slot = Some(number * found.unit.factor + found.unit.offset);
            }
        }
        Ok(Some(row))
    }
}

fn heading(bytes: &[u8]) -> Result<String, std::str::Utf8Error> {
    std::str::from_utf8(bytes).map(|text| text.trim_start_matches('\u{feff}').trim().to_owned())
}
