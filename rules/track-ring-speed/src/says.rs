//! The words of a place that may give way.

use crate::allowed::Allowed;
use crate::places::{Place, Spot};
use crate::terms::{Cause, Terms};
use rule::prelude::*;

pub(crate) fn place(
    at: &At,
    place: &Place<'_>,
    terms: &Terms,
    allowed: &Allowed,
    reserve: f64,
    wanted: f64,
    w: &mut Words,
) {
    w.happens = happens(place.spot).into();
    w.course = Some(course(terms, allowed.si));
    speeds(at, place, terms, allowed, wanted, w);
    w.numbers.extend(allowed.notes.iter().cloned());
    labels(at, place, terms, w);
    clears(at, place, terms, allowed, wanted / reserve, w);
}

/// From a standstill to half more than the speed at which it ends, and as far as such tracks ever run: 30 m/s, common practice.
pub(crate) fn course(terms: &Terms, allowed: f64) -> Course {
    let fast = Velocity::from_si(30.0);
    let ends = terms.speed_at(allowed, 1.0).filter(|speed| speed.si().is_finite()).map(|ends| ends * 1.5);
    let most = [ends.unwrap_or(fast), terms.speed * 1.5].into_iter().fold(fast, |a, b| if b > a { b } else { a });
    let points = (0..=60).map(|step| most * f64::from(step) / 60.0);
    let points = points.map(|speed| (speed.si(), allowed / terms.total_at(speed)));
    Course::along::<m::Speed>("speed of the track", terms.speed, points.collect())
}

fn happens(spot: Spot) -> &'static str {
    match spot {
        Spot::EarWall => {
            "the ears of a link tear off: the track comes apart at speed, throws pieces and leaves the machine where it is"
        }
        Spot::Crown => "the pin tears out of the ends of the ears: the track opens at speed and whips round",
        Spot::Pin => "the pin bends and works its way out or breaks: the track opens at speed and whips round",
        Spot::Hinge => "a hinge cracks and tears through: the track comes apart at speed and whips round",
        Spot::Band => {
            "the band cracks from a corner of its windows and tears through: it comes apart at speed and whips round"
        }
        Spot::Cords => "the cords of the belt break: it comes apart at speed and whips round",
        Spot::LugRoot => "a lug tears off at its root on the smallest wheel and flies away in the plane of the track",
    }
}

fn speeds(at: &At, place: &Place<'_>, terms: &Terms, allowed: &Allowed, wanted: f64, w: &mut Words) {
    if let Ok(track) = at.track() {
        w.numbers.push(format!("The track runs at {} (from {}).", shown::<m::Speed>(track.speed), track.speed_from));
    }
    let limit = terms.speed_at(allowed.si, 1.0);
    let Some(ends) = limit else {
        w.numbers.push("At a crawl already its load is more than it stands: no speed is slow enough.".into());
        return mostly(place, terms, terms.speed, w);
    };
    w.numbers.push(format!("It ends at {} (reserve 1).", shown::<m::Speed>(ends)));
    w.numbers.push(match terms.speed_at(allowed.si, 1.0 / wanted) {
        Some(safe) => format!("The reserve of {wanted} that is wanted is left up to {}.", shown::<m::Speed>(safe)),
        None => format!("The reserve of {wanted} that is wanted is not left at any speed, not even at a crawl."),
    });
    mostly(place, terms, ends, w);
}

/// Which causes make up the load at that speed.
fn mostly(place: &Place<'_>, terms: &Terms, speed: Velocity, w: &mut Words) {
    let shares = terms.shares_at(if speed.si().is_finite() { speed } else { terms.speed });
    let mut named = shares
        .iter()
        .filter(|part| part.1 >= 0.05)
        .map(|(cause, share)| format!("{:.0} % {}", share * 100.0, word(*cause, place.spot)));
    if let Some(first) = named.next() {
        let rest = named.fold(String::new(), |all, next| format!("{all}, {next}"));
        w.numbers.push(format!("What ends it, by share of its load: {first}{rest}."));
    }
}

fn word(cause: Cause, spot: Spot) -> &'static str {
    match cause {
        Cause::Preload => "by the tension set at assembly",
        Cause::Contraction => "by the track shrinking more than its frame",
        Cause::Pull => "by the pull of the drive",
        Cause::Centrifugal if spot == Spot::LugRoot => "by the lug's own mass thrown outward",
        Cause::Centrifugal => "by the track's own mass thrown outward (m′·v²)",
        Cause::RunOver => "by something solid run over, which is rare and counts with what is left after many turns",
        Cause::Bending => "by bending round the smallest wheel",
    }
}

