//! `dryfit completions` and `dryfit manual`: for the shell, from the same description as the help.

use crate::args::Args;
use crate::{FAILED, NOTHING, UNUSABLE, disk, output, sink};
use clap::{Command, CommandFactory};
use clap_complete::Shell;
use clap_mangen::Man;
use std::path::Path;

/// Completions for one shell, to standard output.
pub fn completions(shell: Shell) -> u8 {
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut Args::command(), "dryfit", &mut text);
    output::print(&String::from_utf8_lossy(&text))
}

/// One page for the program and one for each command, into a folder.
pub fn manual(folder: &Path) -> u8 {
    if let Err(error) = std::fs::create_dir_all(folder) {
        output::complain(&format!("{} cannot be written: {}", folder.display(), disk::reason(&error)));
        return UNUSABLE;
    }
    let mut program = Args::command();
    program.build();
    let commands = program.get_subcommands().filter(|command| command.get_name() != "help");
    let pages: Vec<(String, Command)> = commands
        .map(|command| (format!("dryfit-{}", command.get_name()), command.clone()))
        .chain([("dryfit".to_owned(), program.clone())])
        .collect();
    pages.into_iter().map(|(name, command)| page(folder, &name, command)).max().unwrap_or(NOTHING)
}

fn page(folder: &Path, name: &str, command: Command) -> u8 {
    let mut text = Vec::new();
    // The name in the head is that of the page, not of the command as it is typed.
    match Man::new(command.display_name(name.to_owned())).render(&mut text) {
        Ok(()) => sink::deliver(Some(&folder.join(format!("{name}.1"))), &String::from_utf8_lossy(&text)),
        Err(_) => FAILED,
    }
}
