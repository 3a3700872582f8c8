//! The tool as its user meets it: exit codes, layouts, files.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

mod tool;

use std::fs;
use std::process::Command;
use tool::{FIBRES, code, dryfit, err, out, root};

#[test]
fn exit_codes_say_what_came_of_it() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    fs::write(at.join("bad.machine.yaml"), FIBRES).unwrap();
    fs::write(at.join("good.machine.yaml"), FIBRES.replace("between: none", "between: metal_sleeve")).unwrap();
    fs::write(at.join("wrong.machine.yaml"), FIBRES.replace("rotating", "rotatng")).unwrap();
    assert_eq!(code(&dryfit(at, &["review", "good.machine.yaml"], "")), 0);
    assert_eq!(code(&dryfit(at, &["review", "bad.machine.yaml"], "")), 1);
    assert_eq!(code(&dryfit(at, &["review", "--refuse", "nothing", "bad.machine.yaml"], "")), 0);
    assert_eq!(code(&dryfit(at, &["review", "wrong.machine.yaml"], "")), 2);
    assert_eq!(code(&dryfit(at, &["review", "none.machine.yaml"], "")), 2);
    assert_eq!(code(&dryfit(at, &["review", "--today", "2026-02-30", "good.machine.yaml"], "")), 2);
    assert_eq!(code(&dryfit(at, &["revue"], "")), 2);
    // One that cannot be read does not stop the others.
    let all = dryfit(at, &["review", "--as", "line"], "");
    assert_eq!(code(&all), 2);
    assert!(out(&all).contains("wheel_on_axle") && out(&all).contains("did you mean `rotating`?"), "{}", out(&all));
}

#[test]
fn a_case_that_comes_after_itself_is_told_at_its_line() {
    let folder = tempfile::tempdir().unwrap();
    let spec = |after: &str| {
        format!("{FIBRES}cases:\n  day: {{kind: cruise}}\n  shed: {{kind: brought_indoors, after: {after}}}\n")
    };
    let output = dryfit(folder.path(), &["review", "--as", "line", "-"], &spec("shed"));
    assert_eq!(code(&output), 2);
    let text = out(&output);
    assert!(text.contains("the case `shed` comes directly after itself; name the case that ends where"), "{text}");
    let line = 1 + spec("shed").lines().position(|line| line.contains("after: shed")).unwrap();
    assert!(text.starts_with(&format!("standard-input.machine.yaml:{line}:")), "{text}");
    assert_eq!(code(&dryfit(folder.path(), &["review", "--refuse", "nothing", "-"], &spec("day"))), 0);
}

#[test]
fn a_line_is_file_line_column_verdict_message_rule() {
    let folder = tempfile::tempdir().unwrap();
    let output = dryfit(folder.path(), &["review", "--as", "line", "--named", "shed.machine.yaml", "-"], FIBRES);
    let text = out(&output);
    assert_eq!(code(&output), 1);
    assert_eq!(text.lines().count(), 1, "{text}");
    assert!(text.starts_with("shed.machine.yaml:6:"), "{text}");
    assert!(text.contains(": fails: wheel_on_axle: ") && text.ends_with("(carbon-friction-contact)\n"), "{text}");
}

#[test]
fn json_obeys_its_schema_and_a_file_is_written_whole() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    fs::write(at.join("bad.machine.yaml"), FIBRES).unwrap();
    fs::write(at.join("report.json"), "older").unwrap();
    let output = dryfit(at, &["review", "--as", "json", "--out", "report.json", "bad.machine.yaml"], "");
    assert_eq!((code(&output), out(&output).as_str()), (1, ""));
    let report: serde_json::Value = serde_json::from_str(&fs::read_to_string(at.join("report.json")).unwrap()).unwrap();
    assert_eq!(report["findings"][0]["verdict"], "fails");
    let schema = dryfit(at, &["schema", "report"], "");
    let schema: serde_json::Value = serde_json::from_str(&out(&schema)).unwrap();
    assert!(jsonschema::is_valid(&schema, &report));
    let nowhere = dryfit(at, &["review", "--out", "no/such/folder/x", "bad.machine.yaml"], "");
    assert_eq!(code(&nowhere), 2);
    assert!(err(&nowhere).contains("no/such/folder/x cannot be written: it does not exist"), "{}", err(&nowhere));
}

