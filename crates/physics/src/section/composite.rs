//! Cross-sections of several materials: shell and core of a print, rods let in lengthwise, weak and strong axis.

#[cfg(test)]
mod tests;

use quantity::*;
use std::f64::consts::PI;

/// The outline of a section. x runs along the width, y along the height, both from the middle of the outer rectangle or circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    Rectangle {
        width: Length,
        height: Length,
    },
    Round {
        diameter: Length,
    },
    Tube {
        outer: Length,
        wall: Length,
    },
    /// A hollow rectangle with one wall all round.
    Hollow {
        width: Length,
        height: Length,
        wall: Length,
    },
    /// Open towards +x: the web on the left, a flange above and one below.
    Channel {
        width: Length,
        height: Length,
        flange: Length,
        web: Length,
    },
    /// A print: walls of the full modulus all round, and inside them infill that counts with a modulus of its own.
    ShellAndCore {
        width: Length,
        height: Length,
        shell: Length,
        core_modulus: Pressure,
    },
    /// The same, round.
    RoundShellAndCore {
        diameter: Length,
        shell: Length,
        core_modulus: Pressure,
    },
}

/// A round rod that runs along the beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rod {
    pub x: Length,
    pub y: Length,
    pub diameter: Length,
    pub modulus: Pressure,
    /// Glued in, so that it stretches as the body does; otherwise it slides and only bends along.
    pub bonded: bool,
}

/// Why a section has no stiffness.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shapeless {
    /// Nothing is left of the body, or it has no stiffness.
    Nothing,
    /// A rod lies outside the body, or in part outside of it.
    RodOutside,
}

/// About which axis a moment bends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// In the vertical plane: about the axis along the width.
    X,
    /// Sideways: about the axis along the height.
    Y,
}

/// Highest stress for each N·m, in 1/m³; by what it stands in.
#[derive(Debug, Clone, PartialEq)]
pub struct Stress {
    /// At the outer edge.
    pub outer: f64,
    /// Of the core of a print.
    pub core: Option<f64>,
    /// In the order of the rods.
    pub rods: Vec<f64>,
}

#[derive(Debug, Clone, Copy)]
enum Patch {
    Rectangle { x: f64, y: f64, width: f64, height: f64 },
    Circle { x: f64, y: f64, diameter: f64 },
}

impl Patch {
    fn area(&self) -> f64 {
        match self {
            Self::Rectangle { width, height, .. } => width * height,
            Self::Circle { diameter, .. } => PI / 4.0 * diameter * diameter,
        }
    }
    fn middle(&self) -> (f64, f64) {
        match self {
            Self::Rectangle { x, y, .. } | Self::Circle { x, y, .. } => (*x, *y),
        }
    }
    /// Second moments about its own middle: about x, about y.
    fn own(&self) -> (f64, f64) {
        match self {
            Self::Rectangle { width, height, .. } => (width * height.powi(3) / 12.0, height * width.powi(3) / 12.0),
            Self::Circle { diameter, .. } => (PI / 64.0 * diameter.powi(4), PI / 64.0 * diameter.powi(4)),
        }
    }
    /// The greatest absolute value of a·x + b·y on it, counted from (x0, y0).
    fn farthest(&self, a: f64, b: f64, (x0, y0): (f64, f64)) -> f64 {
        let (x, y) = self.middle();
        let reach = match self {
            Self::Rectangle { width, height, .. } => (a * width).abs() / 2.0 + (b * height).abs() / 2.0,
            Self::Circle { diameter, .. } => a.hypot(b) * diameter / 2.0,
        };
        (a * (x - x0) + b * (y - y0)).abs() + reach
    }
    fn holds(&self, x: f64, y: f64, radius: f64) -> bool {
        let (cx, cy) = self.middle();
        let slack = 1e-9 * radius;
        match self {
            Self::Rectangle { width, height, .. } => {
                (x - cx).abs() + radius <= width / 2.0 + slack && (y - cy).abs() + radius <= height / 2.0 + slack
            }
            Self::Circle { diameter, .. } => (x - cx).hypot(y - cy) + radius <= diameter / 2.0 + slack,
        }
    }
}

