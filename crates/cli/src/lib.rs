//! Files, clock, terminal, exit codes: the one place with input and output, and no logic of a review.
//! It never knows: formulas, how a finding is worded. A binary with rules of its own calls [`run`] with both lists.

mod args;
mod changed;
mod circuit;
mod compare;
mod disk;
mod load;
mod output;
mod outputs;
mod progress;
mod rank;
mod remedy;
mod review;
mod shell;
mod sink;
mod start;
mod uncertainty;
mod words;

use args::{Args, Command, SchemaKind};
use clap::Parser;
use rule::{Overview, Rule};
use std::io::ErrorKind;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::process::ExitCode;

/// Nothing at or above the refusal level.
const NOTHING: u8 = 0;
/// Findings at or above it.
const REFUSED: u8 = 1;
/// The spec or the command line cannot be used.
const UNUSABLE: u8 = 2;
/// dryfit itself failed.
const FAILED: u8 = 3;

/// Runs the command line with these rules.
#[must_use]
pub fn run(rules: &[&dyn Rule], overviews: &[&dyn Overview]) -> ExitCode {
    // A panic inside a check or a solution is caught there and reported as a finding; its usual trace would only
    // disturb the output.
    std::panic::set_hook(Box::new(|_| {}));
    let code = catch_unwind(AssertUnwindSafe(|| command(rules, overviews))).unwrap_or_else(|_| {
        output::complain("dryfit itself failed; please report the spec that made it");
        FAILED
    });
    ExitCode::from(code)
}

fn command(rules: &[&dyn Rule], overviews: &[&dyn Overview]) -> u8 {
    let args = match Args::try_parse() {
        Ok(args) => args,
        Err(error) => {
            // `--help` and `--version` are no errors.
            let code = if error.use_stderr() { UNUSABLE } else { NOTHING };
            let read = error.print().map_or_else(|trouble| trouble.kind() == ErrorKind::BrokenPipe, |()| true);
            return if read { code } else { FAILED };
        }
    };
    let book = load::Book { rules, overviews };
    match args.command {
        Command::Review(review) => review::review(&review, book),
        Command::Rank(rank) => rank::rank(&rank, book),
        Command::Remedy(remedy) => remedy::remedy(&remedy, book),
        Command::Compare(compare) => compare::compare(&compare, book),
        Command::Uncertainty(uncertainty) => uncertainty::uncertainty(&uncertainty, book),
        Command::Circuit(circuit) => circuit::circuit(&circuit),
        Command::Rule { name } => rulebook_page(name.as_deref(), book),
        Command::Words { thing } => words::words(thing.as_deref()),
        Command::Schema { kind } => {
            let schema = match kind {
                SchemaKind::Machine => machine::machine_schema(),
                SchemaKind::Workshop => machine::workshop_schema(),
                SchemaKind::Report => render::report_schema(),
                SchemaKind::Rank => render::rank::schema(),
                SchemaKind::Remedy => render::remedy::schema(),
                SchemaKind::Comparison => render::compare::schema(),
                SchemaKind::Uncertainty => render::uncertainty::schema(),
                SchemaKind::Circuit => render::circuit::schema(),
            };
            output::print(&format!("{schema:#}\n"))
        }
        Command::Start { name } => start::start(&name),
        Command::Completions { shell } => shell::completions(shell),
        Command::Manual { folder } => shell::manual(&folder),
    }
}

fn rulebook_page(name: Option<&str>, book: load::Book<'_>) -> u8 {
    let cards: Vec<_> = book.cards().collect();
    match name {
        None => output::print(
            &cards.iter().map(|card| format!("{:<26} {}\n", card.name, card.question)).collect::<String>(),
        ),
        Some(name) => match cards.iter().find(|card| card.name == name) {
            Some(card) => output::print(&render::card(card)),
            None => {
                let near = document::nearest(name, cards.iter().map(|card| card.name));
                let hint = near
                    .map_or_else(|| "`dryfit rule` lists them".to_owned(), |near| format!("did you mean `{near}`?"));
                output::complain(&format!("no rule is called `{name}`; {hint}"));
                UNUSABLE
            }
        },
    }
}
