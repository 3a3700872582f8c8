//! The pre-build review as one page: whole, on its own, telling every finding, and never obeying a name.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod tool;

use serde_json::Value;
use tool::{FIBRES, dryfit, out, root, write};

fn page(folder: &std::path::Path, spec: &str) -> String {
    out(&dryfit(folder, &["review", spec, "--as", "html", "--refuse", "nothing", "--today", "2026-01-15"], ""))
}

/// Names of all elements, in order, opening and closing.
fn tags(page: &str) -> Vec<&str> {
    let body = &page[page.find("<body>").unwrap()..];
    let inner = body.split('<').skip(1).map(|rest| rest.split(['>', ' ']).next().unwrap());
    inner.collect()
}

fn text_of(words: &str) -> String {
    words.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[test]
fn every_finding_of_the_examples_stands_on_the_page_and_nothing_is_fetched() {
    for spec in ["examples/hut-hauler/as-drawn", "examples/reed-cutter/as-drawn", "examples/reed-cutter/revised"] {
        let file = format!("{spec}.machine.yaml");
        let page = page(&root(), &file);
        let data =
            dryfit(&root(), &["review", &file, "--as", "json", "--refuse", "nothing", "--today", "2026-01-15"], "");
        let report: Value = serde_json::from_str(&out(&data)).unwrap();
        let findings = report["findings"].as_array().unwrap();
        for finding in findings {
            if matches!(finding["verdict"].as_str().unwrap(), "fails" | "thin" | "not judged") {
                let says = text_of(finding["happens"].as_str().unwrap());
                assert!(page.contains(&says), "{file}: {says}");
            }
        }
        let margins = findings.iter().filter(|finding| !finding["margin"].is_null()).count();
        assert_eq!(page.matches("<svg class=\"bar\"").count(), margins, "{file}: one bar a margin");
        for fetched in ["http:", "https:", "<script", "<link", "<img", "url(", "@import"] {
            assert!(!page.contains(fetched), "{file}: {fetched}");
        }
        balanced(&page);
    }
}

/// Each element that opens closes, in the right order.
fn balanced(page: &str) {
    let mut open = Vec::new();
    for tag in tags(page) {
        match tag.strip_prefix('/') {
            Some("html") => assert!(open.is_empty(), "{open:?}"),
            Some(closed) => assert_eq!(open.pop().map_or("nothing", |tag: &str| tag), closed),
            None => open.push(tag),
        }
    }
}

#[test]
fn names_are_shown_and_never_obeyed() {
    let plain = {
        let folder = tempfile::tempdir().unwrap();
        write(folder.path(), "a.machine.yaml", FIBRES);
        page(folder.path(), "a.machine.yaml")
    };
    for name in
        ["<script>alert(1)</script>", "\\\" onclick=\\\"x", "--><style>*{}</style>", "\\e[31mred", "a\\u202egnp.exe"]
    {
        let folder = tempfile::tempdir().unwrap();
        let spec = FIBRES
            .replace("{name: trial}", &format!("{{name: \"{name}\", revision: \"{name}\"}}"))
            .replace("wheel_on_axle", &format!("\"{name}\""));
        write(folder.path(), "a.machine.yaml", &spec);
        let page = page(folder.path(), "a.machine.yaml");
        assert_eq!(tags(&page), tags(&plain), "{name}");
        assert!(!page.contains(['\u{1b}', '\u{202e}']), "{name}");
    }
}
