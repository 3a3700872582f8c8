//! The review as JSON, with a schema of its own.

use crate::Reviewed;
use crate::clean::clean;
use crate::place::start;
use crate::source::Sources;
use crate::words;
use crate::workshop;
use engine::{Finding, Governing};
use machine::{Document, Machine, NodeId};
use rule::Held;
use schemars::JsonSchema;
use serde::Serialize;

/// One file's result.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Report {
    /// Format number of this report.
    pub dryfit: u32,
    pub file: String,
    /// What keeps the spec from being reviewed.
    pub complaints: Vec<Said>,
    pub machine: Option<String>,
    pub revision: Option<String>,
    pub findings: Vec<Found>,
    pub remarks: Vec<Said>,
    /// Absent inputs, by the number of checks that wait for each.
    pub worth_finding_out: Vec<Absent>,
    /// The few of them that let the most checks be judged; none where no few would do.
    pub worth_finding_out_first: Option<Few>,
    pub unused_concessions: Vec<String>,
    /// Numbers of the spec that no check has asked for.
    pub read_by_no_check: Vec<String>,
    /// What `workshop.yaml` says for all machines; none where there is no such file, or it only marks the root.
    pub workshop: Option<Workshop>,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Workshop {
    pub file: String,
    pub profile: Option<String>,
    /// What the profile changes.
    pub means: Option<String>,
    pub refuse: Option<String>,
    /// Required reserves that no margin of this machine answers to.
    pub unused_reserves: Vec<Said>,
}

/// A sentence with its place.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Said {
    pub says: String,
    pub help: String,
    pub at: Spot,
}

/// Lines and columns count from 1, columns in characters; offsets are bytes.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Spot {
    pub file: String,
    pub line: usize,
    pub column: usize,
    pub offset: usize,
    pub length: usize,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Found {
    pub rule: String,
    pub subject: String,
    pub check: String,
    pub verdict: String,
    pub consequence: Option<String>,
    pub happens: String,
    pub numbers: Vec<String>,
    /// In SI units; none for a breach, a clearance or a gap.
    pub margin: Option<Numbers>,
    /// Where it is worst; none where it is the same in every case.
    pub case: Option<String>,
    /// Outside air there in °C.
    pub air: Option<f64>,
    pub labels: Vec<Said>,
    pub clears: Vec<String>,
    /// Paths of all figures that it read.
    pub reads: Vec<String>,
    /// Those that are numbers, as written: with them the margin can be worked out again by hand.
    pub figures: Vec<Figure>,
    /// It misses by less than its guesses scatter: the guess that decides most.
    pub on_guesses: Option<String>,
    pub carried_by: Vec<Carrier>,
    pub assumed: Vec<String>,
    pub weakest_basis: Option<String>,
    pub not_judged: Vec<String>,
    pub conceded: Option<String>,
    /// It is told and refuses nothing.
    pub advice: bool,
    pub at: Spot,
}

/// A number that a margin was worked out from.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Figure {
    pub input: String,
    /// With its unit, as its file says it.
    pub value: String,
    pub si: f64,
    /// What it is a number of.
    pub measure: String,
    /// `weighed`, `measured`, `label`, `guess` as the author wrote it, else where the catalogue has it from.
    pub basis: Option<String>,
    /// It stands in for what is not given.
    pub assumed: bool,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Numbers {
    /// `ratio` or `gap`.
    pub kind: String,
    pub demand: f64,
    pub capacity: f64,
    /// None: there is no load.
    pub reserve: Option<f64>,
    pub required: f64,
    pub headroom: Option<f64>,
    /// What demand and capacity are.
    pub measure: String,
    pub why_required: String,
    /// Where `workshop.yaml` requires it in place of the rule.
    pub required_by: Option<Demand>,
}

/// A required reserve of `workshop.yaml`.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Demand {
    /// The name under which it stands there.
    pub reserve: String,
    pub reason: String,
    /// What the rule itself wants, and why.
    pub rule_wants: f64,
    pub why: String,
    /// The verdict without the workshop's requirement.
    pub otherwise: String,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Carrier {
    pub input: String,
    /// Per cent of the reserve (of a gap: of what counts as 100 %) for one step of the input.
    pub influence: f64,
    /// `1 %` or `1 K`.
    pub step: String,
}

