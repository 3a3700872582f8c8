//! The tool as a process of its own.

#![allow(clippy::unwrap_used, dead_code)]

pub mod repository;

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..").canonicalize().unwrap()
}

pub fn command(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_dryfit"));
    command.args(arguments).current_dir(folder).env("COLUMNS", "100");
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

pub fn dryfit(folder: &Path, arguments: &[&str], input: &str) -> Output {
    answer(&mut command(folder, arguments), input)
}

pub fn answer(command: &mut Command, input: &str) -> Output {
    let mut child = command.spawn().unwrap();
    // A command that does not read its input may be gone already.
    let _ = child.stdin.take().unwrap().write_all(input.as_bytes());
    child.wait_with_output().unwrap()
}

pub fn code(output: &Output) -> i32 {
    output.status.code().unwrap()
}

pub fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

pub fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

/// A spec that one rule refuses whatever its numbers are.
pub const FIBRES: &str = "\
dryfit: 1
machine: {name: trial}
structure:
  parts: {axle: {material: carbon_tube}, wheel: {material: pom}}
  contacts:
    wheel_on_axle: {of: [wheel, axle], motion: rotating, between: none}
";

/// The same, mended.
pub fn mended() -> String {
    FIBRES.replace("between: none", "between: metal_sleeve")
}

pub fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    fs::create_dir_all(path.parent().unwrap()).unwrap();
    fs::write(path, text).unwrap();
}
