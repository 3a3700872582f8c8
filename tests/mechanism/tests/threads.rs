//! The number of threads does not show in a review: the same bytes with one and with four.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod specs;

use render::Reviewed;
use rulebook::OVERVIEWS;
use std::path::Path;

/// The lines and the JSON report.
fn printed(path: &Path, threads: usize) -> (String, String) {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
    pool.install(|| {
        let (document, machine) = specs::sound(path);
        let review = engine::review(&document, &machine, &specs::rules(), OVERVIEWS, None);
        let reviewed = Reviewed {
            document,
            complaints: Vec::new(),
            outcome: Some((machine, review)),
            drawn: render::Drawn::default(),
        };
        (render::lines(&reviewed), serde_json::to_string_pretty(&render::report(&reviewed)).unwrap())
    })
}

#[test]
fn one_thread_and_four_print_the_same_bytes() {
    for path in std::iter::once(specs::everything()).chain(specs::examples()) {
        let alone = printed(&path, 1);
        assert!(!alone.0.is_empty() && alone.1.contains("\"findings\""), "{}", path.display());
        for _ in 0..2 {
            let together = printed(&path, 4);
            assert!(alone.0 == together.0, "lines of {}:\n{}\nand\n{}", path.display(), alone.0, together.0);
            assert!(alone.1 == together.1, "the report of {} depends on the number of threads", path.display());
        }
    }
}

/// What the report promises in its schema, it keeps.
#[test]
fn reports_obey_their_schema() {
    let validator = jsonschema::validator_for(&render::report_schema()).unwrap();
    for path in std::iter::once(specs::everything()).chain(specs::examples()) {
        let report: serde_json::Value = serde_json::from_str(&printed(&path, 2).1).unwrap();
        let errors: Vec<String> = validator.iter_errors(&report).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{}: {errors:?}", path.display());
    }
}
