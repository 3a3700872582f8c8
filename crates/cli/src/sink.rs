//! Where a layout goes: standard output, or a file that takes its name when it is whole.

use crate::output::{complain, print};
use crate::{FAILED, NOTHING, UNUSABLE, disk};
use std::fs::File;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// One place to write to. What cannot be written is complained of once; the exit code says it to the end.
#[derive(Debug)]
pub enum Sink {
    Standard,
    File {
        path: PathBuf,
        file: Pending,
    },
    /// Nothing more is written.
    Lost,
}

#[derive(Debug)]
pub enum Pending {
    /// A new file beside the one that it replaces in the end.
    Beside(NamedTempFile),
    /// A device or a pipe is written to and never replaced.
    Device(File),
}

impl Sink {
    /// Opens the file, or standard output without one; the code says whether it could be.
    pub fn open(path: Option<&Path>) -> (Self, u8) {
        let Some(path) = path else { return (Self::Standard, NOTHING) };
        match pending(path) {
            Ok((path, file)) => (Self::File { path, file }, NOTHING),
            Err(error) => {
                cannot(path, &error);
                (Self::Lost, UNUSABLE)
            }
        }
    }

    pub fn write(&mut self, text: &str) -> u8 {
        let written = match self {
            Self::Standard => return print(text),
            Self::Lost => return NOTHING,
            Self::File { file: Pending::Beside(file), .. } => file.write_all(text.as_bytes()),
            Self::File { file: Pending::Device(file), .. } => file.write_all(text.as_bytes()),
        };
        written.map_or_else(|error| self.lose(&error), |()| NOTHING)
    }

    /// The file takes its name.
    pub fn finish(mut self) -> u8 {
        match std::mem::replace(&mut self, Self::Lost) {
            Self::File { path, file: Pending::Beside(file) } => {
                let named = file.as_file().sync_all().and_then(|()| file.persist(&path).map_err(|error| error.error));
                named.map_or_else(
                    |error| {
                        cannot(&path, &error);
                        FAILED
                    },
                    |_| NOTHING,
                )
            }
            _ => NOTHING,
        }
    }

    fn lose(&mut self, error: &io::Error) -> u8 {
        // What was written so far is deleted with the new file; the former one is still there.
        if let Self::File { path, .. } = std::mem::replace(self, Self::Lost) {
            cannot(&path, error);
        }
        FAILED
    }
}

/// To the file if one is named, else to standard output.
pub fn deliver(file: Option<&Path>, text: &str) -> u8 {
    let (mut sink, code) = Sink::open(file);
    code.max(sink.write(text)).max(sink.finish())
}

fn cannot(path: &Path, error: &io::Error) {
    complain(&format!("{} cannot be written: {}", path.display(), disk::reason(error)));
}

fn pending(path: &Path) -> io::Result<(PathBuf, Pending)> {
    // A link stays a link: what it points to is replaced.
    let path = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    if path.is_dir() {
        return Err(io::Error::from(io::ErrorKind::IsADirectory));
    }
    if path.metadata().is_ok_and(|there| !there.is_file()) {
        let device = File::options().write(true).open(&path)?;
        return Ok((path, Pending::Device(device)));
    }
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let file = beside(folder)?;
    if let Ok(former) = path.metadata() {
        file.as_file().set_permissions(former.permissions())?;
    }
    Ok((path, Pending::Beside(file)))
}

/// A new file that others may read as far as the user's mask lets them.
fn beside(folder: &Path) -> io::Result<NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    #[cfg(unix)]
    builder.permissions(std::os::unix::fs::PermissionsExt::from_mode(0o666));
    builder.tempfile_in(folder)
}
