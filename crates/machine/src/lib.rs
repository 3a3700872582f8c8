//! The machine as structure, read once: sections, numbers that know their node, and the recording reader through
//! which every number is reached. It never knows: formulas, results of cases, rules, files on disk.

mod complaint;
mod curve;
mod fields;
mod given;
mod how_to_measure;
mod machine;
mod named;
mod nodes;
mod reader;
mod reserve;
mod row;
mod schema;
mod setting;
mod stations;
mod workshop;
#[macro_use]
mod words;
pub mod sections;

pub use complaint::{Complaint, Note, complaints, senseless};
pub use curve::{Curve, Points};
pub use fields::{Fields, Refusal};
pub use given::{Given, Range};
pub use how_to_measure::how_to_measure;
pub use machine::{Machine, Shelved, ThingRef, refusals};
pub use named::{Key, Map, Maybe, Named, Ref, Target};
pub use nodes::{Marks, Nodes};
pub use reader::{Assumption, Found, LookUp, NotJudged, Reader, Reads, Scale, WhatIf};
pub use reserve::Reserve;
pub use row::Row;
pub use schema::{machine_schema, schema_of, workshop_schema};
pub use sections::*;
pub use setting::{Setting, least_plausible, only_milder, reach, setting, stands_in, words_to_try};
pub use workshop::{Rulebook, misfits};

pub use document::{
    Asks, DeError, Document, Edit, Entry, Field, FileId, Kind as NodeKind, Node, NodeId, Span, Swap, Swaps, nearest,
};
pub use run_log;
