//! One text → one tree. Everything that is wrong is noted with its place; what can be read is kept.

use crate::files::Limits;
use crate::node::{Entry, FileId, Kind, Node, NodeId, Place, Span};
use crate::trouble::{Trouble, Why};
use serde_yaml::granit_parser::{Event, Parser, ScalarStyle, Tag};
use std::borrow::Cow;
use std::collections::HashMap;

/// What grows while files are read one after another.
#[derive(Debug, Default)]
pub struct Growing {
    pub places: Vec<Place>,
    pub troubles: Vec<Trouble>,
    pub copies: usize,
}

impl Growing {
    pub fn place(&mut self, file: FileId, span: Span) -> NodeId {
        let id = NodeId(u32::try_from(self.places.len() * 2).unwrap_or(!1));
        self.places.push(Place { file, span, label: span });
        id
    }
    fn set(&mut self, id: NodeId, change: impl FnOnce(&mut Place)) {
        if let Some(place) = self.places.get_mut(id.index() / 2) {
            change(place);
        }
    }
    fn span(&self, id: NodeId) -> Span {
        self.places.get(id.index() / 2).map_or(Span::default(), |place| place.span)
    }
    pub fn trouble(&mut self, file: FileId, span: Span, why: Why) {
        // A thing copied by `like` or an alias is read more than once.
        if self.troubles.iter().rev().take(8).any(|last| last.file == file && last.span == span && last.why == why) {
            return;
        }
        self.troubles.push(Trouble { file, span, why });
    }
}

/// A list or map that is still open.
struct Open {
    node: Node,
    anchor: usize,
    /// The key that waits for its value.
    key: Option<(Box<str>, NodeId)>,
    /// Where each key stands; only used when there are enough keys for a scan to be slow.
    seen: HashMap<Box<str>, Span>,
}

struct Builder<'a> {
    file: FileId,
    growing: &'a mut Growing,
    limits: &'a Limits,
    stack: Vec<Open>,
    anchors: HashMap<usize, Node>,
    root: Option<Node>,
    text: &'a str,
}

/// The tree of one text, or nothing when it cannot be read at all (then a trouble says why).
pub fn parse(text: &str, file: FileId, growing: &mut Growing, limits: &Limits) -> Option<Node> {
    let mut builder = Builder { file, growing, limits, stack: Vec::new(), anchors: HashMap::new(), root: None, text };
    let mut parser = Parser::new_from_str(text);
    loop {
        let (event, at) = match parser.next_event() {
            None => break,
            Some(Ok(event)) => event,
            Some(Err(error)) => {
                let at = error.marker().byte_offset().unwrap_or(text.len());
                let why = syntax(text, at, &error.info(), limits);
                builder.growing.trouble(file, point(text, at), why);
                return None;
            }
        };
        let range = at.byte_range().unwrap_or(0..0);
        let span = Span { start: to_u32(range.start), end: to_u32(range.end) };
        // Where nothing is written the neighbour is underlined.
        let span = match event {
            Event::SequenceStart(..) | Event::MappingStart(..) if span.is_empty() => point(text, range.start),
            _ => span,
        };
        if !builder.take(event, span, text) {
            return None;
        }
    }
    builder.root
}

