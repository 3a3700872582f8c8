//! Libraries that are missing, hostile, or go round in a circle.

use crate::inputs::spec;
use crate::{Case, case};
use document::FileTrouble;

fn naming(name: &'static str, libraries: &str) -> Case {
    case(name, spec(&format!("libraries: {libraries}")))
}

pub fn cases() -> Vec<Case> {
    let arm = "structure: {parts: {arm: {mass: 1 kg}}}\n";
    vec![
        naming("library is fine", "[a.yaml]").library("a.yaml", arm),
        naming("library missing", "[parts/a.yaml]"),
        naming("library missing, with a near name", "[a.yml]")
            .trouble("a.yml", FileTrouble::Missing { nearest: Some("a.yaml".into()) }),
        naming("library outside the root", "[../../secret.yaml]")
            .trouble("../../secret.yaml", FileTrouble::OutsideRoot { root: "specs".into() }),
        naming("library is a folder", "[parts]").trouble("parts", FileTrouble::NotAFile),
        naming("library cannot be read", "[a.yaml]")
            .trouble("a.yaml", FileTrouble::Unreadable { reason: "permission denied".into() }),
        naming("library too large for the disk's reader", "[a.yaml]")
            .trouble("a.yaml", FileTrouble::TooLarge { limit: 4_194_304 }),
        naming("library too large", "[a.yaml]")
            .library("a.yaml", &format!("# {}\n", "x".repeat(100)))
            .limits(|limits| limits.bytes = 80),
        naming("library is not text", "[12]"),
        naming("library is a list", "[[a.yaml]]"),
        naming("libraries is one name", "a.yaml"),
        naming("libraries is a map", "{a: a.yaml}"),
        naming("libraries is empty", ""),
        naming("library holds other bytes than UTF-8", "[a.yaml]").library_bytes("a.yaml", b"\xff\xd8\xff\xe0 JFIF"),
        naming("library is empty", "[a.yaml]").library("a.yaml", ""),
        naming("library is a list at its top", "[a.yaml]").library("a.yaml", "- arm\n"),
        naming("library in a circle", "[a.yaml]")
            .library("a.yaml", "libraries: [b.yaml]\n")
            .library("b.yaml", "libraries: [a.yaml]\n"),
        naming("library names the spec", "[a.yaml]").library("a.yaml", "libraries: [spec]\n").library("spec", ""),
        naming("library twice is fine", "[a.yaml, b.yaml]")
            .library("a.yaml", arm)
            .library("b.yaml", "libraries: [a.yaml]\n"),
        naming("syntax error in a library", "[a.yaml]").library("a.yaml", "structure:\n  parts: {arm: [\n"),
        naming("duplicate key in a library", "[a.yaml]")
            .library("a.yaml", "structure:\n  parts:\n    arm: {}\n    arm: {}\n"),
        naming("error in a library's value", "[a.yaml]")
            .library("a.yaml", "structure:\n  parts:\n    arm: {mass: 5 mm}\n"),
        naming("unknown key in a library", "[a.yaml]")
            .library("a.yaml", "structure:\n  parts:\n    arm: {colour: red}\n"),
        naming("reference from a library to nothing", "[a.yaml]").library(
            "a.yaml",
            "structure:\n  parts:\n    arm: {material: pomm}\nmaterials: {pom: {family: polymer}}\n",
        ),
        naming("error in a library of a library", "[a.yaml]")
            .library("a.yaml", "libraries: [b.yaml]\n")
            .library("b.yaml", "structure: {parts: {arm: {mass: 5 mm}}}\n"),
        naming("missing library of a library", "[a.yaml]").library("a.yaml", "libraries: [b.yaml]\n"),
        naming("errors in both files", "[a.yaml]\nenvironment: {surface: linoleum}")
            .library("a.yaml", "structure: {parts: {arm: {mass: 5 mm}}}\n"),
        naming("too many libraries", "[a.yaml, b.yaml, c.yaml]")
            .library("a.yaml", arm)
            .library("b.yaml", arm)
            .library("c.yaml", arm)
            .limits(|limits| limits.files = 2),
    ]
}
