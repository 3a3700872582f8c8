//! Long parts as beams: their section, what loads them in a case, and how hard that stresses them.

use super::material::{Grain, grain, limit, modulus, shell};
use super::source::{Supplied, supplied};
use crate::at::At;
use crate::strength::warmth;
use machine::{
    Bond, Found, HandTest, Material, MemberHold, Named, NotJudged, Part, Push, PushDirection, RodsLie, Section,
    Supports,
};
use physics::beam::stations::{Bending, Held, Hold, Piece, Push as Pushed, Unsolved, bend};
use physics::section::composite::{Axis, Composite, Rod, Shape, Shapeless, Torsion, torsion};
use quantity::*;

/// A long part in one case.
#[derive(Debug, Clone)]
pub struct Member<'a> {
    pub material: &'a Named<Material>,
    pub rods: Option<&'a Named<Material>>,
    pub here: ThermodynamicTemperature,
    pub grain: Grain,
    pub length: Length,
    pub outline: Shape,
    pub section: Composite,
    /// What its body yields or breaks at.
    pub limit: Pressure,
    /// `yield` or `ultimate strength`.
    pub limit_is: &'static str,
    pub torsion: Torsion,
    pub held: Vec<Held>,
    /// Stress at its sharpest corner over the even one.
    pub notch: Ratio,
    /// Rods that are held in part only.
    pub bond: Option<Bond>,
}

/// Highest stresses of a load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stresses {
    /// Along the part, in its body, notch counted in.
    pub body: Pressure,
    /// In the hardest-loaded rod.
    pub rod: Option<Pressure>,
    /// By twist and by the force across.
    pub shear: Pressure,
    /// Between a glued rod and the body, on the rod's skin.
    pub bond: Option<Pressure>,
    pub deflection: Length,
}

/// What loads it in a case, and what that makes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Loaded {
    /// Each push by its name, with its force and where it was put.
    pub pushes: Vec<(String, Force, Length)>,
    pub in_height: Option<Bending>,
    pub in_width: Option<Bending>,
    /// Pressing it together.
    pub along: Force,
    pub twist: Torque,
    pub stresses: Stresses,
}

fn held(at: &At, part: &Part, length: Length) -> Found<Vec<Held>> {
    if part.stations.is_empty() {
        let Some(supports) = part.supports else {
            return Err(NotJudged::NoSolution(
                "how it is held is not said: `supports`, or `stations` with what holds it at each".into(),
            ));
        };
        let ends = |by| vec![Held { at: Length::ZERO, by }, Held { at: length, by }];
        return Ok(match supports {
            Supports::SimplySupported => ends(Hold::Pivoted),
            Supports::FixedFixed => ends(Hold::Clamped),
            Supports::Cantilever => vec![Held { at: Length::ZERO, by: Hold::Clamped }],
        });
    }
    let one = |station: &machine::MemberStation| {
        let by = match station.holds {
            MemberHold::Pivoted => Hold::Pivoted,
            MemberHold::Clamped => Hold::Clamped,
            MemberHold::Guided => Hold::Guided,
            MemberHold::Seat => Hold::Seat {
                rate: at.need(&station.rate)?,
                play: at.or_take(&station.play, Length::ZERO, "none"),
                turning: Torque::ZERO,
            },
        };
        Ok(Held { at: at.need(&station.x)?, by })
    };
    part.stations.iter().map(one).collect()
}

