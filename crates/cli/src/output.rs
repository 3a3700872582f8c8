//! Standard output, standard error, and files that are written whole or not at all.

use crate::{FAILED, NOTHING, UNUSABLE};
use std::fs::File;
use std::io::{self, ErrorKind, IsTerminal, Write};
use std::path::Path;
use tempfile::NamedTempFile;

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

/// To the file if one is named, else to standard output.
pub fn deliver(file: Option<&Path>, text: &str) -> u8 {
    file.map_or_else(|| print(text), |path| replace(path, text))
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

/// To a file: a new one is written beside it and takes its name at the end.
pub fn replace(path: &Path, text: &str) -> u8 {
    match write(path, text.as_bytes()) {
        Ok(()) => NOTHING,
        Err(error) => {
            complain(&format!("{} cannot be written: {}", path.display(), crate::disk::reason(&error)));
            UNUSABLE
        }
    }
}

fn write(path: &Path, bytes: &[u8]) -> io::Result<()> {
    // A link stays a link: what it points to is replaced. A device or a pipe is written to and never replaced.
    let path = &path.canonicalize().unwrap_or_else(|_| path.to_owned());
    if path.metadata().is_ok_and(|there| !there.is_file() && !there.is_dir()) {
        return File::options().write(true).open(path)?.write_all(bytes);
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut file = beside(folder)?;
    if let Ok(former) = path.metadata() {
        file.as_file().set_permissions(former.permissions())?;
    }
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    file.persist(path).map_err(|error| error.error).map(|_| ())
}

/// A new file that others may read as far as the user's mask lets them.
fn beside(folder: &Path) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(folder)
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
