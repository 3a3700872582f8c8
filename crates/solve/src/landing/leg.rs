//! One spring, damper and stop between the body and the ground, as the motion feels it: forces at a travel and a speed.

use physics::damping::Law;

/// What carries the unsprung mass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Support {
    /// The ground under the wheel, N/m.
    Giving(f64),
    /// Nothing gives: the wheel stands still at once.
    Rigid,
}

impl Support {
    /// A support a million times stiffer than the spring gives nothing that could be seen, and its swings would never end.
    pub fn of(support: f64, spring_at_wheel: f64) -> Self {
        if support > 1e6 * spring_at_wheel { Self::Rigid } else { Self::Giving(support) }
    }

    pub fn rate(self) -> f64 {
        match self {
            Self::Giving(rate) => rate,
            Self::Rigid => f64::INFINITY,
        }
    }
}

/// What resists the stroke.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Damping {
    None,
    Flows {
        bump: Law,
        rebound: Law,
    },
    /// It does not move at all: a rod as stiff as its mount, N/m.
    Rod(f64),
}

/// What ends the stroke, at the damper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stop {
    /// Travel at which it is touched, m.
    pub at: f64,
    /// Stiffness of the structure that holds it, N/m: all that a hard stop gives.
    pub mount: f64,
    pub elastomer: Option<Elastomer>,
}

/// A block that stiffens as its height vanishes, F = E·A·s/(1 − s) with the share s of its height pressed together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Elastomer {
    /// Modulus times area, N.
    pub stiffness: f64,
    pub height: f64,
}

impl Stop {
    /// N. Block and structure in series share what is pressed: p = h·F/(E·A + F) + F/k, of which this is the positive root.
    pub fn force(&self, travel: f64) -> f64 {
        let pressed = (travel - self.at).max(0.0);
        let Some(block) = self.elastomer else { return self.mount * pressed };
        let past = self.mount * (pressed - block.height) - block.stiffness;
        let product = pressed * self.mount * block.stiffness;
        let root = (past * past + 4.0 * product).sqrt();
        // The form that keeps its digits for each sign of `past`.
        if past > 0.0 { 0.5 * (past + root) } else { 2.0 * product / (root - past) }
    }
}

/// Springs that move alike: so many of them, at one place of the body, in SI numbers.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Leg {
    pub count: f64,
    /// Forward and to the left of the centre of gravity.
    pub x: f64,
    pub y: f64,
    /// Of one.
    pub unsprung: f64,
    /// Share of the body's mass that one carries, standing: sets how finely its motion is followed.
    pub carries: f64,
    /// Damper travel over wheel travel.
    pub ratio: f64,
    /// Of the spring, at the damper.
    pub rate: f64,
    pub preload: f64,
    pub damping: Damping,
    /// The softer one first: both may act together.
    pub stops: [Option<Stop>; 2],
    pub support: Support,
    /// Nobody has pushed on its mount: how far it gives is a guess.
    pub guessed: bool,
    /// Moment that lifts the nose for each newton of the ground's push: what the track pulls with, times its depth below
    /// the centre of gravity.
    pub grip: f64,
}

impl Leg {
    /// The same with its ground, and a mount that is a guess, so many times as stiff.
    pub fn stiffer(mut self, times: f64) -> Self {
        self.support = Support::of(self.support.rate() * times, self.rate * self.ratio * self.ratio);
        if !self.guessed {
            return self;
        }
        self.stops = self.stops.map(|stop| stop.map(|stop| Stop { mount: stop.mount * times, ..stop }));
        if let Damping::Rod(mount) = &mut self.damping {
            *mount *= times;
        }
        self
    }

    /// Below it the wheel hangs on its droop stop; stiff enough to hide, soft enough to step over.
    fn droop_rate(&self) -> f64 {
        (50.0 * self.rate).max(self.preload / 0.2e-3)
    }

    /// Wheel travel past full extension, with which the preload hangs in the air.
    pub fn hangs(&self) -> f64 {
        match (&self.damping, self.support) {
            (Damping::Rod(_), _) | (_, Support::Rigid) => 0.0,
            _ => self.preload / (self.droop_rate() * self.ratio),
        }
    }

    /// Energy in the spring, without its stops; none while the wheel hangs.
    pub fn stored(&self, travel: f64) -> f64 {
        let travel = travel.max(0.0);
        travel * (self.preload + 0.5 * self.rate * travel)
    }

    pub fn stop_force(&self, travel: f64) -> f64 {
        self.stops.iter().flatten().map(|stop| stop.force(travel)).sum()
    }

    /// Force of spring, stops and damper together, at the damper. A foot on rigid ground never pulls.
    pub fn force(&self, travel: f64, speed: f64) -> f64 {
        let rigid = self.support == Support::Rigid;
        if rigid && travel < 0.0 {
            return 0.0;
        }
        let force = match &self.damping {
            Damping::Rod(mount) => mount * travel,
            _ if travel >= 0.0 => self.preload + self.rate * travel + self.stop_force(travel),
            _ => self.preload + self.droop_rate() * travel + self.washer(speed),
        };
        let force = force + self.resists(speed);
        if rigid { force.max(0.0) } else { force }
    }

    /// What the washer of the droop stop swallows, on the way out only, so that a wheel in the air comes to rest.
    fn washer(&self, speed: f64) -> f64 {
        0.6 * (self.droop_rate() * self.unsprung).sqrt() / self.ratio * speed.min(0.0)
    }

    fn resists(&self, speed: f64) -> f64 {
        let Damping::Flows { bump, rebound } = &self.damping else { return 0.0 };
        let force = if speed > 0.0 { bump.force(speed) } else { rebound.force(-speed) };
        // Sixty times critical is locked: beyond it the ground and the mount give in any case, and the steps would not end.
        let locked = 120.0 * (self.support.rate() * self.carries).sqrt() / (self.ratio * self.ratio) * speed.abs();
        let force = force.min(locked);
        if speed > 0.0 { force } else { -force }
    }

    /// A share of the quickest swing that matters for the peak: no step may be longer.
    pub fn longest_step(&self, speed: f64) -> f64 {
        let wheel = self.rate * self.ratio * self.ratio;
        let alone = 1.0 / (wheel / self.carries).sqrt();
        // Softer than its own weight lets gravity set the time.
        let free = speed / physics::landing::GRAVITY + (2.0 * 0.01 / physics::landing::GRAVITY).sqrt();
        alone.min(free) / 10.0
    }
}
