//! How sure each verdict is, and which measurement is worth making: for reading, and as JSON.

mod terminal;

pub use terminal::terminal;

use crate::clean::clean;
use crate::json::{self, Spot};
use crate::source::Sources;
use crate::words;
use decide::uncertainty::{self as decided, About, Sampled, Uncertainty, Width};
use engine::{Finding, Review};
use machine::{Document, Machine, NodeId};
use rule::{Consequence, Held, Verdict};
use schemars::JsonSchema;
use serde::Serialize;

/// All verdicts with their chances.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Page {
    /// Format number.
    pub dryfit: u32,
    pub file: String,
    pub machine: String,
    pub revision: Option<String>,
    pub samples: usize,
    pub seed: u64,
    /// Share of the samples in which something fails that hurts somebody or strands the machine, and is not conceded.
    pub anything_grave_fails: Chance,
    pub worth_measuring: Worth,
    /// Of the margins that rest on a drawn input, gravest consequence first, then the likeliest to fail.
    pub margins: Vec<Row>,
    /// Of the checks that rest on nothing drawn: they are as the review says.
    pub untouched: Vec<Untouched>,
    /// Checks without a verdict, because an input is missing.
    pub not_judged: usize,
    pub drawn: Vec<Drawn>,
    /// Figures of the spec and its libraries that have neither a tolerance nor a basis.
    pub taken_as_exact: Vec<String>,
    /// Built-in figures that stand in for what is not given; not drawn.
    pub assumed: Vec<String>,
    /// None where every sample ran in every case point.
    pub left_out: Option<LeftOut>,
}

/// A share of the samples, and the interval that holds the true chance in 95 of 100 cases.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Chance {
    pub share: f64,
    pub low: f64,
    pub high: f64,
}

