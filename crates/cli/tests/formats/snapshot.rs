//! How each layout looks, one file an example: lines and the short table whole, of the others how they begin.

use crate::EXAMPLES;
use crate::tool::{dryfit, out, root};
use serde_json::Value;
use std::fs;

const HEAD: usize = 30;

fn head(text: &str) -> String {
    let lines: Vec<&str> = text.lines().collect();
    let more = lines.len().saturating_sub(HEAD);
    let more = if more > 0 { format!("… and {more} lines more\n") } else { String::new() };
    format!("{}\n{more}", lines[..lines.len().min(HEAD)].join("\n"))
}

/// The part of a text from one mark to the next.
fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    let start = text.find(from).unwrap_or_else(|| panic!("no {from}"));
    let rest = &text[start..];
    &rest[..rest[from.len()..].find(to).map_or(rest.len(), |end| end + from.len())]
}

fn pretty(value: Option<&Value>) -> String {
    value.map_or_else(|| "none\n".into(), |value| head(&format!("{value:#}")))
}

fn snapshot(report: &Value) -> String {
    let laid = &*EXAMPLES;
    let file = report["file"].as_str().unwrap();
    let line: String =
        laid.line.lines().filter(|line| line.starts_with(file)).map(|line| format!("{line}\n")).collect();
    let of = |entry: &&Value| entry["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == file;
    let run = &laid.sarif["runs"][0];
    let first = |list: &Value| pretty(list.as_array().unwrap().iter().find(of));
    let markdown = dryfit(&root(), &["review", file, "--as", "markdown", "--today", "2026-01-15"], "");
    let suite = between(&laid.junit_text, &format!("<testsuite name=\"{file}\""), "<testsuite ");
    [
        ("line", line),
        ("markdown", out(&markdown)),
        ("terminal", head(between(&laid.terminal, &format!("── {file}"), "── examples"))),
        ("json", pretty(report["findings"].as_array().unwrap().first())),
        ("sarif, first result", first(&run["results"])),
        ("sarif, first notification", first(&run["invocations"][0]["toolExecutionNotifications"])),
        ("junit", head(suite)),
    ]
    .map(|(name, text)| format!("======== {name}\n{text}"))
    .concat()
}

#[test]
fn examples_look_as_before() {
    let bless = std::env::var_os("DRYFIT_BLESS").is_some();
    let folder = root().join("crates/cli/tests/formats/snapshots");
    let mut drifted = Vec::new();
    let mut there = Vec::new();
    for report in &EXAMPLES.json {
        let file = report["file"].as_str().unwrap();
        let name = file.trim_start_matches("examples/").trim_end_matches(".machine.yaml").replace('/', "-") + ".txt";
        let now = snapshot(report);
        if bless {
            fs::create_dir_all(&folder).unwrap();
            fs::write(folder.join(&name), &now).unwrap();
        }
        let before = fs::read_to_string(folder.join(&name)).unwrap_or_default();
        if before != now {
            let line = before.lines().zip(now.lines()).position(|(was, is)| was != is).unwrap_or(0);
            drifted.push(format!("{name}, line {}: {}", line + 1, now.lines().nth(line).unwrap_or_default()));
        }
        there.push(name);
    }
    for entry in fs::read_dir(&folder).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        if !there.contains(&name) {
            if bless {
                fs::remove_file(folder.join(&name)).unwrap();
            } else {
                drifted.push(format!("{name} belongs to no example"));
            }
        }
    }
    assert!(drifted.is_empty(), "the layouts have changed; DRYFIT_BLESS=1 writes them anew: {drifted:#?}");
}
