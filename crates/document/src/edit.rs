//! Exact replacements in the texts of a document: comments and layout stay as they are.

use crate::load::Document;
use crate::node::{Entry, FileId, Kind, Node, NodeId, Span};

/// One replaced stretch of one file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    pub file: FileId,
    pub span: Span,
    pub text: String,
}

impl Document {
    /// Another text in place of a scalar, in the quotes in which the old one stands.
    #[must_use]
    pub fn rewrite(&self, scalar: NodeId, text: &str) -> Edit {
        let place = self.place(scalar);
        let old = self.slice(place.file, place.span);
        let text = match old.chars().next() {
            Some('"') => format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\"")),
            Some('\'') => quoted(text),
            _ if plain(text) => text.to_owned(),
            _ => quoted(text),
        };
        Edit { file: place.file, span: place.span, text }
    }

    /// All of a thing written anew on one line, in place of what stands at its node now.
    #[must_use]
    pub fn written_anew(&self, thing: &Node) -> Edit {
        let place = self.place(thing.id);
        Edit { file: place.file, span: place.span, text: flow(thing) }
    }

    /// One more key behind the last one of a map. None for a map that is written nowhere.
    #[must_use]
    pub fn added(&self, map: &Node, entry: &Entry) -> Option<Edit> {
        let place = self.place(map.id);
        let new = format!("{}: {}", key(&entry.key), flow(&entry.value));
        let text = &*self.file(place.file)?.text;
        let (start, end) = (place.span.start as usize, place.span.end as usize);
        let (at, text) = match text.get(start..end)?.strip_prefix('{') {
            Some(inside) if inside.trim() == "}" => (end - 1, new),
            Some(_) => (end - 1, format!(", {new}")),
            None => {
                let line = text.get(..start)?.rfind('\n').map_or(0, |newline| newline + 1);
                let margin = text.get(line..start)?;
                if !margin.trim().is_empty() {
                    return None;
                }
                (end + text.get(end..)?.find('\n').unwrap_or(text.len() - end), format!("\n{margin}{new}"))
            }
        };
        let at = u32::try_from(at).ok()?;
        Some(Edit { file: place.file, span: Span { start: at, end: at }, text })
    }

    /// Whether something stands inside the text of something else.
    #[must_use]
    pub fn holds(&self, outer: &Node, inner: &Node) -> bool {
        let (outer, inner) = (self.place(outer.id), self.place(inner.id));
        outer.file == inner.file && outer.span.start <= inner.span.start && inner.span.end <= outer.span.end
    }

    /// The node with this id.
    #[must_use]
    pub fn node(&self, id: NodeId) -> Option<&Node> {
        let mut found = None;
        self.root.walk(&mut |node| {
            if node.id == id && found.is_none() {
                found = Some(node);
            }
        });
        found
    }

    /// Item `from` of a list moved to position `to`. Comments above an item and behind it move with it. None for a list
    /// that is not written one item below the other.
    #[must_use]
    pub fn moved(&self, list: &Node, from: usize, to: usize) -> Option<Edit> {
        let items = list.items();
        let file = self.place(items.first()?.id).file;
        let text = &*self.file(file)?.text;
        let mut cuts = Vec::with_capacity(items.len() + 1);
        for item in items {
            let place = self.place(item.id);
            let (start, end) = (place.span.start as usize, place.span.end as usize);
            let line = text.get(..start)?.rfind('\n').map_or(0, |newline| newline + 1);
            if place.file != file
                || text.get(line..start)?.trim() != "-"
                || cuts.last().is_some_and(|last| line < *last)
            {
                return None;
            }
            if cuts.is_empty() {
                cuts.push(line);
            }
            cuts.push(text.get(end..)?.find('\n').map_or(text.len(), |newline| end + newline + 1));
        }
        let mut blocks: Vec<String> = Vec::with_capacity(items.len());
        for pair in cuts.windows(2) {
            let [start, end] = pair else { return None };
            let block = text.get(*start..*end)?;
            blocks.push(if block.ends_with('\n') { block.to_owned() } else { format!("{block}\n") });
        }
        if from >= blocks.len() || to >= blocks.len() {
            return None;
        }
        let block = blocks.remove(from);
        blocks.insert(to, block);
        let mut whole = blocks.concat();
        let end = *cuts.last()?;
        if !text.get(..end)?.ends_with('\n') {
            whole.pop();
        }
        let offset = |at: usize| u32::try_from(at).ok();
        Some(Edit { file, span: Span { start: offset(*cuts.first()?)?, end: offset(end)? }, text: whole })
    }

    /// The texts after these replacements, of every file that one of them touches. None when two of them overlap.
    #[must_use]
    pub fn edited(&self, edits: &[Edit]) -> Option<Vec<(FileId, String)>> {
        let mut sorted: Vec<&Edit> = edits.iter().collect();
        sorted.sort_by_key(|edit| (edit.file, edit.span));
        let mut out: Vec<(FileId, String)> = Vec::new();
        let mut at = 0;
        for edit in sorted {
            let text = &*self.file(edit.file)?.text;
            if out.last().is_none_or(|(file, _)| *file != edit.file) {
                self.finish(&mut out, at)?;
                out.push((edit.file, String::new()));
                at = 0;
            }
            let (_, whole) = out.last_mut()?;
            whole.push_str(text.get(at..edit.span.start as usize)?);
            whole.push_str(&edit.text);
            at = edit.span.end as usize;
        }
        self.finish(&mut out, at)?;
        Some(out)
    }

    fn finish(&self, out: &mut [(FileId, String)], at: usize) -> Option<()> {
        if let Some((file, whole)) = out.last_mut() {
            whole.push_str(self.file(*file)?.text.get(at..)?);
        }
        Some(())
    }
}

