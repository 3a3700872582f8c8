//! Coolants: Melinder (International Institute of Refrigeration, 2010), IAPWS-IF97 and Perry, with ASHRAE Fundamentals
//! 2001 as the second opinion.

use handbook::{Row, table};
use physics::coolant::*;
use physics::range::OutsideRange;
use quantity::*;

fn properties(row: &Row) -> Result<Properties, OutsideRange> {
    let (fraction, temperature) = (Ratio::from_si(row.f("x_mass_frac")), celsius(row.f("T_degC")));
    match row.s("fluid") {
        "water" => water(temperature),
        "ethylene_glycol_water" => glycol_water(Glycol::Ethylene, fraction, temperature),
        "propylene_glycol_water" => glycol_water(Glycol::Propylene, fraction, temperature),
        "ethylene_glycol_pure" => pure_glycol(Glycol::Ethylene, temperature),
        "propylene_glycol_pure" => pure_glycol(Glycol::Propylene, temperature),
        other => unreachable!("no fluid {other}"),
    }
}

fn close(row: &Row, column: &str, ours: f64, tolerance: f64) {
    let Some(printed) = row.opt(column) else { return };
    let off = ours / printed - 1.0;
    let (fluid, x, t) = (row.s("fluid"), row.s("x_mass_frac"), row.s("T_degC"));
    assert!(off.abs() < tolerance, "{fluid} {x} at {t} °C: {column} {printed}, worked out {ours}");
}

#[test]
fn four_properties() {
    let rows = table(include_str!("../data/coolants.csv"));
    assert_eq!(rows.len(), 329);
    for row in rows.iter().filter(|row| row.s("extrapolated") == "0") {
        let found = properties(row).unwrap();
        // Mixtures are the same polynomials; water and pure glycols are other equations for the same liquid.
        let mixed = row.s("fluid").ends_with("_water");
        let (plain, thick) = if mixed { (1e-8, 1e-6) } else { (2.5e-3, 2e-2) };
        close(row, "rho_kg_per_m3", found.density.si(), plain);
        close(row, "cp_J_per_kgK", found.heat_capacity.si(), plain);
        close(row, "k_W_per_mK", found.conductivity.si(), plain);
        close(row, "mu_Pa_s", found.viscosity.si(), thick);
        // The other handbook lies this far off; its worst rows are those of 50 and 60 % below −20 °C.
        close(row, "rho_alt_kg_per_m3", found.density.si(), 0.011);
        close(row, "cp_alt_J_per_kgK", found.heat_capacity.si(), 0.06);
        close(row, "k_alt_W_per_mK", found.conductivity.si(), 0.06);
        if row.f("T_degC") >= 0.0 {
            close(row, "mu_alt_Pa_s", found.viscosity.si(), 0.2);
        }
    }
}

#[test]
fn beyond_the_tables_is_refused() {
    let rows = table(include_str!("../data/coolants.csv"));
    let beyond: Vec<&Row> = rows.iter().filter(|row| row.s("extrapolated") == "1").collect();
    assert!(!beyond.is_empty());
    assert!(beyond.iter().all(|row| properties(row).is_err()));
}

#[test]
fn freezing_and_fractions() {
    let rows = table(include_str!("../data/freezing.csv"));
    assert_eq!(rows.len(), 60);
    for row in &rows {
        let glycol = if row.s("fluid").starts_with("ethylene") { Glycol::Ethylene } else { Glycol::Propylene };
        let fraction = Ratio::from_si(row.f("x_mass_frac"));
        let freezes = freezing_temperature(glycol, fraction).unwrap().si() - 273.15;
        assert!((freezes - row.f("T_freeze_degC")).abs() < 1e-6);
        if let Some(printed) = row.opt("T_freeze_alt_degC") {
            assert!((freezes - printed).abs() < 3.5, "ASHRAE 2001");
        }
        // What is judged by is the warmer of both sets.
        let (warmer, colder) = physics::freezing::freezing_spread(glycol, fraction).unwrap();
        let other = row.opt("T_freeze_alt_degC").unwrap_or(freezes);
        assert!((warmer.si() - 273.15 - freezes.max(other)).abs() < 1e-3, "{}", row.s("x_mass_frac"));
        assert!((colder.si() - 273.15 - freezes.min(other)).abs() < 1e-3, "{}", row.s("x_mass_frac"));
        row.prints("x_vol_frac_20C", volume_fraction_from_mass_fraction(glycol, fraction).si(), 9);
    }
}

