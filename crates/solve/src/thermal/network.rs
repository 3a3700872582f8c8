//! A few bodies of one temperature each, with conductances between them: linear, so it is solved exactly, by the
//! exponential of its matrix. It never knows: what the bodies are.

use nalgebra::{DMatrix, DVector};

/// The first place is no body: it stands for all that is held, and its temperature is one.
pub(super) const HELD: usize = 0;

type Matrix = DMatrix<f64>;
/// Temperatures, K above the air outside; the first is one.
pub(super) type State = DVector<f64>;

/// Bodies, what passes between them, and what is put in. A place that nothing is said of keeps its temperature.
#[derive(Debug, Clone)]
pub(super) struct Network {
    capacity: State,
    /// Watts into each body for each kelvin of each other; those of the first column are watts as such.
    flow: Matrix,
    /// What conducts to something held: W/K, and how warm that is.
    ways_out: Vec<(usize, f64, f64)>,
    /// What heats a place: W, and W for each kelvin of its own.
    sources: Vec<(usize, f64, f64)>,
    /// What flows into a place: W/K, and from where.
    streams: Vec<(usize, f64, usize)>,
}

/// The temperature at a place.
pub(super) fn of(state: &State, place: usize) -> f64 {
    state.get(place).copied().unwrap_or(f64::NAN)
}

/// Sets it.
pub(super) fn put(state: &mut State, place: usize, temperature: f64) {
    if let Some(here) = state.get_mut(place) {
        *here = temperature;
    }
}

/// So many places, all as warm as that.
pub(super) fn even(places: usize, temperature: f64) -> State {
    let mut state = State::repeat(places, temperature);
    put(&mut state, HELD, 1.0);
    state
}

fn add(matrix: &mut Matrix, row: usize, column: usize, value: f64) {
    if let Some(here) = matrix.get_mut((row, column)) {
        *here += value;
    }
}

impl Network {
    /// With so many places, the first counted.
    pub(super) fn new(places: usize) -> Self {
        let (capacity, flow) = (State::repeat(places, 1.0), Matrix::zeros(places, places));
        Self { capacity, flow, ways_out: Vec::new(), sources: Vec::new(), streams: Vec::new() }
    }

    /// J/K.
    pub(super) fn body(&mut self, place: usize, capacity: f64) {
        put(&mut self.capacity, place, capacity);
    }

    /// A conductance between two bodies, W/K.
    pub(super) fn link(&mut self, a: usize, b: usize, conductance: f64) {
        for (here, there) in [(a, b), (b, a)] {
            add(&mut self.flow, here, here, -conductance);
            add(&mut self.flow, here, there, conductance);
        }
    }

    /// A conductance to something held at a temperature.
    pub(super) fn held(&mut self, place: usize, conductance: f64, temperature: f64) {
        add(&mut self.flow, place, place, -conductance);
        add(&mut self.flow, place, HELD, conductance * temperature);
        self.ways_out.push((place, conductance, temperature));
    }

    /// What flows in from elsewhere: W/K of the stream, and the share of it that comes from each place.
    pub(super) fn stream(&mut self, place: usize, rate: f64, from: &[(usize, f64)]) {
        for (source, share) in from {
            add(&mut self.flow, place, *source, rate * share);
            add(&mut self.flow, place, place, -rate * share);
            self.streams.push((place, rate * share, *source));
        }
    }

    pub(super) fn heat(&mut self, place: usize, watts: f64) {
        add(&mut self.flow, place, HELD, watts);
        self.sources.push((place, watts, 0.0));
    }

    /// Heat that grows with the body's own temperature, W/K.
    pub(super) fn grows(&mut self, place: usize, growth: f64) {
        add(&mut self.flow, place, place, growth);
        self.sources.push((place, 0.0, growth));
    }

    /// What is put in, given off and carried along at these temperatures.
    pub(super) fn balance(&self, state: &State) -> Balance {
        let mut carried = vec![0.0; state.len()];
        let mut away = |place: usize, watts: f64| {
            if let Some(here) = carried.get_mut(place) {
                *here += watts;
            }
        };
        for (place, rate, source) in &self.streams {
            away(*place, rate * (of(state, *place) - of(state, *source)));
        }
        let (mut put_in, mut given_off) = (0.0, 0.0);
        for (place, watts, growth) in &self.sources {
            put_in += watts + growth * of(state, *place);
        }
        for (place, conductance, temperature) in &self.ways_out {
            let out = conductance * (of(state, *place) - temperature);
            away(*place, out);
            // What stands warmer than the place puts heat in.
            if out < 0.0 { put_in -= out } else { given_off += out }
        }
        Balance { put_in, given_off, carried }
    }

    /// K/s for each kelvin.
    fn rate(&self) -> Matrix {
        let mut rate = self.flow.clone();
        for (mut row, capacity) in rate.row_iter_mut().zip(self.capacity.iter()) {
            row /= *capacity;
        }
        rate.row_mut(HELD).fill(0.0);
        rate
    }

