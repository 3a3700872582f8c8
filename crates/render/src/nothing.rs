//! A review that judged nothing: that is no pass, and what to write first.

use crate::words;
use document::Node;
use engine::Review;
use machine::{Document, Machine};

/// Where it goes, its key, and what could stand there: the ten lines that let most checks judge, figures as of an invented
/// carrier of 60 kg.
const FIRST: [(&str, &str, &str); 10] = [
    ("machine", "mass", "60 kg"),
    ("", "environment", "{air: -10 °C to 30 °C, relative_humidity: 80 %, altitude: 300 m, assembled_at: 20 °C}"),
    (
        "",
        "cases",
        "{cold: {kind: cold_start}, climb: {kind: climb, grade: 15 °, speed: 5 km/h, duration: 15 min}, fast: {kind: top_speed}}",
    ),
    (
        "powertrain",
        "battery",
        "{cells: {series: 14, parallel: 5, kind: li_ion_21700, current_max: 15 A}, capacity: 22 Ah, resistance: 60 mΩ, fuse: 80 A, wire: {size: 8 AWG, insulation: silicone}}",
    ),
    (
        "powertrain",
        "controller",
        "{voltage_max: 63 V, current_limit: {battery: 60 A, motor: 80 A}, current_max: 90 A, cut_off: 3 V/cell, temperature_max: 90 °C}",
    ),
    (
        "powertrain",
        "motor",
        "{speed_constant: 90 rpm/V, resistance: 40 mΩ, no_load_current: 2 A, pole_pairs: 7, speed_max: 7000 rpm, mass: 1.2 kg}",
    ),
    (
        "powertrain",
        "stages",
        "[{name: primary, kind: spur, module: 2 mm, face_width: 20 mm, pinion: {teeth: 15, material: steel_c45}, wheel: {teeth: 75, material: pom}}]",
    ),
    ("powertrain", "track", "{pitch: 40 mm, links: 46, sprocket_teeth: 9, mass: 2.4 kg, slack_tension: 90 N}"),
    (
        "suspension",
        "front",
        "{count: 2, sprung_mass_each: 12 kg, unsprung_mass_each: 2 kg, motion_ratio: 0.7, damper_travel: 45 mm, spring: {rate: 9 N/mm}, preload: {collar: 5 mm}}",
    ),
    ("service", "trip", "{distance: 8 km, ascent: 200 m}"),
];

/// What it comes to, and what to write first; lines that stand there already are left out, and what the checks wait for
/// follows.
#[must_use]
pub fn nothing_judged(document: &Document, machine: &Machine, review: &Review) -> String {
    let mut out = format!("{}: nothing was judged, and that is no pass.", words::title(machine));
    let lacks = |section: &str, key: &str| {
        let above = if section.is_empty() { Some(&document.root) } else { document.root.get(section) };
        above.and_then(|above| Node::get(above, key)).is_none()
    };
    let first: Vec<_> = FIRST.iter().filter(|(section, key, _)| lacks(section, key)).collect();
    if !first.is_empty() {
        out.push_str(" These lines, with your own figures, let it judge most:\n");
        let mut inside = "";
        for (section, key, text) in &first {
            if *section != inside && !section.is_empty() {
                out.push_str(&format!("{section}:\n"));
            }
            inside = section;
            let indent = if section.is_empty() { "" } else { "  " };
            out.push_str(&format!("{indent}{key}: {text}\n"));
        }
    }
    let more = review.unlocks.waiting.iter().take(FIRST.len() - first.len());
    let more: Vec<String> =
        more.map(|unlock| format!("`{}`", words::absent_name(document, machine, unlock.absent))).collect();
    if !more.is_empty() {
        out.push_str(&format!("\nChecks wait for {}.", more.join(", ")));
    }
    out.trim_end().to_owned()
}
