//! A set of nodes: one bit each, because a loop that is solved step by step asks for the same figure a thousand times.

use document::NodeId;

/// Nodes, in rising order and each once.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Nodes {
    /// The last word is never empty, so that equal sets are equal bit for bit.
    words: Vec<u64>,
}

impl Nodes {
    /// Takes one in; what stands in no text is nowhere to be found again, and is left out.
    pub fn insert(&mut self, id: NodeId) {
        if id.node() == NodeId::NOWHERE {
            return;
        }
        let (word, bit) = (id.index() / 64, 1 << (id.index() % 64));
        if self.words.len() <= word {
            self.words.resize(word + 1, 0);
        }
        if let Some(bits) = self.words.get_mut(word) {
            *bits |= bit;
        }
    }

    pub fn extend(&mut self, other: &Self) {
        if self.words.len() < other.words.len() {
            self.words.resize(other.words.len(), 0);
        }
        self.words.iter_mut().zip(&other.words).for_each(|(mine, theirs)| *mine |= theirs);
    }

    #[must_use]
    pub fn contains(&self, id: NodeId) -> bool {
        self.words.get(id.index() / 64).is_some_and(|bits| bits & (1 << (id.index() % 64)) != 0)
    }

    #[must_use]
    pub fn len(&self) -> usize {
        self.words.iter().map(|bits| bits.count_ones() as usize).sum()
    }

    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.words.is_empty()
    }

    pub fn iter(&self) -> impl Iterator<Item = NodeId> {
        self.words.iter().enumerate().flat_map(|(word, bits)| {
            let mut left = *bits;
            std::iter::from_fn(move || {
                let bit = left.trailing_zeros();
                left &= left.wrapping_sub(1);
                (bit < 64).then(|| NodeId(word as u32 * 64 + bit))
            })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn it_holds_what_a_set_holds_in_the_same_order() {
        let (mut nodes, mut set) = (Nodes::default(), BTreeSet::new());
        assert!(nodes.is_empty() && nodes.iter().next().is_none());
        let mut id = 7_u32;
        for _ in 0..500 {
            id = id.wrapping_mul(48_271) % 4_099;
            nodes.insert(NodeId(id));
            set.insert(NodeId(id));
        }
        nodes.insert(NodeId::NOWHERE);
        nodes.insert(NodeId::NOWHERE.upper());
        assert!(nodes.iter().eq(set.iter().copied()) && nodes.len() == set.len());
        assert!((0..5_000).all(|id| nodes.contains(NodeId(id)) == set.contains(&NodeId(id))));
        let (mut one, mut other) = (Nodes::default(), Nodes::default());
        one.insert(NodeId(63));
        other.insert(NodeId(64));
        let mut both = one.clone();
        both.extend(&other);
        other.extend(&one);
        assert_eq!(both, other);
        assert_eq!(both.iter().collect::<Vec<_>>(), [NodeId(63), NodeId(64)]);
    }
}
