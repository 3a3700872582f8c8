//! Laws that hold for every loop, whoever wrote its list and however.

use super::random::{Draw, closes, read};
use super::*;

const STRAINER: &str = "    - {kind: strainer, name: sieve, mesh: 0.2 mm, open_area: 3 cm²}\n";

#[test]
fn idle_strainers_change_nothing_however_many_there_are() {
    let wide = (0..20).map(|n| format!("    - {{kind: strainer, name: wide{n}, mesh: 9 mm, open_area: 9 m²}}\n"));
    let more = STRAINER.to_owned() + &wide.collect::<String>();
    for changes in [vec![], vec![("glycol: 50 %", "glycol: 100 %"), ("ethylene", "propylene")]] {
        let plain = coolant(&changes, "climb").driven;
        let listed: Vec<_> = changes.iter().copied().chain([(STRAINER, more.as_str())]).collect();
        let long = coolant(&listed, "climb").driven;
        assert!((long.flow.si() / plain.flow.si() - 1.0).abs() < 1e-7);
        let kept = long.elements.iter().take(6).chain(long.elements.iter().skip(26));
        for (one, other) in plain.elements.iter().zip(kept) {
            assert!((one.outlet.si() - other.outlet.si()).abs() < 1e-5, "{} {}", one.outlet.si(), other.outlet.si());
            assert!((one.wetted.1.si() - other.wetted.1.si()).abs() < 1e-5);
        }
    }
}

#[test]
fn a_hose_written_as_two_halves_loses_no_more_than_one() {
    let long = "    - {kind: hose, hose: long}\n";
    let halves = ("length: 1.8 m}", "length: 0.9 m}");
    let twice = long.to_owned() + long;
    for thick in ["glycol: 50 %", "glycol: 5 %"] {
        let kind = ("glycol: 50 %", thick);
        let one = coolant(&[LAGGED, kind], "climb").driven;
        let two = coolant(&[LAGGED, kind, halves, (long, twice.as_str())], "climb").driven;
        assert!((two.flow.si() / one.flow.si() - 1.0).abs() < 1e-9, "{} {}", two.flow.si(), one.flow.si());
        let lost = two.elements[7].drop.si() + two.elements[8].drop.si();
        assert!((lost / one.elements[7].drop.si() - 1.0).abs() < 1e-6, "{lost}");
    }
    // A hose that widens into another loses at that step, and less than into the open.
    let wider = [
        LAGGED,
        ("short: {bore: 6 mm", "short: {bore: 9 mm"),
        ("    - reservoir\n    - {kind: hose, hose: short}\n", "    - {kind: hose, hose: short}\n    - reservoir\n"),
    ];
    let stepped = coolant(&wider, "climb").driven;
    let apart = coolant(&[wider[0], wider[1]], "climb").driven;
    assert!(stepped.elements[7].drop.si() < apart.elements[7].drop.si());
}

#[test]
fn a_hose_with_bends_and_couplings_loses_more_by_their_loss_numbers() {
    let with = |more: &str| coolant(&[LAGGED, ("length: 1.8 m", &format!("length: 1.8 m, {more}"))], "climb").driven;
    let (straight, elbows) = (with("bends: 0"), with("bends: 0, fittings: 8"));
    let speed = |flow: f64| flow / (std::f64::consts::FRAC_PI_4 * 36e-6);
    let head = 0.5 * 1070.0 * speed(elbows.flow.si()).powi(2);
    // At the flow that there then is, friction apart: 8 velocity heads. Less flow is warmer and a little thinner, too.
    let friction = straight.elements[7].drop.si() - 1.5 * 0.5 * 1070.0 * speed(straight.flow.si()).powi(2);
    let more = elbows.elements[7].drop.si() - friction * elbows.flow.si() / straight.flow.si() - 1.5 * head;
    assert!((more / (8.0 * head) - 1.0).abs() < 0.05, "{more} {head}");
    assert!(with("bends: 6, tightest_bend: 6 mm").flow < with("bends: 6, tightest_bend: 60 mm").flow);
    assert!(with("bends: 6").flow < straight.flow);
}

