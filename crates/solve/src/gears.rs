//! Pairs of gears: as they are drawn, as they grow, what loads them, how warm their teeth get.
//!
//! The housing is as warm as the air in it, metal gears too. In a landing, a start or a hop the teeth are taken as warm as that air,
//! unless a thermometer was held into them.

#[cfg(test)]
mod tests;

use crate::at::At;
use crate::drive::outside;
use crate::strength::{Direction, hard, laid, making, swelling};
use machine::{
    CaseKind, Found, Gear, GearStage, Given, Laid, Lubrication, Machine, Making, Material, Named, NotJudged, Part, Ref,
    Zone,
};
use physics::gear::{Gear as Body, Mesh, Rubbing, Running, flank_and_root_warming};
use quantity::*;

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    Pinion,
    Wheel,
}

impl Side {
    pub const BOTH: [Self; 2] = [Self::Pinion, Self::Wheel];

    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Pinion => "pinion",
            Self::Wheel => "wheel",
        }
    }
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Pinion => Self::Wheel,
            Self::Wheel => Self::Pinion,
        }
    }
}

/// A stage with a pair of gears, and its place among all stages.
#[derive(Debug, Clone, Copy)]
pub struct Pair<'a> {
    pub index: usize,
    pub stage: &'a GearStage,
    pub helical: bool,
}

/// What goes through a pair in one case.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Of one motor, without any factor.
    pub motor: Torque,
    pub pinion: Torque,
    pub wheel: Torque,
    pub pinion_speed: AngularVelocity,
    pub wheel_speed: AngularVelocity,
    /// Pinions on the wheel; `pinion` is what one of them has.
    pub meshes: f64,
    /// Power into one pinion.
    pub power: Power,
    /// Comes seldom: a landing, a start.
    pub seldom: bool,
    /// The blow of a landing: nothing uneven comes on top of it.
    pub blow: bool,
}

/// Temperatures of the teeth of one gear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToothHeat {
    pub flank: ThermodynamicTemperature,
    pub root: ThermodynamicTemperature,
    pub measured: bool,
}

/// All pairs of gears of a machine.
pub fn pairs(machine: &Machine) -> impl Iterator<Item = Pair<'_>> {
    machine.powertrain.stages.iter().enumerate().filter_map(|(index, stage)| {
        let (stage, helical) = stage.gears()?;
        Some(Pair { index, stage, helical })
    })
}

/// What goes into and out of a stage, gears or not.
///
/// # Errors
/// The drive line has no solution.
pub fn load(at: &At, index: usize) -> Found<Option<Load>> {
    let drive = at.drive()?;
    let Some(stage) = drive.stages.get(index) else { return Ok(None) };
    let (speed_in, speed_out) = (stage.speed_in, stage.speed_out);
    let seldom = matches!(at.case()?.kind, CaseKind::Landing | CaseKind::Launch);
    let meshes = stage.meshes;
    let power = Power::from_si((stage.torque_in.si() * speed_in.si()).abs() / meshes);
    let of = |motor: Torque, all_pinions: Torque, wheel: Torque, blow| Load {
        motor: motor.abs(),
        pinion: all_pinions.abs() / meshes,
        wheel: wheel.abs(),
        pinion_speed: speed_in.abs(),
        wheel_speed: speed_out.abs(),
        meshes,
        power,
        seldom,
        blow,
    };
    if let Some(blow) = &drive.blow {
        let wheel = blow.stages.get(index + 1).copied().unwrap_or(blow.sprocket);
        return Ok(blow.stages.get(index).map(|pinions| of(blow.torque, *pinions, wheel, true)));
    }
    if drive.motor_torque == Torque::ZERO {
        return Ok(None);
    }
    // Torques at their highest, speed and power as they are on average.
    if let Some(ridden) = &drive.ridden {
        let Some(hardest) = ridden.stages.get(index) else { return Ok(None) };
        let load = of(ridden.motor_torque, hardest.torque_in, hardest.torque_out, false);
        let power = ridden.motor_power * (drive.motors / drive.lines) / meshes;
        return Ok(Some(Load { power, ..load }));
    }
    Ok(Some(of(drive.motor_torque, stage.torque_in, stage.torque_out, false)))
}

/// Torques of a recorded run as shares of the highest, with the turns at each; nothing where the case has one load alone.
///
/// # Errors
/// The drive line has no solution.
pub fn spectrum(at: &At) -> Found<Option<Vec<(Ratio, Ratio)>>> {
    let Some(ridden) = &at.drive()?.ridden else { return Ok(None) };
    let share = |torque: Torque| Ratio::from_si((torque.si() / ridden.motor_torque.si()).abs().min(1.0));
    Ok(Some(ridden.spectrum.iter().map(|turned| (share(turned.torque), turned.turns)).collect()))
}

