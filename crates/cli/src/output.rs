//! Standard output, standard error, and how wide and colourful they are.

use crate::{FAILED, NOTHING};
use std::io::{self, ErrorKind, IsTerminal, Write};
use std::path::Path;

/// To standard output. A reader that has gone away (`| head`) is no failure.
pub fn print(text: &str) -> u8 {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Ok(()) => NOTHING,
        Err(error) if error.kind() == ErrorKind::BrokenPipe => NOTHING,
        Err(error) => {
            complain(&format!("standard output cannot be written: {}", crate::disk::reason(&error)));
            FAILED
        }
    }
}

/// How to draw for standard output, or plainly for a file.
pub fn look(file: Option<&Path>) -> render::Look {
    render::Look { width: width(), colour: file.is_none() && colour(), drawing: true }
}

/// Data that was written as text.
pub fn json(text: serde_json::Result<String>) -> String {
    text.map_or_else(|error| format!("{{\"failed\": \"{error}\"}}\n"), |text| text + "\n")
}

/// To standard error.
pub fn complain(text: &str) {
    // When not even this can be written there is nobody to tell.
    let _ = writeln!(io::stderr(), "dryfit: {text}");
}

/// Colour is wanted: on a terminal, unless NO_COLOR is set.
pub fn colour() -> bool {
    io::stdout().is_terminal() && std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty())
}

/// Columns of the terminal; 100 where there is none.
pub fn width() -> usize {
    let columns = std::env::var("COLUMNS").ok().and_then(|columns| columns.parse().ok());
    columns.unwrap_or_else(|| {
        let (_, columns) = console_size().unwrap_or((0, 100));
        columns
    })
}

fn console_size() -> Option<(usize, usize)> {
    if !io::stdout().is_terminal() {
        return None;
    }
    let size = terminal_size::terminal_size()?;
    Some((usize::from(size.1.0), usize::from(size.0.0)))
}
