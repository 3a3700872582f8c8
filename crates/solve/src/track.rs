//! Tension of the track, term by term.

use crate::at::At;
use machine::Found;
use quantity::*;

/// One track in one case point.
#[derive(Debug, Clone, PartialEq)]
pub struct Track {
    pub speed: Velocity,
    /// Slack side as tensioned at assembly.
    pub preload: Force,
    /// By the track shrinking more than its frame since assembly; negative when it slackens.
    pub contraction: Force,
    /// Pull of this one track.
    pub pull: Force,
    /// m′·v².
    pub centrifugal: Force,
    /// Of something solid run over.
    pub run_over: Force,
    pub tight: Force,
    pub slack: Force,
}

/// Works the tension out.
///
/// # Errors
/// A gap, or the drive line has no solution.
pub(crate) fn solve(at: &At) -> Found<Track> {
    let _ = at.case()?;
    Err(machine::NotJudged::NoSolution("track".into()))
}
