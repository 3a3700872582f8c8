//! What has to fit, whatever the loads are: ears beside one another on a track, a bush on its axle, coils in a spring.
//! Inequalities between sizes of the drawing; the few that are no plain geometry say where they come from.

#[cfg(test)]
mod tests;

use machine::{
    Bearing, Corner, Damper, Element, GearStage, Machine, Named, NodeId, Plate, Reader, Section, Stage, ThingRef,
    TrackForm, WhatIf,
};
use quantity::{Measure, Quantity};

type Given<M> = machine::Given<M>;

/// Two sizes that cannot both be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Misfit {
    /// A node of the thing.
    pub of: NodeId,
    pub says: &'static str,
}

/// Everything that does not fit, with some numbers replaced. What is not given is not compared.
#[must_use]
pub fn misfits(machine: &Machine, what_if: &WhatIf) -> Vec<Misfit> {
    let mut fits = Fits { reader: Reader::new(machine.row(), what_if).quiet(true), found: Vec::new() };
    fits.track(machine);
    for bearing in &machine.powertrain.bearings {
        fits.bush(machine, bearing);
    }
    for stage in &machine.powertrain.stages {
        if let Stage::Spur(stage) | Stage::Helical(stage) = stage {
            fits.gears(stage);
        }
    }
    for corner in &machine.suspension {
        fits.corner(corner);
    }
    for element in &machine.cooling.circuit {
        if let Element::Plate(plate) | Element::Jacket(plate) | Element::Exchanger(plate) = element {
            fits.plate(machine, plate);
        }
    }
    for part in &machine.structure.parts {
        if let Some(Section::Tube(tube)) = part.section.there() {
            let (wall, outside) = (fits.si(&tube.wall), fits.si(&tube.outer_diameter));
            fits.within(part.id(), "the wall of a tube is no more than half of it", wall, half(outside));
        }
    }
    fits.found
}

/// Numbers of one thing that stand in two places, and that change together: the wheel that a track turns round and its
/// bush, a bush and the axle on which it runs. Only where they are the same as written.
#[must_use]
pub fn twins(machine: &Machine) -> Vec<[NodeId; 2]> {
    let as_written = WhatIf::default();
    let fits = Fits { reader: Reader::new(machine.row(), &as_written).quiet(true), found: Vec::new() };
    let mut twins = Vec::new();
    let mut pair = |a: (Option<f64>, NodeId), b: (Option<f64>, NodeId)| {
        if a.0.is_some() && a.0 == b.0 && a.1 != b.1 {
            twins.push([a.1, b.1]);
        }
    };
    let smallest = &machine.powertrain.track.smallest_wheel;
    for bearing in &machine.powertrain.bearings {
        let Bearing::Plain(plain) = &bearing.value else { continue };
        let here = smallest.place.as_ref().is_some_and(|place| machine.thing(place).id() == bearing.id());
        if let (true, Some(wheel)) = (here, plain.wheel.there()) {
            let [a, b] = [&wheel.radius, &smallest.radius];
            pair((fits.si(a), a.id()), (fits.si(b), b.id()));
        }
        if let Some(across) = plain.runs_on.there().and_then(|on| round(machine.thing(on))) {
            pair((fits.si(&plain.bore), plain.bore.id()), (fits.si(across), across.id()));
        }
    }
    twins
}

/// The diameter of something round.
fn round(thing: ThingRef<'_>) -> Option<&Given<quantity::m::Length>> {
    match thing {
        ThingRef::Shaft(shaft) => Some(&shaft.diameter),
        ThingRef::Part(part) => match part.section.there()? {
            Section::Round(round) => Some(&round.diameter),
            Section::Tube(tube) => Some(&tube.outer_diameter),
            Section::Rectangle(_) | Section::Box(_) | Section::Channel(_) => None,
        },
        ThingRef::Bearing(_) => None,
    }
}

fn half(size: Option<f64>) -> Option<f64> {
    size.map(|size| size / 2.0)
}

struct Fits<'a> {
    reader: Reader<'a>,
    found: Vec<Misfit>,
}

