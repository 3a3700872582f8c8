//! One sprung and one unsprung mass that come down on a spring, a damper and a stop: the motion until it rebounds.

use ode_solvers::dop_shared::OutputType;
use ode_solvers::{Dopri5, System, Vector4};
use physics::landing::GRAVITY;

/// Sprung depth, sprung speed, unsprung depth, unsprung speed; at the wheel, downward, from first contact.
type State = Vector4<f64>;

/// What carries the unsprung mass.
#[derive(Debug, Clone, Copy)]
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
}

/// Resistance of the damper, at the damper.
#[derive(Debug, Clone, Copy)]
pub(super) struct Oil {
    pub valving: physics::damper::Valving,
    pub viscosity: quantity::DynamicViscosity,
    pub density: quantity::MassDensity,
}

/// What ends the stroke, at the damper.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stop {
    /// Travel at which it is touched, m.
    pub at: f64,
    /// Stiffness of the structure that holds it, N/m: all that a hard stop gives.
    pub mount: f64,
    pub elastomer: Option<Elastomer>,
}

/// A block that stiffens as its height vanishes, F = E·A·s/(1 − s) with the share s of its height pressed together.
#[derive(Debug, Clone, Copy)]
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

/// All of one corner, in SI numbers.
#[derive(Debug, Clone, Copy)]
pub(super) struct Corner {
    pub sprung: f64,
    pub unsprung: f64,
    pub speed: f64,
    /// Damper travel over wheel travel.
    pub ratio: f64,
    /// Of the spring, at the damper.
    pub rate: f64,
    pub preload: f64,
    pub oil: Option<Oil>,
    /// The softer one first: both may act together.
    pub stops: [Option<Stop>; 2],
    pub support: Support,
}

/// The worst of the way down.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Peak {
    /// At the damper, from full extension.
    pub travel: f64,
    /// At the damper.
    pub force: f64,
    pub stop_force: f64,
    /// Of the sprung mass, upward.
    pub deceleration: f64,
}

/// One instant of the way down, at the damper, from first contact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Moment {
    pub time: f64,
    pub travel: f64,
    pub force: f64,
}

/// Why there is no end of the motion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct NoEnd;

impl Corner {
    fn support_rate(&self) -> f64 {
        match self.support {
            Support::Giving(rate) => rate,
            Support::Rigid => f64::INFINITY,
        }
    }

    /// Below it the wheel hangs on its droop stop; stiff enough to hide, soft enough to step over.
    fn droop_rate(&self) -> f64 {
        (50.0 * self.rate).max(self.preload / 0.2e-3)
    }

    /// Force of spring, stops and damper at the damper.
    fn force(&self, travel: f64, speed: f64) -> f64 {
        let spring = match self.support {
            _ if travel >= 0.0 => self.preload + self.rate * travel,
            // A rigid ground holds the wheel, so that nothing hangs.
            Support::Rigid => 0.0,
            Support::Giving(_) => self.preload + self.droop_rate() * travel,
        };
        let stops: f64 = self.stops.iter().flatten().map(|stop| stop.force(travel)).sum();
        spring + stops + self.damping(speed)
    }

    fn damping(&self, speed: f64) -> f64 {
        let Some(oil) = &self.oil else { return 0.0 };
        let at = quantity::Quantity::from_si(speed.abs());
        let stroke = physics::damper::stroke(&oil.valving, at, oil.viscosity, oil.density);
        let force = quantity::Quantity::si(stroke.force);
        // Sixty times critical is locked: beyond it the ground and the mount give in any case, and the steps would not end.
        let locked = 120.0 * (self.support_rate() * self.sprung).sqrt() / (self.ratio * self.ratio) * speed.abs();
        force.min(locked) * speed.signum()
    }

    fn rates(&self, y: &State) -> State {
        let (depth, speed) = (self.ratio * (y.x - y.z), self.ratio * (y.y - y.w));
        let between = self.ratio * self.force(depth, speed);
        let sprung = GRAVITY - between / self.sprung;
        match self.support {
            Support::Giving(rate) => {
                let ground = rate * y.z.max(0.0);
                State::new(y.y, sprung, y.w, GRAVITY + (between - ground) / self.unsprung)
            }
            Support::Rigid => State::new(y.y, sprung, 0.0, 0.0),
        }
    }

    /// A quarter of the quickest swing that matters for the peak: no step may be longer than a share of it.
    fn longest_step(&self) -> f64 {
        let wheel = self.rate * self.ratio * self.ratio;
        let alone = 1.0 / (wheel / self.sprung).sqrt();
        // Softer than its own weight lets gravity set the time.
        let free = self.speed / GRAVITY + (2.0 * 0.01 / GRAVITY).sqrt();
        alone.min(free) / 10.0
    }

