//! What is sought where, what is found, and the words for what is not.

use super::*;
use crate::examples::{Reviewed, changed};
use rulebook::RULES;

/// As drawn, on one day: each case has one point.
fn hauler(changes: &[(&str, &str)]) -> Reviewed {
    let day = ("air: -30 °C to 8 °C", "air: -28 °C");
    changed("hut-hauler/as-drawn", &[&[day], changes].concat())
}

fn asked(reviewed: &Reviewed, on: &str, check: &str, only: Option<&str>) -> Target {
    let Reviewed { document, machine, review } = reviewed;
    let of = |finding: &engine::Finding| finding.subject.name == on && finding.check == check;
    let index = review.findings.iter().position(of).expect("there is such a finding");
    remedies(document, machine, RULES, review, &[index], only, &|| ()).remove(0)
}

fn texts(remedy: &Remedy) -> Vec<String> {
    let text = |change: &Change| match change {
        Change::Number { text, .. } | Change::Added { text, .. } => text.clone(),
        Change::Name { to, .. } => to.clone(),
        Change::Thing { from, .. } => from.clone(),
        Change::Order { from, to, .. } => format!("{from} → {to}"),
    };
    remedy.changes.iter().map(text).collect()
}

fn all_texts(target: &Target) -> Vec<Vec<String>> {
    target.remedies.iter().map(texts).collect()
}

const COIL_BIND: (&str, &str) = ("skid", "solid length against stroke");

#[test]
fn a_spring_grows_to_the_next_length_and_the_number_between_is_told() {
    let target = asked(&hauler(&[]), COIL_BIND.0, COIL_BIND.1, Some("suspension.skid.spring.free_length"));
    assert_eq!(all_texts(&target), [["110 mm"]]);
    let Change::Number { from, met, to, .. } = &target.remedies[0].changes[0] else { panic!("a number changes") };
    assert!(*from < *met && met <= to && (0.1..0.11).contains(met), "{from} {met} {to}");
    assert!(target.remedies[0].headroom >= 0.0 && target.asked == Some(Heard::Tried));
}

#[test]
fn a_wire_grows_to_the_next_gauge_or_to_the_next_cross_section() {
    let found = |written: &str| {
        let hauler = hauler(&[("size: 10 AWG, length: 0.9 m", &format!("size: {written}, length: 0.9 m"))]);
        let target = asked(&hauler, "battery", "fuse before the wire", Some("powertrain.battery.wire.size"));
        all_texts(&target)
    };
    // The plug at its end takes 90 °C and no more, so the copper has to be thick.
    assert_eq!(found("8 AWG"), [["4 AWG"]]);
    assert_eq!(found("8 mm²"), [["16 mm²"]]);
    // Four times as much is another machine.
    assert!(found("14 AWG").is_empty());
}

#[test]
fn a_length_at_hand_comes_before_one_of_the_series() {
    let stock =
        "stock: {springs: {mine: {wire: 3 mm, mean_diameter: 24 mm, active_coils: 7, free_length: 107 mm}}}\n\n";
    let hauler = hauler(&[("instruments:\n", &format!("{stock}instruments:\n"))]);
    let target = asked(&hauler, COIL_BIND.0, COIL_BIND.1, Some("suspension.skid.spring.free_length"));
    assert_eq!(all_texts(&target), [["107 mm"]]);
}

#[test]
fn a_spring_in_stock_is_taken_whole_with_its_mass_and_price() {
    let stock = "stock:\n  springs:\n    long: {wire: 3 mm, mean_diameter: 24 mm, active_coils: 7, free_length: 110 mm, \
                 material: music_wire, ends: closed_ground, price: 7}\n    short: {like: long, free_length: 90 mm}\n\n";
    let spring = "free_length: 96 mm, material: music_wire, ends: closed_ground}";
    let priced = format!("{}, price: 5}}", &spring[..spring.len() - 1]);
    let hauler = hauler(&[("instruments:\n", &format!("{stock}instruments:\n")), (spring, &priced)]);
    let target = asked(&hauler, COIL_BIND.0, COIL_BIND.1, Some("suspension.skid.spring"));
    assert_eq!(all_texts(&target), [["stock.springs.long"]]);
    let remedy = &target.remedies[0];
    assert_eq!((remedy.effect.mass, remedy.effect.price), (None, Some(4.0)), "two springs, of the same wire");
    let edits = edits(&hauler.document, remedy).expect("it can be written");
    assert!(edits[0].text.starts_with("{wire: 3 mm,") && edits[0].text.contains("free_length: 110 mm"), "{edits:?}");
}

#[test]
fn a_bush_in_stock_gives_its_sizes_and_leaves_the_place_as_it_is() {
    let stock = "stock: {bearings: {long: {kind: plain, material: pom, bore: 12 mm, length: 24 mm, price: 4}}}\n\n";
    // Of one that melts no length is enough: this one was measured.
    let measured = ("runs_on: rear_axle\n", "runs_on: rear_axle\n      temperature: 60 °C (measured)\n");
    let hauler = hauler(&[("instruments:\n", &format!("{stock}instruments:\n")), measured]);
    let target = asked(&hauler, "rear_idler", "pressure", Some("powertrain.bearings.rear_idler"));
    assert_eq!(all_texts(&target), [["stock.bearings.long"]]);
    let edits = edits(&hauler.document, &target.remedies[0]).expect("it can be written");
    let texts: Vec<&str> = edits.iter().map(|edit| edit.text.as_str()).collect();
    assert_eq!(texts, ["24 mm", "\n      price: 4"]);
    let misfit = changed(
        "hut-hauler/as-drawn",
        &[("instruments:\n", &format!("{}instruments:\n", stock.replace("12 mm", "8 mm"))), measured],
    );
    let target = asked(&misfit, "rear_idler", "pressure", Some("powertrain.bearings.rear_idler"));
    assert!(target.remedies.is_empty(), "it does not go over the axle");
}

