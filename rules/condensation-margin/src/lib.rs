#![no_std]
//! To be written.

use rule::prelude::*;

static CARD: Card = Card {
    name: "condensation-margin",
    area: Area::WholeMachine,
    question: "",
    explains: "",
    formula: "",
    source: "",
    checked: "",
    required: "",
    caution: "",
};

#[derive(Debug)]
pub struct CondensationMargin;

impl Rule for CondensationMargin {
    fn card(&self) -> &'static Card {
        &CARD
    }
    fn judge(&self, _machine: &Machine, _checks: &mut Checks<'_>) {}
}
