//! The temperature of one thing over time.

use super::network::{Run, State, of};
use quantity::*;

/// Temperature from the start of the case on, also beyond its end, and after everything was switched off at that end.
#[derive(Debug, Clone)]
pub struct Course {
    /// Seconds and kelvin.
    driven: Vec<(f64, f64)>,
    /// How many of them belong to the case.
    within: usize,
    end: f64,
    settles: Option<f64>,
    stopped: Vec<(f64, f64)>,
    /// As a thermometer showed it.
    soaked: Option<(f64, f64)>,
    measured: bool,
}

/// The highest after stopping.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Peak {
    pub temperature: ThermodynamicTemperature,
    /// Since the stop; zero where it only cools.
    pub after: Time,
}

/// What was worked out of all bodies, and what a course is cut from.
#[derive(Debug, Clone)]
pub(super) struct Runs {
    /// Of the air, K.
    pub(super) outside: f64,
    pub(super) driven: Run,
    pub(super) stopped: Run,
    /// Whether the case says how long it lasts.
    pub(super) lasts: bool,
}

impl Runs {
    /// When the case is over.
    pub(super) fn resting(&self) -> State {
        self.driven.end(self.lasts)
    }

    pub(super) fn course(&self, place: usize) -> Course {
        let kelvin = |state: &State| self.outside + of(state, place);
        let points = |run: &Run| run.points.iter().map(|(time, state)| (*time, kelvin(state))).collect::<Vec<_>>();
        let (driven, stopped) = (points(&self.driven), points(&self.stopped));
        let settles = self.driven.settled.as_ref().map(kelvin);
        let (within, end) = (if self.lasts { self.driven.within } else { driven.len() }, kelvin(&self.resting()));
        Course { driven, within, end, settles, stopped, soaked: None, measured: false }
    }

    /// Between two places, the given share of the way from the first to the second; after the stop it is not looked at.
    pub(super) fn between(&self, from: usize, to: usize, share: f64) -> Course {
        let (mut first, second) = (self.course(from), self.course(to));
        let on_the_way = |from: f64, to: f64| from + share * (to - from);
        for (point, other) in first.driven.iter_mut().zip(&second.driven) {
            point.1 = on_the_way(point.1, other.1);
        }
        first.end = on_the_way(first.end, second.end);
        first.settles = first.settles.zip(second.settles).map(|(from, to)| on_the_way(from, to));
        first.stopped = vec![(0.0, first.end)];
        first
    }
}

fn kelvin(temperature: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_si(temperature)
}

/// Where a course passes a temperature between two of its points.
fn between(a: (f64, f64), b: (f64, f64), temperature: f64) -> f64 {
    let share = (temperature - a.1) / (b.1 - a.1);
    a.0 + share.clamp(0.0, 1.0) * (b.0 - a.0)
}

impl Course {
    /// One temperature all the time.
    pub(super) fn level(temperature: ThermodynamicTemperature) -> Self {
        let here = temperature.si();
        let flat = vec![(0.0, here)];
        let settles = Some(here);
        Self { driven: flat.clone(), within: 1, end: here, settles, stopped: flat, soaked: None, measured: false }
    }

    /// As a thermometer was read while driving: from its lowest to its highest.
    pub(super) fn read_off(lowest: f64, highest: f64) -> Self {
        let driven = vec![(0.0, lowest), (0.0, highest)];
        let stopped = vec![(0.0, highest)];
        Self { driven, within: 2, end: highest, settles: None, stopped, soaked: None, measured: true }
    }

    /// The same, warmer by so many kelvin from the first moment on, but not before it: what makes no heat yet is cold.
    pub(super) fn lifted(&self, by: f64) -> Self {
        let mut lifted = self.clone();
        lifted.driven.iter_mut().filter(|point| point.0 > 0.0).for_each(|point| point.1 += by);
        lifted.end += by;
        lifted.settles = lifted.settles.map(|settles| settles + by);
        lifted
    }

    /// No hotter than something else is.
    pub(super) fn capped(self, by: &Self) -> Self {
        if self.hottest() > by.hottest() { by.clone() } else { self }
    }

    /// The same as a thermometer has set it right; `soaked` is the peak after stopping and when it came.
    pub(super) fn measured(self, soaked: Option<(f64, f64)>) -> Self {
        Self { measured: true, soaked, ..self }
    }

    /// When the case begins.
    #[must_use]
    pub fn start(&self) -> ThermodynamicTemperature {
        kelvin(self.driven.first().map_or(self.end, |point| point.1))
    }

    /// When the case is over; where it settles if the case does not say how long it lasts.
    #[must_use]
    pub fn end(&self) -> ThermodynamicTemperature {
        kelvin(self.end)
    }

    /// Where it would settle if the case went on; nothing where it runs away.
    #[must_use]
    pub fn settles(&self) -> Option<ThermodynamicTemperature> {
        self.settles.map(kelvin)
    }

    /// Highest while the case lasts.
    #[must_use]
    pub fn hottest(&self) -> ThermodynamicTemperature {
        kelvin(self.driven.iter().take(self.within).map(|point| point.1).fold(self.end, f64::max))
    }

    /// Lowest while the case lasts.
    #[must_use]
    pub fn coldest(&self) -> ThermodynamicTemperature {
        kelvin(self.driven.iter().take(self.within).map(|point| point.1).fold(self.end, f64::min))
    }

    /// Time until it is as warm as that for the first time, also beyond the case's end; nothing if it never is.
    #[must_use]
    pub fn rises_to(&self, limit: ThermodynamicTemperature) -> Option<Time> {
        self.first(limit.si(), |here, limit| here >= limit)
    }

    /// Time until it is as cold as that for the first time.
    #[must_use]
    pub fn falls_to(&self, limit: ThermodynamicTemperature) -> Option<Time> {
        self.first(limit.si(), |here, limit| here <= limit)
    }

    fn first(&self, limit: f64, there: fn(f64, f64) -> bool) -> Option<Time> {
        let place = self.driven.iter().position(|point| there(point.1, limit))?;
        let here = self.driven.get(place)?;
        let before = place.checked_sub(1).and_then(|before| self.driven.get(before));
        Some(Time::from_si(before.map_or(here.0, |before| between(*before, *here, limit))))
    }

    /// Highest after everything was switched off at the end of the case.
    #[must_use]
    pub fn peak(&self) -> Peak {
        let worked_out = self.stopped.iter().copied().fold((0.0, self.end), |most, point| {
            // A hair above is rounding.
            if point.1 > most.1 + 1e-6 { point } else { most }
        });
        let (after, highest) = self.soaked.unwrap_or(worked_out);
        Peak { temperature: kelvin(highest), after: Time::from_si(after) }
    }

    /// Whether a thermometer has said how warm it gets.
    #[must_use]
    pub fn is_measured(&self) -> bool {
        self.measured
    }
}
