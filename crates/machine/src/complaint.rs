//! Everything that is wrong with a document, in words for somebody who is no programmer: what, where, and the way out.

use crate::fields::Refusal;
use crate::machine::{Machine, tree};
use crate::named::Named;
use crate::sections::{Case, Spec, Workshop};
use crate::workshop;
use document::{DeError, Document, FileId, Node, NodeId, Span, Swaps, What, Why, nearest, number};
use quantity::Misread;
use serde::de::DeserializeOwned;

/// One thing that keeps the spec from being reviewed.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Complaint {
    pub file: FileId,
    pub span: Span,
    pub says: String,
    pub help: String,
    /// Another place that belongs to it.
    pub also: Option<Note>,
}

#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Note {
    pub file: FileId,
    pub span: Span,
    pub says: String,
}

/// More than this nobody reads; the rest comes after these are mended.
const MOST: usize = 200;

/// All complaints of a document, in the order of the text. Empty if and only if it can be reviewed.
#[must_use]
pub fn complaints(document: &Document) -> Vec<Complaint> {
    let mut all: Vec<Complaint> = document
        .troubles
        .iter()
        .map(|trouble| of_trouble(document, trouble.file, trouble.span, &trouble.why))
        .collect();
    // A text that could not be parsed has no tree to speak about.
    let unreadable = document.root.entries().is_empty();
    if !unreadable || all.is_empty() {
        all.extend(other_format(document));
        add_refused::<Spec>(document, &document.root, &mut all);
    }
    if let Some(root) = workshop::root(document) {
        add_refused::<Workshop>(document, root, &mut all);
    }
    decimal_commas(document, &mut all);
    all.sort();
    all.dedup();
    all.truncate(MOST);
    all
}

/// What reads and makes no sense: another format's number, a case that comes before itself, loads of a case that is none,
/// a gear on a shaft that is none.
#[must_use]
pub fn senseless(document: &Document, machine: &Machine) -> Vec<Complaint> {
    let mut all: Vec<Complaint> = other_format(document).into_iter().collect();
    all.extend(loads_of_nothing(document, machine));
    let after = |case: &Named<Case>| case.after.there().map(|before| (machine.follow(before).id(), case.after.id));
    let own = machine.cases.iter().filter_map(|case| Some((case, after(case)?)));
    let own = own.filter(|(case, (before, _))| *before == case.id());
    all.extend(own.map(|(case, (_, at))| {
        let place = document.place(at);
        let says = format!("the case `{}` comes directly after itself", clip(case.name()));
        let help = "name the case that ends where this one begins, or leave `after` out".into();
        Complaint { file: place.file, span: place.label, says, help, also: None }
    }));
    all.extend(crate::stations::senseless(document, machine));
    all
}

/// What a part's `loads` names beside the cases.
const TRACK_TENSION: &str = "track_tension";

fn loads_of_nothing(document: &Document, machine: &Machine) -> Vec<Complaint> {
    let known: Vec<&str> = machine.cases.iter().map(Named::name).chain([TRACK_TENSION]).collect();
    let parts = document.root.get("structure").and_then(|structure| structure.get("parts"));
    let loads = parts.into_iter().flat_map(Node::entries).filter_map(|part| part.value.get("loads"));
    loads
        .flat_map(Node::items)
        .filter_map(|item| Some((item, item.text().filter(|name| !known.contains(name))?)))
        .map(|(item, name)| {
            let place = document.place(item.id);
            let says = format!("`{}` is no case of this spec", clip(name));
            let help = match nearest(name, known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("`loads` names cases, or `{TRACK_TENSION}`"),
            };
            Complaint { file: place.file, span: place.label, says, help, also: None }
        })
        .collect()
}

/// What the types refuse in one of the trees. What stands in trouble as text is told once.
fn add_refused<T: DeserializeOwned>(document: &Document, root: &Node, all: &mut Vec<Complaint>) {
    let refused = tree::<T>(root, document.end(), &Swaps::new()).err().unwrap_or_default();
    for refusal in &refused {
        let new = of_refusal(document, root, refusal);
        if !told(all, &new) {
            all.push(new);
        }
    }
}

