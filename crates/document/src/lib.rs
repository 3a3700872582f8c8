//! Files become nodes with ids and byte spans; libraries and built-in entries are joined; nodes are served to serde.
//! The words of the language that it knows are `libraries`, `like`, `kind`, and `log` with its `columns`. It never knows: a field, a unit, the disk.

mod deserializer;
mod edit;
mod files;
mod json;
mod load;
mod logs;
mod nearest;
mod node;
mod parse;
mod trouble;

pub use deserializer::{
    Asks, DeError, Field, GIVEN, KEY, MAYBE, Noted, RANGE, REF, RESERVE, Reading, TABLE, WORD, What, number,
};
pub use edit::Edit;
pub use files::{FileTrouble, Files, Limits, NoFiles, NoShelf, Shelf};
pub use json::{as_number, to_json};
pub use load::{Document, WorkshopFile};
pub use logs::Log;
pub use nearest::nearest;
pub use node::{Entry, FileId, Kind, Node, NodeId, Place, SourceFile, Span, Swap, Swaps};
pub use trouble::{Trouble, Why};
