//! A straight beam with any number of supports, loads and pieces of different stiffness, in one plane.

mod held;
mod solved;
#[cfg(test)]
mod tests;

pub use solved::{Bending, Here, Reaction};

use quantity::*;

/// A piece of one bending stiffness, from one station to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    pub from: Length,
    pub to: Length,
    pub stiffness: BendingStiffness,
}

/// What holds a beam at a station.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Hold {
    /// Cannot move sideways, free to turn.
    Pivoted,
    /// Can neither move nor turn; the beam may go on beyond it.
    Clamped,
    /// Cannot turn, free to move sideways.
    Guided,
    /// A seat that gives way: it pushes back with its rate once the beam has used up the play on that side, and against turning
    /// with a torque per radian, which may be zero.
    Seat { rate: SpringRate, play: Length, turning: Torque },
}

#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Held {
    pub at: Length,
    pub by: Hold,
}

/// What loads it: forces and what is spread count upward, moments counterclockwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Push {
    Force {
        at: Length,
        force: Force,
    },
    Moment {
        at: Length,
        moment: Torque,
    },
    /// Evenly, force per length.
    Spread {
        from: Length,
        to: Length,
        per_length: SpringRate,
    },
}

/// Why a beam has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unsolved {
    /// It is held by too little: it falls down or turns away.
    Loose,
    /// A length or stiffness is zero, negative or no number, or a station lies beyond the beam's ends.
    Shapeless,
}

/// Moment, shear, deflection and slope everywhere, and what each support takes.
///
/// Inputs: length (m), stations counted from its left end; pieces, which together cover it (m, N·m²); what holds it; what loads it.
/// Returns: reactions in the order of the supports, as they act on the beam, and the course of all the rest.
/// Valid for: slender beams (spans over ten heights; shorter ones bend more by shear), deflection under a tenth of a span; elastic.
/// A second plane is solved by itself; play is then that of each plane, while a round seat has it along the resultant.
/// Source: Euler–Bernoulli beam by direct stiffness with exact end forces of each span (Przemieniecki, Theory of Matrix Structural
/// Analysis), published; seats with play as one-sided springs, worked out here.
///
/// # Errors
/// What is held by too little, or has no shape.
pub fn bend(length: Length, pieces: &[Piece], holds: &[Held], pushes: &[Push]) -> Result<Bending, Unsolved> {
    held::bend(length, pieces, holds, pushes)
}
