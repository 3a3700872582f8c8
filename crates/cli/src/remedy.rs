//! `dryfit remedy`: what would clear a finding, and writing it into the files.

use crate::args::{Page, Remedy as Args};
use crate::progress::Progress;
use crate::{FAILED, NOTHING, UNUSABLE, disk, load, load::Book, output, sink};
use catalogue::{Catalogue, Everything};
use decide::remedy::{Heard, Remedy, Target, edits, remedies, select};
use document::{Document, FileId, FileTrouble, Files, Limits};
use machine::{Machine, Swaps};
use render::remedy as page;
use rule::Rule;
use std::io::Read;
use std::path::{Path, PathBuf};

pub fn remedy(args: &Args, book: Book<'_>) -> u8 {
    let (way, rules) = (&args.way, book.rules);
    let Ok(today) = load::today(way.today.as_deref()) else { return UNUSABLE };
    let Some(reviewed) = load::judged_with(&args.spec, &way.named, &Everything, book, today) else { return UNUSABLE };
    let (document, Some((machine, review))) = (&reviewed.document, &reviewed.outcome) else { return UNUSABLE };
    let chosen = match select(review, args.on.as_deref(), args.rule.as_deref()) {
        Ok(chosen) => chosen,
        Err(none) => {
            output::complain(&page::no_target(&none));
            return UNUSABLE;
        }
    };
    let only = args.with.as_deref();
    let progress = Progress::new(chosen.len(), "findings");
    let targets = remedies(document, machine, rules, review, &chosen, only, &|| progress.step());
    drop(progress);
    if let (Some(wanted), Some(Heard::Nowhere)) = (only, targets.first().and_then(|target| target.asked)) {
        output::complain(&page::no_input(document, wanted));
        return UNUSABLE;
    }
    if let Some(number) = args.apply.or(args.dry) {
        return match nth(&targets, number) {
            Ok(remedy) => change(args, rules, document, remedy),
            Err(says) => {
                output::complain(&says);
                UNUSABLE
            }
        };
    }
    let text = match args.layout {
        Page::Json => output::json(serde_json::to_string_pretty(&page::page(document, machine, review, &targets))),
        Page::Terminal => page::terminal(document, machine, review, &targets, only, output::look(way.out.as_deref())),
    };
    sink::deliver(way.out.as_deref(), &text)
}

fn nth(targets: &[Target], number: usize) -> Result<&Remedy, String> {
    let all = || targets.iter().flat_map(|target| &target.remedies);
    number.checked_sub(1).and_then(|at| all().nth(at)).ok_or_else(|| match all().count() {
        0 => "there is no remedy to take: nothing that was tried clears it".into(),
        1 => format!("there is no remedy {number}: the only one is number 1"),
        count => format!("there is no remedy {number}: they are numbered from 1 to {count}"),
    })
}

/// Shows or writes one remedy.
fn change(args: &Args, rules: &[&dyn Rule], document: &Document, remedy: &Remedy) -> u8 {
    let Some(texts) = edits(document, remedy).and_then(|edits| document.edited(&edits)) else {
        output::complain("what this remedy changes is not written so that it could be replaced in place");
        return UNUSABLE;
    };
    let texts: Vec<(FileId, &str, String)> =
        texts.into_iter().filter_map(|(file, text)| Some((file, document.file(file)?.name.as_str(), text))).collect();
    if args.dry.is_some() {
        let old = |file: FileId| document.file(file).map_or("", |file| &*file.text);
        let shown: String = texts.iter().map(|(file, name, new)| page::lines_changed(name, old(*file), new)).collect();
        return output::print(&shown);
    }
    let says = |path: &Path, says: &str| {
        output::complain(&format!("{}: {says}; nothing is written", path.display()));
        UNUSABLE
    };
    if args.spec == Path::new("-") {
        output::complain("standard input cannot be written to; `--dry` shows the changed lines");
        return UNUSABLE;
    }
    let mut paths: Vec<(PathBuf, &str, &str)> = Vec::new();
    for (file, name, new) in &texts {
        let library = *file != FileId(0);
        let path = if library { PathBuf::from(name) } else { args.spec.clone() };
        if library && !args.library_too {
            return says(&path, "it is a library that other machines may share; add --library-too if it is to change");
        }
        paths.push((path, document.file(*file).map_or("", |file| &*file.text), new));
    }
    if !comes_true(args, rules, document, &texts, remedy) {
        output::complain("the changed text does not review as foretold, so nothing is written; please report the spec");
        return FAILED;
    }
    for (path, old, _) in &paths {
        match disk::spec(path) {
            Ok(now) if now == old.as_bytes() => {}
            Ok(_) => return says(path, "it has changed since it was read"),
            Err(reason) => return says(path, &reason),
        }
    }
    for (path, _, new) in &paths {
        let code = sink::deliver(Some(path), new);
        if code != NOTHING {
            return code;
        }
    }
    let lines: String = texts
        .iter()
        .map(|(file, name, new)| page::lines_changed(name, document.file(*file).map_or("", |file| &*file.text), new))
        .collect();
    output::print(&format!("{lines}{}\n", page::applied(&remedy.effect)))
}

/// The disk as it will be.
struct Changed<'a> {
    disk: disk::Disk,
    texts: &'a [(FileId, &'a str, String)],
}

impl Files for Changed<'_> {
    fn read(&self, from: &str, name: &str) -> Result<(String, Vec<u8>), FileTrouble> {
        let (known_as, bytes) = self.disk.read(from, name)?;
        let new = self.texts.iter().find(|text| text.1 == known_as).map(|text| text.2.clone().into_bytes());
        Ok((known_as, new.unwrap_or(bytes)))
    }
    fn workshop(&self) -> Option<(String, Result<Vec<u8>, String>)> {
        self.disk.workshop()
    }
    fn open(&self, from: &str, name: &str) -> Result<(String, Box<dyn Read>), FileTrouble> {
        self.disk.open(from, name)
    }
}

/// The texts to be written give, reviewed, what was foretold.
fn comes_true(
    args: &Args,
    rules: &[&dyn Rule],
    document: &Document,
    texts: &[(FileId, &str, String)],
    remedy: &Remedy,
) -> bool {
    let Some(spec) = document.files.first() else { return false };
    let text =
        texts.iter().find(|text| text.0 == FileId(0)).map_or_else(|| spec.text.to_string(), |text| text.2.clone());
    let files = Changed { disk: disk::Disk::for_spec(&args.spec), texts };
    let after = Document::load(&spec.name, text.into_bytes(), &files, &Catalogue, &Limits::default());
    let Ok(machine) = Machine::read(&after, &Swaps::new()) else { return false };
    let findings = engine::verdicts(&machine, rules);
    after.troubles.is_empty()
        && findings.len() == remedy.effect.after.len()
        && findings.iter().zip(&remedy.effect.after).all(|(finding, told)| {
            finding.card.name == told.name.rule
                && finding.subject.name == told.name.subject
                && finding.check == told.name.check
                && finding.verdict == told.verdict
                && finding.headroom().to_bits() == told.headroom.to_bits()
        })
}
