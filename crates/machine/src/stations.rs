//! What stands on a shaft and can make no sense: a gear of a stage that does not exist, or one that is told in words alone.

use crate::complaint::{Complaint, clip};
use crate::machine::Machine;
use crate::named::Maybe;
use crate::sections::Station;
use document::{Document, NodeId, nearest};

/// One complaint for each station that names no gear there is, or names one in words that join it to nothing.
pub(crate) fn senseless(document: &Document, machine: &Machine) -> Vec<Complaint> {
    let stations = machine.powertrain.shafts.iter().flat_map(|shaft| &shaft.value.stations);
    stations.flat_map(|station| of_station(document, machine, station)).collect()
}

fn of_station(document: &Document, machine: &Machine, station: &Station) -> Vec<Complaint> {
    let stages = &machine.powertrain.stages;
    let geared = || stages.iter().filter(|stage| stage.gears().is_some()).map(|stage| stage.name());
    let mut all = Vec::new();
    let complain = |at: NodeId, says: String, help: String| {
        let place = document.place(at);
        Complaint { file: place.file, span: place.span, says, help, also: None }
    };
    for (field, named) in [("wheel_of", &station.wheel_of), ("pinion_of", &station.pinion_of)] {
        let Some(name) = named.there().filter(|name| !geared().any(|stage| stage == **name)) else { continue };
        let help = match nearest(name, geared()) {
            Some(near) => format!("did you mean `{near}`?"),
            None => "name a stage with a pinion and a wheel; anything else goes into `carries`".into(),
        };
        all.push(complain(named.id, format!("`{field}: {}` names no stage with gears", clip(name)), help));
    }
    let joined = [&station.wheel_of, &station.pinion_of].iter().any(|named| named.there().is_some());
    if let Some(words) = station.carries.there().filter(|_| !joined) {
        let field = |side: &str| format!("{side}_of");
        let meant = geared().find_map(|stage| {
            let side = ["wheel", "pinion"].into_iter().find(|side| words.contains(side) && words.contains(stage))?;
            Some((field(side), stage))
        });
        if let Some((field, stage)) = meant {
            let says = format!("`{}` tells a gear in words, and joins the shaft to none", clip(words));
            all.push(complain(station.carries.id, says, format!("write `{field}: {stage}` in place of `carries`")));
        }
    }
    all
}

/// What a station is called: by its gear, else in the builder's words.
impl Station {
    #[must_use]
    pub fn called(&self) -> String {
        let gear = |named: &Maybe<String>, side: &str| named.there().map(|stage| format!("{stage} {side}"));
        gear(&self.wheel_of, "wheel")
            .or_else(|| gear(&self.pinion_of, "pinion"))
            .or_else(|| self.carries.there().cloned())
            .unwrap_or_else(|| "what it carries".into())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use document::{Limits, NoFiles, NoShelf, Swaps};

    fn said(station: &str) -> Vec<(String, String)> {
        let spec = format!(
            "dryfit: 1\nmachine: {{name: trial}}\npowertrain:\n  stages:\n    - {{name: primary, kind: spur}}\n    - {{name: chain, kind: chain}}\n  \
             shafts:\n    layshaft: {{turned_by: primary, stations: [{station}]}}\n"
        );
        let document = Document::load("trial.machine.yaml", spec.into_bytes(), &NoFiles, &NoShelf, &Limits::default());
        let machine = Machine::read(&document, &Swaps::new()).unwrap();
        senseless(&document, &machine).into_iter().map(|one| (one.says, one.help)).collect()
    }

    #[test]
    fn a_gear_told_in_words_is_refused_with_the_way_to_write_it() {
        let told = said("{x: 22 mm, carries: wheel of the primary}");
        assert_eq!(
            told,
            [(
                "`wheel of the primary` tells a gear in words, and joins the shaft to none".to_string(),
                "write `wheel_of: primary` in place of `carries`".to_string()
            )]
        );
        assert!(said("{x: 22 mm, carries: pinion of primary}")[0].1.contains("`pinion_of: primary`"));
        // What is no gear of a stage may be called what one likes.
        for fine in
            ["{carries: track sprocket}", "{carries: idler wheel}", "{wheel_of: primary, carries: primary wheel}"]
        {
            assert_eq!(said(fine), [], "{fine}");
        }
    }

    #[test]
    fn a_gear_of_no_stage_is_refused() {
        let told = said("{wheel_of: primari}, {pinion_of: chain}");
        assert_eq!(told[0].0, "`wheel_of: primari` names no stage with gears");
        assert_eq!(told[0].1, "did you mean `primary`?");
        assert!(told[1].1.contains("anything else goes into `carries`"), "{told:?}");
    }
}