/// The outline of a part, walls and infill of a print counted.
fn outline(at: &At, part: &Part, grain: Grain, modulus: Pressure) -> Found<Shape> {
    let section = at.part(&part.section)?;
    let core = if grain.printed { shell(at, &part.build)? } else { None };
    Ok(match section {
        Section::Rectangle(bar) => {
            let (width, height) = (at.need(&bar.width)?, at.need(&bar.height)?);
            match core {
                Some((shell, infill)) => {
                    Shape::ShellAndCore { width, height, shell, core_modulus: modulus * infill.si() }
                }
                None => Shape::Rectangle { width, height },
            }
        }
        Section::Round(bar) => {
            let diameter = at.need(&bar.diameter)?;
            match core {
                Some((shell, infill)) => {
                    Shape::RoundShellAndCore { diameter, shell, core_modulus: modulus * infill.si() }
                }
                None => Shape::Round { diameter },
            }
        }
        Section::Tube(tube) => Shape::Tube { outer: at.need(&tube.outer_diameter)?, wall: at.need(&tube.wall)? },
        Section::Box(hollow) => Shape::Hollow {
            width: at.need(&hollow.width)?,
            height: at.need(&hollow.height)?,
            wall: at.need(&hollow.wall)?,
        },
        Section::Channel(bar) => Shape::Channel {
            width: at.need(&bar.width)?,
            height: at.need(&bar.height)?,
            flange: at.need(&bar.flange)?,
            web: at.need(&bar.web)?,
        },
    })
}

/// Rods as they lie in the section: one at its offset, several evenly from −offset to +offset.
fn rods(at: &At, part: &Part, modulus_of: impl Fn(&Material) -> Found<Pressure>) -> Found<(Vec<Rod>, Option<Bond>)> {
    let Some(rods) = at.try_part(&part.rods) else { return Ok((Vec::new(), None)) };
    let material = at.machine().follow(at.part(&rods.material)?);
    let (diameter, count, offset) = (at.need(&rods.diameter)?, at.need(&rods.count)?.si(), at.need(&rods.offset)?);
    let bond = *at.part(&rods.bond)?;
    let lie = at.or_word(&rods.lie, RodsLie::AboveOneAnother, "above_one_another");
    if !(1.0..=64.0).contains(&count) {
        return Err(NotJudged::NoSolution("a part has from 1 to 64 rods in it".into()));
    }
    let modulus = modulus_of(material)?;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from 1 to 64")]
    let whole = count.round() as usize;
    let rod = |index: usize| {
        let away = if whole == 1 { offset } else { offset * (2.0 * index as f64 / (whole as f64 - 1.0) - 1.0) };
        let (x, y) = if lie == RodsLie::SideBySide { (away, Length::ZERO) } else { (Length::ZERO, away) };
        Rod { x, y, diameter, modulus, bonded: bond == Bond::Glued }
    };
    Ok(((0..whole).map(rod).collect(), Some(bond)))
}

/// A long part as it is in this case.
///
/// # Errors
/// A gap, or a section without shape.
pub fn member<'a>(at: &At<'a>, part: &'a Named<Part>) -> Found<Member<'a>> {
    let index = at.machine().structure.parts.iter().position(|other| other.id() == part.id());
    let here = match index.and_then(|index| at.temperatures().map(|all| all.parts.get(index)).transpose()) {
        Some(here) => here?.clone()?,
        None => return Err(NotJudged::NoSolution("the temperature of this part is not worked out".into())),
    };
    at_temperature(at, part, here)
}

fn at_temperature<'a>(at: &At<'a>, part: &'a Named<Part>, here: ThermodynamicTemperature) -> Found<Member<'a>> {
    let material = at.machine().follow(at.part(&part.material)?);
    let grain = grain(at, &part.value, material)?;
    let body = modulus(at, material, here)?;
    let outline = outline(at, &part.value, grain, body)?;
    let (rods, bond) = rods(at, &part.value, |rod| modulus(at, rod, here))?;
    let section = Composite::of(outline, body, &rods).map_err(|why| {
        NotJudged::NoSolution(
            match why {
                Shapeless::Nothing => "its section has no area or no stiffness",
                Shapeless::RodOutside => "its rods do not fit into its section: diameter, offset or section is wrong",
            }
            .into(),
        )
    })?;
    let length = at.need(&part.span)?;
    let (limit, limit_is) = limit(at, material, here, grain.way)?;
    let rod_material = at.try_part(&part.rods).and_then(|rods| at.try_part(&rods.material));
    Ok(Member {
        material,
        rods: rod_material.map(|rods| at.machine().follow(rods)),
        here,
        grain,
        length,
        outline,
        section,
        limit,
        limit_is,
        torsion: torsion(&outline),
        held: held(at, &part.value, length)?,
        // A ductile metal flows at a notch before it breaks.
        notch: match material.family {
            machine::Family::Metal => Ratio::from_si(1.0),
            _ => at.or_take(&part.notch, Ratio::from_si(1.0), "1"),
        },
        bond,
    })
}

