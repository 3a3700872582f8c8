//! Where a figure comes from, as its file says it: beside the figure, for the figure by name, or for the whole entry.

use machine::{Basis, Document, NodeId};

/// The basis of a written node; none where nobody says it.
#[must_use]
pub fn basis_of(document: &Document, node: NodeId) -> Option<Basis> {
    let word = said(document, node, "basis")?;
    match word.as_str() {
        "published" => Some(Basis::Published),
        "common_practice" => Some(Basis::CommonPractice),
        "from_memory" => Some(Basis::FromMemory),
        "measured" => Some(Basis::Measured),
        _ => None,
    }
}

/// The source that its file names.
#[must_use]
pub fn source_of(document: &Document, node: NodeId) -> Option<String> {
    said(document, node, "source")
}

fn said(document: &Document, node: NodeId, what: &str) -> Option<String> {
    let path = document.path(node);
    let mut steps: Vec<&str> = path.split('.').collect();
    let mut field = steps.pop()?;
    while !steps.is_empty() {
        let here = steps.iter().try_fold(&document.root, |at, step| at.get(step));
        let own = here
            .and_then(|here| here.get("figures"))
            .and_then(|figures| figures.get(field))
            .and_then(|figure| figure.get(what));
        if let Some(text) = own.or_else(|| here.and_then(|here| here.get(what))).and_then(|text| text.text()) {
            return Some(text.to_owned());
        }
        field = steps.pop()?;
    }
    None
}
