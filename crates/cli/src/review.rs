//! `dryfit review`: each spec by itself, one after another, output in a stable order.

use crate::args::{Layout, Refuse, Review};
use crate::disk;
use crate::load;
use crate::output;
use crate::progress::Progress;
use crate::{NOTHING, REFUSED, UNUSABLE};
use render::Reviewed;
use rule::{Overview, Rule, Verdict};
use std::path::PathBuf;

pub fn review(args: &Review, rules: &[&dyn Rule], overviews: &[&dyn Overview]) -> u8 {
    let Ok(today) = load::today(args.today.as_deref()) else { return UNUSABLE };
    let (specs, mut code) = specs(&args.paths);
    if specs.is_empty() && code == NOTHING {
        output::complain("no *.machine.yaml was found; `dryfit start NAME` writes one to begin with");
        return UNUSABLE;
    }
    let many = specs.len() > 1;
    let mut text = String::new();
    let progress = Progress::new(specs.len(), "specs");
    for path in &specs {
        match load::reviewed(path, &args.named, rules, overviews, today) {
            Err(reason) => {
                output::complain(&format!("{}: {reason}", path.display()));
                code = UNUSABLE;
            }
            Ok(reviewed) => {
                code = worse(code, verdict(&reviewed, args.refuse));
                let laid = lay_out(&reviewed, args, many);
                if args.out.is_some() {
                    text.push_str(&laid);
                } else {
                    code = worse(code, output::print(&laid));
                }
            }
        }
        progress.step();
    }
    drop(progress);
    if let Some(path) = &args.out {
        code = worse(code, output::replace(path, &text));
    }
    code
}

/// 3 and 2 say more than 1, and 1 more than 0.
fn worse(a: u8, b: u8) -> u8 {
    a.max(b)
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

fn lay_out(reviewed: &Reviewed, args: &Review, many: bool) -> String {
    match args.layout {
        Layout::Line => render::lines(reviewed),
        Layout::Json => {
            let report = render::report(reviewed);
            // One line each when there are many, so that the whole can be read as it comes.
            output::json(if many { serde_json::to_string(&report) } else { serde_json::to_string_pretty(&report) })
        }
        Layout::Terminal => {
            let look = output::look(args.out.as_deref());
            let title = if many {
                format!(
                    "── {}\n\n",
                    render::clean(&reviewed.document.files.first().map_or_else(String::new, |file| file.name.clone()))
                )
            } else {
                String::new()
            };
            format!("{title}{}\n", render::terminal(reviewed, look))
        }
    }
}

fn verdict(reviewed: &Reviewed, refuse: Refuse) -> u8 {
    let Some((_, review)) = &reviewed.outcome else { return UNUSABLE };
    if review.findings.iter().any(|finding| finding.verdict == Verdict::Broken) {
        return crate::FAILED;
    }
    let refused = review.findings.iter().filter(|finding| finding.stands()).any(|finding| match refuse {
        Refuse::Nothing => false,
        Refuse::Fails => finding.verdict == Verdict::Fails,
        Refuse::Thin => matches!(finding.verdict, Verdict::Fails | Verdict::Thin),
    });
    if refused { REFUSED } else { NOTHING }
}
