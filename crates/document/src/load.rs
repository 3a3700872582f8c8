//! A spec, its libraries and the built-in entries that it mentions become one tree.

use crate::deserializer::number;
use crate::files::{FileTrouble, Files, Limits, Shelf};
use crate::logs::{self, Log};
use crate::nearest::nearest;
use crate::node::{Entry, FileId, Kind, Node, NodeId, Place, SourceFile, Span};
use crate::parse::{Growing, parse};
use crate::trouble::{Trouble, Why};
use std::borrow::Cow;
use std::collections::HashSet;
use std::sync::OnceLock;

/// Everything that was read for one machine: texts, the joined tree, the place of every node, and what was wrong.
#[derive(Debug)]
pub struct Document {
    pub files: Vec<SourceFile>,
    pub root: Node,
    /// None where the repository of specs has no such file, or it holds nothing: then it only marks the root.
    pub workshop: Option<WorkshopFile>,
    pub troubles: Vec<Trouble>,
    /// Of test runs, read once with the texts.
    pub logs: Vec<Log>,
    /// Section and key of all that is built in, joined or not.
    pub built_in: &'static [(&'static str, &'static str)],
    pub(crate) places: Vec<Place>,
    /// Worked out when a path is first wanted.
    ways: OnceLock<Ways>,
}

/// The file at the root of the repository of specs: a tree of its own, in which no library and nothing built in is joined.
#[derive(Debug)]
pub struct WorkshopFile {
    pub file: FileId,
    /// None where it could not be read.
    pub root: Option<Node>,
}

impl Document {
    /// Reads `bytes` as the spec called `name`. Never fails: what is wrong stands in `troubles`, what could be read in `root`.
    #[must_use]
    pub fn load(name: &str, bytes: Vec<u8>, files: &dyn Files, shelf: &dyn Shelf, limits: &Limits) -> Self {
        let mut loading = Loading { sources: Vec::new(), growing: Growing::default(), files, shelf, limits };
        let root = loading.spec(name, bytes);
        let root = root.unwrap_or_else(|| {
            let id = loading.growing.place(FileId(0), Span::default());
            Node { id, kind: Kind::Map(Vec::new()) }
        });
        let workshop = loading.workshop();
        let Growing { places, troubles, .. } = loading.growing;
        let built_in = shelf.keys();
        let mut document = Self {
            files: loading.sources,
            root,
            workshop,
            troubles,
            logs: Vec::new(),
            built_in,
            places,
            ways: OnceLock::new(),
        };
        let (logs, wrong) = logs::read(&document, files);
        document.logs = logs;
        document.troubles.extend(wrong);
        document
    }

    /// Where a node stands; either slot of it.
    #[must_use]
    pub fn place(&self, id: NodeId) -> Place {
        let nowhere = Place { file: FileId(0), span: Span::default(), label: Span::default() };
        self.places.get(id.index() / 2).copied().unwrap_or(nowhere)
    }

    /// Ids from here on are free: absent fields take them.
    #[must_use]
    pub fn end(&self) -> NodeId {
        NodeId(u32::try_from(self.places.len() * 2).unwrap_or(!1))
    }

    /// The text of a node as its author wrote it.
    #[must_use]
    pub fn text(&self, id: NodeId) -> &str {
        let place = self.place(id);
        self.slice(place.file, place.span)
    }

    #[must_use]
    pub fn file(&self, id: FileId) -> Option<&SourceFile> {
        self.files.get(usize::from(id.0))
    }

    #[must_use]
    pub fn slice(&self, file: FileId, span: Span) -> &str {
        self.file(file).and_then(|file| file.text.get(span.start as usize..span.end as usize)).unwrap_or("")
    }

    /// The keys from the root down to a node: `powertrain.motor.resistance`. Empty for the root and for unknown ids.
    #[must_use]
    pub fn path(&self, id: NodeId) -> String {
        let ways = self.ways.get_or_init(|| {
            let mut ways = Ways(vec![None; self.places.len()]);
            ways.add(&self.root);
            self.workshop.iter().filter_map(|workshop| workshop.root.as_ref()).for_each(|root| ways.add(root));
            ways
        });
        let steps = std::iter::successors(ways.of(id), |(above, _)| ways.of(*above));
        let mut trail: Vec<&str> = steps.map(|(_, name)| &**name).collect();
        trail.reverse();
        trail.join(".")
    }
}

/// For each node the one above it and the name under which it stands there; the first where it stands in several places.
#[derive(Debug)]
struct Ways(Vec<Option<(NodeId, Box<str>)>>);

impl Ways {
    fn of(&self, id: NodeId) -> Option<&(NodeId, Box<str>)> {
        self.0.get(id.index() / 2)?.as_ref()
    }

