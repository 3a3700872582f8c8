//! The command line.

use crate::outputs::Outputs;
use crate::uncertainty::{samples, seed};
use clap::{Parser, Subcommand, ValueEnum};
use decide::uncertainty::Plan;
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
    /// Put every margin on one scale, gravest and thinnest first, with what moves it
    Rank(Rank),
    /// Look for changes that clear what fails or is thin, and say what each costs elsewhere
    Remedy(Remedy),
    /// Say what a revision improved and worsened
    Compare(Compare),
    /// Say how sure each verdict is, given the tolerances and guesses, and which measurement is worth making
    Uncertainty(Uncertainty),
    /// Follow the coolant round its circuit: temperatures, dew points, pressures, flow
    Circuit(Circuit),
    /// List the rulebook, or show one rule's card
    Rule { name: Option<String> },
    /// Say what can be written in a spec: the keys of a thing with units and how to find them out, or where a word is used
    Words { thing: Option<String> },
    /// Print a JSON Schema: of the spec, of workshop.yaml, or of what a command says as JSON
    Schema {
        #[arg(value_enum, default_value = "machine")]
        kind: SchemaKind,
    },
    /// Write a commented starter spec to NAME.machine.yaml
    Start { name: String },
    /// Print completions for a shell
    Completions {
        #[arg(value_enum)]
        shell: clap_complete::Shell,
    },
    /// Write the manual pages into a folder
    Manual { folder: PathBuf },
}

#[derive(Debug, clap::Args)]
pub struct Review {
    /// Spec files, directories to search for *.machine.yaml, or - for standard input
    #[arg(default_value = ".")]
    pub paths: Vec<PathBuf>,
    #[command(flatten)]
    pub outputs: Outputs,
    /// Show these findings whole: a number of the digest, a thing, a rule or an area
    #[arg(long, value_name = "WHICH")]
    pub only: Option<String>,
    /// Exit with 1 when a finding is at or above this level
    ///
    /// Without it what workshop.yaml says counts, and else `fails`.
    #[arg(long, value_enum)]
    pub refuse: Option<Refuse>,
    /// Day of the review, such as 2026-04-30, against which concessions end
    #[arg(long)]
    pub today: Option<String>,
    /// Name to show for standard input, and the folder from which its libraries count
    #[arg(long, default_value = "standard-input.machine.yaml")]
    pub named: PathBuf,
    /// Review only specs that are in this list of files, or load a library that is; - is standard input
    #[arg(long, value_name = "LIST")]
    pub changed_since: Option<PathBuf>,
}

#[derive(Debug, clap::Args)]
pub struct Rank {
    /// Spec file, or - for standard input
    pub spec: PathBuf,
    /// Only margins of this area; may be given several times, like the next three
    #[arg(long, value_enum)]
    pub area: Vec<Area>,
    /// Only margins with this verdict
    #[arg(long, value_enum)]
    pub verdict: Vec<Verdict>,
    /// Only margins of this thing, by its name
    #[arg(long)]
    pub subject: Vec<String>,
    /// Only margins whose failure costs this
    #[arg(long, value_enum)]
    pub consequence: Vec<Consequence>,
    /// Name the inputs that move each margin, and by how much
    #[arg(long)]
    pub sensitivity: bool,
    /// How to lay it out
    #[arg(long = "as", value_enum, default_value = "terminal")]
    pub layout: Page,
    #[command(flatten)]
    pub way: Way,
}

#[derive(Debug, clap::Args)]
pub struct Remedy {
    /// Spec file, or - for standard input
    pub spec: PathBuf,
    /// Only findings on this thing, by its name; conceded ones too
    #[arg(long)]
    pub on: Option<String>,
    /// Only findings of this rule; conceded ones too
    #[arg(long)]
    pub rule: Option<String>,
    /// Change only this input, by its path, such as powertrain.bearings.idler.bore
    #[arg(long)]
    pub with: Option<String>,
    /// Write remedy number K into the spec
    #[arg(long, value_name = "K", conflicts_with = "dry")]
    pub apply: Option<usize>,
    /// Show the lines that remedy number K changes, and write nothing
    #[arg(long, value_name = "K")]
    pub dry: Option<usize>,
    /// Let --apply change library files too
    #[arg(long)]
    pub library_too: bool,
    /// How to lay it out
    #[arg(long = "as", value_enum, default_value = "terminal")]
    pub layout: Page,
    #[command(flatten)]
    pub way: Way,
}

