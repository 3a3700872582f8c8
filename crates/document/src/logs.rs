//! Logs of test runs that the spec names: `log:` beside `columns:`, in any map that is an entry of another one.

use crate::deserializer::number;
use crate::files::Files;
use crate::load::Document;
use crate::node::{Entry, Node, NodeId, Place};
use crate::trouble::{Trouble, Why};
use run_log::{Column, Digest, Role};
use std::sync::Arc;

/// One log as the spec names it.
#[derive(Debug, Clone)]
pub struct Log {
    /// The node of the key that holds the map: what is `like` it has a log of its own, for its columns may be others.
    pub of: NodeId,
    /// The file, as it is known from now on.
    pub name: String,
    /// Nothing where the spec does not say which column is the time.
    pub digest: Option<Arc<Digest>>,
}

/// What has been read, so that no file is read twice for the same columns.
type Known = Vec<(String, Vec<Column>, Option<Arc<Digest>>)>;

/// Reads all logs of a tree, each from its first byte to its last.
pub(crate) fn read(document: &Document, files: &dyn Files) -> (Vec<Log>, Vec<Trouble>) {
    let (mut logs, mut troubles, mut known) = (Vec::new(), Vec::new(), Known::new());
    document.root.walk(&mut |node| {
        for entry in node.entries() {
            if let (Some(log), Some(columns)) = (entry.value.get("log"), entry.value.get("columns")) {
                match one(document, files, entry, (log, columns), &mut known) {
                    Ok(log) => logs.extend(log),
                    Err(trouble) => troubles.push(trouble),
                }
            }
        }
    });
    (logs, troubles)
}

fn one(
    document: &Document,
    files: &dyn Files,
    entry: &Entry,
    (log, wanted): (&Node, &Node),
    known: &mut Known,
) -> Result<Option<Log>, Trouble> {
    // What is no name is refused where the types are read.
    let Some(written) = log.text().filter(|_| number(log).is_none()) else { return Ok(None) };
    let Place { file, label, .. } = document.place(log.id);
    let from = document.file(file).map_or("", |file| &file.name);
    let says = |at: Place, why| Trouble { file: at.file, span: at.label, why };
    let opened = files.open(from, written);
    let (name, input) =
        opened.map_err(|trouble| Trouble { file, span: label, why: Why::Log { name: written.to_owned(), trouble } })?;
    let (columns, headings) = columns(wanted);
    let same = known.iter().find(|(other, others, _)| *other == name && *others == columns);
    let digest = match same {
        Some((_, _, digest)) => digest.clone(),
        None => {
            let digest = run_log::read(input, &columns).map_err(|trouble| {
                // A heading that is not there is shown where it was written.
                let heading = match &trouble.why {
                    run_log::Why::NoHeading { role, .. } => headings.iter().find(|(of, _)| of == role),
                    _ => None,
                };
                let at = heading.map_or(log.id, |(_, heading)| *heading);
                says(document.place(at), Why::InLog { name: name.clone(), trouble: Box::new(trouble) })
            })?;
            let digest = digest.map(Arc::new);
            known.push((name.clone(), columns, digest.clone()));
            digest
        }
    };
    Ok(Some(Log { of: entry.key_id, name, digest }))
}

/// Columns with a heading, and the nodes of their headings. One without unit is read too: whether there is such a column
/// can be said before its unit is known.
fn columns(wanted: &Node) -> (Vec<Column>, Vec<(Role, NodeId)>) {
    let (mut columns, mut headings) = (Vec::new(), Vec::new());
    for entry in wanted.entries() {
        let heading = entry.value.get("heading");
        let text = |node: Option<&Node>| node.and_then(Node::text).unwrap_or("").to_owned();
        if let (Some(role), Some(heading)) = (Role::of(&entry.key), heading) {
            headings.push((role, heading.id));
            columns.push(Column { role, heading: text(Some(heading)), unit: text(entry.value.get("unit")) });
        }
    }
    (columns, headings)
}
