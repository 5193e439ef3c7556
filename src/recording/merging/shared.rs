//! The last version of a page that two copies share.
//!
//! Each copy has a line of versions of the page. The lines touch where both had the same text, and where a merge of one
//! took in a text of the other. A text may come back later, as when a mark is taken off again: then the same text is
//! two versions. So the lines are followed from their beginning, and no step leads back to a time before the last one.

use super::conflict::Side;
use crate::record::JournalPage;
use crate::recording::journal::checksum;
use crate::recording::says::value::{Record, Value};
use std::borrow::Borrow;
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// One change to a page.
pub struct Step<'a> {
    /// The number of the change.
    pub change: u32,
    /// What it did to the page.
    pub page: &'a JournalPage,
    /// Whether it took back a merge: what it found is then as if it had never been.
    pub takes_back: bool,
}

/// A page as it was for a while.
pub struct Version {
    /// The change that made it; 0 before the first one.
    pub since: u32,
    /// Its checksum; none where there was no page.
    sum: Option<String>,
    /// Its text, where that can be had back.
    pub text: Option<String>,
}

impl Version {
    /// A version whose text is known, none being no page, and the change that made it.
    pub fn of(text: Option<String>, made: Option<&Step>) -> Version {
        Version {
            since: made.map_or(0, |step| step.change),
            sum: text.as_deref().map(checksum),
            text,
        }
    }

    /// A version of which only the checksum is left.
    pub fn lost(sum: &Option<String>, made: Option<&Step>) -> Version {
        Version {
            since: made.map_or(0, |step| step.change),
            sum: sum.clone(),
            text: None,
        }
    }

    /// Whether its checksum is among these.
    pub fn is_among<S: Borrow<str> + Ord>(&self, sums: &BTreeSet<S>) -> bool {
        self.sum.as_deref().is_some_and(|sum| sums.contains(sum))
    }

    /// Whether there was no page.
    pub fn is_no_page(&self) -> bool {
        self.sum.is_none()
    }
}

/// A merge of a copy that was not taken back.
pub struct Taking<'a> {
    /// The number of the change.
    pub change: u32,
    /// Checksums of the pages it took in, and the name of the last merge of the other copy.
    pub sums: BTreeSet<&'a str>,
    /// The name of this merge.
    pub name: String,
}

impl Taking<'_> {
    /// The version that this merge left, and the one that it found.
    fn places(&self, versions: &[Version]) -> Option<(usize, usize)> {
        let left = versions.iter().position(|of| of.since <= self.change)?;
        let found = left + usize::from(versions[left].since == self.change);
        (found < versions.len()).then_some((left, found))
    }
}

/// How two versions are known to be shared.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Kind {
    /// A merge of this side took in the other side's version.
    Taken(Side),
    /// They are the same.
    Same,
    /// A merge on each side took in the other, and both came to say the same.
    Alike,
}

/// A version here and one there that are shared; each counts from the latest.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Shared {
    /// The version here.
    pub here: usize,
    /// The version there.
    pub there: usize,
    /// How that is known.
    pub kind: Kind,
}

impl Shared {
    /// Whether this one can be later than another. One version is taken in by several merges that leave the page as it
    /// was, but what has come of a version is never taken in by that version.
    fn follows(&self, was: &Shared) -> bool {
        let is_same = self.kind == was.kind;
        let is_later = |now: usize, was: usize, may_stay: bool| now < was || may_stay && now == was;
        let (here, there) = match self.kind {
            Kind::Taken(Side::Ours) => (is_same, true),
            Kind::Taken(Side::Theirs) => (true, is_same),
            Kind::Same => (false, false),
            Kind::Alike => (true, true),
        };
        is_later(self.here, was.here, here) && is_later(self.there, was.there, there)
    }
}

