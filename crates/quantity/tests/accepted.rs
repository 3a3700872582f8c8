//! What is accepted, and as which number.

#![allow(clippy::unwrap_used)]

use quantity::{Measure, Stated, m, read, read_range};

fn near(left: Option<f64>, right: Option<f64>) -> bool {
    match (left, right) {
        (Some(left), Some(right)) => (left - right).abs() <= 1e-12 * right.abs(),
        (left, right) => left == right,
    }
}

#[test]
fn accepted_values() {
    for (text, kind, si, plus_minus, basis) in [
        ("12 mm", m::Length::KIND, 0.012, None, None),
        (" 12\u{a0}mm ", m::Length::KIND, 0.012, None, None),
        ("12\"", m::Length::KIND, 0.3048, None, None),
        ("-15 mm", m::Position::KIND, -0.015, None, None),
        ("−15 mm ± 10 %", m::Position::KIND, -0.015, Some(0.0015), None),
        ("1.9e-3 kg·m²", m::Inertia::KIND, 0.0019, None, None),
        ("41 kg ± 2 kg", m::Mass::KIND, 41.0, Some(2.0), None),
        ("41 kg ± 2", m::Mass::KIND, 41.0, Some(2.0), None),
        ("41 kg +- 200 g (weighed)", m::Mass::KIND, 41.0, Some(0.2), Some(Stated::Weighed)),
        ("41 kg (guess) +/- 5%", m::Mass::KIND, 41.0, Some(2.05), Some(Stated::Guess)),
        ("20 °C ± 2 K", m::Temperature::KIND, 293.15, Some(2.0), None),
        ("20 °C ± 2 °C", m::Temperature::KIND, 293.15, Some(2.0), None),
        ("68 °F ± 9 °F (label)", m::Temperature::KIND, 293.15, Some(5.0), Some(Stated::Label)),
        // Where per cent is the unit itself, a tolerance in per cent means points, not a share.
        ("40 % ± 5 %", m::Percentage::KIND, 0.4, Some(0.05), None),
        ("0.62 ± 5 % (measured)", m::Ratio::KIND, 0.62, Some(0.031), Some(Stated::Measured)),
        ("4.5 N m", m::Torque::KIND, 4.5, None, None),
        ("8800 rpm", m::RotationalSpeed::KIND, 8800.0 * std::f64::consts::PI / 30.0, None, None),
    ] {
        let written = read(text, kind).unwrap();
        assert!(near(Some(written.si), Some(si)) && near(written.plus_minus, plus_minus), "{text} {written:?}");
        assert_eq!(written.basis, basis, "{text}");
    }
}

#[test]
fn accepted_ranges() {
    for (text, kind, low, high) in [
        ("-30 °C to 8 °C", m::Temperature::KIND, 243.15, 281.15),
        ("-30 to 8 °C", m::Temperature::KIND, 243.15, 281.15),
        ("600 m to 1.4 km", m::Altitude::KIND, 600.0, 1400.0),
        ("5 °C", m::Temperature::KIND, 278.15, 278.15),
        ("0.5 to 0.7", m::Ratio::KIND, 0.5, 0.7),
    ] {
        let (first, second) = read_range(text, kind).unwrap();
        assert!(near(Some(first.si), Some(low)) && near(Some(second.si), Some(high)), "{text}");
        assert_eq!(first.unit.is_some(), !kind.bare, "{text}");
    }
    let (low, high) = read_range("600 m to 1400 m (guess)", m::Altitude::KIND).unwrap();
    assert_eq!((low.basis, high.basis), (Some(Stated::Guess), Some(Stated::Guess)));
}
