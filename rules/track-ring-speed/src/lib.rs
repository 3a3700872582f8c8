#![no_std]
//! Whether the track holds together at its speed. It never knows: one lug that takes the whole pull, teeth that jump, other
//! rules.

mod allowed;
mod evidence;
mod flexing;
mod places;
mod says;
mod terms;
#[cfg(test)]
mod tests;

use places::Place;
use rule::prelude::*;

static CARD: Card = Card {
    name: "track-ring-speed",
    area: Area::Powertrain,
    question: "Up to which speed does the track hold together, in the cold and after many turns?",
    explains: "What pulls a track apart is its tension: as set at assembly, what the cold adds when the track shrinks more than its \
               frame, the pull of the drive, something solid run over, and its own mass thrown outward, which grows with the square \
               of the speed. Holes, sharp corners and joints between printed layers give way first; a small wheel bends a band more \
               than all of that. A track that comes apart at speed throws pieces.",
    formula: "T = preload + shrinkage + (pull + m′·v²)·(2 − cos(π/teeth)) + share left × run over; bands and belts without the \
              cosine. Ears: T/(2·ears·width·wall) × notch × sharing, the notch that of an eye pulled by its pin as felt over the \
              grain of a print, 1 + (Kt − 1)/(1 + √(grain/r)); T/(ears·width·height) × notch at their foot; tear-out \
              T/(2·ears·width·wall) × sharing; pin M = F·(b + 2·gap)/4, of fibres against the lower of their tensile and \
              compressive strength; hinge and band: T/area × notch + E·t/2·|1/R − 1/R₀|, a hinge's R = wheel × free \
              length/pitch; cords: T; lug thrown off: m·(v/R)²·r/(width·thickness) × notch. Allowed: strength along or \
              across the layers × temperature × moisture × share left after many turns; so rare/strength + repeated/(share × strength) ≤ 1. Flexing: E·t/(2·R) against the same. \
              Limit: v·√((1 − still)/moving)",
    source: "Net section, tear-out, pin: Shigley, ch. 8, textbook; eye round a pin: Pilkey, after Frocht and Hill, as in Peterson, \
             and fillets: Roark, table 17.1, after Peterson, from memory; what is felt of a notch: Neuber, as in Shigley, ch. 6, \
             published, from memory, its grain: common practice, no source; pin in a row of ears: Bruhn, ch. D1, from memory; \
             band: bending of a beam, textbook; sum of rare and repeated: Goodman, Shigley, ch. 6, published; a sprocket as a \
             polygon: Shigley, ch. 17, textbook. What is rare (run over) and what is repeated (all else: it comes back with each turn \
             or each drive), share left after many turns, \
             sharing between ears, notch of an unknown corner, shear between layers in the same ratio to tension as along them, \
             a wide window taken as the step of a bar: common practice, no source.",
    checked: "m′·v² over the area is the hoop stress ρ·v² of a thin ring, under 1 MPa at 100 km/h: that alone bursts nothing. Ear, \
              tear-out and pin by hand on one joint; the pin against the shear of an endless row; the limit speed by putting it back \
              in; flexing by the two ends of a band's swing. A printed link bonded badly ends between 60 and 140 km/h, a tough \
              one bonded well runs at 94 km/h (common practice, no source). The eye's factor is that of one with a long end; a \
              short round end raises it by up to a third, a pin with play by as much again (from memory): both are left out, on \
              the unsafe side.",
    required: "3 untested, 2 with a coupon torn at 0 °C or colder or for a metal pin, 4 where people may stand near (common practice)",
    caution: "A track that bursts throws pieces far, in the plane in which it turns. Put a guard over it, stand clear of that plane, \
              and let nobody ride or stand near on a first fast run, which starts slow. A speed worked out here is an estimate, not \
              a release; where others may come near, local rules and someone licensed decide.",
};

#[derive(Debug)]
pub struct TrackRingSpeed;