fn loose(why: Unsolved) -> NotJudged {
    NotJudged::NoSolution(
        match why {
            Unsolved::Loose => "what holds it is too little: it would turn or fall away",
            Unsolved::Shapeless => "it has no shape: a length or stiffness is zero, or a place lies beyond its span",
        }
        .into(),
    )
}

impl Member<'_> {
    fn bending(&self, axis: Axis, pushes: &[Pushed]) -> Found<Bending> {
        let piece = Piece { from: Length::ZERO, to: self.length, stiffness: self.section.about(axis) };
        bend(self.length, &[piece], &self.held, pushes).map_err(loose)
    }

    /// The place at which one newton bends it hardest.
    fn worst_place(&self, axis: Axis) -> Found<Length> {
        let mut worst = (Length::ZERO, -1.0);
        for step in 0..=20 {
            let x = self.length * (f64::from(step) / 20.0);
            let bent = self.bending(axis, &[Pushed::Force { at: x, force: Force::from_si(1.0) }])?;
            let moment = bent.hardest_bent().moment.si().abs();
            if moment > worst.1 * (1.0 + 1e-9) {
                worst = (x, moment);
            }
        }
        Ok(worst.0)
    }

    /// Stresses by bending about both axes, by a force along it and by twist.
    fn stresses(
        &self,
        in_height: Option<&Bending>,
        in_width: Option<&Bending>,
        along: Force,
        twist: Torque,
    ) -> Stresses {
        let mut body = self.section.stretching.si().recip() * along.si() * self.body_modulus();
        let mut rod: f64 = self.rod_modulus().map_or(0.0, |e| along.si() * e / self.section.stretching.si());
        let (mut shear, mut bond, mut deflection) = (0.0_f64, 0.0_f64, 0.0_f64);
        let area = self.section.stretching.si() / self.body_modulus();
        for (axis, bending) in [(Axis::X, in_height), (Axis::Y, in_width)] {
            let Some(bending) = bending else { continue };
            let moment = bending.hardest_bent().moment.si().abs();
            let force = bending.hardest_sheared().shear.si().abs();
            let stress = self.section.stress(axis, true);
            body += moment * stress.outer;
            rod += moment * stress.rods.iter().copied().fold(0.0, f64::max);
            shear += 1.5 * force / area;
            deflection = deflection.hypot(bending.farthest().deflection.si());
            for index in 0..stress.rods.len() {
                bond = bond.max(force * self.section.shear_flow(axis, index));
            }
        }
        shear += twist.si() / self.torsion.modulus.si();
        let skin = self.rod_diameter().map(|d| bond / (std::f64::consts::PI * d));
        Stresses {
            body: Pressure::from_si(body * self.notch.si()),
            rod: self.rods.map(|_| Pressure::from_si(rod)),
            shear: Pressure::from_si(shear),
            bond: skin.filter(|_| self.bond == Some(Bond::Glued)).map(Pressure::from_si),
            deflection: Length::from_si(deflection),
        }
    }

    fn body_modulus(&self) -> f64 {
        self.section.modulus().si()
    }
    fn rod_modulus(&self) -> Option<f64> {
        self.section.rods().first().filter(|rod| rod.bonded).map(|rod| rod.modulus.si())
    }
    fn rod_diameter(&self) -> Option<f64> {
        self.section.rods().first().map(|rod| rod.diameter.si())
    }

    /// The same part with its outline scaled about its middle in one direction; its rods stay where they are.
    fn resized(&self, times: f64) -> Option<Self> {
        let outline = match self.outline {
            Shape::Rectangle { width, height } => Shape::Rectangle { width, height: height * times },
            Shape::Hollow { width, height, wall } => Shape::Hollow { width, height: height * times, wall },
            Shape::Channel { width, height, flange, web } => {
                Shape::Channel { width, height: height * times, flange, web }
            }
            Shape::ShellAndCore { width, height, shell, core_modulus } => {
                Shape::ShellAndCore { width, height: height * times, shell, core_modulus }
            }
            Shape::Round { diameter } => Shape::Round { diameter: diameter * times },
            Shape::Tube { outer, wall } => Shape::Tube { outer: outer * times, wall },
            Shape::RoundShellAndCore { diameter, shell, core_modulus } => {
                Shape::RoundShellAndCore { diameter: diameter * times, shell, core_modulus }
            }
        };
        let section = Composite::of(outline, self.section.modulus(), self.section.rods()).ok()?;
        Some(Self { outline, section, torsion: torsion(&outline), held: self.held.clone(), ..*self })
    }

    /// Height (or diameter) of its section with which a load stresses its body no more than so much; nothing up to three times its own.
    ///
    /// Moments are taken as they are: true of any beam of one section, but for one on seats that give way.
    #[must_use]
    pub fn height_for(&self, loaded: &Loaded, allowed: Pressure) -> Option<Length> {
        let (_, height) = self.outline.size();
        let stress = |times: f64| {
            let other = self.resized(times)?;
            let (a, b) = (loaded.in_height.as_ref(), loaded.in_width.as_ref());
            Some(other.stresses(a, b, loaded.along, loaded.twist).body)
        };
        let (mut low, mut high) = (1.0, 3.0);
        if stress(high)? > allowed {
            return None;
        }
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            if stress(middle)? > allowed { low = middle } else { high = middle }
        }
        Some(height * high)
    }

    /// Weaker direction of its section, for buckling between its outermost holds.
    #[must_use]
    pub fn buckles_at(&self) -> Force {
        let clamped = self.held.iter().filter(|held| held.by == Hold::Clamped).count();
        let factor = match (clamped, self.held.len()) {
            (1, 1) => 2.0,
            (n, _) if n >= 2 => 0.5,
            (1, _) => 0.7,
            _ => 1.0,
        };
        let e = self.body_modulus();
        physics::buckling::Strut {
            area: Area::from_si(self.section.stretching.si() / e),
            second_moment: SecondMomentOfArea::from_si(self.section.weak().si() / e),
            length: self.length,
            length_factor: Ratio::from_si(factor),
            modulus: Pressure::from_si(e),
            compressive_yield: self.limit,
        }
        .load()
    }
}

