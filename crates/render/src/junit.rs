//! The review as test results in XML, as the servers that build software read them (a form in common use, no standard):
//! a suite for each spec, a case for each check.

use crate::clean::short;
use crate::place::{cause, start};
use crate::source::Sources;
use crate::{Layout, Reviewed, clean, words};
use engine::Finding;
use machine::{Complaint, Document, Machine, RefusalLevel};
use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};
use rule::Verdict;

/// Each check of each spec, sound ones too.
#[derive(Debug)]
pub struct Junit {
    /// As asked on the command line. A thin margin is a failure too where it refuses the machine.
    pub refuse: Option<RefusalLevel>,
}

impl Layout for Junit {
    fn begin(&mut self) -> String {
        let mut page = Page::default();
        page.write(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)));
        page.write(Event::Start(BytesStart::new("testsuites").with_attributes([("name", "dryfit")])));
        page.text()
    }

    fn spec(&mut self, reviewed: &Reviewed) -> String {
        let cases = self.cases(reviewed);
        let count = |came: &str| cases.iter().filter(|case| case.came.tag() == came).count().to_string();
        let suite = BytesStart::new("testsuite").with_attributes([
            ("name", clean(reviewed.name()).as_str()),
            ("tests", &cases.len().to_string()),
            ("failures", &count("failure")),
            ("errors", &count("error")),
            ("skipped", &count("skipped")),
        ]);
        let mut page = Page::default();
        page.write(Event::Start(suite));
        cases.iter().for_each(|case| page.case(case));
        page.write(Event::End(BytesEnd::new("testsuite")));
        page.text()
    }

    fn shows_carriers(&self) -> bool {
        false
    }

    fn end(&mut self, _code: u8) -> String {
        let mut page = Page::default();
        page.write(Event::End(BytesEnd::new("testsuites")));
        page.text()
    }
}

struct Case {
    rule: &'static str,
    name: String,
    came: Came,
    /// The headline, for lists.
    message: String,
    /// Everything else, one sentence a line.
    tells: String,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Came {
    Passed,
    /// Passed, but with something to say.
    Noted,
    Failed(&'static str),
    Skipped,
    Erred(&'static str),
}

impl Came {
    fn tag(self) -> &'static str {
        match self {
            Self::Passed => "",
            Self::Noted => "system-out",
            Self::Failed(_) => "failure",
            Self::Skipped => "skipped",
            Self::Erred(_) => "error",
        }
    }
}

impl Junit {
    fn cases(&self, reviewed: &Reviewed) -> Vec<Case> {
        let document = &reviewed.document;
        let sources = Sources::of(document);
        let Some((machine, review)) = &reviewed.outcome else {
            let says = |complaint: &Complaint| {
                let at = sources.at(usize::from(complaint.file.0), complaint.span.start as usize);
                format!("{at}: {}", words::complaint(complaint))
            };
            let (rule, name) = ("specification", "can be reviewed".to_owned());
            let tells: Vec<String> = reviewed.complaints.iter().map(says).collect();
            let message = "the spec cannot be used".to_owned();
            return vec![Case { rule, name, came: Came::Erred("unusable"), message, tells: tells.join("\n") }];
        };
        let found = review.findings.iter().map(|finding| self.found(document, machine, finding, &sources));
        let remarked = review.remarks.iter().map(|(card, remark)| {
            let name = format!("{}: {}", short(&remark.subject.name), remark.check);
            let message = clean(&format!("{}: {}", remark.subject.name, remark.words.happens));
            Case {
                rule: card.name,
                name,
                came: Came::Noted,
                message,
                tells: clears("what would clear it", &remark.words.clears),
            }
        });
        found.chain(remarked).collect()
    }

    fn found(&self, document: &Document, machine: &Machine, finding: &Finding, sources: &Sources) -> Case {
        let level = machine.workshop().refusal(self.refuse);
        let came = match finding.verdict {
            Verdict::Broken => Came::Erred("broken"),
            Verdict::NotJudged | Verdict::Partly if level == RefusalLevel::Unjudged && finding.stands() => {
                Came::Failed(finding.verdict.word())
            }
            Verdict::NotJudged => Came::Skipped,
            Verdict::Partly => Came::Noted,
            Verdict::Sound => Came::Passed,
            _ if !finding.stands() => Came::Skipped,
            Verdict::Thin if !matches!(level, RefusalLevel::Thin | RefusalLevel::Unjudged) => Came::Noted,
            Verdict::Fails | Verdict::Thin => Came::Failed(finding.verdict.word()),
        };
        let mut message = words::headline(document, machine, finding);
        if finding.verdict == Verdict::Thin {
            message = format!("thin: {message}");
        }
        let mut tells = words::numbers(document, finding);
        if !matches!(finding.verdict, Verdict::Sound | Verdict::NotJudged) {
            let (file, offset) = start(document, cause(document, machine, &finding.words, finding.subject.node));
            tells.insert(0, sources.at(file, offset));
        }
        if let Some(reason) = words::accepted(finding) {
            message = format!("accepted: {reason}: {message}");
        }
        tells.push(clears(&words::would_clear(finding), &finding.words.clears));
        tells.retain(|sentence| !sentence.is_empty());
        let name = format!("{}: {}", short(&finding.subject.name), finding.check);
        Case { rule: finding.card.name, name, came, message, tells: tells.join("\n") }
    }
}

fn clears(head: &str, changes: &[String]) -> String {
    if changes.is_empty() { String::new() } else { clean(&format!("{head}: {}", changes.join("; "))) }
}

/// Text of XML; writing it into memory cannot fail.
struct Page(Writer<Vec<u8>>);

impl Default for Page {
    fn default() -> Self {
        Self(Writer::new_with_indent(Vec::new(), b' ', 1))
    }
}

impl Page {
    fn write(&mut self, event: Event<'_>) {
        let _ = self.0.write_event(event);
    }

    fn text(self) -> String {
        format!("{}\n", String::from_utf8_lossy(&self.0.into_inner()).trim_start_matches('\n'))
    }

    fn case(&mut self, case: &Case) {
        let start =
            BytesStart::new("testcase").with_attributes([("classname", case.rule), ("name", case.name.as_str())]);
        if case.came == Came::Passed {
            return self.write(Event::Empty(start));
        }
        self.write(Event::Start(start));
        let mut inner = BytesStart::new(case.came.tag());
        match case.came {
            Came::Failed(kind) | Came::Erred(kind) => {
                inner.push_attribute(("message", case.message.as_str()));
                inner.push_attribute(("type", kind));
            }
            Came::Skipped => inner.push_attribute(("message", case.message.as_str())),
            Came::Passed | Came::Noted => {}
        }
        let tells =
            if case.came == Came::Noted { format!("{}\n{}", case.message, case.tells) } else { case.tells.clone() };
        let (tag, tells) = (inner.to_end().into_owned(), tells.trim_end().to_owned());
        self.write(Event::Start(inner));
        self.write(Event::Text(BytesText::new(&tells)));
        self.write(Event::End(tag));
        self.write(Event::End(BytesEnd::new("testcase")));
    }
}
