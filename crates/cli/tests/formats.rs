//! Every layout of every example: the same findings in the same order, each as its standard wants it, and as it looked
//! before. `DRYFIT_BLESS=1 cargo test -p dryfit_cli --test formats` writes the snapshots anew.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "formats/markup.rs"]
mod markup;
#[path = "formats/same.rs"]
mod same;
#[path = "formats/sarif.rs"]
mod sarif;
#[path = "formats/snapshot.rs"]
mod snapshot;
mod tool;

use serde_json::Value;
use std::fs;
use std::sync::LazyLock;
use tool::{dryfit, root};

/// All layouts of one run over all examples.
struct Laid {
    terminal: String,
    line: String,
    json: Vec<Value>,
    sarif: Value,
    junit: quick_junit::Report,
    markdown: String,
    /// As they were written.
    sarif_text: String,
    junit_text: String,
}

static EXAMPLES: LazyLock<Laid> =
    LazyLock::new(|| lay_out(&root(), &["examples", "--refuse", "nothing", "--today", "2026-01-15"]));

fn lay_out(folder: &std::path::Path, arguments: &[&str]) -> Laid {
    let out = tempfile::tempdir().unwrap();
    let names = ["terminal", "line", "json", "sarif", "junit", "markdown"];
    let files: Vec<String> = names.iter().map(|name| out.path().join(name).display().to_string()).collect();
    let mut all = vec!["review"];
    all.extend(arguments);
    for (name, file) in names.iter().zip(&files) {
        all.extend(["--as", name, "--out", file]);
    }
    let output = dryfit(folder, &all, "");
    assert!(tool::err(&output).starts_with("dryfit: reviewed "), "{}", tool::err(&output));
    let [terminal, line, json, sarif_text, junit_text, markdown] =
        names.map(|name| fs::read_to_string(out.path().join(name)).unwrap());
    let objects = if arguments.iter().any(|argument| argument.ends_with(".yaml")) {
        vec![serde_json::from_str(&json).unwrap()]
    } else {
        json.lines().map(|object| serde_json::from_str(object).unwrap()).collect()
    };
    Laid {
        json: objects,
        sarif: serde_json::from_str(&sarif_text).unwrap(),
        junit: quick_junit::Report::deserialize_from_str(&junit_text).unwrap(),
        terminal,
        line,
        markdown,
        sarif_text,
        junit_text,
    }
}
