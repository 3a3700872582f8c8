//! Rules ask about the machine; what somebody decides upon their answers is asked elsewhere, by running them again. A rule
//! that knew of it could answer to please.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::fs;
use std::path::{Path, PathBuf};

/// Words of decisions, as they would stand in a name: of the replaced number, of what is changed, of what is ordered and
/// compared, of what is accepted, of what a workshop requires. A word that also names something on a machine is none of
/// them (the profile of a tooth, a refused part of a range), nor are the verdicts, which overviews look at.
const WORDS: &[&str] = &[
    "what_if",
    "swap",
    "swaps",
    "nudge",
    "nudged",
    "selection",
    "unlock",
    "unlocks",
    "remedy",
    "remedies",
    "sensitivity",
    "carriers",
    "uncertainty",
    "sample",
    "samples",
    "rank",
    "ranking",
    "ranked",
    "compare",
    "comparison",
    "concession",
    "concessions",
    "conceded",
    "workshop",
    "misfits",
    "demanded",
    "replaced",
    "advice",
    "required_reserve",
    "refusal",
    "refusal_level",
];

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap()
}

/// The code alone: without comments and without text, in which a card may speak of a workshop.
fn code(source: &str) -> String {
    let mut out = String::new();
    let mut rest = source;
    while let Some(letter) = rest.chars().next() {
        let raw =
            rest.strip_prefix('r').map(|behind| behind.trim_start_matches('#')).filter(|text| text.starts_with('"'));
        let skipped = if rest.starts_with("//") {
            rest.find('\n').unwrap_or(rest.len())
        } else if rest.starts_with("/*") {
            rest.find("*/").map_or(rest.len(), |end| end + 2)
        } else if let Some(text) =
            raw.filter(|_| !out.ends_with(|before: char| before.is_alphanumeric() || before == '_'))
        {
            let hashes = rest.len() - 1 - text.len();
            let end = format!("\"{}", "#".repeat(hashes));
            text[1..].find(&end).map_or(rest.len(), |at| 1 + hashes + 1 + at + end.len())
        } else if letter == '"' {
            text_end(&rest[1..]).map_or(rest.len(), |end| end + 2)
        } else if rest.starts_with("'\"'") || rest.starts_with("'\\") {
            rest[2..].find('\'').map_or(rest.len(), |end| end + 3)
        } else {
            0
        };
        if skipped == 0 {
            out.push(letter);
            rest = &rest[letter.len_utf8()..];
        } else {
            out.push(' ');
            rest = &rest[skipped..];
        }
    }
    out
}

/// Up to the quote that ends a text.
fn text_end(text: &str) -> Option<usize> {
    let mut escaped = false;
    text.char_indices().find_map(|(at, letter)| {
        let ends = letter == '"' && !escaped;
        escaped = letter == '\\' && !escaped;
        ends.then_some(at)
    })
}

/// `WhatIf` and `WHAT_IF` as `what_if`.
fn snake(name: &str) -> String {
    let mut out = String::new();
    for letter in name.chars() {
        if letter.is_uppercase() && out.ends_with(|before: char| before.is_lowercase() || before.is_numeric()) {
            out.push('_');
        }
        out.extend(letter.to_lowercase());
    }
    out
}

/// Names in the code that hold one of the words.
fn found(source: &str) -> Vec<String> {
    let code = code(source);
    let names = code.split(|letter: char| !letter.is_alphanumeric() && letter != '_').filter(|name| !name.is_empty());
    let knows = |name: &&str| {
        let name = format!("_{}_", snake(name));
        WORDS.iter().any(|word| name.contains(&format!("_{word}_")))
    };
    names.filter(knows).map(str::to_owned).collect()
}

fn sources(folder: &Path, out: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let path = entry.path();
        if path.is_dir() {
            sources(&path, out);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            out.push(path);
        }
    }
}

#[test]
fn no_rule_knows_what_is_decided_upon_its_answers() {
    let mut files = Vec::new();
    for rule in fs::read_dir(root().join("rules")).unwrap().map(|entry| entry.unwrap().path()) {
        if rule.is_dir() && rule.file_name().unwrap() != "rulebook" {
            sources(&rule.join("src"), &mut files);
        }
    }
    // Tests replace numbers to see what becomes of them.
    files.retain(|file| !file.iter().any(|part| part == "tests" || part == "tests.rs"));
    assert!(files.len() > 50, "{}", files.len());
    let mut known = Vec::new();
    for file in files {
        let names = found(&fs::read_to_string(&file).unwrap());
        known.extend(names.into_iter().map(|name| format!("{}: {name}", file.strip_prefix(root()).unwrap().display())));
    }
    assert!(known.is_empty(), "rules know of decisions: {known:#?}");
}

/// The words are those in which decisions are really written, so a rule that reached for one would be caught.
#[test]
fn the_words_are_those_of_the_crates_that_decide() {
    let mut files = Vec::new();
    ["decide", "engine", "machine", "cli"]
        .iter()
        .for_each(|name| sources(&root().join("crates").join(name).join("src"), &mut files));
    let code: String = files.iter().map(|file| code(&fs::read_to_string(file).unwrap())).collect();
    let names =
        code.split(|letter: char| !letter.is_alphanumeric() && letter != '_').map(|name| format!("_{}_", snake(name)));
    let names: Vec<String> = names.collect();
    let idle: Vec<&&str> =
        WORDS.iter().filter(|word| !names.iter().any(|name| name.contains(&format!("_{word}_")))).collect();
    assert!(idle.is_empty(), "nothing is called so: {idle:?}");
}

#[test]
fn the_check_bites_in_code_and_not_in_text() {
    assert_eq!(found("let row = WhatIf::default();"), ["WhatIf"]);
    assert_eq!(found("machine.workshop().reserves; fn remedies() {}"), ["workshop", "remedies"]);
    assert_eq!(found("use machine::RefusalLevel; let by_rank = 1;"), ["RefusalLevel", "by_rank"]);
    assert!(
        found("// a workshop\n/* rank */ let cold = \"a \\\"workshop\\\" rank\"; let c = '\"'; let n = '\\'';")
            .is_empty()
    );
    assert!(found("let raw = r#\"a \"remedy\" here\"#; let crank = frank(prank);").is_empty());
    assert_eq!(found("let raw = r\"\\\"; swaps"), ["swaps"], "nothing is escaped there");
}
