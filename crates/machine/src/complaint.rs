//! Everything that is wrong with a document, in words for somebody who is no programmer: what, where, and the way out.

use crate::curve::{NO_POINTS, NOT_RISING};
use crate::given::{MEASURE, RANGE, bare};
use crate::machine::Machine;
use crate::schema::machine_schema;
use document::{DeError, Document, FileId, Kind as NodeKind, Node, NodeId, Span, Swap, Swaps, What, Why, at_pointer, nearest, number, to_json};
use jsonschema::error::{TypeKind, ValidationErrorKind};
use quantity::{Kind, Misread, m};
use serde_json::Value;

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
    let mut all: Vec<Complaint> = document.troubles.iter().map(|trouble| of_trouble(trouble.file, trouble.span, &trouble.why)).collect();
    // A text that could not be parsed has no tree to speak about.
    let unreadable = document.root.entries().is_empty();
    if !unreadable || all.is_empty() {
        let typed = typed_errors(document);
        if !typed.is_empty() {
            all.extend(typed.iter().map(|error| of_error(document, error)));
            let told: Vec<Span> = all.iter().map(|complaint| complaint.span).collect();
            all.extend(schema_errors(document).into_iter().filter(|complaint| !told.contains(&complaint.span)));
        }
    }
    all.sort();
    all.dedup();
    all.truncate(MOST);
    all
}

fn of_trouble(file: FileId, span: Span, why: &Why) -> Complaint {
    let also = match why {
        Why::DuplicateKey { first, key } => Some(Note { file, span: *first, says: format!("`{key}` stands here first") }),
        _ => None,
    };
    Complaint { file, span, says: why.to_string(), help: why.help(), also }
}

/// Reads again and again, each time without the node that was refused, until the rest is accepted.
fn typed_errors(document: &Document) -> Vec<DeError> {
    let mut swaps = Swaps::new();
    let mut errors: Vec<DeError> = Vec::new();
    for _ in 0..MOST {
        let Err(error) = Machine::read(document, &swaps) else { break };
        let Some(at) = error.at else {
            errors.push(error);
            break;
        };
        let consequence = match &error.what {
            What::MissingKey { key } => find(&document.root, at).is_some_and(|node| node.get(key).is_some()),
            What::Dangling { name, sections, .. } => sections
                .split('|')
                .filter_map(|path| path.split('.').try_fold(&document.root, |node, step| node.get(step)))
                .any(|section| section.get(name).is_some()),
            _ => false,
        };
        if !consequence {
            errors.push(error.clone());
        }
        let target = match &error.what {
            What::UnknownKey { .. } => value_of_key(&document.root, at).unwrap_or(at),
            _ => value_of_key(&document.root, at).unwrap_or(at),
        };
        if target == document.root.id || swaps.insert(target, Swap::Removed).is_some() {
            break;
        }
    }
    errors
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

/// The value that a key's node holds.
fn value_of_key(root: &Node, key: NodeId) -> Option<NodeId> {
    let mut found = None;
    root.walk(&mut |node| {
        if let Some(entry) = node.entries().iter().find(|entry| entry.key_id == key) {
            found = Some(entry.value.id);
        }
    });
    found
}

fn list(words: &[&str]) -> String {
    words.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ")
}

fn near_or_list(got: &str, known: &[&str]) -> String {
    match nearest(got, known.iter().copied()) {
        Some(near) => format!("did you mean `{near}`?"),
        None if known.len() <= 24 => format!("one of {}", list(known)),
        None => format!("one of {} …; `dryfit schema` lists all", list(known.get(..24).unwrap_or(known))),
    }
}

fn kind_called(key: &str) -> Option<&'static Kind> {
    m::ALL.iter().find(|kind| kind.key == key).copied()
}