    /// Where it settles; nothing where it runs away.
    fn settled(&self, last: &State) -> Option<State> {
        let mut balance = self.flow.clone();
        balance.row_mut(HELD).fill(0.0);
        add(&mut balance, HELD, HELD, 1.0);
        for place in 1..balance.nrows() {
            if balance.row(place).iter().all(|each| *each == 0.0) {
                // Nothing happens to it.
                add(&mut balance, place, place, 1.0);
                add(&mut balance, place, HELD, -of(last, place));
            }
        }
        let settled = balance.lu().solve(&even(last.len(), 0.0))?;
        let near = settled.iter().zip(last.iter()).all(|(a, b)| (a - b).abs() <= 0.02 * (a.abs() + b.abs()) + 0.1);
        near.then_some(settled)
    }

    /// From a state on, over a duration and at least two days; `duration` stands among the times.
    pub(super) fn run(&self, first: State, duration: f64) -> Run {
        let duration = duration.max(SHORT);
        let step = duration / f64::from(1u32 << HALVINGS);
        let mut run = Run { points: vec![(0.0, first.clone())], within: 1, settled: None };
        let rate = self.rate() * step;
        // A body of no mass, or a conductance without end.
        if !rate.iter().all(|each| each.abs() < 1e9) {
            return run;
        }
        let mut forward = rate.exp();
        let (mut state, mut time, mut stride) = (first, 0.0, step);
        let mut left = 2 * EACH;
        while time < duration.max(LONG) && sane(&state) {
            state = &forward * state;
            time += stride;
            run.points.push((time, state.clone()));
            if time <= duration * (1.0 + 1e-9) {
                run.within = run.points.len();
            }
            left -= 1;
            if left == 0 {
                (forward, stride, left) = (&forward * &forward, 2.0 * stride, EACH);
            }
        }
        if sane(&state) {
            run.settled = self.settled(&state);
        }
        run
    }
}

/// All heat in one moment, W.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Balance {
    put_in: f64,
    given_off: f64,
    /// Out of each place with its stream and by its own way out.
    carried: Vec<f64>,
}

impl Balance {
    /// Out of a place with its stream and by its own way out, W.
    pub(super) fn carried(&self, place: usize) -> f64 {
        self.carried.get(place).copied().unwrap_or(0.0)
    }

    /// What is put in and not given off, over what is put in; less than a watt counts as one.
    pub(super) fn imbalance(&self) -> f64 {
        (self.put_in - self.given_off) / self.put_in.max(1.0)
    }
}

/// The duration over the first step, as a power of two.
const HALVINGS: u32 = 12;
/// Steps until their length doubles: no step is longer than an eighth of the time that has passed.
const EACH: u32 = 8;
/// No case is over sooner, s.
const SHORT: f64 = 1e-3;
/// Two days: whatever is going to settle has settled.
const LONG: f64 = 2.0 * 86_400.0;

/// Beyond three thousand kelvin nothing is left to be worked out.
fn sane(state: &State) -> bool {
    state.iter().all(|each| each.abs() < 3000.0)
}

/// States over time.
#[derive(Debug, Clone)]
pub(super) struct Run {
    /// Seconds, and the state then.
    pub(super) points: Vec<(f64, State)>,
    /// How many of them lie within the duration, its end included.
    pub(super) within: usize,
    pub(super) settled: Option<State>,
}

