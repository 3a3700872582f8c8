//! Every hostile input gets exactly the complaints of `said.txt`: place, underlined text, what is wrong, the way out.
//! `DRYFIT_BLESS=1` writes what is said today into that file; read the difference before keeping it.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod inputs;
mod libraries;
mod logs;
mod workshop;

use document::{Document, FileTrouble, Files, Limits};
use machine::{Complaint, FileId, Machine, Span, Swaps, complaints};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::sync::LazyLock;

/// A hostile spec, with the libraries that it may name.
pub struct Case {
    pub name: &'static str,
    pub bytes: Vec<u8>,
    pub libraries: Vec<(&'static str, Result<Vec<u8>, FileTrouble>)>,
    /// The file at the root.
    pub workshop: Option<Result<Vec<u8>, String>>,
    pub limits: Limits,
}

pub fn case(name: &'static str, bytes: impl Into<Vec<u8>>) -> Case {
    Case { name, bytes: bytes.into(), libraries: Vec::new(), workshop: None, limits: Limits::default() }
}

impl Case {
    pub fn library(self, name: &'static str, text: &str) -> Self {
        self.library_bytes(name, text.as_bytes())
    }
    pub fn library_bytes(mut self, name: &'static str, bytes: &[u8]) -> Self {
        self.libraries.push((name, Ok(bytes.to_vec())));
        self
    }
    pub fn trouble(mut self, name: &'static str, trouble: FileTrouble) -> Self {
        self.libraries.push((name, Err(trouble)));
        self
    }
    pub fn workshop(mut self, text: impl Into<Vec<u8>>) -> Self {
        self.workshop = Some(Ok(text.into()));
        self
    }
    pub fn limits(mut self, change: impl FnOnce(&mut Limits)) -> Self {
        change(&mut self.limits);
        self
    }
    fn load(&self) -> Document {
        Document::load("spec", self.bytes.clone(), self, &catalogue::Catalogue, &self.limits)
    }
}

impl Files for Case {
    fn read(&self, _from: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let found = self.libraries.iter().find(|library| library.0 == name);
        let (name, read) = found.ok_or(FileTrouble::Missing { nearest: None })?;
        read.clone().map(|bytes| ((*name).to_owned(), bytes))
    }
    fn workshop(&self) -> Option<(String, Result<Vec<u8>, String>)> {
        Some(("workshop.yaml".into(), self.workshop.clone()?))
    }
}

/// Each case read once, with what is complained about.
static READ: LazyLock<Vec<(&str, Document, Vec<Complaint>)>> = LazyLock::new(|| {
    let read = |case: Case| {
        let document = case.load();
        let complaints = complaints(&document);
        (case.name, document, complaints)
    };
    all_cases().into_iter().map(read).collect()
});

fn all_cases() -> Vec<Case> {
    inputs::text()
        .into_iter()
        .chain(inputs::shape())
        .chain(inputs::values())
        .chain(libraries::cases())
        .chain(workshop::cases())
        .chain(logs::cases())
        .collect()
}

/// `line:column`, both from 1, and what is underlined there.
fn spot(document: &Document, file: FileId, span: Span) -> String {
    let source = document.file(file).expect("a complaint names a file that was read");
    let before = source.text.get(..span.start as usize).expect("a span lies on characters of its file");
    let (line, start) = (before.matches('\n').count() + 1, before.rfind('\n').map_or(0, |at| at + 1));
    let column = before[start..].chars().filter(|letter| *letter != '\u{feff}').count() + 1;
    assert!(source.text.get(span.start as usize..span.end as usize).is_some(), "{span:?} leaves its file");
    let underlined: String = document.slice(file, span).chars().take(60).collect();
    let file = if file == FileId(0) { String::new() } else { format!("{}:", source.name) };
    format!("{file}{line}:{column} {underlined:?}")
}

fn told(document: &Document, complaints: &[Complaint]) -> String {
    let mut out = String::new();
    for complaint in complaints {
        let place = spot(document, complaint.file, complaint.span);
        // Long or unprintable texts are shown in the form of a Rust string.
        let clean = |text: &str| {
            text.chars()
                .map(|c| if c.is_control() { c.escape_debug().to_string() } else { c.into() })
                .collect::<String>()
        };
        let _ = writeln!(out, "{place}\n    {}\n    {}", clean(&complaint.says), clean(&complaint.help));
        if let Some(also) = &complaint.also {
            let _ = writeln!(out, "    also {} {}", spot(document, also.file, also.span), also.says);
        }
    }
    if out.is_empty() { "fine\n".into() } else { out }
}

/// The blocks of `said.txt` by case.
fn expected(text: &str) -> BTreeMap<&str, String> {
    let blocks = text.split("== ").skip(1);
    blocks
        .filter_map(|block| block.split_once('\n'))
        .map(|(name, said)| (name, said.trim_end().to_owned() + "\n"))
        .collect()
}

#[test]
fn every_hostile_input_is_answered_in_these_words() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/hostile/said.txt");
    let said: Vec<(&str, String)> =
        READ.iter().map(|(name, document, complaints)| (*name, told(document, complaints))).collect();
    let many = READ.iter().find(|read| read.0 == inputs::MANY).unwrap();
    assert_eq!(many.2.len(), 200, "more than that nobody reads");
    let said: Vec<(&str, String)> = said.into_iter().filter(|case| case.0 != inputs::MANY).collect();
    if std::env::var_os("DRYFIT_BLESS").is_some() {
        let blocks: Vec<String> = said.iter().map(|(name, told)| format!("== {name}\n{told}")).collect();
        std::fs::write(path, blocks.join("\n")).unwrap();
    }
    let text = std::fs::read_to_string(path).unwrap();
    let wanted = expected(&text);
    let wrong: Vec<String> = said
        .iter()
        .filter(|(name, told)| wanted.get(name) != Some(told))
        .map(|(name, told)| format!("== {name}\n{told}wanted:\n{}", wanted.get(name).map_or("nothing", String::as_str)))
        .collect();
    assert!(wrong.is_empty(), "{} cases are answered otherwise:\n{}", wrong.len(), wrong.join("\n"));
    assert_eq!(said.len(), wanted.len(), "each case once, and no words without a case");
    assert!(said.len() >= 60, "{}", said.len());
}

