use crate::CoolantCompatibility;
use crate::touch::{COOLANT, ITS_SEAL};
use rule::prelude::*;
use trial::Row;

/// A heated lid on a block of aluminium, sealed by a cord, a hose, a cold plate; 40 °C in the lid, or a little above.
const LOOP: &str = "
environment: {air: 20 °C, relative_humidity: 50 %, altitude: 0 m, assembled_at: 20 °C}
cases:
  drive: {kind: cruise, air: 20 °C}
coolants: {plain: {kind: water}, red: {kind: glycol_water, glycol: ethylene}}
materials:
  mine: {family: polymer, resists: {ethylene_glycol_water: {holds_to: 90 °C}}}
structure:
  parts:
    block: {material: aluminium_6061}
    lid: {material: mine}
    cold: {material: aluminium_5052}
    tank: {material: pe_hd}
    bracket: {material: mine}
  joints:
    closed: {of: [lid, block], seal: {form: {kind: cord, material: epdm, diameter: 2 mm, closed_to: 1.5 mm}}}
    held: {of: [bracket, block], locked: lock_nut}
cooling:
  coolant: {fluid: red, glycol: 50 %, share_by: mass, volume: 300 mL, filled_at: 20 °C}
  reservoir: {gas_space: 100 mL, part: tank, lid: {closes: vented}}
  pump: {works_by: positive_displacement, free_flow: 1.2 L/min, stall_pressure: 40 kPa, power: 0 W, runs: always}
  hoses: {line: {bore: 8 mm, wall: 2 mm, length: 0.5 m, material: silicone_rubber}}
  circuit:
    - {kind: reservoir}
    - {kind: pump}
    - {kind: jacket, name: windings, part: block, heat: 100 W, channel: {width: 10 mm, depth: 5 mm, length: 0.3 m}}
    - {kind: hose, hose: line}
    - {kind: exchanger, name: fins, part: cold, channel: {width: 6 mm, depth: 4 mm, length: 1 m}, outside: {area: 0.1 m², heat_transfer: 60 W/(m²·K)}}
";

fn changed(changes: &[(&str, &str)]) -> String {
    let mut text = LOOP.to_string();
    for (from, to) in changes {
        assert!(text.contains(from), "{from}");
        text = text.replacen(from, to, 1);
    }
    text
}

fn of(subject: &str, check: &str, changes: &[(&str, &str)]) -> Row {
    let rows = trial::review(&CoolantCompatibility, &changed(changes));
    let found = rows.iter().find(|row| row.subject == subject && row.check == check).cloned();
    found.unwrap_or_else(|| panic!("{subject}, {check}: {rows:#?}"))
}

fn says(row: &Row, verdict: Verdict, words: &str) {
    assert!(row.verdict == verdict && row.says.contains(words), "{row:#?}");
}

const HOLDS: &str = "{holds_to: 90 °C}";

/// Hottest that the lid gets.
fn hottest() -> f64 {
    90.0 + 273.15 - lid(HOLDS).reserve
}

fn lid(resistance: &str) -> Row {
    of("lid", COOLANT, &[(HOLDS, resistance)])
}

fn soaked(temperature: f64, duration: &str, gained: &str, damaged: &str) -> Row {
    let soak = format!("temperature: {temperature:.6} °C, duration: {duration}, gained: {gained}, damaged: {damaged}");
    lid(&format!("{{holds_to: 90 °C, soaked: {{{soak}}}}}"))
}

#[test]
fn fails() {
    says(&lid("{holds_to: 30 °C}"), Verdict::Fails, "too hot for mine");
    let bare = ("glycol: 50 %, share_by: mass,", "glycol: 50 %, share_by: mass, inhibited: no,");
    let copper = ("cold: {material: aluminium_5052}", "cold: {material: copper}");
    let row = of("coolant", "metals in one loop", &[bare, copper]);
    says(&row, Verdict::Fails, "block of aluminium_6061 is eaten");
    assert!((row.reserve - 0.15 / 0.55).abs() < 1e-9, "{row:?}");
    let old = ("glycol: 50 %, share_by: mass,", "glycol: 50 %, share_by: mass, inhibited: yes, changed_after: 1500 d,");
    says(&of("coolant", "inhibitor", &[old, copper]), Verdict::Fails, "used up");
}