impl Run {
    /// When its duration is over, or where it settles; where it was left if it runs away.
    pub(super) fn end(&self, lasts: bool) -> State {
        let state = |place: usize| self.points.get(place).map_or_else(|| even(1, 0.0), |point| point.1.clone());
        match &self.settled {
            Some(settled) if !lasts => settled.clone(),
            _ if lasts => state(self.within - 1),
            _ => state(self.points.len() - 1),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use ode_solvers::dop_shared::OutputType;
    use ode_solvers::{Dopri5, System, Vector3};
    use physics::heat::cooling::{lumped, lumped_time, time_constant};
    use quantity::{HeatCapacity, Quantity, ThermalConductance, Time, celsius};

    fn start(temperatures: &[f64]) -> State {
        let mut state = even(temperatures.len() + 1, 0.0);
        for (place, temperature) in temperatures.iter().enumerate() {
            state[place + 1] = *temperature;
        }
        state
    }

    #[test]
    fn one_body_by_its_closed_form() {
        let mut one = Network::new(2);
        one.body(1, 900.0);
        one.held(1, 1.5, 0.0);
        let run = one.run(start(&[60.0]), 450.0);
        let tau = time_constant(HeatCapacity::from_si(900.0), ThermalConductance::from_si(1.5));
        for (time, state) in &run.points {
            let closed = lumped(celsius(60.0), celsius(0.0), Time::from_si(*time), tau).si() - 273.15;
            assert!((state[1] - closed).abs() < 1e-8, "{time} {} {closed}", state[1]);
        }
        assert!((run.points[run.within - 1].0 - 450.0).abs() < 1e-9 && run.points.last().unwrap().0 >= LONG);
        assert!(run.settled.unwrap()[1].abs() < 1e-9);
        // Heated, it settles at watts over conductance, and is on its way by the same law.
        one.heat(1, 30.0);
        let run = one.run(start(&[0.0]), 600.0);
        assert!((run.settled.as_ref().unwrap()[1] - 20.0).abs() < 1e-9);
        let half = lumped_time(celsius(0.0), celsius(20.0), celsius(run.end(true)[1]), tau).unwrap();
        assert!((half.si() - 600.0).abs() < 1e-6);
    }

    #[test]
    fn two_bodies_share_their_heat() {
        // Alone together: both end at the mean, weighted by capacity; the gap dies with C1·C2/((C1+C2)·G).
        let mut two = Network::new(3);
        two.body(1, 100.0);
        two.body(2, 300.0);
        two.link(1, 2, 2.0);
        let run = two.run(start(&[80.0, 0.0]), 100.0);
        let tau = 100.0 * 300.0 / 400.0 / 2.0;
        for (time, state) in &run.points {
            assert!((100.0 * state[1] + 300.0 * state[2] - 8000.0).abs() < 1e-4);
            assert!((state[1] - state[2] - 80.0 * (-time / tau).exp()).abs() < 1e-8);
        }
        assert!(run.settled.is_none(), "what no heat leaves has no balance of its own");
    }

    #[test]
    fn a_stream_carries_heat_one_way() {
        // 5 W/K of coolant come in at 10 K, take 60 W out of a body by a film of 3 W/K, and leave; by hand 22 K and 42 K.
        let mut stream = Network::new(4);
        for (place, capacity) in [(1, 40.0), (2, 20.0), (3, 500.0)] {
            stream.body(place, capacity);
        }
        stream.held(1, 1e6, 10.0);
        stream.stream(1, 5.0, &[(2, 1.0)]);
        stream.stream(2, 5.0, &[(1, 0.75), (1, 0.25)]);
        stream.link(2, 3, 3.0);
        stream.heat(3, 60.0);
        let settled = stream.run(start(&[10.0, 0.0, 0.0]), 100.0).settled.unwrap();
        assert!((settled[2] - 22.0).abs() < 1e-3 && (settled[3] - 42.0).abs() < 1e-3, "{settled}");
        let balance = stream.balance(&settled);
        assert!((balance.carried(2) - 60.0).abs() < 1e-6 && balance.imbalance().abs() < 1e-6, "{balance:?}");
    }

    /// Three bodies of a motor: winding, case, coolant.
    struct Motor;
    impl System<f64, Vector3<f64>> for Motor {
        fn system(&self, _: f64, t: &Vector3<f64>, rate: &mut Vector3<f64>) {
            rate[0] = (60.0 + 0.2 * t[0] - 2.5 * (t[0] - t[1])) / 90.0;
            rate[1] = (15.0 + 2.5 * (t[0] - t[1]) - 20.0 * (t[1] - t[2]) - 0.5 * t[1]) / 350.0;
            rate[2] = (20.0 * (t[1] - t[2]) - 9.0 * t[2]) / 800.0;
        }
    }

    #[test]
    fn three_bodies_as_the_integrator_has_them() {
        let mut three = Network::new(4);
        for (place, capacity) in [(1, 90.0), (2, 350.0), (3, 800.0)] {
            three.body(place, capacity);
        }
        three.heat(1, 60.0);
        three.grows(1, 0.2);
        three.heat(2, 15.0);
        three.link(1, 2, 2.5);
        three.link(2, 3, 20.0);
        three.held(2, 0.5, 0.0);
        three.held(3, 9.0, 0.0);
        let run = three.run(start(&[0.0, 0.0, 0.0]), 1200.0);
        for (time, state) in run.points.iter().filter(|point| point.0 > 1.0 && point.0 < 20_000.0) {
            let mut solver = Dopri5::from_param(
                Motor,
                0.0,
                *time,
                *time,
                Vector3::zeros(),
                1e-10,
                1e-10,
                0.9,
                0.04,
                0.2,
                10.0,
                60.0,
                0.1,
                100_000,
                1000,
                OutputType::Sparse,
            );
            solver.integrate().unwrap();
            let end = solver.y_out().last().unwrap();
            for place in 0..3 {
                assert!((state[place + 1] - end[place]).abs() < 1e-5, "{time}: {} {}", state[place + 1], end[place]);
            }
        }
    }

    #[test]
    fn what_heats_itself_faster_than_it_cools_runs_away() {
        let mut hot = Network::new(2);
        hot.body(1, 100.0);
        hot.heat(1, 10.0);
        hot.grows(1, 2.0);
        hot.held(1, 1.0, 0.0);
        let run = hot.run(start(&[0.0]), 60.0);
        assert!(run.settled.is_none() && !sane(&run.points.last().unwrap().1));
        // Closed form on the way: 10·(e^(t/100) − 1).
        assert!((run.end(true)[1] - 10.0 * (0.6f64.exp() - 1.0)).abs() < 1e-8);
    }
}