impl Builder<'_> {
    /// False when reading must stop.
    fn take(&mut self, event: Event<'_>, span: Span, text: &str) -> bool {
        match event {
            Event::DocumentStart(..) if self.root.is_some() => {
                self.growing.trouble(self.file, span, Why::SeveralDocuments);
                return false;
            }
            Event::Scalar(value, style, anchor, tag) => {
                self.tag(tag, span);
                let span = trimmed(text, span, style);
                let id = self.growing.place(self.file, span);
                let node = Node { id, kind: self.scalar(&value, style, span) };
                self.remember(anchor, &node);
                return self.add(node, span);
            }
            Event::SequenceStart(_, anchor, tag) => {
                self.tag(tag, span);
                return self.open(Kind::Seq(Vec::new()), anchor, span);
            }
            Event::MappingStart(_, anchor, tag) => {
                self.tag(tag, span);
                return self.open(Kind::Map(Vec::new()), anchor, span);
            }
            Event::SequenceEnd | Event::MappingEnd => return self.close(span),
            Event::Alias(anchor) => {
                let Some(node) = self.anchors.get(&anchor).cloned() else {
                    let says = "this alias stands inside the thing that it names".to_owned();
                    let help = "an alias (`*name`) copies a thing that is complete; write the values out";
                    self.growing.trouble(self.file, span, Why::Syntax { says, help });
                    return false;
                };
                let mut count = 0_usize;
                node.walk(&mut |_| count += 1);
                self.growing.copies += count;
                if self.growing.copies > self.limits.copies {
                    self.growing.trouble(self.file, span, Why::TooManyCopies { limit: self.limits.copies });
                    return false;
                }
                return self.add(node, span);
            }
            _ => {}
        }
        true
    }

    fn tag(&mut self, tag: Option<Cow<'_, Tag>>, span: Span) {
        if let Some(tag) = tag {
            self.growing.trouble(self.file, span, Why::Tag { tag: tag.original() });
        }
    }

    fn scalar(&mut self, value: &str, style: ScalarStyle, span: Span) -> Kind {
        let plain = matches!(style, ScalarStyle::Plain);
        if plain && matches!(value, "" | "~" | "null" | "Null" | "NULL") {
            return Kind::Null;
        }
        if plain && is_decimal(value) && !value.parse::<f64>().is_ok_and(f64::is_finite) {
            self.growing.trouble(self.file, span, Why::NumberTooLarge { text: value.chars().take(40).collect() });
        }
        Kind::Scalar { text: value.into(), plain }
    }

    fn remember(&mut self, anchor: usize, node: &Node) {
        if anchor > 0 {
            self.anchors.insert(anchor, node.clone());
        }
    }

    fn open(&mut self, kind: Kind, anchor: usize, span: Span) -> bool {
        if self.stack.len() >= self.limits.depth {
            self.growing.trouble(self.file, span, Why::TooDeep { limit: self.limits.depth });
            return false;
        }
        let id = self.growing.place(self.file, span);
        self.stack.push(Open { node: Node { id, kind }, anchor, key: None, seen: HashMap::new() });
        true
    }

    fn close(&mut self, span: Span) -> bool {
        let Some(open) = self.stack.pop() else { return true };
        let id = open.node.id;
        let start = self.growing.span(id).start as usize;
        let bracketed = self.text.get(start..).is_some_and(|text| text.starts_with(['{', '[']));
        let last = match &open.node.kind {
            Kind::Seq(items) => items.last().map(|item| item.id),
            Kind::Map(entries) => entries.last().map(|entry| entry.value.id),
            _ => None,
        };
        // The parser's own end of a block collection is useless; the last child's is taken.
        let end = last.filter(|_| !bracketed).map_or(span.end, |last| self.growing.span(last).end);
        self.growing.set(id, |place| {
            place.span.end = end.max(place.span.end);
            place.label.end = place.label.end.max(place.label.start);
        });
        self.remember(open.anchor, &open.node);
        self.add(open.node, span)
    }

    /// Hangs a finished node where it belongs.
    fn add(&mut self, node: Node, at: Span) -> bool {
        if self.growing.places.len() > self.limits.nodes {
            self.growing.trouble(self.file, at, Why::TooManyNodes { limit: self.limits.nodes });
            return false;
        }
        let Some(open) = self.stack.last_mut() else {
            label_first(self.growing, &node);
            self.root = Some(node);
            return true;
        };
        match &mut open.node.kind {
            Kind::Seq(items) => {
                label_first(self.growing, &node);
                label_dash(self.growing, &node, self.text);
                items.push(node);
            }
            Kind::Map(entries) => match open.key.take() {
                None => {
                    let key: Box<str> = match &node.kind {
                        Kind::Scalar { text, .. } => text.clone(),
                        Kind::Null if self.growing.span(node.id).is_empty() => "".into(),
                        Kind::Null => "null".into(),
                        Kind::Seq(_) | Kind::Map(_) => {
                            self.growing.trouble(self.file, self.growing.span(node.id), Why::KeyNotText);
                            "".into()
                        }
                    };
                    open.key = Some((key, node.id));
                }
                Some((key, key_id)) => {
                    let key_span = self.growing.span(key_id);
                    if matches!(node.kind, Kind::Map(_) | Kind::Seq(_)) || self.growing.span(node.id).is_empty() {
                        self.growing.set(node.id, |place| place.label = key_span);
                    }
                    if &*key == "<<" {
                        self.growing.trouble(self.file, key_span, Why::Merge);
                        return true;
                    }
                    if let Some(first) = first_place(entries, &mut open.seen, &key, key_span, self.growing) {
                        let why = Why::DuplicateKey { key: key.into(), first };
                        self.growing.trouble(self.file, key_span, why);
                        return true;
                    }
                    entries.push(Entry { key, key_id, value: node });
                }
            },
            Kind::Null | Kind::Scalar { .. } => {}
        }
        true
    }
}

/// Where the key stood before, if it did. Below 16 keys a scan is quicker than a hash.
fn first_place(
    entries: &[Entry],
    seen: &mut HashMap<Box<str>, Span>,
    key: &str,
    span: Span,
    growing: &Growing,
) -> Option<Span> {
    if entries.len() < 16 {
        return entries.iter().find(|entry| &*entry.key == key).map(|entry| growing.span(entry.key_id));
    }
    if seen.is_empty() {
        seen.extend(entries.iter().map(|entry| (entry.key.clone(), growing.span(entry.key_id))));
    }
    if let Some(first) = seen.get(key) {
        return Some(*first);
    }
    seen.insert(key.into(), span);
    None
}

/// An item of a list that is itself a map or list is underlined at its first word.
fn label_first(growing: &mut Growing, node: &Node) {
    let first = match &node.kind {
        Kind::Map(entries) => entries.first().map(|entry| entry.key_id),
        Kind::Seq(items) => items.first().map(|item| item.id),
        _ => None,
    };
    if let Some(first) = first {
        let label = growing.span(first);
        growing.set(node.id, |place| place.label = label);
    }
}

