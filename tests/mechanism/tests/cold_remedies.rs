//! What is proposed for springs and dampers is never worse in the cold without saying so.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod specs;

use decide::remedy::{remedies, select};
use engine::{Finding, review};
use rayon::prelude::*;
use rule::Verdict;
use rulebook::RULES;

/// Rules that judge a strut.
const OF_STRUTS: [&str; 5] =
    ["spring-travel-reserve", "damper-cold", "spring-stress", "spring-seat-range", "bottoming"];

#[test]
fn no_change_of_a_spring_or_damper_deepens_another_failure_of_its_strut_or_hides_one() {
    let tried: Vec<(usize, Vec<String>)> = specs::examples()
        .par_iter()
        .map(|path| {
            let (document, machine) = specs::sound(path);
            let review = review(&document, &machine, RULES, &[], None);
            let mut chosen: Vec<usize> =
                OF_STRUTS.iter().flat_map(|rule| select(&review, None, Some(rule)).unwrap_or_default()).collect();
            chosen.dedup();
            let targets = remedies(&document, &machine, RULES, &review, &chosen, None, &|| ());
            let (mut count, mut wrong) = (0, Vec::new());
            for target in &targets {
                let cured = &review.findings[target.finding];
                for remedy in &target.remedies {
                    count += 1;
                    let of_strut = |finding: &&Finding| {
                        OF_STRUTS.contains(&finding.card.name) && finding.subject.name == cured.subject.name
                    };
                    for old in review.findings.iter().filter(of_strut) {
                        let is = |name: &decide::remedy::Name| {
                            name.rule == old.card.name && name.subject == old.subject.name && name.check == old.check
                        };
                        let Some(new) = remedy.effect.after.iter().find(|new| is(&new.name)) else { continue };
                        let said = remedy
                            .effect
                            .broken
                            .iter()
                            .chain(&remedy.effect.thinned)
                            .chain(&remedy.effect.unjudged)
                            .any(is);
                        let fails = new.verdict == Verdict::Fails;
                        let silent = match old.verdict {
                            Verdict::Fails => fails && new.headroom < old.headroom() - 0.1,
                            Verdict::Thin => fails && !said,
                            Verdict::Sound => new.verdict != Verdict::Sound && !said,
                            _ => false,
                        };
                        if silent {
                            wrong.push(format!("{}: {} {:?}: {new:?}", path.display(), cured.check, remedy.changes));
                        }
                    }
                }
            }
            (count, wrong)
        })
        .collect();
    let wrong: Vec<&String> = tried.iter().flat_map(|(_, wrong)| wrong).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
    assert!(tried.iter().map(|(count, _)| count).sum::<usize>() >= 5, "hardly anything was proposed");
}
