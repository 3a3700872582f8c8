//! What `workshop.yaml` requires, as its owner meets it: in every layout, in every decision, and what is wrong with it.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

mod tool;

use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::Output;
use tempfile::TempDir;
use tool::{code, dryfit, err, out, root, write};

/// Its roller holds 13 times what is asked of it.
const SLEDGE: &str = "\
dryfit: 1
machine: {name: Reed sledge, mass: 46 kg}
environment: {air: -8 °C to 24 °C, relative_humidity: 90 %, altitude: 0 m}
cases: {haul: {kind: cruise, speed: 5 km/h, duration: 40 min}}
powertrain:
  bearings:
    roller: {kind: plain, material: pom, bore: 10 mm, length: 14 mm, lubrication: grease, dirt: mud, load: 30 N ± 10 % (measured), speed: 200 rpm}
";

const MUD: &str = "reserves:\n  mud: {rule: bearing-pv, reserve: 20, reason: we run in mud all autumn}\n";

/// A repository of specs with one machine.
fn repository(workshop: &str) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    write(folder.path(), "specs/sledge.machine.yaml", SLEDGE);
    write(folder.path(), "workshop.yaml", workshop);
    folder
}

fn run(folder: &TempDir, arguments: &[&str]) -> Output {
    dryfit(folder.path(), arguments, "")
}

fn laid(folder: &TempDir, layout: &str) -> String {
    out(&run(folder, &["review", "--as", layout, "specs/sledge.machine.yaml"]))
}

