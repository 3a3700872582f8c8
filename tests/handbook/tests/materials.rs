//! The catalogue's materials against typical bands, and gear strengths against the laws that they were tabulated from.

#![allow(clippy::unwrap_used, clippy::panic)]

use document::{Document, Limits, NoFiles, Node};
use handbook::table;
use quantity::{Kind, Measure, m, read};

/// Our key, the band's name.
const ALIKE: &[(&str, &str)] = &[
    ("abs", "ABS_GENERIC"),
    ("asa", "Asa_GENERIC"),
    ("aluminium_5052", "Alu_G5052_H32"),
    ("aluminium_6061", "Alu_G6061_T6"),
    ("aluminium_7075", "Alu_G7075_T6"),
    ("brass", "Brass_C360_HALF_HARD"),
    ("bronze_cast", "Bronze_C93200_BEARING"),
    ("carbon_plate", "CFRP_PLATE"),
    ("chrome_steel", "AlloySteel.G52100_HARDENED_LOW_TEMPERED"),
    ("glass_plate", "FR4_GENERIC"),
    ("mild_steel", "MildSteel_PLAIN_CARBON_GENERIC"),
    ("pa12", "Nylon_PA12"),
    ("pa6", "Nylon_PA6"),
    ("pa66_moulded", "Nylon_PA6"),
    ("pa6_cast", "Nylon_PA6"),
    ("pc", "PC_GENERIC"),
    ("petg", "PETG_GENERIC"),
    ("petg_carbon_filled", "PETG_CF"),
    ("pla", "PLA_GENERIC"),
    ("pom", "POM_GENERIC"),
    ("pps_carbon_filled", "PPS_CF"),
    ("stainless_304", "Stainless_G304_ANNEALED"),
    ("stainless_316", "Stainless_G316L_ANNEALED"),
    ("steel_42crmo4", "AlloySteel_G4140_QUENCHED_TEMPERED"),
    ("steel_c45", "MildSteel_G1045_COLD_DRAWN"),
    ("titanium_6al4v", "Titanium_GR5_ANNEALED"),
    ("tpu_95a", "TPU_SHORE_95A"),
];

/// What lies outside its band, and why.
const OUTSIDE: &[(&str, &str, &str)] = &[
    ("brass", "modulus", "97 GPa is that of the annealed band beside it"),
    ("pc", "elongation_at_break", "a print breaks along its layers long before a moulded bar"),
    ("petg", "elongation_at_break", "a print breaks along its layers long before a moulded bar"),
    ("steel_c45", "tensile_strength", "ours is normalised, the band cold drawn"),
    ("steel_c45", "yield_strength", "ours is normalised, the band cold drawn"),
];

/// Our field, the band's columns, in SI units but for degrees and per cent.
const FIELDS: &[(&str, &Kind, &str, &str)] = &[
    ("tensile_strength", m::Stress::KIND, "tensile_strength_min_Pa", "tensile_strength_max_Pa"),
    ("yield_strength", m::Stress::KIND, "yield_strength_min_Pa", "yield_strength_max_Pa"),
    ("modulus", m::Modulus::KIND, "modulus_of_elasticity_min_Pa", "modulus_of_elasticity_max_Pa"),
    ("poisson", m::Ratio::KIND, "poisson_ratio_min", "poisson_ratio_max"),
    ("expansion", m::Expansion::KIND, "thermal_expansion_min_per_K", "thermal_expansion_max_per_K"),
    (
        "conductivity",
        m::ThermalConductivity::KIND,
        "thermal_conductivity_min_W_per_mK",
        "thermal_conductivity_max_W_per_mK",
    ),
    (
        "heat_capacity",
        m::HeatCapacity::KIND,
        "specific_heat_capacity_min_J_per_kgK",
        "specific_heat_capacity_max_J_per_kgK",
    ),
    ("service_temperature_max", m::Temperature::KIND, "max_service_temp_min_degC", "max_service_temp_max_degC"),
    (
        "glass_transition",
        m::Temperature::KIND,
        "glass_transition_temperature_min_degC",
        "glass_transition_temperature_max_degC",
    ),
    ("elongation_at_break", m::Growth::KIND, "elongation_at_break_min_percent", "elongation_at_break_max_percent"),
];

fn entry(key: &str) -> Node {
    let spec = format!("dryfit: 1\nmention: {key}\n");
    let document = Document::load("spec", spec.into_bytes(), &NoFiles, &catalogue::Catalogue, &Limits::default());
    document.root.get("materials").and_then(|all| all.get(key)).unwrap_or_else(|| panic!("no {key}")).clone()
}

fn number(node: &Node, kind: &'static Kind) -> f64 {
    let text = node.text().unwrap();
    if kind.bare { text.parse().unwrap() } else { read(text, kind).unwrap().si }
}

