use super::{Output, Outputs};
use crate::args::Layout::{Digest, Json, Line, Terminal};
use clap::{Args, Command, FromArgMatches};
use std::io::IsTerminal;
use std::path::PathBuf;

fn read(line: &str) -> Result<Vec<Output>, String> {
    let command = Outputs::augment_args(Command::new("trial"));
    let matches = command.try_get_matches_from(format!("trial {line}").split_whitespace()).unwrap();
    Outputs::from_arg_matches(&matches).map(|outputs| outputs.0).map_err(|error| error.to_string())
}

#[test]
fn each_file_belongs_to_the_layout_before_it() {
    let to = |layout, file: Option<&str>| Output { layout, file: file.map(PathBuf::from) };
    let first = super::unsaid(std::io::stdout().is_terminal());
    assert_eq!(read(""), Ok(vec![to(first, None)]));
    assert_eq!((super::unsaid(true), super::unsaid(false)), (Digest, Terminal));
    assert_eq!(read("--out a"), Ok(vec![to(Terminal, Some("a"))]));
    assert_eq!(read("--as line"), Ok(vec![to(Line, None)]));
    // With one of each there is nothing to confuse.
    assert_eq!(read("--out a --as json"), Ok(vec![to(Json, Some("a"))]));
    let two = Ok(vec![to(Terminal, None), to(Json, Some("a"))]);
    assert_eq!(read("--as terminal --as json --out a"), two);
    let two = Ok(vec![to(Json, Some("a")), to(Line, Some("b"))]);
    assert_eq!(read("--as json --out a --as line --out b"), two);
}

#[test]
fn what_cannot_be_paired_is_told() {
    let says = |line: &str| read(line).unwrap_err();
    assert!(says("--as json --as line").contains("json and line have no `--out`"));
    assert!(says("--as json --out a --out b").contains("no `--as` stands before `--out b`"));
    assert!(says("--out a --as json --as line --out b").contains("no `--as` stands before `--out a`"));
    assert!(says("--as json --out a --as line --out a").contains("cannot both go to a"));
}
