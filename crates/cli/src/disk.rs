//! Specs, libraries and logs on the disk. Libraries and logs are read only from below the root of the repository of specs.

use document::{FileTrouble, Files, Limits, nearest};
use std::fs;
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// The folder below which libraries and logs may lie: the nearest one upwards that holds `workshop.yaml` or `.git`, else the
/// spec's own.
#[derive(Debug)]
pub struct Disk {
    root: PathBuf,
    /// The file of the workshop at the root, as it is shown.
    workshop: PathBuf,
}

/// Marks the root, and holds what is required of all machines below it.
pub const WORKSHOP: &str = "workshop.yaml";

impl Disk {
    pub fn for_spec(spec: &Path) -> Self {
        let folder = spec.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let real = folder.canonicalize().unwrap_or_else(|_| folder.to_path_buf());
        let marked = |folder: &&Path| folder.join(WORKSHOP).is_file() || folder.join(".git").exists();
        let root = real.ancestors().find(marked).unwrap_or(&real).to_path_buf();
        let up = real.strip_prefix(&root).map_or(0, |below| below.components().count());
        let above: PathBuf = std::iter::repeat_n("..", up).collect();
        Self { workshop: PathBuf::from(tidy(&folder.join(above).join(WORKSHOP))), root }
    }

    pub fn root(&self) -> &Path {
        &self.root
    }
}

impl Disk {
    /// The real path of a file below the root, and the name under which it is known.
    fn found(&self, from: &str, name: &str) -> Result<(PathBuf, String), FileTrouble> {
        let outside = || FileTrouble::OutsideRoot { root: self.root.display().to_string() };
        if Path::new(name).is_absolute() {
            return Err(outside());
        }
        let folder = Path::new(from).parent().unwrap_or(Path::new(""));
        let path = folder.join(name);
        let real = match path.canonicalize() {
            Ok(real) => real,
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                return Err(FileTrouble::Missing { nearest: neighbour(&path, name) });
            }
            Err(error) => return Err(FileTrouble::Unreadable { reason: reason(&error) }),
        };
        // Links are followed first, so that none leads out.
        if !real.starts_with(&self.root) {
            return Err(outside());
        }
        if real.is_dir() {
            return Err(FileTrouble::NotAFile);
        }
        Ok((real, tidy(&path)))
    }
}

impl Files for Disk {
    fn read(&self, from: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let (real, known_as) = self.found(from, name)?;
        let bytes = bounded(&real).map_err(|error| FileTrouble::Unreadable { reason: reason(&error) })?;
        Ok((known_as, bytes))
    }

    fn open(&self, from: &str, name: &str) -> Result<(String, Box<dyn Read>), FileTrouble> {
        let (real, known_as) = self.found(from, name)?;
        // What is no file, such as a pipe that nobody writes to, would be waited for.
        if !real.is_file() {
            return Err(FileTrouble::NotAFile);
        }
        let file = fs::File::open(&real).map_err(|error| FileTrouble::Unreadable { reason: reason(&error) })?;
        Ok((known_as, Box::new(file)))
    }

    fn workshop(&self) -> Option<(String, Result<Vec<u8>, String>)> {
        let path = self.root.join(WORKSHOP);
        let bytes = path.is_file().then(|| bounded(&path).map_err(|error| reason(&error)))?;
        Some((self.workshop.display().to_string(), bytes))
    }
}

/// `a/../b` is `b`: two spellings of one file are one name.
pub fn tidy(path: &Path) -> String {
    let mut parts: Vec<std::path::Component<'_>> = Vec::new();
    for part in path.components() {
        match part {
            std::path::Component::CurDir => {}
            std::path::Component::ParentDir if matches!(parts.last(), Some(std::path::Component::Normal(_))) => {
                parts.pop();
            }
            other => parts.push(other),
        }
    }
    parts.iter().collect::<PathBuf>().display().to_string()
}

/// A file of nearly that name beside the missing one.
fn neighbour(path: &Path, name: &str) -> Option<String> {
    let wanted = path.file_name()?.to_str()?;
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let mut names: Vec<String> =
        fs::read_dir(folder).ok()?.take(1000).filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
    names.sort();
    let near = nearest(wanted, names.iter().map(String::as_str))?;
    Some(name.strip_suffix(wanted).map_or_else(|| near.to_owned(), |folder| format!("{folder}{near}")))
}

/// No more than is allowed, and one byte, so that too much is noticed and not read to its end.
fn bounded(path: &Path) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    fs::File::open(path)?.take(Limits::default().bytes as u64 + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

/// The bytes of one spec.
pub fn spec(path: &Path) -> Result<Vec<u8>, String> {
    if path.is_dir() {
        return Err("it is a folder".into());
    }
    bounded(path).map_err(|error| reason(&error))
}

/// Standard input, bounded like a file.
pub fn standard_input() -> Result<Vec<u8>, String> {
    let mut bytes = Vec::new();
    let limit = Limits::default().bytes as u64 + 1;
    io::stdin().take(limit).read_to_end(&mut bytes).map_err(|error| reason(&error))?;
    Ok(bytes)
}

/// Every `*.machine.yaml` below a folder, in the order of their names; hidden folders, build folders and links are left out.
pub fn specs_below(folder: &Path, found: &mut Vec<PathBuf>) -> Result<(), String> {
    let entries = fs::read_dir(folder).map_err(|error| reason(&error))?;
    let mut entries: Vec<fs::DirEntry> = entries.filter_map(Result::ok).collect();
    entries.sort_by_key(fs::DirEntry::file_name);
    for entry in entries {
        let name = entry.file_name();
        let name = name.to_string_lossy();
        let Ok(kind) = entry.file_type() else { continue };
        if kind.is_dir() && !name.starts_with('.') && name != "target" {
            // A folder that may not be read does not stop the others.
            let _ = specs_below(&entry.path(), found);
        } else if kind.is_file() && name.ends_with(".machine.yaml") {
            found.push(entry.path());
        }
    }
    Ok(())
}

/// An error of the system in few words.
pub fn reason(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "it does not exist".into(),
        io::ErrorKind::PermissionDenied => "it may not be read or written".into(),
        io::ErrorKind::StorageFull => "no space is left".into(),
        io::ErrorKind::IsADirectory => "it is a folder".into(),
        _ => error.to_string(),
    }
}
