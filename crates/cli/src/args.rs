//! The command line.

use clap::{Parser, Subcommand, ValueEnum};
use std::path::PathBuf;

/// Reviews the written specification of a whole machine before anything is cut, printed or ordered.
#[derive(Debug, Parser)]
#[command(name = "dryfit", version)]
pub struct Args {
    #[command(subcommand)]
    pub command: Command,
}

#[derive(Debug, Subcommand)]
pub enum Command {
    /// Review specs and say what fails first, where, by how much, and what would clear it
    Review(Review),
    /// List the rulebook, or show one rule's card
    Rule { name: Option<String> },
    /// Print a JSON Schema: of the spec, or of the JSON report
    Schema {
        #[arg(value_enum, default_value = "machine")]
        kind: SchemaKind,
    },
    /// Write a commented starter spec to NAME.machine.yaml
    Start { name: String },
}

#[derive(Debug, clap::Args)]
pub struct Review {
    /// Spec files, directories to search for *.machine.yaml, or - for standard input
    #[arg(default_value = ".")]
    pub paths: Vec<PathBuf>,
    /// How to lay the findings out
    #[arg(long = "as", value_enum, default_value = "terminal")]
    pub layout: Layout,
    /// Write to this file (whole or not at all) in place of standard output
    #[arg(long)]
    pub out: Option<PathBuf>,
    /// Exit with 1 when a finding is at or above this level
    #[arg(long, value_enum, default_value = "fails")]
    pub refuse: Refuse,
    /// Day of the review, such as 2026-04-30, against which concessions end
    #[arg(long)]
    pub today: Option<String>,
    /// Name to show for standard input, and the folder from which its libraries count
    #[arg(long, default_value = "standard-input.machine.yaml")]
    pub named: PathBuf,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Layout {
    Terminal,
    Line,
    Json,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Refuse {
    Fails,
    Thin,
    Nothing,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SchemaKind {
    Machine,
    Report,
}
