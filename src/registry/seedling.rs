//! The seedlings of one page as compact rows: their numbers told apart, the sowing, pod and patch they name found.

use super::cross::Cross;
use super::ids::is_seedling_number;
use super::lookup::Lookup;
use crate::diagnostic::{Code, Finding};
use crate::record::{Beside, BriefSeedling, Fate, Seedling};
use crate::text::{FileId, Sources};
use std::cmp::Ordering;

/// A seedling's row on its page, 16 bytes; what few seedlings have lies beside it in their own records.
#[derive(Clone, Copy, Debug)]
pub(super) struct SeedlingRow {
    /// Where its number starts in the file.
    pub start: u32,
    /// Index of its further record or of its fate alone, or [`SeedlingRow::NONE`].
    pub rest: u32,
    /// Index of its sowing on the page, or [`SeedlingRow::NOWHERE`]; so for pod and patch.
    pub sowing: u16,
    pub pod: u16,
    pub patch: u16,
    /// Bytes of its number.
    pub len: u8,
    /// Whether `rest` is the index of its fate alone.
    pub only_fate: bool,
}

const _: () = assert!(size_of::<SeedlingRow>() <= 16);

impl SeedlingRow {
    pub const NONE: u32 = u32::MAX;
    pub const NOWHERE: u16 = u16::MAX;
}

/// Order in which numbers are looked up: the shorter first, so that 1, 2 … 10, 11 as written need no sorting.
pub(super) fn by_length(a: &str, b: &str) -> Ordering {
    a.len().cmp(&b.len()).then_with(|| a.cmp(b))
}

/// Leaves out seedlings whose number is none or was given before on the page.
pub(super) fn with_own_number<'t>(
    sources: &Sources,
    file: FileId,
    mut seedlings: Vec<BriefSeedling<'t>>,
    findings: &mut Vec<Finding>,
) -> Vec<BriefSeedling<'t>> {
    seedlings.retain(|seedling| {
        let sound = is_seedling_number(seedling.number);
        if !sound {
            findings.push(bad_number(sources, file, seedling.number));
        }
        sound
    });
    if seedlings.is_sorted_by(|a, b| by_length(a.number, b.number).is_lt()) {
        return seedlings;
    }
    let mut repeats = vec![false; seedlings.len()];
    let order = sorted(seedlings.len(), |at| seedlings[at as usize].number);
    let mut first = 0;
    for &at in &order {
        let (one, other) = (&seedlings[first as usize], &seedlings[at as usize]);
        if at != order[0] && one.number == other.number {
            findings.push(repeated_number(sources, file, one.number, other.number));
            repeats[at as usize] = true;
        } else {
            first = at;
        }
    }
    let mut repeat = repeats.into_iter();
    seedlings.retain(|_| !repeat.next().unwrap_or(false));
    seedlings
}

/// Indices in the order of their numbers, equal ones in the order of the page.
pub(super) fn sorted<'n>(count: usize, number: impl Fn(u32) -> &'n str) -> Vec<u32> {
    let mut order: Vec<u32> = (0..count as u32).collect();
    order.sort_unstable_by(|&a, &b| by_length(number(a), number(b)).then(a.cmp(&b)));
    order
}

fn bad_number(sources: &Sources, file: FileId, number: &str) -> Finding {
    Finding::fault(
        Code("bad-code"),
        "a seedling's number must begin with a digit",
    )
    .at(sources.span_of(file, number))
    .found(format!("`{number}`"))
    .needed("a number such as `17` or `17b`, without blanks, hyphens or marks")
    .help("letters come first in the codes of ramets, so that the two are not confused")
}

fn repeated_number(sources: &Sources, file: FileId, first: &str, second: &str) -> Finding {
    let finding = Finding::fault(
        Code("repeated-code"),
        format!("seedling {second} is here twice"),
    )
    .at(sources.span_of(file, second))
    .found("a number already given on this page")
    .needed("each seedling's number once")
    .help("the second record is left out; give one of the two another number, and re-read its tag first");
    match sources.span_of(file, first) {
        Some(place) => finding.related(place, "first given here"),
        None => finding,
    }
}