    fn put(&mut self, id: NodeId, above: NodeId, name: &str) {
        if let Some(way @ None) = self.0.get_mut(id.index() / 2) {
            *way = Some((above, name.into()));
        }
    }

    fn add(&mut self, node: &Node) {
        match &node.kind {
            Kind::Map(entries) => {
                for Entry { key, key_id, value } in entries {
                    self.put(*key_id, node.id, key);
                    self.put(value.id, node.id, key);
                    self.add(value);
                }
            }
            Kind::Seq(items) => {
                for (index, item) in items.iter().enumerate() {
                    let name = item.get("name").and_then(Node::text).map(str::to_owned);
                    self.put(item.id, node.id, &name.unwrap_or_else(|| (index + 1).to_string()));
                    self.add(item);
                }
            }
            Kind::Null | Kind::Scalar { .. } => {}
        }
    }
}

struct Loading<'a> {
    sources: Vec<SourceFile>,
    growing: Growing,
    files: &'a dyn Files,
    shelf: &'a dyn Shelf,
    limits: &'a Limits,
}

impl Loading<'_> {
    fn spec(&mut self, name: &str, bytes: Vec<u8>) -> Option<Node> {
        let mut root = self.text(name.to_owned(), bytes)?;
        let mut read = vec![name.to_owned()];
        let mut libraries = Vec::new();
        self.libraries(&root, name, &mut read, &mut vec![name.to_owned()], &mut libraries);
        for library in libraries {
            join(&mut root, library, 1);
        }
        self.built_in(&mut root);
        expand(&mut root, &mut self.growing, self.limits);
        Some(root)
    }

    fn workshop(&mut self) -> Option<WorkshopFile> {
        let (name, bytes) = self.files.workshop()?;
        let file = FileId(u16::try_from(self.sources.len()).unwrap_or(u16::MAX));
        let mut root = match bytes {
            Ok(bytes) => self.text(name, bytes),
            Err(reason) => {
                self.sources.push(SourceFile { name, text: "".into(), built_in: false });
                self.growing.trouble(file, Span::default(), Why::Unreadable { reason });
                None
            }
        };
        let troubles = self.growing.troubles.len();
        self.growing.troubles.retain(|trouble| trouble.file != file || trouble.why != Why::Empty);
        if self.growing.troubles.len() < troubles {
            self.sources.pop();
            return None;
        }
        if let Some(root) = &mut root {
            expand(root, &mut self.growing, self.limits);
        }
        Some(WorkshopFile { file, root })
    }

    /// One text that must be a map of sections.
    fn text(&mut self, name: String, bytes: Vec<u8>) -> Option<Node> {
        let id = FileId(u16::try_from(self.sources.len()).unwrap_or(u16::MAX));
        let size = bytes.len();
        let whole = |text: &str| Span {
            start: 0,
            end: u32::try_from(text.lines().next().unwrap_or("").trim_end().len()).unwrap_or(0),
        };
        let text = match String::from_utf8(bytes) {
            Ok(text) => text,
            Err(error) => {
                let bytes = error.as_bytes();
                let at = error.utf8_error().valid_up_to();
                let line = 1 + bytes.iter().take(at).filter(|byte| **byte == b'\n').count();
                let why = if utf16(bytes) { Why::Utf16 } else { Why::NotUtf8 { line } };
                // The readable part is kept, so that the place can be shown.
                let text = String::from_utf8_lossy(bytes.get(..at).unwrap_or(&[])).into_owned();
                let start = text.rfind('\n').map_or(0, |newline| newline + 1);
                let to = |offset: usize| u32::try_from(offset).unwrap_or(u32::MAX);
                let span = Span { start: to(start), end: to(text.len()) };
                self.sources.push(SourceFile { name, text: text.into(), built_in: false });
                self.growing.trouble(id, span, why);
                return None;
            }
        };
        let trouble = if utf16(text.as_bytes()) {
            Some(Why::Utf16)
        } else if size > self.limits.bytes {
            Some(Why::TooLarge { bytes: size, limit: self.limits.bytes })
        } else if text.trim_matches(['\u{feff}', ' ', '\n', '\r', '\t']).is_empty() {
            Some(Why::Empty)
        } else {
            None
        };
        let first = whole(&text);
        // Past the limit only the head is kept: nothing else of it will be shown.
        let text =
            if size > self.limits.bytes { text.lines().next().unwrap_or("").chars().take(200).collect() } else { text };
        self.sources.push(SourceFile { name, text: text.clone().into(), built_in: false });
        if let Some(why) = trouble {
            self.growing.trouble(id, first, why);
            return None;
        }
        let before = self.growing.troubles.len();
        let root = parse(&text, id, &mut self.growing, self.limits);
        match root {
            Some(node) if matches!(node.kind, Kind::Map(_)) => Some(node),
            Some(Node { kind: Kind::Null, .. }) | None if self.growing.troubles.len() == before => {
                self.growing.trouble(id, first, Why::Empty);
                None
            }
            None => None,
            Some(_) => {
                self.growing.trouble(id, first, Why::NotAMap);
                None
            }
        }
    }

    /// Depth first, in the order in which they are named.
    fn libraries(
        &mut self,
        root: &Node,
        from: &str,
        read: &mut Vec<String>,
        chain: &mut Vec<String>,
        out: &mut Vec<Node>,
    ) {
        let Some(list) = root.get("libraries") else { return };
        for item in list.items() {
            let place = self.growing.places.get(item.id.index() / 2).copied();
            let Some(Place { file, label, .. }) = place else { continue };
            // A number may be a file's name, but then it wants quotes like any other text.
            let Some(name) = item.text().filter(|_| number(item).is_none()) else {
                self.growing.trouble(file, label, Why::LibraryNotText);
                continue;
            };
            if read.len() > self.limits.files {
                self.growing.trouble(file, label, Why::TooManyFiles { limit: self.limits.files });
                return;
            }
            let (known_as, bytes) = match self.files.read(from, name) {
                Ok(found) => found,
                Err(trouble) => {
                    self.growing.trouble(file, label, Why::Library { name: name.to_owned(), trouble });
                    continue;
                }
            };
            if let Some(at) = chain.iter().position(|link| *link == known_as) {
                let mut links: Vec<&str> = chain.iter().skip(at).map(String::as_str).collect();
                links.push(&known_as);
                let why = Why::LibraryCycle { chain: links.join(" → ") };
                self.growing.trouble(file, label, why);
                continue;
            }
            if read.contains(&known_as) {
                continue;
            }
            if bytes.len() > self.limits.bytes {
                let trouble = FileTrouble::TooLarge { limit: self.limits.bytes };
                self.growing.trouble(file, label, Why::Library { name: name.to_owned(), trouble });
                continue;
            }
            read.push(known_as.clone());
            if let Some(library) = self.text(known_as.clone(), bytes) {
                chain.push(known_as.clone());
                self.libraries(&library, &known_as, read, chain, out);
                chain.pop();
                out.push(library);
            }
        }
    }

    /// Joins every built-in entry whose key is mentioned anywhere, and what those mention in turn.
    fn built_in(&mut self, root: &mut Node) {
        let mut seen: HashSet<Box<str>> = HashSet::new();
        let mut wanted: Vec<Box<str>> = self.shelf.always().iter().map(|key| Box::from(*key)).collect();
        collect(root, self.shelf, &mut seen, &mut wanted);
        let mut next = 0;
        while let Some(key) = wanted.get(next).cloned() {
            next += 1;
            let Some((section, file, text)) = self.shelf.entry(&key) else { continue };
            if root.get(section).is_some_and(|section| section.get(&key).is_some()) {
                continue;
            }
            let id = FileId(u16::try_from(self.sources.len()).unwrap_or(u16::MAX));
            self.sources.push(SourceFile { name: file.to_owned(), text: Cow::Borrowed(text), built_in: true });
            let Some(node) = parse(text, id, &mut self.growing, self.limits) else { continue };
            collect(&node, self.shelf, &mut seen, &mut wanted);
            let key_id = self.growing.place(id, Span::default());
            let entry = Entry { key: key.clone(), key_id, value: node };
            if section.is_empty() {
                join(root, map_of(self.growing.place(id, Span::default()), entry), 8);
            } else {
                let inner = map_of(self.growing.place(id, Span::default()), entry);
                let section_id = self.growing.place(id, Span::default());
                let outer = Entry { key: section.into(), key_id: section_id, value: inner };
                join(root, map_of(self.growing.place(id, Span::default()), outer), 1);
            }
        }
    }
}

