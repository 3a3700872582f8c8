//! A document read into types, with the names of what it lacks.

use crate::fields::{Fields, Refusal};
use crate::given::Given;
use crate::named::{Named, Ref};
use crate::row::Row;
use crate::sections::{
    Bearing, Case, Cell, ConnectorClass, Coolant, Corner, Hose, Insulation, Material, Oil, Part, Profile, Shaft, Spec,
    Workshop, Zone,
};
use crate::workshop;
use document::{Document, Field, Node, NodeId, Reading, Swaps};
use quantity::Measure;
use run_log::Digest;
use serde::de::DeserializeOwned;
use std::ops::Deref;
use std::sync::Arc;

/// One machine, read once and then only looked at: its structure, and a row of numbers beside it.
#[derive(Debug)]
pub struct Machine {
    spec: Spec,
    row: Row,
    fields: Fields,
    workshop: Workshop,
    logs: Vec<(NodeId, Arc<Digest>)>,
}

impl Deref for Machine {
    type Target = Spec;
    fn deref(&self) -> &Spec {
        &self.spec
    }
}

/// Types and numbers of one tree.
pub(crate) struct Tree<T> {
    pub value: T,
    pub fields: Fields,
    pub row: Row,
}

/// Reads a tree into types; else all that is refused in it.
pub(crate) fn tree<T: DeserializeOwned>(root: &Node, end: NodeId, swaps: &Swaps) -> Result<Tree<T>, Vec<Refusal>> {
    let reading = Reading::new(root, end, swaps);
    let read = reading.read::<T>();
    let (fields, row, misread) = Fields::read(&reading.fields(), end);
    match read {
        Ok(value) if misread.is_empty() => Ok(Tree { value, fields, row }),
        read => {
            let shapes = read.err().into_iter().flatten().map(Refusal::Shape);
            Err(shapes.chain(misread).collect())
        }
    }
}

/// All that a spec's types refuse in a tree whose nodes have ids below `end`.
#[must_use]
pub fn refusals(root: &Node, end: NodeId) -> Vec<Refusal> {
    tree::<Spec>(root, end, &Swaps::new()).err().unwrap_or_default()
}

impl Machine {
    /// Reads the joined tree of a document, with discrete changes if there are any.
    ///
    /// # Errors
    /// All that the types refuse; [`crate::complaints`] says it in words.
    pub fn read(document: &Document, swaps: &Swaps) -> Result<Self, Vec<Refusal>> {
        let workshop = workshop::read(document)?;
        let Tree { value: mut spec, fields, row } = tree::<Spec>(&document.root, document.end(), swaps)?;
        if workshop.profile == Some(Profile::Carrier) {
            spec.machine.people_near.get_or_insert(true);
        }
        // Swaps change which column is asked for, never what the file holds.
        let logs = document.logs.iter().filter_map(|log| Some((log.of, Arc::clone(log.digest.as_ref()?)))).collect();
        Ok(Self { spec, row, fields, workshop, logs })
    }

    /// What is written: the numbers by node.
    #[must_use]
    pub fn row(&self) -> &Row {
        &self.row
    }

    /// What each place of the spec is asked for.
    #[must_use]
    pub fn fields(&self) -> &Fields {
        &self.fields
    }

    /// Whether the spec, a library or the catalogue says it.
    #[must_use]
    pub fn is_given<M: Measure>(&self, given: &Given<M>) -> bool {
        self.row.si(given.id()).is_some()
    }

    /// What is required of all machines of the repository; nothing where no file says it.
    #[must_use]
    pub fn workshop(&self) -> &Workshop {
        &self.workshop
    }

    /// What the log of a case holds. Whoever asks has asked the reader for the log and for the columns first.
    #[must_use]
    pub fn log(&self, case: &Named<Case>) -> Option<&Digest> {
        self.logs.iter().find(|(of, _)| *of == case.id()).map(|(_, digest)| &**digest)
    }

    /// What an absent field's id stands for.
    #[must_use]
    pub fn absent(&self, id: NodeId) -> Option<&Field> {
        self.fields.absent(id)
    }

    /// The nearest map that is really written, above an absent field; the id itself if it is written.
    #[must_use]
    pub fn written(&self, id: NodeId) -> NodeId {
        let mut id = id;
        while let Some(absent) = self.absent(id) {
            id = absent.parent;
        }
        id
    }

    /// The keys that lead from the nearest written map to an absent field: `damper.bore`. Empty for a written node.
    #[must_use]
    pub fn absent_path(&self, id: NodeId) -> String {
        let mut fields = Vec::new();
        let mut id = id;
        while let Some(absent) = self.absent(id) {
            fields.push(absent.field);
            id = absent.parent;
        }
        fields.reverse();
        fields.join(".")
    }

    /// Whether the section to which a field belongs is written at all: a machine without `battery:` has none to judge.
    #[must_use]
    pub fn has_section_of(&self, field: NodeId) -> bool {
        self.absent(field).is_none() || !self.absent_path(field).contains('.')
    }

    /// The thing that a reference names. References were resolved when they were read.
    #[must_use]
    pub fn follow<T: Shelved>(&self, reference: &Ref<T>) -> &Named<T> {
        T::find(&self.spec, reference.index)
    }

    /// What a reference to any touching thing names.
    #[must_use]
    pub fn thing(&self, reference: &Ref<crate::sections::Thing>) -> ThingRef<'_> {
        match reference.section {
            0 => ThingRef::Part(Part::find(&self.spec, reference.index)),
            1 => ThingRef::Bearing(Bearing::find(&self.spec, reference.index)),
            _ => ThingRef::Shaft(Shaft::find(&self.spec, reference.index)),
        }
    }
}

/// A part, a bearing or a shaft.
#[derive(Debug, Clone, Copy)]
pub enum ThingRef<'a> {
    Part(&'a Named<Part>),
    Bearing(&'a Named<Bearing>),
    Shaft(&'a Named<Shaft>),
}

impl ThingRef<'_> {
    /// The node of the key that holds it.
    #[must_use]
    pub fn id(&self) -> NodeId {
        match self {
            Self::Part(part) => part.id(),
            Self::Bearing(bearing) => bearing.id(),
            Self::Shaft(shaft) => shaft.id(),
        }
    }
}

/// Types that live in a map of named things.
pub trait Shelved: Sized + 'static {
    #[doc(hidden)]
    fn find(spec: &Spec, index: usize) -> &Named<Self>;
}

macro_rules! shelved {
    ($($t:ty => $($path:ident).+;)*) => {$(
        impl Shelved for $t {
            #[allow(clippy::expect_used, reason = "the deserializer resolved the index in this very map")]
            fn find(spec: &Spec, index: usize) -> &Named<Self> {
                spec.$($path).+.get(index).expect("a resolved reference")
            }
        }
    )*};
}

shelved! {
    Material => materials;
    Coolant => coolants;
    Oil => oils;
    Cell => cells;
    Insulation => insulations;
    ConnectorClass => connectors;
    Zone => zones;
    Case => cases;
    Part => structure.parts;
    Bearing => powertrain.bearings;
    Shaft => powertrain.shafts;
    Hose => cooling.hoses;
    Corner => suspension;
}