/// An item without any text is underlined at its dash.
fn label_dash(growing: &mut Growing, node: &Node, text: &str) {
    let span = growing.span(node.id);
    if span.is_empty() {
        let label = point(text, span.start as usize);
        growing.set(node.id, |place| place.label = label);
    }
}

/// A block scalar's span without the blank lines behind it.
fn trimmed(text: &str, span: Span, style: ScalarStyle) -> Span {
    if !matches!(style, ScalarStyle::Literal | ScalarStyle::Folded) {
        return span;
    }
    let body = text.get(span.start as usize..span.end as usize).unwrap_or("");
    Span { start: span.start, end: span.start + to_u32(body.trim_end().len()) }
}

/// Decimal number in the sense of YAML's core schema.
pub fn is_decimal(text: &str) -> bool {
    let body = text.strip_prefix(['-', '+']).unwrap_or(text);
    let (mantissa, exponent) = match body.find(['e', 'E']) {
        Some(at) => (body.get(..at).unwrap_or(""), body.get(at + 1..)),
        None => (body, None),
    };
    let digits = |part: &str| part.bytes().all(|byte| byte.is_ascii_digit());
    let mantissa_ok = match mantissa.split_once('.') {
        None => !mantissa.is_empty() && digits(mantissa),
        Some((whole, share)) => digits(whole) && digits(share) && !(whole.is_empty() && share.is_empty()),
    };
    let exponent_ok = exponent.is_none_or(|exponent| {
        let exponent = exponent.strip_prefix(['-', '+']).unwrap_or(exponent);
        !exponent.is_empty() && digits(exponent)
    });
    mantissa_ok && exponent_ok
}

/// What the parser says, in words for somebody who does not know YAML. Tabs are the commonest cause, and it does not name them.
fn syntax(text: &str, at: usize, says: &str, limits: &Limits) -> Why {
    let before = text.get(..at.min(text.len())).unwrap_or("");
    let start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let line = text.get(start..).unwrap_or("").lines().next().unwrap_or("");
    let indent = line.len() - line.trim_start().len();
    if line.get(..indent).is_some_and(|space| space.contains('\t')) {
        return Why::Tab;
    }
    if says.contains("recursion limit") {
        return Why::TooDeep { limit: limits.depth };
    }
    let letter = text.get(at..).and_then(|rest| rest.chars().next()).unwrap_or(' ');
    if says.contains("unexpected character") && letter.is_control() {
        return Why::NoLetter;
    }
    let general = "look at this line and the one before it: a colon needs a space after it, brackets and quotes must be closed, and lines that belong together start in the same column";
    let (says, help) = if says.contains("mapping values are not allowed") {
        let help = "a text with a colon in it needs quotes; otherwise look at this line and the one before it: a colon needs a space after it, and lines that belong together start in the same column";
        ("a second colon stands where a value has already begun".to_owned(), help)
    } else if let Some(bracket) = says.strip_prefix("unclosed bracket ") {
        (
            format!("the bracket {bracket} is never closed"),
            "close it, or put the text in quotes if the bracket belongs to it",
        )
    } else if let Some((open, close)) =
        says.strip_prefix("mismatched bracket ").and_then(|pair| pair.split_once(" closed by "))
    {
        (
            format!("the bracket {open} that opens here is closed by {close}"),
            "count the brackets behind it: each closes the last one that is still open",
        )
    } else if says.contains("unclosed quote") {
        (
            "the quote that opens here is never closed".to_owned(),
            "add a quote at the end of the text; for inches write `in`",
        )
    } else if says.contains("unknown escape") {
        let says = "the text in these quotes holds a backslash with a letter that means nothing".to_owned();
        (says, "put the text in single quotes, or write two backslashes for one")
    } else if says.contains("unexpected character") {
        (format!("a text cannot begin with `{letter}`"), "put it in quotes")
    } else if says.contains("unknown anchor") {
        (
            "this alias (`*name`) names nothing".to_owned(),
            "mark the thing to copy with `&name` further up; or use `like:`; a text that begins with a star needs quotes",
        )
    } else if says.contains("simple key expected") {
        (
            "a key and a colon are wanted here".to_owned(),
            "write `key: value`; a key may have up to 1,024 letters and stands on one line",
        )
    } else {
        (format!("this cannot be read: {}", says.replace('`', "'")), general)
    };
    Why::Syntax { says, help }
}

/// One character at `at`, or the last one of the text, so that there is something to underline.
fn point(text: &str, at: usize) -> Span {
    let rest = text.get(at..).unwrap_or("");
    if let Some(letter) = rest.chars().next().filter(|letter| *letter != '\n' && *letter != '\r') {
        return Span { start: to_u32(at), end: to_u32(at + letter.len_utf8()) };
    }
    let before = text.get(..at.min(text.len())).unwrap_or("");
    let end = before.trim_end().len();
    let start = before.get(..end).and_then(|kept| kept.char_indices().next_back()).map_or(0, |(start, _)| start);
    Span { start: to_u32(start), end: to_u32(end) }
}

fn to_u32(offset: usize) -> u32 {
    u32::try_from(offset).unwrap_or(u32::MAX)
}
