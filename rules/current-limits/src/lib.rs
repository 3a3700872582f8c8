#![no_std]
//! Whether cells, wires, connectors, fuse and auxiliary supply stand their currents. It never knows: how a drive line is worked
//! out, how warm cells get, other rules.

use rule::prelude::*;

mod fuse;
mod says;
#[cfg(test)]
mod tests;
mod wires;

static CARD: Card = Card {
    name: "current-limits",
    area: Area::Powertrain,
    question: "Do cells, wires, connectors, the fuse and the auxiliary supply stand the currents of each case?",
    explains: "Cells that give too much get hot inside and age in days, or vent. A wire warms up within seconds to minutes: what it \
               bears for five seconds it does not bear for a climb. A connector with too little metal in touch melts its housing. A \
               fuse too small strands the machine, one larger than its wire lets the wire burn. When all servos pull at once a \
               supply too weak drops out, and the radio with it.",
    formula: "battery current / cells side by side against the cell's label; wire: I²·R of its copper against what air and \
              radiation take from it, and what its copper stores in the time of a burst; each motor lead √(2/3)·I; fuse at least \
              the current and at most what its wire carries continuously; a wire may get as hot as the weakest of its insulation, the plug at its end \
              and what lies against it takes, in a burst as hot as its insulation takes; sum of all consumers at their peak",
    source: "Copper: IEC 60028; short time: IEC 60949; still air: Churchill and Chu 1975; bundles: IEC 60364-5-52, table B.52.17; \
             fuse and wire: IEC 60364-4-43, 433.1; published. Temperature limits of plugs, reserves, ten seconds as a burst, a fuse at four fifths of its \
             rating: common practice, no source.",
    checked: "wire against published short-time factors to their digits, and against tabled currents of single wires in free air \
              within 12 %; a burst by small steps. A wire is taken to begin as cold as its air, and stretched out alone: after hard \
              driving, or wound up, it bears less. Cells and connectors are judged by their labels alone.",
    required: "1.5 on a label, 1.2 measured, worked out, or by a cautious class; fuse 1.25 while it lasts, 1 in a burst, and 1 \
               before its wire (common practice)",
    caution: "Lithium cells that are overloaded or shorted burn, and so does what lies on a hot wire. Put the fuse at the pack, \
              before any other wire; never bridge it to get home.",
};

#[derive(Debug)]
pub struct CurrentLimits;

impl Rule for CurrentLimits {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let train = &machine.powertrain;
        let (battery, motor, auxiliary_supply) =
            (train.battery.capacity.id(), train.motor.no_load_current.id(), train.auxiliary_supply.rated_current.id());
        if machine.has_section_of(battery) {
            let mut on = checks.about("battery", battery);
            on.check("cells", cells);
            on.check("wire", |at| wires::judge(at, Lead::OfBattery));
            on.check("connector", |at| connector(at, Lead::OfBattery));
            on.check("fuse holds", fuse::holds);
            on.check("fuse before the wire", fuse::protects);
        }
        if machine.has_section_of(motor) {
            let mut on = checks.about("motor", motor);
            on.check("lead", |at| wires::judge(at, Lead::OfMotor));
            on.check("lead's connector", |at| connector(at, Lead::OfMotor));
        }
        if machine.has_section_of(auxiliary_supply) {
            checks.about("auxiliary_supply", auxiliary_supply).check("all at once", auxiliary);
        }
    }
}

/// Which of the two heavy circuits.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Lead {
    OfBattery,
    OfMotor,
}

/// What flows, and for how long.
#[derive(Clone, Copy)]
struct Flow {
    current: ElectricCurrent,
    /// Nothing where nobody says that it ends.
    lasts: Option<Time>,
}

/// Up to so many seconds labels call it a burst.
const BURST: f64 = 10.0;
/// The highest value of a log is taken to hold for so many seconds.
const MOMENT: f64 = 1.0;
const NO_CURRENT: Outcome = Outcome::Aside("no current flows in this case");

impl Flow {
    fn is_burst(&self) -> bool {
        self.lasts.is_some_and(|lasts| lasts <= Time::from_si(BURST))
    }
}

