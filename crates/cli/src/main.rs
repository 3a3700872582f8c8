//! The `dryfit` binary: the built-in rules, and nothing else.

use std::process::ExitCode;

fn main() -> ExitCode {
    dryfit_cli::run(rulebook::RULES, rulebook::OVERVIEWS)
}
