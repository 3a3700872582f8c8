use crate::{PrintedWallTightness, WALL};
use rule::prelude::*;
use trial::Row;

/// A vented loop of water whose pump makes 40 kPa with the flow shut: a printed shell behind it, then 10 m of hose that
/// take nearly all of them.
const LOOP: &str = "
environment: {air: 20 °C, relative_humidity: 50 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  drive: {kind: cruise, air: 20 °C, heat: no}
coolants: {plain: {kind: water}}
structure:
  parts:
    shell: {material: petg, build: {by: printed, walls: 4, layer_height: 0.2 mm}}
    plate: {material: aluminium_6061, build: {by: machined}}
    tank: {material: petg, build: {by: printed, walls: 4, layer_height: 0.2 mm}}
cooling:
  coolant: {fluid: plain, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 100 mL, part: tank, lid: {closes: vented}}
  pump: {works_by: positive_displacement, free_flow: 1.2 L/min, stall_pressure: 40 kPa, power: 0 W, runs: always}
  hoses: {long: {bore: 3 mm, wall: 2 mm, length: 10 m}}
  circuit:
    - {kind: reservoir}
    - {kind: pump}
    - {kind: jacket, name: windings, part: shell, channel: {width: 10 mm, depth: 5 mm, length: 0.3 m}}
    - {kind: hose, hose: long}
";

fn changed(changes: &[(&str, &str)]) -> String {
    let mut text = LOOP.to_string();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    text
}

fn rows(changes: &[(&str, &str)]) -> Vec<Row> {
    trial::review(&PrintedWallTightness, &changed(changes))
}

fn shell(changes: &[(&str, &str)]) -> Row {
    rows(changes).into_iter().find(|row| row.subject == "shell").unwrap()
}

/// The shell's own pressure, of 40 kPa that four bare wall lines keep in.
fn pressure() -> f64 {
    40e3 / shell(&[]).reserve
}

fn with(built: &str) -> (&'static str, String) {
    (
        "shell: {material: petg, build: {by: printed, walls: 4, layer_height: 0.2 mm}}",
        format!("shell: {{material: petg, build: {{by: printed, walls: 4, layer_height: 0.2 mm}}, {built}}}"),
    )
}

fn shell_with(built: &str) -> Row {
    let (from, to) = with(built);
    shell(&[(from, &to)])
}

#[test]
fn fails() {
    let thin = shell(&[("walls: 4, layer_height: 0.2 mm", "walls: 2, layer_height: 0.2 mm")]);
    assert_eq!((thin.verdict, thin.check, thin.case.as_str()), (Verdict::Fails, WALL, "drive"));
    assert!(thin.says.contains("creeps between the strands"), "{thin:?}");
    let failed = shell_with("leak_test: {pressure: 200 kPa, duration: 30 min, fell: 30 kPa}");
    assert!(failed.verdict == Verdict::Fails && failed.says.contains("leak test"), "{failed:?}");
}

#[test]
fn thin() {
    // Four bare wall lines keep 40 kPa in, hardly more than the pump makes.
    let bare = shell(&[]);
    assert!(bare.verdict == Verdict::Thin && bare.reserve < 3.0, "{bare:?}");
}

#[test]
fn sound() {
    assert_eq!(shell_with("coating: brushed_resin").verdict, Verdict::Sound);
    assert_eq!(shell_with("leak_test: {pressure: 60 kPa, duration: 30 min, fell: 1 kPa}").verdict, Verdict::Sound);
    // The tank is open to the air: nothing pushes.
    let tank = rows(&[]).into_iter().find(|row| row.subject == "tank").unwrap();
    assert!(tank.verdict == Verdict::Sound && tank.reserve.is_infinite(), "{tank:?}");
    let milled = ("material: petg, build: {by: printed, walls: 4", "material: petg, build: {by: machined, walls: 4");
    assert_eq!(rows(&[milled]).len(), 1, "only the tank is printed");
    assert_eq!(rows(&[("part: shell", "part: plate")]).len(), 1);
}

#[test]
fn not_judged() {
    let gap = |changes: &[(&str, &str)], says: &str| {
        let row = shell(changes);
        assert_eq!((row.verdict, row.says.as_str()), (Verdict::NotJudged, says), "{changes:?}");
    };
    gap(&[("walls: 4, ", "")], "walls");
    let unnamed = rows(&[("part: shell, ", "")]).into_iter().find(|row| row.subject == "windings").unwrap();
    assert_eq!((unnamed.verdict, unnamed.says.as_str()), (Verdict::NotJudged, "part"));
    gap(&[("shell: {material: petg, build: {by: printed, ", "shell: {build: {")], "material");
    gap(&[(", layer_height: 0.2 mm", "")], "layer_height");
    gap(&[("stall_pressure: 40 kPa, ", "")], "stall_pressure");
    gap(
        &[("lid: {closes: vented}", "lid: {closes: closed, pressure_max: 20 kPa}"), ("gas_space: 100 mL, ", "")],
        "gas_space",
    );
    assert_eq!(shell(&[]).assumed.iter().filter(|field| *field == "coating").count(), 1);
    // What holds for all prints stands in for what is not said of this one; its spool comes before that.
    let all = "structure:\n  printing: {walls: 8, layer_height: 0.1 mm}\n  parts:\n    shell: {material: petg, build: {by: printed}}";
    let own = "structure:\n  parts:\n    shell: {material: petg, build: {by: printed, walls: 4, layer_height: 0.2 mm}}";
    assert!((shell(&[(own, all)]).reserve / shell(&[]).reserve - 4.0).abs() < 1e-9);
    // By its material a part without a word about its making is a print.
    let unsaid = "structure:\n  printing: {walls: 4, layer_height: 0.2 mm}\n  parts:\n    shell: {material: petg}";
    assert!((shell(&[(own, unsaid)]).reserve - shell(&[]).reserve).abs() < 1e-9);
}

#[test]
fn the_exact_boundary() {
    let at = |times: f64| {
        let test =
            format!("leak_test: {{pressure: {:.9} kPa, duration: 30 min, fell: 0 kPa}}", times * pressure() / 1e3);
        shell_with(&test).verdict
    };
    assert_eq!([at(1.299_999), at(1.300_001)], [Verdict::Thin, Verdict::Sound]);
    assert_eq!([at(0.999_999), at(1.000_001)], [Verdict::Fails, Verdict::Thin]);
}

#[test]
fn more_walls_and_thinner_layers_never_lower_the_reserve() {
    let walls = |count: u32| shell(&[("walls: 4", &format!("walls: {count}"))]).reserve;
    let reserves: Vec<f64> = (1..12).map(walls).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] > pair[0]));
    let layers =
        |hundredths: u32| shell(&[("layer_height: 0.2 mm", &format!("layer_height: 0.{hundredths} mm"))]).reserve;
    let reserves: Vec<f64> = (10..40).map(layers).collect();
    assert!(reserves.windows(2).all(|pair| pair[1] < pair[0]));
}

