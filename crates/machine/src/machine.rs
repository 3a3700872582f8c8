//! A document read into types, with the names of what it lacks.

use crate::named::{Named, Ref};
use crate::sections::{
    Bearing, Case, Cell, ConnectorClass, Coolant, Corner, Hose, Insulation, Material, Oil, Part, Profile, Shaft, Spec,
    Workshop, Zone,
};
use crate::workshop;
use document::{Absent, DeError, Document, NodeId, Reading, Swaps};
use run_log::Digest;
use std::ops::Deref;
use std::sync::Arc;

/// One machine, read once and then only looked at.
#[derive(Debug)]
pub struct Machine {
    spec: Spec,
    workshop: Workshop,
    absent: Vec<Absent>,
    first_absent: NodeId,
    logs: Vec<(NodeId, Arc<Digest>)>,
}

impl Deref for Machine {
    type Target = Spec;
    fn deref(&self) -> &Spec {
        &self.spec
    }
}

impl Machine {
    /// Reads the joined tree of a document, with discrete changes if there are any.
    ///
    /// # Errors
    /// The first thing that the types refuse; [`crate::complaints`] gives all of them in words.
    pub fn read(document: &Document, swaps: &Swaps) -> Result<Self, DeError> {
        let reading = Reading::new(&document.root, document.end(), swaps);
        let mut spec: Spec = reading.read()?;
        let workshop = workshop::read(document)?;
        if workshop.profile == Some(Profile::Carrier) {
            spec.machine.people_near.get_or_insert(true);
        }
        // Swaps change which column is asked for, never what the file holds.
        let logs = document.logs.iter().filter_map(|log| Some((log.of, Arc::clone(log.digest.as_ref()?)))).collect();
        Ok(Self { spec, workshop, absent: reading.absent(), first_absent: document.end(), logs })
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
    pub fn absent(&self, id: NodeId) -> Option<&Absent> {
        let offset = id.node().0.checked_sub(self.first_absent.0)?;
        self.absent.get((offset / 2) as usize)
    }

    /// Ids of all absent fields, in order.
    pub fn all_absent(&self) -> impl Iterator<Item = (NodeId, &Absent)> {
        (self.first_absent.0..).step_by(2).map(NodeId).zip(&self.absent)
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
