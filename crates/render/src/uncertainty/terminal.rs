//! For reading: what the tolerances leave open, what was drawn, and at the end what is worth measuring.

use super::{by_weight, untouched_findings};
use crate::clean::{clean, short};
use crate::fold::fold;
use crate::terminal::{Look, counted, first_few};
use crate::words;
use decide::uncertainty::{About, Chance, Input, KELVIN_FOR_ALL, LeftOut, Measurement, Sampled, Uncertainty, Width};
use engine::{Finding, Review};
use machine::{Document, Machine, NodeId};
use quantity::{Kind, Measure, Stated, m, show, unit_of};
use rule::{Held, Verdict};

/// So many things of a kind are named to a reader; the data has all of them.
const MOST: usize = 6;

/// The whole page.
#[must_use]
pub fn terminal(document: &Document, machine: &Machine, review: &Review, sampled: &Uncertainty, look: Look) -> String {
    let page = Writing { document, review, sampled, width: look.width.clamp(40, 140) };
    let mut out = page.fold(&words::title(machine), 0);
    if sampled.inputs.is_empty() {
        out.push_str(&page.nothing_drawn());
        return out;
    }
    out.push_str(&page.legend());
    out.push_str(&page.margins());
    out.push_str(&page.rest());
    out.push_str(&page.drawn());
    out.push_str(&page.left_out());
    out.push_str(&page.worth());
    out
}

struct Writing<'a> {
    document: &'a Document,
    review: &'a Review,
    sampled: &'a Uncertainty,
    width: usize,
}