/// Whether a place has been spoken about. Two fields that one map lacks are two complaints at one place.
fn told(all: &[Complaint], new: &Complaint) -> bool {
    let overlaps = |old: &Complaint| {
        old.file == new.file
            && (old.span == new.span || (old.span.start < new.span.end && new.span.start < old.span.end))
    };
    let lacks = |complaint: &Complaint| complaint.says.contains(LACKS);
    all.iter().any(|old| overlaps(old) && (old.says == new.says || !(lacks(new) && lacks(old))))
}

/// Between what is incomplete and the key that it wants.
const LACKS: &str = " lacks `";

fn lacks(document: &Document, at: NodeId, key: &str) -> (String, String) {
    let path = document.path(at);
    let of = if path.is_empty() { "the spec".to_owned() } else { format!("`{}`", clip(&path)) };
    let help = match (path.is_empty(), key) {
        (true, "machine") => "add a line `machine: {name: …}` at the left margin".into(),
        (true, "dryfit") => "add a first line `dryfit: 1`, the number of this format".into(),
        _ => format!("add `{key}:` to it"),
    };
    (format!("{of}{LACKS}{key}`"), help)
}

/// A name as long as a line is recognised by its beginning.
pub(crate) fn clip(text: &str) -> String {
    if text.chars().count() <= 80 { text.to_owned() } else { text.chars().take(60).chain(['…']).collect() }
}

fn other_format(document: &Document) -> Option<Complaint> {
    let node = document.root.get("dryfit")?;
    let format = number(node).filter(|format| format.fract() == 0.0 && *format != 1.0)?;
    let place = document.place(node.id);
    let says = format!("this spec says that it is written in format {format}; this program reads format 1");
    let help = "write `dryfit: 1`, or review it with the program that it was written for".into();
    Some(Complaint { file: place.file, span: place.label, says, help, also: None })
}

/// `{span: 1,5 mm}` reads as two keys: one complaint about the comma stands for those about both halves.
fn decimal_commas(document: &Document, all: &mut Vec<Complaint>) {
    let digit = |c: char| c.is_ascii_digit();
    let commas: Vec<Complaint> = all
        .iter()
        .filter_map(|complaint| {
            let text = &document.file(complaint.file)?.text;
            let key = document.slice(complaint.file, complaint.span);
            let before = text.get(..complaint.span.start as usize)?.strip_suffix(',')?;
            let whole = before
                .get(before.trim_end_matches(digit).len()..)
                .filter(|whole| !whole.is_empty() && key.starts_with(digit))?;
            let start = u32::try_from(before.len() - whole.len()).ok()?;
            let share = key.get(..key.len() - key.trim_start_matches(digit).len())?;
            let end = complaint.span.start + u32::try_from(share.len()).ok()?;
            let says = format!("'{whole},{share}' has a comma; a decimal point is wanted");
            let help = format!("did you mean {whole}.{key}?");
            Some(Complaint { file: complaint.file, span: Span { start, end }, says, help, also: None })
        })
        .collect();
    for comma in commas {
        all.retain(|complaint| {
            complaint.file != comma.file
                || complaint.span.start > comma.span.end
                || complaint.span.end < comma.span.start
        });
        all.push(comma);
    }
}

