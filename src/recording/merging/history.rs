//! What two copies of a page came from, as far as their journals show it.
//!
//! A journal keeps the checksum of each page before and after a change, and the lines that gave way. So a page can be
//! taken back step by step as long as only podbook changed it. The latest text of one side that the other side had too,
//! or has taken in by a merge, is what both came from.

use super::conflict::Side;
use super::contradicted::between;
use super::copy::Copy;
use super::renaming::{NewCodes, new_codes, renamed};
use super::rewrite::rewritten;
use super::shared::{Kind, Step, Taking, Version, crossed, last_shared};
use crate::record::{JournalEntry, JournalMerge, JournalRename};
use crate::recording::journal::{Undoings, before, checksum};
use crate::recording::page::PageFault;
use crate::recording::says::value::{Record, Value};
use std::borrow::Borrow;
use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};

/// The page that names its registry, so that no two growers have the same.
const SETTINGS: &str = "registry.ron";

/// What a copy's journal and pages show of its past.
pub struct History<'a> {
    copy: &'a Copy<'a>,
    /// Checksums of all pages it had, when they are first asked for.
    had: OnceCell<BTreeSet<String>>,
    /// Checksums of pages of other copies that it has taken in.
    taken: BTreeSet<String>,
    /// Codes that changed by its merges, those that were taken back left out: the number of the change, and the codes.
    renamed: Vec<(u32, &'a JournalRename)>,
    /// Its changes to each page, the latest first.
    changes: BTreeMap<&'a str, Vec<Step<'a>>>,
    /// Its merges that were not taken back, the first one first.
    takings: Vec<Taking<'a>>,
    /// Merges that were not taken back and gave pages of this copy other codes: the number of the change, and the codes.
    recoded: Vec<(u32, NewCodes)>,
}