impl Load {
    /// How much uneven driving puts on top: nothing on a blow.
    ///
    /// # Errors
    /// The assumed figure is gone.
    pub fn shock(&self, at: &At) -> Found<Ratio> {
        if self.blow { Ok(Ratio::from_si(1.0)) } else { at.need(&at.assumed().drive_shock) }
    }
}

impl<'a> Pair<'a> {
    /// Whether the pinion is the wheel of the stage before: an idler, written once and used twice. What it is by itself
    /// is told of it as that wheel.
    #[must_use]
    pub fn drives_by_an_idler(&self, machine: &Machine) -> bool {
        let mut before = pairs(machine).filter(|before| before.index + 1 == self.index);
        before.any(|before| before.gear(Side::Wheel).teeth.id() == self.gear(Side::Pinion).teeth.id())
    }

    #[must_use]
    pub fn gear(&self, side: Side) -> &'a Gear {
        match side {
            Side::Pinion => &self.stage.pinion,
            Side::Wheel => &self.stage.wheel,
        }
    }

    /// The gear's own face width, or that of the stage.
    ///
    /// # Errors
    /// Neither is given.
    pub fn face_width(&self, at: &At, side: Side) -> Found<Length> {
        let own: &Given<_> = &self.gear(side).face_width;
        at.try_get(own).map_or_else(|| at.need(&self.stage.face_width), Ok)
    }

    /// The narrower face.
    ///
    /// # Errors
    /// As [`Pair::face_width`].
    pub fn common_width(&self, at: &At) -> Found<Length> {
        let (pinion, wheel) = (self.face_width(at, Side::Pinion)?, self.face_width(at, Side::Wheel)?);
        Ok(if pinion < wheel { pinion } else { wheel })
    }

    /// # Errors
    /// It is not given.
    pub fn material(&self, at: &At<'a>, side: Side) -> Found<&'a Named<Material>> {
        Ok(at.machine().follow(at.part(&self.gear(side).material)?))
    }

    /// How the gear is made.
    ///
    /// # Errors
    /// Neither the gear nor its material says it.
    pub fn making(&self, at: &At<'a>, side: Side) -> Found<Making> {
        let build = &self.gear(side).build;
        if let Some(said) = at.try_part(build).and_then(|build| at.try_part(&build.by)) {
            return Ok(*said);
        }
        match making(at, build, self.material(at, side)?) {
            Some(making) => Ok(making),
            None => Ok(*at.part(&at.part(build)?.by)?),
        }
    }

    /// Which way its load runs in a print: bore upright on the bed, everything is bent along its layers; lying, some of it is not.
    ///
    /// # Errors
    /// As [`Pair::making`].
    pub fn direction(&self, at: &At<'a>, side: Side) -> Found<Direction> {
        if self.making(at, side)? != Making::Printed {
            return Ok(Direction::Along);
        }
        Ok(match laid(at, &self.gear(side).build, Laid::Standing, "standing")? {
            Laid::FlatOnBed => Direction::Along,
            Laid::OnEdge | Laid::Standing => Direction::Across,
        })
    }

    /// The gear as it is drawn.
    ///
    /// # Errors
    /// A gap, or no gear that could be made.
    pub fn body(&self, at: &At, side: Side) -> Found<Body> {
        let (stage, gear) = (self.stage, self.gear(side));
        let helix = if self.helical { at.need(&stage.helix)? } else { Angle::from_si(0.0) };
        let angle = at.or(&stage.pressure_angle, &at.assumed().pressure_angle)?;
        let shift = at.or_take(&gear.profile_shift, Ratio::from_si(0.0), "0");
        let (teeth, module) = (at.need(&gear.teeth)?, at.need(&stage.module)?);
        Body::new(teeth, module, angle, helix, shift, at.try_get(&gear.tip_diameter)).map_err(outside)
    }

    /// Both gears at their centre distance, as drawn.
    ///
    /// # Errors
    /// A gap, or gears that do not meet.
    pub fn mesh(&self, at: &At) -> Found<Mesh> {
        let (pinion, wheel) = (self.body(at, Side::Pinion)?, self.body(at, Side::Wheel)?);
        Mesh::new(pinion, wheel, at.need(&self.stage.centre_distance)?).map_err(outside)
    }

    fn housing(&self, at: &At<'a>) -> Option<&'a Named<Part>> {
        at.try_part(&self.stage.housing).map(|part| at.machine().follow(part))
    }

    /// Of the air round the gears.
    ///
    /// # Errors
    /// No zone is named, or how warm it gets is not given.
    pub fn air(&self, at: &At<'a>) -> Found<ThermodynamicTemperature> {
        let zone: Option<&Ref<Zone>> =
            at.try_part(&self.stage.zone).or_else(|| at.try_part(&self.housing(at)?.value.zone));
        let zone = zone.map_or_else(|| at.part(&self.stage.zone), Ok)?;
        at.surroundings()?.air(at, Some(zone))
    }

    /// How much longer everything of a gear is than when it was assembled, dry, as a share.
    ///
    /// # Errors
    /// A gap.
    pub fn growth(&self, at: &At<'a>, side: Side) -> Found<Ratio> {
        let material = self.material(at, side)?;
        grown(at, material, self.teeth(at, side)?.root)
    }

    /// Both gears and the housing as warm and as wet as in this case.
    ///
    /// # Errors
    /// A gap, or gears that no longer meet.
    pub fn mesh_in_case(&self, at: &At<'a>) -> Found<Mesh> {
        let housing = at.machine().follow(at.part(&self.stage.housing)?);
        let holds = at.machine().follow(at.part(&housing.value.material)?);
        let housing = grown(at, holds, self.air(at)?)?;
        let (pinion, wheel) = (self.growth(at, Side::Pinion)?, self.growth(at, Side::Wheel)?);
        self.mesh(at)?.grown(pinion, wheel, housing).map_err(outside)
    }

    /// What goes through it; nothing where nothing is driven.
    ///
    /// # Errors
    /// The drive line has no solution.
    pub fn load(&self, at: &At) -> Found<Option<Load>> {
        load(at, self.index)
    }

    /// As measured; else the air round it and what its own rubbing adds.
    ///
    /// # Errors
    /// A gap, or a speed outside the estimate's range.
    pub fn teeth(&self, at: &At<'a>, side: Side) -> Found<ToothHeat> {
        let even = |t, measured| Ok(ToothHeat { flank: t, root: t, measured });
        let material = self.material(at, side)?;
        if hard(material) {
            return even(self.air(at)?, false);
        }
        let Some(load) = self.load(at)? else { return even(self.air(at)?, false) };
        if let Some(measured) = at.try_get(&self.gear(side).temperature) {
            return even(measured, true);
        }
        let air = self.air(at)?;
        let brief = matches!(at.case()?.kind, CaseKind::Landing | CaseKind::Launch | CaseKind::LiftOff);
        if brief || load.power == Power::ZERO {
            return even(air, false);
        }
        let mesh = self.mesh(at)?;
        let radius = mesh.pinion.reference_diameter() / 2.0;
        let other = self.material(at, side.other())?;
        let running = Running {
            power: load.power,
            speed: Velocity::from_si(radius.si() * load.pinion_speed.si()),
            friction: self.friction(at, material, other)?,
            duty: self.duty(at)?,
        };
        let rubbing = if hard(other) { Rubbing::OnMetal } else { Rubbing::OnPolymer };
        let width = self.face_width(at, side)?;
        let (flank, root) =
            flank_and_root_warming(&mesh, side == Side::Wheel, width, rubbing, running).map_err(outside)?;
        Ok(ToothHeat { flank: air + flank, root: air + root, measured: false })
    }

    /// What is rubbed on, and the friction between the flanks.
    fn friction(&self, at: &At, own: &Material, other: &Material) -> Found<Ratio> {
        let greased = self.stage.grease.is_some();
        let between = match at.try_part(&self.stage.lubrication) {
            Some(between) => *between,
            None if greased => Lubrication::Grease,
            None => at.or_word(&self.stage.lubrication, Lubrication::None, "none"),
        };
        let assumed = at.assumed();
        match between {
            Lubrication::Grease | Lubrication::Oil => at.need(&assumed.greased_friction),
            Lubrication::None | Lubrication::Water if hard(other) => at.or(&own.friction, &assumed.dry_friction),
            Lubrication::None | Lubrication::Water => at.need(&assumed.polymer_pair_friction),
        }
    }

    /// Share of ten minutes during which the case goes on.
    fn duty(&self, at: &At) -> Found<Ratio> {
        let ten_minutes = Time::from_si(600.0);
        let case = at.case()?;
        let lasts = match crate::drive::seconds(at)? {
            Some(lasts) => lasts,
            None => at.or_take(&case.duration, ten_minutes, "ten minutes"),
        };
        let share = lasts.si() / ten_minutes.si();
        if share.is_nan() {
            return Err(NotJudged::NoSolution("the case has no duration that makes sense".into()));
        }
        Ok(Ratio::from_si(share.min(1.0)))
    }
}

fn grown(at: &At, material: &Material, here: ThermodynamicTemperature) -> Found<Ratio> {
    let assembled = at.or(&at.machine().environment.assembled_at, &at.assumed().assembled_at)?;
    let warmed = at.need(&material.expansion)?.si() * difference(here, assembled).si();
    Ok(Ratio::from_si(warmed) + swelling(at, material)?)
}
