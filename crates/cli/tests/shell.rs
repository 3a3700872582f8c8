//! Completions and manual pages.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

mod tool;

use std::fs;
use std::path::Path;
use std::process::Command;
use tool::{code, dryfit, err, out};

#[test]
fn each_shell_gets_completions_and_those_of_bash_complete() {
    let here = Path::new(".");
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let output = dryfit(here, &["completions", shell], "");
        assert!(code(&output) == 0 && out(&output).contains("changed-since"), "{shell}");
    }
    let script = out(&dryfit(here, &["completions", "bash"], ""));
    let ask = "COMP_WORDS=(dryfit review --as sar); COMP_CWORD=3; _dryfit dryfit sar --as; echo \"${COMPREPLY[@]}\"";
    let reply = Command::new("bash").args(["-c", &format!("{script}\n{ask}")]).output().unwrap();
    assert_eq!(String::from_utf8_lossy(&reply.stdout).trim(), "sarif", "{}", err(&reply));
}

#[test]
fn every_command_has_a_page() {
    let folder = tempfile::tempdir().unwrap();
    let pages = folder.path().join("man/man1");
    let output = dryfit(folder.path(), &["manual", "man/man1"], "");
    assert_eq!(code(&output), 0, "{}", err(&output));
    for name in ["dryfit", "dryfit-review", "dryfit-compare", "dryfit-manual"] {
        let text = fs::read_to_string(pages.join(format!("{name}.1"))).unwrap();
        assert!(text.contains(&format!(".TH {name} 1")), "{text}");
    }
    assert!(fs::read_to_string(pages.join("dryfit-review.1")).unwrap().contains("changed\\-since"));
    let output = dryfit(folder.path(), &["manual", "/proc/nowhere"], "");
    assert_eq!(code(&output), 2);
    assert!(err(&output).contains("/proc/nowhere cannot be written"), "{}", err(&output));
}
