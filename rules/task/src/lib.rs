#![no_std]
//! Whether the machine can do what each case asks of it: pull, speed, a start, a stop, staying where it is, and as long. It never
//! knows: how a drive line, its battery and the ground are worked out, other rules.

use rule::prelude::*;

mod says;
#[cfg(test)]
mod tests;

static CARD: Card = Card {
    name: "task",
    area: Area::WholeMachine,
    question: "Can the machine do what each case asks: climb it, go as fast, get going, stop, stay there, and last as long?",
    explains: "A machine that cannot climb what it is built for digs itself in or burns its motor at a standstill. One that cannot \
               stop on a slope runs into what is below, and one that nothing holds rolls off as soon as nobody drives it. What \
               cannot be done is judged here; everything else is then judged at what the machine can do, and says so.",
    formula: "needed: m·g·(sin θ + c·cos θ); pull: the least of what the motor's current limit, the battery's current limit and \
              its sagging voltage give at the asked speed, through all stages; grip: adhesion × load on the tracks, s·m·g·cos θ, the \
              weight that a slope moves on to them counted. Steepest grade: where the lesser of both is all used up. Stopping: \
              v·t + v²/2a with a = (brake + rolling − slope)/(m·k), the brake as far as the tracks grip. Staying: what holds it \
              against m·g·sin θ. Lasting: battery current × duration against the charge that the cold leaves",
    source: "Statics, the direct-current machine and Kirchhoff's laws: textbook, published. Adhesion by surface and lug: from \
             memory. Reaction time and reserves: common practice, no source.",
    checked: "120 tasks solved apart from this code to a millionth, with and without batteries, currents and grip that limit; the \
              steepest grade and the highest speed by putting them back. The air's drag, soft ground that tears off under the lugs \
              and a hot motor are left out: they make it worse. Adhesion differs more from day to day than everything else here: \
              measure it with a scale.",
    required: "pull and start 1.1; speed 1; stopping and staying 1.2; a distance that is asked 1; charge 1 (common practice)",
    caution: "A machine that slides or rolls on a slope kills. Stand above or beside it, never below; block it before you step away; \
              try brakes on a gentle slope with a rope first.",
};

#[derive(Debug)]
pub struct Task;

impl Rule for Task {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        for case in &machine.cases {
            let mut on = checks.on(&case.key);
            if case.kind.pulls_steadily() {
                on.check("pull", |at| of(case, at, pull));
            }
            if case.kind.launches() {
                on.check("start", |at| of(case, at, start));
            }
            if case.kind.tops_out() {
                on.check("top speed", |at| of(case, at, speed));
            }
            if case.kind.descends() {
                on.check("stop", |at| of(case, at, stop));
                if machine.is_given(&case.stop_within) {
                    on.check("stopping distance", |at| of(case, at, distance));
                }
            }
            if case.kind.on_a_slope() {
                on.check("stay", |at| of(case, at, stay));
            }
            if case.kind.drives() && !case.kind.recorded() && machine.is_given(&case.duration) {
                on.check("time", |at| of(case, at, last));
            }
        }
    }
}

/// Each case has findings of its own.
fn of(case: &Named<Case>, at: &At, judge: fn(&At) -> Found<Outcome>) -> Found<Outcome> {
    if at.case()?.id() == case.id() { judge(at) } else { Ok(Outcome::Aside("another case")) }
}

