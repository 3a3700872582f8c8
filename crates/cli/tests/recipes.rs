//! The recipes under `examples/editors` and `examples/ci` fit what the tool prints and takes.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

mod tool;

use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tool::{FIBRES, code, err, mended, out, root, write};

fn recipe(name: &str) -> String {
    fs::read_to_string(root().join("examples").join(name)).unwrap()
}

/// Lines of all examples as they were last printed, and one of each verdict that none of them has.
fn lines() -> Vec<String> {
    let folder = root().join("crates/cli/tests/formats/snapshots");
    let texts = fs::read_dir(folder).unwrap().map(|entry| fs::read_to_string(entry.unwrap().path()).unwrap());
    let printed = texts.flat_map(|text| {
        let lines = text.lines().skip(1).take_while(|line| !line.starts_with("====")).map(str::to_owned);
        lines.collect::<Vec<_>>()
    });
    let others =
        ["broken", "error", "not judged"].map(|verdict| format!("a b.yaml:1:2: {verdict}: it: says: so (a-rule)"));
    printed.chain(others).collect()
}

/// JSON Schema's patterns are those of JavaScript, as are the editor's.
#[test]
fn each_line_is_matched_by_one_pattern() {
    let tasks: Value = serde_json::from_str(&recipe("editors/vscode/.vscode/tasks.json")).unwrap();
    let matchers = tasks["tasks"][0]["problemMatcher"].as_array().unwrap();
    let patterns: Vec<jsonschema::Validator> = matchers
        .iter()
        .map(|matcher| jsonschema::validator_for(&json!({"pattern": matcher["pattern"]["regexp"]})).unwrap())
        .collect();
    let severities: Vec<&str> = matchers.iter().map(|matcher| matcher["severity"].as_str().unwrap()).collect();
    let lines = lines();
    assert!(lines.len() > 20, "{}", lines.len());
    for line in lines {
        let text = Value::from(line.as_str());
        let found: Vec<&str> = patterns
            .iter()
            .zip(&severities)
            .filter(|(pattern, _)| pattern.is_valid(&text))
            .map(|(_, word)| *word)
            .collect();
        let wanted = match line.split(": ").nth(1).unwrap() {
            "fails" | "broken" | "error" => "error",
            "thin" => "warning",
            _ => "info",
        };
        assert_eq!(found, [wanted], "{line}");
    }
    let settings: Value = serde_json::from_str(&recipe("editors/vscode/.vscode/settings.json")).unwrap();
    assert_eq!(settings["yaml.schemas"]["./machine.schema.json"], "*.machine.yaml");
}

/// A shell that finds the tool, in a repository of specs under version control.
fn shell(folder: &Path, script: &str) -> Output {
    let tool = Path::new(env!("CARGO_BIN_EXE_dryfit")).parent().unwrap().to_owned();
    let path = format!("{}:{}", tool.display(), std::env::var("PATH").unwrap());
    let user =
        ["AUTHOR", "COMMITTER"].map(|who| [(format!("GIT_{who}_NAME"), "x"), (format!("GIT_{who}_EMAIL"), "x@y.z")]);
    Command::new("sh")
        .args(["-euc", script])
        .current_dir(folder)
        .env("PATH", path)
        .env("GIT_CONFIG_GLOBAL", "/nowhere")
        .envs(user.into_iter().flatten())
        .output()
        .unwrap()
}

fn repository() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let at = folder.path();
    write(at, "hut/a b.machine.yaml", &format!("libraries: [../parts/mine.yaml]\n{}", mended()));
    write(at, "reed/bäd.machine.yaml", FIBRES);
    write(at, "parts/mine.yaml", "materials: {my_pom: {like: pom}}\n");
    let begun = shell(at, "git init -q . && git add -A && git commit -qm begin");
    assert_eq!(code(&begun), 0, "{}", err(&begun));
    folder
}

#[test]
fn the_hook_before_a_commit_reviews_what_a_changed_library_is_in() {
    let folder = repository();
    let at = folder.path();
    let text = recipe("ci/pre-commit-config.yaml");
    let entry = text.lines().find_map(|line| line.trim().strip_prefix("entry: ")).unwrap();
    let nothing = shell(at, entry);
    assert_eq!(code(&nothing), 0, "{}", err(&nothing));
    write(at, "parts/mine.yaml", "materials: {my_pom: {like: pom}, other: {like: pom}}\n");
    let library = shell(at, &format!("git add -A\n{entry}"));
    assert!(err(&library).contains("reviewed 1 spec: 0 fails") && code(&library) == 0, "{}", err(&library));
    write(at, "reed/bäd.machine.yaml", &FIBRES.replace("trial", "other"));
    let spec = shell(at, &format!("git add -A\n{entry}"));
    assert_eq!(code(&spec), 1);
    assert!(out(&spec).starts_with("reed/bäd.machine.yaml:6:"), "{}", out(&spec));
}

#[test]
fn a_change_is_compared_with_what_was_there() {
    let folder = repository();
    let at = folder.path();
    let script = root().join("examples/ci/compare.sh");
    let script = format!("{} HEAD", script.display());
    let same = shell(at, &script);
    assert_eq!((code(&same), out(&same).as_str()), (0, ""), "{}", err(&same));
    write(at, "hut/a b.machine.yaml", &format!("libraries: [../parts/mine.yaml]\n{FIBRES}"));
    let worse = shell(at, &script);
    assert_eq!(code(&worse), 1, "{}", err(&worse));
    assert!(out(&worse).contains("one verdict got worse") && out(&worse).contains("sound → fails"), "{}", out(&worse));
    write(at, "hut/a b.machine.yaml", &format!("libraries: [../parts/mine.yaml]\n{}", mended()));
    write(at, "reed/bäd.machine.yaml", &mended());
    let better = shell(at, &script);
    assert_eq!(code(&better), 0, "{}{}", out(&better), err(&better));
    assert!(out(&better).contains("| improved | fails → sound |"), "{}", out(&better));
}