fn quoted(text: &str) -> String {
    format!("'{}'", text.replace('\'', "''"))
}

/// On one line, as it would be read again.
fn flow(node: &Node) -> String {
    let listed = |items: Vec<String>| items.join(", ");
    match &node.kind {
        Kind::Null => "null".into(),
        Kind::Scalar { text, plain: unquoted } if *unquoted && plain(text) => text.to_string(),
        Kind::Scalar { text, .. } => quoted(text),
        Kind::Seq(items) => format!("[{}]", listed(items.iter().map(flow).collect())),
        Kind::Map(entries) => {
            let pair = |entry: &Entry| format!("{}: {}", key(&entry.key), flow(&entry.value));
            format!("{{{}}}", listed(entries.iter().map(pair).collect()))
        }
    }
}

fn key(text: &str) -> String {
    if plain(text) { text.to_owned() } else { quoted(text) }
}

/// It needs no quotes to be read as this very text.
fn plain(text: &str) -> bool {
    let harmless = |letter: char| letter.is_alphanumeric() || " _-.±°%·/²³(),+µ".contains(letter);
    let begins = text.chars().next().is_some_and(|first| first.is_alphanumeric() || first == '-' || first == '.');
    begins && text.chars().all(harmless) && !text.contains(", ") && !text.ends_with([' ', ','])
}

#[cfg(test)]
mod tests {
    use crate::files::{Limits, NoFiles, NoShelf};
    use crate::load::Document;

    const TEXT: &str = "\
a: {size: 12 mm, other: 'x'}   # kept
list:
  - {one: 1}   # behind one
  # above two
  - two: 2
    more: 3    # inside two
  - {three: 3}
last: \"6 mm\" # end";

    fn read(text: &str) -> Document {
        Document::load("spec", text.as_bytes().to_vec(), &NoFiles, &NoShelf, &Limits::default())
    }

    fn scalar(document: &Document, path: [&str; 2]) -> crate::NodeId {
        document.root.get(path[0]).and_then(|inner| inner.get(path[1])).unwrap().id
    }