impl<'a> History<'a> {
    /// Reads it off.
    pub fn of(copy: &'a Copy<'a>) -> History<'a> {
        let back = TakenBack::of(copy.entries);
        let mut changes: BTreeMap<&str, Vec<Step>> = BTreeMap::new();
        for (at, entry) in copy.entries.iter().enumerate().rev() {
            // What stood only between a merge and its undoing is as if it had never been.
            let takes_back = back.takes_back(at, |of| back.is_undone_merge(of));
            for page in &entry.pages {
                changes.entry(page.path.as_str()).or_default().push(Step {
                    change: entry.change,
                    page,
                    takes_back,
                });
            }
        }
        let standing = copy.entries.iter().enumerate();
        let standing = standing.filter(|(at, _)| !back.is_undone(*at));
        let standing = standing.map(|(_, entry)| entry);
        let recoded = standing
            .clone()
            .map(|entry| (entry.change, own_renames(entry)));
        let recoded = recoded.filter(|(_, renames)| !renames.is_empty());
        let recoded = recoded.map(|(change, renames)| (change, codes_of(&renames)));
        let recoded = recoded.collect();
        let merges = standing.filter_map(|entry| Some((entry.change, entry.merged.as_ref()?)));
        let (numbers, merges): (Vec<_>, Vec<_>) = merges.unzip();
        let takings = numbers.iter().zip(&merges).map(|(change, merge)| Taking {
            change: *change,
            sums: merge.pages.iter().map(String::as_str).collect(),
            name: name(*change, merge),
        });
        let takings = takings.collect();
        let all = numbers.iter().zip(&merges);
        let renamed = all.flat_map(|(of, merge)| merge.renamed.iter().map(|rename| (*of, rename)));
        let taken = merges.iter().flat_map(|merge| merge.pages.iter().cloned());
        History {
            copy,
            had: OnceCell::new(),
            taken: taken.collect(),
            renamed: renamed.collect(),
            changes,
            takings,
            recoded,
        }
    }

    /// Checksums of all pages the copy has and had.
    fn had(&self) -> &BTreeSet<String> {
        self.had.get_or_init(|| {
            let pages = self.copy.sources.iter();
            let mut had: BTreeSet<String> =
                pages.map(|(_, source)| checksum(&source.text)).collect();
            let back = TakenBack::of(self.copy.entries);
            for (at, entry) in self.copy.entries.iter().enumerate() {
                let takes_back = back.takes_back(at, |of| back.is_undone_merge(of));
                for page in &entry.pages {
                    let (before, after) = (page.before.iter(), page.after.iter());
                    had.extend(before.filter(|_| !takes_back).cloned());
                    had.extend(after.filter(|_| !back.is_undone_merge(at)).cloned());
                }
            }
            had
        })
    }

    /// The versions of a page that its changes show, the latest first. Those before an edit by hand have no text.
    pub fn versions(&self, path: &str) -> Vec<Version> {
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

    /// The text of a version with the codes that its plants have in this copy now.
    ///
    /// # Errors
    /// If the text has faults of shape.
    pub fn now(&self, version: &Version) -> Result<String, PageFault> {
        let mut text = version.text.clone().unwrap_or_default();
        let later = self.recoded.iter().filter(|of| of.0 > version.since);
        for (_, codes) in later {
            text = renamed(&text, codes)?;
        }
        Ok(text)
    }

    /// The text of another's page that this copy took in last. It may be older there than one that was taken in before: they
    /// took a change back.
    pub fn taken_in(&self, other: &History, path: &str) -> Option<String> {
        if self.takings.is_empty() {
            return None;
        }
        let versions = other.versions(path);
        let mut last = self.takings.iter().rev();
        last.find_map(|of| known(&versions, &of.sums)?.text.clone())
    }

    /// Pages that another had when this copy last took in its registry, and has no more: where each was, and its text.
    pub fn gone_since(&self, other: &History) -> Vec<(String, String)> {
        let named = other.versions(SETTINGS);
        let mut last = self.takings.iter().rev();
        let Some(last) = last.find(|of| known(&named, &of.sums).is_some()) else {
            return Vec::new();
        };
        let paths = other.changes.keys().copied();
        let gone = paths.filter(|path| other.copy.text(path).is_none());
        gone.filter_map(|path| {
            let text = known(&other.versions(path), &last.sums)?.text.clone()?;
            Some((path.to_owned(), text))
        })
        .collect()
    }

    /// The name of its last merge, by which another copy shows that it knows this one and those before it.
    pub fn last_merge(&self) -> Option<&str> {
        self.takings.last().map(|of| of.name.as_str())
    }

    /// Codes that changed by the merges of this copy. Who takes in its pages takes in these too: the other copy may take
    /// its merge back, and then only who took it in still knows which code became which.
    pub fn renamed(&self) -> Vec<JournalRename> {
        let renames = self.renamed.iter().map(|(change, of)| JournalRename {
            now: self.code_now(&of.now, *change),
            ..(*of).clone()
        });
        renames.collect()
    }

    /// The code that something has in this copy now, from the one it had after a change.
    fn code_now(&self, code: &str, change: u32) -> String {
        let later = self.recoded.iter().filter(|of| of.0 > change);
        later.fold(code.to_owned(), |code, (_, codes)| codes.plants.of(&code))
    }

    /// Whether a merge of this copy changed a code of that page, and was not taken back.
    fn has_renamed(&self, of: &JournalRename) -> bool {
        let mut own = self.renamed.iter().map(|(_, own)| own);
        own.any(|own| own.page == of.page && own.was == of.was)
    }

    /// Codes of the other copy that are other codes here since this one took in its pages. A copy that has seen what came
    /// of that merge, or changed the same codes by a merge of its own, has the new codes already.
    pub fn renames(&self, other: &History) -> Vec<(String, String)> {
        let mut renames = Vec::new();
        let mut later: BTreeSet<&String> = BTreeSet::new();
        let back = TakenBack::of(self.copy.entries);
        for (at, entry) in self.copy.entries.iter().enumerate().rev() {
            if back.takes_back(at, |of| back.is_undone(of)) || back.is_undone(at) {
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
            renames.extend(of.map(|of| (of.was.clone(), self.code_now(&of.now, entry.change))));
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
    /// This text of one side, with the codes that its plants have there now.
    Text(Side, String),
}

/// What a page here and a page there came from.
///
/// # Errors
/// If its text has faults of shape.
pub fn origin(
    (ours, path): (&History, &str),
    (theirs, other): (&History, &str),
) -> Result<Origin, PageFault> {
    let [here, there] = [ours.versions(path), theirs.versions(other)];
    let shared = last_shared([&here, &there], [&ours.takings, &theirs.takings]);
    let crossed = crossed([&here, &there], [&ours.takings, &theirs.takings]);
    let is_last = |[own, other]: &[(usize, usize); 2]| {
        shared.is_none_or(|at| own.0 <= at.here && other.0 <= at.there)
    };
    if let Some([own, other]) = crossed.filter(is_last) {
        let versions = [
            (ours, &here[own.0]),
            (theirs, &there[other.0]),
            (ours, &here[own.1]),
            (theirs, &there[other.1]),
        ];
        if let Some(text) = between_merges(versions)? {
            return Ok(Origin::Text(Side::Ours, text));
        }
    }
    let lined_up = shared.and_then(|at| {
        let own = (Side::Ours, &here[at.here]);
        let other = (Side::Theirs, &there[at.there]);
        let of = match at.kind {
            Kind::Taken(Side::Ours) => [other, other],
            Kind::Taken(Side::Theirs) => [own, own],
            Kind::Same | Kind::Alike => [other, own],
        };
        of.into_iter().find(|(_, version)| version.text.is_some())
    });
    let by_checksum = || {
        [
            (Side::Theirs, &there, &ours.taken),
            (Side::Ours, &here, &theirs.taken),
            (Side::Theirs, &there, ours.had()),
            (Side::Ours, &here, theirs.had()),
        ]
        .into_iter()
        .find_map(|(side, versions, among)| Some((side, known(versions, among)?)))
    };
    // Where the page moved or was edited by hand, its versions do not line up.
    let was_none = |versions: &[Version]| versions.iter().any(Version::is_no_page);
    match lined_up.or_else(by_checksum) {
        Some((side, version)) => {
            let of = match side {
                Side::Ours => ours,
                Side::Theirs => theirs,
            };
            Ok(Origin::Text(side, of.now(version)?))
        }
        None if was_none(&here) && was_none(&there) => Ok(Origin::NoPage),
        None => Ok(Origin::Unknown),
    }
}

/// What both came from where two merges took in each other and left the page differently. The versions are as the merges here
/// and there left it, then as they found it.
///
/// # Errors
/// If a text has faults of shape.
fn between_merges(versions: [(&History, &Version); 4]) -> Result<Option<String>, PageFault> {
    let mut texts = Vec::new();
    for (of, version) in versions {
        texts.push(of.now(version)?);
    }
    let pages: Vec<Record> = texts
        .iter()
        .filter_map(|text| Record::of_page(text))
        .collect();
    let says = |page: &Record| Value::Record(page.clone()).canonical();
    match &pages[..] {
        [left, other_left, found, other_found] if says(left) != says(other_left) => {
            let base = between([left, other_left, found, other_found]);
            Ok(Some(rewritten(&texts[0], &base)?))
        }
        _ => Ok(None),
    }
}

/// The name of a merge: no other one has it.
fn name(change: u32, merge: &JournalMerge) -> String {
    let words = [&merge.pages[..], &merge.not_kept[..]].concat();
    checksum(&format!("{change} {}", words.join(" ")))
}

/// The latest version whose text is known and among these.
fn known<'v, S: Borrow<str> + Ord>(
    versions: &'v [Version],
    among: &BTreeSet<S>,
) -> Option<&'v Version> {
    versions
        .iter()
        .find(|of| of.text.is_some() && of.is_among(among))
}

/// Codes that a merge changed on the pages of the copy itself, not on those that it took in.
fn own_renames(entry: &JournalEntry) -> Vec<&JournalRename> {
    let had: BTreeSet<&String> = entry
        .pages
        .iter()
        .filter_map(|page| page.before.as_ref())
        .collect();
    let renames = entry.merged.iter().flat_map(|merge| &merge.renamed);
    renames.filter(|of| had.contains(&of.page)).collect()
}

fn codes_of(renames: &[&JournalRename]) -> NewCodes {
    let codes = renames.iter().map(|of| (of.was.clone(), of.now.clone()));
    new_codes(&codes.collect::<Vec<_>>())
}

/// What of a journal was taken back.
struct TakenBack<'a> {
    entries: &'a [JournalEntry],
    undoings: Undoings,
}

impl TakenBack<'_> {
    fn of(entries: &[JournalEntry]) -> TakenBack<'_> {
        TakenBack {
            entries,
            undoings: Undoings::of(entries),
        }
    }

    /// Whether an entry was taken back and stays so.
    fn is_undone(&self, at: usize) -> bool {
        self.undoings.undone_by(at).is_some()
    }

    /// Whether an entry is a merge that was taken back and stays so.
    fn is_undone_merge(&self, at: usize) -> bool {
        self.entries[at].merged.is_some() && self.is_undone(at)
    }

    /// Whether an entry takes back one of which that holds.
    fn takes_back(&self, at: usize, of: impl Fn(usize) -> bool) -> bool {
        self.undoings.target(at).is_some_and(of)
    }
}