impl<'t> Cross<'t> {
    /// The whole record of a seedling that says more than its row.
    pub(super) fn whole_record(&self, local: u32) -> Option<&Seedling<'t>> {
        let row = self.locals[local as usize];
        let whole = row.rest != SeedlingRow::NONE && !row.only_fate;
        whole.then(|| &*self.rests[row.rest as usize])
    }

    /// What became of a seedling.
    pub(super) fn fate(&self, local: u32) -> Option<&Fate<'t>> {
        let row = self.locals[local as usize];
        match (row.rest, row.only_fate) {
            (SeedlingRow::NONE, _) => None,
            (at, true) => Some(&self.fates[at as usize]),
            (at, false) => self.rests[at as usize].fate.as_deref(),
        }
    }

    /// Adds a seedling whose number is its own.
    pub(super) fn add_seedling(&mut self, sources: &'t Sources, seedling: BriefSeedling<'t>) {
        let lookup = Lookup {
            sources,
            file: self.file,
        };
        let start = lookup.sources.span_of(self.file, seedling.number);
        let sowing = self.local_sowing(lookup, &seedling);
        let pod = self.local_pod(lookup, &seedling, sowing);
        let patch = seedling.patch.map_or(SeedlingRow::NOWHERE, |code| {
            let codes = self.page.patches.iter().map(|patch| patch.code);
            index_of(lookup, "patch", code, codes, &mut self.findings)
        });
        let mut row = SeedlingRow {
            start: start.map_or(0, |span| span.start),
            rest: SeedlingRow::NONE,
            sowing,
            pod,
            patch,
            len: seedling.number.len() as u8,
            only_fate: false,
        };
        match seedling.beside {
            Beside::Nothing => {}
            Beside::Fate(fate) => {
                (row.rest, row.only_fate) = (self.fates.len() as u32, true);
                self.fates.push(*fate);
            }
            Beside::More(whole) => {
                row.rest = self.rests.len() as u32;
                self.rests.push(whole);
            }
        }
        self.locals.push(row);
    }

    /// The sowing a seedling names; without one that of its patch, or the page's only sowing.
    fn local_sowing(&mut self, lookup: Lookup<'t>, seedling: &BriefSeedling<'t>) -> u16 {
        let sowings = &self.page.sowings;
        if let Some(code) = seedling.sowing {
            let codes = sowings.iter().map(|sowing| sowing.code);
            return index_of(lookup, "sowing", code, codes, &mut self.findings);
        }
        if let Some(patch) = seedling.patch
            && let Some(patch) = self.page.patches.iter().find(|p| p.code == patch)
            && let Some(sowing) = patch.sowing
            && let Some(at) = sowings.iter().position(|s| s.code == sowing)
        {
            return at as u16;
        }
        let alone = sowings.len() == 1 && seedling.pod.is_none() && !is_muddled(seedling);
        if alone { 0 } else { SeedlingRow::NOWHERE }
    }

    /// The pod a seedling names, or that of its sowing, or the page's only pod.
    fn local_pod(&mut self, lookup: Lookup<'t>, seedling: &BriefSeedling<'t>, sowing: u16) -> u16 {
        if is_muddled(seedling) {
            return SeedlingRow::NOWHERE;
        }
        let pods = &self.page.pods;
        if let Some(code) = seedling.pod {
            let codes = pods.iter().map(|pod| pod.code);
            return index_of(lookup, "pod", code, codes, &mut self.findings);
        }
        let pot = |code| self.page.patches.iter().find(|pot| pot.code == code);
        if seedling
            .patch
            .and_then(pot)
            .is_some_and(|pot| !pot.one_of.is_empty())
        {
            return SeedlingRow::NOWHERE;
        }
        if let Some(sowing) = self.page.sowings.get(usize::from(sowing)) {
            let lots = &self.page.seed_lots;
            let lot = sowing
                .lot
                .and_then(|lot| lots.iter().find(|l| l.code == lot));
            if let Some(pod) = sowing.pod.or(lot.and_then(|lot| lot.pod))
                && let Some(at) = pods.iter().position(|p| p.code == pod)
            {
                return at as u16;
            }
        }
        if pods.len() == 1 {
            0
        } else {
            SeedlingRow::NOWHERE
        }
    }
}

/// The index of a local code, or a finding.
fn index_of<'t>(
    lookup: Lookup<'t>,
    what: &'static str,
    code: &'t str,
    codes: impl Iterator<Item = &'t str> + Clone,
    findings: &mut Vec<Finding>,
) -> u16 {
    match codes.clone().position(|known| known == code) {
        Some(at) if at < usize::from(SeedlingRow::NOWHERE) => at as u16,
        _ => {
            findings.push(lookup.unknown(what, code, codes));
            SeedlingRow::NOWHERE
        }
    }
}

/// Whether it may come from several pods.
fn is_muddled(seedling: &BriefSeedling) -> bool {
    matches!(&seedling.beside, Beside::More(whole) if !whole.one_of.is_empty())
}
