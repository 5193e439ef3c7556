//! The findings of one run, always in one order and each only once.
//!
//! Faults come before warnings, warnings before notes. Within one severity the order is place (files as their sources
//! number them, that is by path; then offset), then code; findings without a place come first. Two that agree in place,
//! code, severity and wording are one; their help, offers and related places are joined.

use std::cmp::{Ordering, Reverse};
use std::collections::BTreeSet;

use super::finding::{Finding, Severity};

/// Findings, the gravest first, then in the order of their places.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Findings {
    ordered: BTreeSet<ByPlace>,
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
        (Reverse(severity), place, code, title, found, needed)
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
        let Some(ByPlace(mut old)) = self.ordered.take(&new) else {
            self.ordered.insert(new);
            return;
        };
        join(&mut old.help, new.0.help);
        let mut offers = std::mem::take(&mut old.offers).into_vec();
        join(&mut offers, new.0.offers.into_vec());
        old.offers = offers.into_boxed_slice();
        join(&mut old.related, new.0.related);
        self.ordered.insert(ByPlace(old));
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
    pub fn append(&mut self, more: Findings) {
        self.extend(more.into_vec());
    }

    /// How many of a severity.
    pub fn count(&self, severity: Severity) -> usize {
        self.iter()
            .filter(|finding| finding.severity == severity)
            .count()
    }

    /// The gravest severity; `None` when there is no finding.
    pub fn worst(&self) -> Option<Severity> {
        self.iter().next().map(|finding| finding.severity)
    }

    /// How many in all.
    pub fn len(&self) -> usize {
        self.ordered.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.ordered.is_empty()
    }
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