/// The last version that both lines share.
pub fn last_shared([ours, theirs]: [&[Version]; 2], takings: [&[Taking]; 2]) -> Option<Shared> {
    let sums = [ours, theirs].map(places);
    let mut found = Vec::new();
    for (here, version) in ours.iter().enumerate() {
        let sum = version.sum.as_deref();
        let same = sum.and_then(|sum| sums[1].get(sum)).into_iter().flatten();
        found.extend(same.map(|there| Shared {
            here,
            there: *there,
            kind: Kind::Same,
        }));
    }
    let new = [[0, 1], [1, 0]].map(|[of, to]| not_known(takings[of], takings[to]));
    let own = taken(ours, new[0], &sums[1]);
    found.extend(own.map(|(here, there)| Shared {
        here,
        there,
        kind: Kind::Taken(Side::Ours),
    }));
    let other = taken(theirs, new[1], &sums[0]);
    found.extend(other.map(|(there, here)| Shared {
        here,
        there,
        kind: Kind::Taken(Side::Theirs),
    }));
    let left = [alike(ours, takings[0]), alike(theirs, takings[1])];
    for (here, said) in &left[0] {
        let alike = left[1].iter().filter(|(_, other)| other == said);
        found.extend(alike.map(|(there, _)| Shared {
            here: *here,
            there: *there,
            kind: Kind::Alike,
        }));
    }
    found.sort_by_key(|of| (Reverse(of.here + of.there), Reverse(of.here), of.kind));
    // What a merge says it took in is certain. Equal texts may be so by chance: a mark that is taken off gives a text that
    // another copy had long before.
    let (equal, certain): (Vec<Shared>, Vec<Shared>) =
        found.into_iter().partition(|of| of.kind == Kind::Same);
    let latest = |last: Option<Shared>, of: Shared| match last {
        Some(was) if !of.follows(&was) => Some(was),
        _ => Some(of),
    };
    let certain = certain.into_iter().fold(None, latest);
    equal.into_iter().fold(certain, latest)
}

/// What each version that a merge left says, whatever its layout: where each side took in the other at the same time,
/// both say the same in another order.
fn alike(versions: &[Version], takings: &[Taking]) -> Vec<(usize, String)> {
    let left = takings.iter().filter_map(|of| {
        let (at, _) = of.places(versions)?;
        let page = Record::of_page(versions[at].text.as_deref()?)?;
        Some((at, Value::Record(page).canonical()))
    });
    left.collect()
}

/// Where each text stands among the versions.
fn places(versions: &[Version]) -> BTreeMap<&str, Vec<usize>> {
    let mut places: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, version) in versions.iter().enumerate() {
        if let Some(sum) = &version.sum {
            places.entry(sum).or_default().push(at);
        }
    }
    places
}

/// Two versions that merges of one time left, each of which took in what the other one found; then what each found.
pub fn crossed(
    [ours, theirs]: [&[Version]; 2],
    takings: [&[Taking]; 2],
) -> Option<[(usize, usize); 2]> {
    let mut crossed = Vec::new();
    for own in not_known(takings[0], takings[1]) {
        for other in not_known(takings[1], takings[0]) {
            let (Some(here), Some(there)) = (own.places(ours), other.places(theirs)) else {
                continue;
            };
            let took_there = theirs[there.1].is_among(&own.sums);
            let took_here = ours[here.1].is_among(&other.sums);
            crossed.extend((took_here && took_there).then_some([here, there]));
        }
    }
    crossed
        .into_iter()
        .min_by_key(|[here, there]| here.0 + there.0)
}

/// The merges that a copy with those of the other side does not know: it knows one, and all before it, if it took its name in.
fn not_known<'t, 'a>(takings: &'t [Taking<'a>], others: &[Taking]) -> &'t [Taking<'a>] {
    let is_known = |of: &Taking| others.iter().any(|other| other.sums.contains(&*of.name));
    let known = takings.iter().rposition(is_known).map_or(0, |at| at + 1);
    &takings[known..]
}

/// The version that each merge left, and each version of the other copy that it may have taken in. A merge that left the page
/// alone because both had one text says no more than that text: it may have been a merge of a third copy.
fn taken<'v>(
    versions: &'v [Version],
    takings: &'v [Taking],
    other: &'v BTreeMap<&str, Vec<usize>>,
) -> impl Iterator<Item = (usize, usize)> + 'v {
    takings.iter().flat_map(move |taking| {
        let left = taking.places(versions).map(|(at, _)| (at, &versions[at]));
        left.into_iter().flat_map(move |(at, left)| {
            let own = left.sum.as_deref().filter(|_| left.since < taking.change);
            let took = taking.sums.iter().filter(move |sum| Some(**sum) != own);
            let took = took.filter_map(|sum| other.get(sum)).flatten();
            took.map(move |there| (at, *there))
        })
    })
}
