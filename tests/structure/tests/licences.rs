//! What is linked may be linked: every library has a licence that `deny.toml` allows, and comes from crates.io.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use spdx::{Expression, ParseMode};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::Command;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

fn told_by(command: &mut Command) -> Vec<u8> {
    let out = command.current_dir(root()).output().unwrap();
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    out.stdout
}

/// Everything that is built on this platform, tests included.
fn packages() -> Vec<Value> {
    let version = String::from_utf8(told_by(Command::new("rustc").arg("-vV"))).unwrap();
    let host = version.lines().find_map(|line| line.strip_prefix("host: ")).unwrap();
    let metadata = ["metadata", "--format-version", "1", "--offline", "--locked", "--filter-platform", host];
    let all: Value = serde_json::from_slice(&told_by(Command::new(env!("CARGO")).args(metadata))).unwrap();
    all["packages"].as_array().unwrap().clone()
}

fn licence(package: &Value) -> &str {
    package["license"].as_str().unwrap_or("none is said")
}

fn allowed() -> BTreeSet<String> {
    let text = std::fs::read_to_string(root().join("deny.toml")).unwrap();
    let list = text.split_once("allow = [").unwrap().1.split_once(']').unwrap().0;
    list.lines().filter_map(|line| Some(line.split('"').nth(1)?.to_owned())).collect()
}

/// Whether one of its licences, or each of those that it wants together, is allowed.
fn may_be_linked(licence: &str, allowed: &BTreeSet<String>) -> bool {
    let read = Expression::parse_mode(licence, ParseMode::LAX);
    read.unwrap_or_else(|error| panic!("{licence}: {error}")).evaluate(|wanted| {
        wanted.addition.is_none() && wanted.license.id().is_some_and(|licence| allowed.contains(licence.name))
    })
}

#[test]
fn every_library_may_be_linked() {
    let (packages, allowed) = (packages(), allowed());
    let refused: Vec<String> = packages
        .iter()
        .filter(|package| !may_be_linked(licence(package), &allowed))
        .map(|package| format!("{}: {}", package["name"], licence(package)))
        .collect();
    assert_eq!(refused, Vec::<String>::new());
    let elsewhere = |package: &&Value| {
        let source = package["source"].as_str();
        source.is_some_and(|source| source != "registry+https://github.com/rust-lang/crates.io-index")
    };
    assert_eq!(packages.iter().find(elsewhere), None);
    assert!(packages.len() > 100, "{} packages only", packages.len());
}

#[test]
fn each_allowed_licence_is_needed() {
    let (packages, allowed) = (packages(), allowed());
    for one in &allowed {
        let mut fewer = allowed.clone();
        fewer.remove(one);
        let needed = packages.iter().any(|package| !may_be_linked(licence(package), &fewer));
        assert!(needed, "{one} is allowed, and nothing needs it");
    }
}

#[test]
fn an_expression_is_read_as_its_standard_says() {
    let allowed = ["MIT", "Apache-2.0"].map(str::to_owned).into();
    for (licence, may) in [
        ("MIT OR GPL-3.0-only", true),
        ("MIT/Apache-2.0", true),
        ("(MIT OR Apache-2.0) AND Unicode-3.0", false),
        ("Apache-2.0 WITH LLVM-exception", false),
        ("GPL-3.0-only", false),
    ] {
        assert_eq!(may_be_linked(licence, &allowed), may, "{licence}");
    }
}
