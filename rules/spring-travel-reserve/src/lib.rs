#![no_std]
//! To be written.

use rule::prelude::*;

static CARD: Card = Card {
    name: "spring-travel-reserve",
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
pub struct SpringTravelReserve;

impl Rule for SpringTravelReserve {
    fn card(&self) -> &'static Card {
        &CARD
    }
    fn judge(&self, _machine: &Machine, _checks: &mut Checks<'_>) {}
}
