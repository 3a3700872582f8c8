//! The sentences of a finding, the same in every format.

use crate::clean::{clean, short};
use crate::fold::cut;
use engine::{Carrier, CaseLabel, Finding, Governing, Review, Step};
use machine::{Assumption, Complaint, Document, Machine, NodeId, NotJudged, how_to_measure};
use quantity::{Kind, Measure, Unit, m, show};
use rule::{Consequence, Figure, Held, Margin, Verdict};
use std::collections::{BTreeMap, BTreeSet};

/// The author's own unit for a number: that of the first number of its kind among those that the finding read, in which
/// it is neither a long row of digits nor a small share of one.
pub(crate) fn own_unit(document: &Document, finding: &Finding, figure: Figure) -> Option<&'static Unit> {
    let kind = figure.kind;
    let mut units = finding.reads.nodes.iter().filter_map(|node| {
        let place = document.place(node.node());
        let builtin = document.file(place.file).is_none_or(|file| file.built_in);
        let text = document.slice(place.file, place.span);
        if builtin || text.is_empty() { None } else { quantity::unit_of(text.trim_matches(['"', '\'']), kind) }
            // `12 K` is a difference far more often than a reading of a thermometer.
            .filter(|unit| kind.key != "temperature" || unit.offset != 0.0)
    });
    let handy = |unit: &&'static Unit| (0.5..5000.0).contains(&((figure.si - unit.offset) / unit.factor).abs());
    let first = units.next()?;
    if figure.si == 0.0 || handy(&first) {
        return Some(first);
    }
    let others: Vec<&'static Unit> = units.collect();
    // Where none is handy, that in which its digits begin nearest to the point.
    let off = |unit: &&&'static Unit| ((figure.si - unit.offset) / unit.factor).abs().log10().abs();
    let nearest = || others.iter().chain([&first]).min_by(|a, b| off(a).total_cmp(&off(b)));
    others.iter().find(|unit| handy(unit)).or_else(nearest).copied()
}

/// Demand and capacity in one unit, the one that suits the capacity, or the demand where there is no capacity at all.
fn pair(document: &Document, finding: &Finding, demand: Figure, capacity: Figure) -> (String, String) {
    let unit = own_unit(document, finding, if capacity.si == 0.0 { demand } else { capacity });
    (show(demand.si, demand.kind, unit), show(capacity.si, capacity.kind, unit))
}

/// What is wrong, and the way out.
pub(crate) fn complaint(complaint: &Complaint) -> String {
    let help = if complaint.help.is_empty() { String::new() } else { format!("; {}", complaint.help) };
    clean(&format!("{}{help}", complaint.says))
}

/// `case climb at -30 °C`.
pub(crate) fn case(label: &CaseLabel) -> String {
    let name = short(&label.name);
    match label.air {
        Some(air) if name.is_empty() => format!("at {}", show(air, <m::Temperature as Measure>::KIND, None)),
        Some(air) => format!("case {name} at {}", show(air, <m::Temperature as Measure>::KIND, None)),
        None if name.is_empty() => "in no case".into(),
        None => format!("case {name}"),
    }
}

/// Where a margin is worst: `case climb at -30 °C`, or `every case`.
pub(crate) fn place(governing: &Governing) -> String {
    if governing.everywhere { "every case".into() } else { case(&governing.case) }
}

/// What happens, in one sentence.
pub(crate) fn headline(document: &Document, machine: &Machine, finding: &Finding) -> String {
    let subject = short(&finding.subject.name);
    match finding.verdict {
        Verdict::Broken => {
            format!("{subject}: the check itself failed ({})", finding.broken.as_deref().unwrap_or("no reason given"))
        }
        Verdict::NotJudged => {
            let why = finding.gaps.first().map_or_else(String::new, |(_, gap)| gap_says(document, machine, gap));
            format!("{subject} · {}: {why}", finding.check)
        }
        Verdict::Partly => {
            let gap = finding.gaps.first();
            let why = gap.map_or_else(String::new, |(label, gap)| {
                format!(": not judged in {}: {}", case(label), gap_says(document, machine, gap))
            });
            format!("{subject} · {}{why}", finding.check)
        }
        _ if finding.words.happens.is_empty() => format!("{subject}: {}", finding.check),
        // Names of the spec may stand in it, and nobody reads them to the end.
        _ => format!("{subject}: {}", cut(&clean(&finding.words.happens), 600)),
    }
}

