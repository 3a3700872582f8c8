//! What the types accept, the JSON Schema accepts, without exception. What the schema accepts and the types refuse is
//! of a listed class. Tried on thousands of small damages to specs that are fine.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod specs;

use document::{Document, Entry, Kind, Node, NodeId, What, to_json};
use machine::{Refusal, machine_schema, refusals};
use quantity::{MisreadClass, m};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::path::Path;

/// Steps from the root: the entry or item of that number.
type Way = Vec<usize>;

/// One damage: what stands in the node's place.
struct Mutant {
    node: Node,
    what: String,
}

fn at_mut<'a>(root: &'a mut Node, way: &[usize]) -> &'a mut Node {
    way.iter().fold(root, |node, step| match &mut node.kind {
        Kind::Map(entries) => &mut entries[*step].value,
        Kind::Seq(items) => &mut items[*step],
        _ => panic!("a way leads through maps and lists"),
    })
}

fn scalar(id: NodeId, text: &str, plain: bool) -> Node {
    Node { id, kind: Kind::Scalar { text: text.into(), plain } }
}

fn entry(id: NodeId, key: &str, value: Node) -> Entry {
    Entry { key: key.into(), key_id: id, value }
}

/// Words of every closed list, from the schema itself.
fn all_words(schema: &serde_json::Value, out: &mut Vec<String>) {
    match schema {
        serde_json::Value::Object(map) => {
            if let Some(serde_json::Value::Array(words)) = map.get("enum") {
                out.extend(words.iter().filter_map(|word| word.as_str().map(str::to_owned)));
            }
            map.values().for_each(|inner| all_words(inner, out));
        }
        serde_json::Value::Array(items) => items.iter().for_each(|inner| all_words(inner, out)),
        _ => {}
    }
}

/// Texts that stand in for a scalar: one of each type, every unit of every measure, every word, and oddities.
fn texts(words: &[String]) -> Vec<(String, bool)> {
    let plain =
        ["7", "7.5", "-7", "0", "1e3", "1e999", "010", "yes", "no", "true", "zzz", "NaN", ".inf", "40 %", "140 %"];
    let quoted = [
        "",
        " ",
        "7",
        "-7",
        "7.5",
        "true",
        "null",
        " 12 mm ",
        "12 mm\n",
        "１２ mm",
        "12\u{a0}mm",
        "+12 mm",
        "5 mm ± 9 mm",
        "5 mm (guess) ± 1 mm",
        "8 °C to -30 °C",
    ];
    let oddities = plain
        .iter()
        .map(|text| ((*text).to_owned(), true))
        .chain(quoted.iter().map(|text| ((*text).to_owned(), false)));
    let units = m::ALL.iter().flat_map(|kind| {
        let spellings =
            kind.units.iter().flat_map(|unit| std::iter::once(unit.symbol).chain(unit.also.iter().copied()));
        let values = spellings.flat_map(|unit| {
            [
                format!("7 {unit}"),
                format!("-7 {unit}"),
                format!("-300 {unit}"),
                format!("0 {unit}"),
                format!("7{unit}"),
                format!("7 {unit} to 8 {unit}"),
                format!("7 {unit} ± 9 {unit}"),
            ]
        });
        values.chain([kind.example.to_owned()])
    });
    oddities.chain(units.map(|text| (text, true))).chain(words.iter().map(|word| (word.clone(), true))).collect()
}

/// All damages to one node.
fn damages(node: &Node, texts: &[(String, bool)], out: &mut Vec<Mutant>) {
    let id = node.id;
    let mut to = |what: String, kind: Kind| out.push(Mutant { node: Node { id, kind }, what });
    to("null".into(), Kind::Null);
    to("empty list".into(), Kind::Seq(Vec::new()));
    to("empty map".into(), Kind::Map(Vec::new()));
    to("list of it".into(), Kind::Seq(vec![node.clone()]));
    to("map of it".into(), Kind::Map(vec![entry(id, "zzz", node.clone())]));
    to("kind of it".into(), Kind::Map(vec![entry(id, "kind", node.clone())]));
    for (text, plain) in texts {
        let what = if *plain { text.clone() } else { format!("{text:?}") };
        to(what, scalar(id, text, *plain).kind);
    }
    match &node.kind {
        Kind::Map(entries) => {
            to("its values as a list".into(), Kind::Seq(entries.iter().map(|entry| entry.value.clone()).collect()));
            let mut more = entries.clone();
            more.push(entry(id, "zzz", scalar(id, "7", true)));
            to("unknown key".into(), Kind::Map(more));
            for at in 0..entries.len() {
                let key = entries[at].key.to_string();
                let mut less = entries.clone();
                less.remove(at);
                to(format!("without {key}"), Kind::Map(less));
                for wrong in
                    [format!("{key}x"), key.chars().skip(1).collect(), key.to_uppercase(), key.replace('_', "-")]
                {
                    let mut renamed = entries.clone();
                    if renamed.iter().all(|entry| *entry.key != *wrong) {
                        renamed[at].key = wrong.as_str().into();
                        to(format!("{key} as {wrong}"), Kind::Map(renamed));
                    }
                }
            }
            if entries.len() > 1 {
                let mut turned = entries.clone();
                for (at, entry) in turned.iter_mut().enumerate() {
                    entry.value = entries[(at + 1) % entries.len()].value.clone();
                }
                to("each value under its neighbour's key".into(), Kind::Map(turned));
                to("backwards".into(), Kind::Map(entries.iter().rev().cloned().collect()));
            }
        }
        Kind::Seq(items) => {
            let named = items.iter().enumerate().map(|(at, item)| entry(id, &at.to_string(), item.clone()));
            to("a list as a map".into(), Kind::Map(named.collect()));
            to("twice".into(), Kind::Seq(items.iter().chain(items).cloned().collect()));
        }
        Kind::Null | Kind::Scalar { .. } => {}
    }
}

