//! The second stage: few rules that look at all margins of the machine together, once, after the verdicts.

use crate::card::{Card, Consequence};
use crate::checks::Subject;
use crate::outcome::{Held, Verdict, Words};
use machine::{CaseKind, Machine, Reads};

/// A finished margin as an overview sees it: never the name of the rule behind it.
#[derive(Debug, Clone, Copy)]
pub struct Judged<'a> {
    pub subject: &'a Subject,
    pub check: &'static str,
    pub held: &'a Held,
    pub headroom: f64,
    /// Where it is worst; none where it is the same in every case.
    pub case: Option<CaseKind>,
    pub verdict: Verdict,
    pub consequence: Consequence,
    pub reads: &'a Reads,
}

pub trait Overview: Sync {
    fn card(&self) -> &'static Card;
    fn look(&self, machine: &Machine, margins: &[Judged<'_>], notes: &mut Notes);
}

/// One thing that an overview found. It has no reserve.
#[derive(Debug, Clone, PartialEq)]
pub struct Remark {
    pub subject: Subject,
    pub check: &'static str,
    /// `Fails` or `Thin`; there is nothing in between for a remark.
    pub verdict: Verdict,
    pub consequence: Consequence,
    pub words: Words,
}

#[derive(Debug, Default)]
pub struct Notes {
    remarks: Vec<Remark>,
}

impl Notes {
    pub fn add(&mut self, remark: Remark) {
        self.remarks.push(remark);
    }
    #[must_use]
    pub fn remarks(self) -> Vec<Remark> {
        self.remarks
    }
}
