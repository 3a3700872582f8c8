//! `dryfit review`: many specs at a time, laid out one after another in the order in which they were named.

use crate::args::{Layout, Refuse, Review};
use crate::changed::Changed;
use crate::load::{self, Ask, Book, Named};
use crate::outputs::Output;
use crate::progress::Progress;
use crate::sink::Sink;
use crate::{FAILED, NOTHING, REFUSED, UNUSABLE, disk, output};
use machine::RefusalLevel;
use rayon::prelude::*;
use render::{Reviewed, Tally};
use rule::Verdict;
use std::path::PathBuf;

/// So many are in memory at once.
const BATCH: usize = 16;

pub fn review(args: &Review, book: Book<'_>) -> u8 {
    let Ok(today) = load::today(args.today.as_deref()) else { return UNUSABLE };
    let changed = match args.changed_since.as_deref().map(Changed::read).transpose() {
        Ok(changed) => changed,
        Err(says) => {
            output::complain(&format!("--changed-since: {says}"));
            return UNUSABLE;
        }
    };
    let for_data = |output: &&Output| !matches!(output.layout, Layout::Digest | Layout::Terminal);
    if args.only.is_some() && args.outputs.0.iter().any(|output| for_data(&output)) {
        output::complain("--only chooses what a person reads; `--as` line, json and the others always tell everything");
        return UNUSABLE;
    }
    let (specs, code) = specs(&args.paths);
    if specs.is_empty() && code == NOTHING {
        output::complain("no *.machine.yaml was found; `dryfit start NAME` writes one to begin with");
        return UNUSABLE;
    }
    let refuse = args.refuse.map(RefusalLevel::from);
    let mut run = Run { tally: Tally::default(), refuse, code, outputs: Vec::new() };
    // One file by its name is one object; what a folder holds may be many.
    let many = specs.len() > 1 || changed.is_some() || args.paths.iter().any(|path| path.is_dir());
    for output in &args.outputs.0 {
        run.open(output, layout(output, args.only.as_deref(), many, refuse, book));
    }
    let any = |wants: fn(&dyn render::Layout) -> bool| run.outputs.iter().any(|(layout, _)| wants(&**layout));
    let (carriers, drawings) = (any(|layout| layout.shows_carriers()), any(|layout| layout.draws()));
    let ask = Ask { book, looks: true, today, carriers, drawings };
    let progress = Progress::new(specs.len(), "specs");
    for batch in specs.chunks(BATCH) {
        let one = |path: &PathBuf| load::reviewed(&Named { path, named: &args.named }, &ask, changed.as_ref());
        let reviewed: Vec<Option<Reviewed>> = batch.par_iter().map(one).collect();
        for one in reviewed {
            progress.step();
            match one {
                Some(reviewed) => run.add(&reviewed),
                None => run.tally.leave_out(),
            }
        }
    }
    drop(progress);
    let summary = many || args.outputs.0.iter().any(|output| output.file.is_some());
    let (tally, code) = run.end();
    if summary {
        output::complain(&tally.line(code));
    }
    code
}

/// All specs that the paths name, and the exit code so far.
fn specs(paths: &[PathBuf]) -> (Vec<PathBuf>, u8) {
    let mut found = Vec::new();
    let mut code = NOTHING;
    for path in paths {
        if path.is_dir() {
            if let Err(reason) = disk::specs_below(path, &mut found) {
                output::complain(&format!("{}: {reason}", path.display()));
                code = UNUSABLE;
            }
        } else {
            found.push(path.clone());
        }
    }
    (found, code)
}

/// What has come of the run so far. Of two codes the higher says more.
struct Run {
    tally: Tally,
    /// As asked on the command line.
    refuse: Option<RefusalLevel>,
    code: u8,
    outputs: Vec<(Box<dyn render::Layout>, Sink)>,
}

impl Run {
    fn open(&mut self, output: &Output, mut layout: Box<dyn render::Layout>) {
        let (mut sink, code) = Sink::open(output.file.as_deref());
        self.code = self.code.max(code).max(sink.write(&layout.begin()));
        self.outputs.push((layout, sink));
    }

    fn add(&mut self, reviewed: &Reviewed) {
        self.tally.add(reviewed);
        if let Some((machine, review)) = &reviewed.outcome
            && review.judged_nothing()
        {
            output::complain(&render::nothing_judged(&reviewed.document, machine, review));
        }
        self.code = self.code.max(verdict(reviewed, self.refuse));
        for (layout, sink) in &mut self.outputs {
            self.code = self.code.max(sink.write(&layout.spec(reviewed)));
        }
    }

    fn end(self) -> (Tally, u8) {
        let mut code = self.code;
        for (mut layout, mut sink) in self.outputs {
            let written = sink.write(&layout.end(code));
            code = code.max(written).max(sink.finish());
        }
        (self.tally, code)
    }
}

fn layout(
    output: &Output,
    only: Option<&str>,
    many: bool,
    refuse: Option<RefusalLevel>,
    book: Book<'_>,
) -> Box<dyn render::Layout> {
    match output.layout {
        Layout::Digest if only.is_none() => {
            Box::new(render::Digest { look: output::look(output.file.as_deref()), many })
        }
        Layout::Digest | Layout::Terminal => {
            let look = output::look(output.file.as_deref());
            Box::new(render::Terminal { look, many, only: only.map(str::to_owned) })
        }
        Layout::Line => Box::new(render::Lines),
        Layout::Html => Box::new(render::Html::default()),
        Layout::Json => Box::new(render::Json { many }),
        Layout::Junit => Box::new(render::Junit { refuse }),
        Layout::Markdown => Box::<render::Markdown>::default(),
        Layout::Sarif => {
            let arguments = std::env::args_os().skip(1).map(|argument| argument.to_string_lossy().into_owned());
            Box::new(render::Sarif::new(book.cards().collect(), arguments.collect()))
        }
    }
}

fn verdict(reviewed: &Reviewed, asked: Option<RefusalLevel>) -> u8 {
    let Some((machine, review)) = &reviewed.outcome else { return UNUSABLE };
    if review.count(Verdict::Broken) > 0 {
        return FAILED;
    }
    if review.judged_nothing() {
        return UNUSABLE;
    }
    let level = machine.workshop().refusal(asked);
    let refused = review.findings.iter().filter(|finding| finding.stands()).any(|finding| match level {
        RefusalLevel::Nothing => false,
        RefusalLevel::Fails => finding.verdict == Verdict::Fails,
        RefusalLevel::Thin => matches!(finding.verdict, Verdict::Fails | Verdict::Thin),
        RefusalLevel::Unjudged => finding.verdict != Verdict::Sound,
    });
    if refused { REFUSED } else { NOTHING }
}

impl From<Refuse> for RefusalLevel {
    fn from(level: Refuse) -> Self {
        match level {
            Refuse::Fails => Self::Fails,
            Refuse::Thin => Self::Thin,
            Refuse::Unjudged => Self::Unjudged,
            Refuse::Nothing => Self::Nothing,
        }
    }
}
