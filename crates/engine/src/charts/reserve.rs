//! Reserves that go with one figure of the machine, as their rules tell it.

use super::shown;
use crate::chart::{Axis, Chart, Drawing, Line, Mark, Picture};
use crate::finding::{Finding, Governing};
use crate::review::Review;
use machine::{Machine, WhatIf};
use quantity::{Unit, m, show};
use rule::{Course, Outcome, Rule};

/// One margin with its course.
struct Followed<'a> {
    finding: &'a Finding,
    governing: &'a Governing,
    course: Course,
}

/// One drawing for each subject and figure.
pub(super) fn drawings(machine: &Machine, rules: &[&dyn Rule], review: &Review) -> Vec<Drawing> {
    let followed: Vec<Followed<'_>> = review
        .findings
        .iter()
        .filter_map(|finding| {
            let governing = finding.governing.as_ref()?;
            Some(Followed { finding, governing, course: course(machine, rules, review, finding)? })
        })
        .collect();
    let mut groups: Vec<Vec<Followed<'_>>> = Vec::new();
    for one in followed {
        let alike = |group: &&mut Vec<Followed<'_>>| {
            group.first().is_some_and(|first| {
                first.finding.subject == one.finding.subject && first.course.along == one.course.along
            })
        };
        match groups.iter_mut().find(alike) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups.iter().filter_map(|group| drawing(group)).collect()
}

/// As told, or by asking the check once more where nobody wanted its words.
fn course(machine: &Machine, rules: &[&dyn Rule], review: &Review, finding: &Finding) -> Option<Course> {
    if finding.words.course.is_some() {
        return finding.words.course.clone();
    }
    let rule = rules.get(finding.place().rule)?;
    match review.run.one(machine, *rule, finding.place(), &WhatIf::default(), &[], true)?.outcome {
        Outcome::Held(margin) => margin.words.course,
        _ => None,
    }
}

fn drawing(group: &[Followed<'_>]) -> Option<Drawing> {
    let first = group.first()?;
    let (along, kind) = (first.course.along, first.course.kind);
    let unit: &'static Unit = kind.units.first()?;
    let required = group.iter().map(|one| one.governing.margin.required.value).fold(0.0, f64::max);
    // What has plenty is told, and not drawn: it would press all that matters flat.
    let few = group.iter().map(|one| one.governing.reserve).filter(|reserve| *reserve < 3.0 * required);
    let most = few.fold(1.5 * required, |most, reserve| most.max(1.1 * reserve));
    let fastest = group.iter().map(|one| one.course.now).fold(0.0, f64::max);
    let ends = group.iter().filter_map(|one| until(&one.course, 1.0)).fold(f64::INFINITY, f64::min);
    let far = if ends.is_finite() { (1.1 * ends).clamp(1.5 * fastest, 3.0 * fastest) } else { 1.5 * fastest };
    let mut lines: Vec<Line> = group.iter().map(|one| line(one, required)).collect();
    let points = |at: f64| vec![(0.0, at), (far, at)];
    let level = |name: String, at: f64| Line { name, says: String::new(), limit: true, points: points(at) };
    lines.push(level(format!("required: {}", shown::<m::Ratio>(required)), required));
    lines.push(level("1: it holds just so".into(), 1.0));
    let mark = |one: &Followed<'_>| Mark {
        name: format!("{} in case {}", one.finding.check, one.governing.case.name),
        says: format!("reserve {} at {}", shown::<m::Ratio>(one.governing.reserve), show(one.course.now, kind, None)),
        at: (one.course.now, one.governing.reserve),
    };
    let chart = Chart {
        shows: "A line is what is left of one place as that figure changes and all else in its worst case stays; each case is \
                the one in which the place has least. A mark is where that case stands."
            .into(),
        x: Axis { name: along, unit, tenfold: false, most: Some(far) },
        y: Axis { most: Some(most), ..Axis::plain("reserve") },
        lines,
        marks: group.iter().map(mark).collect(),
        missing: Vec::new(),
    };
    Some(Drawing {
        title: format!("Reserve of the {} against the {along}", first.finding.subject.name),
        found: Ok(Picture::Chart(chart)),
    })
}

/// Up to which figure that reserve is left; nothing where it never is.
fn until(course: &Course, reserve: f64) -> Option<f64> {
    course.points.iter().take_while(|point| point.1 >= reserve).last().map(|point| point.0)
}

fn line(one: &Followed<'_>, required: f64) -> Line {
    let kind = one.course.kind;
    let told = |reserve: f64| match until(&one.course, reserve) {
        Some(figure) => format!("{} up to about {}", shown::<m::Ratio>(reserve), show(figure, kind, None)),
        None => format!("{} nowhere", shown::<m::Ratio>(reserve)),
    };
    Line {
        name: one.finding.check.into(),
        says: format!("reserve {}, {}", told(required), told(1.0)),
        limit: false,
        points: one.course.points.clone(),
    }
}
