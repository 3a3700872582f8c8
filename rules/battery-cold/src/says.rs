//! The words of each check.

use rule::prelude::*;

/// The battery as it stands against its cut-off.
pub(crate) struct Sag {
    pub open: ElectricPotential,
    pub cut_off: ElectricPotential,
    pub resistance: ElectricalResistance,
}

pub(crate) fn sag(at: &At, sag: &Sag, short: f64, w: &mut Words) {
    let train = &at.machine().powertrain;
    w.happens = "the cold battery sags until the controller cuts out: the machine stops with charge left".into();
    if let Ok(battery) = at.battery() {
        w.numbers.push(format!(
            "Its cells are at {}, and it has {} inside.",
            shown::<m::Temperature>(battery.cells),
            shown::<m::Resistance>(sag.resistance)
        ));
    }
    w.numbers.push(format!(
        "Without current it has {}; the controller cuts out at {}.",
        shown::<m::Voltage>(sag.open),
        shown::<m::Voltage>(sag.cut_off)
    ));
    if let Ok(drive) = at.drive() {
        w.numbers.push(format!("What is wanted of it is set by {}.", drive.set_by));
    }
    w.label(train.battery.resistance.id(), "takes the volts when current flows");
    w.label(train.controller.cut_off.id(), "where it cuts out");
    if at.is_given(&train.battery.put_in_at) {
        w.label(train.battery.put_in_at.id(), "how warm it sets out");
    } else {
        w.clears.push("keep the pack in the warm until the start, in foam (put_in_at)".into());
    }
    let less = at.show(&train.battery.resistance, sag.resistance / short);
    w.clears.push(format!("more cells side by side, or cells for higher currents: no more than {less} when cold"));
    w.clears.push("turn the current limits down while it is cold".into());
}

pub(crate) fn charged(at: &At, coldest: ThermodynamicTemperature, w: &mut Words) {
    let train = &at.machine().powertrain;
    w.happens =
        "braking charges frozen cells: lithium plates out in them, they are spoilt, and may short and burn later"
            .into();
    if let Ok(drive) = at.drive() {
        w.numbers.push(format!("{} flow into the battery.", shown::<m::Current>(drive.battery_current.abs())));
    }
    if train.controller.braking.there().is_some() {
        w.label(train.controller.braking.id(), "brakes into the battery");
    }
    if at.is_given(&train.battery.cells.charge_temperature_min) {
        w.label(train.battery.cells.charge_temperature_min.id(), "the coldest for charging");
    }
    let warm = at.show(&train.battery.cells.charge_temperature_min, coldest);
    w.clears.push(format!("keep the cells above {warm} all the way: put the pack in warm, in foam (put_in_at, foam)"));
    w.clears.push("brake by shorted windings, a resistor or a disc, and not into the battery".into());
}
