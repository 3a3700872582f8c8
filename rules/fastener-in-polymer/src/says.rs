//! The words of each check.

use rule::prelude::*;

pub(crate) fn drawn(joint: &Named<Joint>, at: &At<'_>, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        w.happens = format!("the screws of {} are drawn out of the plastic as they are tightened", joint.name());
        w.label(joint.value.insert_length.id(), "so far in the plastic");
        longer(joint, at, times, w);
        less_torque(joint, at, times, w);
        w.clears.push("a nut or a plate of metal behind the plastic".into());
    })
}

pub(crate) fn turned(joint: &Named<Joint>, at: &At<'_>, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        w.happens = format!(
            "the inserts of {} turn in their holes, and the screws can neither be tightened nor undone",
            joint.name()
        );
        w.label(joint.value.insert_length.id(), "so far in the plastic");
        longer(joint, at, times, w);
        if let Some(torque) = at.try_get(&joint.value.torque) {
            w.label(joint.value.torque.id(), "tightened this hard");
            w.at_most(&joint.value.torque, torque / times, |torque| format!("a tightening torque of {torque}"));
        }
        w.clears.push("a nut or a plate of metal behind the plastic".into());
    })
}

pub(crate) fn head(joint: &Named<Joint>, at: &At<'_>, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        w.happens = format!(
            "the heads of {} sink into the plastic as they are tightened, and the joint rattles loose",
            joint.name()
        );
        w.label(joint.value.screws.id(), "heads on plastic");
        less_torque(joint, at, times, w);
        w.clears.push("wide washers, or sleeves of metal in the holes".into());
    })
}

fn longer(joint: &Named<Joint>, at: &At<'_>, times: f64, w: &mut Telling<'_>) {
    if let Some(length) = at.try_get(&joint.value.insert_length) {
        w.at_least(&joint.value.insert_length, length * times, |length| format!("{length} of thread in the plastic"));
    }
}

fn less_torque(joint: &Named<Joint>, at: &At<'_>, times: f64, w: &mut Telling<'_>) {
    if let Some(torque) = at.try_get(&joint.value.torque)
        && at.try_get(&joint.value.preload).is_none()
    {
        w.label(joint.value.torque.id(), "tightened this hard");
        w.at_most(&joint.value.torque, torque / times, |torque| format!("a tightening torque of {torque}"));
    }
}
