//! What a check is given: the machine, the case point, the what-if row, and the way to numbers and solutions.

use crate::cache::{Cached, Cells};
use crate::point::CasePoint;
use machine::{Assumed, Case, Found, Machine, Named, NotJudged, Reader, Reads, WhatIf};
use std::any::{Any, TypeId};
use std::cell::RefCell;
use std::ops::Deref;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

/// Something that is worked out from the whole machine in one case point, once, when it is first asked for. A crate of one's
/// own brings its own by implementing this; no list names them.
pub trait Solve: Sized + Send + Sync + 'static {
    /// # Errors
    /// A gap, a range, or its own reason; whoever asks gets the same.
    fn solve(at: &At) -> Found<Self>;
}

/// Machine + case point + what-if, with a reader of its own for one check or one solution.
#[derive(Debug)]
pub struct At<'a> {
    machine: &'a Machine,
    point: CasePoint,
    cells: &'a Cells,
    /// The solutions that are being worked out: one that asks for itself is refused.
    busy: Vec<TypeId>,
    reader: Reader<'a>,
    /// The solutions whose reads are noted already.
    asked: RefCell<Vec<TypeId>>,
    telling: bool,
}

impl<'a> Deref for At<'a> {
    type Target = Reader<'a>;
    fn deref(&self) -> &Reader<'a> {
        &self.reader
    }
}

impl<'a> At<'a> {
    /// A fresh reading in a case point.
    #[must_use]
    pub fn new(machine: &'a Machine, point: CasePoint, what_if: &'a WhatIf, cells: &'a Cells) -> Self {
        let reader = Reader::new(machine.row(), what_if);
        Self { machine, point, cells, busy: Vec::new(), reader, asked: RefCell::default(), telling: false }
    }

    /// The same, for a check whose words are wanted too.
    #[must_use]
    pub fn telling(self, telling: bool) -> Self {
        Self { telling, ..self }
    }

    /// The same without notes of what is read.
    #[must_use]
    pub fn quiet(self, quiet: bool) -> Self {
        Self { reader: self.reader.quiet(quiet), ..self }
    }

    /// Whether words are wanted: most runs of a check only want its number.
    #[must_use]
    pub fn tells(&self) -> bool {
        self.telling
    }

    #[must_use]
    pub fn machine(&self) -> &'a Machine {
        self.machine
    }

    #[must_use]
    pub fn point(&self) -> CasePoint {
        self.point
    }

    /// The case, named.
    ///
    /// # Errors
    /// When the point does not belong to this machine.
    pub fn case(&self) -> Found<&'a Named<Case>> {
        self.machine.cases.get(self.point.case).ok_or_else(|| NotJudged::NoSolution("this machine has no cases".into()))
    }

    /// The figures that stand in for what is not given.
    #[must_use]
    pub fn assumed(&self) -> &'a Assumed {
        &self.machine.assumed
    }

    /// Everything that was read, here and in the solutions asked for.
    #[must_use]
    pub fn into_reads(self) -> Reads {
        self.reader.reads()
    }

    /// Asks in another case point of this machine. What is read there counts as read here; nothing of it is kept.
    pub(crate) fn elsewhere<T>(&self, point: CasePoint, ask: impl FnOnce(&At) -> Found<T>) -> Found<T> {
        let cells = Cells::default();
        let at = At::new(self.machine, point, self.reader.what_if(), &cells).quiet(self.reader.is_quiet());
        let found = ask(&at);
        if !self.reader.is_quiet() {
            self.reader.add(&at.into_reads());
        }
        found
    }

    /// A solution, worked out when it is first asked for in this case point, with all that it has read.
    ///
    /// # Errors
    /// As it was worked out: a gap, a range, or its own reason.
    pub fn ask<T: Solve>(&self) -> Found<&'a T> {
        let of = TypeId::of::<T>();
        let cached = match self.cells.get::<T>() {
            Some(cached) => cached,
            None => {
                if self.busy.contains(&of) {
                    return Err(NotJudged::Failed("two solutions wait for one another".into()));
                }
                let mut at =
                    At::new(self.machine, self.point, self.reader.what_if(), self.cells).quiet(self.reader.is_quiet());
                at.busy.clone_from(&self.busy);
                at.busy.push(of);
                let result = catch_unwind(AssertUnwindSafe(|| T::solve(&at)))
                    .unwrap_or_else(|panic| Err(NotJudged::Failed(said(&*panic))));
                let asked = at.asked.take();
                self.cells.put(Arc::new(Cached { result, reads: at.into_reads(), asked }));
                self.cells.get::<T>().ok_or_else(|| NotJudged::Failed("the solution was lost".into()))?
            }
        };
        if !self.reader.is_quiet() && !self.asked.borrow().contains(&of) {
            self.asked.borrow_mut().push(of);
            self.asked.borrow_mut().extend(&cached.asked);
            self.reader.add(&cached.reads);
        }
        cached.result.as_ref().map_err(Clone::clone)
    }

    /// A solution on which this reading rests already, directly or through another one.
    pub(crate) fn rests_on<T: Solve>(&self) -> Option<&'a T> {
        let asked = self.asked.borrow().contains(&TypeId::of::<T>());
        self.cells.get::<T>().filter(|_| asked)?.result.as_ref().ok()
    }
}

/// What a panic says.
#[must_use]
pub fn said(panic: &(dyn Any + Send)) -> String {
    let says = panic.downcast_ref::<String>().cloned();
    let says = says.or_else(|| panic.downcast_ref::<&str>().map(|says| (*says).to_owned()));
    says.unwrap_or_else(|| "no reason given".into())
}