/// Effective currents in one lead, none where nothing flows; of a recorded run those of all of it, of its hardest ten seconds
/// and of its highest moment.
fn flows(at: &At, lead: Lead) -> Found<Vec<Flow>> {
    let drive = at.drive()?;
    let of = |battery: ElectricCurrent, motor: ElectricCurrent, lasts| {
        let current = match lead {
            Lead::OfBattery => battery,
            Lead::OfMotor => physics::motor::lead_current(motor),
        };
        Flow { current, lasts }
    };
    let whole = drive::carries_for(at)?;
    let all = match &drive.ridden {
        None => vec![of(drive.peak_current, drive.motor_current, whole)],
        Some(ridden) => {
            let moment = Some(Time::from_si(MOMENT));
            let battery = ridden.battery_ten_seconds.unwrap_or(drive.peak_current);
            let motor = ridden.motor_ten_seconds.unwrap_or(ridden.motor_current);
            vec![
                of(drive.battery_current, drive.motor_current, whole),
                of(battery, motor, Some(Time::from_si(BURST))),
                of(drive.peak_current, ridden.motor_current, moment),
            ]
        }
    };
    Ok(all.into_iter().filter(|flow| flow.current > ElectricCurrent::ZERO).collect())
}

/// The flow that leaves least of what is required.
fn worst(at: &At, lead: Lead, judge: impl Fn(Flow) -> Found<Margin>) -> Found<Outcome> {
    let mut worst: Option<Margin> = None;
    for flow in flows(at, lead)? {
        let margin = judge(flow)?;
        let left = |margin: &Margin| margin.held.headroom(margin.required.value);
        // What is no number is kept, so that it is told.
        if worst.as_ref().is_none_or(|worst| left(&margin).is_nan() || left(&margin) < left(worst)) {
            worst = Some(margin);
        }
    }
    Ok(worst.map_or(NO_CURRENT, Outcome::Held))
}

/// A label claims more than it keeps.
fn required(at: &At, given: &Given<m::Current>) -> Required {
    if at.stated(given) == Some(quantity::Stated::Measured) {
        Required { value: 1.2, why: "it was measured" }
    } else {
        Required { value: 1.5, why: "a label claims more than it keeps" }
    }
}

fn cells(at: &At) -> Found<Outcome> {
    worst(at, Lead::OfBattery, |flow| cell(at, flow))
}

fn cell(at: &At, flow: Flow) -> Found<Margin> {
    let cells = &at.machine().powertrain.battery.cells;
    let each = flow.current / at.need(&cells.parallel)?;
    let burst = at.try_get(&cells.burst_current_max).filter(|_| flow.is_burst());
    let (limit, label) = match burst {
        Some(limit) => (limit, &cells.burst_current_max),
        None => (at.need(&cells.current_max)?, &cells.current_max),
    };
    let margin = Margin::ratio::<m::Current>(each, limit, required(at, label), Consequence::Harm);
    let short = margin.required.value / margin.held.reserve();
    Ok(margin.tell(at, |w| says::cells(at, flow, label, short, w)))
}

fn connector(at: &At, lead: Lead) -> Found<Outcome> {
    worst(at, lead, |flow| connected(at, lead, flow))
}

fn connected(at: &At, lead: Lead, flow: Flow) -> Found<Margin> {
    let train = &at.machine().powertrain;
    let connector = match lead {
        Lead::OfBattery => at.part(&train.battery.connector)?,
        Lead::OfMotor => at.part(&train.motor.connector)?,
    };
    let class = at.try_part(&connector.class).map(|class| &at.machine().follow(class).value);
    let own_burst = at.try_get(&connector.burst_current).filter(|_| flow.is_burst());
    let own = at.try_get(&connector.rated_current);
    let (limit, label) = match (own_burst, own, class) {
        (Some(limit), _, _) => (limit, &connector.burst_current),
        (None, Some(limit), _) => (limit, &connector.rated_current),
        (None, None, Some(class)) if flow.is_burst() => (at.need(&class.burst_current)?, &class.burst_current),
        (None, None, Some(class)) => (at.need(&class.rated_current)?, &class.rated_current),
        (None, None, None) => (at.need(&connector.rated_current)?, &connector.rated_current),
    };
    let required = if own_burst.or(own).is_some() {
        required(at, label)
    } else {
        Required { value: 1.2, why: "its class is counted cautiously" }
    };
    let margin = Margin::ratio::<m::Current>(flow.current, limit, required, Consequence::Stranded);
    let short = margin.required.value / margin.held.reserve();
    Ok(margin.tell(at, |w| says::connector(at, lead, flow, label, short, w)))
}

fn auxiliary(at: &At) -> Found<Outcome> {
    let supply = &at.machine().powertrain.auxiliary_supply;
    let limit = at.need(&supply.rated_current)?;
    if supply.loads.is_empty() {
        return Err(NotJudged::NoSolution("no consumers are listed under auxiliary_supply.loads".into()));
    }
    let mut all = ElectricCurrent::ZERO;
    for load in &supply.loads {
        all += at.need(&load.value)?;
    }
    let margin = Margin::ratio::<m::Current>(all, limit, required(at, &supply.rated_current), Consequence::Stranded);
    let short = margin.required.value / margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| says::auxiliary(at, short, w))))
}