/// Why nothing pushes on a part in a case, in words; nothing where something does. Cheap beside the beam.
///
/// # Errors
/// A gap, or a source without a solution.
pub fn idle(at: &At, part: &Named<Part>) -> Found<Option<&'static str>> {
    let mut why = "nothing pushes on it in this case";
    for push in part.value.pushed.iter() {
        match supplied(at, &push.value)? {
            Supplied::Force(_) => return Ok(None),
            Supplied::Nothing(reason) => why = reason,
        }
    }
    Ok(Some(why))
}

/// What all pushes of a case do to a part together; what they do not touch is not loaded, in words.
///
/// # Errors
/// A gap, a source without a solution, or a part that is held by too little.
pub fn alone<'a>(at: &At<'a>, part: &'a Named<Part>, member: &Member<'a>) -> Found<Result<Loaded, &'static str>> {
    let mut why = "nothing pushes on it in this case";
    let (mut height, mut width, mut pushes) = (Vec::new(), Vec::new(), Vec::new());
    let (mut along, mut twist) = (Force::ZERO, Torque::ZERO);
    for push in part.value.pushed.iter() {
        let force = match supplied(at, &push.value)? {
            Supplied::Force(force) => force,
            Supplied::Nothing(reason) => {
                why = reason;
                continue;
            }
        };
        let lever = at.or_take(&push.value.lever, Length::ZERO, "none");
        let way = at.or_word(&push.value.direction, PushDirection::InHeight, "in_height");
        let place = place(at, &push.value, member, way)?;
        let moment = Torque::from_si(force.si() * lever.si());
        match way {
            PushDirection::InHeight => height.push(Pushed::Force { at: place, force: -force }),
            PushDirection::InWidth => width.push(Pushed::Force { at: place, force: -force }),
            PushDirection::Along => {
                along += force;
                if lever != Length::ZERO {
                    height.push(Pushed::Moment { at: place, moment });
                }
            }
        }
        if way != PushDirection::Along {
            twist += Torque::from_si(moment.si().abs());
        }
        pushes.push((push.name().to_owned(), force, place));
    }
    if pushes.is_empty() {
        return Ok(Err(why));
    }
    let solved = |axis, pushes: &[Pushed]| (!pushes.is_empty()).then(|| member.bending(axis, pushes)).transpose();
    let (in_height, in_width) = (solved(Axis::X, &height)?, solved(Axis::Y, &width)?);
    let stresses = member.stresses(in_height.as_ref(), in_width.as_ref(), along, twist);
    Ok(Ok(Loaded { pushes, in_height, in_width, along, twist, stresses }))
}