fn labels(at: &At, place: &Place<'_>, terms: &Terms, w: &mut Words) {
    let track = &at.machine().powertrain.track;
    match (place.spot, track.form.there()) {
        (Spot::LugRoot, _) => {
            if let Some(lug) = track.lug.there() {
                w.label(lug.mass.id(), "thrown outward");
                w.label(lug.root_thickness.id(), "what holds it");
                if !at.is_given(&lug.fillet) {
                    unknown_corner(at, w);
                }
            }
        }
        (Spot::Pin, Some(TrackForm::PinnedLinks(links))) => w.label(links.pin_diameter.id(), "what bends"),
        (spot, Some(TrackForm::PinnedLinks(links))) => {
            w.label(links.wall_round_pin.id(), "all that holds the pin");
            if spot == Spot::EarWall && !at.is_given(&links.fillet) {
                unknown_corner(at, w);
            }
        }
        (_, Some(TrackForm::LivingHinge(hinge))) => {
            w.label(hinge.thickness.id(), "thick is strong in pull and stiff in bending");
            unknown_corner(at, w);
        }
        (_, Some(TrackForm::SolidBand(band))) => {
            w.label(band.thickness.id(), "thick is strong in pull and stiff in bending");
            if !at.is_given(&band.fillet) {
                unknown_corner(at, w);
            }
        }
        (_, Some(TrackForm::CordedBelt(belt))) => w.label(belt.cord_strength.id(), "all that carries the pull"),
        (_, None) => {}
    }
    if place.spot != Spot::Pin && !place.is_force() {
        w.label(track.material.id(), "its strength");
        if let Some(build) = track.build.there() {
            w.label(build.laid.id(), "which way its layers run");
        }
    }
    match terms.shares_at(terms.speed).first() {
        Some((Cause::Bending, _)) => w.label(track.smallest_wheel.radius.id(), "a small wheel bends it sharply"),
        Some((Cause::Preload, _)) => w.label(track.slack_tension.id(), "most of its load"),
        _ => {}
    }
}

fn unknown_corner(at: &At, w: &mut Words) {
    if let Some(notch) = at.try_get(&at.assumed().track_notch) {
        let notch = shown::<m::Factor>(notch);
        w.numbers.push(format!(
            "The rounding of its corner is not known: a peak of {notch} times the mean stress is assumed."
        ));
    }
}

fn clears(at: &At, place: &Place<'_>, terms: &Terms, allowed: &Allowed, short: f64, w: &mut Words) {
    let track = &at.machine().powertrain.track;
    if short > 1.0 && short.is_finite() {
        // Ten times the section is no advice, but it tells how far off it is.
        let short = format!("{short:.1}");
        w.clears.push(match place.spot {
            Spot::EarWall | Spot::Crown => {
                format!(
                    "more ears, wider ears or a thicker wall round the pin: together about {short} times the section"
                )
            }
            Spot::Pin => {
                "a thicker pin, or more and narrower ears: a tenth more diameter is a third more strength".into()
            }
            Spot::Hinge => "a longer hinge between the links, which bends less sharply".into(),
            Spot::Band => {
                format!("a wider net section, or a wheel up to {short} times as large where bending is most of it")
            }
            Spot::Cords => format!("cords about {short} times as strong"),
            Spot::LugRoot => format!("a root about {short} times as thick, or a lighter lug"),
        });
    }
    if matches!(place.spot, Spot::EarWall | Spot::Crown | Spot::Hinge | Spot::Band | Spot::LugRoot) {
        if track.build.there().is_none_or(|build| build.laid.there() != Some(&Laid::OnEdge)) {
            w.clears.push("print it on its edge, so that layers run round ears, band and lugs".into());
        }
        if allowed.tested.is_none() {
            w.clears.push("tear five coupons printed like the track, out of the freezer: where nobody can stand near, 2 is enough then".into());
        }
    }
    match terms.shares_at(terms.speed).first() {
        Some((Cause::Contraction, _)) => {
            w.clears.push("a spring in the tensioner, which gives when the track shrinks".into())
        }
        Some((Cause::Centrifugal, _)) => {
            w.clears.push("a lower top speed by gearing or controller, or a lighter track".into())
        }
        Some((Cause::Bending, _)) => w.clears.push("a larger smallest wheel".into()),
        _ => {}
    }
    w.clears.push("until then: a guard over the track, and nobody in its plane".into());
}
