//! The words of the check.

use crate::Pull;
use rule::prelude::*;

pub(crate) fn shifts(joint: &Named<Joint>, at: &At<'_>, pull: &Pull, friction: Ratio, margin: Margin) -> Margin {
    let times = margin.required.value / margin.held.reserve();
    margin.tell(at, |w| {
        let name = joint.name();
        let holds = joint.value.holds.there().map_or("its stage", |holds| holds.as_str());
        w.happens = format!(
            "{name} shifts under the push of the teeth: the gears of {holds} run into each other or out of mesh"
        );
        w.numbers.push(format!(
            "{} screws pull with {} each and keep {} of it; friction {}.",
            pull.screws,
            shown::<m::Force>(pull.each),
            shown::<m::Percentage>(pull.kept),
            shown::<m::Ratio>(friction)
        ));
        w.label(joint.value.holds.id(), "this joint keeps the gears in their place");
        w.label(joint.value.screws.id(), "what clamps it");
        if pull.by_feel {
            w.label(joint.value.torque.id(), "no tightening torque is given");
            w.clears.push("a torque wrench: write down the tightening torque".into());
        } else if let Some(torque) = at.try_get(&joint.value.torque)
            && at.try_get(&joint.value.preload).is_none()
        {
            w.at_least(&joint.value.torque, torque * times, |torque| format!("a tightening torque of {torque}"));
        }
        if pull.kept < Ratio::from_si(0.99) {
            w.label(joint.value.preload_kept.id(), "a plastic body gives way under the heads");
            w.clears.push("metal sleeves in the plastic's holes, or a plate of metal".into());
        }
        w.clears.push("two dowel pins, or a shoulder that takes the push".into());
        w.clears.push("more screws, or thicker ones".into());
    })
}