/// The misreading of a node's text as a measure.
fn misread(node: &Node, kind: &'static Kind, range: bool) -> Option<Misread> {
    let text = node.text()?;
    match number(node) {
        Some(number) if kind.bare => bare(number, kind).err(),
        _ if range => quantity::read_range(text, kind).err(),
        _ => quantity::read(text, kind).err(),
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

fn of_misread(document: &Document, node: &Node, misread: Misread) -> Complaint {
    let span = inside(document, node.id, node.text().unwrap_or(""), &misread.span);
    Complaint { file: document.place(node.id).file, span, says: misread.says, help: misread.help, also: None }
}

fn of_error(document: &Document, error: &DeError) -> Complaint {
    let at = error.at.unwrap_or(document.root.id);
    let place = document.place(at);
    let say = |says: String, help: String| Complaint { file: place.file, span: place.label, says, help, also: None };
    let node = find(&document.root, at);
    match &error.what {
        What::UnknownKey { key, known } => say(format!("`{key}` is not known here"), near_or_list(key, known)),
        What::MissingKey { key } => {
            let path = document.path(at);
            let of = if path.is_empty() { "the spec".to_owned() } else { format!("`{path}`") };
            say(format!("{of} lacks `{key}`"), format!("add `{key}:` to it"))
        }
        What::WrongType { wanted, got } => say(format!("{got} stands where {wanted} is wanted"), wrong_type_help(wanted, got)),
        What::UnknownWord { got, known } => say(format!("`{got}` is not one of the words for this"), near_or_list(got, known)),
        What::Nothing => say("nothing stands behind this key".into(), "write a value, or delete the key".into()),
        What::Dangling { name, sections, nearest } => {
            let places = sections.replace('|', " or ");
            let help = match nearest {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("define it under {places}, or in a library"),
            };
            say(format!("nothing is called `{name}` under {places}"), help)
        }
        What::Refused(reason) => {
            let measure = reason.strip_prefix(MEASURE).map(|key| (key, false)).or(reason.strip_prefix(RANGE).map(|key| (key, true)));
            if let Some((key, range)) = measure
                && let Some(kind) = kind_called(key)
            {
                // A key of a table is a text of its own.
                let text = document.text(at).to_owned();
                let own = node.cloned().unwrap_or(Node { id: at, kind: NodeKind::Scalar { text: text.into(), plain: true } });
                if let Some(misread) = misread(&own, kind, range) {
                    return of_misread(document, &own, misread);
                }
            }
            match reason.as_str() {
                NOT_RISING => say("the keys of this table do not rise".into(), "write the smallest first, each once".into()),
                NO_POINTS => say("this table has no points".into(), "write at least one, such as `20 °C: 1`".into()),
                other => say(other.to_owned(), "see `dryfit schema`".into()),
            }
        }
    }
}

fn wrong_type_help(wanted: &str, got: &str) -> String {
    match (wanted, got) {
        ("text" | "a name" | "a word", "a number" | "yes or no") => "put it in quotes if it is a name".into(),
        ("a list", _) => "write it as `[one, two]`, or each on a line of its own behind `- `".into(),
        ("a map", _) => "write its fields behind it as `{field: value}`, or each on a line of its own, two spaces further in".into(),
        ("a map with `kind`", _) => "write `{kind: …}` with its fields".into(),
        ("yes or no", _) => "write `yes` or `no`".into(),
        ("a value", _) => "write one value with its unit, such as `12 mm`".into(),
        ("a whole number", _) => "write it as `1`".into(),
        _ => "see `dryfit schema`".into(),
    }
}

/// What the JSON Schema says beyond the typed reading, which stops inside whatever it had to leave out.
fn schema_errors(document: &Document) -> Vec<Complaint> {
    let schema = machine_schema();
    let json = to_json(&document.root);
    let Ok(validator) = jsonschema::validator_for(&schema) else { return Vec::new() };
    validator
        .iter_errors(&json)
        .take(MOST)
        .filter_map(|error| {
            let node = at_pointer(&document.root, error.instance_path().as_str())?;
            let place = document.place(node.id);
            let say = |span, says: String, help: String| Complaint { file: place.file, span, says, help, also: None };
            Some(match error.kind() {
                ValidationErrorKind::AdditionalProperties { unexpected } => {
                    let entry = unexpected.iter().find_map(|key| node.entry(key))?;
                    say(document.place(entry.key_id).label, format!("`{}` is not known here", entry.key), "see `dryfit schema`".into())
                }
                ValidationErrorKind::Required { property } => {
                    let key = property.as_str().unwrap_or("");
                    say(place.label, format!("`{}` lacks `{key}`", document.path(node.id)), format!("add `{key}:` to it"))
                }
                ValidationErrorKind::Type { .. } if matches!(node.kind, NodeKind::Null) => {
                    say(place.label, "nothing stands behind this key".into(), "write a value, or delete the key".into())
                }
                ValidationErrorKind::Type { kind } => {
                    let measure = measure_at(&schema, error.schema_path().as_str());
                    if let Some(misread) = measure.and_then(|(kind, range)| misread(node, kind, range)) {
                        return Some(of_misread(document, node, misread));
                    }
                    let wanted = match kind {
                        TypeKind::Single(one) => one.to_string(),
                        TypeKind::Multiple(_) => "another type".to_owned(),
                    };
                    say(place.label, format!("this should be of type {wanted}"), "see `dryfit schema`".into())
                }
                ValidationErrorKind::Enum { options } => {
                    let got = node.text().unwrap_or("this");
                    let known: Vec<&str> = options.as_array().into_iter().flatten().filter_map(Value::as_str).collect();
                    say(place.label, format!("`{got}` is not one of the words for this"), near_or_list(got, &known))
                }
                ValidationErrorKind::Pattern { .. } => {
                    let (kind, range) = measure_at(&schema, error.schema_path().as_str())?;
                    let misread = misread(node, kind, range)?;
                    return Some(of_misread(document, node, misread));
                }
                _ => return None,
            })
        })
        .collect()
}

/// The measure that a schema location speaks about; the path goes through `$ref`s.
fn measure_at(schema: &Value, path: &str) -> Option<(&'static Kind, bool)> {
    let mut here = schema;
    let mut found = None;
    for step in path.split('/').skip(1) {
        let step = step.replace("~1", "/").replace("~0", "~");
        here = if step == "$ref" {
            let target = here.get("$ref").and_then(Value::as_str)?;
            schema.pointer(target.strip_prefix('#')?)?
        } else {
            match here {
                Value::Array(items) => items.get(step.parse::<usize>().ok()?)?,
                other => other.get(&step)?,
            }
        };
        if let Some(key) = here.get("measure").and_then(Value::as_str) {
            found = kind_called(key).map(|kind| (kind, here.get("range").is_some()));
        }
    }
    found
}
