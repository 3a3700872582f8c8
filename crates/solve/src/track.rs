//! Tension of the track, term by term.

#[cfg(test)]
mod tests;

use crate::at::{At, Solve};
use crate::drive::{driven_mass, ground};
use crate::strength;
use machine::{CaseKind, Found, Material, NotJudged, TensionerKind, TrackForm};
use physics::landing::GRAVITY;
use quantity::*;

/// One track in one case point.
#[derive(Debug, Clone, PartialEq)]
pub struct Track {
    pub speed: Velocity,
    /// `the drive line`, or `the stated speed` where the drive line has no solution.
    pub speed_from: &'static str,
    /// Slack side as tensioned at assembly.
    pub preload: Force,
    /// By the track shrinking more than its frame since assembly; negative when it slackens, down to nothing left of the preload.
    pub contraction: Force,
    /// Pull of this one track; negative where it holds the machine back.
    pub pull: Force,
    /// m′·v².
    pub centrifugal: Force,
    /// Of something solid run over.
    pub run_over: Force,
    pub tight: Force,
    pub slack: Force,
}

impl Solve for Track {
    fn solve(at: &At) -> Found<Self> {
        solve(at)
    }
}

impl<'a> At<'a> {
    /// Tension of the track, tight and slack side, term by term.
    ///
    /// # Errors
    /// As worked out: a gap, a range, or its own reason.
    pub fn track(&self) -> Found<&'a Track> {
        self.ask()
    }
}

/// Works the tension out.
///
/// # Errors
/// A gap, or the drive line has no solution.
fn solve(at: &At) -> Found<Track> {
    let (case, machine) = (at.case()?, at.machine());
    let track = &machine.powertrain.track;
    // One track unless the spec counts more: said so in its description.
    let count = at.or_take(&track.count, Ratio::from_si(1.0), "1").si();
    let (pitch, links) = (at.need(&track.pitch)?, at.need(&track.links)?);
    let length = Length::from_si(pitch.si() * links.si());
    if !(count >= 1.0 && length.si() > 0.0) {
        return Err(NotJudged::NoSolution("there is no track: it has no links, or the machine has none of it".into()));
    }
    let preload = at.need(&track.slack_tension)?;
    let contraction = Force::from_si(contraction(at, length)?.si().max(-preload.si()));
    let (speed, whole_pull, speed_from) = driven(at)?;
    let mass_per_length = LinearMassDensity::from_si(at.need(&track.mass)?.si() / length.si());
    let centrifugal = physics::track::centrifugal_tension(mass_per_length, speed);
    let pull = whole_pull / count;
    let on_the_ground = case.kind != CaseKind::LiftOff && speed.si() > 0.0;
    let run_over = if on_the_ground {
        let weight = driven_mass(at)?.si() * GRAVITY / count;
        Force::from_si(at.need(&at.assumed().run_over)?.si() * weight)
    } else {
        Force::ZERO
    };
    let slack = Force::from_si((preload + contraction).si().max(0.0)) + centrifugal;
    // Where the track holds the machine back the other side is the tight one.
    let tight = slack + pull.abs() + run_over;
    if !tight.si().is_finite() {
        return Err(NotJudged::NoSolution(
            "the track's tension comes to no finite number: one of its figures is zero or far off".into(),
        ));
    }
    Ok(Track { speed, speed_from, preload, contraction, pull, centrifugal, run_over, tight, slack })
}

/// Speed and pull of all tracks: of the drive line, or as the case states them where the drive line is not described.
fn driven(at: &At) -> Found<(Velocity, Force, &'static str)> {
    let case = at.case()?;
    let gap = match at.drive() {
        Ok(drive) => {
            let (speed, pull) = drive.hardest_track();
            return Ok((speed, pull, "the drive line"));
        }
        Err(gap) => gap,
    };
    let kind = case.kind;
    let steady = matches!(kind, CaseKind::Climb | CaseKind::Cruise | CaseKind::Descent | CaseKind::SideSlope);
    let (true, Some(speed)) = (steady, at.try_get(&case.speed)) else { return Err(gap) };
    let ground = ground(at)?;
    let (wanted, most) = (ground.resistance.si(), ground.traction.si());
    let pull = if wanted.abs() > most { most * wanted.signum() } else { wanted };
    Ok((speed, Force::from_si(pull), "the stated speed"))
}

/// Tension by the track shrinking more than the frame that it goes round.
///
/// The track is a band of its net section all along: links are stiffer between their ears and softer at pin and hole, which go
/// against one another. In series with it stands what holds the idler, the tensioner's spring or else the mount's stiffness.
/// An idler that moves by δ gives the track 2δ, for the track goes there and back, and is held by twice the tension: seen
/// along the track its rate is a quarter. Without that a printed track would pull itself apart on a cold morning, which
/// none does. Creep, which lets half of such a tension go in weeks, is left out: the first cold day decides.
fn contraction(at: &At, length: Length) -> Found<Force> {
    let machine = at.machine();
    let track = &machine.powertrain.track;
    let form = at.part(&track.form)?;
    let tensioner = at.part(&track.tensioner)?;
    let area = match form {
        TrackForm::PinnedLinks(links) => {
            let across = at.need(&links.ears)?.si() * at.need(&links.ear_width)?.si();
            across * 2.0 * at.need(&links.wall_round_pin)?.si()
        }
        TrackForm::LivingHinge(hinge) => at.need(&hinge.thickness)?.si() * at.need(&hinge.width)?.si(),
        TrackForm::SolidBand(band) => at.need(&band.thickness)?.si() * at.need(&band.net_width)?.si(),
        // Its cords set its length, and they hardly grow with warmth.
        TrackForm::CordedBelt(_) => return Ok(Force::ZERO),
    };
    let material: &Material = machine.follow(at.part(&track.material)?);
    let frame: &Material = machine.follow(at.part(&track.frame_material)?);
    let outside = at.surroundings()?.outside;
    let assembled = at.or(&machine.environment.assembled_at, &at.assumed().assembled_at)?;
    let warmer_by = difference(outside, assembled);
    let growth = |expansion| physics::expansion::growth(expansion, length, warmer_by);
    let short = growth(at.need(&frame.expansion)?) - growth(at.need(&material.expansion)?);
    let modulus = strength::modulus(at, material, outside)?.si();
    let idler = match tensioner.by {
        TensionerKind::Spring => at.need(&tensioner.rate)?,
        TensionerKind::RigidScrew | TensionerKind::None => at.need(&at.assumed().mount_stiffness)?,
    };
    Ok(Force::from_si(short.si() / (length.si() / (modulus * area) + 4.0 / idler.si())))
}