    #[test]
    fn numbers_and_names_change_and_nothing_else() {
        let document = read(TEXT);
        let last = document.root.get("last").unwrap().id;
        let edits = [
            document.rewrite(last, "7 mm"),
            document.rewrite(scalar(&document, ["a", "size"]), "14 mm"),
            document.rewrite(scalar(&document, ["a", "other"]), "it's"),
        ];
        let after = document.edited(&edits).unwrap();
        let expected = TEXT.replace("12 mm", "14 mm").replace("'x'", "'it''s'").replace("6 mm", "7 mm");
        assert_eq!(after, [(crate::FileId(0), expected)]);
        assert_eq!(document.rewrite(scalar(&document, ["a", "size"]), "a: b").text, "'a: b'");
        assert!(document.edited(&[edits[0].clone(), edits[0].clone()]).is_none(), "they overlap");
    }

    #[test]
    fn a_key_is_added_behind_the_last_one() {
        let text = "a: {one: 1}\nb:\n  one: 1   # first\n  two: {x: 2}   # last\nc: {}\nd: 4";
        let document = read(text);
        let new = document.root.get("b").and_then(|b| b.entry("two")).unwrap();
        let added = |key: &str| {
            let edit = document.added(document.root.get(key).unwrap(), new)?;
            document.edited(&[edit]).map(|texts| texts[0].1.clone())
        };
        assert_eq!(added("a").unwrap(), text.replace("{one: 1}", "{one: 1, two: {x: 2}}"));
        assert_eq!(added("b").unwrap(), text.replace("# last\n", "# last\n  two: {x: 2}\n"));
        assert_eq!(added("c").unwrap(), text.replace("{}", "{two: {x: 2}}"));
    }

    #[test]
    fn a_thing_is_written_anew_on_one_line_and_reads_as_it_was() {
        let text = "a:\n  size: 12 mm   # thin\n  'odd: key': \"5\"\n  list: [x, 'a: b']\nb: {old: 1}   # kept\n";
        let document = read(text);
        let (a, b) = (document.root.get("a").unwrap(), document.root.get("b").unwrap());
        let taken = crate::Node { id: b.id, kind: a.kind.clone() };
        let after = document.edited(&[document.written_anew(&taken)]).unwrap()[0].1.clone();
        assert!(after.ends_with("b: {size: 12 mm, 'odd: key': '5', list: [x, 'a: b']}   # kept\n"), "{after}");
        let again = read(&after);
        assert_eq!(crate::to_json(again.root.get("b").unwrap()), crate::to_json(a));
        let other_way = crate::Node { id: a.id, kind: b.kind.clone() };
        let after = document.edited(&[document.written_anew(&other_way)]).unwrap()[0].1.clone();
        assert_eq!(crate::to_json(read(&after).root.get("a").unwrap()), crate::to_json(b));
        assert!(document.holds(&document.root, a) && !document.holds(a, b));
    }

    #[test]
    fn an_item_moves_with_its_comments() {
        let document = read(TEXT);
        let list = document.root.get("list").unwrap();
        let edit = document.moved(list, 1, 0).unwrap();
        let after = document.edited(&[edit]).unwrap().remove(0).1;
        let expected = "  # above two\n  - two: 2\n    more: 3    # inside two\n  - {one: 1}   # behind one\n";
        assert!(after.contains(expected), "{after}");
        let there = document.edited(&[document.moved(list, 1, 2).unwrap()]).unwrap().remove(0).1;
        let again = read(&there);
        let back = again.moved(again.root.get("list").unwrap(), 2, 1).unwrap();
        assert_eq!(again.edited(&[back]).unwrap()[0].1, TEXT);
        let flow = read("list: [a, b]");
        assert!(flow.moved(flow.root.get("list").unwrap(), 0, 1).is_none());
    }

    #[test]
    fn the_last_item_of_a_text_without_a_last_line_break_moves_too() {
        let document = read("list:\n  - a\n  - b");
        let edit = document.moved(document.root.get("list").unwrap(), 1, 0).unwrap();
        assert_eq!(document.edited(&[edit]).unwrap()[0].1, "list:\n  - b\n  - a");
    }
}