/// Demand, capacity, reserve, requirement, case.
pub(crate) fn numbers(document: &Document, finding: &Finding) -> Vec<String> {
    let mut out = Vec::new();
    if let Some(governing) = &finding.governing {
        let required = &governing.margin.required;
        let (Held::Ratio { demand, capacity } | Held::Gap { demand, capacity, .. }) = governing.margin.held;
        let (asked, stands) = pair(document, finding, demand, capacity);
        let check = finding.check;
        let why = why_required(governing);
        out.push(match governing.margin.held {
            Held::Ratio { .. } if demand.si == 0.0 => format!("{check}: no load"),
            Held::Ratio { .. } => {
                let (reserve, wanted) = (ratio(governing.reserve), ratio(required.value));
                format!("{check}: {asked} against {stands}: reserve {reserve}, required {wanted} ({why})")
            }
            Held::Gap { kind, .. } => {
                let gap = |si: f64| show(si, kind, gap_unit(kind, &governing.margin));
                let (left, wanted) = (gap(governing.reserve), gap(required.value));
                format!("{check}: {asked} against {stands}: {left} left, required {wanted} ({why})")
            }
        });
        let place = place(governing);
        out.push(if governing.everywhere { format!("the same in {place}") } else { format!("worst in {place}") });
    }
    if let Some(node) = finding.on_guesses {
        out.push(format!(
            "on guesses: their scatter is wider than what is missing; `{}` decides most",
            input(document, node)
        ));
    }
    out.extend(finding.words.numbers.iter().map(|sentence| clean(sentence)));
    out
}

/// Things with numbers that no check has asked for, in the order of the text: `structure.parts.bumper (length, width)`.
pub(crate) fn unread(document: &Document, nodes: &[NodeId]) -> Vec<String> {
    let mut things: Vec<(String, Vec<String>)> = Vec::new();
    for path in nodes.iter().map(|node| document.path(*node)) {
        let (thing, field) = path.rsplit_once('.').unwrap_or(("", &path));
        match things.last_mut().filter(|last| last.0 == thing) {
            Some((_, fields)) => fields.push(field.to_owned()),
            None => things.push((thing.to_owned(), vec![field.to_owned()])),
        }
    }
    things.into_iter().map(|(thing, fields)| clean(&format!("{thing} ({})", fields.join(", ")))).collect()
}

/// Why so much is required: the rule's reason, or the workshop's.
pub(crate) fn why_required(governing: &Governing) -> String {
    match &governing.demanded {
        Some(demanded) => format!("workshop.yaml: {}", cut(&clean(&demanded.reason), 200)),
        None => governing.margin.required.why.to_owned(),
    }
}

/// Heads the changes that a rule proposes: it counts with its own requirement.
pub(crate) fn would_clear(finding: &Finding) -> String {
    let demanded = finding.governing.as_ref().and_then(|governing| Some((governing, governing.demanded.as_ref()?)));
    demanded.map_or_else(
        || "what would clear it".to_owned(),
        |(governing, demanded)| {
            let own = amount(demanded.rule.value, &governing.margin);
            format!("what would clear it by the rule's own {own} (`dryfit remedy` counts with workshop.yaml's)")
        },
    )
}

