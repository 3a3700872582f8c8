//! The cards are complete, and rules/README.md is printed from them. `DRYFIT_BLESS=1` writes it anew.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use rule::{Area, Card};
use std::fmt::Write;
use std::fs;
use std::path::Path;

fn cards() -> (Vec<&'static Card>, Vec<&'static Card>) {
    let rules = rulebook::RULES.iter().map(|rule| rule.card()).collect();
    (rules, rulebook::OVERVIEWS.iter().map(|overview| overview.card()).collect())
}

#[test]
fn no_card_is_silent() {
    let (rules, overviews) = cards();
    let mut silent = Vec::new();
    for card in rules.iter().chain(&overviews) {
        let texts = [
            ("name", card.name),
            ("question", card.question),
            ("explains", card.explains),
            ("formula", card.formula),
            ("source", card.source),
            ("checked", card.checked),
            ("required", card.required),
        ];
        // A caution may be empty: not every rule watches over something that hurts.
        silent.extend(texts.iter().filter(|text| text.1.trim().is_empty()).map(|text| (card.name, text.0)));
    }
    assert!(silent.is_empty(), "without text: {silent:?}");
}

#[test]
fn each_source_says_what_it_is_worth() {
    let (rules, overviews) = cards();
    for card in rules.iter().chain(&overviews) {
        let worth = ["published", "common practice", "from memory"];
        assert!(worth.iter().any(|word| card.source.contains(word)), "{}: {}", card.name, card.source);
    }
}

fn page() -> String {
    let (rules, overviews) = cards();
    let mut page = String::from(
        "# The rulebook\n\nPrinted from the cards by `DRYFIT_BLESS=1 cargo test -p structure`; change the cards, not this page.\n\n| rule | area | question |\n|---|---|---|\n",
    );
    for card in rules.iter().chain(&overviews) {
        writeln!(page, "| [{0}](#{0}) | {1} | {2} |", card.name, card.area.word(), cell(card.question)).unwrap();
    }
    for card in rules {
        write_card(&mut page, card);
    }
    page.push_str("\nThe following look at all margins together, once the others have judged.\n");
    for card in overviews {
        write_card(&mut page, card);
    }
    page
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

fn write_card(page: &mut String, card: &Card) {
    writeln!(page, "\n## {}\n*{}* — **{}**\n", card.name, card.area.word(), card.question).unwrap();
    writeln!(page, "{}\n", card.explains).unwrap();
    let texts = [
        ("Formula", card.formula),
        ("Source", card.source),
        ("Checked", card.checked),
        ("Required", card.required),
        ("Caution", card.caution),
    ];
    for (name, text) in texts.iter().filter(|text| !text.1.is_empty()) {
        writeln!(page, "- {name}: {text}").unwrap();
    }
}

#[test]
fn the_page_is_that_of_the_cards() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../rules/README.md");
    let page = page();
    if std::env::var_os("DRYFIT_BLESS").is_some() {
        fs::write(&path, &page).unwrap();
    }
    let there = fs::read_to_string(&path).unwrap_or_default();
    let line = there.lines().zip(page.lines()).position(|(there, here)| there != here);
    let line = line.unwrap_or_else(|| there.lines().count().min(page.lines().count())) + 1;
    assert!(there == page, "rules/README.md has drifted from the cards, from line {line} on; DRYFIT_BLESS=1 writes it");
}

#[test]
fn a_card_prints_all_its_texts() {
    let card = Card {
        name: "dry-chain",
        area: Area::Powertrain,
        question: "Q?",
        explains: "E.",
        formula: "F",
        source: "S",
        checked: "C",
        required: "R",
        caution: "",
    };
    let mut page = String::new();
    write_card(&mut page, &card);
    assert_eq!(
        page,
        "\n## dry-chain\n*powertrain* — **Q?**\n\nE.\n\n- Formula: F\n- Source: S\n- Checked: C\n- Required: R\n"
    );
    write_card(&mut page, &Card { caution: "Hot.", ..card });
    assert!(page.ends_with("- Caution: Hot.\n"));
}
