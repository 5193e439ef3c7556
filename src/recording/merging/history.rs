//! What two copies of a page came from, as far as their journals show it.
//!
//! A journal keeps the checksum of each page before and after a change, and the lines that gave way. So a page can be
//! taken back step by step as long as only podbook changed it. The latest text of one side that the other side had too,
//! or has taken in by a merge, is what both came from.

use super::conflict::Side;
use super::copy::Copy;
use super::shared::{Kind, Step, Version, last_shared};
use crate::record::{JournalEntry, JournalRename};
use crate::recording::journal::{before, checksum};
use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};

/// What a copy's journal and pages show of its past.
pub struct History<'a> {
    copy: &'a Copy<'a>,
    /// Checksums of all pages it had, when they are first asked for.
    had: OnceCell<BTreeSet<String>>,
    /// Checksums of pages of other copies that it has taken in.
    taken: BTreeSet<String>,
    /// Codes that changed by its merges, those that were taken back left out.
    renamed: Vec<&'a JournalRename>,
    /// Its changes to each page, the latest first.
    changes: BTreeMap<&'a str, Vec<Step<'a>>>,
    /// Its merges that were not taken back: the number of the change, and the checksums of the pages it took in.
    takings: Vec<(u32, BTreeSet<&'a str>)>,
}

impl<'a> History<'a> {
    /// Reads it off.
    pub fn of(copy: &'a Copy<'a>) -> History<'a> {
        let undone = undone(copy.entries);
        let is_undone = |entry: &JournalEntry| undone.contains(&entry.change);
        let merges = undone_merges(copy.entries);
        let mut changes: BTreeMap<&str, Vec<Step>> = BTreeMap::new();
        for entry in copy.entries.iter().rev() {
            // What stood only between a merge and its undoing is as if it had never been.
            let takes_back = entry.undoes.is_some_and(|of| merges.contains(&of));
            for page in &entry.pages {
                changes.entry(page.path.as_str()).or_default().push(Step {
                    change: entry.change,
                    page,
                    takes_back,
                });
            }
        }
        let standing = copy.entries.iter().filter(|entry| !is_undone(entry));
        let merges = standing.filter_map(|entry| Some((entry.change, entry.merged.as_ref()?)));
        let (numbers, merges): (Vec<_>, Vec<_>) = merges.unzip();
        let sums = merges
            .iter()
            .map(|merge| merge.pages.iter().map(String::as_str).collect());
        let taken = merges.iter().flat_map(|merge| merge.pages.iter().cloned());
        History {
            copy,
            had: OnceCell::new(),
            taken: taken.collect(),
            renamed: merges.iter().flat_map(|merge| &merge.renamed).collect(),
            changes,
            takings: numbers.into_iter().zip(sums).collect(),
        }
    }

    /// Checksums of all pages the copy has and had.
    fn had(&self) -> &BTreeSet<String> {
        self.had.get_or_init(|| {
            let pages = self.copy.sources.iter();
            let mut had: BTreeSet<String> =
                pages.map(|(_, source)| checksum(&source.text)).collect();
            let merges = undone_merges(self.copy.entries);
            for entry in self.copy.entries {
                let takes_back = entry.undoes.is_some_and(|of| merges.contains(&of));
                for page in &entry.pages {
                    let (before, after) = (page.before.iter(), page.after.iter());
                    had.extend(before.filter(|_| !takes_back).cloned());
                    had.extend(after.filter(|_| !merges.contains(&entry.change)).cloned());
                }
            }
            had
        })
    }

    /// The texts of a page that can be had back, the latest first; `None` is no page.
    fn texts(&self, path: &str) -> Vec<Option<String>> {
        let mut text = self.copy.text(path).map(str::to_owned);
        let mut texts = vec![text.clone()];
        for step in self.changes.get(path).map_or(&[][..], Vec::as_slice) {
            if let Some(was) = before(step.page, text.as_deref()) {
                texts.extend((!step.takes_back).then(|| was.clone()));
                text = was;
            }
        }
        texts
    }

    /// The versions of a page that its changes show, the latest first. Those before an edit by hand have no text.
    fn versions(&self, path: &str) -> Vec<Version> {
        let steps = self.changes.get(path).map_or(&[][..], Vec::as_slice);
        let mut text = self.copy.text(path).map(str::to_owned);
        let mut versions = vec![Version::of(text.clone(), steps.first())];
        let mut sum = text.as_deref().map(checksum);
        for (at, step) in steps.iter().enumerate() {
            if sum != step.page.after {
                versions.push(Version::lost(&step.page.after, Some(step)));
            }
            let was = before(step.page, text.as_deref());
            let next = steps.get(at + 1);
            let version = match &was {
                Some(was) => Version::of(was.clone(), next),
                None => Version::lost(&step.page.before, next),
            };
            versions.extend((!step.takes_back).then_some(version));
            sum.clone_from(&step.page.before);
            text = was.unwrap_or(text);
        }
        versions
    }

    /// The latest text of another's page that this copy has taken in.
    pub fn taken_in(&self, other: &History, path: &str) -> Option<String> {
        if self.taken.is_empty() {
            return None;
        }
        let texts = other.texts(path).into_iter().flatten();
        texts
            .into_iter()
            .find(|text| self.taken.contains(&checksum(text)))
    }

    /// Codes that changed by the merges of this copy. Who takes in its pages takes in these too: the other copy may take
    /// its merge back, and then only who took it in still knows which code became which.
    pub fn renamed(&self) -> impl Iterator<Item = &JournalRename> {
        self.renamed.iter().copied()
    }

    /// Whether a merge of this copy changed a code of that page, and was not taken back.
    fn has_renamed(&self, of: &JournalRename) -> bool {
        let is_it = |own: &&JournalRename| own.page == of.page && own.was == of.was;
        self.renamed().any(|own| is_it(&own))
    }

    /// Codes of the other copy that are other codes here since this one took in its pages. A copy that has seen what came
    /// of that merge, or changed the same codes by a merge of its own, has the new codes already.
    pub fn renames(&self, other: &History) -> Vec<(String, String)> {
        let mut renames = Vec::new();
        let mut later: BTreeSet<&String> = BTreeSet::new();
        let undone = undone(self.copy.entries);
        for entry in self.copy.entries.iter().rev() {
            let takes_back = entry.undoes.is_some_and(|of| undone.contains(&of));
            if takes_back || undone.contains(&entry.change) {
                continue;
            }
            // A page that came whole is the other copy's own, and shows nothing of what it has seen.
            let came = entry.merged.iter().flat_map(|merge| &merge.pages);
            let came: BTreeSet<&String> = came.collect();
            let pages = entry.pages.iter().filter_map(|page| page.after.as_ref());
            later.extend(pages.filter(|page| !came.contains(page)));
            let known = later
                .iter()
                .any(|sum| other.had().contains(*sum) || other.taken.contains(*sum));
            if known {
                break;
            }
            let merge = entry.merged.iter().flat_map(|merge| &merge.renamed);
            let of = merge.filter(|of| other.had().contains(&of.page) && !other.has_renamed(of));
            renames.extend(of.map(|of| (of.was.clone(), of.now.clone())));
        }
        renames
    }
}

