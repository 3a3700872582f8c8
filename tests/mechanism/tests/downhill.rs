//! Heat flows downhill in every spec: at each face between a body and the coolant it goes from the hotter to the colder end
//! and is what contact and film conduct, no wetted wall is hotter than the body that heats it, and where everything has
//! settled, what is put in is given off.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod specs;

use engine::{Run, case_points};
use machine::{Found, NodeId, WhatIf};
use quantity::{Quantity, m};
use rayon::prelude::*;
use rule::prelude::*;

/// Breaks where heat climbs.
#[derive(Debug)]
struct Downhill;

static CARD: Card = Card::silent("downhill", Area::WholeMachine);

/// Rounding of a network whose conductances lie nine decades apart.
const CLOSE: f64 = 1e-6;

fn climbs(at: &At) -> Found<Option<String>> {
    let thermal = at.thermal()?;
    let bodies = [(Cooled::Motor, &thermal.motor_case), (Cooled::Controller, &thermal.controller)];
    let cools = |element: usize| match &at.machine().cooling.circuit[element] {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => plate.cools,
        _ => None,
    };
    for (element, wall) in thermal.walls.iter().enumerate() {
        let body = bodies.iter().find(|(cooled, _)| cools(element) == Some(*cooled)).map(|(_, body)| *body);
        let (Some(Ok(wall)), Some(Ok(body))) = (wall, body) else { continue };
        // One that ends up warmed by the coolant does not heat its wall.
        let face =
            thermal.settled.as_ref().and_then(|settled| settled.faces.iter().find(|face| face.element == element));
        // Nor does one that is still colder than coolant which another has warmed.
        let there = |settles: ThermodynamicTemperature| (settles.si() - body.end().si()).abs() < 0.1;
        let heated = face.is_none_or(|face| face.heat > Power::ZERO) && body.settles().is_some_and(there);
        if heated && wall.hottest().si() > body.hottest().si().max(wall.start().si()) + CLOSE * 1e3 {
            return Ok(Some(format!(
                "wall {element} at {:?} over its body at {:?}: {face:?}",
                wall.hottest(),
                body.hottest()
            )));
        }
    }
    let Some(settled) = &thermal.settled else { return Ok(None) };
    if settled.imbalance.abs() > CLOSE {
        return Ok(Some(format!("{} of the heat is lost on the way", settled.imbalance)));
    }
    for face in &settled.faces {
        let (body, wall, coolant, heat) = (face.body.si(), face.wall.si(), face.coolant.si(), face.heat.si());
        let through = [face.contact.si() * (body - wall), face.film.si() * (wall - coolant)];
        let off = |each: f64| (each - heat).abs() > CLOSE * heat.abs().max(1.0) * 1e2;
        if through.iter().any(|each| off(*each)) {
            return Ok(Some(format!("{face:?} conducts {through:?}")));
        }
        if heat > 1e-3 && !(body > wall && wall > coolant) || heat < -1e-3 && !(body < wall && wall < coolant) {
            return Ok(Some(format!("{face:?} climbs")));
        }
    }
    Ok(None)
}

impl Rule for Downhill {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        checks.about("machine", machine.environment.altitude.low.id()).check("downhill", |at| {
            Ok(match climbs(at)? {
                Some(happens) => {
                    let words = Words { happens, ..Words::default() };
                    Outcome::Breach { consequence: Consequence::CheapPart, words }
                }
                None => Outcome::Clear(Words::default()),
            })
        });
    }
}

/// What broke, and in how many case points it was looked at.
fn looked(machine: &Machine, what_if: &WhatIf, points: &[CasePoint]) -> (Vec<String>, usize) {
    let run = Run::full(machine, &[&Downhill], points, what_if);
    let (mut broke, mut seen) = (Vec::new(), 0);
    for (_, point, checked) in run.rows() {
        match &checked.outcome {
            Outcome::Clear(_) => seen += 1,
            Outcome::NotJudged(_) => {}
            other => broke.push(format!(
                "{} {}: {other:?}",
                machine.cases.iter().nth(point.case).unwrap().name(),
                point.share
            )),
        }
    }
    (broke, seen)
}

#[test]
fn in_every_case_point_of_all_examples() {
    for path in specs::examples().into_iter().chain([specs::everything()]) {
        let (_, machine) = specs::sound(&path);
        let (broke, seen) = looked(&machine, &WhatIf::default(), &case_points(&machine));
        assert!(broke.is_empty(), "{}: {broke:#?}", path.display());
        assert!(seen > 0 || machine.cooling.circuit.is_empty(), "{} is not looked at", path.display());
    }
}

/// Written numbers with their SI size and kind.
fn numbers(document: &Document) -> Vec<(NodeId, f64, &'static quantity::Kind)> {
    let mut found = Vec::new();
    document.root.walk(&mut |node| {
        let read =
            |text: &str| m::ALL.iter().find_map(|kind| Some((quantity::read_range(text, kind).ok()?.0.si, kind)));
        if let Some((si, kind)) = node.text().and_then(read) {
            found.push((node.id, si, *kind));
        }
    });
    found
}

/// A generator of its own, so that a broken draw can be drawn again: the middle of a linear congruence.
struct Draw(u64);

impl Draw {
    /// Between zero and one.
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        f64::from((self.0 >> 33) as u32) / f64::from(1u32 << 31)
    }
}

#[test]
fn in_five_hundred_drawn_specs() {
    let specs: Vec<_> = specs::examples()
        .into_iter()
        .chain([specs::everything()])
        .map(|path| specs::sound(&path))
        .filter(|(_, machine)| !machine.cooling.circuit.is_empty())
        .map(|(document, machine)| {
            // The coldest and the hottest of each case.
            let points = case_points(&machine).into_iter().filter(|point| point.share == 0.0 || point.share == 1.0);
            (numbers(&document), points.collect::<Vec<_>>(), machine)
        })
        .collect();
    let drawn: Vec<(Vec<String>, usize)> = (0..500u64)
        .into_par_iter()
        .map(|seed| {
            let mut draw = Draw(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15));
            let (all, points, machine) = &specs[seed as usize % specs.len()];
            let mut what_if = WhatIf::default();
            // A tenth of all numbers, each up to three times as large or as small; temperatures by some ten kelvin.
            for (node, si, kind) in all {
                if draw.next() < 0.1 {
                    let far = 2.0 * draw.next() - 1.0;
                    let drawn = if kind.key == "temperature" { si + 10.0 * far } else { si * 3f64.powf(far) };
                    what_if.set(*node, drawn.clamp(kind.bounds.least, kind.bounds.most));
                }
            }
            let (broke, seen) = looked(machine, &what_if, points);
            (broke.into_iter().map(|each| format!("seed {seed}: {each}")).collect(), seen)
        })
        .collect();
    let broke: Vec<&String> = drawn.iter().flat_map(|(broke, _)| broke).collect();
    assert!(broke.is_empty(), "{} break, such as {:#?}", broke.len(), &broke[..broke.len().min(3)]);
    let seen = drawn.iter().filter(|(_, seen)| *seen > 0).count();
    assert!(seen > 300, "only {seen} of 500 drawn specs have a solution");
}
