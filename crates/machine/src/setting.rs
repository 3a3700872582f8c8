//! Whose a value is, and how far it may sensibly go: what a builder chooses, promises, measures, or has bound elsewhere.
//! Judgements of the trade (common practice, no source); the physics does not need them.

use document::{Entry, Node};

/// Whose a number is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Setting {
    /// The builder draws it or buys it.
    Choice,
    /// The builder can only promise to use the machine within it.
    LimitOfUse,
    /// It is measured or looked up, and changes only with the thing itself.
    Fact,
    /// It follows from other sizes of the drawing.
    Bound,
}

/// Sections whose figures belong to a thing; another thing is chosen by its name.
const FACTS_OF: [&str; 10] = [
    "materials",
    "coolants",
    "oils",
    "cells",
    "insulations",
    "connectors",
    "assumed",
    "service",
    "concessions",
    "stock",
];
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
    "rotor_diameter",
    "capacity",
    "current_max",
    "burst_current_max",
    "rated_current",
    "burst_current",
    "loads",
    "tow_pull",
    "rolling_resistance",
    "speed_max",
    "voltage_max",
    "electrical_speed_max",
    "temperature_max",
    "winding_temperature_max",
    "pressure_max",
    "efficiency",
    "heat",
    "heat_transfer",
    "heat_transfer_snow",
    "air_speed",
    "fittings",
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
    // Deeper discharge spoils lithium cells for good.
    "cut_off",
    "nominal_voltage",
    "filled_at",
    "mass",
    "unsprung_mass_each",
    "solid_length",
    "stop_time",
    "line_stiffness",
    "temperature_min",
    "charge_temperature_min",
    "charge_temperature_max",
    "magnet_temperature_max",
    "winding_to_case",
    "junction_to_board",
    "to_air",
    "face_load",
    "share",
    "adhesion",
    "mean_power",
    "parking_force",
    "neighbours_temperature_max",
    "roll_gyration",
    "gauge",
    "mount_strength",
    "measured_at",
    "rating",
    "static_rating",
    "grease_from",
    "notch",
    "wrap",
    "lever",
];
/// Fields of things that say what is asked of them.
const USE: [&str; 8] = ["load", "force", "speed", "frequency", "angle", "sprung_mass_each", "duration", "put_in_at"];
/// The way round its wheels is pitch times links, and neither goes alone.
const BOUND: [&str; 2] = ["powertrain.track.pitch", "powertrain.track.links"];
/// Fields round which the rest of a machine is drawn: twice as much would be another machine.
const DRAWN_ROUND: [&str; 9] = [
    "teeth",
    "driving_teeth",
    "driven_teeth",
    "sprocket_teeth",
    "series",
    "parallel",
    "radius",
    "motion_ratio",
    "bushes",
];

/// Whose the number at a path is, such as `powertrain.bearings.idler.bore`.
#[must_use]
pub fn setting(path: &str) -> Setting {
    let mut steps = path.split('.');
    let section = steps.next().unwrap_or("");
    let within = |name: &str| path.split('.').any(|step| step == name);
    let field = steps.next_back().unwrap_or("");
    match section {
        _ if FACTS_OF.contains(&section)
            || within("evidence")
            || within("tested")
            || within("centre_of_gravity")
            || within("push_test") =>
        {
            Setting::Fact
        }
        // What a part held or broke at was tried once.
        _ if path.contains(".held") && !path.contains(".held_by") || path.contains(".broke") => Setting::Fact,
        // A bought thing weighs what it weighs.
        "devices" => Setting::Fact,
        // As it stands, as its maker drew it, as it sank on the bench.
        _ if ["footprint", "bump", "rebound", "warm", "cold"].into_iter().any(within) => Setting::Fact,
        _ if within("after_run") || path.starts_with("powertrain.battery.size.") => Setting::Fact,
        "environment" | "cases" => Setting::LimitOfUse,
        "machine" if field == "mass" => Setting::LimitOfUse,
        "suspension" if field == "count" => Setting::Fact,
        _ if matches!(path, "powertrain.track.count" | "powertrain.motor.count") => Setting::Fact,
        _ if BOUND.contains(&path) => Setting::Bound,
        _ if FACTS.contains(&field) => Setting::Fact,
        _ if USE.contains(&field) && section != "cooling" => Setting::LimitOfUse,
        _ => Setting::Choice,
    }
}

/// How many times more or less than what is written is still the same machine.
#[must_use]
pub fn reach(path: &str) -> f64 {
    let field = path.rsplit('.').next().unwrap_or("");
    if DRAWN_ROUND.contains(&field) || path == "powertrain.track.width" { 1.5 } else { 4.0 }
}

/// The least that makes sense at a path, beyond what its kind allows, in SI units.
#[must_use]
pub fn least_plausible(path: &str) -> f64 {
    let field = path.rsplit('.').next().unwrap_or("");
    match field {
        // A wheel of fewer teeth can hardly be cut, or jerks.
        _ if field.ends_with("teeth") => 9.0,
        // A narrower hose clogs with the first crumb.
        "bore" if path.starts_with("cooling.hoses.") => 3e-3,
        // The formulas of springs hold from two coils on (EN 13906-1, from memory).
        "active_coils" => 2.0,
        _ => f64::NEG_INFINITY,
    }
}

