//! What a check is given: the machine, the case point, the what-if row, and the way to numbers and solutions.

use crate::battery::Battery;
use crate::coolant::{Circuit, Coolant};
use crate::drive::Drive;
use crate::landing::Landing;
use crate::loads::Shafts;
use crate::point::CasePoint;
use crate::surroundings::Surroundings;
use crate::temperatures::Temperatures;
use crate::thermal::{Pack, Thermal};
use crate::track::Track;
use crate::trip::Trip;
use machine::{Assumed, Case, Corner, Found, Machine, Named, NotJudged, Reader, Reads, Spring, WhatIf};
use quantity::{Length, SpringRate};
use std::cell::Cell;
use std::ops::Deref;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::{Arc, OnceLock};

/// The solutions, in the order in which one may ask for another: a later one may ask for earlier ones, never the reverse.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(u32)]
pub enum Solution {
    Surroundings,
    Battery,
    Drive,
    Coolant,
    Temperatures,
    Pack,
    Thermal,
    Landing,
    Track,
    Clogged,
    Trip,
    Shafts,
}

impl Solution {
    pub const ALL: [Self; 12] = [
        Self::Surroundings,
        Self::Battery,
        Self::Drive,
        Self::Coolant,
        Self::Temperatures,
        Self::Pack,
        Self::Thermal,
        Self::Landing,
        Self::Track,
        Self::Clogged,
        Self::Trip,
        Self::Shafts,
    ];

    #[must_use]
    pub fn bit(self) -> u32 {
        self as u32
    }
}

/// One solution as it was worked out: the result, and everything that it read (also through other solutions).
#[derive(Debug)]
pub struct Kept<T> {
    pub result: Found<T>,
    pub reads: Reads,
}

type Slot<T> = OnceLock<Arc<Kept<T>>>;

/// The kept solutions of one case point. Set, never waited for: a case point belongs to one thread.
#[derive(Debug, Default)]
pub struct Cells {
    surroundings: Slot<Surroundings>,
    battery: Slot<Battery>,
    drive: Slot<Drive>,
    coolant: Slot<Coolant>,
    temperatures: Slot<Temperatures>,
    pack: Slot<Pack>,
    thermal: Slot<Thermal>,
    landing: Slot<Landing>,
    track: Slot<Track>,
    clogged: Slot<Circuit>,
    trip: Slot<Trip>,
    shafts: Slot<Shafts>,
}

impl Cells {
    /// The same solutions without those that `stale` says may have changed.
    #[must_use]
    pub fn without(&self, stale: impl Fn(&Reads) -> bool) -> Self {
        fn keep<T>(slot: &Slot<T>, stale: &dyn Fn(&Reads) -> bool) -> Slot<T> {
            let fresh = OnceLock::new();
            if let Some(kept) = slot.get()
                && !stale(&kept.reads)
            {
                // The new cell is empty, so this cannot fail.
                let _ = fresh.set(Arc::clone(kept));
            }
            fresh
        }
        Self {
            surroundings: keep(&self.surroundings, &stale),
            battery: keep(&self.battery, &stale),
            drive: keep(&self.drive, &stale),
            coolant: keep(&self.coolant, &stale),
            temperatures: keep(&self.temperatures, &stale),
            pack: keep(&self.pack, &stale),
            thermal: keep(&self.thermal, &stale),
            landing: keep(&self.landing, &stale),
            track: keep(&self.track, &stale),
            clogged: keep(&self.clogged, &stale),
            trip: keep(&self.trip, &stale),
            shafts: keep(&self.shafts, &stale),
        }
    }
}

