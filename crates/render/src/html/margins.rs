//! Every margin of the machine as a bar: how much of the required reserve is there.

use super::{Page, mark};
use crate::clean::short;
use crate::words;
use engine::{Finding, Governing};
use maud::{Markup, html};
use rule::Held;

pub(super) fn chart(page: &Page<'_>) -> Markup {
    let mut judged: Vec<(&Finding, &Governing)> =
        page.review.findings.iter().filter_map(|finding| Some((finding, finding.governing.as_ref()?))).collect();
    judged.sort_by(|a, b| a.1.headroom.total_cmp(&b.1.headroom));
    html! {
        p {
            "The line in the middle of each bar is the reserve that is required. A bar to its left is what is missing, one \
             to its right what is left over; both end at 100 %."
        }
        div.wide role="region" tabindex="0" aria-label="Table of all margins" {
            table.margins {
                thead {
                    tr {
                        th scope="col" { "Part and check" } th scope="col" { "Headroom" } th scope="col" { "Reserve" }
                        th scope="col" { "Required" } th scope="col" { "Worst in" } th scope="col" { "Verdict" }
                    }
                }
                tbody {
                    @for (finding, governing) in &judged { (row(finding, governing)) }
                }
            }
        }
    }
}

fn row(finding: &Finding, governing: &Governing) -> Markup {
    let margin = &governing.margin;
    html! {
        tr {
            th scope="row" {
                (short(&finding.subject.name)) " · " (finding.check)
                span.cost { @if let Some(cost) = finding.consequence { (cost.word().replace('_', " ")) } }
            }
            td { (bar(governing.headroom)) span.percent { (words::percent(governing.headroom)) } }
            td.number { (words::amount(governing.reserve, margin)) }
            td.number {
                @match margin.held {
                    Held::Ratio { .. } => (words::ratio(margin.required.value)),
                    Held::Gap { .. } => (words::amount(margin.required.value, margin)),
                }
                @if governing.demanded.is_some() { span.cost { (words::why_required(governing)) } }
            }
            td { (words::place(governing)) }
            td { (mark(finding)) }
        }
    }
}

/// From −100 % to +100 % of the required reserve, 200 units wide.
fn bar(headroom: f64) -> Markup {
    let end = if headroom.is_nan() { 0.0 } else { (headroom * 100.0).clamp(-100.0, 100.0) };
    let (from, width) = if end < 0.0 { (100.0 + end, -end) } else { (100.0, end) };
    let kind = if end < 0.0 { "short" } else { "over" };
    html! {
        svg.bar viewBox="0 0 200 12" preserveAspectRatio="none" aria-hidden="true" {
            rect.track x="0" y="1" width="200" height="10" {}
            rect.(kind) x=(format!("{from:.1}")) y="1" width=(format!("{width:.1}")) height="10" {}
            rect.required x="99.2" y="0" width="1.6" height="12" {}
        }
    }
}