/// By its mark, or by every second byte being zero.
fn utf16(bytes: &[u8]) -> bool {
    let head: Vec<&[u8]> = bytes.chunks_exact(2).take(8).collect();
    let marked = bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]);
    marked
        || head.len() == 8
            && (head.iter().all(|pair| pair.first() == Some(&0)) || head.iter().all(|pair| pair.last() == Some(&0)))
}

fn map_of(id: NodeId, entry: Entry) -> Node {
    Node { id, kind: Kind::Map(vec![entry]) }
}

fn collect(node: &Node, shelf: &dyn Shelf, seen: &mut HashSet<Box<str>>, wanted: &mut Vec<Box<str>>) {
    node.walk(&mut |node| {
        if let Some(text) = node.text()
            && shelf.entry(text).is_some()
            && seen.insert(text.into())
        {
            wanted.push(text.into());
        }
    });
}

/// Adds what `more` has and `base` lacks, map by map, down to `depth` levels below the top. What `base` says stays.
fn join(base: &mut Node, more: Node, depth: usize) {
    let (Kind::Map(mine), Kind::Map(theirs)) = (&mut base.kind, more.kind) else { return };
    for entry in theirs {
        if matches!(&*entry.key, "dryfit" | "libraries" | "like") {
            continue;
        }
        match mine.iter_mut().find(|own| own.key == entry.key) {
            None => mine.push(entry),
            Some(own) if depth > 0 && !is_table(&own.value) && same_kind(&own.value, &entry.value) => {
                join(&mut own.value, entry.value, depth - 1)
            }
            Some(_) => {}
        }
    }
}

