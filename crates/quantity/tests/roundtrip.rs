//! Two laws: what is printed reads back, and the schema pattern accepts exactly the texts whose shape `read` accepts.

#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use proptest::prelude::*;
use quantity::{Kind, MisreadClass, m, pattern, range_pattern, read, read_range, show};
use regex::Regex;
use std::sync::LazyLock;

static PATTERNS: LazyLock<Vec<(Regex, Regex)>> = LazyLock::new(|| {
    let compiled = |text: String| Regex::new(&text).unwrap();
    m::ALL.iter().map(|kind| (compiled(pattern(kind)), compiled(range_pattern(kind)))).collect()
});

fn agree(text: &str, which: usize) {
    let kind = m::ALL[which];
    let (single, range) = &PATTERNS[which];
    let shaped = |class: Option<MisreadClass>| class != Some(MisreadClass::Shape);
    let read = read(text, kind);
    assert_eq!(single.is_match(text), shaped(read.as_ref().err().map(|e| e.class)), "{} {text:?} {read:?}", kind.key);
    let ends = read_range(text, kind);
    assert_eq!(range.is_match(text), shaped(ends.as_ref().err().map(|e| e.class)), "{} {text:?} {ends:?}", kind.key);
    for misread in read.err().into_iter().chain(ends.err()) {
        assert!(text.get(misread.span.clone()).is_some(), "{text:?} {misread:?}");
        assert!(!misread.says.is_empty() && !misread.help.is_empty(), "{text:?} {misread:?}");
    }
}

fn spellings(kind: &Kind) -> Vec<&'static str> {
    kind.units.iter().flat_map(|unit| std::iter::once(unit.symbol).chain(unit.also.iter().copied())).collect()
}

/// Every spelling of every measure, offered to every measure, near and far from the number.
#[test]
fn every_unit_for_every_measure() {
    for (which, _) in m::ALL.iter().enumerate() {
        for from in m::ALL {
            for spelling in spellings(from) {
                for text in [format!("12 {spelling}"), format!("12{spelling}"), format!("1  {spelling} ± 1 {spelling}")]
                {
                    agree(&text, which);
                }
            }
        }
    }
}

/// An accepted spelling gives its own unit, not one that it starts with.
#[test]
fn every_spelling_reads_as_its_unit() {
    for kind in m::ALL {
        for unit in kind.units {
            for spelling in std::iter::once(&unit.symbol).chain(unit.also) {
                let written = read(&format!("0.001 {spelling}"), kind).unwrap();
                assert_eq!(written.unit, Some(unit), "{spelling}");
                assert_eq!(written.si, 0.001 * unit.factor + unit.offset, "{spelling}");
            }
        }
        assert!(read(kind.example, kind).is_ok(), "{}", kind.example);
    }
}

#[test]
fn keys_are_unique() {
    for (at, kind) in m::ALL.iter().enumerate() {
        assert!(m::ALL[..at].iter().all(|other| other.key != kind.key), "{}", kind.key);
    }
}

fn number() -> BoxedStrategy<String> {
    prop_oneof![
        24 => "[0-9]{1,3}",
        8 => "[0-9]{1,3}\\.[0-9]{0,2}",
        1 => "\\.[0-9]{0,2}",
        2 => "[0-9]\\.[0-9]e[+-]?[0-9]{0,3}",
        1 => "[0-9]{1,2}[,_' ][0-9]{1,3}",
        1 => prop_oneof![Just("nan"), Just("inf"), Just("1e999"), Just("")].prop_map(str::to_owned),
    ]
    .boxed()
}

fn piece(which: usize) -> BoxedStrategy<String> {
    let own = spellings(m::ALL[which]);
    let own = if own.is_empty() { vec![""] } else { own };
    let unit = prop_oneof![
        24 => proptest::sample::select(own),
        1 => proptest::sample::select(m::ALL).prop_map(|kind| kind.units.first().map_or("", |unit| unit.symbol)),
        1 => prop_oneof![Just("%"), Just(""), Just("mil"), Just("K"), Just("xyz"), Just("MM")],
    ];
    let gap = proptest::sample::select(vec!["", " ", " ", " ", " ", " ", " ", " ", " ", "  ", "\u{a0}", "\t"]);
    let sign = proptest::sample::select(vec!["", "", "", "", "", "", "", "", "", "", "", "", "-", "+", "−", "- "]);
    (sign, number(), gap, unit).prop_map(|(sign, number, gap, unit)| format!("{sign}{number}{gap}{unit}")).boxed()
}

