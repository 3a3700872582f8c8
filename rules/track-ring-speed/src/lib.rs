#![no_std]
//! To be written.

use rule::prelude::*;

static CARD: Card = Card {
    name: "track-ring-speed",
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
pub struct TrackRingSpeed;

impl Rule for TrackRingSpeed {
    fn card(&self) -> &'static Card {
        &CARD
    }
    fn judge(&self, _machine: &Machine, _checks: &mut Checks<'_>) {}
}