/// A long spec that is fine, cut, doubled and smeared at a thousand places: never a panic, every span inside its file.
#[test]
fn damaged_bytes_are_answered_too() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../mechanism/tests/specs/everything.machine.yaml");
    let bytes = std::fs::read(path).unwrap();
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    let mut random = |below: usize| {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        usize::try_from(state % below as u64).unwrap()
    };
    let scraps: [&[u8]; 16] = [
        b"\t",
        b"\n",
        b"\r",
        b": ",
        b"- ",
        b"{",
        b"]",
        b"\"",
        b"&a ",
        b"*a",
        b"<<: ",
        b"\xc3",
        b"\0",
        "\u{feff}".as_bytes(),
        b"#",
        b"like: front",
    ];
    let mut answered = 0;
    for _ in 0..300 {
        let mut damaged = bytes.clone();
        let at = random(damaged.len());
        match random(4) {
            0 => damaged.truncate(at),
            1 => drop(damaged.drain(at..(at + 1 + random(40)).min(bytes.len()))),
            2 => drop(damaged.splice(at..at, scraps[random(16)].iter().copied())),
            _ => damaged.extend_from_within(at..(at + 200).min(bytes.len())),
        }
        let document = case("damaged", damaged).load();
        let complaints = complaints(&document);
        answered += usize::from(!complaints.is_empty());
        told(&document, &complaints);
    }
    assert!(answered > 150, "{answered}");
}

/// Without a complaint a spec is read; with one it is not.
#[test]
fn silence_means_that_it_can_be_reviewed() {
    for (name, document, complaints) in READ.iter() {
        let reads = document.troubles.is_empty() && Machine::read(document, &Swaps::new()).is_ok();
        // A later format is refused by its number alone.
        let other_format = document.root.get("dryfit").and_then(document::Node::text) == Some("7");
        assert_eq!(complaints.is_empty(), reads && !other_format, "{name}");
    }
}

#[test]
fn complaints_come_in_the_order_of_the_text_and_each_once() {
    for (name, _, complaints) in READ.iter() {
        let places: Vec<(FileId, u32)> =
            complaints.iter().map(|complaint| (complaint.file, complaint.span.start)).collect();
        assert!(places.is_sorted(), "{name}: {places:?}");
        for pair in complaints.windows(2) {
            assert_ne!(
                (pair[0].file, pair[0].span, &pair[0].says),
                (pair[1].file, pair[1].span, &pair[1].says),
                "{name}"
            );
        }
    }
}
