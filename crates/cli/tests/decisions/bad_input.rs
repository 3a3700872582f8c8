//! Questions to which there is no remedy: each is answered in a sentence, with a way on.

use crate::{DRAWN, dryfit};
use std::fs;

const SLEDGE: &str = "\
dryfit: 1
machine: {name: sledge, mass: 46 kg}
environment: {air: 10 °C, relative_humidity: 90 %, altitude: 0 m}
cases: {haul: {kind: cruise, speed: 5 km/h, duration: 40 min}}
powertrain:
  bearings:
    roller: {kind: plain, material: pom, bore: 10 mm, length: 14 mm, lubrication: grease, dirt: mud, load: 180 N, speed: 400 rpm}
";

/// A command on a spec of its own.
fn on(spec: &str, command: &[&str]) -> (i32, String, String) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sledge.machine.yaml");
    fs::write(&path, spec).unwrap();
    let (code, text, says) = dryfit(&[&command[..1], &[path.to_str().unwrap()], &command[1..]].concat());
    assert_eq!(fs::read_to_string(path).unwrap(), spec, "nothing is written");
    let flat = |text: String| text.split_whitespace().collect::<Vec<_>>().join(" ");
    (code, flat(text), flat(says))
}

#[track_caller]
fn refused(spec: &str, command: &[&str], wanted: &str) {
    let (code, text, says) = on(spec, command);
    assert!(code == 2 && says.contains(wanted), "{command:?}: {code} {text}{says}");
}

#[test]
fn an_unknown_finding_is_told_the_nearest() {
    refused(SLEDGE, &["remedy", "--on", "rollr"], "no rule judges anything called `rollr`; did you mean `roller`?");
    refused(
        SLEDGE,
        &["remedy", "--rule", "bearing-vp"],
        "no rule called `bearing-vp` judges this; did you mean `bearing-pv`?",
    );
    refused(SLEDGE, &["rank", "--subject", "rollr"], "no rule judges anything called `rollr`; did you mean `roller`?");
    let sound = SLEDGE.replace("load: 180 N", "load: 9 N");
    refused(&sound, &["remedy", "--on", "roller"], "nothing to clear");
}

#[test]
fn an_unreachable_target_is_told_how_near_it_comes() {
    let with = ["--rule", "bearing-pv", "--with", "powertrain.bearings.roller.length"];
    let (code, text, says) = on(SLEDGE, &[&["remedy"][..], &with].concat());
    assert_eq!(code, 0, "{says}");
    assert!(text.contains("Nothing that was tried clears it."), "{text}");
    assert!(text.contains("not enough by itself: powertrain.bearings.roller.length at"), "{text}");
    let apply = [&["remedy"][..], &with, &["--apply", "1"]].concat();
    refused(SLEDGE, &apply, "there is no remedy to take: nothing that was tried clears it");
}

#[test]
fn an_input_that_is_nowhere_is_told_the_nearest_and_one_that_is_not_read_says_so() {
    let with = |path| ["remedy", "--rule", "bearing-pv", "--with", path];
    refused(
        SLEDGE,
        &with("powertrain.bearings.roler.length"),
        "`powertrain.bearings.roler.length` stands neither in the spec nor in its libraries as a value to change; did you \
         mean `powertrain.bearings.roller.length`?",
    );
    refused(SLEDGE, &with("colour"), "`dryfit rank --sensitivity` names the inputs that move a margin");
    // A built-in figure is nobody's to change; it is not proposed either.
    refused(SLEDGE, &with("materials.pom.densty"), "`dryfit rank --sensitivity` names the inputs that move a margin");
    let (code, text, _) = on(SLEDGE, &with("machine.name"));
    let says = "This check reads nothing from `machine.name`: changing it changes nothing here.";
    assert!(code == 0 && text.contains(says), "{text}");
}

#[test]
fn of_what_turns_the_nearest_value_that_does_is_tried() {
    let with = ["--on", "skid", "--rule", "spring-travel-reserve", "--with", "suspension.skid.spring.wire"];
    let (code, text, says) = dryfit(&[&["remedy", DRAWN][..], &with].concat());
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let turns =
        "of suspension.skid.spring.wire neither more nor less is always better: tried is the nearest value that does";
    assert!(code == 0 && text.contains(turns), "{text}{says}");
}

#[test]
fn what_is_conceded_needs_no_remedy_unless_it_is_named() {
    let contact = "structure:\n  parts: {axle: {material: carbon_tube}, wheel: {material: pom}}\n  contacts:\n    \
                   wheel_on_axle: {of: [wheel, axle], motion: rotating, between: none}\n";
    let concession =
        "concessions: {spare: {rule: carbon-friction-contact, on: wheel_on_axle, reason: a spare lies on board}}\n";
    let spec = format!("dryfit: 1\nmachine: {{name: sledge}}\n{contact}{concession}");
    refused(
        &spec,
        &["remedy"],
        "nothing to clear: all that fails or is thin is conceded (spare); name it with --on to see remedies nevertheless",
    );
    let (code, text, says) = on(&spec, &["remedy", "--on", "wheel_on_axle"]);
    assert_eq!(code, 0, "{says}");
    assert!(
        text.contains("It is conceded by `spare` (a spare lies on board): nothing has to be done about it."),
        "{text}"
    );
    assert!(text.contains("metal_sleeve"), "{text}");
}

#[test]
fn a_tolerance_larger_than_its_value_stops_every_decision() {
    let wide = SLEDGE.replace("load: 180 N", "load: 180 N ± 181 N");
    for command in ["uncertainty", "remedy", "rank"] {
        let says = "'± 181 N' is larger than the value itself; a force cannot go below zero";
        refused(&wide, &[command], says);
    }
    let share = SLEDGE.replace("load: 180 N", "load: 180 N ± 120 %");
    refused(&share, &["uncertainty"], "'± 120 %' is larger than the value itself");
    // Of what may lie on both sides of zero any tolerance is fine.
    let air = SLEDGE.replace("air: 10 °C", "air: 10 °C ± 15 K");
    let (code, _, says) = on(&air, &["uncertainty", "--samples", "20"]);
    assert_eq!(code, 0, "{says}");
}