/// Machine + case point + what-if, with a reader of its own for one check or one solution.
#[derive(Debug)]
pub struct At<'a> {
    machine: &'a Machine,
    point: CasePoint,
    cells: &'a Cells,
    /// Bits of the solutions that are being worked out: one that asks for itself is refused.
    busy: &'a Cell<u32>,
    reader: Reader<'a>,
    /// Bits of the solutions whose reads are noted already.
    asked: Cell<u32>,
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
    pub fn new(
        machine: &'a Machine,
        point: CasePoint,
        what_if: &'a WhatIf,
        cells: &'a Cells,
        busy: &'a Cell<u32>,
    ) -> Self {
        Self { machine, point, cells, busy, reader: Reader::new(what_if), asked: Cell::new(0), telling: false }
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

    /// Outside air, pressure, the air and the water in it of each zone.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn surroundings(&self) -> Found<&'a Surroundings> {
        self.solved(Solution::Surroundings, &self.cells.surroundings, crate::surroundings::solve)
    }
    /// How cold the cells are, and what that leaves of voltage, resistance and charge.
    ///
    /// # Errors
    /// As worked out.
    pub fn battery(&self) -> Found<&'a Battery> {
        self.solved(Solution::Battery, &self.cells.battery, crate::battery::solve)
    }
    /// Speeds, torques, currents, heat of the drive line, and the pull and speed of the track.
    ///
    /// # Errors
    /// As worked out.
    pub fn drive(&self) -> Found<&'a Drive> {
        self.solved(Solution::Drive, &self.cells.drive, crate::drive::solve)
    }
    /// Flow, pressures and temperatures round the circuit.
    ///
    /// # Errors
    /// As worked out.
    pub fn coolant(&self) -> Found<&'a Coolant> {
        self.solved(Solution::Coolant, &self.cells.coolant, crate::coolant::solve)
    }
    /// The loop as the case drives it, with its strainers due for cleaning.
    ///
    /// # Errors
    /// As worked out.
    pub fn clogged(&self) -> Found<&'a Circuit> {
        self.solved(Solution::Clogged, &self.cells.clogged, crate::coolant::clogged)
    }
    /// Temperatures of parts and bushes.
    ///
    /// # Errors
    /// As worked out.
    pub fn temperatures(&self) -> Found<&'a Temperatures> {
        self.solved(Solution::Temperatures, &self.cells.temperatures, crate::temperatures::solve)
    }
    /// The pack of cells: its temperature over time, and how its middle lags.
    ///
    /// # Errors
    /// As worked out.
    pub fn pack(&self) -> Found<&'a Pack> {
        self.solved(Solution::Pack, &self.cells.pack, crate::thermal::pack::solve)
    }
    /// Temperatures over time of motor, controller and devices.
    ///
    /// # Errors
    /// As worked out.
    pub fn thermal(&self) -> Found<&'a Thermal> {
        self.solved(Solution::Thermal, &self.cells.thermal, crate::thermal::solve)
    }
    /// Travel and forces of each corner in a landing.
    ///
    /// # Errors
    /// As worked out.
    pub fn landing(&self) -> Found<&'a Landing> {
        self.solved(Solution::Landing, &self.cells.landing, crate::landing::solve)
    }
    /// The least and the deepest travel of a corner in a landing with mount and ground twice as stiff, and half; nothing where
    /// the landing spares the corner. Either may be the deeper one, for a wheel that rings on its ground can come up as the
    /// spring goes down. Kept nowhere.
    ///
    /// # Errors
    /// As [`Self::landing`].
    pub fn travel_band(&self, corner: &Named<Corner>) -> Found<Option<(Length, Length)>> {
        crate::landing::travel_band(self, corner)
    }
    /// Rate of a spring, as measured or from wire, coil and material.
    ///
    /// # Errors
    /// A gap.
    pub fn spring_rate(&self, spring: &Spring) -> Found<SpringRate> {
        crate::landing::spring_rate(self, spring)
    }
    /// Tension of the track, tight and slack side, term by term.
    ///
    /// # Errors
    /// As worked out.
    pub fn track(&self) -> Found<&'a Track> {
        self.solved(Solution::Track, &self.cells.track, crate::track::solve)
    }
    /// What the way there and back takes out of the battery, driven as in this case.
    ///
    /// # Errors
    /// As worked out.
    pub fn trip(&self) -> Found<&'a Trip> {
        self.solved(Solution::Trip, &self.cells.trip, crate::trip::solve)
    }

    /// What loads each shaft, in the order of the machine's shafts.
    ///
    /// # Errors
    /// Never as a whole: each shaft has its own gap.
    pub fn shafts(&self) -> Found<&'a Shafts> {
        self.solved(Solution::Shafts, &self.cells.shafts, crate::loads::shafts)
    }

    /// Asks in another case point of this machine. What is read there counts as read here; nothing of it is kept.
    pub(crate) fn elsewhere<T>(&self, point: CasePoint, ask: impl FnOnce(&At) -> Found<T>) -> Found<T> {
        let (cells, busy) = (Cells::default(), Cell::new(0));
        let at = At::new(self.machine, point, self.reader.what_if(), &cells, &busy).quiet(self.reader.is_quiet());
        let found = ask(&at);
        if !self.reader.is_quiet() {
            self.reader.add(&at.into_reads());
        }
        found
    }

    fn solved<T>(&self, which: Solution, slot: &'a Slot<T>, work: fn(&At) -> Found<T>) -> Found<&'a T> {
        self.reader.note_solution(which.bit());
        let kept = match slot.get() {
            Some(kept) => kept,
            None => {
                let bit = 1 << which.bit();
                if self.busy.get() & bit != 0 {
                    return Err(NotJudged::NoSolution("two solutions wait for one another".into()));
                }
                self.busy.set(self.busy.get() | bit);
                let at = At::new(self.machine, self.point, self.reader.what_if(), self.cells, self.busy)
                    .quiet(self.reader.is_quiet());
                let result = catch_unwind(AssertUnwindSafe(|| work(&at))).unwrap_or_else(|_| {
                    Err(NotJudged::NoSolution("the calculation itself failed; please report this".into()))
                });
                self.busy.set(self.busy.get() & !bit);
                let kept = Arc::new(Kept { result, reads: at.into_reads() });
                let _ = slot.set(kept);
                slot.get().ok_or_else(|| NotJudged::NoSolution("the solution was lost".into()))?
            }
        };
        let bit = 1 << which.bit();
        if !self.reader.is_quiet() && self.asked.get() & bit == 0 {
            self.asked.set(self.asked.get() | bit);
            self.reader.add(&kept.reads);
        }
        kept.result.as_ref().map_err(Clone::clone)
    }
}
