//! Laws that hold for every loop, on a thousand drawn ones: with and without branches, both kinds of pump, thin and thick.

use super::super::path::{Stretch, path};
use super::*;
use std::fmt::Write;

/// Draws a loop.
pub(super) struct Draw(pub(super) u64);

impl Draw {
    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * dice(&mut self.0)
    }
    pub(super) fn often(&mut self, share: f64) -> bool {
        dice(&mut self.0) < share
    }
    fn channel(&mut self) -> String {
        let (width, depth) = (self.between(4.0, 9.0), self.between(2.5, 6.0));
        let (length, turns) = (self.between(0.1, 1.5), self.between(0.0, 9.0).floor());
        format!("channel: {{width: {width:.3} mm, depth: {depth:.3} mm, length: {length:.4} m, turns: {turns}}}")
    }
    fn element(&mut self, number: usize, branch: &str) -> String {
        let height = self.between(-50.0, 300.0);
        match self.between(0.0, 4.0) as u32 {
            0 => format!("    - {{kind: hose, hose: h{}{branch}}}\n", self.between(0.0, 3.0) as u32),
            1 => {
                let (channel, area) = (self.channel(), self.between(0.03, 0.2));
                format!(
                    "    - {{kind: exchanger, name: e{number}, height_above_level: {height:.1} mm, {channel}, outside: {{area: {area:.4} m², heat_transfer: 60 W/(m²·K)}}{branch}}}\n"
                )
            }
            2 => format!(
                "    - {{kind: plate, name: e{number}, heat: {:.2} W, {}, contact_resistance: 0.05 K/W{branch}}}\n",
                self.between(1.0, 60.0),
                self.channel()
            ),
            _ => format!(
                "    - {{kind: jacket, name: e{number}, heat: {:.2} W, tested: {{pressure_drop: {:.2} kPa, flow: 1 L/min, fluid: plain, temperature: 20 °C}}, contact_resistance: 0.05 K/W{branch}}}\n",
                self.between(1.0, 60.0),
                self.between(1.0, 20.0)
            ),
        }
    }
    pub(super) fn spec(&mut self) -> String {
        let mut text = LOOP.split("cooling:").next().unwrap().to_owned();
        let kind = if self.often(0.7) { "positive_displacement" } else { "centrifugal" };
        let (glycol, free, stall) = (self.between(0.0, 59.0), self.between(0.6, 4.0), self.between(30.0, 300.0));
        let lid = if self.often(0.7) { "closed" } else { "vented" };
        writeln!(text, "cooling:\n  coolant: {{fluid: mix, glycol: {glycol:.2} %, share_by: mass, volume: 500 mL, filled_at: 20 °C}}").unwrap();
        writeln!(text, "  reservoir: {{gas_space: {:.1} mL, lid: {{closes: {lid}}}}}", self.between(40.0, 200.0))
            .unwrap();
        writeln!(text, "  pump: {{works_by: {kind}, free_flow: {free:.3} L/min, stall_pressure: {stall:.2} kPa, power: 9 W, runs: always, height_above_level: -20 mm}}").unwrap();
        text.push_str("  hoses:\n");
        for hose in 0..3 {
            let (bore, length) = (self.between(4.0, 10.0), self.between(0.1, 2.5));
            writeln!(text, "    h{hose}: {{bore: {bore:.3} mm, wall: 2 mm, length: {length:.4} m}}").unwrap();
        }
        writeln!(text, "  circuit:\n    - {{kind: reservoir}}\n    - {{kind: pump}}\n    - {{kind: strainer, name: sieve, mesh: 0.3 mm, open_area: {:.3} cm²}}", self.between(0.3, 5.0)).unwrap();
        let (ahead, behind) = (self.between(1.0, 5.0) as usize, self.between(1.0, 5.0) as usize);
        (0..ahead).for_each(|number| text.push_str(&self.element(number, "")));
        if self.often(0.5) {
            for number in 0..self.between(2.0, 6.0) as usize {
                let branch = format!(
                    ", branch: {}",
                    ["left", "right", "middle"][if number < 2 { number } else { self.between(0.0, 3.0) as usize }]
                );
                text.push_str(&self.element(20 + number, &branch));
            }
        }
        (0..behind).for_each(|number| text.push_str(&self.element(40 + number, "")));
        writeln!(
            text,
            "    - {{kind: exchanger, name: last, {}, outside: {{area: 0.1 m², heat_transfer: 60 W/(m²·K)}}}}",
            self.channel()
        )
        .unwrap();
        text + "assumed:" + LOOP.split("assumed:").nth(1).unwrap()
    }
}