#[test]
fn libraries_stay_below_the_root() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path().join("specs/hauler");
    fs::create_dir_all(&at).unwrap();
    fs::write(folder.path().join("secret.yaml"), "materials: {}\n").unwrap();
    fs::write(folder.path().join("specs/workshop.yaml"), "").unwrap();
    fs::write(folder.path().join("specs/shared.yaml"), "materials: {mine: {like: pom}}\n").unwrap();
    let spec = |library: &str| format!("dryfit: 1\nmachine: {{name: x}}\nlibraries: [{library}]\n");
    let review = |library: &str| {
        fs::write(at.join("a.machine.yaml"), spec(library)).unwrap();
        dryfit(&at, &["review", "--as", "line", "a.machine.yaml"], "")
    };
    // It holds nothing to judge, which is no pass; the library is read.
    let read = review("../shared.yaml");
    assert!(code(&read) == 2 && !out(&read).contains(": error:"), "{}", out(&read));
    assert!(out(&review("../../secret.yaml")).contains("lies outside the repository of specs"));
    assert!(out(&review("../shard.yaml")).contains("did you mean `../shared.yaml`?"));
}

#[test]
fn start_writes_a_spec_that_reviews_and_never_overwrites() {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    assert_eq!(code(&dryfit(at, &["start", "bog-runner"], "")), 0);
    let again = dryfit(at, &["start", "bog-runner"], "");
    assert_eq!(code(&again), 2);
    assert!(err(&again).contains("is there already"));
    let review = dryfit(at, &["review", "--refuse", "nothing", "bog-runner.machine.yaml"], "");
    assert_eq!(code(&review), 0, "{}{}", out(&review), err(&review));
    assert!(out(&review).contains("bog-runner: "), "{}", out(&review));
}

#[test]
fn the_rulebook_shows_cards_and_guesses_names() {
    let all = dryfit(&root(), &["rule"], "");
    assert!(out(&all).contains("bearing-pv") && code(&all) == 0);
    assert!(out(&dryfit(&root(), &["rule", "bearing-pv"], "")).contains("required reserve:"));
    let near = dryfit(&root(), &["rule", "bearing_pv"], "");
    assert_eq!(code(&near), 2);
    assert!(err(&near).contains("did you mean `bearing-pv`?"));
}

#[test]
fn text_of_a_spec_never_commands_the_terminal() {
    let folder = tempfile::tempdir().unwrap();
    let spec =
        FIBRES.replace("{name: trial}", "{name: \"\\e[31m<b>\\u202eevil\"}").replace("wheel_on_axle", "\"\\e]0;x\\a\"");
    for layout in ["terminal", "line", "json"] {
        let output = dryfit(folder.path(), &["review", "--as", layout, "-"], &spec);
        let text = out(&output);
        assert!(!text.contains('\u{1b}') && !text.contains('\u{7}') && !text.contains('\u{202e}'), "{layout}: {text}");
    }
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_a_pipe_a_pipe() {
    use std::os::unix::fs::{FileTypeExt, PermissionsExt, symlink};
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    fs::write(at.join("real.json"), "old").unwrap();
    fs::set_permissions(at.join("real.json"), fs::Permissions::from_mode(0o640)).unwrap();
    symlink("real.json", at.join("link.json")).unwrap();
    fs::write(at.join("bad.machine.yaml"), FIBRES).unwrap();
    let review = |file| dryfit(at, &["review", "bad.machine.yaml", "--as", "json", "--out", file], "");
    assert_eq!(code(&review("link.json")), 1);
    assert!(at.join("link.json").is_symlink());
    assert!(fs::read_to_string(at.join("real.json")).unwrap().contains("wheel_on_axle"));
    assert_eq!(fs::metadata(at.join("real.json")).unwrap().permissions().mode() & 0o777, 0o640);

    assert!(Command::new("mkfifo").arg(at.join("pipe")).status().unwrap().success());
    let pipe = at.join("pipe");
    let reader = std::thread::spawn(move || fs::read_to_string(pipe).unwrap());
    assert_eq!(code(&review("pipe")), 1);
    assert!(reader.join().unwrap().contains("wheel_on_axle"));
    assert!(fs::metadata(at.join("pipe")).unwrap().file_type().is_fifo(), "it is still a pipe");
}

/// Of what is built in only what a spec mentions is joined; a misspelt name mentions nothing.
#[test]
fn a_built_in_thing_is_meant_even_where_nothing_else_names_it() {
    let folder = tempfile::tempdir().unwrap();
    let spec = "dryfit: 1\nmachine: {name: sledge}\npowertrain: {battery: {cells: {series: 12, kind: li_ion_21770}}, bearings: {roller: {kind: plain, material: pomm}}}\n";
    let output = dryfit(folder.path(), &["review", "--as", "line", "--named", "a.machine.yaml", "-"], spec);
    assert_eq!(code(&output), 2);
    for meant in ["`li_ion_21700`", "`pom`"] {
        assert!(out(&output).contains(&format!("did you mean {meant}?")), "{}", out(&output));
    }
}

#[test]
fn another_formats_number_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let output = dryfit(folder.path(), &["review", "--as", "line", "-"], &FIBRES.replace("dryfit: 1", "dryfit: 99"));
    assert_eq!(code(&output), 2);
    assert!(out(&output).contains("written in format 99; this program reads format 1"), "{}", out(&output));
}

