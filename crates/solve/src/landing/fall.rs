//! A stiff body that comes down on its legs: heave, pitch and roll, and every wheel on its ground. The motion from first
//! contact over the second one and the rebound, until it rests or a window of time is over.

#![expect(clippy::indexing_slicing, reason = "places in a state whose size is the number of its legs")]

use super::leg::{Leg, Support};
use ode_solvers::dop_shared::OutputType;
use ode_solvers::{Dopri5, SVector, System};
use physics::landing::GRAVITY;
use std::f64::consts::PI;

/// Depth of the centre of gravity and its speed, nose-up pitch and its rate, left-up roll and its rate; then depth and speed
/// of each leg's wheel. Downward, from first contact.
type State<const N: usize> = SVector<f64, N>;

/// All of one landing, in SI numbers.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Body {
    pub mass: f64,
    /// Nothing where it cannot pitch.
    pub pitch_inertia: Option<f64>,
    pub roll_inertia: Option<f64>,
    /// Of the fall, at first contact.
    pub speed: f64,
    /// Radians, nose up, when it first touches.
    pub pitch: f64,
    /// Radians, left side up.
    pub roll: f64,
    pub legs: Vec<Leg>,
    /// A place forward of the centre of gravity whose deceleration is wanted too.
    pub watched: f64,
}

/// The worst of one leg.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Peak {
    /// At the damper, from full extension.
    pub travel: f64,
    /// At the damper.
    pub force: f64,
    pub force_at: f64,
    pub stop_force: f64,
    /// Highest speed at the damper, pushed in.
    pub speed: f64,
    /// Push of the ground under one wheel.
    pub ground: f64,
    /// Of the body over this leg, upward.
    pub deceleration: f64,
    /// When its wheel first touches the ground, and how long it then stays there.
    pub touches: Option<f64>,
    pub stays: f64,
}

/// The worst of a landing.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Landed {
    pub legs: Vec<Peak>,
    pub deceleration: f64,
    pub watched_deceleration: f64,
    /// Of the fall at first contact, wheels and all; and what is left of it while it comes up again, with its highest speed then.
    pub energy: f64,
    pub rebound: f64,
    pub energy_left: f64,
}

/// One instant of one leg, at the damper, from first contact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Moment {
    pub time: f64,
    pub travel: f64,
    pub force: f64,
}

/// Why there is no end of the motion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct NoEnd;

/// Most legs that are followed at once.
pub(super) const LEGS: usize = 8;

/// Where the body is, with the sines and cosines that all legs share.
struct Pose {
    depth: f64,
    speed: f64,
    pitch: (f64, f64),
    roll: (f64, f64),
    pitches: f64,
    rolls: f64,
}

impl Pose {
    fn of<const N: usize>(y: &State<N>) -> Self {
        let roll = if y[4] == 0.0 { (0.0, 1.0) } else { y[4].sin_cos() };
        Self { depth: y[0], speed: y[1], pitch: y[2].sin_cos(), roll, pitches: y[3], rolls: y[5] }
    }
    /// Over a leg.
    fn depth(&self, leg: &Leg) -> f64 {
        self.depth - leg.x * self.pitch.0 - leg.y * self.roll.0
    }
    fn speed(&self, leg: &Leg) -> f64 {
        self.speed - leg.x * self.pitch.1 * self.pitches - leg.y * self.roll.1 * self.rolls
    }
}

/// What one leg does in a state.
struct Doing {
    travel: f64,
    speed: f64,
    force: f64,
    ground: f64,
}

impl Body {
    /// Long enough for the second contact and the second descent.
    pub fn window(&self) -> f64 {
        let stiffness: f64 = self.legs.iter().map(|leg| leg.count * leg.rate * leg.ratio * leg.ratio).sum();
        let swings = 3.0 * PI * (self.mass / stiffness).sqrt();
        (swings + self.until_all_touch()).clamp(0.6, 3.0)
    }

