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
        thin.sort_by(|a, b| {
            a.0.consequence
                .cmp(&b.0.consequence)
                .then(a.0.headroom.total_cmp(&b.0.headroom))
                .then(a.0.subject.cmp(b.0.subject))
        });
        let mut missing: Vec<Missing<'_>> = Vec::new();
        for (margin, reading) in thin {
            let eyes = eyes_on(machine, margin.subject, reading);
            let watching =
                || machine.instruments.iter().filter(|instrument| eyes.contains(&eye(machine, &instrument.value).0));
            if eyes.is_empty() || watching().any(|instrument| eye(machine, &instrument.value).1) {
                continue;
            }
            let silent = watching().next();
            // One instrument for all that it would watch.
            let known = missing.iter_mut().find(|other| match silent {
                Some(silent) => other.silent.is_some_and(|other| other.id() == silent.id()),
                None => other.silent.is_none() && eyes.contains(&other.eye),
            });
            match (known, eyes.first()) {
                (Some(known), _) => known.would_watch.push(margin),
                (None, Some(eye)) => missing.push(Missing { eye: *eye, silent, would_watch: vec![margin] }),
                (None, None) => {}
            }
        }
        missing.iter().take(MOST).filter_map(remark).for_each(|remark| notes.add(remark));
    }
}

/// An instrument that the machine lacks, or one without an alarm.
struct Missing<'a> {
    eye: (Reading, Watched),
    silent: Option<&'a Named<Instrument>>,
    /// The gravest and thinnest first.
    would_watch: Vec<&'a Judged<'a>>,
}

/// More instruments than that nobody fits at once.
const MOST: usize = 5;

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
            "speed" | "surface_speed" => Self::Speed,
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
    // The controller stands across the battery.
    if reading == Reading::Voltage && ["battery", "controller"].contains(&subject.name.as_str()) {
        return vec![(reading, Battery), (reading, Controller)];
    }
    let things: Vec<Watched> = match cooled(machine, subject) {
        Some(Some(Cooled::Motor)) => vec![Motor, Coolant],
        Some(Some(Cooled::Controller)) => vec![Controller, ElectronicsBox, Coolant],
        Some(Some(Cooled::Battery)) => vec![Battery, ElectronicsBox, Coolant],
        Some(Some(Cooled::Pump) | None) => vec![Coolant],
        None if wets(machine, &subject.name) => vec![Coolant],
        None => ALL.into_iter().filter(|thing| about(*thing, &subject.name)).chain(beside(machine, subject)).collect(),
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
    thing.word() == section
}

/// Whether the coolant runs through it: a probe on it is nobody's idea, one in the coolant tells.
fn wets(machine: &Machine, name: &str) -> bool {
    let cooling = &machine.cooling;
    let part = |part: &Ref<Part>| machine.follow(part).name();
    let plates = || cooling.circuit.iter().filter_map(plate).filter_map(|plate| plate.part.there());
    let holds = |name: &str| plates().chain(cooling.reservoir.part.there()).any(|each| part(each) == name);
    let joined = |joint: &Joint| joint.of.iter().any(|each| holds(part(each)));
    let lids = || machine.structure.joints.iter().filter(|joint| joined(&joint.value));
    matches!(name, "coolant" | "cooling" | "reservoir" | "pump")
        || cooling.hoses.named(name).is_some()
        || holds(name)
        || lids().any(|joint| joint.name() == name || joint.of.iter().any(|each| part(each) == name))
}

/// What a part touches and a device lies in: as warm as that.
fn beside(machine: &Machine, subject: &Subject) -> Vec<Watched> {
    let as_warm_as = |neighbour: &Neighbour| match neighbour {
        Neighbour::Motor => Watched::Motor,
        Neighbour::Controller => Watched::Controller,
        Neighbour::Battery => Watched::Battery,
    };
    let part = machine.structure.parts.iter().find(|part| part.id() == subject.node);
    let device = machine.devices.iter().find(|device| device.id() == subject.node);
    let zone = device.and_then(|device| device.zone.there()).map(|zone| machine.follow(zone).name());
    let mount = machine.powertrain.motor.mount.there().map(|mount| machine.follow(&mount.part).id());
    part.iter()
        .flat_map(|part| part.next_to.iter().map(as_warm_as))
        .chain(mount.filter(|mount| *mount == subject.node).map(|_| Watched::Motor))
        .chain(device.and_then(|device| device.next_to.there()).map(as_warm_as))
        .chain(zone.filter(|zone| about(Watched::ElectronicsBox, zone)).map(|_| Watched::ElectronicsBox))
        .collect()
}

fn plate(element: &Element) -> Option<&Plate> {
    match element {
        Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) => Some(plate),
        _ => None,
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

fn remark(missing: &Missing<'_>) -> Option<Remark> {
    let gravest = missing.would_watch.first()?;
    let mut names: Vec<&str> = Vec::new();
    for margin in &missing.would_watch {
        if !names.contains(&margin.subject.name.as_str()) {
            names.push(&margin.subject.name);
        }
    }
    let (word, watched, all) = (missing.eye.0.word(), missing.eye.1.word(), names.join(", "));
    let passes = if names.len() > 1 { "pass their limits" } else { "passes its limit" };
    let mut words = Words::default();
    let check = match missing.silent {
        Some(instrument) => {
            words.happens = format!("{all} {passes} unnoticed: the {word} is shown, but no alarm is set");
            words.label(instrument.key.id, "shows it, without an alarm");
            words.clears.push(format!("set an alarm on {}", instrument.name()));
            "no alarm"
        }
        None => {
            words.happens = format!("{all} {passes} unnoticed: nothing shows the {word} of the {watched}");
            words.label(gravest.subject.node, "thin, and not watched");
            words.clears.push(format!("an instrument with an alarm for the {word} of the {watched}"));
            "not watched"
        }
    };
    for margin in &missing.would_watch {
        words.numbers.push(format!("It is about the margin '{}' of {}.", margin.check, margin.subject.name));
    }
    let (subject, consequence) = (gravest.subject.clone(), gravest.consequence);
    Some(Remark { subject, check, verdict: Verdict::Thin, consequence, words })
}