impl Shape {
    /// Its outline, and the patch that is taken out of it or filled with a core.
    fn patches(&self) -> (Patch, Option<Patch>) {
        let rectangle = |width: f64, height: f64| Patch::Rectangle { x: 0.0, y: 0.0, width, height };
        let circle = |diameter: f64| Patch::Circle { x: 0.0, y: 0.0, diameter };
        let within = |width: Length, height: Length, wall: Length| {
            let (w, h) = (width.si() - 2.0 * wall.si(), height.si() - 2.0 * wall.si());
            (w > 0.0 && h > 0.0).then(|| rectangle(w, h))
        };
        let inner = |outer: Length, wall: Length| {
            let d = outer.si() - 2.0 * wall.si();
            (d > 0.0).then(|| circle(d))
        };
        match *self {
            Self::Rectangle { width, height } => (rectangle(width.si(), height.si()), None),
            Self::Round { diameter } => (circle(diameter.si()), None),
            Self::Tube { outer, wall } => (circle(outer.si()), inner(outer, wall)),
            Self::Hollow { width, height, wall } => (rectangle(width.si(), height.si()), within(width, height, wall)),
            Self::Channel { width, height, flange, web } => {
                let (w, h) = (width.si() - web.si(), height.si() - 2.0 * flange.si());
                let open = Patch::Rectangle { x: web.si() / 2.0, y: 0.0, width: w, height: h };
                (rectangle(width.si(), height.si()), (w > 0.0 && h > 0.0).then_some(open))
            }
            Self::ShellAndCore { width, height, shell, .. } => {
                (rectangle(width.si(), height.si()), within(width, height, shell))
            }
            Self::RoundShellAndCore { diameter, shell, .. } => (circle(diameter.si()), inner(diameter, shell)),
        }
    }

    fn core_modulus(&self) -> f64 {
        match self {
            Self::ShellAndCore { core_modulus, .. } | Self::RoundShellAndCore { core_modulus, .. } => core_modulus.si(),
            _ => 0.0,
        }
    }

    fn has_core(&self) -> bool {
        matches!(self, Self::ShellAndCore { .. } | Self::RoundShellAndCore { .. })
    }

    /// Width and height of what it fits into.
    #[must_use]
    pub fn size(&self) -> (Length, Length) {
        match *self {
            Self::Rectangle { width, height }
            | Self::Hollow { width, height, .. }
            | Self::Channel { width, height, .. }
            | Self::ShellAndCore { width, height, .. } => (width, height),
            Self::Round { diameter } | Self::RoundShellAndCore { diameter, .. } => (diameter, diameter),
            Self::Tube { outer, .. } => (outer, outer),
        }
    }
}

/// What stretching and bending need to know of a section.
#[derive(Debug, Clone, PartialEq)]
pub struct Composite {
    outline: Shape,
    modulus: f64,
    rods: Vec<Rod>,
    /// E·A, of which rods that slide have no part.
    pub stretching: Force,
    /// The neutral point, from the middle of the outline.
    pub middle: (Length, Length),
    /// E·I about the axis along the width: bending in the vertical plane.
    pub about_x: BendingStiffness,
    /// E·I about the axis along the height: bending sideways.
    pub about_y: BendingStiffness,
    /// Σ E·A·x·y: where it is not nothing, a load straight down also moves the beam sideways.
    pub skew: BendingStiffness,
}

