//! Runs the checks of one rule in one case point. A check is a closure: what it reads is noted for it alone, and a panic
//! in it breaks only itself.

use crate::outcome::{Held, Margin, Outcome};
use machine::{Found, Key, Machine, NodeId, NotJudged, Reads, WhatIf};
use solve::{At, CasePoint, Cells};
use std::panic::{AssertUnwindSafe, catch_unwind};

/// What a check is about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Subject {
    /// As the finding names it: the key that holds the thing, or the section's own name.
    pub name: String,
    pub node: NodeId,
}

/// One check as it ran.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    pub subject: Subject,
    pub check: &'static str,
    pub outcome: Outcome,
    pub reads: Reads,
}

/// Which checks run; the rule cannot tell.
#[derive(Debug, Clone, Copy)]
pub enum Run<'a> {
    All,
    /// By position in the order in which the rule asks.
    Only(&'a [bool]),
}

/// The checks of one rule in one case point.
#[derive(Debug)]
pub struct Checks<'a> {
    machine: &'a Machine,
    point: CasePoint,
    what_if: &'a WhatIf,
    cells: &'a Cells,
    run: Run<'a>,
    telling: bool,
    quiet: bool,
    position: usize,
    done: Vec<(usize, Checked)>,
}

impl<'a> Checks<'a> {
    #[must_use]
    pub fn new(
        machine: &'a Machine,
        point: CasePoint,
        what_if: &'a WhatIf,
        cells: &'a Cells,
        run: Run<'a>,
        telling: bool,
    ) -> Self {
        Self { machine, point, what_if, cells, run, telling, quiet: false, position: 0, done: Vec::new() }
    }

    /// The same without notes of what is read.
    #[must_use]
    pub fn quiet(self) -> Self {
        Self { quiet: true, ..self }
    }

    /// The checks on a named thing.
    pub fn on<'c>(&'c mut self, key: &Key) -> On<'c, 'a> {
        self.about(&key.name, key.id)
    }

    /// The checks on a section or on a thing in a list; `node` is any field of it, and its block is what they are about.
    pub fn about<'c>(&'c mut self, name: &str, node: NodeId) -> On<'c, 'a> {
        let node = self.machine.fields().of(node).map_or(node, |field| field.parent);
        On { subject: Subject { name: name.to_owned(), node }, checks: self }
    }

    /// What ran, each with its position.
    #[must_use]
    pub fn done(self) -> Vec<(usize, Checked)> {
        self.done
    }

    fn run(&mut self, subject: &Subject, check: &'static str, judge: &mut dyn FnMut(&At) -> Found<Outcome>) {
        let position = self.position;
        self.position += 1;
        let wanted = match self.run {
            Run::All => true,
            Run::Only(mask) => mask.get(position).copied().unwrap_or(false),
        };
        if !wanted {
            return;
        }
        let at = At::new(self.machine, self.point, self.what_if, self.cells).telling(self.telling).quiet(self.quiet);
        let outcome = match catch_unwind(AssertUnwindSafe(|| judge(&at))) {
            Ok(Ok(Outcome::Held(margin))) => settled(margin.tell_short(&at)),
            Ok(Ok(outcome)) => outcome,
            Ok(Err(NotJudged::Failed(why))) => Outcome::Broken(why),
            Ok(Err(gap)) => Outcome::NotJudged(gap),
            Err(panic) => Outcome::Broken(solve::said(&*panic)),
        };
        let checked = Checked { subject: subject.clone(), check, outcome, reads: at.into_reads() };
        self.done.push((position, checked));
    }
}

/// NaN is never sound.
fn settled(margin: Margin) -> Outcome {
    let (demand, capacity) = match margin.held {
        Held::Ratio { demand, capacity } | Held::Gap { demand, capacity, .. } => (demand.si, capacity.si),
    };
    if demand.is_nan() || capacity.is_nan() || margin.held.headroom(margin.required.value).is_nan() {
        return Outcome::Broken("the calculation gave no number".into());
    }
    Outcome::Held(margin)
}

/// The checks on one subject.
#[derive(Debug)]
pub struct On<'c, 'a> {
    checks: &'c mut Checks<'a>,
    subject: Subject,
}

impl On<'_, '_> {
    /// One check: a margin, a breach, clear, or set aside. A missing input (`?`) makes it 'not judged'.
    pub fn check(&mut self, name: &'static str, mut judge: impl FnMut(&At) -> Found<Outcome>) {
        self.checks.run(&self.subject, name, &mut judge);
    }
}
