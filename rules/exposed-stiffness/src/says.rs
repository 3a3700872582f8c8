//! The words of the check.

use crate::Taken;
use loads::Member;
use rule::prelude::*;

pub(crate) fn blow(part: &Named<Part>, at: &At<'_>, member: &Member<'_>, taken: &Taken, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let name = part.name();
        w.happens = format!("{name} snaps when the machine comes down on it");
        w.numbers.push(format!(
            "The blow has {}, {name} takes up {} before it breaks.",
            shown::<m::Energy>(taken.energy),
            shown::<m::Energy>(taken.takes_up)
        ));
        if taken.stretches == Ratio::from_si(0.0) {
            w.numbers.push("Held at both ends, it cannot lie down out of the way.".into());
            w.label(part.value.material.id(), "takes up too little");
            w.clears.push("a mount that lets it swing away, or a softer and longer part".into());
            return;
        }
        w.numbers.push(format!(
            "To lie down flat its skin must stretch by {}; at {} it can by {}.",
            shown::<m::Growth>(taken.strain),
            shown::<m::Temperature>(member.here),
            shown::<m::Growth>(taken.stretches)
        ));
        // Strain goes with thickness over length, so half as thick needs half the stretch; a softer material shows by its own.
        w.numbers.push(format!(
            "Half as thick, it would have to stretch by {}: softer can be the better one.",
            shown::<m::Growth>(taken.strain / 2.0)
        ));
        for other in at.machine().materials.iter().filter(|other| other.id() != member.material.id()) {
            if let Some(stretch) = softer(at, &other.value, taken.strain * margin_of(taken)) {
                w.numbers.push(format!("Of {} it could stretch by {}.", other.name(), shown::<m::Growth>(stretch)));
                break;
            }
        }
        w.label(part.value.material.id(), "too stiff for its stretch in this cold");
        match part.value.section.there() {
            Some(Section::Rectangle(bar)) => w.label(bar.height.id(), "thick"),
            Some(Section::Round(bar)) => w.label(bar.diameter.id(), "thick"),
            Some(Section::Tube(tube)) => w.label(tube.outer_diameter.id(), "thick"),
            _ => {}
        }
        if let Some(build) = part.value.build.there()
            && member.grain.way == strength::Direction::Across
        {
            w.label(build.laid.id(), "bent across its layers");
            w.clears.push(format!("{name} laid flat on the bed, so that its layers run along it"));
        }
        w.clears.push("a softer part: thermoplastic polyurethane, or a thin rod of glass fibre".into());
        w.clears.push("a joint or a spring at its foot that lets it lie down".into());
    })
}

fn margin_of(taken: &Taken) -> f64 {
    if taken.by_energy() > taken.by_strain() { 1.0 } else { 1.5 }
}

/// A plastic of the spec that stretches far enough.
fn softer(at: &At<'_>, material: &Material, wanted: Ratio) -> Option<Ratio> {
    let plastic = matches!(material.family, Family::PrintedPolymer | Family::Polymer | Family::Elastomer);
    let stretch = at.try_get(&material.elongation_at_break).filter(|_| plastic)?;
    (stretch > wanted).then_some(stretch)
}