#[derive(Debug, Serialize, JsonSchema)]
pub struct Absent {
    pub input: String,
    pub checks: usize,
    pub how_to_measure: Option<String>,
}

/// Absent inputs that are wanted together.
#[derive(Debug, Serialize, JsonSchema)]
pub struct Few {
    pub inputs: Vec<String>,
    /// Checks that are judged once all of them are given.
    pub checks: usize,
}

/// The JSON Schema of a report.
#[must_use]
pub fn report_schema() -> serde_json::Value {
    titled(schemars::schema_for!(Report), "report")
}

/// A schema with its name.
pub(crate) fn titled(schema: schemars::Schema, name: &str) -> serde_json::Value {
    let mut schema = schema.to_value();
    if let Some(root) = schema.as_object_mut() {
        root.insert("title".into(), format!("dryfit {name}").into());
        root.insert("$id".into(), format!("urn:dryfit:schema:{name}:1").into());
    }
    schema
}

/// Eight significant digits: more would differ between platforms in the last bits.
pub(crate) fn rounded(number: f64) -> f64 {
    format!("{number:.8e}").parse().unwrap_or(number)
}

pub(crate) fn finite(number: f64) -> Option<f64> {
    number.is_finite().then(|| rounded(number))
}

/// The margin where it is thinnest.
pub(crate) fn numbers(finding: &Finding) -> Option<Numbers> {
    let governing = finding.governing.as_ref()?;
    let (kind, demand, capacity) = match governing.margin.held {
        Held::Ratio { demand, capacity } => ("ratio", demand, capacity),
        Held::Gap { demand, capacity, .. } => ("gap", demand, capacity),
    };
    Some(Numbers {
        kind: kind.into(),
        demand: rounded(demand.si),
        capacity: rounded(capacity.si),
        reserve: finite(governing.reserve),
        required: governing.margin.required.value,
        headroom: finite(governing.headroom),
        measure: demand.kind.key.into(),
        why_required: words::why_required(governing),
        required_by: governing.demanded.as_ref().map(|demanded| Demand {
            reserve: clean(&demanded.key.name),
            reason: clean(&demanded.reason),
            rule_wants: demanded.rule.value,
            why: demanded.rule.why.into(),
            otherwise: demanded.without.word().into(),
        }),
    })
}

/// The margin, if it depends on the case.
fn somewhere(finding: &Finding) -> Option<&Governing> {
    finding.governing.as_ref().filter(|governing| !governing.everywhere)
}

pub(crate) fn case(finding: &Finding) -> Option<String> {
    somewhere(finding).map(|governing| clean(&governing.case.name))
}

/// In °C.
pub(crate) fn air(finding: &Finding) -> Option<f64> {
    somewhere(finding).and_then(|governing| governing.case.air).map(|air| rounded(air - 273.15))
}

pub(crate) fn conceded(finding: &Finding) -> Option<String> {
    finding.concession.as_ref().filter(|conceded| conceded.holds).map(|conceded| clean(&conceded.reason))
}

pub(crate) fn carried(document: &Document, carriers: &[engine::Carrier]) -> Vec<Carrier> {
    let carrier = |carrier: &engine::Carrier| Carrier {
        input: words::input(document, carrier.node),
        influence: rounded(carrier.influence),
        step: words::step(carrier.step).into(),
    };
    carriers.iter().map(carrier).collect()
}

/// Every number that a finding read, in the order of the text; both ends of a range.
fn figures(document: &Document, machine: &Machine, finding: &Finding) -> Vec<Figure> {
    let assumed = |node: NodeId| {
        let mut assumed = finding.reads.assumed.iter();
        assumed.any(|one| matches!(one, machine::Assumption::Figure { instead, .. } if *instead == node))
    };
    let figure = |node: NodeId| {
        let (si, kind) = (machine.row().si(node)?, machine.fields().kind(node)?);
        let stated = machine.row().stated(node).map(|stated| stated.written().trim_matches(['(', ')']).to_owned());
        let basis = || engine::basis_of(document, node).map(|basis| basis.word().to_owned());
        Some(Figure {
            input: words::input(document, node),
            value: quantity::show(si, kind, machine.row().unit(node)),
            si: rounded(si),
            measure: kind.key.to_owned(),
            basis: stated.or_else(basis),
            assumed: assumed(node),
        })
    };
    finding.reads.nodes.iter().filter_map(figure).collect()
}

