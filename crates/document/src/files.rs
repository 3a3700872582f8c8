//! The outside world as this crate sees it: two small traits and the limits.

use std::io::{Cursor, Read};

/// Where libraries come from. The command line implements it on the disk, tests in memory.
pub trait Files {
    /// The text of `name` as written in `from`, together with the name under which it is known from now on
    /// (two spellings of one file give the same name).
    ///
    /// # Errors
    /// Why it cannot be read.
    fn read(&self, from: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble>;
    /// The file at the root of the repository of specs: its name, and its text or why it cannot be read.
    fn workshop(&self) -> Option<(String, Result<Vec<u8>, String>)> {
        None
    }

    /// The same for a file that may be too large to be read at once: the log of a test run.
    ///
    /// # Errors
    /// As [`Files::read`].
    fn open(&self, from: &str, name: &str) -> Result<(String, Box<dyn Read>), FileTrouble> {
        let (known_as, bytes) = self.read(from, name)?;
        Ok((known_as, Box::new(Cursor::new(bytes))))
    }
}

#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FileTrouble {
    Missing { nearest: Option<String> },
    OutsideRoot { root: String },
    NotAFile,
    TooLarge { limit: usize },
    Unreadable { reason: String },
}

/// Built-in entries by key: (section, file name, text).
pub trait Shelf {
    /// The entry's own section (empty: it is a section itself), its file's name and text.
    fn entry(&self, key: &str) -> Option<(&'static str, &'static str, &'static str)>;
    /// Section and key of every entry, for "did you mean".
    fn keys(&self) -> &'static [(&'static str, &'static str)] {
        &[]
    }
    /// Keys that are joined whether mentioned or not.
    fn always(&self) -> &'static [&'static str] {
        &[]
    }
}

/// No libraries at all.
#[derive(Debug, Clone, Copy)]
pub struct NoFiles;

impl Files for NoFiles {
    fn read(&self, _from: &str, _name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        Err(FileTrouble::Missing { nearest: None })
    }
}

/// Nothing built in.
#[derive(Debug, Clone, Copy)]
pub struct NoShelf;

impl Shelf for NoShelf {
    fn entry(&self, _key: &str) -> Option<(&'static str, &'static str, &'static str)> {
        None
    }
}

/// Far above anything that a person writes; they keep a broken or hostile file from eating the machine.
#[derive(Debug, Clone, Copy)]
pub struct Limits {
    /// Bytes of one file.
    pub bytes: usize,
    /// Lists and maps inside one another.
    pub depth: usize,
    /// Nodes of all files together.
    pub nodes: usize,
    /// Nodes that aliases (`*name`) and `like` may copy.
    pub copies: usize,
    /// Libraries, nested ones counted.
    pub files: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self { bytes: 4 << 20, depth: 64, nodes: 400_000, copies: 200_000, files: 64 }
    }
}