#[test]
fn bursting_against_a_chart_of_freeze_and_burst_protection() {
    let rows = table(include_str!("../data/burst.csv"));
    assert_eq!(rows.len(), 11);
    for row in &rows {
        let glycol = if row.s("glycol") == "ethylene" { Glycol::Ethylene } else { Glycol::Propylene };
        let printed = (row.f("T_degF") - 32.0) / 1.8;
        let mass = |name| mass_fraction_from_volume_fraction(glycol, Ratio::from_si(row.f(name) / 100.0));
        let freezes = freezing_temperature(glycol, mass("freeze_vol_percent")).unwrap().si() - 273.15;
        // The chart is for antifreeze with inhibitors, and rounds up: pure ethylene glycol freezes up to 5.4 K lower.
        assert!(freezes - printed < 1.0 && freezes - printed > -5.5, "{} {printed}: {freezes}", row.s("glycol"));
        let bursts = physics::freezing::burst_temperature(glycol, mass("burst_vol_percent")).unwrap().si() - 273.15;
        assert!(bursts - printed < 8.7 && bursts - printed > -1.0, "{} {printed}: {bursts}", row.s("glycol"));
    }
}

/// By how much coolant filled at 20 °C shrinks or grows, by our densities and by those printed.
#[test]
fn contraction() {
    let rows = table(include_str!("../data/coolants.csv"));
    let (mut compared, mut second) = (0, 0);
    for row in rows.iter().filter(|row| row.s("extrapolated") == "0") {
        let alike = |other: &&Row| ["fluid", "x_mass_frac"].iter().all(|column| other.s(column) == row.s(column));
        let Some(filled) = rows.iter().filter(alike).find(|other| other.f("T_degC") == 20.0) else { continue };
        let ours = 1.0 - (properties(filled).unwrap().density / properties(row).unwrap().density).si();
        let printed = 1.0 - filled.f("rho_kg_per_m3") / row.f("rho_kg_per_m3");
        // Densities of pure liquids are within a quarter of a per cent, and so is what they shrink by.
        let tolerance = if row.s("fluid").ends_with("_water") { 1e-8 } else { 2.5e-3 };
        let about = format!("{} {} at {} °C", row.s("fluid"), row.s("x_mass_frac"), row.s("T_degC"));
        assert!((ours - printed).abs() < tolerance, "{about}: {printed}, worked out {ours}");
        compared += 1;
        if let (Some(at_filling), Some(here)) = (filled.opt("rho_alt_kg_per_m3"), row.opt("rho_alt_kg_per_m3")) {
            // Two handbooks part by 5 in 1000 of the volume where it is coldest or hottest.
            assert!(
                (ours - (1.0 - at_filling / here)).abs() < 6e-3,
                "{about}: {ours} against {}",
                1.0 - at_filling / here
            );
            second += 1;
        }
    }
    assert!(compared > 250 && second > 150, "{compared} {second}");
}

/// Density of water as handbooks print it (CRC Handbook of Chemistry and Physics, 1 atm, g/cm³, from memory): fullest at 4 °C,
/// and by 4.3 % larger when it boils.
#[test]
fn water_is_fullest_at_four_degrees() {
    for (degrees, printed) in
        [(4.0, 0.99997), (10.0, 0.99970), (20.0, 0.99821), (40.0, 0.99222), (60.0, 0.98320), (80.0, 0.97182)]
    {
        let ours = water(celsius(degrees)).unwrap().density.si() / 1000.0;
        // Our tables are for 3 bar, which press water together by one in ten thousand.
        assert!((ours - printed).abs() < 2e-4, "{degrees} °C: {printed}, worked out {ours}");
    }
}
