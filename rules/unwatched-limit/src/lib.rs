#![no_std]
//! Thin margins that no instrument watches. It never knows: which rule a margin comes from, the value of an alarm.

use rule::prelude::*;

#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "unwatched-limit",
    area: Area::WholeMachine,
    question: "Which thin limits does nothing on the machine warn of while it drives?",
    explains: "A limit with little left over is passed on the first day that is colder, hotter or faster than planned. Where an \
               instrument with an alarm watches it, the builder stops in time; where none does, the damage tells.",
    formula: "headroom below 25 %, worst in a case in which somebody drives and not the same in all, in a temperature, a speed, a voltage, a current, a pressure or a flow, and no instrument of \
              that kind with an alarm on the thing itself or on what it is tied to",
    source: "common practice, no source",
    checked: "a yes-or-no question: there is no formula to check. Whether an alarm comes early enough is not compared yet, nor \
              whether the sensor sits in the right place: read the instrument's alarm against the limit yourself.",
    required: "an alarm wherever a limit has less than a quarter of its reserve left over",
    caution: "",
};

#[derive(Debug)]
pub struct UnwatchedLimit;

impl Overview for UnwatchedLimit {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn look(&self, machine: &Machine, margins: &[Judged<'_>], notes: &mut Notes) {
        let mut thin: Vec<(&Judged<'_>, Reading)> = margins
            .iter()
            .filter(|margin| margin.headroom.is_finite() && margin.headroom < WATCH_BELOW && somebody_drives(margin))
            .filter_map(|margin| Some((margin, reading(margin.held)?)))
            .collect();
        // One remark for each thing and kind of reading, about its gravest and thinnest margin.
        thin.sort_by(|a, b| {
            a.0.consequence
                .cmp(&b.0.consequence)
                .then(a.0.headroom.total_cmp(&b.0.headroom))
                .then(a.0.subject.cmp(b.0.subject))
        });
        let mut done: Vec<(&Subject, Reading)> = Vec::new();
        for (margin, reading) in thin {
            if done.contains(&(margin.subject, reading)) {
                continue;
            }
            done.push((margin.subject, reading));
            let eyes = eyes_on(machine, margin.subject, reading);
            let mut watching =
                machine.instruments.iter().filter(|instrument| eyes.contains(&eye(machine, &instrument.value).0));
            let silent = watching.clone().next();
            if !watching.any(|instrument| eye(machine, &instrument.value).1) {
                notes.add(remark(margin, reading, silent));
            }
        }
    }
}

/// Headroom under which a margin is to be watched.
const WATCH_BELOW: f64 = 0.25;

/// Whoever looks at instruments does so while the machine is in use; what is the same in every case warns of nothing.
fn somebody_drives(margin: &Judged<'_>) -> bool {
    margin.case.is_some_and(|kind| !kind.stands_off())
}

/// What an instrument can show.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Reading {
    Temperature,
    RotationalSpeed,
    Speed,
    Voltage,
    Current,
    Pressure,
    Flow,
}

impl Reading {
    fn of(kind: &quantity::Kind) -> Option<Self> {
        Some(match kind.key {
            "temperature" => Self::Temperature,
            "rotational_speed" => Self::RotationalSpeed,
            "speed" => Self::Speed,
            "voltage" | "cell_voltage" => Self::Voltage,
            "current" => Self::Current,
            "pressure" | "gauge_pressure" | "pressure_loss" => Self::Pressure,
            "flow_rate" => Self::Flow,
            _ => return None,
        })
    }

    fn word(self) -> &'static str {
        match self {
            Self::Temperature => "temperature",
            Self::RotationalSpeed => "rotational speed",
            Self::Speed => "speed",
            Self::Voltage => "voltage",
            Self::Current => "current",
            Self::Pressure => "pressure",
            Self::Flow => "flow",
        }
    }
}

fn reading(held: &Held) -> Option<Reading> {
    match held {
        Held::Ratio { demand, .. } | Held::Gap { demand, .. } => Reading::of(demand.kind),
    }
}

