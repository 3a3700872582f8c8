//! Places as the format wants them: an address of the file, lines, columns and bytes.

use crate::clean::clean;
use crate::source::Sources;
use machine::{Document, FileId, NodeId, Span};
use serde_json::{Value, json};
use std::fmt::Write;

pub(super) struct Locator<'a> {
    pub document: &'a Document,
    pub sources: &'a Sources,
}

impl Locator<'_> {
    /// Where a node stands; one of the built-in catalogue has a name and no file.
    pub fn node(&self, node: NodeId, says: Option<&str>) -> Value {
        let place = self.document.place(node);
        if self.document.file(place.file).is_none_or(|file| file.built_in) {
            let name = format!("built-in {}", clean(&self.document.path(node)));
            return with(json!({"logicalLocations": [{"fullyQualifiedName": name}]}), says);
        }
        self.span(place.file, place.label, says)
    }

    pub fn span(&self, file: FileId, span: Span, says: Option<&str>) -> Value {
        let (from, to) = (span.start as usize, span.end as usize);
        let position = |offset| self.sources.get(usize::from(file.0)).map_or((1, 1), |text| text.position(offset));
        let (line, column) = position(from);
        let (last_line, last_column) = position(to);
        let name = self.document.file(file).map_or("", |file| &file.name);
        let place = json!({"physicalLocation": {
            "artifactLocation": {"uri": address(name)},
            "region": {
                "startLine": line,
                "startColumn": column,
                "endLine": last_line,
                "endColumn": last_column,
                "byteOffset": from,
                "byteLength": span.len(),
            },
        }});
        with(place, says)
    }
}

fn with(mut location: Value, says: Option<&str>) -> Value {
    if let (Some(map), Some(says)) = (location.as_object_mut(), says) {
        map.insert("message".into(), json!({"text": super::plain(says)}));
    }
    location
}

/// A path as a reference of RFC 3986: relative to where the command ran, or an absolute one of the scheme `file`.
fn address(path: &str) -> String {
    let path = if std::path::MAIN_SEPARATOR == '\\' { path.replace('\\', "/") } else { path.to_owned() };
    let mut out = String::from(if path.starts_with('/') { "file://" } else { "" });
    for byte in path.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => out.push(char::from(byte)),
            other => {
                let _ = write!(out, "%{other:02X}");
            }
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::address;

    #[test]
    fn an_address_holds_no_letter_that_means_something_there() {
        assert_eq!(address("specs/hut hauler.yaml"), "specs/hut%20hauler.yaml");
        assert_eq!(address("a:b?<c>#%é"), "a%3Ab%3F%3Cc%3E%23%25%C3%A9");
        assert_eq!(address("/srv/a.yaml"), "file:///srv/a.yaml");
    }
}
