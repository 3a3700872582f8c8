//! The review in the Static Analysis Results Interchange Format (SARIF) 2.1.0 of OASIS, one run for all specs. Clauses
//! are those of the standard.

mod locate;
mod tool;

use crate::clean::clean;
use crate::place::cause;
use crate::source::Sources;
use crate::{Layout, Reviewed, json, words};
use engine::Finding;
use locate::Locator;
use machine::{Complaint, Machine, NodeId};
use rule::{Card, Remark, Verdict};
use serde_json::{Value, json};
use tool::{BROKEN, NOT_JUDGED, SPECIFICATION};

/// Results are written as they come; what was not judged is kept for the end, where the format wants it.
#[derive(Debug)]
pub struct Sarif {
    cards: Vec<&'static Card>,
    arguments: Vec<String>,
    results: usize,
    notifications: Vec<String>,
}

impl Sarif {
    /// The cards of all rules, and the command line without the program's own name.
    #[must_use]
    pub fn new(cards: Vec<&'static Card>, arguments: Vec<String>) -> Self {
        Self { cards, arguments, results: 0, notifications: Vec::new() }
    }

    fn index(&self, rule: &str) -> Option<usize> {
        self.cards.iter().position(|card| card.name == rule)
    }

    fn row(&mut self, result: &Value) -> String {
        let comma = if self.results == 0 { "" } else { "," };
        self.results += 1;
        format!("{comma}\n{result}")
    }
}

impl Layout for Sarif {
    fn begin(&mut self) -> String {
        let schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
        let tool = tool::tool(&self.cards);
        format!(
            "{{\"$schema\": \"{schema}\", \"version\": \"2.1.0\", \"runs\": [{{\n\"tool\": {tool},\n\"language\": \"en\", \
             \"columnKind\": \"unicodeCodePoints\",\n\"results\": ["
        )
    }

    fn spec(&mut self, reviewed: &Reviewed) -> String {
        let sources = Sources::of(&reviewed.document);
        let locator = Locator { document: &reviewed.document, sources: &sources };
        let mut out = String::new();
        for (index, complaint) in reviewed.complaints.iter().enumerate() {
            let before = reviewed.complaints.iter().take(index).filter(|other| other.says == complaint.says).count();
            out.push_str(&self.row(&complained(complaint, before, &locator)));
        }
        let Some((machine, review)) = &reviewed.outcome else { return out };
        let of = Of { machine, locator };
        for finding in &review.findings {
            match finding.verdict {
                Verdict::Fails | Verdict::Thin => {
                    let result = of.found(finding, self.index(finding.card.name));
                    out.push_str(&self.row(&result));
                }
                Verdict::Partly | Verdict::NotJudged | Verdict::Broken => {
                    let notification = of.notified(finding, self.index(finding.card.name));
                    self.notifications.push(notification.to_string());
                }
                Verdict::Sound => {}
            }
        }
        for (card, remark) in &review.remarks {
            let result = of.remarked(card, remark, self.index(card.name));
            out.push_str(&self.row(&result));
        }
        out
    }

    fn shows_carriers(&self) -> bool {
        false
    }

    fn end(&mut self, code: u8) -> String {
        let arguments: Vec<String> = self.arguments.iter().map(|argument| clean(argument)).collect();
        let arguments = Value::from(arguments);
        let notifications = std::mem::take(&mut self.notifications).join(",\n");
        format!(
            "\n],\n\"invocations\": [{{\"executionSuccessful\": {}, \"exitCode\": {code}, \"arguments\": {arguments},\n\
             \"toolExecutionNotifications\": [\n{notifications}\n]}}]}}]}}\n",
            code < 2
        )
    }
}

/// The results of one spec.
struct Of<'a> {
    machine: &'a Machine,
    locator: Locator<'a>,
}