#[test]
fn loads_name_cases_that_there_are() {
    let folder = tempfile::tempdir().unwrap();
    let spec = |name: &str| {
        format!(
            "dryfit: 1\nmachine: {{name: arm}}\ncases:\n  ditch: {{kind: cruise}}\nstructure:\n  parts:\n    arm: {{loads: [track_tension, {name}]}}\n"
        )
    };
    let output = dryfit(folder.path(), &["review", "--as", "line", "-"], &spec("dich"));
    assert_eq!(code(&output), 2);
    let text = out(&output);
    assert!(text.contains(":7:34: error: `dich` is no case of this spec; did you mean `ditch`?"), "{text}");
    assert!(!out(&dryfit(folder.path(), &["review", "--as", "line", "-"], &spec("ditch"))).contains("error"));
}

#[test]
fn a_review_that_judged_nothing_is_no_pass_and_says_what_to_write_first() {
    let folder = tempfile::tempdir().unwrap();
    let empty = "dryfit: 1\nmachine:\n  name: bare\n";
    let output = dryfit(folder.path(), &["review", "--as", "json", "--refuse", "nothing", "-"], empty);
    assert_eq!(code(&output), 2);
    let said = err(&output);
    assert!(said.contains("nothing was judged, and that is no pass"), "{said}");
    let lines: Vec<&str> = said.lines().skip(1).filter(|line| line.contains(": ")).collect();
    assert_eq!(lines.len(), 10, "{said}");
    // Written as they stand they are read, and let a good deal be judged; each of them does its part.
    let rest: Vec<&str> = said.lines().skip(1).filter(|line| *line != "machine:").collect();
    let margins = |without: Option<&str>| {
        let alone = |index: usize| rest.get(index + 1).copied() == without && rest[index].ends_with(':');
        // A heading goes with the only line below it.
        let kept = rest.iter().enumerate().filter(|(index, line)| {
            Some(**line) != without && !(alone(*index) && ["suspension:", "service:"].contains(*line))
        });
        let kept: Vec<&str> = kept.map(|(_, line)| *line).collect();
        let spec = format!("{empty}{}\n", kept.join("\n"));
        let output = dryfit(folder.path(), &["review", "--as", "json", "-"], &spec);
        let report: serde_json::Value = serde_json::from_str(&out(&output)).unwrap();
        report["findings"].as_array().unwrap().iter().filter(|finding| finding["margin"].is_object()).count()
    };
    let all = margins(None);
    assert!(all >= 15, "{all}");
    for line in lines {
        assert!(margins(Some(line)) < all, "{line}");
    }
}

#[test]
fn counts_begin_at_one_and_a_fuse_may_be_none_or_unknown() {
    let folder = tempfile::tempdir().unwrap();
    let said = |spec: &str| {
        let output = dryfit(
            folder.path(),
            &["review", "--as", "line", "-"],
            &format!("dryfit: 1\nmachine: {{name: bare}}\n{spec}\n"),
        );
        (code(&output), out(&output))
    };
    for zero in [
        "powertrain: {track: {sprocket_teeth: 0}}",
        "powertrain: {track: {links: 0}}",
        "powertrain: {track: {form: {kind: pinned_links, ears: 0}}}",
        "powertrain: {battery: {cells: {series: 0}}}",
        "powertrain: {battery: {fuse: 0 A}}",
        "powertrain: {stages: [{name: one, kind: chain, driving_teeth: 0}]}",
        "powertrain: {bearings: {idler: {kind: plain, wheel: {bushes: 0}}}}",
        "suspension: {front: {count: 0}}",
        "suspension: {front: {damper: {kind: oil, holes: 0}}}",
        "cooling: {pump: {stall_pressure: 0 kPa}}",
    ] {
        let (code, text) = said(zero);
        assert!(code == 2 && text.contains("error"), "{zero}: {text}");
    }
    let case = "cases: {day: {kind: cruise}}";
    assert!(said(&format!("{case}\npowertrain: {{battery: {{fuse: none}}}}")).1.contains("nothing interrupts a short"));
    assert!(
        said(&format!("{case}\npowertrain: {{battery: {{capacity: 9 Ah, fuse: unknown}}}}"))
            .1
            .contains("`powertrain.battery.fuse` is not given")
    );
    let none = said("powertrain: {battery: {capacity: none}}");
    assert!(none.0 == 2 && none.1.contains("error"), "{}", none.1);
}