/// Why a finding refuses nothing; none for one that does.
pub(crate) fn accepted(finding: &Finding) -> Option<String> {
    let conceded = finding.concession.as_ref().filter(|conceded| conceded.holds);
    let by = if finding.on_guesses.is_some() {
        "workshop.yaml: what rests on guesses"
    } else {
        "workshop.yaml's profile `sport`"
    };
    let advice = || finding.advice.then(|| format!("advice by {by}"));
    conceded.map(|conceded| clean(&conceded.reason)).or_else(advice)
}

/// The unit in which both are told, what is left and what is required: that of the larger one; of temperatures K.
fn gap_unit(kind: &'static Kind, margin: &Margin) -> Option<&'static Unit> {
    if kind.key == "temperature_difference" {
        return kind.units.first();
    }
    quantity::unit_for(margin.held.reserve().abs().max(margin.required.value.abs()), kind)
}

/// A ratio with the digits that decide: 0.987 is not 1.
pub(crate) fn ratio(value: f64) -> String {
    if value.is_infinite() {
        return "no load".into();
    }
    let digits = if value.abs() < 10.0 { 2 } else { 0 };
    let text = format!("{value:.digits$}");
    if text == "1.00" && value.to_bits() != 1.0_f64.to_bits() { format!("{value:.4}") } else { text }
}

pub(crate) fn gap_says(document: &Document, machine: &Machine, gap: &NotJudged) -> String {
    match gap {
        NotJudged::NotGiven { absent, .. } => format!("`{}` is not given", absent_name(document, machine, *absent)),
        NotJudged::OutsideRange { of, unit: "K", from, to, was } => {
            let degrees = |kelvin: f64| show(kelvin, <m::Temperature as Measure>::KIND, None);
            format!(
                "{} is known from {} to {}, and {} is asked",
                clean(of),
                degrees(*from),
                degrees(*to),
                degrees(*was)
            )
        }
        NotJudged::OutsideRange { of, unit, from, to, was } => {
            let plain = |number: &f64| quantity::show_bare(*number, <m::Ratio as Measure>::KIND);
            let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
            let (of, from, to, was) = (clean(of), plain(from), plain(to), plain(was));
            format!("{of} is known from {from} to {to}{unit}, and {was}{unit} is asked")
        }
        NotJudged::NoSolution(reason) | NotJudged::Failed(reason) => clean(reason),
    }
}

/// The whole path of an absent field, as one would write it.
pub(crate) fn absent_name(document: &Document, machine: &Machine, absent: NodeId) -> String {
    let above = document.path(machine.written(absent));
    let field = machine.absent_path(absent);
    let path = if above.is_empty() {
        field
    } else if field.is_empty() {
        above
    } else {
        format!("{above}.{field}")
    };
    clean(&path)
}

pub(crate) fn how(machine: &Machine, absent: NodeId) -> Option<&'static str> {
    let absent = machine.absent(absent)?;
    how_to_measure(absent.owner, absent.field)
}

/// One sentence for each assumption.
pub(crate) fn assumptions(document: &Document, machine: &Machine, finding: &Finding) -> Vec<String> {
    finding
        .reads
        .assumed
        .iter()
        .map(|assumption| match assumption {
            Assumption::Figure { absent, instead } => {
                format!("{} = {}", absent_name(document, machine, *absent), clean(document.text(*instead)))
            }
            Assumption::Word { absent, instead } => format!("{} = {instead}", absent_name(document, machine, *absent)),
            Assumption::AtMost { of, instead } => format!("{} = {instead}", input(document, *of)),
        })
        .collect()
}

/// An input by its path, or by its text where it has none.
pub(crate) fn input(document: &Document, node: NodeId) -> String {
    let path = document.path(node);
    clean(if path.is_empty() { document.text(node) } else { &path })
}

/// What carries a margin, by name.
pub(crate) fn carriers(document: &Document, carriers: &[Carrier]) -> Vec<String> {
    carriers
        .iter()
        .map(|one| format!("{} ({:+.1} % for {})", input(document, one.node), one.influence, step(one.step)))
        .collect()
}

