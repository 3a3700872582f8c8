//! What every place of a spec is asked for, by id and by path: made once, in the reading of the types, and asked by
//! everything that needs to know what stands where.

use crate::given::may_be_none;
use crate::reserve;
use crate::row::Row;
use document::{Asks, DeError, Field, NodeId, Noted, as_number};
use quantity::{Kind, Misread, m};
use std::collections::HashMap;

/// Every field that the types asked for, written or absent.
#[derive(Debug, Clone)]
pub struct Fields {
    /// In the order of reading: a block before its fields.
    all: Vec<Field>,
    written: HashMap<NodeId, usize>,
    /// Ids from here on were given to what has no node of its own: two apart, in the order of `unwritten`.
    first_free: NodeId,
    unwritten: Vec<usize>,
    absent: Vec<bool>,
}

/// Why a spec is refused.
#[derive(Debug, Clone, PartialEq)]
pub enum Refusal {
    /// By the types.
    Shape(DeError),
    /// A text is no number of its measure.
    Number {
        at: NodeId,
        text: String,
        misread: Misread,
    },
    Reserve {
        at: NodeId,
        says: String,
        help: &'static str,
    },
    /// A point of a table is not above the one before it.
    NotRising {
        table: NodeId,
        at: NodeId,
    },
}

impl Fields {
    /// Reads the numbers of all fields, into the row; and all that are misread.
    pub(crate) fn read(noted: &[Noted<'_>], first_free: NodeId) -> (Self, Row, Vec<Refusal>) {
        let unwritten = noted.iter().filter(|noted| noted.field.node >= first_free).count();
        let mut row = Row::absent(first_free.index() + 2 * unwritten);
        let mut refused = Vec::new();
        let mut fields = Self {
            all: Vec::with_capacity(noted.len()),
            written: HashMap::with_capacity(noted.len()),
            first_free,
            unwritten: Vec::with_capacity(unwritten),
            absent: Vec::with_capacity(unwritten),
        };
        let mut last_point: Option<(NodeId, f64)> = None;
        for (place, Noted { field, absent, says }) in noted.iter().enumerate() {
            fields.all.push(*field);
            if field.node >= first_free {
                fields.unwritten.push(place);
                fields.absent.push(*absent);
            } else {
                fields.written.entry(field.node).or_insert(place);
            }
            let number = says.and_then(|(text, plain)| as_number(text, plain));
            let text = says.map_or("", |(text, _)| text);
            let at = field.node;
            let misread = |misread| Refusal::Number { at, text: text.to_owned(), misread };
            match field.asks {
                Asks::Table => last_point = None,
                Asks::Reserve => {
                    let wrong = says.and_then(|_| reserve::misread(number, text));
                    refused.extend(wrong.map(|(says, help)| Refusal::Reserve { at, says, help }));
                }
                Asks::Number(key) | Asks::Point(key) if says.is_some() => {
                    let Some(kind) = m::named(key) else { continue };
                    if text == "none" && may_be_none(kind) {
                        row.set_none(at);
                        continue;
                    }
                    let read = match number {
                        Some(number) if kind.bare => quantity::read_bare(number, kind),
                        _ => quantity::read(text, kind),
                    };
                    match read {
                        Ok(written) => {
                            row.set(at, &written);
                            if matches!(field.asks, Asks::Point(_)) {
                                let table = field.parent;
                                if last_point.is_some_and(|(of, si)| of == table && si >= written.si) {
                                    refused.push(Refusal::NotRising { table, at });
                                }
                                last_point = Some((table, written.si));
                            }
                        }
                        Err(wrong) => refused.push(misread(wrong)),
                    }
                }
                Asks::Range(key) if says.is_some() => {
                    let Some(kind) = m::named(key) else { continue };
                    match quantity::read_range(text, kind) {
                        Ok((low, high)) => {
                            row.set(at, &low);
                            row.set(at.upper(), &high);
                        }
                        Err(wrong) => refused.push(misread(wrong)),
                    }
                }
                _ => {}
            }
        }
        (fields, row, refused)
    }

    /// Every field, a block before its own.
    #[must_use]
    pub fn all(&self) -> &[Field] {
        &self.all
    }

    /// What is known of a node, written or absent; of one that is used several times, its first use. None for what no type
    /// asked for.
    #[must_use]
    pub fn of(&self, id: NodeId) -> Option<&Field> {
        let id = id.node();
        let place = match id.0.checked_sub(self.first_free.0) {
            Some(offset) => self.unwritten.get((offset / 2) as usize),
            None => self.written.get(&id),
        };
        self.all.get(*place?)
    }

    /// The measure of a number, or of either end of a range.
    #[must_use]
    pub fn kind(&self, id: NodeId) -> Option<&'static Kind> {
        match self.of(id)?.asks {
            Asks::Number(key) | Asks::Range(key) | Asks::Point(key) => m::named(key),
            _ => None,
        }
    }

    /// What an absent field's id stands for.
    #[must_use]
    pub fn absent(&self, id: NodeId) -> Option<&Field> {
        let offset = (id.node().0.checked_sub(self.first_free.0)? / 2) as usize;
        let absent = self.absent.get(offset).copied().unwrap_or(false);
        self.unwritten.get(offset).filter(|_| absent).and_then(|place| self.all.get(*place))
    }

    /// All absent fields, in the order of their ids.
    pub fn all_absent(&self) -> impl Iterator<Item = (NodeId, &Field)> {
        let places = self.unwritten.iter().zip(&self.absent).filter(|(_, absent)| **absent);
        places.filter_map(|(place, _)| self.all.get(*place)).map(|field| (field.node, field))
    }
}
