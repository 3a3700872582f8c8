//! Dependency directions, and what no crate may hold.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Crate, what it may name, and what only its tests may name beside that.
const ALLOWED: &[(&str, &[&str], &[&str])] = &[
    ("quantity", &[], &[]),
    ("run_log", &["quantity"], &[]),
    ("document", &["run_log"], &[]),
    ("machine", &["document", "run_log", "quantity"], &[]),
    ("physics", &["quantity"], &[]),
    ("catalogue", &["document"], &[]),
    ("solve", &["machine", "physics", "quantity"], &["document"]),
    ("rule", &["solve", "machine", "physics", "quantity"], &[]),
    ("engine", &["rule", "solve", "machine", "quantity"], &["document"]),
    ("decide", &["engine", "rule", "solve", "machine", "quantity"], &["document", "catalogue", "rulebook"]),
    ("render", &["decide", "engine", "rule", "machine", "document", "quantity"], &[]),
    ("trial", &["engine", "rule", "machine", "document", "catalogue", "quantity"], &[]),
    (
        "dryfit_cli",
        &["render", "decide", "engine", "rule", "machine", "document", "catalogue", "rulebook", "quantity"],
        &[],
    ),
];

/// One dependency as `cargo metadata` tells it.
struct Edge {
    on: String,
    dev: bool,
    ours: bool,
}

struct Package {
    folder: PathBuf,
    edges: Vec<Edge>,
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap()
}

fn packages() -> BTreeMap<String, Package> {
    let out = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--no-deps", "--offline"])
        .current_dir(root())
        .output()
        .unwrap();
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    let all: Value = serde_json::from_slice(&out.stdout).unwrap();
    let packages = all["packages"].as_array().unwrap().iter().map(|package| {
        let edges = package["dependencies"].as_array().unwrap().iter().map(|edge| Edge {
            on: edge["name"].as_str().unwrap().to_owned(),
            dev: edge["kind"] == "dev",
            ours: edge["path"].is_string(),
        });
        let manifest = Path::new(package["manifest_path"].as_str().unwrap());
        let folder = manifest.parent().unwrap().to_owned();
        (package["name"].as_str().unwrap().to_owned(), Package { folder, edges: edges.collect() })
    });
    packages.collect()
}

/// Packages of one folder of the workspace: `crates`, `rules`, `tests`.
fn of<'a>(
    packages: &'a BTreeMap<String, Package>,
    folder: &str,
) -> impl Iterator<Item = (&'a str, &'a Package)> + use<'a> {
    let folder = root().join(folder);
    packages
        .iter()
        .filter(move |(_, package)| package.folder.parent() == Some(&folder))
        .map(|(name, package)| (name.as_str(), package))
}

/// What a package names and may not.
fn astray<'a>(package: &'a Package, may: &[&str], tests_may: &[&str]) -> Vec<&'a str> {
    let edges = package.edges.iter().filter(|edge| {
        let on = edge.on.as_str();
        edge.ours && !may.contains(&on) && !(edge.dev && tests_may.contains(&on))
    });
    edges.map(|edge| edge.on.as_str()).collect()
}

#[test]
fn crates_name_only_what_lies_below_them() {
    let packages = packages();
    let names: Vec<&str> = of(&packages, "crates").map(|(name, _)| name).collect();
    let mut listed: Vec<&str> = ALLOWED.iter().map(|row| row.0).collect();
    listed.sort_unstable();
    assert_eq!(names, listed, "each crate has one row in the list of what it may name");
    for (name, may, tests_may) in ALLOWED {
        let astray = astray(&packages[*name], may, tests_may);
        assert!(astray.is_empty(), "{name} may not name {astray:?}");
    }
}

#[test]
fn the_list_has_no_circle_and_the_check_bites() {
    // A row may only name rows above it, or the rulebook, whose rules name `rule` alone.
    for (row, (name, may, _)) in ALLOWED.iter().enumerate() {
        for on in *may {
            let above = ALLOWED[..row].iter().any(|other| other.0 == *on);
            assert!(above || *on == "rulebook", "{name} names {on}, which does not lie below it");
        }
    }
    let edge = |on: &str, dev, ours| Edge { on: on.to_owned(), dev, ours };
    let package = Package {
        folder: PathBuf::new(),
        edges: vec![edge("a", false, true), edge("b", false, true), edge("b", true, true), edge("c", false, false)],
    };
    assert_eq!(astray(&package, &["a"], &[]), ["b", "b"]);
    assert_eq!(astray(&package, &["a"], &["b"]), ["b"], "what tests may name, the crate itself may not");
    assert!(astray(&package, &["a", "b"], &[]).is_empty(), "libraries of others are no layer");
}

#[test]
fn a_rule_names_the_prelude_and_its_tests_the_trial() {
    let packages = packages();
    assert!(of(&packages, "rules").count() > 1);
    for (name, package) in of(&packages, "rules").filter(|(name, _)| *name != "rulebook") {
        assert_eq!(package.folder.file_name().unwrap(), name, "folder and crate have one name");
        for edge in &package.edges {
            let fits = if edge.dev { edge.on == "trial" } else { edge.on == "rule" };
            assert!(fits, "{name} names {}", edge.on);
        }
    }
    let rules: Vec<&str> = of(&packages, "rules").map(|(name, _)| name).filter(|name| *name != "rulebook").collect();
    for edge in &packages["rulebook"].edges {
        assert!(edge.on == "rule" || rules.contains(&edge.on.as_str()), "the rulebook names {}", edge.on);
    }
}

