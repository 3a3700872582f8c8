//! What can be wrong with a text before anybody asks what it means.

use crate::files::FileTrouble;
use crate::nearest::nearest;
use crate::node::{FileId, Span};
use std::fmt;

/// One thing wrong, with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Trouble {
    pub file: FileId,
    pub span: Span,
    pub why: Why,
}

#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    TooLarge {
        bytes: usize,
        limit: usize,
    },
    TooDeep {
        limit: usize,
    },
    TooManyNodes {
        limit: usize,
    },
    TooManyCopies {
        limit: usize,
    },
    TooManyFiles {
        limit: usize,
    },
    NotUtf8 {
        line: usize,
    },
    Utf16,
    /// A letter that no text holds.
    NoLetter,
    Empty,
    NotAMap,
    SeveralDocuments,
    Tab,
    Syntax {
        says: String,
        help: &'static str,
    },
    DuplicateKey {
        key: String,
        first: Span,
    },
    KeyNotText,
    Tag {
        tag: String,
    },
    Merge,
    NumberTooLarge {
        text: String,
    },
    /// The whole file.
    Unreadable {
        reason: String,
    },
    Library {
        name: String,
        trouble: FileTrouble,
    },
    LibraryCycle {
        chain: String,
    },
    LibraryNotText,
    /// The log of a test run cannot be opened.
    Log {
        name: String,
        trouble: FileTrouble,
    },
    /// Something in the log of a test run.
    InLog {
        name: String,
        trouble: Box<run_log::Trouble>,
    },
    LikeNotText,
    LikeNothing {
        name: String,
        nearest: Option<String>,
    },
    LikeCycle {
        name: String,
    },
    LikeTooLong {
        limit: usize,
    },
}

