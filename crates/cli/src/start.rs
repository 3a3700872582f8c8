//! `dryfit start`: a commented spec to begin with.

use crate::UNUSABLE;
use crate::output;
use std::fs;
use std::io::Write;

const STARTER: &str = include_str!("starter.machine.yaml");

pub fn start(name: &str) -> u8 {
    let stem = name.strip_suffix(".machine.yaml").unwrap_or(name);
    let title = stem.rsplit(['/', '\\']).next().unwrap_or(stem);
    if title.is_empty() || title.chars().any(|letter| letter.is_control() || matches!(letter, '"' | '\\')) {
        output::complain("a machine's name is plain text, such as `hut-hauler`");
        return UNUSABLE;
    }
    let path = format!("{stem}.machine.yaml");
    let text = STARTER.replace("NAME", title);
    let written = fs::OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(&path)
        .and_then(|mut file| file.write_all(text.as_bytes()));
    match written {
        Ok(()) => output::print(&format!("{path} is written; fill in what you know, then `dryfit review {path}`\n")),
        Err(error) if error.kind() == std::io::ErrorKind::AlreadyExists => {
            output::complain(&format!("{path} is there already; it is left as it is"));
            UNUSABLE
        }
        Err(error) => {
            output::complain(&format!("{path} cannot be written: {}", crate::disk::reason(&error)));
            UNUSABLE
        }
    }
}