    /// About when the last leg comes down.
    pub fn until_all_touch(&self) -> f64 {
        let pose = Pose::of(&self.posed::<6>(0.0));
        let depths = self.legs.iter().map(|leg| pose.depth(leg));
        let (high, low) = depths.fold((f64::INFINITY, f64::NEG_INFINITY), |ends, d| (ends.0.min(d), ends.1.max(d)));
        (high - low).abs() / self.speed.max(0.5)
    }

    pub fn come_down(&self, window: f64) -> Result<Landed, NoEnd> {
        match self.legs.len() {
            0 => Err(NoEnd),
            1 => self.motion::<8, _>(window, |times, states| self.worst(times, states)),
            2 => self.motion::<10, _>(window, |times, states| self.worst(times, states)),
            3 | 4 => self.motion::<14, _>(window, |times, states| self.worst(times, states)),
            _ if self.legs.len() <= LEGS => self.motion::<22, _>(window, |times, states| self.worst(times, states)),
            _ => Err(NoEnd),
        }
    }

    /// The same motion of one leg, moment by moment.
    pub fn course(&self, leg: usize, window: f64) -> Result<Vec<Moment>, NoEnd> {
        self.motion::<22, _>(window, |times, states| {
            let own = self.legs.get(leg).ok_or(NoEnd)?;
            // On the droop stop no force reaches the mount.
            let moment = |time: f64, doing: &Doing| {
                let force = if doing.travel >= 0.0 { doing.force } else { 0.0 };
                Moment { time, travel: doing.travel.max(0.0), force }
            };
            let mut moments: Vec<Moment> = Vec::with_capacity(4 * times.len());
            let mut before: Option<(f64, Doing, f64)> = None;
            for (time, y) in times.iter().zip(states) {
                let doing = self.doing(leg, y).ok_or(NoEnd)?;
                let closes = self.closing(leg, y, &self.rates(y));
                if let Some((was_at, was, closed)) = before {
                    let step = Between::of(time - was_at, (&was, closed), (&doing, closes));
                    moments.extend([0.25, 0.5, 0.75].map(|s| moment(was_at + s * (time - was_at), &step.at(own, s))));
                }
                moments.push(moment(*time, &doing));
                before = Some((*time, doing, closes));
            }
            Ok(moments)
        })
    }

    fn doing<const N: usize>(&self, index: usize, y: &State<N>) -> Option<Doing> {
        Some(Self::of_leg(self.legs.get(index)?, index, &Pose::of(y), y))
    }

    fn of_leg<const N: usize>(leg: &Leg, index: usize, pose: &Pose, y: &State<N>) -> Doing {
        let (wheel, wheel_speed) = (y[6 + 2 * index], y[7 + 2 * index]);
        let travel = leg.ratio * (pose.depth(leg) - wheel);
        let speed = leg.ratio * (pose.speed(leg) - wheel_speed);
        let force = leg.force(travel, speed);
        let ground = match leg.support {
            Support::Giving(rate) => rate * wheel.max(0.0),
            Support::Rigid => force * leg.ratio,
        };
        Doing { travel, speed, force, ground }
    }

    fn rates<const N: usize>(&self, y: &State<N>) -> State<N> {
        let mut rates = State::<N>::zeros();
        let (mut lift, mut nose, mut left) = (0.0, 0.0, 0.0);
        let pose = Pose::of(y);
        for (index, leg) in self.legs.iter().enumerate() {
            let doing = Self::of_leg(leg, index, &pose, y);
            let at_wheel = leg.ratio * doing.force;
            lift += leg.count * at_wheel;
            nose += leg.count * (at_wheel * leg.x * pose.pitch.1 + doing.ground * leg.grip);
            left += leg.count * at_wheel * leg.y * pose.roll.1;
            if let Support::Giving(_) = leg.support {
                rates[6 + 2 * index] = y[7 + 2 * index];
                rates[7 + 2 * index] = GRAVITY + (at_wheel - doing.ground) / leg.unsprung;
            }
        }
        rates[0] = y[1];
        rates[1] = GRAVITY - lift / self.mass;
        if let Some(inertia) = self.pitch_inertia {
            rates[2] = y[3];
            rates[3] = nose / inertia;
        }
        if let Some(inertia) = self.roll_inertia {
            rates[4] = y[5];
            rates[5] = left / inertia;
        }
        rates
    }