impl Why {
    /// The way out.
    #[must_use]
    pub fn help(&self) -> String {
        match self {
            Self::TooLarge { limit, .. } => {
                format!("a spec may have up to {limit} bytes; move bought-in parts into libraries")
            }
            Self::TooDeep { .. } => "close some of the brackets, or check the indentation".into(),
            Self::TooManyNodes { .. } => "split it into several machines".into(),
            Self::TooManyCopies { .. } => {
                "an alias (`*name`) inside another alias multiplies, and so does a long chain of `like`s; write some of them out".into()
            }
            Self::TooManyFiles { .. } => "join some of the libraries into one file".into(),
            Self::NotUtf8 { .. } => "save the file as UTF-8 in your editor, then review again".into(),
            Self::Utf16 => "save the file as UTF-8 (not UTF-16) in your editor, then review again".into(),
            Self::NoLetter => "is this really a text? Delete the character, or write the line anew".into(),
            Self::Empty => "`dryfit start NAME` writes a commented starter".into(),
            Self::NotAMap => "a spec begins with `dryfit: 1` and `machine:` at the left margin".into(),
            Self::SeveralDocuments => {
                "one file is one machine: remove the second `---` and what follows, or put it in a file of its own"
                    .into()
            }
            Self::Tab => "use spaces: two for each step inwards".into(),
            Self::Syntax { help, .. } => (*help).into(),
            Self::DuplicateKey { .. } => "keep one of the two".into(),
            Self::KeyNotText => "a key is a plain word such as `mass`".into(),
            Self::Tag { .. } => "remove the tag: values are read by what they say, no tag is needed".into(),
            Self::Merge => "write `like: other_key` to copy a thing and change some of its fields".into(),
            Self::NumberTooLarge { .. } => "check the exponent".into(),
            Self::InLog { trouble, .. } => in_log(trouble),
            Self::Log { trouble, .. } => match trouble {
                FileTrouble::Missing { nearest: Some(near) } => format!("did you mean `{near}`?"),
                FileTrouble::Missing { nearest: None } => "paths count from the folder of the file that names them".into(),
                FileTrouble::OutsideRoot { root } => format!("logs are read only from below `{root}`: copy the file there"),
                FileTrouble::NotAFile => "name a file, not a folder".into(),
                FileTrouble::TooLarge { .. } | FileTrouble::Unreadable { .. } => "check that the file may be read".into(),
            },
            Self::Library { trouble, .. } => match trouble {
                FileTrouble::Missing { nearest: Some(near) } => format!("did you mean `{near}`?"),
                FileTrouble::Missing { nearest: None } => {
                    "paths count from the folder of the file that names them".into()
                }
                FileTrouble::OutsideRoot { root } => {
                    format!("libraries are read only from below `{root}`: copy the file there")
                }
                FileTrouble::NotAFile => "name a file, not a folder".into(),
                FileTrouble::TooLarge { .. } => "split the library".into(),
                FileTrouble::Unreadable { .. } => "check that the file may be read".into(),
            },
            Self::Unreadable { .. } => "check that the file may be read".into(),
            Self::LibraryCycle { .. } => "take one of them out of `libraries:`".into(),
            Self::LibraryNotText => "write `libraries: [parts/bought-in.yaml]`".into(),
            Self::LikeNotText => "write the key of the thing to copy: `like: tough_pla`".into(),
            Self::LikeNothing { nearest: Some(near), .. } => format!("did you mean `{near}`?"),
            Self::LikeNothing { nearest: None, .. } => {
                "`like` names another key of the same section, here, in a library or built in".into()
            }
            Self::LikeCycle { .. } | Self::LikeTooLong { .. } => "write one of them out in full".into(),
        }
    }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooLarge { bytes, .. } => write!(f, "this file has {bytes} bytes, too many to be a spec"),
            Self::TooDeep { limit } => write!(f, "lists and maps are nested more than {limit} deep here"),
            Self::TooManyNodes { limit } => write!(f, "more than {limit} values: too many for one machine"),
            Self::TooManyCopies { limit } => {
                write!(f, "aliases and `like` copy more than {limit} values, here for the first time")
            }
            Self::TooManyFiles { limit } => write!(f, "more than {limit} libraries"),
            Self::NotUtf8 { line } => write!(f, "line {line} holds bytes that are not UTF-8 text"),
            Self::Utf16 => write!(f, "this file is UTF-16 text"),
            Self::NoLetter => write!(f, "an invisible control character stands here that no text holds"),
            Self::Empty => write!(f, "this file is empty"),
            Self::NotAMap => write!(f, "this is not a machine spec: sections with keys are wanted here"),
            Self::SeveralDocuments => write!(f, "a second document starts here"),
            Self::Tab => write!(f, "a tab is used to indent this line; YAML does not allow it"),
            Self::Syntax { says, .. } => write!(f, "{says}"),
            Self::DuplicateKey { key, .. } => write!(f, "`{key}` stands here a second time"),
            Self::KeyNotText => write!(f, "a list or a map is used as a key here"),
            Self::Tag { tag } => write!(f, "the tag `{tag}` is not read here"),
            Self::Merge => write!(f, "the merge key `<<` is not read here"),
            Self::NumberTooLarge { text } => write!(f, "`{text}` is too large for a number"),
            Self::Library { name, trouble } => cannot_open(f, "library", name, trouble),
            Self::Log { name, trouble } => cannot_open(f, "log", name, trouble),
            Self::InLog { name, trouble } => write!(f, "`{name}`, {}: {}", trouble.place, trouble.why),
            Self::Unreadable { reason } => write!(f, "this file cannot be read: {reason}"),
            Self::LibraryCycle { chain } => write!(f, "these libraries name one another in a circle: {chain}"),
            Self::LibraryNotText => write!(f, "`libraries` wants a list of file names"),
            Self::LikeNotText => write!(f, "`like` wants one key"),
            Self::LikeNothing { name, .. } => write!(f, "`like` names `{name}`, which is nowhere defined"),
            Self::LikeTooLong { limit } => write!(f, "a chain of more than {limit} `like`s begins here"),
            Self::LikeCycle { name } => write!(f, "`{name}` is `like` itself, through a circle of `like`s"),
        }
    }
}

fn cannot_open(f: &mut fmt::Formatter<'_>, what: &str, name: &str, trouble: &FileTrouble) -> fmt::Result {
    match trouble {
        FileTrouble::Missing { .. } => write!(f, "the {what} `{name}` does not exist"),
        FileTrouble::OutsideRoot { .. } => write!(f, "the {what} `{name}` lies outside the repository of specs"),
        FileTrouble::NotAFile => write!(f, "the {what} `{name}` is a folder"),
        FileTrouble::TooLarge { limit } => write!(f, "the {what} `{name}` has more than {limit} bytes"),
        FileTrouble::Unreadable { reason } => write!(f, "the {what} `{name}` cannot be read: {reason}"),
    }
}

/// The way out, with the nearest heading where one was misspelt.
fn in_log(trouble: &run_log::Trouble) -> String {
    match &trouble.why {
        run_log::Why::NoHeading { heading, has, .. } => {
            // Between letters that stand alone everything is near.
            let told = |near: &&str| heading.chars().count() > 2 || near.eq_ignore_ascii_case(heading);
            match nearest(heading, has.iter().map(String::as_str)).filter(told) {
                Some(near) => format!("did you mean `{near}`?"),
                None => trouble.why.help(),
            }
        }
        why => why.help(),
    }
}