/// Fields that hold one of a list of words, and the words that a builder would take instead: a print can lie otherwise, a
/// bush can be greased. What is left out tells what a thing is like, or would only move the damage.
const WORDS: [(&str, &[&str]); 8] = [
    ("laid", &["flat_on_bed", "on_edge", "standing"]),
    ("lubrication", &["grease", "oil"]),
    ("between", &["rolling_bearing", "metal_sleeve", "polymer_sleeve", "plain_bush"]),
    ("runs", &["always", "with_electronics", "above_temperature"]),
    ("closes", &["closed", "vented"]),
    ("bond", &["glued", "ends_held"]),
    ("ends", &["closed", "closed_ground"]),
    ("lie", &["above_one_another", "side_by_side"]),
];

/// The words that may be tried at a path.
#[must_use]
pub fn words_to_try(path: &str) -> &'static [&'static str] {
    let field = path.rsplit('.').next().unwrap_or("");
    WORDS.iter().find(|row| row.0 == field).map_or(&[], |row| row.1)
}

/// Whether a promise can only be made downwards: nobody asks a builder to drive up steeper or faster than they meant to,
/// though some margin may like it.
#[must_use]
pub fn only_milder(path: &str) -> bool {
    const HARSHER_WITH_MORE: [&str; 8] =
        ["grade", "side_slope", "speed", "drop", "airtime", "duration", "load", "sprung_mass_each"];
    let field = path.rsplit('.').next().unwrap_or("");
    setting(path) == Setting::LimitOfUse && HARSHER_WITH_MORE.contains(&field)
}

/// Whether an entry of a section may be tried in place of another at a path: the checks that exist would not object to a
/// rubber axle, to one of spring wire, nor to water that bursts the hoses in the first frost.
#[must_use]
pub fn stands_in(path: &str, section: &str, old: &Entry, new: &Entry) -> bool {
    let word = |entry: &Entry, key: &str| entry.value.get(key).and_then(Node::text).unwrap_or("").to_owned();
    let form = |entry: &Entry| {
        let fibre = entry.value.get("fibre").and_then(|fibre| fibre.get("form"));
        fibre.and_then(Node::text).unwrap_or("").to_owned()
    };
    let wire = |entry: &Entry| entry.key.ends_with("_wire");
    match section {
        "coolants" => word(new, "kind") != "water",
        "materials" => {
            let (was, is) = (word(old, "family"), word(new, "family"));
            let pair = |a: &str, b: &str| (was == a && is == b) || (was == b && is == a);
            let lining = path.starts_with("powertrain.bearings.") && path.ends_with(".material");
            let family = was == is
                || pair("printed_polymer", "polymer")
                || pair("metal", "fibre_composite")
                || (lining && (pair("metal", "polymer") || pair("metal", "printed_polymer")));
            // Fibres of another form are another part.
            let form = was != "fibre_composite" || is != was || form(old) == form(new);
            family && form && wire(old) == wire(new)
        }
        _ => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_chosen_weather_is_promised_and_figures_of_things_are_facts() {
        for (path, expected) in [
            ("powertrain.bearings.idler.bore", Setting::Choice),
            ("suspension.rear.spring.wire", Setting::Choice),
            ("cooling.pump.speed", Setting::Choice),
            ("environment.air", Setting::LimitOfUse),
            ("environment.assembled_at", Setting::LimitOfUse),
            ("machine.payload.mass", Setting::LimitOfUse),
            ("powertrain.bearings.idler.speed", Setting::LimitOfUse),
            ("materials.mine.density", Setting::Fact),
            ("stock.springs.long.wire", Setting::Fact),
            ("powertrain.motor.resistance", Setting::Fact),
            ("powertrain.track.mass", Setting::Fact),
            ("powertrain.track.links", Setting::Bound),
            ("structure.parts.rail.held.0.force", Setting::Fact),
            ("structure.parts.rail.pushed.hand.force", Setting::LimitOfUse),
            ("powertrain.stages.0.pinion.held_by.length", Setting::Choice),
        ] {
            assert_eq!(setting(path), expected, "{path}");
        }
    }

    #[test]
    fn nobody_is_asked_to_drive_up_steeper() {
        assert!(only_milder("cases.descent.grade") && only_milder("cases.hop.speed"));
        // Warmer or colder, both are weather; a wait may be longer.
        assert!(!only_milder("environment.air") && !only_milder("cases.brought_in.wait"));
        assert!(!only_milder("cooling.pump.speed"));
    }

    #[test]
    fn a_print_may_lie_otherwise_and_dirt_may_not_be_wished_away() {
        assert!(words_to_try("powertrain.track.build.laid").contains(&"on_edge"));
        assert!(words_to_try("powertrain.bearings.idler.dirt").is_empty());
        assert!(!words_to_try("structure.contacts.idler.between").contains(&"none"));
    }
}