    /// Body and wheels; on rigid ground a wheel stops at once and gives nothing back.
    fn comes_down(&self) -> f64 {
        let giving = self.legs.iter().filter(|leg| leg.support != Support::Rigid);
        self.mass + giving.map(|leg| leg.count * leg.unsprung).sum::<f64>()
    }

    fn posed<const N: usize>(&self, depth: f64) -> State<N> {
        let mut y = State::<N>::zeros();
        (y[0], y[1], y[2], y[4]) = (depth, self.speed, self.pitch, self.roll);
        y
    }

    /// Just before the lowest wheel touches, each wheel hanging on its droop stop.
    fn start<const N: usize>(&self) -> State<N> {
        let pose = Pose::of(&self.posed::<N>(0.0));
        let lowest = self.legs.iter().map(|leg| pose.depth(leg) + leg.hangs()).fold(f64::NEG_INFINITY, f64::max);
        let mut y = self.posed::<N>(-lowest);
        for (index, leg) in self.legs.iter().enumerate() {
            if let Support::Giving(_) = leg.support {
                y[6 + 2 * index] = pose.depth(leg) + leg.hangs() - lowest;
                y[7 + 2 * index] = self.speed;
            }
        }
        y
    }

    /// What body and wheels still have to give: motion, height, and what springs and ground hold.
    fn energy<const N: usize>(&self, y: &State<N>) -> f64 {
        let turns = |inertia: Option<f64>, rate: f64| inertia.unwrap_or(0.0) * rate * rate;
        let moves = self.mass * y[1] * y[1] + turns(self.pitch_inertia, y[3]) + turns(self.roll_inertia, y[5]);
        let pose = Pose::of(y);
        let of_leg = |(index, leg): (usize, &Leg)| {
            let held = leg.stored(Self::of_leg(leg, index, &pose, y).travel);
            let wheel = match leg.support {
                Support::Giving(rate) => {
                    let (depth, speed) = (y[6 + 2 * index], y[7 + 2 * index]);
                    leg.unsprung * (0.5 * speed * speed - GRAVITY * depth) + 0.5 * rate * depth.max(0.0).powi(2)
                }
                Support::Rigid => 0.0,
            };
            leg.count * (held + wheel)
        };
        0.5 * moves - self.mass * GRAVITY * y[0] + self.legs.iter().enumerate().map(of_leg).sum::<f64>()
    }

    /// The same where it stands in the end.
    fn energy_at_rest(&self) -> f64 {
        let of_leg = |leg: &Leg| {
            let sag = ((leg.carries * GRAVITY / leg.ratio - leg.preload) / leg.rate).max(0.0);
            leg.count * (leg.stored(sag) - leg.carries * GRAVITY * sag / leg.ratio)
        };
        self.legs.iter().map(of_leg).sum()
    }

    fn motion<const N: usize, T>(
        &self,
        window: f64,
        tell: impl FnOnce(&[f64], &[State<N>]) -> Result<T, NoEnd>,
    ) -> Result<T, NoEnd> {
        let start = self.start::<N>();
        let step = self.legs.iter().map(|leg| leg.longest_step(self.speed)).fold(window / 20.0, f64::min);
        let of_legs = self.legs.iter().flat_map(|leg| [leg.carries, leg.unsprung, leg.ratio, leg.rate, leg.count]);
        let of_body = [self.mass, step, window, self.pitch_inertia.unwrap_or(1.0), self.roll_inertia.unwrap_or(1.0)];
        let sane = of_legs.chain(of_body).all(|x| x.is_finite() && x > 0.0);
        if !sane || !self.rates(&start).iter().chain(start.iter()).all(|number| number.is_finite()) {
            return Err(NoEnd);
        }
        // On rigid ground each touch-down is a jump of force, and errors there would add up over the bounces.
        let rigid = self.legs.iter().all(|leg| leg.support == Support::Rigid);
        let finer = if rigid { 1e-3 } else { 1.0 };
        let mut solver = Dopri5::from_param(
            Motion::of(self, &start),
            0.0,
            window,
            window,
            start,
            RELATIVE * finer,
            ABSOLUTE * finer,
            0.9,
            0.04,
            0.2,
            5.0,
            step,
            step * 1e-3,
            60_000,
            u32::MAX,
            OutputType::Sparse,
        );
        solver.integrate().map_err(|_| NoEnd)?;
        tell(solver.x_out(), solver.y_out())
    }

