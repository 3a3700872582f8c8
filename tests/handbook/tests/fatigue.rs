//! Many loads as one: Miner's sum of a textbook, equivalent torque of a load of two levels.

use handbook::table;
use physics::fatigue::{equivalent_load, slope_exponent, used_life};
use physics::gear::{Life, flank_life, root_life};
use quantity::*;

fn ratio(of: f64) -> Ratio {
    Ratio::from_si(of)
}

#[test]
fn miners_sum_of_a_textbook() {
    for row in &table(include_str!("../data/miner.csv")) {
        let strength = |column| Pressure::from_si(row.f(column));
        let (few, many) = ((ratio(1e3), strength("strength_1e3_kpsi")), (ratio(1e6), strength("strength_1e6_kpsi")));
        let exponent = slope_exponent(few, many).si();
        let life = |stress: f64| 1e6 * (row.f("strength_1e6_kpsi") / stress).powf(exponent);
        let (stress, cycles) = (row.f("stress_kpsi"), row.f("cycles"));
        row.prints("life", life(stress), 3);
        row.prints("left", life(stress) - cycles, 3);
        // What is left of its life at the old limit is a million cycles at the new one.
        let left = 1e6 * (1.0 - used_life(&[(ratio(cycles), ratio(life(stress)))]).si());
        let damaged = row.f("strength_1e6_kpsi") * (left / 1e6).powf(1.0 / exponent);
        row.prints("damaged_limit_kpsi", damaged, 3);
        // As one load: those cycles and what is left use up all of it.
        let both = [(Pressure::from_si(stress), ratio(cycles)), (many.1, ratio(left))];
        let one = equivalent_load(&both, ratio(exponent)).si();
        assert!((life(one) / (cycles + left) - 1.0).abs() < 1e-9, "{one}");
    }
}

#[test]
fn equivalent_torque_of_two_levels() {
    let rows = table(include_str!("../data/equivalent_torque.csv"));
    assert_eq!(rows.len(), 3);
    for row in &rows {
        let root = |life: Life, few: f64| {
            slope_exponent((ratio(few), root_life(ratio(few), life)), (ratio(3e6), root_life(ratio(3e6), life)))
        };
        let bears = |cycles: f64| flank_life(ratio(cycles)) * flank_life(ratio(cycles));
        let exponent = match row.s("of") {
            "root_plain" => root(Life::Plain, 1e4),
            "root_hardened" => root(Life::Hardened, 1e3),
            _ => slope_exponent((ratio(1e5), bears(1e5)), (ratio(5e7), bears(5e7))),
        };
        let printed = if row.s("of") == "flank" { 3 } else { 4 };
        row.prints("exponent", exponent.si(), printed);
        let torque = Torque::from_si;
        let levels = [(torque(100.0), ratio(2e5)), (torque(60.0), ratio(8e5))];
        row.prints("equivalent_Nm", equivalent_load(&levels, ratio(row.f("exponent"))).si(), 4);
    }
}