/// A map from numbers is a table: a few points of one among those of another would be neither.
fn is_table(node: &Node) -> bool {
    let number =
        |key: &str| key.trim_start_matches(['-', '\u{2212}', '+']).starts_with(|first: char| first.is_ascii_digit());
    node.entries().first().is_some_and(|entry| number(&entry.key))
}

/// Two maps of different `kind` are different things: fields of one mean nothing in the other.
fn same_kind(own: &Node, other: &Node) -> bool {
    match own.get("kind").and_then(Node::text) {
        None => true,
        Some(kind) => other.get("kind").and_then(Node::text) == Some(kind),
    }
}

/// Replaces every `like: key` by what that key holds, under the fields that stand beside it.
fn expand(node: &mut Node, growing: &mut Growing, limits: &Limits) {
    match &mut node.kind {
        Kind::Map(entries) => {
            let likes: Vec<usize> = entries
                .iter()
                .enumerate()
                .filter(|(_, entry)| entry.value.get("like").is_some())
                .map(|(at, _)| at)
                .collect();
            let merged: Vec<(usize, Node)> = likes
                .into_iter()
                .filter_map(|at| Some((at, likened(entries, at, &mut Vec::new(), growing, limits)?)))
                .collect();
            for (at, value) in merged {
                if let Some(entry) = entries.get_mut(at) {
                    entry.value = value;
                }
            }
            entries.iter_mut().for_each(|entry| expand(&mut entry.value, growing, limits));
        }
        Kind::Seq(items) => items.iter_mut().for_each(|item| expand(item, growing, limits)),
        Kind::Null | Kind::Scalar { .. } => {}
    }
}

fn likened(
    entries: &[Entry],
    at: usize,
    chain: &mut Vec<usize>,
    growing: &mut Growing,
    limits: &Limits,
) -> Option<Node> {
    let entry = entries.get(at)?;
    let mut own = entry.value.clone();
    let Kind::Map(fields) = &mut own.kind else { return Some(own) };
    let Some(position) = fields.iter().position(|field| &*field.key == "like") else { return Some(own) };
    let like = fields.remove(position);
    let place = growing.places.get(like.value.id.index() / 2).copied()?;
    let Some(name) = like.value.text() else {
        growing.trouble(place.file, place.label, Why::LikeNotText);
        return Some(own);
    };
    let Some(target) = entries.iter().position(|other| &*other.key == name) else {
        let near =
            nearest(name, entries.iter().map(|other| &*other.key).filter(|key| **key != *entry.key)).map(str::to_owned);
        growing.trouble(place.file, place.label, Why::LikeNothing { name: name.to_owned(), nearest: near });
        return Some(own);
    };
    chain.push(at);
    if chain.contains(&target) {
        growing.trouble(place.file, place.label, Why::LikeCycle { name: name.to_owned() });
        return Some(own);
    }
    if chain.len() > limits.depth {
        // Each link of a long chain begins one; the first is enough.
        let told = growing.troubles.last().is_some_and(|last| matches!(last.why, Why::LikeTooLong { .. }));
        if !told {
            growing.trouble(place.file, place.label, Why::LikeTooLong { limit: limits.depth });
        }
        return Some(own);
    }
    // One complaint is enough, and copying on would only cost time.
    if growing.copies > limits.copies {
        return Some(own);
    }
    let base = likened(entries, target, chain, growing, limits)?;
    chain.pop();
    let before = growing.copies;
    base.walk(&mut |_| growing.copies += 1);
    if growing.copies > limits.copies {
        // Told where the limit is crossed, not again on the way out of a chain.
        if before > limits.copies {
            return Some(own);
        }
        growing.trouble(place.file, place.label, Why::TooManyCopies { limit: limits.copies });
        return Some(own);
    }
    if same_kind(&own, &base) {
        join(&mut own, base, 8);
    }
    Some(own)
}
