//! The words of each check.

use crate::Air;
use rule::prelude::*;

pub(crate) fn tilted(air: &Air<'_>, at: &At, w: &mut Telling<'_>) {
    let (reservoir, case) = (air.reservoir, at.case());
    w.happens = "on the slope the coolant runs away from the outlet and the pump draws air".into();
    w.label(reservoir.outlet_depth.id(), "so much stands over the outlet on the level");
    w.label(
        if at.is_given(&reservoir.length) { reservoir.length.id() } else { reservoir.plan_area.id() },
        "a long reservoir tilts far",
    );
    if let Ok(case) = case {
        w.label(if at.is_given(&case.grade) { case.grade.id() } else { case.side_slope.id() }, "this steep");
    }
    if let (Ok(falls), Ok(lower)) = (air.falls(at), air.lower(at)) {
        w.numbers.push(format!(
            "The slope takes {} at the end, cold and swollen hoses {}.",
            shown::<m::Distance>(falls),
            shown::<m::Distance>(lower)
        ));
        let wants = falls + lower + Length::from_si(5e-3);
        w.at_least(&reservoir.outlet_depth, wants, |deep| format!("the outlet at least {deep} below the level"));
    }
    w.clears.push("the outlet in the middle of the bottom: there the level hardly moves".into());
    w.clears.push("a tall narrow reservoir in place of a long flat one".into());
}

pub(crate) fn leaves(air: &Air<'_>, coolant: ThermodynamicTemperature, bubble: Length, w: &mut Telling<'_>) {
    let reservoir = air.reservoir;
    w.happens =
        "air that a jump shakes in goes round and round: the coolant foams, cools less, and the pump wears".into();
    w.numbers.push(format!(
        "Counted for bubbles of {} and coolant of {}.",
        shown::<m::Length>(bubble),
        shown::<m::Temperature>(coolant)
    ));
    w.label(reservoir.plan_area.id(), "the coolant passes down through this area");
    w.clears.push("a larger plan area, or a plate across it that makes the coolant go the long way".into());
    w.clears.push("open foam or a baffle that keeps the outlet covered (baffled: yes)".into());
    w.clears.push("less flow, as much as the hottest plate can spare".into());
}

pub(crate) fn lifted(pump: &Pump, w: &mut Telling<'_>) {
    w.happens = "once air has got in the pump turns dry and does not draw the coolant up again".into();
    w.label(pump.height_above_level.id(), "the coolant has to be lifted this high");
    w.label(pump.dry_suction.id(), "with no more than this");
    w.clears.push("the pump below the level of the reservoir".into());
    w.clears.push("a pump that lifts more when it is dry".into());
}

pub(crate) fn high(plate: &Plate, at: &At, circuit: &Circuit, w: &mut Telling<'_>) {
    w.happens = format!("a bubble stays in {}, the highest place: what it should cool there runs hot", plate.name);
    w.numbers.push(format!("{} flows.", shown::<m::FlowRate>(circuit.flow)));
    w.label(plate.height_above_level.id(), "higher than the reservoir");
    if let Some(channel) = at.try_part(&plate.channel) {
        w.label(channel.width.id(), "wide channels flow slowly");
    }
    w.clears.push(format!("a place to let air out at the top of {} (bleeds: yes)", plate.name));
    w.clears.push(format!("{} below the reservoir", plate.name));
    w.clears.push("narrower channels, one behind the other".into());
}