pub(super) fn read(text: String) -> Machine {
    let document = Document::load("drawn.machine.yaml", text.into_bytes(), &NoFiles, &NoShelf, &Limits::default());
    assert!(document.troubles.is_empty(), "{:?}", document.troubles);
    Machine::read(&document, &Swaps::new()).unwrap()
}

/// Flow, heat and pressure close, on the way round and in each branch.
pub(super) fn closes(machine: &Machine, circuit: &Circuit) {
    let elements = &circuit.elements;
    let (flow, way) = (circuit.flow.si(), path(&machine.cooling.circuit).unwrap());
    let scale: f64 = elements.iter().map(|each| each.drop.si().abs()).sum();
    let (mut sum, mut inlet) = (0.0, elements[0].inlet.si());
    for stretch in &way {
        match stretch {
            Stretch::Single(place) => {
                let each = &elements[*place];
                assert!((each.flow.si() / flow - 1.0).abs() < 1e-12 && (each.inlet.si() - inlet).abs() < 1e-6);
                (sum, inlet) = (sum + each.drop.si(), each.outlet.si());
            }
            Stretch::Branches(ways) => {
                let share = |way: &Vec<usize>| elements[way[0]].flow.si() / flow;
                assert!((ways.iter().map(share).sum::<f64>() - 1.0).abs() < 1e-9);
                let drops: Vec<f64> =
                    ways.iter().map(|way| way.iter().map(|place| elements[*place].drop.si()).sum()).collect();
                assert!(drops.iter().all(|drop| (drop - drops[0]).abs() < 1e-7 * scale), "{drops:?} of {scale}");
                assert!(ways.iter().all(|way| (elements[way[0]].inlet.si() - inlet).abs() < 1e-6));
                inlet = ways.iter().map(|way| share(way) * elements[*way.last().unwrap()].outlet.si()).sum();
                sum += drops[0];
            }
        }
    }
    assert!((inlet - elements[0].inlet.si()).abs() < 1e-6 && sum.abs() < 1e-7 * scale, "{sum} of {scale}");
    assert!(circuit.imbalance.abs() < 1e-6, "{}", circuit.imbalance);
    assert!(elements.iter().all(|each| each.flow.si() > 0.0 && each.flow.si() <= flow * (1.0 + 1e-12)));
    // Once round, the reservoir has its own pressure again, less what the last element's height takes off.
    assert!((elements[0].pressure.si() - circuit.reservoir_pressure.si()).abs() < 1e-6);
    let last = elements.last().unwrap();
    assert!((last.pressure.si() - circuit.reservoir_pressure.si()).abs() < 1e-6 * scale.max(1.0) + 5e3);
}

#[test]
fn a_thousand_drawn_loops_close_and_obey() {
    let mut draw = Draw(2026);
    let (mut closed, mut branched, mut compared) = (0, 0, 0);
    for number in 0..1_000 {
        let machine = read(draw.spec());
        let base = match solved(&machine, "warm", &[]) {
            Ok(base) => base,
            // Beyond the tables of the mixture: too hot for so little flow, or below its freezing point.
            Err(NotJudged::OutsideRange { .. }) => continue,
            Err(other) => panic!("loop {number}: {other:?}"),
        };
        if !base.driven.running {
            continue;
        }
        closed += 1;
        closes(&machine, &base.driven);
        closes(&machine, &base.idle);
        branched += usize::from(base.driven.elements.iter().any(|each| each.flow.si() < 0.99 * base.driven.flow.si()));
        // A finer strainer in the way of all the flow never lets more through.
        let Element::Strainer(sieve) = &machine.cooling.circuit[2] else { panic!() };
        let finer = solved(&machine, "warm", &[(sieve.open_area.id(), 1e-5)]);
        if let Ok(finer) = finer {
            let coarse =
                if base.driven.elements[2].drop.si() < finer.driven.elements[2].drop.si() { &base } else { &finer };
            let (more, less) = if std::ptr::eq(coarse, &base) { (&base, &finer) } else { (&finer, &base) };
            assert!(less.driven.flow.si() <= more.driven.flow.si() * (1.0 + 1e-9), "loop {number}");
        }
        // Warmer air cools nothing, unless thinner coolant flows that much better that a heated plate gains by it.
        let air = machine.cases.named("warm").unwrap().air.id();
        let Ok(warmer) = solved(&machine, "warm", &[(air, 273.15 + 16.0)]) else { continue };
        if warmer.driven.flow.si() < 1.03 * base.driven.flow.si() {
            compared += 1;
            let pairs = base.driven.elements.iter().zip(&warmer.driven.elements);
            assert!(pairs.into_iter().all(|(a, b)| b.outlet.si() >= a.outlet.si() - 1e-6), "loop {number}");
        }
    }
    assert!(closed > 600 && branched > 200 && compared > 300, "{closed}, {branched}, {compared}");
}
