//! The findings of one run, always in one order and each only once.
//!
//! Faults come before warnings, warnings before notes. Within one severity what refers to a record that is not there comes
//! last, since it may only follow from another one; then the order is place (files as their sources
//! number them, that is by path; then offset), then code; findings without a place come first. Two that agree in place,
//! code, severity and wording are one; their help, offers and related places are joined. Of one kind in one file the
//! first five thousand are kept and the rest counted, so that what is found never outgrows what is read; the last one
//! kept says how many more there are.

use std::cmp::{Ordering, Reverse};
use std::collections::{BTreeMap, BTreeSet};

use super::finding::{Code, Finding, Severity};
use crate::text::FileId;

/// How many findings of one kind are kept of one file; more are not mended before the next run.
const OF_A_KIND: usize = 5000;

/// Findings, the gravest first, then in the order of their places.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Findings {
    ordered: BTreeSet<ByPlace>,
    /// How many of a kind there are, for each file.
    kinds: BTreeMap<(Option<FileId>, Code, Severity), Kind>,
}

/// Findings of one kind in one file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Kind {
    kept: usize,
    /// The last one kept, once enough are.
    last: Option<ByPlace>,
    left_out: usize,
}

/// A finding compared by what makes it the same finding.
#[derive(Clone, Debug)]
struct ByPlace(Finding);

impl ByPlace {
    fn key(&self) -> impl Ord + '_ {
        let Finding {
            place,
            code,
            severity,
            title,
            found,
            needed,
            ..
        } = &self.0;
        let refers = code.is_of_a_reference();
        (Reverse(severity), refers, place, code, title, found, needed)
    }
}

impl Ord for ByPlace {
    fn cmp(&self, other: &Self) -> Ordering {
        self.key().cmp(&other.key())
    }
}

impl PartialOrd for ByPlace {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for ByPlace {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for ByPlace {}

impl Findings {
    /// None yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds one, or joins it to the same one already there.
    pub fn push(&mut self, finding: impl Into<Finding>) {
        let new = ByPlace(finding.into());
        if let Some(ByPlace(mut old)) = self.ordered.take(&new) {
            join(&mut old.help, new.0.help);
            let mut offers = std::mem::take(&mut old.offers).into_vec();
            join(&mut offers, new.0.offers.into_vec());
            old.offers = offers.into_boxed_slice();
            join(&mut old.related, new.0.related);
            self.ordered.insert(ByPlace(old));
            return;
        }
        let kind = self.kinds.entry(kind_of(&new.0)).or_default();
        match &kind.last {
            Some(_) => self.leave_out(kind_of(&new.0), 1),
            None => {
                kind.kept += 1;
                kind.last = (kind.kept == OF_A_KIND).then(|| new.clone());
                self.ordered.insert(new);
            }
        }
    }

    /// Counts more of a kind of which enough are kept, and lets the last one kept say so.
    fn leave_out(&mut self, of: (Option<FileId>, Code, Severity), more: usize) {
        let kind = self.kinds.entry(of).or_default();
        let said = kind.left_out > 0;
        kind.left_out += more;
        let left_out = kind.left_out;
        let last = kind.last.as_ref().and_then(|last| self.ordered.take(last));
        if let Some(ByPlace(mut last)) = last {
            if said {
                last.help.pop();
            }
            last.help
                .push(format!("and {left_out} more of this kind in this file"));
            self.ordered.insert(ByPlace(last));
        }
    }

    /// The findings in order.
    pub fn iter(&self) -> impl Iterator<Item = &Finding> {
        self.ordered.iter().map(|ByPlace(finding)| finding)
    }

    /// The findings in order, taken out.
    pub fn into_vec(self) -> Vec<Finding> {
        self.ordered
            .into_iter()
            .map(|ByPlace(finding)| finding)
            .collect()
    }

    /// Joins all of another run's findings to these.
    pub fn append(&mut self, mut more: Findings) {
        for (of, kind) in std::mem::take(&mut more.kinds) {
            if let Some(last) = kind.last.filter(|_| kind.left_out > 0)
                && let Some(ByPlace(mut last)) = more.ordered.take(&last)
            {
                // Said anew, with what is left out here.
                last.help.pop();
                self.push(last);
                self.leave_out(of, kind.left_out);
            }
        }
        self.extend(more.into_vec());
    }

    /// How many of a severity, those counted only included.
    pub fn count(&self, severity: Severity) -> usize {
        let kept = self.iter().filter(|finding| finding.severity == severity);
        let of = self.kinds.iter().filter(|((.., of), _)| *of == severity);
        kept.count() + of.map(|(_, kind)| kind.left_out).sum::<usize>()
    }

    /// How many are kept.
    pub fn len(&self) -> usize {
        self.ordered.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.ordered.is_empty()
    }
}

fn kind_of(finding: &Finding) -> (Option<FileId>, Code, Severity) {
    let file = finding.place.map(|place| place.file);
    (file, finding.code, finding.severity)
}

/// Adds what is not yet there, in an order that does not hang on who came first.
fn join<T: Ord>(there: &mut Vec<T>, more: Vec<T>) {
    there.extend(more);
    there.sort();
    there.dedup();
}

impl<F: Into<Finding>> Extend<F> for Findings {
    fn extend<I: IntoIterator<Item = F>>(&mut self, more: I) {
        more.into_iter().for_each(|finding| self.push(finding));
    }
}

impl<F: Into<Finding>> FromIterator<F> for Findings {
    fn from_iter<I: IntoIterator<Item = F>>(findings: I) -> Self {
        let mut all = Self::new();
        all.extend(findings);
        all
    }
}
