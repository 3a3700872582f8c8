use super::*;
use document::{Limits, NoFiles, NoShelf};
use engine::{CaseLabel, Circuit as Found, ElementState, profiles};
use machine::{NotJudged, Swaps};

const LOOP: &str = "
dryfit: 1
machine: {name: Sled, revision: B}
environment: {air: -10 °C to 10 °C, relative_humidity: 95 %, altitude: 0 m, assembled_at: 20 °C}
zones: {box: {volume: 9 L, air_rise: 10 K, moisture: breathes}}
cases: {climb: {kind: climb}, rest: {kind: soak, air: -5 °C}}
coolants: {mix: {kind: glycol_water, glycol: ethylene}}
cooling:
  coolant: {fluid: mix, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 60 mL, lid: {closes: vented}}
  pump: {works_by: positive_displacement, free_flow: 1.2 L/min, stall_pressure: 150 kPa, power: 9 W, runs: with_electronics}
  hoses: {long: {bore: 6 mm, wall: 1.5 mm, length: 1.8 m}}
  circuit:
    - {kind: reservoir}
    - {kind: pump}
    - {kind: exchanger, name: deck, channel: {width: 6 mm, depth: 4 mm, length: 2 m}, outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}}
    - {kind: plate, name: switches, branch: left, heat: 9 W, zone: box, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m}, contact_resistance: 0.05 K/W}
    - {kind: plate, name: windings, branch: right, heat: 30 W, channel: {width: 4 mm, depth: 4 mm, length: 0.5 m}, contact_resistance: 0.05 K/W}
    - {kind: hose, hose: long}
assumed: {hose_to_air: 12 W/(m²·K), hose_modulus: 4 MPa, hose_bends: 2, fan_air: 2 m/s, driving_air: 1 m/s, own_draught: 0.2 m/s, exchanger_opening: 10 %, still_air: 8 W/(m²·K), wetted_metal: 2 mm}
";

fn read(text: &str) -> (Document, Machine) {
    let document =
        Document::load("sled.machine.yaml", text.as_bytes().to_vec(), &NoFiles, &NoShelf, &Limits::default());
    let machine = Machine::read(&document, &Swaps::new()).unwrap();
    (document, machine)
}

fn told(text: &str, case: Option<&str>, width: usize) -> String {
    let (document, machine) = read(text);
    let look = Look { width, colour: false, drawing: true };
    terminal(&document, &machine, &profiles(&machine, case), look)
}

#[test]
fn a_line_an_element_and_no_line_too_wide() {
    let wide = told(LOOP, None, 100);
    assert!(
        wide.starts_with("Sled, revision B\n")
            && wide.contains("case climb at 10 °C: of the cases that last the one in which the coolant gets warmest"),
        "{wide}"
    );
    assert!(wide.contains("the coldest in which the pump turns") && wide.contains("left/switches"), "{wide}");
    for name in ["reservoir", "pump", "deck", "right/windings", "long"] {
        assert_eq!(wide.lines().filter(|line| line.starts_with(name)).count(), 2, "{name}: {wide}");
    }
    for width in [40, 60, 80, 100, 140] {
        assert!(told(LOOP, None, width).lines().all(|line| line.chars().count() <= width), "{width}");
    }
    // Branches share the flow evenly here; each row has all its numbers in a narrow window too.
    assert_eq!(told(LOOP, None, 60).matches("Reynolds").count(), 12);
}

#[test]
fn a_wet_face_is_marked_and_the_mark_explained() {
    let damp = LOOP.replace("heat: 9 W", "heat: 0 W").replace("moisture: breathes", "moisture: holds_meltwater");
    let damp = damp.replace("wetted_metal: 2 mm}", "wetted_metal: 2 mm, meltwater: 0.5 °C}");
    let text = told(&damp, Some("climb"), 100);
    assert!(text.contains('!') && text.contains("gets wet or white"), "{text}");
}

#[test]
fn a_named_case_is_shown_cold_and_hot_and_a_fixed_one_once() {
    let (_, machine) = read(LOOP);
    let airs =
        |case: &str| profiles(&machine, Some(case)).iter().map(|each| each.case.air.unwrap()).collect::<Vec<_>>();
    assert_eq!(airs("climb"), [263.15, 283.15]);
    assert_eq!(airs("rest"), [268.15]);
    assert!(airs("nowhere").is_empty());
    assert!(told(LOOP, Some("rest"), 100).contains("The pump does not turn."));
}

#[test]
fn what_is_not_worked_out_says_why() {
    let gap = told(&LOOP.replace("stall_pressure: 150 kPa, ", ""), None, 100);
    assert!(gap.contains("not worked out: `cooling.pump.stall_pressure` is not given"), "{gap}");
    let lidless = told(&LOOP.replace(", lid: {closes: vented}", ""), None, 100);
    let words: Vec<&str> = lidless.split_whitespace().collect();
    assert!(words.join(" ").contains("for want of the reservoir's: `cooling.reservoir.lid` is not given"), "{lidless}");
}

#[test]
fn the_data_says_the_same_and_obeys_its_schema() {
    let (document, machine) = read(LOOP);
    let all = profiles(&machine, None);
    let page = page(&document, &machine, &all);
    let circuit = page.cases[1].circuit.as_ref().unwrap();
    let (left, right) = (&circuit.elements[3], &circuit.elements[4]);
    assert!(((left.flow + right.flow) / circuit.flow - 1.0).abs() < 1e-6 && left.branch.as_deref() == Some("left"));
    assert!(
        (circuit.elements[1].drop + circuit.elements.iter().skip(2).map(|each| each.drop).sum::<f64>() - left.drop)
            .abs()
            < 1.0
    );
    let data = serde_json::to_value(&page).unwrap();
    let schema = schema();
    let named = |value: &serde_json::Value| value.as_object().unwrap().keys().cloned().collect::<Vec<_>>();
    let of = &schema["$defs"]["Element"]["properties"];
    assert_eq!(named(&data["cases"][1]["circuit"]["elements"][0]), named(of));
}

#[test]
fn every_state_of_the_pump_has_its_sentence() {
    let (document, machine) = read(LOOP);
    let found = profiles(&machine, None).remove(1).found.unwrap();
    let with = |change: &dyn Fn(&mut Found)| {
        let mut round = found.clone();
        change(&mut round.circuit);
        state(&document, &machine, &round).join(" ")
    };
    assert!(with(&|circuit| circuit.stalled = true).contains("pushes in vain"));
    assert!(with(&|circuit| circuit.starved = true).contains("less than it could move"));
    assert!(with(&|circuit| circuit.relieved = true).contains("relief valve is open"));
    assert!(with(&|circuit| circuit.running = false).contains("does not turn"));
    let gap = NotJudged::NoSolution("no room".into());
    let profile = Profile { case: CaseLabel { name: String::new(), air: None }, shows: "as asked", found: Err(gap) };
    assert_eq!(case(&document, &machine, &profile).not_worked_out.as_deref(), Some("no room"));
    let _: &ElementState = &found.circuit.elements[0];
}
