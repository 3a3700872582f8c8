//! Standard output, standard error, and files that are written whole or not at all.

use crate::{FAILED, NOTHING, UNUSABLE};
use std::io::{self, ErrorKind, IsTerminal, Write};
use std::path::Path;

/// To standard output. A reader that has gone away (`| head`) is no failure.
pub fn print(text: &str) -> u8 {
    let mut out = io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Ok(()) => NOTHING,
        Err(error) if error.kind() == ErrorKind::BrokenPipe => NOTHING,
        Err(error) => {
            complain(&format!("standard output cannot be written: {error}"));
            FAILED
        }
    }
}

/// To standard error.
pub fn complain(text: &str) {
    // When not even this can be written there is nobody to tell.
    let _ = writeln!(io::stderr(), "dryfit: {text}");
}

/// To a file: a new one is written beside it and takes its name at the end.
pub fn replace(path: &Path, text: &str) -> u8 {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let written = tempfile::NamedTempFile::new_in(folder).and_then(|mut file| {
        file.write_all(text.as_bytes())?;
        file.as_file().sync_all()?;
        file.persist(path).map_err(|error| error.error)
    });
    match written {
        Ok(_) => NOTHING,
        Err(error) => {
            complain(&format!("{} cannot be written: {}", path.display(), crate::disk::reason(&error)));
            UNUSABLE
        }
    }
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