fn of_trouble(document: &Document, file: FileId, span: Span, why: &Why) -> Complaint {
    let also = match why {
        Why::DuplicateKey { first, key } => {
            Some(Note { file, span: *first, says: format!("`{key}` stands here first") })
        }
        _ => None,
    };
    let mut said = Complaint { file, span, says: why.to_string(), help: why.help(), also };
    if document.workshop.as_ref().is_some_and(|workshop| workshop.file == file) {
        match why {
            Why::NotAMap => {
                said.says = "this is no workshop file: `reserves:`, `profile:` or `refuse:` is wanted here".into();
                said.help = "write one of them at the left margin; an empty file only marks the root".into();
            }
            Why::TooLarge { limit, .. } => said.help = format!("a workshop file may have up to {limit} bytes"),
            Why::SeveralDocuments => said.help = "remove the second `---` and what follows".into(),
            _ => {}
        }
    } else if file != FileId(0) && matches!(why, Why::Empty | Why::NotAMap) {
        said.help =
            "a library begins with sections such as `materials:` at the left margin; or take it out of `libraries:`"
                .into();
        if matches!(why, Why::NotAMap) {
            said.says = "this is not a library: sections with keys are wanted here".into();
        }
    }
    said
}

fn find(root: &Node, id: NodeId) -> Option<&Node> {
    let mut found = None;
    root.walk(&mut |node| {
        if node.id == id {
            found = Some(node);
        }
    });
    found
}

fn list(words: &[&str]) -> String {
    words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ")
}

/// A word may be near another one by chance, so that all of few are told.
fn near_word_or_list(got: &str, known: &[&str]) -> String {
    match nearest(got, known.iter().copied()) {
        Some(near) if known.len() <= 12 => format!("did you mean `{near}`? The words are {}", list(known)),
        _ => near_or_list(got, known),
    }
}

fn near_or_list(got: &str, known: &[&str]) -> String {
    match nearest(got, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if known.len() <= 24 => format!("one of {}", list(known)),
        None => format!("one of {} …; `dryfit schema` lists all", list(known.get(..24).unwrap_or(known))),
    }
}

/// The file's bytes under a part of a scalar's text.
fn inside(document: &Document, id: NodeId, text: &str, part: &std::ops::Range<usize>) -> Span {
    let place = document.place(id);
    let source = document.slice(place.file, place.span);
    let Some(offset) = source.find(text) else { return place.label };
    let to = |at: usize| place.span.start + u32::try_from(offset + at).unwrap_or(0);
    let span = Span { start: to(part.start), end: to(part.end) };
    if span.is_empty() { place.label } else { span }
}

fn of_misread(document: &Document, at: NodeId, text: &str, misread: &Misread) -> Complaint {
    let place = document.place(at);
    if text.trim_end().contains('\n') {
        let (says, help) = (
            "several lines stand where one value is wanted".into(),
            "write it on the line of its key, such as `12 mm`".into(),
        );
        return Complaint { file: place.file, span: place.label, says, help, also: None };
    }
    let span = inside(document, at, text, &misread.span);
    Complaint { file: place.file, span, says: misread.says.clone(), help: misread.help.clone(), also: None }
}

fn of_refusal(document: &Document, root: &Node, refusal: &Refusal) -> Complaint {
    let say = |at: NodeId, says: String, help: &str| {
        let place = document.place(at);
        Complaint { file: place.file, span: place.label, says, help: help.into(), also: None }
    };
    match refusal {
        Refusal::Shape(error) => of_error(document, root, error),
        Refusal::Number { at, text, misread } => of_misread(document, *at, text, misread),
        Refusal::Reserve { at, says, help } => say(*at, says.clone(), help),
        Refusal::NotRising { at, .. } => say(
            *at,
            "this table does not rise: the point before is as large or larger".into(),
            "write the smallest first, each once",
        ),
    }
}