/// Inputs by what knowing each alone would settle.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Worth {
    /// Whether this happens is what the inputs settle: `grave_fails`, else `fails`, else `short` (fails or is thin), else
    /// `nothing` is open.
    pub about: String,
    pub inputs: Vec<Measurement>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Measurement {
    pub input: String,
    /// Part of the doubt that is gone once the input is known.
    pub share: f64,
    /// The check for which it decides most.
    pub decides: Check,
    pub how_to_measure: Option<String>,
    pub at: Spot,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Check {
    pub rule: String,
    pub subject: String,
    pub check: String,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Row {
    #[serde(flatten)]
    pub check: Check,
    pub verdict_as_written: String,
    pub consequence: Option<String>,
    pub conceded: Option<String>,
    /// Samples in which it could be judged; the chances are shares of them.
    pub judged: u32,
    /// Samples in which the check itself failed.
    pub broken: u32,
    pub fails: Chance,
    pub thin: Chance,
    /// In SI units.
    pub reserve: Option<Reserve>,
    pub at: Spot,
}

/// 5, 50 and 95 % of the samples lie below; null is without limit.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Reserve {
    /// `ratio` or `gap`.
    pub kind: String,
    pub at_5: Option<f64>,
    pub at_50: Option<f64>,
    pub at_95: Option<f64>,
    pub required: f64,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Untouched {
    #[serde(flatten)]
    pub check: Check,
    pub verdict: String,
    pub consequence: Option<String>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Drawn {
    pub input: String,
    /// Where its width comes from: `plus_minus`, `weighed`, `measured`, `label`, `guess`, `spread`.
    pub width_from: String,
    /// In SI units; none for a table, whose points are drawn as one.
    pub value: Option<f64>,
    /// Two standard deviations, in SI units.
    pub half_width: Option<f64>,
    pub measure: Option<String>,
    pub how_to_measure: Option<String>,
    pub at: Spot,
}

/// Checks times case points, and how the choice was verified.
#[derive(Debug, Serialize, JsonSchema)]
pub struct LeftOut {
    pub all: usize,
    pub kept: usize,
    /// Samples that ran in all of them.
    pub full_samples: usize,
    /// Those among them on which the choice was verified.
    pub verified_samples: usize,
    /// Margins for which that made a difference, so that theirs all ran in every sample.
    pub widened: usize,
}

/// The JSON Schema of the page.
#[must_use]
pub fn schema() -> serde_json::Value {
    json::titled(schemars::schema_for!(Page), "uncertainty")
}

/// All of it as data.
#[must_use]
pub fn page(document: &Document, machine: &Machine, review: &Review, sampled: &Uncertainty) -> Page {
    let sources = Sources::of(document);
    let at = |node: NodeId| json::at(document, machine, &sources, node);
    let measurement = |one: &decided::Measurement| {
        let input = sampled.inputs.get(one.input)?;
        Some(Measurement {
            input: words::input(document, input.node),
            share: json::rounded(one.share),
            decides: check(review.findings.get(one.finding)?),
            how_to_measure: input.how_to_measure.clone(),
            at: at(input.node),
        })
    };
    let row = |(finding, margin): (&Finding, &Sampled)| Row {
        check: check(finding),
        verdict_as_written: finding.verdict.word().into(),
        consequence: consequence(finding),
        conceded: json::conceded(finding),
        judged: margin.judged,
        broken: margin.broken,
        fails: chance(margin.fails),
        thin: chance(margin.thin),
        reserve: reserve(finding, margin),
        at: at(finding.subject.node),
    };
    let untouched = |finding: &Finding| Untouched {
        check: check(finding),
        verdict: finding.verdict.word().into(),
        consequence: consequence(finding),
    };
    let drawn = |input: &decided::Input| Drawn {
        input: words::input(document, input.node),
        width_from: width_from(input.width).into(),
        value: input.value.map(|value| json::rounded(value.0)),
        half_width: input.value.map(|value| json::rounded(value.1)),
        measure: input.value.map(|value| value.2.key.into()),
        how_to_measure: input.how_to_measure.clone(),
        at: at(input.node),
    };
    Page {
        dryfit: 1,
        file: document.files.first().map_or_else(String::new, |file| clean(&file.name)),
        machine: clean(&machine.machine.name),
        revision: machine.machine.revision.as_deref().map(clean),
        samples: sampled.plan.samples,
        seed: sampled.plan.seed,
        anything_grave_fails: chance(sampled.any_grave),
        worth_measuring: Worth {
            about: about(sampled.worth.about).into(),
            inputs: sampled.worth.inputs.iter().filter_map(measurement).collect(),
        },
        margins: by_weight(review, sampled).into_iter().map(row).collect(),
        untouched: untouched_findings(review, sampled).map(untouched).collect(),
        not_judged: review.count(Verdict::NotJudged),
        drawn: sampled.inputs.iter().map(drawn).collect(),
        taken_as_exact: sampled.exact.iter().map(|node| words::input(document, *node)).collect(),
        assumed: sampled.assumed.iter().map(|node| words::input(document, *node)).collect(),
        left_out: sampled.left_out.map(|left_out| LeftOut {
            all: left_out.all,
            kept: left_out.kept,
            full_samples: left_out.full,
            verified_samples: left_out.verified,
            widened: left_out.widened,
        }),
    }
}

fn untouched_findings<'a>(review: &'a Review, sampled: &'a Uncertainty) -> impl Iterator<Item = &'a Finding> {
    sampled.untouched.iter().filter_map(|index| review.findings.get(*index))
}

/// The sampled margins: gravest consequence first, then by the chance of failing, then of being thin.
fn by_weight<'a>(review: &'a Review, sampled: &'a Uncertainty) -> Vec<(&'a Finding, &'a Sampled)> {
    let finding = |margin: &'a Sampled| Some((review.findings.get(margin.finding)?, margin));
    let mut margins: Vec<(&Finding, &Sampled)> = sampled.margins.iter().filter_map(finding).collect();
    margins.sort_by(|(a, a_sampled), (b, b_sampled)| {
        let likelier = |of: fn(&Sampled) -> f64| of(b_sampled).total_cmp(&of(a_sampled));
        let class = |finding: &Finding| finding.consequence.unwrap_or(Consequence::CheapPart);
        let chance = likelier(|margin| margin.fails.share).then_with(|| likelier(|margin| margin.thin.share));
        class(a).cmp(&class(b)).then(chance).then_with(|| a.headroom().total_cmp(&b.headroom()))
    });
    margins
}

fn check(finding: &Finding) -> Check {
    Check { rule: finding.card.name.into(), subject: clean(&finding.subject.name), check: finding.check.into() }
}

fn consequence(finding: &Finding) -> Option<String> {
    finding.consequence.map(|consequence| consequence.word().into())
}

fn chance(chance: decided::Chance) -> Chance {
    Chance { share: json::rounded(chance.share), low: json::rounded(chance.low), high: json::rounded(chance.high) }
}

fn reserve(finding: &Finding, margin: &Sampled) -> Option<Reserve> {
    let (governing, [at_5, at_50, at_95]) = (finding.governing.as_ref()?, margin.reserve?);
    let kind = match governing.margin.held {
        Held::Ratio { .. } => "ratio",
        Held::Gap { .. } => "gap",
    };
    Some(Reserve {
        kind: kind.into(),
        at_5: json::finite(at_5),
        at_50: json::finite(at_50),
        at_95: json::finite(at_95),
        required: governing.margin.required.value,
    })
}

fn about(about: About) -> &'static str {
    match about {
        About::GraveFails => "grave_fails",
        About::Fails => "fails",
        About::Short => "short",
        About::Nothing => "nothing",
    }
}

fn width_from(width: Width) -> &'static str {
    match width {
        Width::PlusMinus => "plus_minus",
        Width::Stated(stated) => stated.written().trim_matches(['(', ')']),
        Width::Spread(_) => "spread",
    }
}