#[test]
fn figures_lie_inside_typical_bands_or_it_is_said_why_not() {
    let bands = table(include_str!("../data/materials_typical_ranges.csv"));
    let (mut compared, mut outside) = (0, Vec::new());
    for (key, name) in ALIKE {
        let band = bands.iter().find(|row| row.s("material") == *name).unwrap_or_else(|| panic!("no band {name}"));
        let material = entry(key);
        let density = number(material.get("density").unwrap(), m::Density::KIND);
        assert!((density / band.f("density_kg_per_m3") - 1.0).abs() < 0.07, "{key}: density {density}");
        for (field, kind, least, most) in FIELDS {
            let (Some(node), Some(low), Some(high)) = (material.get(field), band.opt(least), band.opt(most)) else {
                continue;
            };
            let (scale, zero) = if least.ends_with("degC") { (1.0, 273.15) } else { (1.0, 0.0) };
            let scale = if least.ends_with("percent") { 0.01 } else { scale };
            let (low, high, ours) = (low * scale + zero, high * scale + zero, number(node, kind));
            compared += 1;
            if ours < low * (1.0 - 1e-9) || ours > high * (1.0 + 1e-9) {
                outside.push((*key, *field, ours));
            }
        }
    }
    let said: Vec<(&str, &str)> = OUTSIDE.iter().map(|row| (row.0, row.1)).collect();
    let found: Vec<(&str, &str)> = outside.iter().map(|row| (row.0, row.1)).collect();
    assert_eq!(found, said, "{outside:?}");
    assert!(compared > 150, "{compared}");
}

/// VDI 2736-2, from memory, °C and MPa; low cycles are cut at the tensile strength, so only what lies below it is compared.
#[test]
fn root_strengths_are_those_of_their_laws() {
    let acetal = |t: f64, n: f64| 26.0 - 0.0025 * t * t + 400.0 * n.powf(-0.2);
    let nylon = |t: f64, n: f64| 30.0 - 0.22 * t + (4600.0 - 900.0 * t.powf(0.3)) * n.powf(-1.0 / 3.0);
    let laws: [(&str, &dyn Fn(f64, f64) -> f64); 2] = [("pom", &acetal), ("pa66_moulded", &nylon)];
    for (key, law) in laws {
        let material = entry(key);
        let tables = material.get("gear").and_then(|gear| gear.get("root_strength")).unwrap().items();
        assert_eq!(tables.len(), 5, "{key}");
        let (mut compared, mut colder) = (0, f64::INFINITY);
        for row in tables {
            let celsius = number(row.get("temperature").unwrap(), m::Temperature::KIND) - 273.15;
            let points = row.get("after_cycles").unwrap().entries();
            let values: Vec<f64> = points.iter().map(|point| number(&point.value, m::Stress::KIND) / 1e6).collect();
            assert!(values.windows(2).all(|pair| pair[1] <= pair[0]) && values[5] < colder, "{key} {celsius}");
            colder = values[5];
            for (point, value) in points.iter().zip(&values) {
                let cycles: f64 = point.key.parse().unwrap();
                if *value < 0.999 * values[0] {
                    compared += 1;
                    assert!((law(celsius, cycles) - value).abs() < 0.051, "{key} {celsius} {cycles}: {value}");
                } else {
                    assert!(law(celsius, cycles) >= *value - 0.051);
                }
            }
        }
        assert!(compared >= 18, "{key}: {compared}");
    }
}

/// The anodic index rises from noble to base; the series is in millivolts against calomel, so it falls.
#[test]
fn metals_stand_in_the_order_of_a_series_in_sea_water() {
    let series = table(include_str!("../data/galvanic_series.csv"));
    let alike = [
        ("aluminium_7075", "Aluminum 7075"),
        ("aluminium_6061", "Aluminum 6061"),
        ("mild_steel", "Mild Steel"),
        ("stainless_304", "Stainless 304 (active)"),
        ("stainless_316", "Stainless 316 (active)"),
        ("copper", "Copper"),
        ("titanium_6al4v", "Titanium"),
    ];
    let stands = |(key, name): &(&str, &str)| {
        let row = series.iter().find(|row| row.s("metal") == *name).unwrap_or_else(|| panic!("no {name}"));
        (number(entry(key).get("anodic_index").unwrap(), m::Voltage::KIND), row.f("potential_V_vs_SCE"))
    };
    let places: Vec<(f64, f64)> = alike.iter().map(stands).collect();
    for pair in places.windows(2) {
        assert!(pair[0].1 < pair[1].1 && pair[0].0 >= pair[1].0, "{pair:?}");
    }
}
