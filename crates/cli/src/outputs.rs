//! `--as` and `--out`, which may be given several times: each file belongs to the layout before it.

use crate::args::Layout;
use clap::error::ErrorKind;
use clap::{Arg, ArgAction, ArgMatches, Args, Command, FromArgMatches, ValueEnum, value_parser};
use std::io::IsTerminal;
use std::path::PathBuf;

/// Each layout with its file; one at most goes to standard output.
#[derive(Debug, Clone)]
pub struct Outputs(pub Vec<Output>);

#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Output {
    pub layout: Layout,
    pub file: Option<PathBuf>,
}

const LAYOUT: &str = "as";
const FILE: &str = "out";

impl Args for Outputs {
    fn augment_args(command: Command) -> Command {
        let layout = Arg::new(LAYOUT)
            .long(LAYOUT)
            .value_name("LAYOUT")
            .value_parser(value_parser!(Layout))
            .action(ArgAction::Append)
            .help("How to lay the findings out [default: digest on a terminal, everything as `terminal` elsewhere]; may be given several times");
        let file = Arg::new(FILE)
            .long(FILE)
            .value_name("FILE")
            .value_parser(value_parser!(PathBuf))
            .action(ArgAction::Append)
            .help("Write what the `--as` before it lays out to this file (whole or not at all) in place of standard output");
        command.arg(layout).arg(file)
    }
    fn augment_args_for_update(command: Command) -> Command {
        Self::augment_args(command)
    }
}

impl FromArgMatches for Outputs {
    fn from_arg_matches(matches: &ArgMatches) -> Result<Self, clap::Error> {
        let layouts = placed::<Layout>(matches, LAYOUT);
        let files = placed::<PathBuf>(matches, FILE);
        let first = unsaid(std::io::stdout().is_terminal() && files.is_empty());
        pair(layouts, files, first)
            .map(Self)
            .map_err(|says| clap::Error::raw(ErrorKind::ArgumentConflict, format!("{says}\n")))
    }
    fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), clap::Error> {
        *self = Self::from_arg_matches(matches)?;
        Ok(())
    }
}

/// Values with their place on the command line.
fn placed<T: Clone + Send + Sync + 'static>(matches: &ArgMatches, id: &str) -> Vec<(usize, T)> {
    let values = matches.get_many::<T>(id).into_iter().flatten().cloned();
    matches.indices_of(id).into_iter().flatten().zip(values).collect()
}

/// What is laid out where nobody says it: a screen for whoever sits before one, and everything for a file or a pipe.
fn unsaid(on_a_terminal: bool) -> Layout {
    if on_a_terminal { Layout::Digest } else { Layout::Terminal }
}

fn pair(layouts: Vec<(usize, Layout)>, files: Vec<(usize, PathBuf)>, first: Layout) -> Result<Vec<Output>, String> {
    let alone = layouts.len() <= 1 && files.len() <= 1;
    let mut outputs: Vec<(usize, Output)> =
        layouts.into_iter().map(|(at, layout)| (at, Output { layout, file: None })).collect();
    if outputs.is_empty() {
        outputs.push((0, Output { layout: first, file: None }));
    }
    for (at, file) in files {
        let shown = file.display();
        if outputs.iter().any(|(_, other)| other.file.as_ref() == Some(&file)) {
            return Err(format!("two layouts cannot both go to {shown}"));
        }
        let before = outputs.iter_mut().rev().find(|(layout_at, _)| alone || *layout_at < at);
        match before {
            Some((_, output)) if output.file.is_none() => output.file = Some(file),
            _ => return Err(format!("no `--as` stands before `--out {shown}` to say what goes there")),
        }
    }
    if outputs.iter().filter(|(_, output)| output.file.is_none()).count() > 1 {
        let names: Vec<String> = outputs
            .iter()
            .filter(|(_, output)| output.file.is_none())
            .filter_map(|(_, output)| Some(output.layout.to_possible_value()?.get_name().to_owned()))
            .collect();
        return Err(format!("only one layout can go to standard output; {} have no `--out`", names.join(" and ")));
    }
    Ok(outputs.into_iter().map(|(_, output)| output).collect())
}

#[cfg(test)]
mod tests;
