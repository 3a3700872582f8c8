//! Springs and bushes in stock, tried where the machine has one of its own.

use super::change::Change;
use machine::{Document, Entry, Node, NodeKind};

/// For each spring and plain bush of the machine, by its path, what could take its place.
pub(super) fn tries(document: &Document) -> Vec<(String, Vec<Change>)> {
    let root = &document.root;
    let shelf = |name: &str| root.get("stock").and_then(|stock| stock.get(name)).map(Node::entries).unwrap_or_default();
    let mut tries = Vec::new();
    for corner in root.get("suspension").map(Node::entries).unwrap_or_default() {
        let Some(spring) = corner.value.get("spring") else { continue };
        let changes = shelf("springs").iter().filter_map(|kept| spring_for(spring, kept)).collect();
        tries.push((format!("suspension.{}.spring", corner.key), changes));
    }
    let bearings = root.get("powertrain").and_then(|powertrain| powertrain.get("bearings"));
    for bearing in bearings.map(Node::entries).unwrap_or_default() {
        let changes = shelf("bearings").iter().filter_map(|kept| bush_for(document, &bearing.value, kept)).collect();
        tries.push((format!("powertrain.bearings.{}", bearing.key), changes));
    }
    tries.retain(|(_, changes): &(String, Vec<Change>)| !changes.is_empty());
    tries
}

/// A spring is taken whole: what was measured on the old one is not true of the new one.
fn spring_for(spring: &Node, kept: &Entry) -> Option<Change> {
    let with = Node { id: spring.id, kind: kept.value.kind.clone() };
    matches!(spring.kind, NodeKind::Map(_)).then(|| Change::Thing {
        node: spring.id,
        from: format!("stock.springs.{}", kept.key),
        with,
        whole: true,
    })
}

/// Of a bush the sizes are taken; load, dirt and the axle stay those of the place.
fn bush_for(document: &Document, bearing: &Node, kept: &Entry) -> Option<Change> {
    let plain = |node: &Node| node.get("kind").and_then(Node::text) == Some("plain");
    if !plain(bearing) || !plain(&kept.value) {
        return None;
    }
    let mut entries = bearing.entries().to_vec();
    for new in kept.value.entries() {
        match entries.iter_mut().find(|old| old.key == new.key) {
            // What stands in another place may belong to others as well.
            Some(old) if old.value.text() != new.value.text() && !document.holds(bearing, &old.value) => return None,
            Some(old) => old.value = Node { id: old.value.id, kind: new.value.kind.clone() },
            None => entries.push(new.clone()),
        }
    }
    let with = Node { id: bearing.id, kind: NodeKind::Map(entries) };
    Some(Change::Thing { node: bearing.id, from: format!("stock.bearings.{}", kept.key), with, whole: false })
}