impl Composite {
    /// Stiffness and neutral point of a section with rods.
    ///
    /// Inputs: outline; modulus E of the body (Pa), of the shell where there is a core; rods, each wholly in one material.
    /// Returns: E·A (N), neutral point (m), E·I about both axes (N·m²).
    /// Valid for: plane sections, perfect bond, the same modulus in pull and push; rods slid in bend with the body's curvature about
    /// their own middle, without clearance and friction, and their holes weaken the body. What glue or friction hold in part lies
    /// between the two. A core counts by its modulus along the beam.
    /// Source: transformed section and parallel axes; Timoshenko, Strength of Materials; published.
    ///
    /// # Errors
    /// Nothing is left of the body, or a rod lies outside of it.
    pub fn of(outline: Shape, modulus: Pressure, rods: &[Rod]) -> Result<Self, Shapeless> {
        let e = modulus.si();
        let (outer, inner) = outline.patches();
        let mut parts: Vec<(f64, Patch)> = vec![(e, outer)];
        parts.extend(inner.map(|inner| (outline.core_modulus() - e, inner)));
        let mut sliding = 0.0;
        for rod in rods {
            let (x, y, d) = (rod.x.si(), rod.y.si(), rod.diameter.si());
            let circle = Patch::Circle { x, y, diameter: d };
            if !outer.holds(x, y, d / 2.0) {
                return Err(Shapeless::RodOutside);
            }
            let host = match inner {
                Some(inner) if inner.holds(x, y, 0.0) => outline.core_modulus(),
                _ => e,
            };
            if rod.bonded {
                parts.push((rod.modulus.si() - host, circle));
            } else {
                parts.push((-host, circle));
                sliding += rod.modulus.si() * circle.own().0;
            }
        }
        let sum = |f: &dyn Fn(&Patch) -> f64| parts.iter().map(|(e, patch)| e * f(patch)).sum::<f64>();
        let stretching = sum(&Patch::area);
        if !(stretching > 0.0 && stretching.is_finite() && e > 0.0) {
            return Err(Shapeless::Nothing);
        }
        let x0 = sum(&|p| p.area() * p.middle().0) / stretching;
        let y0 = sum(&|p| p.area() * p.middle().1) / stretching;
        let about_x = sum(&|p| p.own().0 + p.area() * (p.middle().1 - y0).powi(2)) + sliding;
        let about_y = sum(&|p| p.own().1 + p.area() * (p.middle().0 - x0).powi(2)) + sliding;
        let skew = sum(&|p| p.area() * (p.middle().0 - x0) * (p.middle().1 - y0));
        if !(about_x > 0.0 && about_y > 0.0) {
            return Err(Shapeless::Nothing);
        }
        Ok(Self {
            outline,
            modulus: e,
            rods: rods.to_vec(),
            stretching: Force::from_si(stretching),
            middle: (Length::from_si(x0), Length::from_si(y0)),
            about_x: BendingStiffness::from_si(about_x),
            about_y: BendingStiffness::from_si(about_y),
            skew: BendingStiffness::from_si(skew),
        })
    }

    /// Of the body.
    #[must_use]
    pub fn modulus(&self) -> Pressure {
        Pressure::from_si(self.modulus)
    }

    #[must_use]
    pub fn rods(&self) -> &[Rod] {
        &self.rods
    }

    /// E·I about the axis about which it is stiffest.
    #[must_use]
    pub fn strong(&self) -> BendingStiffness {
        BendingStiffness::from_si(self.principal().0)
    }

    /// E·I about the axis about which it gives way most: a strut buckles about this one.
    #[must_use]
    pub fn weak(&self) -> BendingStiffness {
        BendingStiffness::from_si(self.principal().1)
    }

    fn principal(&self) -> (f64, f64) {
        let (x, y, xy) = (self.about_x.si(), self.about_y.si(), self.skew.si());
        let (middle, reach) = ((x + y) / 2.0, ((x - y) / 2.0).hypot(xy));
        (middle + reach, middle - reach)
    }

    /// E·I about one of the two axes.
    #[must_use]
    pub fn about(&self, axis: Axis) -> BendingStiffness {
        match axis {
            Axis::X => self.about_x,
            Axis::Y => self.about_y,
        }
    }

    /// Highest stresses for each N·m about one axis.
    ///
    /// Inputs: axis; whether the beam can only bend about it (guided), or is free to give way sideways as well.
    /// Returns: stress over moment (1/m³), outside, in the core, in each rod.
    /// Valid for: elastic, as [`Composite::of`].
    /// Source: unsymmetrical bending; Timoshenko, Strength of Materials; published.
    #[must_use]
    pub fn stress(&self, axis: Axis, guided: bool) -> Stress {
        let (x, y, xy) = (self.about_x.si(), self.about_y.si(), self.skew.si());
        let det = x * y - xy * xy;
        // Strain is a·dx + b·dy for each N·m.
        let (a, b) = match (axis, guided) {
            (Axis::X, true) => (0.0, 1.0 / x),
            (Axis::Y, true) => (1.0 / y, 0.0),
            (Axis::X, false) => (-xy / det, y / det),
            (Axis::Y, false) => (x / det, -xy / det),
        };
        self.strained(a, b)
    }

