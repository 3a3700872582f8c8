//! Reads `workshop.yaml`, and says what in it the rulebook does not know. Names of rules are only compared here.

use crate::complaint::{Complaint, Note};
use crate::fields::Refusal;
use crate::machine::tree;
use crate::named::Named;
use crate::sections::{RequiredReserve, Workshop};
use document::{Document, Node, NodeId, Swaps, nearest};

/// What the file says; nothing where there is none.
pub(crate) fn read(document: &Document) -> Result<Workshop, Vec<Refusal>> {
    let Some(root) = root(document) else { return Ok(Workshop::default()) };
    tree(root, document.end(), &Swaps::new()).map(|tree| tree.value)
}

pub(crate) fn root(document: &Document) -> Option<&Node> {
    document.workshop.as_ref()?.root.as_ref()
}

/// The names of all rules that have reserves, and of those that only look at the others' margins.
#[derive(Debug, Clone, Copy)]
pub struct Rulebook<'a> {
    pub rules: &'a [&'static str],
    pub overviews: &'a [&'static str],
}

/// Reserves that cannot be required of any machine, in the order of the text.
#[must_use]
pub fn misfits(document: &Document, workshop: &Workshop, rulebook: Rulebook<'_>) -> Vec<Complaint> {
    let mut all: Vec<Complaint> = Vec::new();
    for (index, reserve) in workshop.reserves.iter().enumerate() {
        all.extend(unknown_rule(document, reserve, rulebook));
        let key = reserve.key.id;
        if reserve.rule.is_none() && reserve.area.is_none() && reserve.on.is_none() {
            let says = format!("the reserve `{}` does not say what it is for", reserve.name());
            all.push(complaint(document, key, says, "add `rule:`, `area:` or `on:` to it".into()));
        }
        if reserve.reason.trim().is_empty() {
            let says = format!("the reserve `{}` has an empty reason", reserve.name());
            let at = field(document, key, "reason");
            all.push(complaint(document, at, says, "say in a few words why this much is required".into()));
        }
        let same = |other: &&Named<RequiredReserve>| {
            (&other.rule, other.area, &other.on) == (&reserve.rule, reserve.area, &reserve.on)
                && other.reserve.is_like(&reserve.reserve)
        };
        if let Some(first) = workshop.reserves.iter().take(index).find(same) {
            let says =
                format!("`{}` requires something else of the same margins as `{}`", reserve.name(), first.name());
            let mut twice = complaint(document, key, says, "keep one of the two".into());
            let place = document.place(first.key.id);
            twice.also = Some(Note { file: place.file, span: place.label, says: "the first of the two".into() });
            all.push(twice);
        }
    }
    all.sort();
    all
}

fn unknown_rule(document: &Document, reserve: &Named<RequiredReserve>, rulebook: Rulebook<'_>) -> Option<Complaint> {
    let name = reserve.rule.as_deref().filter(|name| !rulebook.rules.contains(name))?;
    let at = field(document, reserve.key.id, "rule");
    if rulebook.overviews.contains(&name) {
        let says = format!("`{name}` looks at the margins of all rules and has no reserve of its own");
        return Some(complaint(
            document,
            at,
            says,
            "name the rule whose reserve you mean; `dryfit rule` lists them".into(),
        ));
    }
    let near = nearest(name, rulebook.rules.iter().copied());
    let help = near.map_or_else(|| "`dryfit rule` lists them".to_owned(), |near| format!("did you mean `{near}`?"));
    Some(complaint(document, at, format!("no rule is called `{}`", crate::complaint::clip(name)), help))
}

/// The value of a field of the thing under a key; the key itself where it is copied from elsewhere.
fn field(document: &Document, key: NodeId, field: &str) -> NodeId {
    let reserves = root(document).and_then(|root| root.get("reserves"));
    let thing = reserves.and_then(|all| all.entries().iter().find(|entry| entry.key_id == key));
    thing.and_then(|thing| thing.value.get(field)).map_or(key, |value| value.id)
}

fn complaint(document: &Document, at: NodeId, says: String, help: String) -> Complaint {
    let place = document.place(at);
    Complaint { file: place.file, span: place.label, says, help, also: None }
}
