//! What a solved beam can be asked.

use quantity::*;

/// What a support does to the beam: force upward, moment counterclockwise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reaction {
    pub force: Force,
    pub moment: Torque,
}

/// One place of the beam. Moment and shear jump at moments and forces; there it is the side with the larger one of each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Here {
    pub at: Length,
    /// Positive where the underside is pulled.
    pub moment: Torque,
    pub shear: Force,
    /// Upward.
    pub deflection: Length,
    /// dv/dx.
    pub slope: Angle,
}

/// Between two stations, as it begins at its left end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Span {
    pub from: f64,
    pub length: f64,
    pub stiffness: f64,
    pub spread: f64,
    pub deflection: f64,
    pub slope: f64,
    pub moment: f64,
    pub shear: f64,
}

impl Span {
    fn moment(&self, s: f64) -> f64 {
        self.moment + s * (self.shear + s * self.spread / 2.0)
    }
    fn shear(&self, s: f64) -> f64 {
        self.shear + s * self.spread
    }
    fn slope(&self, s: f64) -> f64 {
        self.slope + s / self.stiffness * (self.moment + s / 2.0 * (self.shear + s / 3.0 * self.spread))
    }
    fn deflection(&self, s: f64) -> f64 {
        let bent = self.moment + s / 3.0 * (self.shear + s / 4.0 * self.spread);
        self.deflection + s * self.slope + s * s / (2.0 * self.stiffness) * bent
    }
    fn here(&self, s: f64) -> Here {
        Here {
            at: Length::from_si(self.from + s),
            moment: Torque::from_si(self.moment(s)),
            shear: Force::from_si(self.shear(s)),
            deflection: Length::from_si(self.deflection(s)),
            slope: Angle::from_si(self.slope(s)),
        }
    }
    /// Where the moment passes through nothing, so that the slope turns round.
    fn no_moment(&self) -> Vec<f64> {
        let (a, b, c) = (self.spread / 2.0, self.shear, self.moment);
        let roots = if a == 0.0 {
            vec![-c / b]
        } else {
            let root = (b * b - 4.0 * a * c).sqrt();
            let q = -0.5 * (b + root.copysign(b));
            vec![q / a, c / q]
        };
        roots.into_iter().filter(|s| *s > 0.0 && *s < self.length).collect()
    }
    /// Where the slope is nothing.
    fn level(&self) -> Vec<f64> {
        let mut turns = self.no_moment();
        turns.push(0.0);
        turns.push(self.length);
        turns.sort_by(f64::total_cmp);
        let between = turns.iter().zip(turns.iter().skip(1));
        between
            .filter(|(left, right)| self.slope(**left) * self.slope(**right) < 0.0)
            .map(|(left, right)| {
                let sign = if self.slope(*right) > 0.0 { 1.0 } else { -1.0 };
                crate::root::rising(*left, *right, 0.0, |s| sign * self.slope(s))
            })
            .collect()
    }
}

/// A solved beam.
#[derive(Debug, Clone, PartialEq)]
pub struct Bending {
    pub(super) spans: Vec<Span>,
    /// In the order of the supports.
    pub reactions: Vec<Reaction>,
}

impl Bending {
    /// Every station, seen from both sides, and every place between two where one of the four is greatest.
    fn places(&self) -> impl Iterator<Item = Here> + '_ {
        self.spans.iter().flat_map(|span| {
            let mut at = vec![0.0, span.length];
            let no_shear = -span.shear / span.spread;
            at.extend((no_shear > 0.0 && no_shear < span.length).then_some(no_shear));
            at.extend(span.no_moment());
            at.extend(span.level());
            at.into_iter().map(|s| span.here(s))
        })
    }

    fn greatest(&self, of: impl Fn(&Here) -> f64) -> Here {
        let nowhere = Here {
            at: Length::ZERO,
            moment: Torque::ZERO,
            shear: Force::ZERO,
            deflection: Length::ZERO,
            slope: Angle::ZERO,
        };
        self.places().fold(nowhere, |best, here| if of(&here).abs() > of(&best).abs() { here } else { best })
    }

    /// Where it bends hardest.
    #[must_use]
    pub fn hardest_bent(&self) -> Here {
        self.greatest(|here| here.moment.si())
    }

    /// Where it shears hardest.
    #[must_use]
    pub fn hardest_sheared(&self) -> Here {
        self.greatest(|here| here.shear.si())
    }

    /// Where it gives way farthest.
    #[must_use]
    pub fn farthest(&self) -> Here {
        self.greatest(|here| here.deflection.si())
    }

    /// At one place; beyond the ends as at the end.
    #[must_use]
    pub fn at(&self, x: Length) -> Here {
        let x = x.si();
        let end = self.spans.last().map_or(0.0, |span| span.from + span.length);
        let start = self.spans.first().map_or(0.0, |span| span.from);
        let x = x.clamp(start, end.max(start));
        let mut found: Option<Here> = None;
        for span in &self.spans {
            let close = 1e-9 * end;
            if x < span.from - close || x > span.from + span.length + close {
                continue;
            }
            let here = span.here((x - span.from).clamp(0.0, span.length));
            found = Some(match found {
                None => here,
                Some(left) => Here {
                    moment: if here.moment.abs() > left.moment.abs() { here.moment } else { left.moment },
                    shear: if here.shear.abs() > left.shear.abs() { here.shear } else { left.shear },
                    ..left
                },
            });
        }
        found.unwrap_or_else(|| self.greatest(|_| 0.0))
    }
}
