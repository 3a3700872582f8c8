//! From a path to a reviewed machine.

use crate::changed::Changed;
use crate::disk::{self, Disk};
use crate::output;
use catalogue::Catalogue;
use document::{Document, Limits, Shelf};
use engine::Today;
use machine::{Complaint, Machine, Rulebook, Swaps, complaints, misfits, senseless};
use render::{Drawn, Reviewed};
use rule::{Card, Overview, Rule};
use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};

/// A spec to read; `-` is standard input, which goes by the name `named`.
#[derive(Debug, Clone, Copy)]
pub struct Named<'a> {
    pub path: &'a Path,
    pub named: &'a Path,
}

impl Named<'_> {
    fn name(&self) -> &Path {
        if self.path == Path::new("-") { self.named } else { self.path }
    }
    fn shown(&self) -> String {
        self.name().strip_prefix("./").unwrap_or(self.name()).display().to_string()
    }
    fn document(&self, disk: &Disk, shelf: &dyn Shelf) -> Result<Document, String> {
        let bytes = if self.path == Path::new("-") { disk::standard_input()? } else { disk::spec(self.path)? };
        Ok(Document::load(&self.shown(), bytes, disk, shelf, &Limits::default()))
    }
}

/// The rulebook.
#[derive(Clone, Copy)]
pub struct Book<'a> {
    pub rules: &'a [&'a dyn Rule],
    pub overviews: &'a [&'a dyn Overview],
}

impl<'a> Book<'a> {
    /// No question is asked.
    pub const NONE: Self = Self { rules: &[], overviews: &[] };

    pub fn cards(self) -> impl Iterator<Item = &'static Card> + 'a {
        self.rules.iter().map(|rule| rule.card()).chain(self.overviews.iter().map(|overview| overview.card()))
    }

    /// What `workshop.yaml` requires of rules that are not there. Where nothing is asked nothing is required.
    fn misfits(self, document: &Document, machine: &Machine) -> Vec<Complaint> {
        if self.rules.is_empty() {
            return Vec::new();
        }
        let rules: Vec<&'static str> = self.rules.iter().map(|rule| rule.card().name).collect();
        let overviews: Vec<&'static str> = self.overviews.iter().map(|overview| overview.card().name).collect();
        misfits(document, machine.workshop(), Rulebook { rules: &rules, overviews: &overviews })
    }
}

/// What is asked of each spec.
#[derive(Clone, Copy)]
pub struct Ask<'a> {
    pub book: Book<'a>,
    /// Whether overviews look at the margins.
    pub looks: bool,
    pub today: Option<Today>,
    /// What carries each finding, which takes most of the time.
    pub carriers: bool,
    /// Curves, and the coolant circuit along its path.
    pub drawings: bool,
}

/// Reads a spec and reviews it, or says in complaints why not. None: nothing that it is made of has changed.
pub fn reviewed(spec: &Named<'_>, ask: &Ask<'_>, changed: Option<&Changed>) -> Option<Reviewed> {
    let disk = Disk::for_spec(spec.name());
    match spec.document(&disk, &Catalogue) {
        Err(reason) => Some(Reviewed::unreadable(&spec.shown(), &reason)),
        Ok(document) if changed.is_some_and(|changed| !changed.concerns(&document, disk.root())) => None,
        Ok(document) => Some(judge(document, ask)),
    }
}

fn judge(document: Document, ask: &Ask<'_>) -> Reviewed {
    let machine = if document.troubles.is_empty() { Machine::read(&document, &Swaps::new()).ok() } else { None };
    let Some(machine) = machine else {
        let complaints = complaints(&document);
        return Reviewed { document, complaints, outcome: None, drawn: Drawn::default() };
    };
    let mut complaints = senseless(&document, &machine);
    complaints.extend(ask.book.misfits(&document, &machine));
    if !complaints.is_empty() {
        return Reviewed { document, complaints, outcome: None, drawn: Drawn::default() };
    }
    let overviews = if ask.looks { ask.book.overviews } else { &[] };
    let review = if ask.carriers { engine::review } else { engine::review_without_carriers };
    let review = review(&document, &machine, ask.book.rules, overviews, ask.today);
    let drawn = if ask.drawings {
        Drawn { charts: engine::charts(&machine, ask.book.rules, &review), circuit: circuit(&machine) }
    } else {
        Drawn::default()
    };
    Reviewed { document, complaints: Vec::new(), outcome: Some((machine, review)), drawn }
}

/// In the cases that tell most; nothing without a circuit.
fn circuit(machine: &Machine) -> Vec<engine::Profile> {
    if machine.cooling.circuit.is_empty() { Vec::new() } else { engine::profiles(machine, None) }
}

/// The same for commands that need a review: without one everything has been said on standard error.
pub fn judged(path: &Path, named: &Path, book: Book<'_>, today: Option<Today>) -> Option<Reviewed> {
    judged_with(path, named, &Catalogue, book, today)
}

/// The same with the built-in entries that `shelf` joins.
pub fn judged_with(
    path: &Path,
    named: &Path,
    shelf: &dyn Shelf,
    book: Book<'_>,
    today: Option<Today>,
) -> Option<Reviewed> {
    let spec = Named { path, named };
    let document = spec.document(&Disk::for_spec(spec.name()), shelf);
    let ask = Ask { book, looks: false, today, carriers: false, drawings: false };
    match document.map(|document| judge(document, &ask)) {
        Err(reason) => output::complain(&format!("{}: {reason}", path.display())),
        Ok(reviewed) if reviewed.outcome.is_some() => return Some(reviewed),
        Ok(unusable) => output::complain(&format!("the spec cannot be used\n{}", render::lines(&unusable).trim_end())),
    }
    None
}

/// The day of `--today`, or of the clock; a day that cannot be read has been complained of.
pub fn today(given: Option<&str>) -> Result<Option<Today>, ()> {
    let Some(text) = given else { return Ok(now()) };
    quantity::read_date(text)
        .map(Some)
        .map_err(|misread| output::complain(&format!("--today: {}; {}", misread.says, misread.help)))
}

/// The day by the system's clock, in UTC. Civil date from days since 1970 (Hinnant's algorithm, published).
fn now() -> Option<Today> {
    let seconds = SystemTime::now().duration_since(UNIX_EPOCH).ok()?.as_secs();
    let days = i64::try_from(seconds / 86_400).ok()? + 719_468;
    let era = days / 146_097;
    let of_era = days % 146_097;
    let year_of_era = (of_era - of_era / 1460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    let shifted = (5 * of_year + 2) / 153;
    let day = of_year - (153 * shifted + 2) / 5 + 1;
    let month = if shifted < 10 { shifted + 3 } else { shifted - 9 };
    let year = year_of_era + era * 400 + i64::from(month <= 2);
    quantity::read_date(&format!("{year:04}-{month:02}-{day:02}")).ok()
}