#[test]
fn a_round_channel_is_a_pipe() {
    let square =
        ("channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}", "channel: {width: 6 mm, depth: 6 mm, length: 1.2 m}");
    let round = ("channel: {width: 8 mm, depth: 3 mm, length: 1.2 m}", "channel: {bore: 6 mm, length: 1.2 m}");
    let (square, round) = (coolant(&[LAGGED, square], "cold").driven, coolant(&[LAGGED, round], "cold").driven);
    // 64/56.9 more friction, 4/π times the speed at equal flow: by hand, in smooth flow.
    let per_flow = |found: &Circuit| found.elements[WINDINGS].drop.si() / found.flow.si();
    let ratio = per_flow(&round) / per_flow(&square);
    assert!((ratio / (64.0 / 56.91 * 4.0 / std::f64::consts::PI) - 1.0).abs() < 0.04, "{ratio}");
    assert!(round.elements[WINDINGS].reynolds > square.elements[WINDINGS].reynolds);
}

/// Cold, thick, heated: what is called stalled in the first moment and settles later is no stalled loop.
#[test]
fn stalled_is_what_does_not_flow_in_the_end_and_nothing_is_hotter_than_is_known() {
    let mut draw = Draw(58);
    let (mut settled, mut stuck, mut refused, mut late) = (0, 0, 0, 0);
    for _ in 0..150 {
        let text = draw.spec();
        let from = text.find("fluid: mix, glycol: ").unwrap();
        let end = from + text[from..].find(" %").unwrap();
        let text = format!("{}fluid: mix, glycol: 100{}", &text[..from], &text[end..]).replace("ethylene", "propylene");
        let machine = read(text);
        let first = asked(&machine, "cold", &[], liquid::cold_flow).map(|(flow, free)| (flow / free).si());
        match solved(&machine, "cold", &[]) {
            Ok(found) => {
                for circuit in [&found.driven, &found.idle] {
                    assert!(circuit.running != circuit.stalled);
                    let flows = circuit.flow.si() > 0.01 * found.driven.flow.si().max(circuit.flow.si());
                    assert!(flows || circuit.stalled);
                    assert!(circuit.elements.iter().all(|each| each.outlet.si() <= 383.15 + 1e-6));
                    if circuit.warm().is_ok() {
                        closes(&machine, circuit);
                    } else {
                        assert!(circuit.stalled);
                    }
                }
                settled += usize::from(found.driven.running);
                stuck += usize::from(found.driven.stalled);
                late += usize::from(found.driven.running && first.is_ok_and(|share| share < 0.01));
            }
            Err(NotJudged::OutsideRange { .. }) => refused += 1,
            Err(other) => panic!("{other:?}"),
        }
    }
    assert!(settled > 60 && late > 3, "{settled} {stuck} {refused} {late}");
}

/// Every drawn loop has an answer, or the reason is its temperature: none chases itself, wherever film and friction turn.
#[test]
fn every_loop_settles_where_flow_begins_to_swirl() {
    let mut draw = Draw(2300);
    let (mut near, mut found) = (0, 0);
    for number in 0..1_500 {
        let machine = read(draw.spec());
        match solved(&machine, "warm", &[]) {
            Ok(coolant) => {
                found += 1;
                let turns = |each: &ElementState| (1850.0..2700.0).contains(&each.reynolds);
                near += usize::from(coolant.driven.elements.iter().any(turns));
                if coolant.driven.running {
                    closes(&machine, &coolant.driven);
                }
            }
            Err(NotJudged::OutsideRange { .. }) => {}
            Err(other) => panic!("loop {number}: {other:?}"),
        }
    }
    assert!(near > 150 && found > 900, "{near} {found}");
}