#[test]
fn only_quantity_names_the_library_of_units() {
    let packages = packages();
    let names = |name: &str| packages[name].edges.iter().any(|edge| edge.on == "uom");
    let naming: Vec<&String> = packages.keys().filter(|name| names(name)).collect();
    assert_eq!(naming, ["quantity"]);
}

#[test]
fn the_rulebook_lists_each_folder_once() {
    let mut folders: Vec<String> = fs::read_dir(root().join("rules"))
        .unwrap()
        .map(|entry| entry.unwrap())
        .filter(|entry| entry.path().is_dir())
        .map(|entry| entry.file_name().into_string().unwrap())
        .filter(|name| name != "rulebook")
        .collect();
    folders.sort();
    let rules = rulebook::RULES.iter().map(|rule| rule.card().name);
    let mut cards: Vec<&str> = rules.chain(rulebook::OVERVIEWS.iter().map(|overview| overview.card().name)).collect();
    cards.sort_unstable();
    assert_eq!(cards, folders);
}

/// Every file of Rust below a folder, build folders and hidden ones left out.
fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap().map(|entry| entry.unwrap()) {
        let path = entry.path();
        let name = entry.file_name().into_string().unwrap();
        if entry.file_type().unwrap().is_dir() {
            if !name.starts_with('.') && name != "target" {
                sources(&path, found);
            }
        } else if name.ends_with(".rs") {
            found.push(path);
        }
    }
}

#[test]
fn a_rule_has_no_way_to_files_clock_or_network() {
    let packages = packages();
    for (name, package) in of(&packages, "rules").filter(|(name, _)| *name != "rulebook") {
        let lib = fs::read_to_string(package.folder.join("src/lib.rs")).unwrap();
        assert!(lib.lines().any(|line| line == "#![no_std]"), "rules/{name}/src/lib.rs lacks #![no_std]");
        assert!(!package.folder.join("build.rs").exists(), "rules/{name} runs code while it is built");
        let mut files = Vec::new();
        sources(&package.folder, &mut files);
        for file in files {
            let text = fs::read_to_string(&file).unwrap();
            assert!(!text.contains("extern crate std"), "{}", file.display());
        }
    }
}

#[test]
fn rules_are_linted_like_all_others_and_may_not_calculate() {
    let (all, rules) = (root().join("clippy.toml"), root().join("rules/clippy.toml"));
    let (all, rules) = (fs::read_to_string(all).unwrap(), fs::read_to_string(rules).unwrap());
    for line in all.lines().filter(|line| !line.starts_with('#') && !line.is_empty()) {
        assert!(rules.lines().any(|other| other == line), "rules/clippy.toml lacks `{line}`");
    }
    for method in ["powf", "powi", "sqrt", "exp", "ln", "log10", "sin", "cos", "tan"] {
        assert!(rules.contains(&format!("\"f64::{method}\"")), "rules/clippy.toml allows f64::{method}");
    }
}

#[test]
fn each_crate_says_first_what_it_never_knows() {
    for (name, package) in of(&packages(), "crates") {
        let lib = fs::read_to_string(package.folder.join("src/lib.rs")).unwrap();
        let head: Vec<&str> = lib.lines().take_while(|line| line.starts_with("//!")).take(6).collect();
        let head = head.join(" ").to_lowercase();
        assert!(head.contains("never knows"), "crates: {name}'s lib.rs begins without `never knows`");
    }
}

#[test]
fn no_file_is_two_rooms() {
    let mut files = Vec::new();
    sources(&root(), &mut files);
    assert!(files.len() > 100, "{}", files.len());
    let long: Vec<String> = files
        .iter()
        .map(|file| (file, fs::read_to_string(file).unwrap().lines().count()))
        .filter(|(_, lines)| *lines > 600)
        .map(|(file, lines)| format!("{}: {lines}", file.display()))
        .collect();
    assert!(long.is_empty(), "above 600 lines: {long:?}");
}

/// A list of kinds in a rule forgets the kind that comes next, and says nothing of it. What a kind means is asked of the kind.
#[test]
fn no_rule_lists_kinds_of_cases() {
    let mut files = Vec::new();
    sources(&root().join("rules"), &mut files);
    // A test may name the kind that it is about.
    files.retain(|file| !file.iter().any(|part| part == "tests" || part == "tests.rs"));
    assert!(files.len() > 50, "{}", files.len());
    files.retain(|file| fs::read_to_string(file).unwrap().contains("CaseKind"));
    assert!(files.is_empty(), "ask a predicate of the case's kind instead: {files:#?}");
}

/// What a check concludes from a number must stand in its reads: rules and solutions have no other way to it than the reader.
#[test]
fn rules_and_solutions_read_no_row() {
    let mut files = Vec::new();
    sources(&root().join("rules"), &mut files);
    sources(&root().join("crates/solve/src"), &mut files);
    // The reader itself is made from the row, and so are the two that look at a machine without a case.
    let makes_readers = ["at.rs", "bill.rs", "fits.rs"];
    files.retain(|file| !file.iter().any(|part| part == "tests" || part == "tests.rs"));
    files.retain(|file| !makes_readers.iter().any(|name| file.ends_with(format!("solve/src/{name}"))));
    assert!(files.len() > 100, "{}", files.len());
    files.retain(|file| fs::read_to_string(file).unwrap().contains(".row()"));
    assert!(files.is_empty(), "ask the reader instead: {files:#?}");
}