#[test]
fn by_hand_and_by_paper() {
    // Most of what the pump can make is lost in the hose: what the shell feels is that.
    assert!(pressure() > 25e3 && pressure() < 40e3, "{}", pressure());
    let of = |built: &str| shell_with(built).reserve * pressure();
    assert!((of("coating: brushed_resin") - 276e3).abs() < 1.0);
    assert!((of("coating: varnish") - 207e3).abs() < 1.0);
    assert!((of("coating: soaked_resin") - 138e3).abs() < 1.0);
    assert!((of("leak_test: {pressure: 90 kPa, duration: 30 min, fell: 9 kPa}") - 90e3).abs() < 1.0);
    // A test of five minutes shows nothing.
    assert!((of("leak_test: {pressure: 90 kPa, duration: 5 min, fell: 0 kPa}") - 40e3).abs() < 1.0);
}

#[test]
fn what_is_sealed_onto_a_plate_holds_coolant_too() {
    let lid = (
        "cooling:\n",
        "    lid: {material: petg, build: {by: printed, walls: 4, layer_height: 0.2 mm}}\n  joints: {closed: {of: [lid, plate], seal: {form: {kind: sealant, thickness: 0.3 mm, capability: 20 %}}}, held: {of: [tank, plate]}}\ncooling:\n",
    );
    let all = rows(&[lid, ("part: shell", "part: plate")]);
    let lid = all.iter().find(|row| row.subject == "lid").unwrap();
    assert!((lid.reserve - shell(&[]).reserve).abs() < 1e-9 && lid.verdict == Verdict::Thin);
    assert_eq!(all.len(), 2, "{all:#?}");
}

#[test]
fn suction_counts_as_well() {
    // Before the pump: the shell stands below the air by what the hose takes.
    let (behind, before) = (
        "    - {kind: pump}\n    - {kind: jacket, name: windings, part: shell, channel: {width: 10 mm, depth: 5 mm, length: 0.3 m}}\n    - {kind: hose, hose: long}\n",
        "    - {kind: hose, hose: long}\n    - {kind: jacket, name: windings, part: shell, channel: {width: 10 mm, depth: 5 mm, length: 0.3 m}}\n    - {kind: pump}\n",
    );
    let sucked = shell(&[(behind, before)]);
    assert!((sucked.reserve / shell(&[]).reserve - 1.0).abs() < 0.02, "{sucked:?}");
}
