//! `dryfit review`: each spec by itself, one after another, output in a stable order.

use crate::args::{Layout, Refuse, Review};
use crate::disk::{self, Disk};
use crate::output;
use crate::{NOTHING, REFUSED, UNUSABLE};
use catalogue::Catalogue;
use document::{Document, Limits};
use engine::Today;
use indicatif::{ProgressBar, ProgressStyle};
use machine::{Machine, Swaps, complaints};
use render::{Look, Reviewed};
use rule::{Overview, Rule, Verdict};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

pub fn review(args: &Review, rules: &[&dyn Rule], overviews: &[&dyn Overview]) -> u8 {
    let today = match &args.today {
        None => now(),
        Some(text) => match quantity::read_date(text) {
            Ok(date) => Some(date),
            Err(misread) => {
                output::complain(&format!("--today: {}; {}", misread.says, misread.help));
                return UNUSABLE;
            }
        },
    };
    let (specs, mut code) = specs(&args.paths);
    if specs.is_empty() && code == NOTHING {
        output::complain("no *.machine.yaml was found; `dryfit start NAME` writes one to begin with");
        return UNUSABLE;
    }
    let many = specs.len() > 1;
    let mut text = String::new();
    let mut progress = Progress::new(specs.len());
    for path in &specs {
        progress.step();
        match one(path, args, rules, overviews, today) {
            Err(reason) => {
                output::complain(&format!("{}: {reason}", path.display()));
                code = UNUSABLE;
            }
            Ok(reviewed) => {
                code = worse(code, verdict(&reviewed, args.refuse));
                let laid = lay_out(&reviewed, args, many);
                if args.out.is_some() {
                    text.push_str(&laid);
                } else {
                    code = worse(code, output::print(&laid));
                }
            }
        }
    }
    progress.end();
    if let Some(path) = &args.out {
        code = worse(code, output::replace(path, &text));
    }
    code
}

/// 3 and 2 say more than 1, and 1 more than 0.
fn worse(a: u8, b: u8) -> u8 {
    a.max(b)
}

/// All specs that the paths name, and the exit code so far.
fn specs(paths: &[PathBuf]) -> (Vec<PathBuf>, u8) {
    let mut found = Vec::new();
    let mut code = NOTHING;
    for path in paths {
        if path.is_dir() {
            if let Err(reason) = disk::specs_below(path, &mut found) {
                output::complain(&format!("{}: {reason}", path.display()));
                code = UNUSABLE;
            }
        } else {
            found.push(path.clone());
        }
    }
    (found, code)
}

fn one(
    path: &Path,
    args: &Review,
    rules: &[&dyn Rule],
    overviews: &[&dyn Overview],
    today: Option<Today>,
) -> Result<Reviewed, String> {
    let piped = path == Path::new("-");
    let (name, bytes) = if piped { (args.named.as_path(), disk::standard_input()?) } else { (path, disk::spec(path)?) };
    let files = Disk::for_spec(name);
    let shown = name.strip_prefix("./").unwrap_or(name).display().to_string();
    let document = Document::load(&shown, bytes, &files, &Catalogue, &Limits::default());
    let machine = if document.troubles.is_empty() { Machine::read(&document, &Swaps::new()).ok() } else { None };
    match machine {
        Some(machine) => {
            let review = engine::review(&document, &machine, rules, overviews, today);
            Ok(Reviewed { document, complaints: Vec::new(), outcome: Some((machine, review)) })
        }
        None => {
            let complaints = complaints(&document);
            Ok(Reviewed { document, complaints, outcome: None })
        }
    }
}

fn lay_out(reviewed: &Reviewed, args: &Review, many: bool) -> String {
    match args.layout {
        Layout::Line => render::lines(reviewed),
        Layout::Json => {
            let report = render::report(reviewed);
            // One line each when there are many, so that the whole can be read as it comes.
            let text = if many { serde_json::to_string(&report) } else { serde_json::to_string_pretty(&report) };
            text.map_or_else(|error| format!("{{\"failed\": \"{error}\"}}\n"), |text| text + "\n")
        }
        Layout::Terminal => {
            let colour = args.out.is_none() && output::colour();
            let look = Look { width: output::width(), colour, drawing: true };
            let title = if many {
                format!(
                    "── {}\n\n",
                    render::clean(&reviewed.document.files.first().map_or_else(String::new, |file| file.name.clone()))
                )
            } else {
                String::new()
            };
            format!("{title}{}\n", render::terminal(reviewed, look))
        }
    }
}

fn verdict(reviewed: &Reviewed, refuse: Refuse) -> u8 {
    let Some((_, review)) = &reviewed.outcome else { return UNUSABLE };
    if review.findings.iter().any(|finding| finding.verdict == Verdict::Broken) {
        return crate::FAILED;
    }
    let refused = review.findings.iter().filter(|finding| finding.stands()).any(|finding| match refuse {
        Refuse::Nothing => false,
        Refuse::Fails => finding.verdict == Verdict::Fails,
        Refuse::Thin => matches!(finding.verdict, Verdict::Fails | Verdict::Thin),
    });
    if refused { REFUSED } else { NOTHING }
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

/// A bar on standard error, only when it takes over a second.
struct Progress {
    began: Instant,
    bar: Option<ProgressBar>,
    done: u64,
    all: u64,
}

impl Progress {
    fn new(all: usize) -> Self {
        Self { began: Instant::now(), bar: None, done: 0, all: all as u64 }
    }
    fn step(&mut self) {
        if self.bar.is_none() && self.all > 1 && self.began.elapsed() > Duration::from_secs(1) {
            let style = ProgressStyle::with_template("{bar:30} {pos} of {len} specs")
                .unwrap_or_else(|_| ProgressStyle::default_bar());
            self.bar = Some(ProgressBar::new(self.all).with_style(style));
        }
        if let Some(bar) = &self.bar {
            bar.set_position(self.done);
        }
        self.done += 1;
    }
    fn end(&self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