/// What both copies of a page came from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Origin {
    /// It is not known.
    Unknown,
    /// There was no page.
    NoPage,
    /// This text of ours.
    Ours(String),
    /// This text of theirs.
    Theirs(String),
}

/// What a page here and a page there came from.
pub fn origin((ours, path): (&History, &str), (theirs, other): (&History, &str)) -> Origin {
    let sides = [(ours, path), (theirs, other)];
    let versions = sides.map(|(of, path)| of.versions(path));
    let of = [&versions[0][..], &versions[1][..]];
    let shared = last_shared(of, [&ours.takings, &theirs.takings]);
    let found = shared.and_then(|at| {
        let [here, there] = [&of[0][at.here].text, &of[1][at.there].text];
        let [here, there] = [
            here.clone().map(Origin::Ours),
            there.clone().map(Origin::Theirs),
        ];
        match at.kind {
            Kind::Taken(Side::Ours) => there,
            Kind::Taken(Side::Theirs) => here,
            Kind::Same | Kind::Alike => there.or(here),
        }
    });
    found.unwrap_or_else(|| by_checksum(sides))
}

/// The same where a page moved or was edited by hand, so that its versions do not line up: by the checksums alone.
fn by_checksum([(ours, path), (theirs, other)]: [(&History, &str); 2]) -> Origin {
    let texts = [ours.texts(path), theirs.texts(other)];
    let find = |side: usize, among: &BTreeSet<String>| {
        let mut texts = texts[side].iter().flatten();
        texts.find(|text| among.contains(&checksum(text))).cloned()
    };
    let found = find(1, &ours.taken)
        .map(Origin::Theirs)
        .or_else(|| find(0, &theirs.taken).map(Origin::Ours))
        .or_else(|| find(1, ours.had()).map(Origin::Theirs))
        .or_else(|| find(0, theirs.had()).map(Origin::Ours));
    let was_none = texts.iter().all(|texts| texts.contains(&None));
    found.unwrap_or(match was_none {
        true => Origin::NoPage,
        false => Origin::Unknown,
    })
}

/// Numbers of the merges that were taken back and stay so.
fn undone_merges(entries: &[JournalEntry]) -> BTreeSet<u32> {
    let undone = undone(entries);
    let merges = entries.iter().filter(|entry| entry.merged.is_some());
    merges
        .map(|entry| entry.change)
        .filter(|change| undone.contains(change))
        .collect()
}

/// Numbers of the changes that were taken back and stay so.
fn undone(entries: &[JournalEntry]) -> BTreeSet<u32> {
    let mut undone = BTreeSet::new();
    for entry in entries.iter().rev() {
        if let Some(of) = entry.undoes.filter(|_| !undone.contains(&entry.change)) {
            undone.insert(of);
        }
    }
    undone
}