impl Rule for TrackRingSpeed {
    fn card(&self) -> &'static Card {
        &CARD
    }

    fn judge(&self, machine: &Machine, checks: &mut Checks<'_>) {
        let track = &machine.powertrain.track;
        let mut on = checks.about("track", track.pitch.id());
        match track.form.there() {
            Some(TrackForm::PinnedLinks(links)) => {
                on.check("ear tension", |at| moving(at, || places::ear_wall(at, links)));
                on.check("ear tear-out", |at| moving(at, || places::crown(at, links)));
                on.check("pin bending", |at| moving(at, || places::pin(at, links)));
            }
            Some(TrackForm::LivingHinge(hinge)) => {
                on.check("hinge bending and pull", |at| moving(at, || places::hinge(at, hinge)));
                on.check("hinge flexing", |at| flexing::judge(at, || places::bent_hinge(at, hinge)));
            }
            Some(TrackForm::SolidBand(band)) => {
                on.check("band tension and bending", |at| moving(at, || places::band(at, band)));
                on.check("band flexing", |at| flexing::judge(at, || places::bent_band(at, band)));
            }
            Some(TrackForm::CordedBelt(belt)) => on.check("cord pull", |at| moving(at, || places::cords(at, belt))),
            // A machine on wheels has no track to ask about.
            None if machine.is_given(&track.pitch)
                || machine.is_given(&track.links)
                || machine.is_given(&track.mass) =>
            {
                on.check("pull of the track", |at| {
                    at.part(&track.form).map(|_| Outcome::Aside("its form is judged by checks of its own"))
                });
            }
            None => {}
        }
        if let Some(lug) = track.lug.there() {
            on.check("lug thrown off", |at| moving(at, || places::lug(at, lug)));
        }
    }
}

/// Judges one place of the track where the track moves at all.
fn moving<'a>(at: &At<'a>, place: impl FnOnce() -> Found<Place<'a>>) -> Found<Outcome> {
    if at.track()?.speed <= Velocity::ZERO {
        return Ok(Outcome::Aside("the track stands still in this case"));
    }
    let place = place()?;
    let allowed = allowed::allowed(at, &place)?;
    let terms = terms::of(at, &place, allowed.share_left)?;
    let allowed = evidence::bounded(at, &place, &terms, allowed)?;
    let (required, consequence) = (required(at, allowed.tested), consequence(at, &place));
    let (demand, capacity) = (terms.total(), allowed.si);
    let margin = if place.is_force() {
        let of = Force::from_si;
        Margin::ratio::<m::Force>(of(demand), of(capacity), required, consequence)
    } else {
        let of = Pressure::from_si;
        Margin::ratio::<m::Stress>(of(demand), of(capacity), required, consequence)
    };
    let (held, wanted) = (margin.held, margin.required.value);
    Ok(Outcome::Held(margin.tell(at, |w| says::place(at, &place, &terms, &allowed, held.reserve(), wanted, w))))
}

fn required(at: &At, tested: Option<&'static str>) -> Required {
    match (at.machine().machine.people_near, tested) {
        (Some(true), _) => Required { value: 4.0, why: "people may stand where pieces fly" },
        (_, Some(why)) => Required { value: 2.0, why },
        (_, None) => Required { value: 3.0, why: "its strength in the cold is not tested" },
    }
}

fn consequence(at: &At, place: &Place<'_>) -> Consequence {
    let about = &at.machine().machine;
    if about.people_near == Some(true) || about.rides == Some(true) {
        Consequence::Harm
    } else if place.consumable {
        Consequence::CheapPart
    } else {
        Consequence::Stranded
    }
}

fn refused(out: physics::range::OutsideRange) -> NotJudged {
    let physics::range::OutsideRange { of, unit, from, to, was } = out;
    NotJudged::OutsideRange { of: of.into(), unit, from, to, was }
}