impl Writing<'_> {
    fn fold(&self, text: &str, indent: usize) -> String {
        fold(text, indent, self.width)
    }

    fn nothing_drawn(&self) -> String {
        let says = "Nothing could be drawn: no figure that a check reads has a tolerance or a basis. Write `± 2 kg`, \
                    `± 5 %`, `(measured)`, `(label)` or `(guess)` behind those that are not exact.";
        self.fold(says, 0)
    }

    fn legend(&self) -> String {
        let plan = self.sampled.plan;
        let figures = counted(
            self.sampled.inputs.len(),
            "the one figure that is not exact was",
            "all {} figures that are not exact were",
        );
        let drawn = format!(
            "{} (seed {}): {figures} drawn anew for each, and the machine was judged.",
            count_of(plan.samples, "sample"),
            plan.seed
        );
        let legend = "In brackets: where the chance itself lies, in 95 of 100 cases. Reserves are told for a bad, a middling \
                      and a good machine: 5, 50 and 95 of 100 samples have less. All of it knows only what was drawn: no \
                      wear, no flaw in a print, nothing that no rule asks about.";
        self.fold(&drawn, 0) + &self.fold(legend, 0)
    }

    /// Those that are not sound in every sample.
    fn margins(&self) -> String {
        let (mut out, mut above) = (String::new(), None);
        let mut sound = 0;
        for (finding, margin) in by_weight(self.review, self.sampled) {
            if margin.broken == 0 && margin.fails.share + margin.thin.share == 0.0 {
                sound += 1;
                continue;
            }
            let heading = words::heading(finding);
            if above.replace(heading) != Some(heading) {
                out.push_str(&format!("\n{heading}\n"));
            }
            out.push_str(&self.margin(finding, margin));
        }
        if sound > 0 {
            let says = counted(sound, "One margin is sound in every sample.", "{} margins are sound in every sample.");
            out.push_str(&format!("\n{}", self.fold(&says, 0)));
        }
        out
    }

    fn margin(&self, finding: &Finding, margin: &Sampled) -> String {
        let what = format!("{} ({}), {} as written", name(finding), finding.card.name, finding.verdict.word());
        let accepted = words::accepted(finding).map_or_else(String::new, |reason| format!("; accepted: {reason}"));
        let mut out = self.fold(&format!("{what}{accepted}"), 2);
        let thin = if margin.fails.share == 1.0 { String::new() } else { format!(", thin in {}", chance(margin.thin)) };
        out.push_str(&self.fold(&format!("fails in {}{thin}", chance(margin.fails)), 6));
        if let (Some(governing), Some([bad, middling, good])) = (&finding.governing, margin.reserve) {
            let amount = |reserve: f64| words::amount(reserve, &governing.margin);
            let word = match governing.margin.held {
                Held::Ratio { .. } => "reserve",
                Held::Gap { .. } => "left",
            };
            let (bad, middling, good, required) =
                (amount(bad), amount(middling), amount(good), amount(governing.margin.required.value));
            out.push_str(
                &self.fold(&format!("{word}: bad {bad}, middling {middling}, good {good}; required {required}"), 6),
            );
        }
        let samples = u32::try_from(self.sampled.plan.samples).unwrap_or(u32::MAX);
        let unjudged = samples.saturating_sub(margin.judged).saturating_sub(margin.broken);
        for (count, says) in [(unjudged, "not judged in"), (margin.broken, "the check itself failed in")] {
            if count > 0 {
                out.push_str(
                    &self.fold(
                        &format!("{says} {}, which the chances leave out", count_of(count as usize, "sample")),
                        6,
                    ),
                );
            }
        }
        out
    }

    /// Verdicts that no draw can change, and what has none.
    fn rest(&self) -> String {
        let of = |verdict: Verdict| {
            let count =
                untouched_findings(self.review, self.sampled).filter(|finding| finding.verdict == verdict).count();
            (count > 0).then(|| format!("{count} {}", verdict.word()))
        };
        let untouched: Vec<String> =
            [Verdict::Fails, Verdict::Thin, Verdict::Partly, Verdict::Sound].into_iter().filter_map(of).collect();
        let mut out = String::new();
        if !untouched.is_empty() {
            out.push_str(&self.fold(
                &format!("Resting on nothing that was drawn, so as `dryfit review` says: {}.", untouched.join(", ")),
                0,
            ));
        }
        let unjudged = self.review.count(Verdict::NotJudged);
        if unjudged > 0 {
            let says = format!(
                "Not judged, and so in none of the chances: {}. `dryfit review` says what is missing.",
                count_of(unjudged, "check")
            );
            out.push_str(&self.fold(&says, 0));
        }
        out
    }

    fn drawn(&self) -> String {
        let mut out = "\nwhat was drawn\n".to_owned();
        let says = "Each on its own, from a normal distribution round the value in the spec; the ± counts as two standard \
                    deviations. What is one line in your files, or shared by `like`, is one draw.";
        out.push_str(&self.fold(says, 2));
        let mut widths: Vec<(String, Vec<NodeId>)> = Vec::new();
        for input in &self.sampled.inputs {
            let says = width(input.width);
            match widths.iter_mut().find(|one| one.0 == says) {
                Some(one) => one.1.push(input.node),
                None => widths.push((says, vec![input.node])),
            }
        }
        widths.iter().for_each(|(says, nodes)| out.push_str(&self.those(nodes, says)));
        out.push_str("\nwhat was not drawn\n");
        let exact = "without ± or basis in your files, taken as exact";
        out.push_str(&self.those(&self.sampled.exact, exact));
        out.push_str(&self.those(
            &self.sampled.assumed,
            "built in, in place of what is not given; nobody has said how far off they may be",
        ));
        out.push_str(&self.fold("ranges of the air and the like, which the cases cover; counts; formulas", 2));
        out
    }

    fn those(&self, nodes: &[NodeId], says: &str) -> String {
        if nodes.is_empty() {
            return String::new();
        }
        let names: Vec<String> = nodes.iter().map(|node| words::input(self.document, *node)).collect();
        self.fold(&format!("{} {says}: {}", nodes.len(), first_few(&names, MOST)), 2)
    }

    fn left_out(&self) -> String {
        let Some(LeftOut { all, kept, full, verified, widened }) = self.sampled.left_out else { return String::new() };
        let mut says = format!(
            "The first {full} samples ran in full: {all} checks in case points. {kept} of these come near the worst; the later \
             samples ran only those. The last {verified} of the full ones were used to verify that choice: "
        );
        says.push_str(&match widened {
            0 => "it made no difference.".to_owned(),
            _ => counted(
                widened,
                "one margin differed, and ran in full throughout.",
                "{} margins differed, and ran in full throughout.",
            ),
        });
        format!("\n{}", self.fold(&says, 0))
    }

    /// The answer, at the end, where it is seen first.
    fn worth(&self) -> String {
        let mut out = "\nwhich measurement is worth making\n".to_owned();
        let grave = format!(
            "Something that hurts somebody or strands the machine fails in {}.",
            chance(self.sampled.any_grave)
        );
        out.push_str(&self.fold(&grave, 2));
        let certain: Vec<String> = by_weight(self.review, self.sampled)
            .into_iter()
            .filter(|(finding, margin)| finding.stands() && margin.judged > 0 && margin.fails.share == 1.0)
            .map(|(finding, _)| name(finding))
            .collect();
        if !certain.is_empty() {
            let says = format!(
                "Whatever you measure, these fail: {}. `dryfit remedy` looks for a change.",
                first_few(&certain, MOST)
            );
            out.push_str(&self.fold(&says, 2));
        }
        let worth = &self.sampled.worth;
        let open = match worth.about {
            About::GraveFails => "something grave fails",
            About::Fails => "anything fails (nothing grave is open)",
            About::Short => "anything has less reserve than is required (no failure is open)",
            About::Nothing => {
                out.push_str(&self.fold("None: every verdict came out the same in all samples.", 2));
                return out;
            }
        };
        if worth.inputs.is_empty() {
            let says = format!("It is open whether {open}, but no single figure settles much of that.");
            out.push_str(&self.fold(&says, 2));
            return out;
        }
        let says = format!(
            "It is open whether {open}. The share is how much of that doubt is gone once the figure is known exactly:"
        );
        out.push_str(&self.fold(&says, 2));
        worth.inputs.iter().take(MOST).for_each(|one| out.push_str(&self.measurement(one)));
        let more = worth.inputs.len().saturating_sub(MOST);
        if more > 0 {
            out.push_str(&self.fold(&format!("and {more} more that settle less"), 2));
        }
        out
    }

    fn measurement(&self, one: &Measurement) -> String {
        let (Some(input), Some(finding)) = (self.sampled.inputs.get(one.input), self.review.findings.get(one.finding))
        else {
            return String::new();
        };
        let told = format!(
            "{:>3.0} % {}: {}",
            one.share * 100.0,
            words::input(self.document, input.node),
            value(self.document, input)
        );
        let mut out = self.fold(&told, 2);
        out.push_str(&self.fold(&format!("decides most about {} ({})", name(finding), finding.card.name), 8));
        let how = input.how_to_measure.as_deref().map_or_else(
            || {
                "how: no way for the shop is known here; the maker's sheet, or a piece tested to its end, says more"
                    .to_owned()
            },
            |how| format!("how: {how}"),
        );
        out.push_str(&self.fold(&how, 8));
        out
    }
}

