#![no_std]
//! To be written.

use rule::prelude::*;

static CARD: Card = Card {
    name: "unwatched-limit",
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
pub struct UnwatchedLimit;

impl Overview for UnwatchedLimit {
    fn card(&self) -> &'static Card {
        &CARD
    }
    fn look(&self, _machine: &Machine, _margins: &[Judged<'_>], _notes: &mut Notes) {}
}