fn walk(document: &Document, node: &Node, way: &mut Way, visit: &mut dyn FnMut(&Node, &Way)) {
    let built_in = document.file(document.place(node.id).file).is_some_and(|file| file.built_in);
    if built_in {
        return;
    }
    visit(node, way);
    let inner: Vec<&Node> = match &node.kind {
        Kind::Map(entries) => entries.iter().map(|entry| &entry.value).collect(),
        Kind::Seq(items) => items.iter().collect(),
        Kind::Null | Kind::Scalar { .. } => Vec::new(),
    };
    for (step, child) in inner.into_iter().enumerate() {
        way.push(step);
        walk(document, child, way, visit);
        way.pop();
    }
}

/// Why the types may refuse what the schema accepts; none if they may not.
fn class(refusal: &Refusal) -> Option<&'static str> {
    match refusal {
        Refusal::Shape(error) if matches!(error.what, What::Dangling { .. }) => Some("dangling reference"),
        Refusal::NotRising { .. } => Some("table order"),
        Refusal::Number { misread, .. } if misread.class == MisreadClass::Value => {
            Some("a bound, a tolerance or a range's order")
        }
        _ => None,
    }
}

/// At most so many damages a spec, every k-th of all: the whole would take minutes.
const MOST: usize = 6_000;

/// Disagreements at every so-many-th node, and how many damages fell into each class.
fn try_all(path: &Path, every: usize) -> (Vec<String>, BTreeMap<&'static str, usize>) {
    let (document, _) = specs::sound(path);
    let schema = machine_schema();
    let validator = jsonschema::validator_for(&schema).unwrap();
    assert!(validator.is_valid(&to_json(&document.root)), "{} is fine", path.display());
    let mut words = Vec::new();
    all_words(&schema, &mut words);
    words.sort();
    words.dedup();
    let texts = texts(&words);
    let mut ways: Vec<Way> = Vec::new();
    let mut total = 0_usize;
    walk(&document, &document.root, &mut Vec::new(), &mut |node, way| {
        let mut here = Vec::new();
        damages(node, &[], &mut here);
        total += here.len() + texts.len();
        ways.push(way.clone());
    });
    let stride = total.div_ceil(MOST).max(1);
    // Damages of shape are few and all tried; those of text are taken in turn, so that each text meets many fields.
    let chunks: Vec<(usize, Way)> = ways.into_iter().enumerate().step_by(every).collect();
    let results: Vec<(Vec<String>, Vec<&'static str>)> = chunks
        .par_iter()
        .map(|(number, way)| {
            let mut root = document.root.clone();
            let node = at_mut(&mut root, way).clone();
            let mut here = Vec::new();
            let some: Vec<(String, bool)> = texts.iter().skip((number * 7) % stride).step_by(stride).cloned().collect();
            damages(&node, &some, &mut here);
            let mut wrong = Vec::new();
            let mut classes = Vec::new();
            for mutant in here {
                let old = std::mem::replace(at_mut(&mut root, way), mutant.node);
                let refused = refusals(&root, document.end());
                let json = to_json(&root);
                let valid = validator.is_valid(&json);
                let place = || {
                    format!(
                        "{}: {} ← {}",
                        path.file_name().unwrap().to_string_lossy(),
                        document.path(old.id),
                        mutant.what
                    )
                };
                match (refused.first(), valid) {
                    (None, true) => classes.push("both accept"),
                    (Some(_), false) => classes.push("both refuse"),
                    (None, false) => {
                        let says: Vec<String> = validator
                            .iter_errors(&json)
                            .map(|error| error.to_string().chars().take(120).collect())
                            .collect();
                        wrong.push(format!("typed accepts, schema refuses: {} {says:?}", place()));
                    }
                    (Some(first), true) => match refused.iter().find(|refusal| class(refusal).is_none()) {
                        None => classes.extend(class(first)),
                        Some(other) => wrong.push(format!("schema accepts, typed refuses: {} {other:?}", place())),
                    },
                }
                *at_mut(&mut root, way) = old;
            }
            (wrong, classes)
        })
        .collect();
    let mut counts = BTreeMap::new();
    let mut wrong = Vec::new();
    for (mine, classes) in results {
        wrong.extend(mine);
        classes.into_iter().for_each(|class| *counts.entry(class).or_insert(0) += 1);
    }
    (wrong, counts)
}

#[test]
fn typed_yes_means_schema_yes_and_the_rest_is_of_a_listed_class() {
    let (wrong, counts) = try_all(&specs::everything(), 1);
    assert!(
        wrong.is_empty(),
        "{} disagreements, such as\n{}\n{counts:?}",
        wrong.len(),
        wrong.iter().take(60).cloned().collect::<Vec<_>>().join("\n")
    );
    assert!(counts.values().sum::<usize>() > 5_000, "{counts:?}");
    for class in
        ["both accept", "both refuse", "dangling reference", "table order", "a bound, a tolerance or a range's order"]
    {
        assert!(counts.get(class).is_some_and(|count| *count > 0), "{class} was not met: {counts:?}");
    }
}

#[test]
fn the_examples_obey_it_too() {
    for path in &specs::examples() {
        let (wrong, counts) = try_all(path, 10);
        assert!(
            wrong.is_empty(),
            "{} disagreements, such as\n{}\n{counts:?}",
            wrong.len(),
            wrong.iter().take(60).cloned().collect::<Vec<_>>().join("\n")
        );
    }
}