impl Fits<'_> {
    fn si<M: Measure>(&self, given: &Given<M>) -> Option<f64> {
        self.reader.try_get(given).map(Quantity::si)
    }

    /// Notes it where the inner size is larger than the outer one, by more than a rounding.
    fn within(&mut self, of: NodeId, says: &'static str, inner: Option<f64>, outer: Option<f64>) {
        if let (Some(inner), Some(outer)) = (inner, outer)
            && inner > outer * (1.0 + 1e-9)
        {
            self.found.push(Misfit { of, says });
        }
    }

    fn track(&mut self, machine: &Machine) {
        let track = &machine.powertrain.track;
        let (of, width) = (track.form.id(), self.si(&track.width));
        match track.form.there() {
            Some(TrackForm::PinnedLinks(links)) => {
                // Ears of both links, one beside the other.
                let gap = self.si(&links.ear_gap).unwrap_or(0.0);
                let (ears, ear) = (self.si(&links.ears), self.si(&links.ear_width));
                let row = ears.zip(ear).map(|(ears, ear)| (2.0 * ears - 1.0) * ear + (2.0 * ears - 2.0) * gap);
                self.within(of, "the ears of both links stand side by side on the track's width", row, width);
                let (pin, wall) = (self.si(&links.pin_diameter), self.si(&links.wall_round_pin));
                let eye = pin.zip(wall).map(|(pin, wall)| pin + 2.0 * wall);
                let pitch = self.si(&track.pitch);
                self.within(of, "an eye round its pin is no more than half a link long", eye, half(pitch));
            }
            Some(TrackForm::SolidBand(band)) => {
                let net = self.si(&band.net_width);
                self.within(of, "what carries the pull is no wider than the track", net, width);
            }
            Some(TrackForm::LivingHinge(hinge)) => {
                let hinge = self.si(&hinge.width);
                self.within(of, "the hinge is no wider than the track", hinge, width);
            }
            Some(TrackForm::CordedBelt(_)) | None => {}
        }
        if let Some(lug) = track.lug.there() {
            let lug = self.si(&lug.width);
            self.within(track.lug.id(), "a lug is no wider than the track", lug, width);
        }
    }

    fn bush(&mut self, machine: &Machine, bearing: &Named<Bearing>) {
        let (of, Bearing::Plain(plain)) = (bearing.id(), &bearing.value) else { return };
        let (bore, length) = (self.si(&plain.bore), self.si(&plain.length));
        // Longer ones only bear at their edges (common practice, no source).
        let longest = bore.map(|bore| 2.0 * bore);
        self.within(of, "a plain bush is no longer than twice its bore", length, longest);
        let axle = plain.runs_on.there().and_then(|on| round(machine.thing(on)));
        let axle = axle.and_then(|across| self.si(across));
        self.within(of, "the axle goes into the bush", axle, bore);
        self.within(of, "the bush is not loose on its axle", bore, axle.map(|axle| 1.1 * axle));
        if let Some(wheel) = plain.wheel.there() {
            let radius = self.si(&wheel.radius);
            self.within(of, "the bush is smaller than its wheel", half(bore), radius.map(|radius| 0.8 * radius));
        }
    }

    fn gears(&mut self, stage: &GearStage) {
        let of = stage.module.id();
        let teeth = self.si(&stage.pinion.teeth).zip(self.si(&stage.wheel.teeth));
        let helix = self.si(&stage.helix).unwrap_or(0.0);
        let nominal = teeth.zip(self.si(&stage.module)).map(|((pinion, wheel), module)| {
            // Half the sum of both pitch diameters; profile shift and backlash move it by less than half a module.
            ((pinion + wheel) * module / 2.0 / helix.cos(), module)
        });
        let apart = self.si(&stage.centre_distance);
        let off = nominal.zip(apart).map(|((nominal, module), apart)| ((nominal - apart).abs(), module / 2.0));
        let says = "two gears mesh at half the sum of their pitch diameters";
        self.within(of, says, off.map(|off| off.0), off.map(|off| off.1));
    }

    fn corner(&mut self, corner: &Named<Corner>) {
        let of = corner.id();
        let (collar, range) = (self.si(&corner.preload.collar), self.si(&corner.preload.of));
        self.within(of, "the collar goes no further than its thread", collar, range);
        let travel = self.si(&corner.damper_travel);
        let Some(spring) = corner.spring.there() else { return };
        let (wire, mean) = (self.si(&spring.wire), self.si(&spring.mean_diameter));
        // Outside 4 to 20 the stress and the making are those of other springs (EN 13906-1, from memory).
        self.within(of, "a spring is wound at least four wires wide", wire.map(|wire| 4.0 * wire), mean);
        self.within(of, "a spring is wound no more than twenty wires wide", mean, wire.map(|wire| 20.0 * wire));
        let solid = wire.zip(self.si(&spring.active_coils)).map(|(wire, coils)| wire * (coils + 1.5));
        let free = self.si(&spring.free_length);
        self.within(of, "the coils pressed together are shorter than the spring", solid, free);
        self.within(of, "the spring is longer than the damper's travel", travel, free);
        let inside = mean.zip(wire).map(|(mean, wire)| mean - wire);
        if let Some(Damper::Oil(damper)) = corner.damper.there() {
            let (bore, rod) = (self.si(&damper.bore), self.si(&damper.rod));
            // A millimetre of wall all round.
            let body = bore.map(|bore| bore + 2e-3);
            self.within(of, "the spring goes over the damper's body", body, inside);
            self.within(of, "the rod leaves room for a piston", rod, half(bore));
            let land = bore.zip(rod).map(|(bore, rod)| 0.4 * (bore - rod));
            let hole = self.si(&damper.hole_diameter);
            self.within(of, "the holes fit between rod and edge of the piston", hole, land);
        }
        if let Some(machine::BumpStop::Elastomer(stop)) = corner.bump_stop.there() {
            let (across, height) = (self.si(&stop.diameter), self.si(&stop.height));
            self.within(of, "the stop fits inside the spring", across, inside);
            self.within(of, "the stop is no more than half of the damper's travel", height, half(travel));
        }
    }

    fn plate(&mut self, machine: &Machine, plate: &Plate) {
        let Some(reference) = plate.part.there() else { return };
        let of = reference.id;
        let Some(size) = machine.follow(reference).size.there() else { return };
        let [length, width, thickness] = [&size.length, &size.width, &size.thickness].map(|size| self.si(size));
        if let Some(channel) = plate.channel.there() {
            // Two millimetres stay as floor, and as rib between two passes.
            let rib = 2e-3;
            let depth = self.si(&channel.depth).map(|depth| depth + rib);
            self.within(of, "the channel leaves a floor under it", depth, thickness);
            let passes = self.si(&channel.turns).map(|turns| turns + 1.0);
            let side_by_side = passes.zip(self.si(&channel.width)).map(|(passes, wide)| passes * (wide + rib));
            self.within(of, "the channels fit side by side on the plate", side_by_side, width);
            let pass = self.si(&channel.length).zip(passes).map(|(whole, passes)| whole / passes);
            self.within(of, "the channels are no longer than the plate", pass, length);
        }
        if let Some(outside) = plate.outside.there() {
            let face = length.zip(width).map(|(length, width)| length * width);
            let outside = self.si(&outside.area);
            self.within(of, "the plate is no larger than itself", outside, face);
        }
    }
}