    fn worst<const N: usize>(&self, times: &[f64], states: &[State<N>]) -> Result<Landed, NoEnd> {
        let mut landed = Landed { legs: vec![Peak::default(); self.legs.len()], ..Landed::default() };
        let mut before: Option<(f64, State<N>, State<N>)> = None;
        // Counted from where it first touches.
        let first = states.first().map_or(0.0, |start| self.energy(start));
        landed.energy = 0.5 * self.comes_down() * self.speed * self.speed;
        let height = first - landed.energy;
        for (time, y) in times.iter().zip(states) {
            let rates = self.rates(y);
            if !y.iter().chain(rates.iter()).all(|number| number.is_finite()) {
                return Err(NoEnd);
            }
            landed.deceleration = landed.deceleration.max(-rates[1]);
            landed.watched_deceleration =
                landed.watched_deceleration.max(self.watched * y[2].cos() * rates[3] - rates[1]);
            if y[1] < 0.0 {
                landed.rebound = landed.rebound.max(-y[1]);
                landed.energy_left = landed.energy_left.max(self.energy(y) - height);
            }
            for (index, (leg, peak)) in self.legs.iter().zip(&mut landed.legs).enumerate() {
                let Some(doing) = self.doing(index, y) else { continue };
                note(leg, peak, *time, &doing);
                let over = leg.x * y[2].cos() * rates[3] + leg.y * y[4].cos() * rates[5] - rates[1];
                peak.deceleration = peak.deceleration.max(over);
                if let Some((was_at, was, were)) = &before
                    && let Some(earlier) = self.doing(index, was)
                {
                    touched(peak, (*was_at, *time), earlier.ground > 0.0, doing.ground > 0.0);
                    let accelerations = (self.closing(index, was, were), self.closing(index, y, &rates));
                    between(leg, peak, (*was_at, *time), (&earlier, &doing), accelerations);
                }
            }
            before = Some((*time, *y, rates));
        }
        Ok(landed)
    }

    /// Acceleration of the damper as it is pushed in.
    fn closing<const N: usize>(&self, index: usize, y: &State<N>, rates: &State<N>) -> f64 {
        let Some(leg) = self.legs.get(index) else { return 0.0 };
        let pitches = leg.x * (y[2].cos() * rates[3] - y[2].sin() * y[3] * y[3]);
        let rolls = leg.y * (y[4].cos() * rates[5] - y[4].sin() * y[5] * y[5]);
        leg.ratio * (rates[1] - pitches - rolls - rates[7 + 2 * index])
    }
}

fn note(leg: &Leg, peak: &mut Peak, time: f64, doing: &Doing) {
    if doing.travel >= 0.0 && doing.force > peak.force {
        (peak.force, peak.force_at) = (doing.force, time);
    }
    let stop_force =
        if matches!(leg.damping, super::leg::Damping::Rod(_)) { 0.0 } else { leg.stop_force(doing.travel) };
    peak.travel = peak.travel.max(doing.travel);
    peak.stop_force = peak.stop_force.max(stop_force);
    peak.speed = peak.speed.max(if doing.ground > 0.0 { doing.speed } else { 0.0 });
    peak.ground = peak.ground.max(doing.ground);
}

