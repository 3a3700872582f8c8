//! The words of each check.

use crate::{Folded, Sucked};
use rule::prelude::*;

pub(crate) fn air(at: &At, sucked: &Sucked<'_>, depth: Pressure, w: &mut Words) {
    w.happens = format!(
        "the pump's inlet stands {} below the surrounding air and draws air in past its shaft seal and the hose ends: the \
         coolant comes back as foam and what it should cool runs hot",
        shown::<m::PressureLoss>(depth)
    );
    causes(at, sucked, w);
}

pub(crate) fn starved(at: &At, sucked: &Sucked<'_>, w: &mut Words) {
    w.happens =
        "the pump cannot draw the coolant as fast as it turns: it runs half empty, whirrs, and wears itself out".into();
    w.numbers.push(format!("No more than {} gets to it.", shown::<m::FlowRate>(sucked.circuit.flow)));
    causes(at, sucked, w);
}

pub(crate) fn filling(at: &At, sucked: &Sucked<'_>, w: &mut Words) {
    w.happens = "the pump does not fill at each turn: it whirrs, moves less than it should, and wears".into();
    causes(at, sucked, w);
}

pub(crate) fn boiling(at: &At, sucked: &Sucked<'_>, w: &mut Words) {
    let before = match at.machine().cooling.circuit.get(sucked.place) {
        Some(Element::Hose(run)) => Some(&run.hose.name),
        Some(Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate)) => Some(&plate.name),
        Some(Element::Strainer(strainer)) => Some(&strainer.name),
        _ => None,
    };
    w.happens = match before {
        Some(name) => {
            format!("the coolant boils in {name}, before the pump: the flow breaks off, and the bubbles eat the pump")
        }
        None => "the coolant boils in the pump's inlet: the flow breaks off, and the bubbles eat the pump".into(),
    };
    w.numbers.push(format!("The coolant arrives at {}.", shown::<m::Temperature>(sucked.element.inlet)));
    causes(at, sucked, w);
    w.clears.push("cooler coolant before the pump: move it behind the exchanger".into());
}

/// What holds the inlet down: the gas above the coolant, the way to the pump, its height.
fn causes(at: &At, sucked: &Sucked<'_>, w: &mut Words) {
    let cooling = &at.machine().cooling;
    let circuit = sucked.circuit;
    let gas = circuit.gas_below;
    let way = circuit.reservoir_pressure - sucked.element.entry;
    w.numbers.push(format!(
        "Absolute {} in the reservoir, {} at the pump's inlet.",
        shown::<m::Pressure>(circuit.reservoir_pressure),
        shown::<m::Pressure>(sucked.element.entry)
    ));
    if gas > Pressure::ZERO {
        w.numbers
            .push(format!("The closed reservoir itself stands up to {} below the air.", shown::<m::PressureLoss>(gas)));
        if let Some(lid) = cooling.reservoir.lid.there() {
            w.label(lid.vacuum_valve.id(), "lets no air in while the coolant shrinks");
        }
        w.clears.push("a lid with a vacuum valve that opens at a few kPa".into());
    }
    let loses = suction(at, circuit);
    if let Some((hose, lost)) = loses {
        w.numbers.push(format!("On the way to the pump {} loses {}.", hose.name(), shown::<m::PressureLoss>(lost)));
        w.label(hose.bore.id(), "the coolant squeezes through this");
        w.label(hose.length.id(), "and all along this");
    }
    if way > Pressure::ZERO {
        w.clears
            .push("a wider and shorter hose to the pump: in thick coolant a fifth more bore halves its loss".into());
        w.clears.push("the pump lower than the reservoir, and its strainer behind it".into());
    }
    w.label(cooling.pump.height_above_level.id(), "how high the coolant has to be drawn");
    w.clears.push("let the pump wait until the coolant is warm (runs: above_temperature)".into());
}

/// The hose before the pump that loses most.
fn suction<'a>(at: &At<'a>, circuit: &Circuit) -> Option<(&'a Named<Hose>, Pressure)> {
    let machine = at.machine();
    let elements = &machine.cooling.circuit;
    let count = elements.len();
    let tank = elements.iter().position(|element| matches!(element, Element::Reservoir))?;
    let before = (1..count).map(|step| (tank + step) % count);
    let before = before.take_while(|place| !matches!(elements.get(*place), Some(Element::Pump) | None));
    let hoses = before.filter_map(|place| match elements.get(place) {
        Some(Element::Hose(run)) => Some((machine.follow(&run.hose), circuit.elements.get(place)?.drop)),
        _ => None,
    });
    hoses.max_by(|a, b| a.1.si().total_cmp(&b.1.si()))
}

pub(crate) fn folded(folded: &Folded<'_>, at: &At, w: &mut Words) {
    let hose = folded.hose;
    w.happens =
        format!("{} is sucked flat: the flow stops, opens again and stops, or breaks off for good", hose.name());
    if let (Ok(bore), Ok(wall)) = (at.need(&hose.bore), at.need(&hose.wall)) {
        let slim = wall / (bore + wall);
        w.numbers.push(format!("Its wall is {} of its mean diameter.", shown::<m::Percentage>(slim)));
    }
    w.label(hose.wall.id(), "this wall has to hold the air off");
    w.label(hose.material.id(), "and is as stiff as this");
    w.clears.push("a thicker wall: a quarter more makes it nearly twice as stiff".into());
    w.clears.push("a hose with a wire coil in it, or hard tube where it runs straight".into());
    w.clears.push("whatever raises the pressure there: a vacuum valve in the lid, a wider hose to the pump".into());
}