#[test]
fn the_air_through_an_exchanger_warms_and_follows_the_case() {
    let face = "outside: {area: 0.09 m², heat_transfer: 60 W/(m²·K)}";
    let with = |more: &str, changes: &[(&str, &str)], case| {
        let transfer = if more.contains("heat_transfer") { "" } else { "heat_transfer: 60 W/(m²·K), " };
        let face_as = format!("outside: {{area: 0.09 m², {transfer}{more}}}");
        let all: Vec<_> = changes.iter().copied().chain([LAGGED, (face, face_as.as_str())]).collect();
        coolant(&all, case).driven
    };
    let inlet = |found: &Circuit| found.elements[3].inlet.si() - 283.15;
    // By hand: what the air takes up warms it by heat over flow; the coolant is warmer by about half of that, a little less
    // where it flows better for it.
    let (endless, little) =
        (with("swept_by: ground", &[], "climb"), with("swept_by: fan, air_flow: 480 L/min", &[], "climb"));
    let open = physics::air::pressure(Length::from_si(800.0)).unwrap();
    let rises = 139.0 / (8e-3 * physics::air::density(celsius(10.0), open).si() * 1006.0);
    let hotter = inlet(&little) - inlet(&endless);
    assert!(hotter > 0.43 * rises && hotter < 0.6 * rises, "{hotter} of {rises}");
    assert!((little.elements[3].heat.si() + 139.0).abs() < 1e-4 && little.imbalance.abs() < 1e-6);
    // More wind, a larger opening, a fan: each cools better; at a stop nothing moves.
    let wind = |speed: &str| {
        with(
            "swept_by: driving",
            &[("climb: {kind: climb,", &format!("climb: {{kind: climb, speed: {speed},"))],
            "climb",
        )
    };
    assert!(inlet(&wind("12 km/h")) < inlet(&wind("4 km/h")) && inlet(&wind("4 km/h")) < inlet(&wind("0 km/h")));
    let small = with("swept_by: fan, opening: 40 cm²", &[], "climb");
    assert!(inlet(&small) > inlet(&with("swept_by: fan, opening: 200 cm²", &[], "climb")));
    let idles =
        [("climb: {kind: climb,", "climb: {kind: idle,"), ("heat: 90 W", "heat: 15 W"), ("heat: 40 W", "heat: 15 W")];
    let (stopped, blown) = (with("swept_by: driving", &idles, "climb"), with("swept_by: fan", &idles, "climb"));
    assert!(inlet(&stopped) > 3.0 * inlet(&blown), "{} {}", inlet(&stopped), inlet(&blown));
    let still = with("swept_by: own_draught, heat_transfer: 6 W/(m²·K)", &idles, "climb");
    assert!(inlet(&still) > inlet(&stopped));
}

#[test]
fn thick_coolant_at_a_cold_wall_takes_less_heat() {
    // Pure propylene glycol through a plate in the snow: the wall is far colder than what flows by, and the film pays for it.
    let snow = [
        ("glycol: 50 %", "glycol: 100 %"),
        ("ethylene", "propylene"),
        ("climb: {kind: climb,", "climb: {kind: climb, snow_on_plate: yes,"),
        ("plate_to_snow: 35", "plate_to_snow: 800"),
    ];
    let driven = coolant(&snow, "climb").driven;
    let deck = &driven.elements[3];
    let mean = 0.5 * (deck.inlet.si() + deck.outlet.si());
    let liquid = |kelvin: f64| {
        physics::coolant::pure_glycol(physics::coolant::Glycol::Propylene, ThermodynamicTemperature::from_si(kelvin))
            .unwrap()
    };
    let wall = 0.5 * (deck.wetted.0.si() + deck.wetted.1.si());
    let film = -deck.heat.si() / (mean - wall) / (2.0 * 10e-3 * 2.6);
    // Smooth flow that warms up in a channel of 6 × 4 mm, with nothing for the wall: by the formulas.
    let bulk = liquid(mean);
    let graetz = deck.reynolds * bulk.prandtl() * 4.8e-3 / 2.6;
    let settled = physics::heat::inside::rectangle_even_temperature(Ratio::from_si(4.0 / 6.0)).unwrap();
    let plain = physics::heat::inside::warming_up(settled, graetz) * bulk.conductivity.si() / 4.8e-3;
    let by_hand = (bulk.viscosity.si() / liquid(wall).viscosity.si()).powf(0.14);
    assert!(by_hand < 0.9 && (film / plain / by_hand - 1.0).abs() < 0.03, "{} {by_hand}", film / plain);
}

#[test]
fn no_pressure_lies_below_the_coolants_own_vapour() {
    // A plate high up on the suction side, on a mountain: less than nothing would be left.
    let high = ("name: deck,", "name: deck, height_above_level: 15 m,");
    let driven = coolant(&[high], "climb").driven;
    assert!(driven.elements.iter().all(|each| each.pressure.si() > 0.0 && each.entry.si() > 0.0));
    let mut draw = Draw(7);
    for _ in 0..100 {
        let machine = read(draw.spec());
        if let Ok(found) = solved(&machine, "warm", &[]) {
            assert!(found.driven.elements.iter().all(|each| each.pressure.si() > 0.0 && each.entry.si() > 0.0));
        }
    }
}