/// Notes when a wheel comes to the ground and how long it then stays; the steps are short beside either.
fn touched(peak: &mut Peak, (from, to): (f64, f64), was: bool, is: bool) {
    match peak.touches {
        None if was || is => {
            peak.touches = Some(if was { 0.0 } else { from });
            peak.stays = to - from;
        }
        // A first contact that has ended is not added to.
        Some(touches) if was && (touches + peak.stays - from).abs() < 1e-12 => peak.stays = to - touches,
        _ => {}
    }
}

/// Points looked at between two steps near a peak.
const BETWEEN: u32 = 8;

/// A leg between two steps: its speed is the cubic through both ends' speeds and accelerations, its travel the integral of that.
struct Between {
    h: f64,
    travel: f64,
    cubic: [f64; 4],
}

impl Between {
    fn of(h: f64, (was, a0): (&Doing, f64), (is, a1): (&Doing, f64)) -> Self {
        let (v0, v1) = (was.speed, is.speed);
        let cubic = [v0, h * a0, 3.0 * (v1 - v0) - h * (2.0 * a0 + a1), 2.0 * (v0 - v1) + h * (a0 + a1)];
        Self { h, travel: was.travel, cubic }
    }

    /// At a share of the step.
    fn at(&self, leg: &Leg, s: f64) -> Doing {
        let [c0, c1, c2, c3] = self.cubic;
        let speed = c0 + s * (c1 + s * (c2 + s * c3));
        let travel = self.travel + self.h * s * (c0 + s * (c1 / 2.0 + s * (c2 / 3.0 + s * c3 / 4.0)));
        Doing { travel, speed, force: leg.force(travel, speed), ground: 0.0 }
    }

    /// Share of the step at which the stroke turns, which it does within it.
    fn turns(&self, leg: &Leg) -> f64 {
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if self.at(leg, middle).speed > 0.0 { low = middle } else { high = middle }
        }
        low
    }
}

/// Notes what lies between two steps, if a peak may.
fn between(leg: &Leg, peak: &mut Peak, (from, to): (f64, f64), ends: (&Doing, &Doing), (a0, a1): (f64, f64)) {
    let turns = ends.0.speed > 0.0 && ends.1.speed <= 0.0;
    if !turns && ends.0.force.max(ends.1.force) < 0.9 * peak.force {
        return;
    }
    let step = Between::of(to - from, (ends.0, a0), (ends.1, a1));
    let mut look = |s: f64| note(leg, peak, from + s * (to - from), &step.at(leg, s));
    (1..BETWEEN).for_each(|step| look(f64::from(step) / f64::from(BETWEEN)));
    if turns {
        look(step.turns(leg));
    }
}

/// Tolerance of a step, m and m/s.
const RELATIVE: f64 = 3e-7;
const ABSOLUTE: f64 = 3e-9;

/// Share of the fall's energy, above what it has at rest, below which no later blow can be the worst.
const SPENT: f64 = 0.2;

struct Motion<'a> {
    body: &'a Body,
    /// Energy at which it is spent.
    spent: f64,
    touched: [bool; LEGS],
    rises: bool,
}

impl<'a> Motion<'a> {
    fn of<const N: usize>(body: &'a Body, start: &State<N>) -> Self {
        let (first, rest) = (body.energy(start), body.energy_at_rest());
        Self { body, spent: rest + SPENT * (first - rest), touched: [false; LEGS], rises: false }
    }
}

impl<const N: usize> System<f64, State<N>> for Motion<'_> {
    fn system(&self, _time: f64, y: &State<N>, rates: &mut State<N>) {
        *rates = self.body.rates(y);
    }
    fn solout(&mut self, _time: f64, y: &State<N>, _rates: &State<N>) -> bool {
        for (index, touched) in self.touched.iter_mut().enumerate().take(self.body.legs.len()) {
            *touched = *touched || self.body.doing(index, y).is_some_and(|doing| doing.ground > 0.0);
        }
        // At the top of a rebound, if all of it has been on the ground.
        let tops = self.rises && y[1] >= 0.0;
        self.rises = y[1] < 0.0;
        tops && self.touched.iter().take(self.body.legs.len()).all(|touched| *touched)
            && self.body.energy(y) < self.spent
    }
}
