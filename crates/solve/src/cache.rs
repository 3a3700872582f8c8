//! Solutions of one case point as they were worked out, each under its type. It never knows which there are.

use machine::{Found, Reads};
use std::any::{Any, TypeId};
use std::sync::{Arc, OnceLock};

/// One solution: the result, and everything that it read (also through other solutions).
#[derive(Debug)]
pub(crate) struct Cached<T> {
    pub result: Found<T>,
    pub reads: Reads,
    /// The solutions that it asked for, directly or through another one.
    pub asked: Vec<TypeId>,
}

/// A cached solution of any type.
trait AnySolution: Any + Send + Sync {
    fn reads(&self) -> &Reads;
    fn as_any(&self) -> &dyn Any;
}

impl<T: Send + Sync + 'static> AnySolution for Cached<T> {
    fn reads(&self) -> &Reads {
        &self.reads
    }
    fn as_any(&self) -> &dyn Any {
        self
    }
}

struct Entry {
    of: TypeId,
    cached: Arc<dyn AnySolution>,
    next: Cells,
}

/// The cached solutions of one case point, in the order in which they were finished. Set, never waited for: a case point
/// belongs to one thread.
#[derive(Default)]
pub struct Cells(OnceLock<Box<Entry>>);

impl std::fmt::Debug for Cells {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} solutions", self.entries().count())
    }
}

impl Cells {
    /// The same solutions without those that `stale` says may have changed.
    #[must_use]
    pub fn without(&self, stale: impl Fn(&Reads) -> bool) -> Self {
        let fresh = Self::default();
        let mut last = &fresh;
        for entry in self.entries().filter(|entry| !stale(entry.cached.reads())) {
            let (of, cached) = (entry.of, Arc::clone(&entry.cached));
            last = &last.0.get_or_init(|| Box::new(Entry { of, cached, next: Self::default() })).next;
        }
        fresh
    }

    fn entries(&self) -> impl Iterator<Item = &Entry> {
        std::iter::successors(self.0.get(), |entry| entry.next.0.get()).map(|entry| &**entry)
    }

    pub(crate) fn get<T: 'static>(&self) -> Option<&Cached<T>> {
        let of = TypeId::of::<T>();
        let entry = self.entries().find(|entry| entry.of == of)?;
        entry.cached.as_any().downcast_ref()
    }

    pub(crate) fn put<T: Send + Sync + 'static>(&self, cached: Arc<Cached<T>>) {
        let entry = Box::new(Entry { of: TypeId::of::<T>(), cached, next: Self::default() });
        let end = self.entries().last().map_or(self, |last| &last.next);
        // The end of the chain is empty, so this cannot fail.
        let _ = end.0.set(entry);
    }
}
