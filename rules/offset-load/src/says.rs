//! The words of each check.

use rule::prelude::*;

pub(crate) fn binds(part: &Named<Part>, guide: &Guide, at: &At<'_>, friction: Ratio, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        let name = part.name();
        w.happens =
            format!("{name} binds in its guide like a drawer pulled at one corner: it neither tightens nor lets go");
        w.numbers.push(format!("Friction in the guide {}.", shown::<m::Ratio>(friction)));
        w.label(part.value.axis_offset.id(), "the load pulls so far beside the guide");
        w.label(guide.length.id(), "a short guide");
        if let Some(length) = at.try_get(&guide.length) {
            w.at_least(&guide.length, length * times, |length| format!("a guide {length} long"));
        }
        if let Some(offset) = at.try_get(&part.value.axis_offset).filter(|offset| *offset > Length::ZERO) {
            w.at_most(&part.value.axis_offset, offset / times, |offset| format!("an offset of {offset}"));
        }
        w.clears.push("a bush of POM or bronze in the guide: less friction".into());
    })
}

pub(crate) fn presses(part: &Named<Part>, rests: &BearsOn, at: &At<'_>, force: Force, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        let name = part.name();
        w.happens = format!("{name} is pressed into what it rests on: it wears crooked and sticks");
        w.numbers.push(format!("It is pulled by {}.", shown::<m::Force>(force)));
        w.label(part.value.axis_offset.id(), "the load pulls so far beside its axis");
        w.label(rests.area.id(), "little area takes the moment");
        if let Some(area) = at.try_get(&rests.area) {
            w.at_least(&rests.area, area * times, |area| format!("a face of {area}"));
        }
        w.clears.push("a longer guide: the longer, the less each end takes".into());
        w.clears.push("a strip of POM or steel on the face".into());
    })
}

pub(crate) fn screw(part: &Named<Part>, at: &At<'_>, force: Force, margin: Margin) -> Margin {
    margin.tell(at, |w| {
        let name = part.name();
        w.happens = format!("the screw of {name} bends, for nothing else takes the moment");
        w.numbers.push(format!("It is pulled by {}.", shown::<m::Force>(force)));
        w.label(part.value.axis_offset.id(), "the load pulls so far beside the screw");
        w.clears.push("a wing that rests on the frame and takes the moment (`bears_on`), or a guide".into());
        w.clears.push("the load line brought onto the screw".into());
    })
}