    fn strained(&self, a: f64, b: f64) -> Stress {
        let from = (self.middle.0.si(), self.middle.1.si());
        let (outer, inner) = self.outline.patches();
        let rods = self.rods.iter().map(|rod| {
            let d = rod.diameter.si();
            let circle = Patch::Circle { x: rod.x.si(), y: rod.y.si(), diameter: d };
            let strain = if rod.bonded { circle.farthest(a, b, from) } else { a.hypot(b) * d / 2.0 };
            rod.modulus.si() * strain
        });
        let core = inner.filter(|_| self.outline.has_core());
        Stress {
            outer: self.modulus * outer.farthest(a, b, from),
            core: core.map(|core| self.outline.core_modulus() * core.farthest(a, b, from)),
            rods: rods.collect(),
        }
    }

    /// Shear force for each metre of length between a bonded rod and the body, for each newton across the beam.
    ///
    /// Inputs: axis about which the load bends; which rod.
    /// Returns: q/V = E·A·z / (E·I) (1/m), z the rod's distance from the neutral axis; nothing for a rod that slides or is not there.
    /// Valid for: elastic, bond unbroken; the ends of a rod take more.
    /// Source: shear flow V·Q/I of a transformed section; Timoshenko; published.
    #[must_use]
    pub fn shear_flow(&self, axis: Axis, rod: usize) -> f64 {
        let Some(rod) = self.rods.get(rod).filter(|rod| rod.bonded) else { return 0.0 };
        let area = PI / 4.0 * rod.diameter.si().powi(2);
        let away = match axis {
            Axis::X => rod.y.si() - self.middle.1.si(),
            Axis::Y => rod.x.si() - self.middle.0.si(),
        };
        (rod.modulus.si() * area * away / self.about(axis).si()).abs()
    }
}

/// Torsion of a plain section.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Torsion {
    /// Twist = T·L / (G·J).
    pub constant: SecondMomentOfArea,
    /// Highest shear stress = T / W.
    pub modulus: Volume,
}

/// Torsion constant and modulus of a section of one material.
///
/// Inputs: outline (m); of shell and core only the shell counts.
/// Returns: J (m⁴), W (m³).
/// Valid for: thin-walled hollow shapes with the wall under a fifth of the size; an open channel by its three strips. Rectangle to
/// within 0.6 % of the exact series.
/// Source: Roark, table 10.1 (rectangle), Bredt (hollow), published.
#[must_use]
pub fn torsion(outline: &Shape) -> Torsion {
    let of = |constant: f64, modulus: f64| Torsion {
        constant: SecondMomentOfArea::from_si(constant),
        modulus: Volume::from_si(modulus),
    };
    let round = |outer: f64, inner: f64| {
        let j = PI / 32.0 * (outer.powi(4) - inner.max(0.0).powi(4));
        of(j, j / (outer / 2.0))
    };
    let bar = |a: f64, b: f64| {
        let (long, short) = (a.max(b), a.min(b));
        let slim = short / long;
        let j = long * short.powi(3) * (1.0 / 3.0 - 0.21 * slim * (1.0 - slim.powi(4) / 12.0));
        let peak = 1.0 + slim * (0.6095 + slim * (0.8865 + slim * (-1.8023 + slim * 0.9100)));
        of(j, long * short * short / (3.0 * peak))
    };
    let hollow = |w: f64, h: f64, t: f64| {
        let (w_mid, h_mid) = (w - t, h - t);
        if w_mid <= t || h_mid <= t {
            return bar(w, h);
        }
        of(2.0 * t * (w_mid * h_mid).powi(2) / (w_mid + h_mid), 2.0 * t * w_mid * h_mid)
    };
    match *outline {
        Shape::Rectangle { width, height } => bar(width.si(), height.si()),
        Shape::Round { diameter } => round(diameter.si(), 0.0),
        Shape::Tube { outer, wall } => round(outer.si(), outer.si() - 2.0 * wall.si()),
        Shape::RoundShellAndCore { diameter, shell, .. } => round(diameter.si(), diameter.si() - 2.0 * shell.si()),
        Shape::Hollow { width, height, wall } => hollow(width.si(), height.si(), wall.si()),
        Shape::ShellAndCore { width, height, shell, .. } => hollow(width.si(), height.si(), shell.si()),
        Shape::Channel { width, height, flange, web } => {
            let (w, h, t, s) = (width.si(), height.si(), flange.si(), web.si());
            let j = (2.0 * (w - s / 2.0) * t.powi(3) + (h - t) * s.powi(3)) / 3.0;
            of(j, j / t.max(s))
        }
    }
}