/// What an instrument reads and on what, and whether it warns.
fn eye(machine: &Machine, instrument: &Instrument) -> ((Reading, Watched), bool) {
    match instrument {
        Instrument::RotationalSpeed(probe) => {
            ((Reading::RotationalSpeed, probe.watches), machine.is_given(&probe.alarm))
        }
        Instrument::Speed(probe) => ((Reading::Speed, probe.watches), machine.is_given(&probe.alarm)),
        Instrument::Temperature(probe) => ((Reading::Temperature, probe.watches), machine.is_given(&probe.alarm)),
        Instrument::Voltage(probe) => ((Reading::Voltage, probe.watches), machine.is_given(&probe.alarm)),
        Instrument::Current(probe) => ((Reading::Current, probe.watches), machine.is_given(&probe.alarm)),
        Instrument::Pressure(probe) => ((Reading::Pressure, probe.watches), machine.is_given(&probe.alarm)),
        Instrument::FlowRate(probe) => ((Reading::Flow, probe.watches), machine.is_given(&probe.alarm)),
    }
}

/// Readings that move with a margin: of the thing itself, or of what turns with it.
fn eyes_on(machine: &Machine, subject: &Subject, reading: Reading) -> Vec<(Reading, Watched)> {
    use Watched::{Battery, Controller, Coolant, ElectronicsBox, Machine as Whole, Motor, Track};
    // Motor, track and everything that rolls on it turn together.
    if matches!(reading, Reading::Speed | Reading::RotationalSpeed) && tied_to_drive(machine, subject) {
        return vec![
            (Reading::Speed, Track),
            (Reading::Speed, Whole),
            (Reading::RotationalSpeed, Track),
            (Reading::RotationalSpeed, Motor),
        ];
    }
    let things: Vec<Watched> = match cooled(machine, subject) {
        Some(Some(Cooled::Motor)) => vec![Motor, Coolant],
        Some(Some(Cooled::Controller)) => vec![Controller, ElectronicsBox, Coolant],
        Some(Some(Cooled::Battery)) => vec![Battery, ElectronicsBox, Coolant],
        Some(Some(Cooled::Pump) | None) => vec![Coolant],
        None => ALL.into_iter().filter(|thing| about(*thing, &subject.name)).collect(),
    };
    things.into_iter().map(|thing| (reading, thing)).collect()
}

const ALL: [Watched; 7] = [
    Watched::Motor,
    Watched::Controller,
    Watched::Battery,
    Watched::Coolant,
    Watched::Track,
    Watched::Machine,
    Watched::ElectronicsBox,
];

/// Whether a subject that is a section of the spec is what the word watches.
fn about(thing: Watched, section: &str) -> bool {
    match thing {
        Watched::Coolant => matches!(section, "coolant" | "cooling" | "reservoir" | "pump"),
        other => other.word() == section,
    }
}

fn tied_to_drive(machine: &Machine, subject: &Subject) -> bool {
    let wheel = machine.powertrain.bearings.iter().any(|bearing| {
        let turns = match &bearing.value {
            Bearing::Plain(plain) => plain.wheel.there().is_some(),
            Bearing::Rolling(_) => true,
        };
        bearing.key.id == subject.node && turns
    });
    let stage = machine.powertrain.stages.iter().any(|stage| stage.name() == subject.name);
    wheel || stage || ["motor", "track", "machine"].contains(&subject.name.as_str())
}

/// What the element of the circuit cools, if the subject is one.
fn cooled(machine: &Machine, subject: &Subject) -> Option<Option<Cooled>> {
    machine.cooling.circuit.iter().find_map(|element| match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => {
            (plate.name == subject.name).then_some(plate.cools)
        }
        Element::Strainer(strainer) => (strainer.name == subject.name).then_some(None),
        Element::Thermostat(valve) => (valve.name == subject.name).then_some(None),
        Element::Reservoir | Element::Pump | Element::Hose(_) => None,
    })
}

fn remark(margin: &Judged<'_>, reading: Reading, silent: Option<&Named<Instrument>>) -> Remark {
    let (name, word) = (&margin.subject.name, reading.word());
    let mut words = Words::default();
    match silent {
        Some(instrument) => {
            words.happens = format!("{name} passes its limit unnoticed: its {word} is shown, but no alarm is set");
            words.label(instrument.key.id, "shows it, without an alarm");
            words.clears.push(format!("set an alarm on {}", instrument.name()));
        }
        None => {
            words.happens = format!("{name} passes its limit unnoticed: nothing on the machine shows its {word}");
            words.label(margin.subject.node, "thin, and not watched");
            words.clears.push(format!("an instrument with an alarm for {word} on {name}, or on what moves with it"));
        }
    }
    words.numbers.push(format!("It is about the margin '{}'.", margin.check));
    let check = if silent.is_some() { "no alarm" } else { "not watched" };
    Remark { subject: margin.subject.clone(), check, verdict: Verdict::Thin, consequence: margin.consequence, words }
}
