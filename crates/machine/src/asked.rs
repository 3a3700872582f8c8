//! What a written value is asked for: the types themselves tell, by what they refuse.

use crate::given::{MEASURE, RANGE};
use crate::machine::Machine;
use document::{Document, Kind as NodeKind, Node, NodeId, REF, Swap, Swaps, What};
use quantity::{Kind, m};

/// What the place of a scalar takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Asked {
    Number(&'static Kind),
    /// One number, or two with `to` between them.
    Range(&'static Kind),
    /// The key of an entry of one of these sections, `|` between them.
    Name(&'static str),
    /// A word, any text, or nothing at all: nobody reads it.
    Other,
}

/// What the types take at a node of a document that they accept as it is.
#[must_use]
pub fn asked(document: &Document, node: NodeId) -> Asked {
    let nonsense = Node { id: node, kind: NodeKind::Scalar { text: "\u{1}".into(), plain: false } };
    let swaps = Swaps::from([(node, Swap::With(nonsense))]);
    let Err(refused) = Machine::read(document, &swaps) else { return Asked::Other };
    let called = |key: &str| m::ALL.iter().find(|kind| kind.key == key).copied();
    match &refused.what {
        What::Dangling { sections, .. } => Asked::Name(sections.strip_prefix(REF).unwrap_or(sections)),
        What::Refused(reason) => {
            let number = reason.strip_prefix(MEASURE).and_then(called).map(Asked::Number);
            let range = || reason.strip_prefix(RANGE).and_then(called).map(Asked::Range);
            number.or_else(range).unwrap_or(Asked::Other)
        }
        _ => Asked::Other,
    }
}

/// Whose a number is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Setting {
    /// The builder draws it or buys it.
    Choice,
    /// The builder can only promise to use the machine within it.
    LimitOfUse,
    /// It is measured or looked up, and changes only with the thing itself.
    Fact,
}

/// Sections whose figures belong to a thing; another thing is chosen by its name.
const FACTS_OF: [&str; 6] = ["materials", "coolants", "oils", "assumed", "service", "concessions"];
/// Fields that tell what a thing is like.
const FACTS: &[&str] = &[
    "air_rise",
    "humidity_at_assembly",
    "trapped_water",
    "resistance",
    "speed_constant",
    "no_load_current",
    "pole_pairs",
    "rotor_inertia",
    "stop_time",
    "line_stiffness",
    "speed_max",
    "voltage_max",
    "electrical_speed_max",
    "temperature_max",
    "winding_temperature_max",
    "pressure_max",
    "efficiency",
    "heat",
    "heat_transfer",
    "friction",
    "share_of_weight",
    "track_wrap",
    "power",
    "pitch_gyration",
    "free_flow",
    "stall_pressure",
    "pressure_drop",
    "flow",
    "temperature",
    "cord_strength",
    "strength",
    "life",
    "full_voltage",
    "nominal_voltage",
    "filled_at",
    "temperature_min",
    "charge_temperature_min",
    "charge_temperature_max",
    "magnet_temperature_max",
    "winding_to_case",
    "junction_to_board",
    "to_air",
    "face_load",
    "share",
];
/// Fields of things that say what is asked of them.
const USE: [&str; 7] = ["load", "speed", "frequency", "angle", "sprung_mass_each", "duration", "put_in_at"];

/// Whether an entry of a section may be tried in place of another at a path: the checks that exist would not object to a
/// rubber axle, nor to water that bursts the hoses in the first frost.
#[must_use]
pub fn stands_in(path: &str, section: &str, old: &Node, new: &Node) -> bool {
    let word = |node: &Node, key: &str| node.get(key).and_then(Node::text).unwrap_or("").to_owned();
    match section {
        "coolants" => word(new, "kind") != "water",
        "materials" => {
            let (old, new) = (word(old, "family"), word(new, "family"));
            let pair = |a: &str, b: &str| (old == a && new == b) || (old == b && new == a);
            let lining = path.starts_with("powertrain.bearings.") && path.ends_with(".material");
            old == new
                || pair("printed_polymer", "polymer")
                || pair("metal", "fibre_composite")
                || (lining && (pair("metal", "polymer") || pair("metal", "printed_polymer")))
        }
        _ => true,
    }
}

/// The least that makes sense at a path, beyond what its kind allows: a wheel of fewer teeth can hardly be cut, or jerks
/// (common practice, no source).
#[must_use]
pub fn least_plausible(path: &str) -> f64 {
    if path.ends_with("teeth") { 9.0 } else { f64::NEG_INFINITY }
}

/// Whose the number at a path is, such as `powertrain.bearings.idler.bore`.
#[must_use]
pub fn setting(path: &str) -> Setting {
    let mut steps = path.split('.');
    let section = steps.next().unwrap_or("");
    let within = |name: &str| path.split('.').any(|step| step == name);
    let field = steps.next_back().unwrap_or("");
    match section {
        _ if FACTS_OF.contains(&section) || within("evidence") || within("tested") || within("centre_of_gravity") => {
            Setting::Fact
        }
        // A bought thing weighs what it weighs.
        "devices" => Setting::Fact,
        _ if within("after_run") || path == "powertrain.motor.mass" || path == "powertrain.controller.mass" => {
            Setting::Fact
        }
        "environment" if field == "assembled_at" => Setting::Choice,
        "environment" | "cases" => Setting::LimitOfUse,
        "machine" if field == "mass" => Setting::LimitOfUse,
        "suspension" if field == "count" => Setting::Fact,
        _ if matches!(path, "powertrain.track.count" | "powertrain.motor.count") => Setting::Fact,
        _ if FACTS.contains(&field) => Setting::Fact,
        _ if USE.contains(&field) => Setting::LimitOfUse,
        _ => Setting::Choice,
    }
}