fn place(at: &At, push: &Push, member: &Member<'_>, way: PushDirection) -> Found<Length> {
    if let Some(x) = at.try_get(&push.at) {
        return Ok(x);
    }
    at.or_take(&push.at, Length::ZERO, "the worst place");
    match way {
        PushDirection::InHeight => member.worst_place(Axis::X),
        PushDirection::InWidth => member.worst_place(Axis::Y),
        PushDirection::Along => Ok(member.length),
    }
}

/// What tests by hand say of the body's strength, carried over to the temperature of the case.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Proof {
    /// It held this much.
    pub at_least: Option<Pressure>,
    /// It broke at this much.
    pub at_most: Option<Pressure>,
}

impl Proof {
    /// The limit that counts, from the catalogue's own.
    #[must_use]
    pub fn limit(&self, catalogue: Pressure) -> Pressure {
        let raised = self.at_least.map_or(catalogue, |held| if held > catalogue { held } else { catalogue });
        self.at_most.map_or(raised, |broke| if broke < raised { broke } else { raised })
    }
}

/// The allowable stress worked back from what the part held and what broke it.
///
/// # Errors
/// A gap in what a test needs.
pub fn proof<'a>(at: &At<'a>, part: &'a Named<Part>, member: &Member<'a>) -> Found<Proof> {
    let mut proof = Proof::default();
    let cold = warmth(at, member.material, member.here)?.si();
    let stress = |test: &HandTest| -> Found<Pressure> {
        let air = at.need(&test.air)?;
        let then = at_temperature(at, part, air)?;
        let way = at.or_word(&test.direction, PushDirection::InHeight, "in_height");
        let axis = if way == PushDirection::InWidth { Axis::Y } else { Axis::X };
        let place = match at.try_get(&test.at) {
            Some(place) => place,
            None => {
                at.or_take(&test.at, Length::ZERO, "the worst place");
                then.worst_place(axis)?
            }
        };
        let force = at.need(&test.force)?;
        let bent = match way {
            PushDirection::Along => None,
            _ => Some(then.bending(axis, &[Pushed::Force { at: place, force }])?),
        };
        let along = if way == PushDirection::Along { force } else { Force::ZERO };
        let (height, width) = if axis == Axis::Y { (None, bent.as_ref()) } else { (bent.as_ref(), None) };
        let body = then.stresses(height, width, along, Torque::ZERO).body;
        Ok(body * (cold / warmth(at, member.material, air)?.si()))
    };
    for test in &part.value.held {
        let held = stress(test)?;
        proof.at_least = Some(proof.at_least.map_or(held, |best| if held > best { held } else { best }));
    }
    for test in &part.value.broke {
        let broke = stress(test)?;
        proof.at_most = Some(proof.at_most.map_or(broke, |best| if broke < best { broke } else { best }));
    }
    Ok(proof)
}
