//! A band or hinge that is bent on each wheel and straight between them, turn after turn.

use crate::allowed::Allowed;
use crate::places::{Bend, Place};
use crate::{allowed, consequence, required};
use physics::track as law;
use rule::prelude::*;

/// The swing of stress against what is left after many turns. It is the same at any speed, so no speed that was tried tells of it.
pub(crate) fn judge<'a>(at: &At<'a>, place: impl FnOnce() -> Found<Place<'a>>) -> Found<Outcome> {
    if at.track().is_ok_and(|track| track.speed <= Velocity::ZERO) {
        return Ok(Outcome::Aside("the track stands still in this case"));
    }
    let place = place()?;
    let (Some(bend), Some(material)) = (place.bend, place.material) else {
        return Ok(Outcome::Aside("it does not bend"));
    };
    let modulus = strength::modulus(at, material, at.surroundings()?.outside)?;
    let range = law::band_bending_range(modulus, bend.thickness, bend.bent_to);
    let allowed = allowed::allowed(at, &place)?;
    let (required, consequence) = (required(at, allowed.tested), consequence(at, &place));
    let margin = Margin::ratio::<m::Stress>(range, Pressure::from_si(allowed.si), required, consequence);
    let short = margin.required.value / margin.held.reserve();
    Ok(Outcome::Held(margin.tell(at, |w| words(at, &bend, &allowed, short, w))))
}

fn words(at: &At, bend: &Bend, allowed: &Allowed, short: f64, w: &mut Words) {
    let track = &at.machine().powertrain.track;
    let hinged = matches!(track.form.there(), Some(TrackForm::LivingHinge(_)));
    let (thickness, radius) = (shown::<m::Length>(bend.thickness), shown::<m::Length>(bend.bent_to));
    w.happens =
        "bent and straightened on each wheel it tires: cracks grow from its surface until the track comes apart and \
                 whips round"
            .into();
    w.numbers.push(format!(
        "Of {thickness} thickness it is bent to a radius of {radius}, and straight between the wheels; the radius that it was \
         made at changes nothing."
    ));
    w.numbers.extend(allowed.notes.iter().cloned());
    match track.form.there() {
        Some(TrackForm::LivingHinge(hinge)) => {
            w.label(hinge.thickness.id(), "a thick hinge bends with more stress");
            w.label(hinge.length.id(), "a short hinge makes the whole angle of a link");
        }
        Some(TrackForm::SolidBand(band)) => w.label(band.thickness.id(), "a thick band bends with more stress"),
        Some(TrackForm::PinnedLinks(_) | TrackForm::CordedBelt(_)) | None => {}
    }
    w.label(track.smallest_wheel.radius.id(), "a small wheel bends it sharply");
    if short > 1.0 && short.is_finite() {
        w.clears.push(if hinged {
            format!("a hinge {short:.1} times as long, or thinner by as much")
        } else {
            format!("a smallest wheel {short:.1} times as large, or a band thinner by as much")
        });
        if allowed.tested.is_none() {
            w.clears.push(
                "tear five coupons printed like the track, out of the freezer: where nobody can stand near, 2 is enough then"
                    .into(),
            );
        }
    }
    w.clears.push("a material that stays soft in the cold".into());
    w.clears.push("until then: look for cracks before each drive, and nobody in its plane".into());
}
