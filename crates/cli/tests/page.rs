//! The pre-build review as one page: whole, on its own, telling every finding, and never obeying a name.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod tool;

use serde_json::Value;
use tool::{FIBRES, dryfit, out, root, write};

fn page(folder: &std::path::Path, spec: &str) -> String {
    out(&dryfit(folder, &["review", spec, "--as", "html", "--refuse", "nothing", "--today", "2026-01-15"], ""))
}

/// Names of all elements, in order, opening and closing; those of a drawing that close themselves are left out.
fn tags(page: &str) -> Vec<&str> {
    let body = &page[page.find("<body>").unwrap()..];
    let inner = body.split('<').skip(1).map(|rest| rest.split_once('>').unwrap().0);
    inner.filter(|tag| !tag.ends_with('/')).map(|tag| tag.split(' ').next().unwrap()).collect()
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

/// Drawings of the page: what each is called, and its inside.
fn drawings(page: &str) -> Vec<(&str, &str)> {
    let each = page.split("<svg class=\"drawing\"").skip(1).map(|rest| rest.split_once("</svg>").unwrap().0);
    each.map(|svg| (svg.split_once("</title>").unwrap().0.rsplit_once('>').unwrap().1, svg)).collect()
}

#[test]
fn the_curves_of_a_whole_machine_are_drawn_and_told_and_stand_still() {
    let page = page(&root(), "examples/hut-hauler/as-drawn.machine.yaml");
    let drawn = drawings(&page);
    let wanted = [
        "Pull of the track against its speed",
        "Reserve of the track against the speed of the track",
        "What the travel of each spring is spent on",
        "Travel over time in case tail_landing",
        "Force over time in case tail_landing",
        "Oil of the dampers against temperature",
        "Temperatures along the path",
        "Pressure along the path",
    ];
    for title in wanted {
        let (_, svg) = drawn.iter().find(|(other, _)| *other == title).unwrap_or_else(|| panic!("{title}"));
        assert!(svg.contains("<desc") && svg.contains("role=\"img\"") && !svg.contains("NaN"), "{title}: {svg}");
        assert!(svg.matches("<polyline").count() + svg.matches("<rect").count() > 4, "{title}: {svg}");
    }
    // What a line shows stands in the table below it, for who cannot see it.
    for told in
        ["asks 320 N at 6 km/h", "ear tension in case sunday", "coils touch at 74 mm", "it flows down to -36 °C"]
    {
        assert!(page.contains(told), "{told}");
    }
    assert!(page.contains("<title id=\"chart-1-1-title\">") && page.contains("Hut hauler, revision C"));
    assert_eq!(page, self::page(&root(), "examples/hut-hauler/as-drawn.machine.yaml"));
}

#[test]
fn what_cannot_be_drawn_says_why() {
    let text = std::fs::read_to_string(root().join("examples/first/forty-lines.machine.yaml")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    for (from, to, says) in [
        ("resistance: 35 mΩ (label), ", "", "`powertrain.motor.resistance` is not given"),
        ("drop: 0.15 m, ", "", "`cases.landing.drop` is not given"),
        ("preload: {collar: 6 mm, of: 12 mm}", "", "`suspension.rear.preload.collar` is not given"),
        ("no_load_current: 2 A", "no_load_current: 1e300 A", "the machine does not move at all"),
    ] {
        assert!(text.contains(from), "{from}");
        write(folder.path(), "a.machine.yaml", &text.replacen(from, to, 1));
        let page = page(folder.path(), "a.machine.yaml");
        let gaps: Vec<&str> =
            page.split("Not drawn: ").skip(1).map(|rest| rest.split_once("</p>").unwrap().0).collect();
        assert!(gaps.iter().any(|gap| gap.contains(says)), "{says}: {gaps:?}");
        assert!(!page.contains("NaN") && !page.contains(",inf"), "{says}");
    }
    write(folder.path(), "a.machine.yaml", FIBRES);
    let nothing = page(folder.path(), "a.machine.yaml");
    assert!(nothing.contains("This spec has neither a drive line nor springs to draw."));
    assert!(nothing.contains("This spec has no coolant circuit.") && drawings(&nothing).is_empty());
}

#[test]
fn a_name_in_a_drawing_is_text_beside_it() {
    let text = std::fs::read_to_string(root().join("examples/hut-hauler/as-drawn.machine.yaml")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    for name in ["parts/bought-in.yaml", "parts/my-filaments.yaml", "runs/sunday.csv"] {
        let library = std::fs::read_to_string(root().join("examples/hut-hauler").join(name)).unwrap();
        write(folder.path(), name, &library);
    }
    let name = "\"</title></svg><script>x</script>\"";
    let hostile =
        text.replace("  climb:      ", &format!("  {name}: ")).replace("after: climb,", &format!("after: {name},"));
    let hostile = hostile.replace("  landing:      ", &format!("  {}: ", name.replace("script", "style")));
    let hostile = hostile.replace("[landing, ", "[").replace("  front:   ", "  \"<b>front\": ");
    let hostile = hostile.replace("corner: front", "corner: \"<b>front\"");
    write(folder.path(), "a.machine.yaml", &hostile);
    let page = page(folder.path(), "a.machine.yaml");
    assert!(page.contains("Travel over time in case &lt;/title&gt;"), "{}", &page[page.len().saturating_sub(3000)..]);
    assert!(!page.contains("<script") && !page.contains("<style>x") && !page.contains("<b>front"));
    for (title, svg) in drawings(&page) {
        let inside = svg.split_once("</desc>").unwrap().1;
        assert!(!inside.contains("script") && !inside.contains("front"), "{title}: names stand beside a drawing");
    }
    balanced(&page);
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
