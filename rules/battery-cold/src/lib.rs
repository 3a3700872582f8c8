#![no_std]
//! Whether a cold battery still gives what the machine asks, and takes what braking gives back. It never knows: how a drive
//! line is worked out, how far the charge reaches, other rules.

use physics::battery::current_to_cut_off;
use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "battery-cold",
    area: Area::Powertrain,
    question: "Does the cold battery give the current of each case before it sags to the cut-off, and may it be charged by braking?",
    explains: "In the cold the resistance inside the cells is several times what it is in the workshop. At a launch or on a steep \
               climb the voltage sags until the controller cuts out, which looks like a dead battery and is none. Charging below \
               freezing, braking into the pack counted, plates lithium out inside: the cells are spoilt for good and may short \
               later.",
    formula: "a launch: motor current, as far as the controller lets it through, against (V₀ − V)/R at the cut-off V; else \
              power wanted / V against the same; R by the table of the kind of cell, else × 2.5 \
              from 20 °C to −20 °C and evenly for each degree; cells against their coldest for charging where a current flows in",
    source: "Ohm's law. × 2.5, the law between, tables of the kinds of cells, reserves: common practice and from memory, as the \
             catalogue says of each; the coldest for charging: common practice.",
    checked: "current and power to the cut-off by hand, on a battery that can give neither too; the growth at both ends of its law. \
              A launch counts as far as it gets: with all of the voltage on the motor. The voltage is the mean one: fresh cells hold up better, and nearly empty ones worse. Cells are as cold as \
              the air, or as warm as they were put in: a pack that has driven for a while is warmer than that.",
    required: "current 1.2 with a measured resistance, 1.5 otherwise; 0 K for charging (common practice)",
    caution: "Never charge a frozen pack, at a charger or by braking: cells that were charged below freezing can burn weeks later. \
              Warm a pack in the room, not on a stove, and not unwatched.",
};

#[derive(Debug)]
pub struct BatteryCold;

impl Rule for BatteryCold {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let battery = machine.powertrain.battery.resistance.id();
        if !machine.has_section_of(battery) {
            return;
        }
        let mut on = checks.about("battery", battery);
        on.check("current before the cut-off", sag);
        on.check("charged by braking", charged);
    }
}

fn sag(at: &At) -> Found<Outcome> {
    let drive = at.drive()?;
    if drive.wanted_power <= Power::ZERO {
        return Ok(Outcome::Aside("nothing is taken from the battery"));
    }
    let train = &at.machine().powertrain;
    let resistance = at.battery()?.resistance.clone()?;
    // As the drive line found it, full or on average.
    let open = drive.battery_voltage + drive.battery_current * resistance;
    let cut_off = at.need(&train.controller.cut_off)? * at.need(&train.battery.cells.series)?;
    let given = current_to_cut_off(open, cut_off, resistance);
    let kind = at.case()?.kind;
    let wanted = if kind.launches() || kind.recorded() { drive.peak_current } else { drive.wanted_power / cut_off };
    let required = if at.stated(&train.battery.resistance) == Some(quantity::Stated::Measured) {
        Required { value: 1.2, why: "its resistance was measured, and cold varies from cell to cell" }
    } else {
        Required { value: 1.5, why: "its resistance was not measured" }
    };
    let margin = Margin::ratio::<m::Current>(wanted, given, required, Consequence::Stranded);
    let short = margin.required.value / margin.held.reserve();
    let sag = says::Sag { open, cut_off, resistance };
    Ok(Outcome::Held(margin.tell(at, |w| says::sag(at, &sag, short, w))))
}

fn charged(at: &At) -> Found<Outcome> {
    if !at.case()?.kind.descends() {
        return Ok(Outcome::Aside("nothing brakes in this case"));
    }
    let train = &at.machine().powertrain;
    let braking = at.part_or(&train.controller.braking, "regenerative");
    if !matches!(braking.and_then(|braking| braking.by), None | Some(BrakingKind::Regenerative)) {
        return Ok(Outcome::Aside("it does not brake into the battery"));
    }
    if at.drive()?.battery_current >= ElectricCurrent::ZERO {
        return Ok(Outcome::Aside("nothing flows back into the battery"));
    }
    let coldest = at.or(&train.battery.cells.charge_temperature_min, &at.assumed().cell_charge_temperature_min)?;
    let cells = at.battery()?.cells;
    let margin = Margin::gap::<m::Temperature, m::TemperatureDifference>(
        coldest,
        cells,
        TemperatureInterval::from_si(20.0),
        Required { value: 0.0, why: "the limit applies at every moment" },
        Consequence::Harm,
    );
    Ok(Outcome::Held(margin.tell(at, |w| says::charged(at, coldest, w))))
}