    /// The worst of the motion until the sprung mass rebounds or rests.
    pub fn come_down(&self) -> Result<Peak, NoEnd> {
        self.motion(|times, states| self.worst(times, states))
    }

    /// The same motion, moment by moment.
    pub fn course(&self) -> Result<Vec<Moment>, NoEnd> {
        self.motion(|times, states| {
            let moment = |(time, y): (&f64, &State)| {
                let travel = self.ratio * (y.x - y.z);
                // On the droop stop no force reaches the mount.
                let force = if travel >= 0.0 { self.force(travel, self.ratio * (y.y - y.w)) } else { 0.0 };
                Moment { time: *time, travel: travel.max(0.0), force }
            };
            Ok(times.iter().zip(states).map(moment).collect())
        })
    }

    fn motion<T>(&self, tell: impl FnOnce(&[f64], &[State]) -> Result<T, NoEnd>) -> Result<T, NoEnd> {
        let rigid = matches!(self.support, Support::Rigid);
        // In the air the preload hangs on the droop stop.
        let hangs = if rigid { 0.0 } else { self.preload / (self.droop_rate() * self.ratio) };
        let wheel_speed = if rigid { 0.0 } else { self.speed };
        let start = State::new(-hangs, self.speed, 0.0, wheel_speed);
        let step = self.longest_step();
        let sane = [self.sprung, self.unsprung, self.ratio, self.rate, step].iter().all(|x| x.is_finite() && *x > 0.0);
        if !sane || !self.rates(&start).iter().chain(start.iter()).all(|number| number.is_finite()) {
            return Err(NoEnd);
        }
        let end = 375.0 * step;
        let mut solver = Dopri5::from_param(
            Motion(self),
            0.0,
            end,
            end,
            start,
            1e-7,
            1e-9,
            0.9,
            0.04,
            0.2,
            5.0,
            step,
            step * 1e-3,
            40_000,
            u32::MAX,
            OutputType::Sparse,
        );
        solver.integrate().map_err(|_| NoEnd)?;
        tell(solver.x_out(), solver.y_out())
    }

    fn worst(&self, times: &[f64], states: &[State]) -> Result<Peak, NoEnd> {
        let mut peak = Peak::default();
        let mut before: Option<(f64, &State, State)> = None;
        for (time, y) in times.iter().zip(states) {
            let rates = self.rates(y);
            if !y.iter().chain(rates.iter()).all(|number| number.is_finite()) {
                return Err(NoEnd);
            }
            self.note(&mut peak, y.x - y.z, y.y - y.w, -rates.y);
            if let Some((was_at, was, were)) = before
                && was.y - was.w > 0.0
                && y.y - y.w <= 0.0
            {
                let (h, from) = (time - was_at, was.x - was.z);
                let deepest = turning(h, from, (was.y - was.w, were.y - were.w), (y.y - y.w, rates.y - rates.w));
                self.note(&mut peak, deepest, 0.0, 0.0);
            }
            before = Some((*time, y, rates));
        }
        Ok(peak)
    }

    fn note(&self, peak: &mut Peak, wheel_travel: f64, wheel_speed: f64, deceleration: f64) {
        let travel = self.ratio * wheel_travel;
        if travel >= 0.0 {
            peak.force = peak.force.max(self.force(travel, self.ratio * wheel_speed));
        }
        let stops: f64 = self.stops.iter().flatten().map(|stop| stop.force(travel)).sum();
        peak.travel = peak.travel.max(travel);
        peak.stop_force = peak.stop_force.max(stops);
        peak.deceleration = peak.deceleration.max(deceleration);
    }
}

/// Depth where the speed passes zero within a step: the speed is the cubic through both ends' speeds and accelerations.
fn turning(h: f64, from: f64, (v0, a0): (f64, f64), (v1, a1): (f64, f64)) -> f64 {
    let (c1, c2, c3) = (h * a0, 3.0 * (v1 - v0) - h * (2.0 * a0 + a1), 2.0 * (v0 - v1) + h * (a0 + a1));
    let speed = |s: f64| v0 + s * (c1 + s * (c2 + s * c3));
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if speed(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    let s = low;
    from + h * s * (v0 + s * (c1 / 2.0 + s * (c2 / 3.0 + s * c3 / 4.0)))
}

struct Motion<'a>(&'a Corner);

impl System<f64, State> for Motion<'_> {
    fn system(&self, _time: f64, y: &State, rates: &mut State) {
        *rates = self.0.rates(y);
    }
    fn solout(&mut self, _time: f64, y: &State, rates: &State) -> bool {
        let between = y.y - y.w;
        let slow = 1e-5 * self.0.speed.max(0.1);
        let rests = y.y.abs() < slow && between.abs() < slow && rates.y.abs() < 1e-3 * GRAVITY;
        rests || (y.y < 0.0 && between < 0.0)
    }
}
