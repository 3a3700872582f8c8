use super::*;
use crate::chart::{Bars, Chart, Picture};
use crate::review_without_carriers;
use document::{Document, Limits, NoFiles, NoShelf};
use machine::Swaps;

/// A sledge without a drive line: one corner, two landings.
const SLEDGE: &str = "
dryfit: 1
machine: {name: Sledge, mass: 40 kg}
environment: {air: -20 °C to 10 °C, relative_humidity: 80 %, altitude: 0 m, assembled_at: 20 °C, surface: packed_snow}
cases: {low: {kind: landing, drop: 0.1 m}, high: {kind: landing, drop: 0.3 m}, rest: {kind: soak, air: -20 °C}}
oils: {waxy: {kind: mineral, viscosity_40: 15 mm²/s, viscosity_100: 3.4 mm²/s, density: 860 kg/m³, pour_point: -15 °C}}
suspension:
  rear:
    count: 2
    sprung_mass_each: 14 kg
    unsprung_mass_each: 3 kg
    position: 100 mm
    motion_ratio: 0.75
    damper_travel: 52 mm
    spring: {rate: 12 N/mm}
    preload: {collar: 6 mm}
    damper: {kind: oil, bore: 16 mm, rod: 4 mm, holes: 6, hole_diameter: 1.6 mm, piston_thickness: 3 mm, oil: waxy}
    bump_stop: {kind: none}
assumed: {ground_stiffness: 60 N/mm, mount_stiffness: 400 N/mm}
";

fn drawn(from: &str, to: &str) -> Vec<Drawing> {
    assert!(SLEDGE.contains(from));
    let text = SLEDGE.replace(from, to).into_bytes();
    let document = Document::load("sledge.machine.yaml", text, &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    charts(&machine, &[], &review_without_carriers(&document, &machine, &[], &[], None))
}

fn titled<'a>(all: &'a [Drawing], title: &str) -> &'a Drawing {
    all.iter().find(|one| one.title == title).unwrap_or_else(|| panic!("{title}: {all:?}"))
}

fn chart<'a>(all: &'a [Drawing], title: &str) -> &'a Chart {
    match &titled(all, title).found {
        Ok(Picture::Chart(chart)) => chart,
        other => panic!("{title}: {other:?}"),
    }
}

fn bars(all: &[Drawing]) -> &Bars {
    match &titled(all, "What the travel of each spring is spent on").found {
        Ok(Picture::Bars(bars)) => bars,
        other => panic!("{other:?}"),
    }
}

const SAME: (&str, &str) = ("Sledge", "Sledge");

#[test]
fn what_a_machine_has_nothing_for_is_not_drawn() {
    let all = drawn(SAME.0, SAME.1);
    let titles: Vec<&str> = all.iter().map(|one| one.title.as_str()).collect();
    assert_eq!(
        titles,
        [
            "What the travel of each spring is spent on",
            "Travel over time in case low",
            "Force over time in case low",
            "Travel over time in case high",
            "Force over time in case high",
            "Oil of the dampers against temperature",
        ]
    );
}

#[test]
fn the_bar_ends_where_the_deepest_landing_ends() {
    let all = drawn(SAME.0, SAME.1);
    let bar = &bars(&all).bars[0];
    let whole: f64 = bar.parts.iter().map(|part| part.1).sum();
    let high = chart(&all, "Travel over time in case high");
    let deepest = high.lines.iter().filter(|line| !line.limit).flat_map(|line| &line.points).map(|point| point.1);
    let deepest = deepest.fold(0.0, f64::max);
    // Where the oil has set the damper is left out. The curve has the solver's instants, the bar the peak between them.
    assert!((whole - 0.006 - deepest).abs() < 1e-4 && bar.says.contains("deepest in high at -20 °C"), "{bar:?}");
    let [("end of the stroke", stroke)] = bar.limits[..] else { panic!("{:?}", bar.limits) };
    assert!((stroke - 0.058).abs() < 1e-12, "{stroke}");
    assert!((bar.parts[1].1 - (14.0 * 9.80665 / 0.75 / 12e3 - 0.006)).abs() < 1e-9, "sag by hand: {bar:?}");
}

#[test]
fn a_landing_is_shown_cold_and_warm_and_says_that_the_oil_has_set() {
    let all = drawn(SAME.0, SAME.1);
    let force = chart(&all, "Force over time in case low");
    let names: Vec<&str> = force.lines.iter().map(|line| line.name.as_str()).collect();
    assert_eq!(names, ["rear in low at -20 °C", "rear in low at 10 °C"]);
    assert!(force.lines[0].says.contains("no longer flows") && !force.lines[1].says.contains("no longer flows"));
    let oil = chart(&all, "Oil of the dampers against temperature");
    assert_eq!((oil.lines.len(), oil.marks.len()), (1, 1), "the coldest air is below the pour point");
    assert!((oil.lines[0].points[0].0 - 258.15).abs() < 1e-9 && oil.lines[0].says.contains("flows down to -15 °C"));
}

#[test]
fn a_missing_figure_leaves_its_name() {
    let absent = |drawing: &Drawing| matches!(drawing.found, Err(NotJudged::NotGiven { .. }));
    let all = drawn("{kind: landing, drop: 0.1 m}", "{kind: landing}");
    assert!(absent(titled(&all, "Travel over time in case low")), "{all:?}");
    chart(&all, "Travel over time in case high");
    let all = drawn("    motion_ratio: 0.75\n", "");
    assert!(absent(titled(&all, "Travel over time in case high")) && absent(&all[0]), "{all:?}");
    let all = drawn("viscosity_40: 15 mm²/s, ", "");
    assert!(absent(titled(&all, "Oil of the dampers against temperature")), "{all:?}");
}
