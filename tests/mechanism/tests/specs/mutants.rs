//! Examples with some of their numbers drawn anew.

use document::{Document, FileId, Kind as NodeKind, NodeId};
use machine::{Asks, Machine, Swaps};
use quantity::{End, Kind, m, rewritten};
use std::collections::BTreeMap;

/// Marsaglia's xorshift (Journal of Statistical Software 8 (2003), published): the same numbers on every machine.
pub struct Draw(u64);

impl Draw {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }
    /// Below `count`.
    pub fn one_of(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }
    /// Between 0 and 1.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }
}

/// A written number that can be drawn anew.
pub struct Number {
    pub node: NodeId,
    kind: &'static Kind,
    text: String,
    ranged: bool,
}

/// All of a document's own.
pub fn numbers(document: &Document) -> Vec<Number> {
    let mut found = BTreeMap::new();
    document.root.walk(&mut |node| {
        let own = document.file(document.place(node.id).file).is_some_and(|file| !file.built_in);
        let NodeKind::Scalar { text, .. } = &node.kind else { return };
        if own && text.contains(|letter: char| letter.is_ascii_digit()) {
            found.insert(node.id, text.to_string());
        }
    });
    let machine = Machine::read(document, &Swaps::new()).expect("an example is sound");
    let number = |(node, text): (NodeId, String)| match machine.fields().of(node)?.asks {
        Asks::Number(key) => Some(Number { node, kind: m::named(key)?, text, ranged: false }),
        Asks::Range(key) => Some(Number { node, kind: m::named(key)?, text, ranged: true }),
        _ => None,
    };
    found.into_iter().filter_map(number).collect()
}

impl Number {
    /// Another number in its place: half as much again or two thirds at most, of a temperature 15 K more or less.
    fn drawn(&self, draw: &mut Draw) -> Option<String> {
        let end = if self.ranged && draw.one_of(2) == 0 { End::High } else { End::Low };
        let (low, high) = quantity::read_range(&self.text, self.kind).ok().or_else(|| {
            let bare = quantity::read_bare(self.text.parse().ok()?, self.kind).ok()?;
            Some((bare, bare))
        })?;
        let written = if end == End::High { high } else { low };
        let unit = written.unit.or(high.unit);
        let (factor, offset) = unit.map_or((1.0, 0.0), |unit| (unit.factor, unit.offset));
        let drawn = if self.kind.key == "temperature" {
            written.si + (draw.share() - 0.5) * 30.0
        } else {
            written.si * 1.5_f64.powf(2.0 * draw.share() - 1.0)
        };
        let number = (drawn - offset) / factor;
        let number = if self.kind.whole { number.round().max(1.0) } else { (number * 1e4).round() / 1e4 };
        rewritten(&self.text, self.kind, end, &format!("{number}"))
    }
}

/// The texts of a document's own files with up to three numbers drawn anew; with `still` the air outside does not change, so
/// that each case has one point.
pub fn mutant(document: &Document, numbers: &[Number], draw: &mut Draw, still: bool) -> BTreeMap<FileId, String> {
    let mut edits = BTreeMap::new();
    for _ in 0..=draw.one_of(3) {
        let number = &numbers[draw.one_of(numbers.len())];
        if let Some(text) = number.drawn(draw) {
            edits.insert(number.node, document.rewrite(number.node, &text));
        }
    }
    let air = document.root.get("environment").and_then(|environment| environment.get("air"));
    if let (true, Some(air)) = (still, air) {
        let (low, high) =
            quantity::read_range(air.text().unwrap(), <m::Temperature as quantity::Measure>::KIND).unwrap();
        let one = low.si + draw.share() * (high.si - low.si) - 273.15;
        edits.insert(air.id, document.rewrite(air.id, &format!("{one:.1} °C")));
    }
    let edits: Vec<_> = edits.into_values().collect();
    document.edited(&edits).unwrap().into_iter().collect()
}
