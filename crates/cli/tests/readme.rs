//! What the READMEs show is what the tool prints. Above a block stands, as a comment, the command and which lines of its
//! output are shown: `<!-- shows: dryfit rank SPEC | skid +3 | left out +1 -->` takes three lines from the first that holds
//! `skid`, and so on; with no more than the command, all of it. `DRYFIT_BLESS=1` writes the blocks anew.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod tool;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use tool::{answer, command, out, root, write};

const PAGES: [&str; 3] = ["README.md", "examples/hut-hauler/README.md", "examples/reed-cutter/README.md"];
const MARK: &str = "<!-- shows: ";

/// The spec that the first page itself shows, with the library beside it.
fn shown_spec(folder: &Path) {
    let page = fs::read_to_string(root().join("README.md")).unwrap();
    let between = |from: &str, to: &str| {
        let start = page.find(from).unwrap_or_else(|| panic!("no {from}")) + from.len();
        page[start..].split_once(to).unwrap().0.to_owned()
    };
    write(folder, "reed-sledge.machine.yaml", &between("```yaml\ndryfit: 1", "```").replacen("", "dryfit: 1", 1));
    write(folder, "parts/bought-in.yaml", &(between("`parts/bought-in.yaml` with `", "`") + "\n"));
}

/// What a command prints, once for each.
fn printed<'a>(command_line: &'a str, folder: &Path, known: &mut BTreeMap<&'a str, String>) -> String {
    let text = known.entry(command_line).or_insert_with(|| {
        let mut words = command_line.split(' ');
        assert_eq!(words.next(), Some("dryfit"));
        let arguments: Vec<&str> = words.collect();
        let own = arguments.contains(&"reed-sledge.machine.yaml");
        let mut process = command(if own { folder } else { Path::new("") }, &arguments);
        if !own {
            process.current_dir(root());
        }
        let output = answer(process.env("COLUMNS", "90"), "");
        let text = out(&output);
        assert!(!text.is_empty(), "{command_line}: {}", tool::err(&output));
        text
    });
    text.clone()
}

/// The lines that are shown, `…` between what does not hang together.
fn chosen(text: &str, pieces: &[&str]) -> String {
    let lines: Vec<&str> = text.lines().map(str::trim_end).collect();
    if pieces.is_empty() {
        return lines.join("\n").trim().to_owned() + "\n";
    }
    let piece = |piece: &&str| {
        let (anchor, count) = piece.rsplit_once(" +").unwrap_or_else(|| panic!("{piece}: so many lines?"));
        let count: usize = count.trim().parse().unwrap();
        let start =
            lines.iter().position(|line| line.contains(anchor)).unwrap_or_else(|| panic!("no line has {anchor}"));
        lines[start..lines.len().min(start + count)].join("\n") + "\n"
    };
    pieces.iter().map(piece).collect::<Vec<_>>().join("…\n")
}

#[test]
fn the_pages_show_what_the_tool_prints() {
    let folder = tempfile::tempdir().unwrap();
    shown_spec(folder.path());
    let bless = std::env::var_os("DRYFIT_BLESS").is_some();
    let pages: Vec<(&str, String)> =
        PAGES.iter().map(|page| (*page, fs::read_to_string(root().join(page)).unwrap())).collect();
    let mut known = BTreeMap::new();
    let mut drifted = Vec::new();
    for (page, text) in &pages {
        let mut new = text.clone();
        let mut shown = 0;
        for part in text.split(MARK).skip(1) {
            let (says, behind) = part.split_once(" -->\n").unwrap_or_else(|| panic!("{page}: a mark without an end"));
            let block = behind.strip_prefix("```text\n").unwrap_or_else(|| panic!("{page}: no block behind `{says}`"));
            let block = block.split_once("```\n").unwrap().0;
            let mut pieces = says.split(" | ");
            let command_line = pieces.next().unwrap();
            let now = chosen(&printed(command_line, folder.path(), &mut known), &pieces.collect::<Vec<_>>());
            if now != block {
                let old = format!("{MARK}{says} -->\n```text\n{block}```\n");
                new = new.replace(&old, &format!("{MARK}{says} -->\n```text\n{now}```\n"));
                drifted.push(format!("{page}: {says}\n{now}"));
            }
            shown += 1;
        }
        let blocks = text.matches("```text\n").count();
        assert_eq!(shown, blocks, "{page}: each block says what it shows");
        if bless && new != *text {
            fs::write(root().join(page), new).unwrap();
        }
    }
    assert!(bless || drifted.is_empty(), "DRYFIT_BLESS=1 writes them anew: {}", drifted.join("\n"));
}
