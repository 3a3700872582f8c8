//! Line and column of a byte, and source text as the diagnostics library wants it, with one line table for each file.

use crate::clean::clean;
use machine::Document;
use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};

/// The files of a document, each with the offsets of its lines.
#[derive(Debug)]
pub(crate) struct Sources {
    files: Vec<Text>,
}

#[derive(Debug)]
pub(crate) struct Text {
    pub name: String,
    text: String,
    starts: Vec<usize>,
}

impl Sources {
    pub fn of(document: &Document) -> Self {
        let files = document.files.iter().map(|file| Text::new(&file.name, &file.text)).collect();
        Self { files }
    }
    pub fn get(&self, file: usize) -> Option<&Text> {
        self.files.get(file)
    }

    /// `file:line:column` of a byte.
    pub fn at(&self, file: usize, offset: usize) -> String {
        let Some(text) = self.get(file) else { return String::new() };
        let (line, column) = text.position(offset);
        format!("{}:{line}:{column}", text.name)
    }
}

impl Text {
    fn new(name: &str, text: &str) -> Self {
        // A byte order mark is no column.
        let first = if text.starts_with('\u{feff}') { '\u{feff}'.len_utf8() } else { 0 };
        let starts = std::iter::once(first).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect();
        Self { name: clean(name).replace(['\n', '\r'], "?"), text: clean(text), starts }
    }

    fn line_of(&self, offset: usize) -> usize {
        self.starts.partition_point(|start| *start <= offset).saturating_sub(1)
    }

    fn start(&self, line: usize) -> usize {
        self.starts.get(line).copied().unwrap_or(self.text.len())
    }

    /// The line of a stretch, counted from 0, and the part of the stretch that lies in it: offset in the line, length.
    pub fn within_line(&self, offset: usize, length: usize) -> (usize, usize, usize) {
        let line = self.line_of(offset.min(self.text.len()));
        let from = offset.saturating_sub(self.start(line)).min(self.line(line).len());
        (line, from, length.min(self.line(line).len() - from))
    }

    /// A line, counted from 0, without its end.
    pub fn line(&self, line: usize) -> &str {
        self.text.get(self.start(line)..self.start(line + 1)).unwrap_or("").trim_end_matches(['\n', '\r'])
    }

    /// Line and column, both from 1; the column counts characters.
    pub fn position(&self, offset: usize) -> (usize, usize) {
        let line = self.line_of(offset.min(self.text.len()));
        let before = self.text.get(self.start(line)..offset.min(self.text.len())).unwrap_or("");
        (line + 1, before.chars().count() + 1)
    }
}

impl SourceCode for Text {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let end = span.offset() + span.len();
        if end > self.text.len() {
            return Err(MietteError::OutOfBounds);
        }
        let first = self.line_of(span.offset()).saturating_sub(before);
        let last = self.line_of(end.saturating_sub(1).max(span.offset())) + after;
        let (from, to) = (self.start(first), self.start(last + 1));
        let bytes = self.text.as_bytes().get(from..to).ok_or(MietteError::OutOfBounds)?;
        let within = SourceSpan::new(from.into(), to - from);
        Ok(Box::new(MietteSpanContents::new_named(self.name.clone(), bytes, within, first, 0, last - first + 1)))
    }
}