#[test]
fn a_wheel_grows_in_both_places_where_it_stands() {
    let target = asked(&hauler(&[]), "rear_idler", "speed", Some("powertrain.track.smallest_wheel.radius"));
    assert_eq!(all_texts(&target), [["56 mm", "56 mm"]]);
}

#[test]
fn ears_grow_only_as_far_as_the_track_is_wide() {
    let target = asked(&hauler(&[]), "track", "ear tension", Some("powertrain.track.form.ears"));
    // One more goes in beside nine; it hardly helps, which is not worth a line.
    assert!(target.remedies.is_empty() && target.unreached.is_empty());
}

#[test]
fn a_pump_that_waits_is_told_for_how_warm_a_coolant() {
    let target = asked(&hauler(&[]), "controller_plate", "idling with the pump on", Some("cooling.pump.runs"));
    let found = all_texts(&target);
    assert!(found.contains(&vec!["above_temperature".to_owned(), "20 °C".to_owned()]), "{found:?}");
    let edits = edits(&changed("hut-hauler/as-drawn", &[]).document, &target.remedies[0]).expect("it can be written");
    assert!(edits[1].text.ends_with("    starts_above: 20 °C"), "{edits:?}");
}

#[test]
fn a_sleeve_between_clears_what_no_number_can() {
    let target = asked(&hauler(&[]), "rear_idler_on_axle", "rubbing on fibres", None);
    assert_eq!(target.remedies[0].changes.len(), 1);
    assert!(all_texts(&target).contains(&vec!["metal_sleeve".to_owned()]));
    assert!(target.remedies.iter().all(|remedy| remedy.headroom == f64::INFINITY));
}

#[test]
fn a_limit_of_use_comes_after_the_machine() {
    let target = asked(&changed("hut-hauler/as-drawn", &[]), "primary", "wheel hub wall", None);
    let limits: Vec<bool> = target.remedies.iter().map(|remedy| remedy.limit_of_use).collect();
    assert!(limits.contains(&true) && !limits[0], "{limits:?}");
    assert!(limits.is_sorted(), "{limits:?}");
}

#[test]
fn an_input_that_goes_one_way_is_not_said_to_turn() {
    let target = asked(&hauler(&[]), COIL_BIND.0, "coil bind when landing", Some("suspension.skid.spring.free_length"));
    assert!(target.turning.is_empty());
}

#[test]
fn what_is_heard_of_an_input_by_name() {
    let hauler = hauler(&[]);
    for (path, heard) in [
        ("suspension.skid.spring.colour", Heard::Nowhere),
        ("structure.parts.beacon_mast.span", Heard::NotRead),
        ("machine.name", Heard::NotRead),
        ("suspension.skid.unsprung_mass_each", Heard::Fact),
        ("suspension.skid.preload.collar", Heard::Tried),
    ] {
        let target = asked(&hauler, COIL_BIND.0, "coil bind when landing", Some(path));
        assert_eq!(target.asked, Some(heard), "{path}");
        assert!(heard == Heard::Tried || target.remedies.is_empty(), "{path}");
    }
    let target = asked(&hauler, "track", "ear tension", Some("powertrain.track.pitch"));
    assert_eq!(target.asked, Some(Heard::Bound));
}

#[test]
fn findings_are_chosen_by_name_and_conceded_ones_only_by_name() {
    let hauler = changed("hut-hauler/as-drawn", &[]);
    let chosen = |on: Option<&str>, rule: Option<&str>| select(&hauler.review, on, rule);
    let conceded = |places: Vec<usize>| -> Vec<bool> {
        places.iter().map(|place| !hauler.review.findings[*place].stands()).collect()
    };
    assert!(conceded(chosen(None, None).expect("something fails")).iter().all(|conceded| !conceded));
    assert!(conceded(chosen(Some("motor_jacket"), None).expect("it is asked for")).contains(&true));
    assert!(matches!(chosen(Some("motor_jaket"), None), Err(NoTarget::Subject { .. })));
    assert!(matches!(chosen(Some("skid"), Some("bearing-pv")), Err(NoTarget::Rule { .. })));
    assert!(matches!(chosen(Some("steering_pivot"), None), Err(NoTarget::Sound { .. })));
}

/// The label of a hose and the reading of a freezer test are what they are: another number there would be another hose, or a
/// lie.
#[test]
fn what_was_measured_or_stands_on_a_label_is_never_proposed() {
    for example in ["hut-hauler/as-drawn", "reed-cutter/as-drawn"] {
        let Reviewed { document, machine, review } = changed(example, &[]);
        let stated = |change: &Change| machine.row().stated(change.node());
        let targets: Vec<usize> = (0..review.findings.len())
            .filter(|index| review.findings[*index].reads.nodes.iter().any(|node| machine.row().stated(node).is_some()))
            .filter(|index| matches!(review.findings[*index].verdict, rule::Verdict::Fails | rule::Verdict::Thin))
            .take(6)
            .collect();
        assert!(!targets.is_empty(), "{example}");
        for target in remedies(&document, &machine, RULES, &review, &targets, None, &|| ()) {
            for change in target.remedies.iter().flat_map(|remedy| &remedy.changes) {
                let stated = stated(change);
                assert!(stated.is_none_or(|stated| stated == quantity::Stated::Guess), "{example}: {change:?}");
            }
        }
    }
}