/// What can be done is told as well, but for ways to mend it.
fn told(at: &At, margin: Margin, say: impl FnOnce(&mut Telling<'_>)) -> Outcome {
    let sound = margin.held.verdict(margin.required.value) == Verdict::Sound;
    Outcome::Held(margin.tell(at, |w| {
        say(w);
        if sound {
            w.labels.clear();
            w.clears.clear();
        }
    }))
}

const PULL: Required = Required { value: 1.1, why: "a softer spot, a warm motor, a battery half empty" };
const BRAKE: Required = Required { value: 1.2, why: "ice under the snow, a wet brake" };

/// Somebody may be below, unless the spec says that nobody is.
fn runaway(at: &At) -> Consequence {
    let about = &at.machine().machine;
    if about.rides != Some(false) || about.people_near != Some(false) {
        Consequence::Harm
    } else {
        Consequence::Stranded
    }
}

fn pull(at: &At) -> Found<Outcome> {
    let up = drive::uphill(at)?;
    if up.needs <= Force::ZERO {
        return Ok(Outcome::Aside("the slope moves it"));
    }
    // The speed is the case's: what it lacks is a gap.
    at.need(&at.case()?.speed)?;
    let there = if up.grip < up.pulls { up.grip } else { up.pulls };
    let margin = Margin::ratio::<m::Force>(up.needs, there, PULL, Consequence::Stranded);
    let fails = margin.held.fails();
    Ok(told(at, margin, |w| says::pull(at, &up, fails, w)))
}

fn start(at: &At) -> Found<Outcome> {
    if at.case()?.track_held == Some(true) {
        return Ok(Outcome::Aside("the track is held fast"));
    }
    let up = drive::uphill(at)?;
    if up.needs <= Force::ZERO {
        return Ok(Outcome::Aside("the slope moves it"));
    }
    let there = if up.grip < up.pulls { up.grip } else { up.pulls };
    let margin = Margin::ratio::<m::Force>(up.needs, there, PULL, Consequence::Stranded);
    let fails = margin.held.fails();
    Ok(told(at, margin, |w| says::start(at, &up, fails, w)))
}

fn speed(at: &At) -> Found<Outcome> {
    let (fastest, first) = drive::fastest_on_the_level(at)?;
    let asked = at.try_get(&at.case()?.speed);
    let Some(asked) = asked.filter(|asked| *asked > Velocity::ZERO) else {
        let words = says::as_fast_as_it_goes(at, fastest, first);
        return Ok(if fastest > Velocity::ZERO {
            Outcome::Clear(words)
        } else {
            Outcome::Breach { consequence: Consequence::Stranded, words }
        });
    };
    let required = Required { value: 1.0, why: "as fast as is asked" };
    let margin = Margin::ratio::<m::Speed>(asked, fastest, required, Consequence::RunOver);
    let fails = margin.held.fails();
    Ok(told(at, margin, |w| says::speed(at, asked, (fastest, first), fails, w)))
}

fn stop(at: &At) -> Found<Outcome> {
    let stop = drive::stop(at)?;
    let margin = Margin::ratio::<m::Force>(stop.slope, stop.brake + stop.rolling, BRAKE, runaway(at));
    Ok(told(at, margin, |w| says::stop(at, &stop, w)))
}

fn distance(at: &At) -> Found<Outcome> {
    let stop = drive::stop(at)?;
    let within = at.need(&at.case()?.stop_within)?;
    let Some(distance) = stop.distance else {
        let words = Words::told(at, |w| says::stop(at, &stop, w));
        return Ok(Outcome::Breach { consequence: runaway(at), words });
    };
    let required = Required { value: 1.0, why: "as short as is asked" };
    let margin = Margin::ratio::<m::Length>(distance, within, required, runaway(at));
    Ok(told(at, margin, |w| says::distance(at, &stop, w)))
}

fn stay(at: &At) -> Found<Outcome> {
    let hold = drive::standstill(at)?;
    if hold.slope <= Force::ZERO {
        return Ok(Outcome::Aside("it stands on the level"));
    }
    let margin = Margin::ratio::<m::Force>(hold.slope, hold.holds, BRAKE, runaway(at));
    let fails = margin.held.fails();
    Ok(told(at, margin, |w| says::stay(at, &hold, fails, w)))
}

fn last(at: &At) -> Found<Outcome> {
    let drive = at.drive()?;
    if drive.battery_current <= ElectricCurrent::ZERO {
        return Ok(Outcome::Aside("nothing is taken from the battery"));
    }
    let lasts = at.need(&at.case()?.duration)?;
    let charge = at.battery()?.charge.clone()?;
    let taken = drive.battery_current * lasts;
    let required = Required { value: 1.0, why: "this case alone, with a full battery" };
    let margin = Margin::ratio::<m::Charge>(taken, charge, required, Consequence::Stranded);
    let fails = margin.held.fails();
    Ok(told(at, margin, |w| says::last(at, (lasts, charge / drive.battery_current), fails, w)))
}