#[test]
fn fails_whatever_the_temperature() {
    says(&lid("{attacked: cracks}"), Verdict::Fails, "cracks it where it is under stress");
    says(&soaked(80.0, "7 d", "3 %", "yes"), Verdict::Fails, "cracks");
    says(&soaked(80.0, "7 d", "12 %", "no"), Verdict::Fails, "swells");
    let waterless = ("fluid: red, glycol: 50 %, share_by: mass,", "fluid: water_free_glycol,");
    let printed = |material: &'static str| ("lid: {material: mine}", material);
    for plastic in ["lid: {material: abs}", "lid: {material: pc}"] {
        says(&of("lid", COOLANT, &[waterless, printed(plastic)]), Verdict::Fails, "glycol without water");
    }
    let locked = ("locked: lock_nut", "locked: thread_locker");
    let boss = ("bracket: {material: mine}", "bracket: {material: abs}");
    says(&of("bracket", "thread locker on it", &[locked, boss]), Verdict::Fails, "thread locker on abs cracks it");
    let greased = ("closed_to: 1.5 mm}}", "closed_to: 1.5 mm}, greased: mineral_oil}");
    says(&of("closed", "grease on its seal", &[greased]), Verdict::Fails, "grease made of it on epdm swells");
}

#[test]
fn thin() {
    let row = lid(&format!("{{holds_to: {:.6} °C}}", hottest() - 273.15 + 5.0));
    assert!(row.verdict == Verdict::Thin && (row.reserve - 5.0).abs() < 1e-3, "{row:?}");
}

#[test]
fn sound() {
    let rows = trial::review(&CoolantCompatibility, &changed(&[]));
    assert!(rows.iter().all(|row| row.verdict == Verdict::Sound), "{rows:#?}");
    for (subject, check) in [("line", COOLANT), ("closed", ITS_SEAL), ("tank", COOLANT), ("lid", COOLANT)] {
        assert!(rows.iter().any(|row| row.subject == subject && row.check == check), "{subject}");
    }
    assert!(rows.iter().all(|row| row.subject != "bracket"), "dry, and held by a lock nut");
    // Your own sample speaks before the chart, if it lay long enough.
    assert_eq!(soaked(hottest() - 273.15 + 4.0, "7 d", "3 %", "no").verdict, Verdict::Sound);
    assert_eq!(soaked(200.0, "2 d", "30 %", "yes").reserve, lid(HOLDS).reserve);
    // Grease between two parts: that of mineral oil, if nobody says.
    let contact =
        ("cooling:\n", "  contacts: {slide: {of: [bracket, block], motion: sliding, between: grease}}\ncooling:\n");
    let nylon = ("bracket: {material: mine}", "bracket: {material: pa12}");
    let row = of("slide", "grease on the first", &[contact, nylon]);
    assert!(row.verdict == Verdict::Sound && row.assumed == ["grease"], "{row:?}");
}

#[test]
fn metals_that_nothing_eats() {
    let copper = ("cold: {material: aluminium_5052}", "cold: {material: copper}");
    let waterless = ("fluid: red, glycol: 50 %, share_by: mass,", "fluid: water_free_glycol,");
    let fresh =
        ("glycol: 50 %, share_by: mass,", "glycol: 50 %, share_by: mass, inhibited: yes, changed_after: 365 d,");
    let metals = |changes: &[(&str, &str)]| of("coolant", "metals in one loop", changes);
    says(&metals(&[]), Verdict::Sound, "alike");
    says(&metals(&[copper, waterless]), Verdict::Sound, "next to no water");
    says(&metals(&[copper, fresh]), Verdict::Sound, "inhibitor");
    let age = of("coolant", "inhibitor", &[copper, fresh]);
    assert!(age.verdict == Verdict::Sound && (age.reserve - 2.0).abs() < 1e-9, "{age:?}");
    assert_eq!(age.assumed, ["inhibitor_life"]);
}

