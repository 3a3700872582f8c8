//! What holds a long part, and what pushes on it.

use crate::given::Given;
use crate::named::{Maybe, Ref};
use crate::sections::suspension::Corner;
use quantity::m;
use schemars::JsonSchema;
use serde::Deserialize;

/// One place at which a long part is held.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct MemberStation {
    /// From its left or clamped end.
    pub x: Given<m::Position>,
    pub holds: MemberHold,
    /// Of a seat: force over how far it gives way.
    pub rate: Given<m::SpringRate>,
    /// Of a seat: by how much the part can move before it touches, to each side; none if not given.
    pub play: Given<m::Distance>,
}

words! {
    pub enum MemberHold {
        /// cannot move, free to turn: a pin, a bolt, a bearing
        Pivoted = "pivoted",
        /// can neither move nor turn: clamped over some length, welded, cast in
        Clamped = "clamped",
        /// slides in a guide that keeps it from turning
        Guided = "guided",
        /// a rubber, a spring or a thin plate
        Seat = "seat",
    }
}

/// Something that pushes on a part.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct Push {
    /// What supplies the force in each case.
    pub from: PushSource,
    /// Which corner of the suspension, of `corner`.
    pub corner: Maybe<Ref<Corner>>,
    /// Of `force`, where it is known.
    pub force: Given<m::Force>,
    /// How much of it comes to this part: one of two rails has 50 %, unless it can come down on one alone.
    pub share: Given<m::Percentage>,
    /// Where it pushes, from the left or clamped end; the worst place if not given.
    pub at: Given<m::Position>,
    /// Which way; `in_height` if not given.
    pub direction: Maybe<PushDirection>,
    /// How far beside the part's axis it pushes.
    pub lever: Given<m::Distance>,
    /// By how much the track turns round the wheel that sits there, of `track_tension`: 180 ° for an idler.
    pub wrap: Given<m::Angle>,
}

words! {
    /// Where a force comes from: the case supplies how large it is.
    pub enum PushSource {
        /// a corner of the suspension, at its wheel: spring, damper and stop in a landing, the weight on it otherwise
        Corner = "corner",
        /// the track on a wheel that it runs round
        TrackTension = "track_tension",
        /// the whole machine's weight
        Weight = "weight",
        /// the payload's weight, with what a landing makes of it
        Payload = "payload",
        /// the machine stopped dead by snow or a post
        Stopped = "stopped",
        /// the track jammed while it runs
        Jam = "jam",
        /// as stated
        Force = "force",
    }
}

words! {
    pub enum PushDirection {
        /// bends it in the plane of its section's height
        InHeight = "in_height",
        /// bends it in the plane of its section's width
        InWidth = "in_width",
        /// presses it together along its axis
        Along = "along",
    }
}

words! {
    pub enum RodsLie {
        /// in the plane of the section's height
        AboveOneAnother = "above_one_another",
        /// in the plane of its width
        SideBySide = "side_by_side",
    }
}

/// A load that was tried: by hand, with a fish scale, or by an accident.
#[derive(Debug, Deserialize, JsonSchema)]
pub struct HandTest {
    pub force: Given<m::Force>,
    /// Where it pushed, from the left or clamped end; the free end or the middle if not given.
    pub at: Given<m::Position>,
    pub direction: Maybe<PushDirection>,
    pub air: Given<m::Temperature>,
}
