//! The stages as ratios, losses and meshes, and how many motors and lines there are.

use crate::at::At;
use machine::{Found, GearStage, Given, Machine, MotorsArranged, NotJudged, PlanetaryMember, PlanetaryStage, Stage};
use physics::planetary::{Member, Set};
use quantity::*;

/// One stage in numbers.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reduction {
    pub stage: physics::drive::Stage,
    /// Meshes that share the torque.
    pub meshes: f64,
}

/// All lines and motors are alike.
#[derive(Debug, Clone, Copy)]
pub(super) struct Layout {
    pub lines: f64,
    pub motors_on_a_line: f64,
}

pub(super) fn layout(at: &At) -> Found<Layout> {
    let motor = &at.machine().powertrain.motor;
    // One motor unless the spec counts more: said so in its description.
    let count = at.or_take(&motor.count, Ratio::from_si(1.0), "1").si();
    if !(count >= 1.0 && count.is_finite()) {
        return Err(NotJudged::NoSolution("there is no motor: the spec counts none".into()));
    }
    if count < 2.0 {
        return Ok(Layout { lines: 1.0, motors_on_a_line: count });
    }
    Ok(match at.part(&motor.arranged)? {
        MotorsArranged::OnOneLine => Layout { lines: 1.0, motors_on_a_line: count },
        MotorsArranged::OneASide => Layout { lines: count, motors_on_a_line: 1.0 },
    })
}

/// All stages in order from the motor; the motors of one line share the wheel of the first.
pub(super) fn read(at: &At, machine: &Machine, layout: Layout) -> Found<Vec<Reduction>> {
    let mut stages = machine.powertrain.stages.iter().map(|each| stage(at, each)).collect::<Found<Vec<_>>>()?;
    if let (Some(first), Some(Stage::Spur(_) | Stage::Helical(_) | Stage::Internal(_))) =
        (stages.first_mut(), machine.powertrain.stages.first())
    {
        first.meshes = layout.motors_on_a_line;
    }
    Ok(stages)
}

fn stage(at: &At, stage: &Stage) -> Found<Reduction> {
    let (assumed, name) = (at.assumed(), stage.name());
    let (ratio, meshes, efficiency) = match stage {
        Stage::Spur(gears) | Stage::Helical(gears) => {
            (pair(at, gears)?, 1.0, at.or(&gears.efficiency, &assumed.gear_efficiency)?)
        }
        Stage::Internal(gears) => {
            let ratio = pair(at, gears)?;
            if ratio <= 1.0 {
                return Err(NotJudged::NoSolution(format!("the pinion of stage {name} does not fit into its ring")));
            }
            (ratio, 1.0, at.or(&gears.efficiency, &assumed.gear_efficiency)?)
        }
        Stage::Planetary(set) => planetary(at, set)?,
        Stage::Chain(chain) => {
            let ratio = whole(at, &chain.driven_teeth, 1.0, name)? / whole(at, &chain.driving_teeth, 1.0, name)?;
            (ratio, 1.0, at.or(&chain.efficiency, &assumed.chain_efficiency)?)
        }
        Stage::ToothedBelt(belt) => {
            let ratio = whole(at, &belt.driven_teeth, 1.0, name)? / whole(at, &belt.driving_teeth, 1.0, name)?;
            (ratio, 1.0, at.or(&belt.efficiency, &assumed.belt_efficiency)?)
        }
    };
    if !(efficiency.si() > 0.0 && efficiency.si() <= 1.0) {
        return Err(NotJudged::NoSolution(format!(
            "nothing goes through stage {name}: its efficiency is not between 0 and 100 %"
        )));
    }
    Ok(Reduction { stage: physics::drive::Stage { ratio: Ratio::from_si(ratio), efficiency }, meshes })
}

fn pair(at: &At, gears: &GearStage) -> Found<f64> {
    let name = &gears.name;
    Ok(whole(at, &gears.wheel.teeth, 1.0, name)? / whole(at, &gears.pinion.teeth, 1.0, name)?)
}

/// Ratio without its sign: a motor that turns the other way drives forward again.
fn planetary(at: &At, stage: &PlanetaryStage) -> Found<(f64, f64, Ratio)> {
    let name = &stage.name;
    let (sun, ring) = (whole(at, &stage.sun.teeth, 1.0, name)?, whole(at, &stage.ring.teeth, 1.0, name)?);
    if ring <= sun {
        return Err(NotJudged::NoSolution(format!("the sun of stage {name} does not fit into its ring")));
    }
    let set = Set { sun_teeth: Ratio::from_si(sun), ring_teeth: Ratio::from_si(ring) };
    let held = member(at.or_word(&stage.held, PlanetaryMember::Ring, "ring"));
    let driving = member(at.or_word(&stage.driving, PlanetaryMember::Sun, "sun"));
    let nonsense = || NotJudged::NoSolution(format!("what drives stage {name} is what is held in it"));
    let ratio = set.ratio(held, driving).ok_or_else(nonsense)?.si().abs();
    let efficiency = match at.try_get(&stage.efficiency) {
        Some(efficiency) => efficiency,
        None => {
            let mesh = at.or(&stage.efficiency, &at.assumed().gear_efficiency)?;
            set.efficiency(held, driving, mesh * mesh).ok_or_else(nonsense)?
        }
    };
    Ok((ratio, whole(at, &stage.planets, 1.0, name)?, efficiency))
}

fn member(word: PlanetaryMember) -> Member {
    match word {
        PlanetaryMember::Sun => Member::Sun,
        PlanetaryMember::Ring => Member::Ring,
        PlanetaryMember::Carrier => Member::Carrier,
    }
}

/// A number of teeth or planets that can be.
pub(super) fn whole(at: &At, number: &Given<m::Several>, least: f64, of: &str) -> Found<f64> {
    let count = at.need(number)?.si();
    if count >= least && count.is_finite() {
        return Ok(count);
    }
    Err(NotJudged::NoSolution(format!("{of} cannot have {count:.0} teeth: at least {least:.0}")))
}