fn of_error(document: &Document, root: &Node, error: &DeError) -> Complaint {
    let at = error.at.unwrap_or(root.id);
    let place = document.place(at);
    let say = |says: String, help: String| Complaint { file: place.file, span: place.label, says, help, also: None };
    let node = find(root, at);
    match &error.what {
        What::UnknownKey { key, .. } if key == "like" => say(
            "`like` cannot be used here".into(),
            "it copies between things that have keys of their own in one section; write this one out".into(),
        ),
        What::UnknownKey { key, known: ["kind"] } => {
            say(format!("`{}` is not known here", clip(key)), "this kind has no other fields: delete it".into())
        }
        What::UnknownKey { key, known } => say(format!("`{}` is not known here", clip(key)), near_or_list(key, known)),
        What::MissingKey { key } => {
            let (says, help) = lacks(document, at, key);
            say(says, help)
        }
        What::WrongType { wanted, got } => {
            let text = node.and_then(Node::text).map(clip);
            let is = text.as_ref().map_or_else(|| called(got).to_owned(), |text| format!("`{text}`"));
            say(
                format!("{is} stands where {} is wanted", called(wanted)),
                wrong_type_help(wanted, got, text.as_deref().unwrap_or("")),
            )
        }
        What::UnknownWord { got, known } => {
            say(format!("`{}` is not one of the words for this", clip(got)), near_word_or_list(got, known))
        }
        What::Nothing => nothing(document, place.file, place.label),
        What::Dangling { name, sections, nearest } => {
            let places = sections.replace('|', " or ");
            // What nothing mentions is not joined, and still may be meant.
            let built_in =
                document.built_in.iter().filter(|(section, _)| sections.split('|').any(|one| one == *section));
            let near = nearest.as_deref().or_else(|| document::nearest(name, built_in.map(|(_, key)| *key)));
            let help = match near {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("define it under {places}, or in a library"),
            };
            say(format!("nothing is called `{}` under {places}", clip(name)), help)
        }
        What::NoPoints => say("this table has no points".into(), "write at least one, such as `20 °C: 1`".into()),
        What::Refused(reason) => say(reason.clone(), "see `dryfit schema`".into()),
    }
}

/// A map in words for somebody who has never seen one.
fn called(shape: &str) -> &str {
    match shape {
        "a map" => "a block of `field: value`",
        "a map with `kind`" => "a block with `kind`",
        other => other,
    }
}

fn nothing(document: &Document, file: FileId, span: Span) -> Complaint {
    let (says, help) = if document.slice(file, span) == "-" {
        ("nothing stands behind this dash", "write a value, or delete the line")
    } else {
        ("nothing stands behind this key", "write a value, or delete the key")
    };
    Complaint { file, span, says: says.into(), help: help.into(), also: None }
}

fn wrong_type_help(wanted: &str, got: &str, text: &str) -> String {
    let glued = text.split_once(':').filter(|(key, value)| !key.is_empty() && !value.is_empty());
    match (wanted, got) {
        ("a map" | "a map with `kind`", "text") if glued.is_some() => {
            let (key, value) = glued.unwrap_or_default();
            format!("a colon needs a space behind it: `{key}: {}`", value.trim_start())
        }
        ("a word", "a number" | "yes or no") => "write one of the words that `dryfit schema` lists for this".into(),
        ("text" | "a name", "a number" | "yes or no") => format!("if it is a name put it in quotes: `\"{text}\"`"),
        ("text" | "a name" | "a word", "a list") => "write one alone, without brackets or dashes".into(),
        ("a name", "a map") => "define it under a key of its own section, and write that key here".into(),
        ("text" | "a word", "a map") => "write the text alone".into(),
        ("a list", _) => "write it as `[one, two]`, or each on a line of its own behind `- `".into(),
        ("a map", "a list") => "name each: `name: {field: value}`, without brackets or dashes round them".into(),
        ("a map", _) => "write it as `{field: value}`, or each on a line of its own, two spaces further in".into(),
        ("a map with `kind`", "text") => format!("write `{{kind: {text}, …}}` with its fields"),
        ("a map with `kind`", _) => "write `{kind: …}` with its fields".into(),
        ("yes or no", _) => "write `yes` or `no`".into(),
        ("a value", "a list") => "write one value, such as `12 mm` or `4`; a range is written `-30 °C to 8 °C`".into(),
        ("a value", _) => "write one value, such as `12 mm` or `4`".into(),
        ("a whole number", _) => "write it as `1`".into(),
        _ => "see `dryfit schema`".into(),
    }
}