#[test]
fn not_judged() {
    let gap = |row: Row, field: &str| assert_eq!((row.verdict, row.says.as_str()), (Verdict::NotJudged, field));
    gap(lid("{source: nobody}"), "holds_to");
    gap(of("lid", COOLANT, &[("resists: {ethylene_glycol_water: ", "resists: {water: ")]), "ethylene_glycol_water");
    gap(of("lid", COOLANT, &[("lid: {material: mine}", "lid: {}")]), "material");
    let bare =
        ("mine: {family: polymer, resists: {ethylene_glycol_water: {holds_to: 90 °C}}}", "mine: {family: polymer}");
    gap(of("lid", COOLANT, &[bare]), "resists");
    gap(of("line", COOLANT, &[(", material: silicone_rubber", "")]), "material");
    gap(of("closed", ITS_SEAL, &[("material: epdm, ", "")]), "material");
    gap(of("windings", COOLANT, &[("part: block, ", "")]), "part");
    gap(of("coolant", "metals in one loop", &[("part: block, ", "")]), "part");
    let copper = ("cold: {material: aluminium_5052}", "cold: {material: copper}");
    gap(of("coolant", "metals in one loop", &[copper]), "inhibited");
    let undated = ("glycol: 50 %, share_by: mass,", "glycol: 50 %, share_by: mass, inhibited: yes,");
    gap(of("coolant", "inhibitor", &[copper, undated]), "changed_after");
    let soak = "{soaked: {temperature: 80 °C, duration: 7 d, gained: 2 %, damaged: no}}";
    assert_eq!(lid(soak).verdict, Verdict::Sound);
    for missing in ["temperature: 80 °C, ", "duration: 7 d, ", "gained: 2 %, "] {
        gap(lid(&soak.replace(missing, "")), missing.split(':').next().unwrap());
    }
    gap(lid(&soak.replace(", damaged: no", "")), "damaged");
}

#[test]
fn the_exact_boundary() {
    let at = |above: f64| lid(&format!("{{holds_to: {:.6} °C}}", hottest() - 273.15 + above)).verdict;
    assert_eq!([at(9.999), at(10.001)], [Verdict::Thin, Verdict::Sound]);
    assert_eq!([at(-0.001), at(0.001)], [Verdict::Fails, Verdict::Thin]);
    let own = |above: f64| soaked(hottest() - 273.15 + above, "7 d", "10 %", "no").verdict;
    assert_eq!([own(2.999), own(3.001)], [Verdict::Thin, Verdict::Sound]);
}

#[test]
fn one_more_metal_never_helps() {
    let bare = ("glycol: 50 %, share_by: mass,", "glycol: 50 %, share_by: mass, inhibited: no,");
    let lid_of = |metal: &str| ("lid: {material: mine}", format!("lid: {{material: {metal}}}"));
    let cold_of = |metal: &str| ("cold: {material: aluminium_5052}", format!("cold: {{material: {metal}}}"));
    for first in ["copper", "brass", "stainless_304", "mild_steel", "titanium_6al4v"] {
        let cold = cold_of(first);
        let two = of("coolant", "metals in one loop", &[bare, (cold.0, &cold.1)]).reserve;
        for second in ["copper", "brass", "stainless_304", "mild_steel", "aluminium_7075"] {
            let lid = lid_of(second);
            let three = of("coolant", "metals in one loop", &[bare, (cold.0, &cold.1), (lid.0, &lid.1)]).reserve;
            assert!(three <= two, "{first}, {second}: {three} against {two}");
        }
    }
}

/// A recorded run heats the coolant like any other drive: a spec that holds nothing else is asked the same, and what is
/// missing is its log.
#[test]
fn a_recorded_run_is_judged_like_a_drive() {
    let run = ("drive: {kind: cruise,", "drive: {kind: log,");
    let ridden = of("lid", COOLANT, &[run]);
    assert_eq!((ridden.verdict, ridden.says.as_str()), (Verdict::NotJudged, "log"), "{ridden:#?}");
    let rows = |changes: &[(&str, &str)]| trial::review(&CoolantCompatibility, &changed(changes)).len();
    assert_eq!(rows(&[run]), rows(&[]));
}
