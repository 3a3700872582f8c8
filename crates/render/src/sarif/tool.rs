//! What the tool is and which rules it has, from their cards.

use rule::Card;
use serde_json::{Value, json};

/// Identifier of what keeps a spec from being reviewed; it is no rule of the rulebook.
pub(super) const SPECIFICATION: &str = "specification";
/// Identifier and place of the notifications.
pub(super) const NOT_JUDGED: (&str, usize) = ("not-judged", 0);
pub(super) const BROKEN: (&str, usize) = ("broken", 1);

pub(super) fn tool(cards: &[&Card]) -> Value {
    let mut rules: Vec<Value> = cards.iter().map(|card| descriptor(card)).collect();
    rules.push(json!({
        "id": SPECIFICATION,
        "shortDescription": {"text": "Can the spec be read?"},
        "fullDescription": {"text": "A key, a value or a file that cannot be used keeps the whole spec from being reviewed."},
        "help": {"text": "`dryfit schema machine` prints what a spec may hold, `dryfit start NAME` writes one to begin with."},
    }));
    json!({"driver": {
        "name": "dryfit",
        "version": env!("CARGO_PKG_VERSION"),
        "semanticVersion": env!("CARGO_PKG_VERSION"),
        "shortDescription": {"text": "Reviews the written specification of a whole machine. A clean review is no proof and no certificate."},
        "rules": rules,
        "notifications": [
            {
                "id": NOT_JUDGED.0,
                "shortDescription": {"text": "An input is missing, or a formula was asked outside its range. Never a pass."},
                "defaultConfiguration": {"level": "note"},
            },
            {
                "id": BROKEN.0,
                "shortDescription": {"text": "The check itself failed. Please report the spec."},
                "defaultConfiguration": {"level": "error"},
            },
        ],
    }})
}

fn descriptor(card: &Card) -> Value {
    let help = [
        ("Worked out as", card.formula),
        ("Source", card.source),
        ("Checked", card.checked),
        ("Required reserve", card.required),
        ("Caution", card.caution),
    ];
    let help = help.iter().filter(|(_, text)| !text.is_empty()).map(|(title, text)| format!("{title}: {text}"));
    let help = super::plain(&help.collect::<Vec<_>>().join("\n\n"));
    json!({
        "id": card.name,
        "shortDescription": {"text": super::plain(card.question)},
        "fullDescription": {"text": super::plain(card.explains)},
        "help": {"text": help},
        "properties": {"area": card.area.word()},
    })
}