fn spot(sources: &Sources, file: usize, offset: usize, length: usize) -> Spot {
    let (line, column) = sources.get(file).map_or((1, 1), |text| text.position(offset));
    let file = sources.get(file).map_or_else(String::new, |text| text.name.clone());
    Spot { file, line, column, offset, length }
}

/// Where a thing is written.
pub(crate) fn at(document: &Document, machine: &Machine, sources: &Sources, node: NodeId) -> Spot {
    let node = machine.written(node);
    let (file, offset) = start(document, node);
    spot(sources, file, offset, document.place(node).label.len())
}

/// One file's result as data.
#[must_use]
pub fn report(reviewed: &Reviewed) -> Report {
    let document = &reviewed.document;
    let sources = Sources::of(document);
    let spot = |file, offset, length| spot(&sources, file, offset, length);
    let complaints = reviewed.complaints.iter().map(|complaint| Said {
        says: clean(&complaint.says),
        help: clean(&complaint.help),
        at: spot(usize::from(complaint.file.0), complaint.span.start as usize, complaint.span.len()),
    });
    let mut report = Report {
        dryfit: 1,
        file: document.files.first().map_or_else(String::new, |file| clean(&file.name)),
        complaints: complaints.collect(),
        machine: None,
        revision: None,
        findings: Vec::new(),
        remarks: Vec::new(),
        worth_finding_out: Vec::new(),
        worth_finding_out_first: None,
        unused_concessions: Vec::new(),
        read_by_no_check: Vec::new(),
        workshop: None,
    };
    let Some((machine, review)) = &reviewed.outcome else { return report };
    report.machine = Some(clean(&machine.machine.name));
    report.revision = machine.machine.revision.as_deref().map(clean);
    let at = |node| at(document, machine, &sources, node);
    let name = |node: NodeId| match machine.absent(node) {
        Some(_) => words::absent_name(document, machine, node),
        None => clean(&document.path(node)),
    };
    for finding in &review.findings {
        let labels = finding.words.labels.iter().map(|label| Said {
            says: clean(&label.says),
            help: String::new(),
            at: at(label.node),
        });
        report.findings.push(Found {
            rule: finding.card.name.into(),
            subject: clean(&finding.subject.name),
            check: finding.check.into(),
            verdict: finding.verdict.word().into(),
            consequence: finding.consequence.map(|consequence| consequence.word().into()),
            happens: words::headline(document, machine, finding),
            numbers: words::numbers(document, finding),
            margin: numbers(finding),
            case: case(finding),
            air: air(finding),
            labels: labels.collect(),
            clears: finding.words.clears.iter().map(|change| clean(change)).collect(),
            reads: finding.reads.nodes.iter().map(&name).collect(),
            figures: figures(document, machine, finding),
            on_guesses: finding.on_guesses.map(&name),
            carried_by: carried(document, &finding.carriers),
            assumed: words::assumptions(document, machine, finding),
            weakest_basis: finding.weakest.map(|basis| basis.word().into()),
            not_judged: finding
                .gaps
                .iter()
                .map(|(case, gap)| format!("{}: {}", words::case(case), words::gap_says(document, machine, gap)))
                .collect(),
            conceded: conceded(finding),
            advice: finding.advice,
            at: at(finding.subject.node),
        });
    }
    report.remarks = review
        .remarks
        .iter()
        .map(|(card, remark)| Said {
            says: clean(&format!("{}: {}", remark.subject.name, remark.words.happens)),
            help: card.name.into(),
            at: at(remark.words.labels.first().map_or(remark.subject.node, |label| label.node)),
        })
        .collect();
    report.worth_finding_out = review
        .unlocks
        .waiting
        .iter()
        .map(|unlock| Absent {
            input: name(unlock.absent),
            checks: unlock.checks,
            how_to_measure: words::how(machine, unlock.absent).map(str::to_owned),
        })
        .collect();
    report.worth_finding_out_first = review.unlocks.together.as_ref().map(|together| Few {
        inputs: together.absent.iter().map(|absent| name(*absent)).collect(),
        checks: together.checks,
    });
    report.workshop = workshop::page(document, machine, review, &|node| at(node));
    report.read_by_no_check = review.unread.iter().map(|node| name(*node)).collect();
    report.unused_concessions = review.unused_concessions.iter().map(|key| clean(&key.name)).collect();
    report
}
