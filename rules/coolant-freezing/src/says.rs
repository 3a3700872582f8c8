//! The words of each check.

use crate::mixed;
use physics::coolant::volume_fraction_from_mass_fraction;
use physics::freezing::fraction_clear_at;
use rule::prelude::*;

pub(crate) fn slush(at: &At, margin: Margin, air: ThermodynamicTemperature) -> Margin {
    let wanted = margin.required.value;
    margin.tell(at, |w| {
        w.happens =
            "the coolant turns to slush: it blocks strainer and channels, nothing flows, and motor and controller \
                     get hot while everything else is still frozen"
                .into();
        if let Ok(Some((warmer, colder))) = liquid::slush_by_two_sets(at)
            && difference(warmer, colder).si() >= 0.5
        {
            let (warmer, colder) = (shown::<m::Temperature>(warmer), shown::<m::Temperature>(colder));
            w.numbers.push(format!(
                "Two published sets of freezing points give {warmer} and {colder} for this mixture; the warmer counts."
            ));
        }
        blame(at, w);
        stronger(at, air.si() - wanted, w);
    })
}

pub(crate) fn bursting(at: &At, margin: Margin, air: ThermodynamicTemperature) -> Margin {
    let wanted = margin.required.value;
    margin.tell(at, |w| {
        w.happens =
            "the coolant freezes hard and bursts what holds it: a split plate or jacket shows only when it thaws, \
                     and then the coolant is gone"
                .into();
        blame(at, w);
        stronger(at, air.si() - wanted, w);
        w.clears.push("drain the loop before the machine stands out in this cold".into());
    })
}

pub(crate) fn starting(at: &At, margin: Margin, thick: DynamicViscosity, air: ThermodynamicTemperature) -> Margin {
    margin.tell(at, |w| {
        w.happens =
            "the pump hardly moves the cold coolant: motor and controller get hot while the return line stays still"
                .into();
        let (thick, air) = (shown::<m::DynamicViscosity>(thick), shown::<m::Temperature>(air));
        w.numbers.push(format!("At {air} the coolant has {thick}; a tenth of the free flow is taken as moving."));
        w.label(at.machine().cooling.pump.stall_pressure.id(), "all that the pump can push with");
        thinner(at, w);
        w.clears.push(
            "leave the machine out on the coldest night you can get, and note the coldest start that you saw \
                       (started_at)"
                .into(),
        );
    })
}

pub(crate) fn seen(at: &At, margin: Margin, seen: ThermodynamicTemperature) -> Margin {
    margin.tell(at, |w| {
        w.happens =
            "the coolant is thicker than it was when the pump was last seen to move it: it may stay still, and \
                     motor and controller get hot"
                .into();
        w.numbers.push(format!("It was seen to start at {}.", shown::<m::Temperature>(seen)));
        w.label(at.machine().cooling.pump.started_at.id(), "the coldest start that was seen");
        thinner(at, w);
        w.clears.push("watch a start on a colder night".into());
    })
}

fn thinner(at: &At, w: &mut Telling<'_>) {
    let cooling = &at.machine().cooling;
    w.label(cooling.coolant.fluid.id(), "thick in the cold");
    for hose in &cooling.hoses {
        w.label(hose.value.bore.id(), "a narrow bore lets little syrup through");
    }
    w.clears.push("a coolant that is thinner in the cold: less glycol, as far as its freezing point allows".into());
    w.clears.push("wider, shorter hoses and channels: flow of a syrup rises with the fourth power of the bore".into());
    w.clears.push("a pump of the same kind with a higher stall pressure, and a relief valve behind it".into());
}

fn blame(at: &At, w: &mut Telling<'_>) {
    let filling = &at.machine().cooling.coolant;
    w.label(filling.fluid.id(), "what freezes");
    if at.is_given(&filling.clear_to) {
        w.label(filling.clear_to.id(), "as seen in a jar");
    } else if at.is_given(&filling.glycol) {
        w.label(filling.glycol.id(), "its share decides");
    }
    if filling.mixed_by_eye.there() == Some(&true) {
        w.label(filling.mixed_by_eye.id(), "asks for more reserve");
    }
}

/// Enough glycol for a coldest temperature, if any mixture is.
fn stronger(at: &At, coldest: f64, w: &mut Telling<'_>) {
    let filling = &at.machine().cooling.coolant;
    let Ok(Some(glycol)) = mixed(at) else {
        w.clears.push("a mixture of glycol and water that stays liquid in this cold".into());
        return;
    };
    let by_mass = filling.share_by.there() == Some(&ShareBy::Mass);
    if let Ok(share) = fraction_clear_at(glycol, ThermodynamicTemperature::from_si(coldest)) {
        let (share, by) =
            if by_mass { (share, "mass") } else { (volume_fraction_from_mass_fraction(glycol, share), "volume") };
        let says = |share: &str| format!("at least {share} of glycol by {by}");
        // What was seen in a jar counts before the share.
        if at.is_given(&filling.clear_to) {
            w.clears.push(says(&at.show(&filling.glycol, share)));
        } else {
            w.at_least(&filling.glycol, share, says);
        }
    } else {
        w.clears.push("another coolant: no share of this glycol stays clear in such cold".into());
    }
    if !at.is_given(&filling.clear_to) && at.stated(&filling.glycol) != Some(quantity::Stated::Measured) {
        w.clears.push(
            "measure the mixture with a refractometer, or in a jar in the freezer: less reserve is enough then".into(),
        );
    }
}