#[derive(Debug, clap::Args)]
pub struct Compare {
    /// The former spec, or - for standard input
    pub old: PathBuf,
    /// The spec as it is now, or - for standard input
    pub new: PathBuf,
    /// Exit with 1 when a verdict got worse
    #[arg(long, value_enum, default_value = "worse")]
    pub refuse: RefuseChange,
    /// How to lay it out
    #[arg(long = "as", value_enum, default_value = "terminal")]
    pub layout: ComparisonPage,
    #[command(flatten)]
    pub way: Way,
}

#[derive(Debug, clap::Args)]
pub struct Uncertainty {
    /// Spec file, or - for standard input
    pub spec: PathBuf,
    /// How many times to draw all figures that are not exact, and judge
    #[arg(long, value_name = "N", default_value_t = Plan::SAMPLES, value_parser = samples, allow_negative_numbers = true)]
    pub samples: usize,
    /// Whole number from which the draws follow: the same one draws the same
    #[arg(long, value_name = "N", default_value_t = Plan::SEED, value_parser = seed, allow_negative_numbers = true)]
    pub seed: u64,
    /// How to lay it out
    #[arg(long = "as", value_enum, default_value = "terminal")]
    pub layout: Page,
    #[command(flatten)]
    pub way: Way,
}

#[derive(Debug, clap::Args)]
pub struct Circuit {
    /// Spec file, or - for standard input
    pub spec: PathBuf,
    /// In this case; left out, in those in which the coolant is coldest and warmest
    #[arg(long)]
    pub case: Option<String>,
    /// How to lay it out
    #[arg(long = "as", value_enum, default_value = "terminal")]
    pub layout: Page,
    #[command(flatten)]
    pub way: Way,
}

/// How a command that looks at few specs reads and writes.
#[derive(Debug, clap::Args)]
pub struct Way {
    /// Write to this file (whole or not at all) in place of standard output
    #[arg(long)]
    pub out: Option<PathBuf>,
    /// Day of the review, such as 2026-04-30, against which concessions end
    #[arg(long)]
    pub today: Option<String>,
    /// Name to show for standard input, and the folder from which its libraries count
    #[arg(long, default_value = "standard-input.machine.yaml")]
    pub named: PathBuf,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Page {
    Terminal,
    Json,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ComparisonPage {
    Terminal,
    Json,
    /// A few lines for a comment: what changed
    Markdown,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum RefuseChange {
    Worse,
    Nothing,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Area {
    Powertrain,
    Cooling,
    Structure,
    Suspension,
    WholeMachine,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Verdict {
    Broken,
    Fails,
    Thin,
    /// Sound in every case that could be judged
    Partly,
    Sound,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
#[value(rename_all = "snake_case")]
pub enum Consequence {
    Harm,
    Stranded,
    RunOver,
    CheapPart,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Layout {
    /// One screen: the verdict, the gravest ten, and how to see more; of several specs a line each
    Digest,
    /// Source lines with labels, for reading
    Terminal,
    /// `file:line:column: verdict: text (rule)`, one line each, for editors and logs
    Line,
    /// Everything as data; one object a line for a folder or several specs
    Json,
    /// SARIF 2.1.0 of OASIS, for what collects findings
    Sarif,
    /// Test results in XML: a suite for each spec, a case for each check
    Junit,
    /// A few lines for a comment: counts and the gravest margins
    Markdown,
    /// One page for the review at the table: to read, print and sign
    Html,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Refuse {
    Fails,
    Thin,
    /// Also what could not be judged, in one case or in any
    Unjudged,
    Nothing,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SchemaKind {
    Machine,
    Workshop,
    Report,
    Rank,
    Remedy,
    Comparison,
    Uncertainty,
    Circuit,
}