/// The same line whatever it is broken into.
fn flat(text: &str) -> String {
    text.split(|letter: char| letter.is_whitespace() || "│├╰─▶".contains(letter))
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

#[test]
fn every_layout_says_where_the_requirement_comes_from_and_points_to_its_line() {
    let folder = repository(MUD);
    let from = "required 20 (workshop.yaml: we run in mud all autumn)";
    let label = "without this it would be sound: the rule itself wants 2.00";
    for layout in ["terminal", "line", "json", "sarif", "junit", "html"] {
        let text = flat(&laid(&folder, layout));
        assert!(text.contains(from), "{layout}: {text}");
        if ["terminal", "json", "sarif", "html"].contains(&layout) {
            assert!(text.contains(label), "{layout}: {text}");
        }
    }
    assert!(laid(&folder, "markdown").contains("| thin |"));
    let terminal = laid(&folder, "terminal");
    assert!(terminal.contains("─[workshop.yaml:2:1]"), "{terminal}");
    assert!(terminal.contains("workshop.yaml decides 1 thin that would be sound by the rule"), "{terminal}");
    let report: Value = serde_json::from_str(&laid(&folder, "json")).unwrap();
    let thin = report["findings"].as_array().unwrap().iter().find(|one| one["verdict"] == "thin").unwrap();
    let by = &thin["margin"]["required_by"];
    assert_eq!(
        (by["reserve"].as_str(), by["rule_wants"].as_f64(), by["otherwise"].as_str()),
        (Some("mud"), Some(2.0), Some("sound"))
    );
    let own = thin["labels"].as_array().unwrap().last().unwrap();
    assert_eq!(
        (&own["at"]["file"], &own["at"]["line"], &own["at"]["column"]),
        (&"workshop.yaml".into(), &2.into(), &36.into())
    );
    assert_eq!(report["workshop"]["file"], "workshop.yaml");
    let schema: Value = serde_json::from_str(&out(&run(&folder, &["schema", "report"]))).unwrap();
    assert!(jsonschema::is_valid(&schema, &report));
    let sarif: Value = serde_json::from_str(&laid(&folder, "sarif")).unwrap();
    let related = sarif["runs"][0]["results"][0]["relatedLocations"].as_array().unwrap();
    assert!(
        related.iter().any(|one| one["physicalLocation"]["artifactLocation"]["uri"] == "workshop.yaml"),
        "{related:?}"
    );
}

#[test]
fn the_file_is_found_from_wherever_the_tool_runs() {
    let folder = repository(MUD);
    for (at, spec, shown) in [
        ("", "specs/sledge.machine.yaml", "─[workshop.yaml:2:1]"),
        ("specs", "sledge.machine.yaml", "─[../workshop.yaml:2:1]"),
        ("specs", "../specs/sledge.machine.yaml", "─[../workshop.yaml:2:1]"),
    ] {
        let text = out(&dryfit(&folder.path().join(at), &["review", spec], ""));
        assert!(text.contains(shown), "{at} {spec}: {text}");
    }
    let piped = dryfit(folder.path(), &["review", "--named", "specs/sledge.machine.yaml", "-"], SLEDGE);
    assert!(out(&piped).contains("required 20"), "{}", out(&piped));
    let changed = |list: &str| {
        let output = dryfit(folder.path(), &["review", ".", "--changed-since", "-", "--as", "line"], list);
        out(&output).contains("thin")
    };
    assert!(changed("workshop.yaml\n") && !changed("readme\n"));
}

#[test]
fn a_remedy_reaches_what_the_workshop_requires() {
    let folder = repository(MUD);
    let with = ["--rule", "bearing-pv", "--with", "powertrain.bearings.roller.speed"];
    let remedy = |more: &[&str]| run(&folder, &[&["remedy", "specs/sledge.machine.yaml"], &with[..], more].concat());
    let told = out(&remedy(&[]));
    assert!(flat(&told).contains("required 20 (workshop.yaml: we run in mud all autumn)"), "{told}");
    let applied = remedy(&["--apply", "1"]);
    assert_eq!(code(&applied), 0, "{}{}", out(&applied), err(&applied));
    let after = laid(&folder, "json");
    let report: Value = serde_json::from_str(&after).unwrap();
    let of = |one: &&Value| one["check"] == "pressure × speed";
    let margin = &report["findings"].as_array().unwrap().iter().find(of).unwrap()["margin"];
    let (reserve, headroom) = (margin["reserve"].as_f64().unwrap(), margin["headroom"].as_f64().unwrap());
    assert!((20.0..24.0).contains(&reserve) && (0.0..0.2).contains(&headroom), "{margin}");
    // The rule alone would have asked for nothing.
    let alone = repository("");
    let none = run(&alone, &["remedy", "specs/sledge.machine.yaml"]);
    assert_eq!(code(&none), 2, "{}", out(&none));
}

#[test]
fn ranking_comparing_and_sampling_count_with_it() {
    let (strict, plain) = (repository(MUD), repository(""));
    let ranked = out(&run(&strict, &["rank", "--verdict", "thin", "specs/sledge.machine.yaml"]));
    assert!(flat(&ranked).contains("required 20 (workshop.yaml: we run in mud all autumn)"), "{ranked}");
    let sampled = |folder: &TempDir| {
        let page = out(&run(folder, &["uncertainty", "--samples", "50", "--as", "json", "specs/sledge.machine.yaml"]));
        let page: Value = serde_json::from_str(&page).unwrap();
        let of = |one: &&Value| one["check"] == "pressure × speed";
        let margin = page["margins"].as_array().unwrap().iter().find(of).cloned().unwrap();
        (margin["thin"]["share"].as_f64().unwrap(), margin["reserve"]["required"].as_f64().unwrap())
    };
    assert_eq!((sampled(&strict), sampled(&plain)), ((1.0, 20.0), (0.0, 2.0)));
    let (old, new) = (plain.path().join("specs/sledge.machine.yaml"), strict.path().join("specs/sledge.machine.yaml"));
    let compared = run(&plain, &["compare", old.to_str().unwrap(), new.to_str().unwrap()]);
    assert_eq!(code(&compared), 1);
    assert!(flat(&out(&compared)).contains("required 2.00 → 20"), "{}", out(&compared));
}

#[test]
fn the_command_line_refuses_before_the_file_does() {
    let refusing = |level: &str| repository(&format!("{MUD}{level}"));
    let review = |folder: &TempDir, more: &[&str]| {
        code(&run(folder, &[&["review", "specs/sledge.machine.yaml"], more].concat()))
    };
    assert_eq!(review(&refusing(""), &[]), 0, "thin alone is not refused");
    assert_eq!(review(&refusing("refuse: thin\n"), &[]), 1);
    assert_eq!(review(&refusing("refuse: thin\n"), &["--refuse", "nothing"]), 0);
    assert_eq!(review(&refusing("refuse: nothing\n"), &["--refuse", "thin"]), 1);
    let junit = |level: &str| laid(&refusing(level), "junit").contains("<failure");
    assert!(junit("refuse: thin\n") && !junit(""));
}

#[test]
fn what_the_rulebook_does_not_know_is_told_at_its_place() {
    let says = |reserves: &str| {
        let folder = repository(&format!("reserves:\n  {}\n", reserves.replace('\n', "\n  ")));
        let output = run(&folder, &["review", "--as", "line", "specs/sledge.machine.yaml"]);
        assert_eq!(code(&output), 2, "{}", out(&output));
        assert_eq!(code(&run(&folder, &["rank", "specs/sledge.machine.yaml"])), 2);
        out(&output)
    };
    let fine = "reserve: 2, reason: mud";
    for (reserves, told) in [
        (
            format!("a: {{rule: bearing_pv, {fine}}}"),
            "workshop.yaml:2:13: error: no rule is called `bearing_pv`; did you mean `bearing-pv`?\n",
        ),
        (format!("a: {{rule: grease, {fine}}}"), "no rule is called `grease`; `dryfit rule` lists them"),
        (
            format!("a: {{rule: unwatched-limit, {fine}}}"),
            "`unwatched-limit` looks at the margins of all rules and has no reserve of its own",
        ),
        (
            format!("a: {{{fine}}}"),
            "workshop.yaml:2:3: error: the reserve `a` does not say what it is for; add `rule:`, `area:` or `on:` to it\n",
        ),
        ("a: {on: roller, reserve: 2, reason: \" \"}".into(), "the reserve `a` has an empty reason"),
        (
            format!("a: {{on: roller, {fine}}}\nb: {{on: roller, reserve: 3, reason: rain}}"),
            "workshop.yaml:3:3: error: `b` requires something else of the same margins as `a`; keep one of the two\n",
        ),
        (format!("a: {{area: coolin, {fine}}}"), "did you mean `cooling`?"),
    ] {
        let text = says(&reserves);
        assert!(text.contains(told), "{reserves}: {text}");
    }
    // The coolant's way round asks no rule.
    let folder = repository(&format!("reserves: {{a: {{rule: grease, {fine}}}}}\n"));
    let circuit = run(&folder, &["circuit", "specs/sledge.machine.yaml"]);
    assert!(err(&circuit).contains("no coolant circuit"), "{}", err(&circuit));
}

#[test]
fn a_reserve_that_matches_nothing_is_told_and_stops_nothing() {
    for (reserve, told) in [
        (
            "on: rollr, reserve: 2",
            "workshop.yaml:2:3: the reserve `it` is for `rollr`, and nothing that is judged here has that name; did you mean `roller`?",
        ),
        ("rule: gear-geometry, reserve: 2", "the reserve `it` answers to no margin of this machine"),
        ("rule: bearing-pv, reserve: 3 mm", "the reserve `it` is of another kind than the margins that it is for"),
    ] {
        let folder = repository(&format!("reserves:\n  it: {{{reserve}, reason: mud}}\n"));
        let output = run(&folder, &["review", "specs/sledge.machine.yaml"]);
        assert!(code(&output) == 0 && out(&output).contains(told), "{reserve}: {}", out(&output));
        let report: Value = serde_json::from_str(&laid(&folder, "json")).unwrap();
        assert_eq!(report["workshop"]["unused_reserves"].as_array().unwrap().len(), 1);
        assert!(laid(&folder, "html").contains("the reserve `it`"));
    }
}

/// The band of the reed cutter comes apart when it is too fast: what is required of it depends on who stands there.
#[test]
fn a_carrier_has_people_near_unless_the_spec_says_no() {
    let said = "people_near: no";
    let example = root().join("examples/reed-cutter");
    let spec = fs::read_to_string(example.join("revised.machine.yaml")).unwrap();
    assert!(spec.contains(said));
    let unsaid: String = spec.lines().filter(|line| !line.contains(said)).map(|line| format!("{line}\n")).collect();
    let band = |profile: &str, spec: &str| {
        let folder = tempfile::tempdir().unwrap();
        write(folder.path(), "a/revised.machine.yaml", spec);
        copy(&example.join("parts"), &folder.path().join("a/parts"));
        write(folder.path(), "workshop.yaml", profile);
        let review = ["review", "--as", "json", "--refuse", "nothing", "a/revised.machine.yaml"];
        let report: Value = serde_json::from_str(&out(&dryfit(folder.path(), &review, ""))).unwrap();
        let findings = report["findings"].as_array().unwrap();
        let band = findings.iter().find(|one| one["rule"] == "track-ring-speed").unwrap();
        let run_over = findings.iter().filter(|one| one["consequence"] == "run_over").count();
        (band["margin"]["required"].as_f64().unwrap(), band["consequence"].as_str().unwrap().to_owned(), run_over > 0)
    };
    assert_eq!(band("", &unsaid), (2.0, "stranded".into(), true));
    assert_eq!(band("profile: sport\n", &unsaid), (2.0, "stranded".into(), true));
    assert_eq!(band("profile: carrier\n", &unsaid), (4.0, "harm".into(), false), "and nobody takes it home");
    assert_eq!(band("profile: carrier\n", &spec), (2.0, "stranded".into(), false));
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap().map(Result::unwrap) {
        fs::copy(entry.path(), to.join(entry.file_name())).unwrap();
    }
}

#[test]
fn the_schema_is_printed() {
    let schema: Value = serde_json::from_str(&out(&dryfit(&root(), &["schema", "workshop"], ""))).unwrap();
    assert_eq!(schema["title"], "dryfit workshop");
    let text = fs::read_to_string(root().join("schemas/workshop.schema.json")).unwrap();
    assert_eq!(schema, serde_json::from_str::<Value>(&text).unwrap());
}
