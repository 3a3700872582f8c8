//! What a review costs as a process of its own, cold, against two others on the same text: the bare pass over its YAML
//! events, and a Python script that loads it and validates it against our schema. `cargo bench -p dryfit_cli --bench process`

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::print_stdout)]

use serde_yaml::granit_parser::Parser;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const ROUNDS: usize = 31;
const EVENTS: &str = "--events-of";
/// Prints what it found wrong; exit code 3: the libraries are not there.
const SCRIPT: &str = "\
import json, sys
try:
    import yaml, jsonschema
    Loader = yaml.CSafeLoader
except (ImportError, AttributeError):
    sys.exit(3)
spec = yaml.load(open(sys.argv[1], encoding='utf-8'), Loader)
schema = json.load(open(sys.argv[2], encoding='utf-8'))
validator = jsonschema.validators.validator_for(schema)(schema)
print(sum(1 for _ in validator.iter_errors(spec)))
";

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    if let Some(at) = arguments.iter().position(|argument| argument == EVENTS) {
        return events(Path::new(arguments.get(at + 1).unwrap()));
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let spec = longest(&root.join("examples"));
    let lines = std::fs::read_to_string(&spec).unwrap().lines().count();
    println!("{}, {lines} lines", spec.display());
    let review = |layout: &str| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_dryfit"));
        command.args(["review", "--refuse", "nothing", "--as", layout]).arg(&spec);
        command
    };
    let mut bare = Command::new(std::env::current_exe().unwrap());
    bare.arg(EVENTS).arg(&spec);
    let mut python = Command::new("python3");
    python.args(["-c", SCRIPT]).arg(&spec).arg(root.join("schemas/machine.schema.json"));
    let mut commands =
        [("events", bare), ("line", review("line")), ("terminal", review("terminal")), ("python", python)];
    let mut times: [Vec<Duration>; 4] = Default::default();
    for _ in 0..ROUNDS {
        for ((name, command), times) in commands.iter_mut().zip(&mut times) {
            let began = Instant::now();
            let status = command.stdout(Stdio::null()).status().unwrap();
            times.push(began.elapsed());
            assert!(status.success(), "{name}: {status}");
        }
    }
    let [events, line, terminal, python] = times.map(|mut times| {
        times.sort();
        times[ROUNDS / 2].as_secs_f64()
    });
    println!("bare YAML events {:.2} ms", events * 1e3);
    for (name, time) in [("line", line), ("terminal", terminal)] {
        println!(
            "--as {name} {:.2} ms: {:.2} × the events, 1/{:.1} of Python",
            time * 1e3,
            time / events,
            python / time
        );
    }
}

/// Nothing but the events, counted so that they are not left out.
fn events(spec: &Path) {
    let text = std::fs::read_to_string(spec).unwrap();
    let mut parser = Parser::new_from_str(&text);
    let mut count = 0;
    while let Some(event) = parser.next_event() {
        event.unwrap();
        count += 1;
    }
    println!("{count}");
}

/// The example with the most lines.
fn longest(folder: &Path) -> PathBuf {
    let machines = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).filter(|path| path.is_dir());
    let files = machines.flat_map(|machine| std::fs::read_dir(machine).unwrap().map(|entry| entry.unwrap().path()));
    let specs = files.filter(|file| file.to_string_lossy().ends_with(".machine.yaml"));
    specs.max_by_key(|file| std::fs::read_to_string(file).unwrap().lines().count()).unwrap()
}
