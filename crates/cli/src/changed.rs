//! A list of changed files, such as a version control writes it: only specs made of one of them are reviewed.

use crate::disk::{self, tidy};
use document::{Document, Why};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// Names as they stand in the list, each without `.` and `..`.
#[derive(Debug)]
pub struct Changed {
    names: BTreeSet<PathBuf>,
    /// Names may count from here or from any folder above: where the list was made is not known.
    here: PathBuf,
}

impl Changed {
    /// Reads a list, one name a line, or parted by zero bytes if there is one; `-` is standard input.
    pub fn read(list: &Path) -> Result<Self, String> {
        let piped = list == Path::new("-");
        let bytes = if piped { disk::standard_input() } else { disk::spec(list) };
        let bytes = bytes.map_err(|reason| format!("{}: {reason}", list.display()))?;
        let here = std::env::current_dir().map_err(|error| disk::reason(&error))?;
        Ok(Self { names: names(&bytes), here })
    }

    /// Whether the spec, a library or a log that it loads or would load, or the mark of its workshop is in the list.
    pub fn concerns(&self, document: &Document, root: &Path) -> bool {
        let loaded = document.files.iter().filter(|file| !file.built_in).map(|file| PathBuf::from(&file.name));
        let lost = document.troubles.iter().filter_map(|trouble| match &trouble.why {
            Why::Library { name, .. } | Why::Log { name, .. } => {
                let from = document.file(trouble.file).map_or("", |file| &file.name);
                Some(Path::new(from).parent().unwrap_or(Path::new("")).join(name))
            }
            Why::InLog { name, .. } => Some(PathBuf::from(name)),
            _ => None,
        });
        let logs = document.logs.iter().map(|log| PathBuf::from(&log.name));
        loaded.chain(logs).chain(lost).chain([root.join(disk::WORKSHOP)]).any(|path| self.has(&path))
    }

    fn has(&self, path: &Path) -> bool {
        let written = self.here.join(path);
        let real = written.canonicalize().ok();
        let lexical = PathBuf::from(tidy(&written));
        std::iter::once(lexical).chain(real).any(|path| {
            let relative = |folder: &Path| path.strip_prefix(folder).is_ok_and(|name| self.names.contains(name));
            self.names.contains(&path) || self.here.ancestors().any(relative)
        })
    }
}

fn names(bytes: &[u8]) -> BTreeSet<PathBuf> {
    let zero = bytes.contains(&0);
    let parts = bytes.split(|byte| if zero { *byte == 0 } else { *byte == b'\n' });
    let names = parts.map(|part| String::from_utf8_lossy(part.strip_suffix(b"\r").unwrap_or(part)).into_owned());
    names.filter(|name| !name.is_empty()).map(|name| PathBuf::from(tidy(Path::new(&name)))).collect()
}

#[cfg(test)]
mod tests {
    use super::names;
    use std::path::PathBuf;

    #[test]
    fn a_list_is_parted_by_lines_or_by_zeros() {
        let all = |bytes: &[u8]| names(bytes).into_iter().map(PathBuf::into_os_string).collect::<Vec<_>>();
        assert_eq!(all(b"a/b.yaml\r\n\n./c.yaml\nd/../e.yaml"), ["a/b.yaml", "c.yaml", "e.yaml"]);
        assert_eq!(all(b"a\nb.yaml\0c.yaml\0"), ["a\nb.yaml", "c.yaml"]);
        assert!(all(b"").is_empty());
    }
}
