//! Sets of nodes: a bit each while they are noted, because a loop that is solved step by step asks for the same figure a
//! thousand times; afterwards only the words with anything in them, because there are thousands of such sets.

use document::NodeId;

const BITS: usize = u64::BITS as usize;

/// Nodes, in rising order and each once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Nodes {
    /// Place and bits of each word that is not empty, in rising order.
    words: Vec<(u32, u64)>,
}

impl Nodes {
    pub fn extend(&mut self, other: &Self) {
        let mut both = Marks::default();
        both.extend(self);
        both.extend(other);
        *self = both.nodes();
    }

    #[must_use]
    pub fn contains(&self, id: NodeId) -> bool {
        let place = id.index() / BITS;
        let found = self.words.binary_search_by_key(&place, |word| word.0 as usize);
        found.ok().and_then(|at| self.words.get(at)).is_some_and(|word| word.1 & bit(id) != 0)
    }

    #[must_use]
    pub fn len(&self) -> usize {
        self.words.iter().map(|word| word.1.count_ones() as usize).sum()
    }

    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.words.is_empty()
    }

    pub fn iter(&self) -> impl Iterator<Item = NodeId> {
        self.words.iter().flat_map(|(place, bits)| {
            let mut left = *bits;
            std::iter::from_fn(move || {
                let bit = left.trailing_zeros();
                left &= left.wrapping_sub(1);
                (bit < u64::BITS).then(|| NodeId(place * u64::BITS + bit))
            })
        })
    }
}

fn bit(id: NodeId) -> u64 {
    1 << (id.index() % BITS)
}

/// The nodes that are noted so far.
#[derive(Debug, Default)]
pub struct Marks {
    words: Vec<u64>,
}

impl Marks {
    /// So many words at a time: those of a whole machine.
    const ROOM: usize = 128;

    /// Takes one in; what stands in no text is nowhere to be found again, and is left out.
    pub fn insert(&mut self, id: NodeId) {
        if id.node() != NodeId::NOWHERE {
            self.mark(id.index() / BITS, bit(id));
        }
    }

    pub fn extend(&mut self, nodes: &Nodes) {
        for (place, bits) in &nodes.words {
            self.mark(*place as usize, *bits);
        }
    }

    fn mark(&mut self, place: usize, bits: u64) {
        if self.words.len() <= place {
            self.words.resize((place + 1).next_multiple_of(Self::ROOM), 0);
        }
        if let Some(word) = self.words.get_mut(place) {
            *word |= bits;
        }
    }

    #[must_use]
    pub fn nodes(&self) -> Nodes {
        let mut words = Vec::with_capacity(self.words.iter().filter(|bits| **bits != 0).count());
        words.extend((0_u32..).zip(&self.words).filter(|(_, bits)| **bits != 0).map(|(place, bits)| (place, *bits)));
        Nodes { words }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn it_holds_what_a_set_holds_in_the_same_order() {
        let (mut marks, mut set) = (Marks::default(), BTreeSet::new());
        assert!(marks.nodes().is_empty() && marks.nodes().iter().next().is_none());
        let mut id = 7_u32;
        for _ in 0..500 {
            id = id.wrapping_mul(48_271) % 4_099;
            marks.insert(NodeId(id));
            set.insert(NodeId(id));
        }
        marks.insert(NodeId::NOWHERE);
        marks.insert(NodeId::NOWHERE.upper());
        let nodes = marks.nodes();
        assert!(nodes.iter().eq(set.iter().copied()) && nodes.len() == set.len());
        assert!((0..5_000).all(|id| nodes.contains(NodeId(id)) == set.contains(&NodeId(id))));
    }

    #[test]
    fn two_sets_are_joined_however_they_lie() {
        let set = |ids: &[u32]| {
            let mut marks = Marks::default();
            ids.iter().for_each(|id| marks.insert(NodeId(*id)));
            marks.nodes()
        };
        for (one, other, both) in [
            (&[63][..], &[64][..], &[63, 64][..]),
            (&[1, 5_000], &[3, 200, 5_001], &[1, 3, 200, 5_000, 5_001]),
            (&[], &[700], &[700]),
            (&[9], &[], &[9]),
        ] {
            let (mut joined, mut turned, mut marked) = (set(one), set(other), Marks::default());
            joined.extend(&set(other));
            turned.extend(&set(one));
            [one, other].iter().for_each(|ids| marked.extend(&set(ids)));
            assert!(joined == turned && joined == marked.nodes() && joined == set(both), "{one:?} {other:?}");
        }
    }
}
