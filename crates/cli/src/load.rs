//! From a path to a reviewed machine.

use crate::disk::{self, Disk};
use crate::output;
use catalogue::Catalogue;
use document::{Document, Limits, Shelf};
use engine::Today;
use machine::{Machine, Swaps, complaints};
use render::Reviewed;
use rule::{Overview, Rule};
use std::path::Path;
use std::time::{SystemTime, UNIX_EPOCH};

/// Reads a spec with its libraries; the machine is missing where the spec cannot be used. `-` is standard input, which
/// goes by the name `named`.
fn load(path: &Path, named: &Path, shelf: &dyn Shelf) -> Result<(Document, Option<Machine>), String> {
    let piped = path == Path::new("-");
    let (name, bytes) = if piped { (named, disk::standard_input()?) } else { (path, disk::spec(path)?) };
    let files = Disk::for_spec(name);
    let shown = name.strip_prefix("./").unwrap_or(name).display().to_string();
    let document = Document::load(&shown, bytes, &files, shelf, &Limits::default());
    let machine = if document.troubles.is_empty() { Machine::read(&document, &Swaps::new()).ok() } else { None };
    Ok((document, machine))
}

/// Reads a spec and reviews it, or says in complaints why not.
pub fn reviewed(
    path: &Path,
    named: &Path,
    rules: &[&dyn Rule],
    overviews: &[&dyn Overview],
    today: Option<Today>,
) -> Result<Reviewed, String> {
    reviewed_with(path, named, &Catalogue, rules, overviews, today)
}

fn reviewed_with(
    path: &Path,
    named: &Path,
    shelf: &dyn Shelf,
    rules: &[&dyn Rule],
    overviews: &[&dyn Overview],
    today: Option<Today>,
) -> Result<Reviewed, String> {
    Ok(match load(path, named, shelf)? {
        (document, Some(machine)) => {
            let review = engine::review(&document, &machine, rules, overviews, today);
            Reviewed { document, complaints: Vec::new(), outcome: Some((machine, review)) }
        }
        (document, None) => {
            let complaints = complaints(&document);
            Reviewed { document, complaints, outcome: None }
        }
    })
}

/// The same for commands that need a review: without one everything has been said on standard error.
pub fn judged(path: &Path, named: &Path, rules: &[&dyn Rule], today: Option<Today>) -> Option<Reviewed> {
    judged_with(path, named, &Catalogue, rules, today)
}

/// The same with the built-in entries that `shelf` joins.
pub fn judged_with(
    path: &Path,
    named: &Path,
    shelf: &dyn Shelf,
    rules: &[&dyn Rule],
    today: Option<Today>,
) -> Option<Reviewed> {
    match reviewed_with(path, named, shelf, rules, &[], today) {
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