/// The machine and its revision.
pub(crate) fn title(machine: &Machine) -> String {
    let revision = machine.machine.revision.as_deref();
    let revision = revision.map_or_else(String::new, |revision| format!(", revision {}", short(revision)));
    format!("{}{revision}", short(&machine.machine.name))
}

/// A share with its sign, in whole per cent where it is large; nobody needs to know how much more than tenfold it is.
pub(crate) fn percent(share: f64) -> String {
    let value = share * 100.0;
    match value.abs() {
        small if small < 9.95 => format!("{value:+.1} %"),
        large if large < 999.5 => format!("{value:+.0} %"),
        _ if value < 0.0 => "<-999 %".into(),
        _ => ">+999 %".into(),
    }
}

/// `0.70`, or `-12 K` of a gap.
pub(crate) fn amount(value: f64, margin: &Margin) -> String {
    match margin.held {
        Held::Ratio { .. } => ratio(value),
        Held::Gap { kind, .. } => show(value, kind, gap_unit(kind, margin)),
    }
}

/// The step by which an input was moved.
pub(crate) fn step(step: Step) -> &'static str {
    match step {
        Step::Percent => "1 %",
        Step::Kelvin => "1 K",
    }
}

/// What failing costs, as a heading.
pub(crate) fn heading(finding: &Finding) -> &'static str {
    match (finding.verdict, finding.consequence) {
        (Verdict::Broken, _) => "broken: the check itself failed",
        (_, Some(Consequence::Harm)) => "harm: somebody is hurt",
        (_, Some(Consequence::Stranded)) => "stranded: the machine is lost or left outside",
        (_, Some(Consequence::RunOver)) => "run over: the day is over",
        (_, Some(Consequence::CheapPart)) => "cheap part: spoilt, and soon replaced",
        (_, None) => "right whatever the numbers are",
    }
}

/// For each case in which checks could not be judged that others could: how many, and why the first of them.
pub(crate) fn partly(document: &Document, machine: &Machine, review: &Review) -> Vec<String> {
    let mut cases: BTreeMap<&str, (BTreeSet<usize>, BTreeSet<String>)> = BTreeMap::new();
    let judged = review.findings.iter().enumerate().filter(|(_, finding)| finding.verdict != Verdict::NotJudged);
    for (index, finding) in judged {
        for (case, gap) in &finding.gaps {
            let (checks, why) = cases.entry(&case.name).or_default();
            checks.insert(index);
            why.insert(gap_says(document, machine, gap));
        }
    }
    let told = |(case, (checks, why)): (&str, (BTreeSet<usize>, BTreeSet<String>))| {
        let many = if checks.len() == 1 { "one check".into() } else { format!("{} checks", checks.len()) };
        let more = if why.len() > 1 { "; and for other reasons" } else { "" };
        format!("case {}: {many}: {}{more}", short(case), why.first().map_or("", String::as_str))
    };
    cases.into_iter().map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use quantity::{Length, Quantity};
    use rule::Required;

    #[test]
    fn what_is_left_is_told_in_the_unit_of_what_is_required() {
        let mm = |number: f64| Length::from_si(number * 1e-3);
        let required = |mm: f64| Required { value: mm * 1e-3, why: "" };
        let told = |left: f64, wanted: f64| {
            let margin = Margin::gap::<m::Length, m::Position>(
                mm(80.0),
                mm(80.0 + left),
                mm(10.0),
                required(wanted),
                Consequence::Stranded,
            );
            [margin.held.reserve(), wanted * 1e-3].map(|value| amount(value, &margin))
        };
        assert_eq!(told(0.783, 5.4), ["0.783 mm", "5.4 mm"]);
        assert_eq!(told(-0.0125, 0.045), ["-12.5 µm", "45 µm"]);
        assert_eq!(told(7.0, 0.045), ["7 mm", "0.045 mm"]);
    }
}