fn tail(which: usize) -> BoxedStrategy<String> {
    let pm = proptest::sample::select(vec![" ± ", " +- ", " +/- ", "±", " ±"]);
    let basis = proptest::sample::select(vec![
        " (weighed)",
        " (guess)",
        " (label)",
        "(label)",
        " (w)",
        " (Measured)",
        " (guess) ",
    ]);
    prop_oneof![
        3 => Just(String::new()),
        3 => (pm.clone(), piece(which)).prop_map(|(pm, piece)| pm.to_owned() + &piece),
        2 => basis.clone().prop_map(str::to_owned),
        1 => (pm.clone(), piece(which), basis.clone()).prop_map(|(pm, piece, basis)| format!("{pm}{piece}{basis}")),
        1 => (basis, pm, piece(which)).prop_map(|(basis, pm, piece)| format!("{basis}{pm}{piece}")),
    ]
    .boxed()
}

fn text(which: usize) -> impl Strategy<Value = String> {
    let value = || (piece(which), tail(which)).prop_map(|(piece, tail)| piece + &tail).boxed();
    let between =
        proptest::sample::select(vec![" to ", " to ", " to ", " to ", " to ", "  to ", "to", " - ", "..", " to to "]);
    let whole = prop_oneof![
        2 => value(),
        2 => (value(), between, value()).prop_map(|(low, between, high)| format!("{low}{between}{high}")),
    ];
    // Some texts get one character dropped, doubled or put in.
    (
        whole,
        any::<prop::sample::Index>(),
        0..16u8,
        proptest::sample::select(vec!['±', ' ', '-', '.', '(', 'e', '5', 'm', 't']),
    )
        .prop_map(|(text, at, how, extra)| {
            let mut characters: Vec<char> = text.chars().collect();
            if !characters.is_empty() {
                let at = at.index(characters.len());
                match how {
                    0 => drop(characters.remove(at)),
                    1 => characters.insert(at, characters[at]),
                    2 => characters.insert(at, extra),
                    _ => {}
                }
            }
            characters.into_iter().collect()
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 4000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn pattern_and_reader_agree((which, text) in (0..m::ALL.len()).prop_flat_map(|which| (Just(which), text(which)))) {
        agree(&text, which);
    }

    #[test]
    fn what_is_printed_reads_back(which in 0..m::ALL.len(), share in -1.0..1.0f64, decade in -6..6i32, own in any::<prop::sample::Index>(), by_author in any::<bool>()) {
        let kind = m::ALL[which];
        let scaled = kind.units.iter().any(|unit| unit.offset != 0.0);
        let si = if scaled { 300.0 + 290.0 * share } else { share * kind.typical * 10f64.powi(decade) };
        let si = if kind.bounds.least >= 0.0 { si.abs() } else { si };
        let si = if kind.whole { si.round() } else { si };
        // Inside both ends, whichever side of zero they lie on.
        let inside = |end: f64, outward: f64| if end * outward > 0.0 { end * 0.99 } else { end };
        let si = si.clamp(inside(kind.bounds.least, -1.0), inside(kind.bounds.most, 1.0));
        let si = if kind.bounds.above_least && si <= kind.bounds.least { kind.typical } else { si };
        let unit = (by_author && !kind.units.is_empty()).then(|| &kind.units[own.index(kind.units.len())]);
        let printed = show(si, kind, unit);
        let back = read(&printed, kind);
        prop_assert!(back.is_ok(), "{printed} {back:?}");
        let back = back.unwrap();
        if unit.is_some() {
            prop_assert_eq!(back.unit, unit);
        }
        let near = if scaled { 0.051 } else { si.abs() * 0.00501 };
        prop_assert!((back.si - si).abs() <= near, "{} {} {}", printed, si, back.si);
        prop_assert_eq!(show(back.si, kind, back.unit), printed);
    }
}