/// What a width rests on, told of several figures at once.
fn width(width: Width) -> String {
    let stated = |word: &str, stated: Stated| {
        let (share, kelvin) = (stated.spread() * 100.0, stated.spread() * KELVIN_FOR_ALL);
        format!("{word}, drawn ± {share} %, temperatures ± {kelvin} K")
    };
    match width {
        Width::PlusMinus => "by the ± that stands beside them".into(),
        Width::Stated(Stated::Guess) => stated("guessed", Stated::Guess),
        Width::Stated(Stated::Label) => stated("from a label", Stated::Label),
        Width::Stated(Stated::Weighed | Stated::Measured) => stated("weighed or measured", Stated::Measured),
        Width::Spread(_) => "of materials and fluids, by the spread that their entry states".into(),
    }
}

fn name(finding: &Finding) -> String {
    format!("{} · {}", short(&finding.subject.name), finding.check)
}

fn count_of(count: usize, thing: &str) -> String {
    counted(count, &format!("one {thing}"), &format!("{{}} {thing}s"))
}

/// The value as it stands in the text, and the width that does not stand there.
fn value(document: &Document, input: &Input) -> String {
    let Some((_, half, kind)) = input.value else { return "the whole table".into() };
    let text = document.text(input.node.node()).trim_matches(['"', '\'']);
    let drawn = match input.width {
        Width::PlusMinus => String::new(),
        Width::Stated(_) | Width::Spread(_) => format!(", drawn ± {}", half_width(half, kind, text)),
    };
    format!("{}{drawn}", clean(text))
}

/// A width of a temperature is a difference.
fn half_width(half: f64, kind: &'static Kind, text: &str) -> String {
    let difference = <m::TemperatureDifference as Measure>::KIND;
    if kind == <m::Temperature as Measure>::KIND {
        return show(half, difference, difference.units.first());
    }
    show(half, kind, unit_of(text, kind))
}

/// `62 % (60 to 64 %)`, `every sample (over 99.8 %)`.
fn chance(chance: Chance) -> String {
    match chance.share {
        0.0 => format!("no sample (under {} %)", per_cent(chance.high)),
        1.0 => format!("every sample (over {} %)", per_cent(chance.low)),
        share => format!("{} % ({} to {} %)", per_cent(share), per_cent(chance.low), per_cent(chance.high)),
    }
}

/// With the digits that decide: near none and near all there are more.
fn per_cent(share: f64) -> String {
    let value = share * 100.0;
    let near = value.min(100.0 - value);
    let digits = if near < 0.095 {
        2
    } else if near < 9.5 {
        1
    } else {
        0
    };
    let text = format!("{value:.digits$}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}
