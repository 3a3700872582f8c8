//! All forces on each example are in balance, and an absurd frame shows wherever it should.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod specs;

use engine::{Finding, Run, case_points, verdicts_of};
use machine::{CaseKind, Machine, Section, WhatIf};
use rule::prelude::loads;
use rule::{Area, Card, Checks, Consequence, Margin, Outcome, Required, Rule, Verdict};
use rulebook::RULES;

/// What is left over of all forces, as a share of the largest, against a billionth.
struct Balanced;

static CARD: Card = Card::silent("balanced", Area::WholeMachine);

impl Rule for Balanced {
    fn card(&self) -> &'static Card {
        &CARD
    }
    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        checks.about("machine", machine.machine.mass.id()).check("balance", |at| {
            if !matches!(at.case()?.kind, CaseKind::Landing | CaseKind::Climb) {
                return Ok(Outcome::Aside("it neither climbs nor lands"));
            }
            let left = loads::balance(at)?.left_over().iter().fold(0.0_f64, |most, left| most.max(left.abs()));
            let (left, most) = (rule::prelude::Ratio::from_si(left), rule::prelude::Ratio::from_si(1e-9));
            let required = Required { value: 1.0, why: "a billionth" };
            Ok(Outcome::Held(Margin::ratio::<quantity::m::Ratio>(left, most, required, Consequence::CheapPart)))
        });
    }
}

use quantity::Quantity;

#[test]
fn each_landing_and_each_climb_of_each_example_is_in_balance() {
    let mut judged = 0;
    for path in specs::examples() {
        let (_, machine) = specs::sound(&path);
        if machine.suspension.len() < 2 {
            continue;
        }
        let rules: &[&dyn Rule] = &[&Balanced];
        let points = case_points(&machine);
        let findings = verdicts_of(&Run::full(&machine, rules, &points, &WhatIf::default()), &machine, rules);
        for finding in findings {
            assert_eq!(finding.verdict, Verdict::Sound, "{}: {:?}", path.display(), finding.gaps);
            judged += 1;
        }
    }
    assert!(judged >= 4, "{judged}");
}

fn sizes(section: &Section) -> Vec<machine::NodeId> {
    match section {
        Section::Rectangle(bar) => vec![bar.height.id(), bar.width.id()],
        Section::Round(bar) => vec![bar.diameter.id()],
        Section::Tube(tube) => vec![tube.outer_diameter.id()],
        Section::Box(bar) => vec![bar.height.id(), bar.width.id()],
        Section::Channel(bar) => vec![bar.height.id(), bar.width.id()],
    }
}

#[test]
fn a_frame_of_two_by_two_millimetres_fails_wherever_something_pushes_on_it() {
    for path in specs::examples() {
        let (_, machine) = specs::sound(&path);
        let points = case_points(&machine);
        for part in machine.structure.parts.iter().filter(|part| !part.value.pushed.is_empty()) {
            let Some(section) = part.value.section.there() else { continue };
            let mut what_if = WhatIf::default();
            sizes(section).into_iter().for_each(|size| what_if.set(size, 2e-3));
            let review = |what_if: &WhatIf| -> Vec<Finding> {
                verdicts_of(&Run::full(&machine, RULES, &points, what_if), &machine, RULES)
            };
            let about = |finding: &&Finding| {
                let strength = ["member-strength", "layer-direction"].contains(&finding.card.name);
                strength && finding.subject.node == part.id() && finding.verdict == Verdict::Fails
            };
            let findings = review(&what_if);
            // Rods do not fit into so thin a part: then it is not judged, which also shows.
            let fails = findings.iter().filter(about).count();
            let unjudged = findings
                .iter()
                .any(|finding| finding.subject.node == part.id() && finding.verdict == Verdict::NotJudged);
            let shows = fails > 0 || (part.value.rods.there().is_some() && unjudged);
            assert!(shows, "{}: {} of 2 × 2 mm shows nowhere", path.display(), part.name());
        }
    }
}