impl Of<'_> {
    fn found(&self, finding: &Finding, index: Option<usize>) -> Value {
        let document = self.locator.document;
        let mut text = vec![words::headline(document, self.machine, finding)];
        text.extend(words::numbers(document, finding));
        text.extend(would_clear(&words::would_clear(finding), &finding.words.clears));
        let mut result = self.result(finding.card.name, index, &text, &finding.words, finding.subject.node);
        let level = if finding.verdict == Verdict::Fails { "error" } else { "warning" };
        let thing = document.path(self.machine.written(finding.subject.node));
        let identity = [finding.card.name, finding.check, &thing, &finding.subject.name];
        set(&mut result, "level", level.into());
        set(&mut result, "partialFingerprints", fingerprints(&identity));
        set(&mut result, "suppressions", self.suppressions(finding));
        let properties = json!({
            "subject": clean(&finding.subject.name),
            "check": finding.check,
            "verdict": finding.verdict.word(),
            "consequence": finding.consequence.map(rule::Consequence::word),
            "margin": json::numbers(finding),
            "case": json::case(finding),
            "air": json::air(finding),
        });
        set(&mut result, "properties", properties);
        result
    }

    fn remarked(&self, card: &Card, remark: &Remark, index: Option<usize>) -> Value {
        let mut text = vec![clean(&format!("{}: {}", remark.subject.name, remark.words.happens))];
        text.extend(remark.words.numbers.iter().map(|sentence| clean(sentence)));
        text.extend(would_clear("what would clear it", &remark.words.clears));
        let mut result = self.result(card.name, index, &text, &remark.words, remark.subject.node);
        let thing = self.locator.document.path(self.machine.written(remark.subject.node));
        set(&mut result, "level", "note".into());
        // One thing may be remarked on twice.
        let identity = [card.name, remark.check, &thing, &remark.subject.name, &remark.words.happens];
        set(&mut result, "partialFingerprints", fingerprints(&identity));
        set(&mut result, "suppressions", json!([]));
        result
    }

    /// What all results have.
    fn result(&self, rule: &str, index: Option<usize>, text: &[String], words: &rule::Words, subject: NodeId) -> Value {
        let at = cause(self.locator.document, self.machine, words, subject);
        let others = words.labels.iter().map(|label| (self.machine.written(label.node), clean(&label.says)));
        let others = others.filter(|(node, _)| *node != at);
        let related: Vec<Value> = others.map(|(node, says)| self.locator.node(node, Some(&says))).collect();
        json!({
            "ruleId": rule,
            "ruleIndex": index,
            "message": {"text": plain(&text.join("\n"))},
            "locations": [self.locator.node(at, None)],
            "relatedLocations": related,
        })
    }

    fn notified(&self, finding: &Finding, index: Option<usize>) -> Value {
        let document = self.locator.document;
        let (descriptor, level) =
            if finding.verdict == Verdict::Broken { (BROKEN, "error") } else { (NOT_JUDGED, "note") };
        json!({
            "descriptor": {"id": descriptor.0, "index": descriptor.1},
            "associatedRule": {"id": finding.card.name, "index": index},
            "level": level,
            "message": {"text": plain(&words::headline(document, self.machine, finding))},
            "locations": [self.locator.node(self.machine.written(finding.subject.node), None)],
        })
    }

    /// A concession stands in the source; one that is over is a suppression that was rejected (3.35.3).
    /// What a profile makes advice is accepted by the workshop's file, outside the spec.
    fn suppressions(&self, finding: &Finding) -> Value {
        let Some(conceded) = &finding.concession else {
            let advice = words::accepted(finding);
            return advice.map_or_else(
                || json!([]),
                |advice| json!([{"kind": "external", "status": "accepted", "justification": advice}]),
            );
        };
        json!([{
            "kind": "inSource",
            "status": if conceded.holds { "accepted" } else { "rejected" },
            "justification": plain(&clean(&conceded.reason)),
            "location": self.locator.node(conceded.key.id, None),
        }])
    }
}

/// Of what the finding is about, never of where it stands: lines may move and figures change.
fn fingerprints(identity: &[&str]) -> Value {
    json!({"finding/v1": format!("{:016x}", fnv1a(&identity.join("\u{1f}")))})
}

/// `before`: so many complaints of the spec say the same.
fn complained(complaint: &Complaint, before: usize, locator: &Locator<'_>) -> Value {
    let related: Vec<Value> =
        complaint.also.iter().map(|also| locator.span(also.file, also.span, Some(&clean(&also.says)))).collect();
    json!({
        "ruleId": SPECIFICATION,
        "level": "error",
        "message": {"text": plain(&words::complaint(complaint))},
        "locations": [locator.span(complaint.file, complaint.span, None)],
        "relatedLocations": related,
        "partialFingerprints": fingerprints(&[SPECIFICATION, &complaint.says, &before.to_string()]),
        "suppressions": [],
    })
}

fn would_clear(head: &str, clears: &[String]) -> Option<String> {
    let head = head.replacen("what", "What", 1);
    if clears.is_empty() { None } else { Some(format!("{head}: {}", clean(&clears.join("; ")))) }
}

/// Text without a placeholder (3.11.5) or a link (3.11.6) in it. It must not be empty (3.11.8).
fn plain(text: &str) -> String {
    let text = text.replace('{', "{{").replace('}', "}}").replace("](", "] (");
    if text.is_empty() { "-".into() } else { text }
}

fn set(value: &mut Value, key: &str, field: Value) {
    if let Some(map) = value.as_object_mut() {
        map.insert(key.into(), field);
    }
}

/// The 64-bit Fowler–Noll–Vo hash 1a. Source: Fowler, Noll, Vo, Eastlake, Hansen, RFC 9923, published; constants and test
/// values from memory.
fn fnv1a(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x100_0000_01b3))
}

#[cfg(test)]
mod tests {
    use super::{fnv1a, plain};

    #[test]
    fn the_hash_is_the_published_one() {
        assert_eq!(
            [fnv1a(""), fnv1a("a"), fnv1a("foobar")],
            [0xcbf29ce484222325, 0xaf63dc4c8601ec8c, 0x85944171f73967e8]
        );
    }

    #[test]
    fn text_is_neither_a_placeholder_nor_a_link() {
        assert_eq!(plain("{0} [here](1)"), "{{0}} [here] (1)");
        assert_eq!(plain(""), "-");
    }
}
