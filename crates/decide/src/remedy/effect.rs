//! What a change does to the whole machine.

use engine::Finding;
use rule::{Consequence, Verdict};
use solve::Item;

/// One check, as it is named before and after a change.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Name {
    pub rule: &'static str,
    pub subject: String,
    pub check: &'static str,
}

impl Name {
    pub(super) fn of(finding: &Finding) -> Self {
        Self { rule: finding.card.name, subject: finding.subject.name.clone(), check: finding.check }
    }
}

/// What a check will come to.
#[derive(Debug, Clone, PartialEq)]
pub struct Foretold {
    pub name: Name,
    pub verdict: Verdict,
    pub headroom: f64,
}

/// The machine before and after.
#[derive(Debug, Clone, Default)]
pub struct Effect {
    /// Failed or thin, now sound or no longer a question.
    pub cleared: Vec<Name>,
    /// Failed, now only thin.
    pub eased: Vec<Name>,
    /// Fails, and did not before.
    pub broken: Vec<Name>,
    /// Thin, and was not before.
    pub thinned: Vec<Name>,
    /// Was judged, and can no longer be.
    pub unjudged: Vec<Name>,
    /// The gravest margin before and after: a failure first, then the class, then the headroom.
    pub gravest: (Option<Foretold>, Option<Foretold>),
    /// How much heavier it gets, in kg, and how much dearer; none where sizes, densities or prices do not tell.
    pub mass: Option<f64>,
    pub price: Option<f64>,
    /// Every check afterwards, in the order in which the rules ask.
    pub after: Vec<Foretold>,
}

impl Effect {
    /// `conceded` findings are nobody's gravest.
    pub(super) fn between(before: &[Finding], after: &[Finding]) -> Self {
        let mut effect = Self { after: after.iter().map(foretold).collect(), ..Self::default() };
        for old in before {
            let new = twin(after, old);
            let name = || Name::of(old);
            let (was, is) = (old.verdict, new.map_or(Verdict::Sound, |new| new.verdict));
            match (was, is) {
                (Verdict::Fails | Verdict::Thin, Verdict::Partly | Verdict::Sound) => effect.cleared.push(name()),
                (Verdict::Fails, Verdict::Thin) => effect.eased.push(name()),
                (Verdict::Fails, Verdict::Fails) | (Verdict::Thin, Verdict::Thin) => {}
                (_, Verdict::Fails | Verdict::Broken) if was != Verdict::Broken => effect.broken.push(name()),
                (_, Verdict::Thin) if was != Verdict::Broken => effect.thinned.push(name()),
                (Verdict::Fails | Verdict::Thin | Verdict::Partly | Verdict::Sound, Verdict::NotJudged)
                | (Verdict::Sound, Verdict::Partly) => effect.unjudged.push(name()),
                _ => {}
            }
        }
        for new in after.iter().filter(|new| twin(before, new).is_none()) {
            match new.verdict {
                Verdict::Fails | Verdict::Broken => effect.broken.push(Name::of(new)),
                Verdict::Thin => effect.thinned.push(Name::of(new)),
                Verdict::NotJudged => effect.unjudged.push(Name::of(new)),
                Verdict::Partly | Verdict::Sound => {}
            }
        }
        let conceded = |finding: &Finding| twin(before, finding).is_some_and(|old| !old.stands());
        effect.gravest = (gravest(before, &conceded), gravest(after, &conceded));
        effect
    }

    /// Costs nothing elsewhere.
    pub(super) fn is_harmless(&self) -> bool {
        self.broken.is_empty() && self.thinned.is_empty() && self.unjudged.is_empty()
    }

    /// What weighs or costs another amount than before.
    pub(super) fn weigh(&mut self, before: &[Item], after: &[Item]) {
        let pairs = || {
            let now = |old: &Item| after.iter().find(|new| new.of == old.of).copied();
            before.iter().filter_map(move |old| Some((*old, now(old)?)))
        };
        let sum = |of: fn(&Item) -> Option<f64>| {
            let differences = pairs().filter_map(|(old, new)| Some(of(&new)? - of(&old)?)).filter(|by| *by != 0.0);
            differences.fold(None, |sum, by| Some(sum.unwrap_or(0.0) + by))
        };
        self.mass = sum(|item| item.mass);
        self.price = sum(|item| item.price);
    }

    /// The gravest margin of the machine has less left over than before.
    pub(super) fn worsens_the_gravest(&self) -> bool {
        match &self.gravest {
            (Some(before), Some(after)) => {
                let level = |told: &Foretold| told.verdict;
                level(after) < level(before) || level(after) == level(before) && after.headroom < before.headroom
            }
            _ => false,
        }
    }
}

/// The same check on the same thing.
pub(super) fn twin<'a>(among: &'a [Finding], finding: &Finding) -> Option<&'a Finding> {
    among.iter().find(|other| {
        other.card.name == finding.card.name && other.subject == finding.subject && other.check == finding.check
    })
}

fn foretold(finding: &Finding) -> Foretold {
    Foretold { name: Name::of(finding), verdict: finding.verdict, headroom: finding.headroom() }
}

fn gravest(findings: &[Finding], conceded: &dyn Fn(&Finding) -> bool) -> Option<Foretold> {
    let level = |finding: &Finding| match finding.verdict {
        Verdict::Broken | Verdict::Fails => 0,
        Verdict::Thin => 1,
        _ => 2,
    };
    let class = |finding: &Finding| finding.consequence.unwrap_or(Consequence::CheapPart);
    let judged = findings.iter().filter(|finding| finding.verdict != Verdict::NotJudged && !conceded(finding));
    let worst = judged.min_by(|a, b| {
        let by_class = level(a).cmp(&level(b)).then(class(a).cmp(&class(b)));
        by_class.then(a.headroom().total_cmp(&b.headroom()))
    });
    worst.map(foretold)
}