/// J that half glycol by mass and the walls hold above 10 °C: 300 mL of it, and 2 mm of metal behind each wetted wall.
fn stored(elements: &[ElementState]) -> f64 {
    let half =
        physics::coolant::glycol_water(physics::coolant::Glycol::Ethylene, Ratio::from_si(0.5), celsius(10.0)).unwrap();
    let coolant = 300e-6 * half.density.si() * half.heat_capacity.si();
    let walls = [(3, 0.052), (SWITCHES, 0.008), (WINDINGS, 0.0264)];
    let above = |place: usize| 0.5 * (elements[place].wetted.0.si() + elements[place].wetted.1.si()) - 283.15;
    coolant * (0.5 * (elements[0].inlet.si() + elements[0].outlet.si()) - 283.15)
        + walls.iter().map(|(place, area)| 2e-3 * 2.4e6 * area * above(*place)).sum::<f64>()
}

#[test]
fn a_short_case_ends_where_the_heat_capacity_lets_it_get() {
    let lasts = |duration: &str| {
        let case = format!("climb: {{kind: climb, duration: {duration},");
        coolant(&[LAGGED, ("climb: {kind: climb,", case.as_str())], "climb")
    };
    // In ten seconds 139 W go into coolant and walls, by hand; what leaves so soon is next to nothing.
    let ten = lasts("10 s");
    let short = ten.short.clone().unwrap();
    let kept = stored(&ten.at_end().elements);
    assert!((kept / 1390.0 - 1.0).abs() < 0.03, "{kept}");
    // What its heat gives to the coolant on the way is there at once: the jacket's wall is ahead of the rest.
    assert!(ten.at_end().elements[WINDINGS].wetted.1.si() > ten.at_end().elements[0].outlet.si() + 3.0);
    let settled = &ten.driven;
    assert!(short.beyond.is_none() && short.ended == *ten.at_end());
    let steady = coolant(&[LAGGED], "climb");
    assert!(steady.short.is_none());
    for (one, other) in settled.elements.iter().zip(&steady.driven.elements) {
        assert!((one.outlet.si() - other.outlet.si()).abs() < 1e-6);
    }
    assert!(short.lasts.si() == 10.0 && short.settles_in.si() > 300.0 && short.settles_in.si() < 3600.0);
    // Longer is warmer, up to where it settles, and from then on the case's length does not count.
    let mut before = 283.15;
    for duration in ["10 s", "30 s", "2 min", "5 min", "10 min", "20 min", "5 h"] {
        let jacket = lasts(duration).at_end().elements[WINDINGS].outlet.si();
        assert!(jacket > before - 1e-6 && jacket < steady.driven.elements[WINDINGS].outlet.si() + 1e-6, "{duration}");
        before = jacket;
    }
    assert!(lasts("5 h").short.is_none() && lasts("5 h").driven == steady.driven);
}

#[test]
fn a_short_burst_that_would_boil_in_the_end_is_judged_where_it_gets() {
    let burst = [("climb: {kind: climb,", "climb: {kind: climb, duration: 10 s,"), ("heat: 90 W", "heat: 900 W")];
    assert!(matches!(solved(&machine(&burst[1..]), "climb", &[]), Err(NotJudged::OutsideRange { .. })));
    let found = coolant(&burst, "climb");
    let kept = stored(&found.at_end().elements);
    assert!((kept / 9_490.0 - 1.0).abs() < 0.03, "{kept}");
    assert!(matches!(found.short.unwrap().beyond, Some(NotJudged::OutsideRange { .. })));
}

#[test]
fn a_short_case_begins_where_the_one_before_ended() {
    let after = (
        "  soak: {kind: soak}",
        "  soak: {kind: soak}\n  dash: {kind: climb, air: 10 °C, duration: 10 s, after: climb}\n  ring: {kind: climb, air: 10 °C, duration: 10 s, after: gnir}\n  gnir: {kind: climb, air: 10 °C, duration: 10 s, after: ring}\n  rest: {kind: idle, air: 10 °C, duration: 30 s, after: climb, heat: no}",
    );
    let (climb, dash) = (coolant(&[LAGGED], "climb").driven, coolant(&[LAGGED, after], "dash").at_end().clone());
    // The same heat goes on: it stays where it was.
    assert!((dash.elements[0].outlet.si() - climb.elements[0].outlet.si()).abs() < 0.1);
    let rest = coolant(&[LAGGED, after], "rest").at_end().clone();
    let cold = coolant(&[LAGGED, after, ("duration: 30 s", "duration: 9 h")], "rest").driven;
    assert!(
        rest.elements[0].outlet < climb.elements[0].outlet
            && rest.elements[0].outlet.si() > cold.elements[0].outlet.si() + 3.0
    );
    assert!(coolant(&[LAGGED, after], "ring").at_end().running);
}
