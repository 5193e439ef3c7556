//! One cross page, taken apart on its own: seedlings and readings as compact rows, local codes resolved.
//!
//! Runs for many pages at once. What needs another page (parents, pods of other crosses, plants of other pages) is
//! left to `build`.

use super::ids::{is_code, natural_order};
use super::lookup::Lookup;
use super::row_types::{OriginRow, PlantRow};
use super::seedling::{SeedlingRow, by_length, sorted, with_own_number};
use super::sitting::{LocalSitting, take_sitting};
use crate::diagnostic::Finding;
use crate::record::{CrossPage, Fate, Seedling};
use crate::text::{FileId, Sources, Span};

/// A cross: its page, with the seedlings as rows.
#[derive(Debug)]
pub struct Cross<'t> {
    /// The file of the page.
    pub file: FileId,
    /// The page, without its seedlings and sittings.
    pub page: CrossPage<'t>,
    /// Rows of its seedlings in the order of the page.
    pub seedlings: Vec<PlantRow>,
    /// The origin of its seedlings.
    pub origin: OriginRow,
    pub(super) seedling_rows: Vec<SeedlingRow>,
    /// Indices of seedlings by number, the shorter first; empty when they stand in that order on the page.
    by_number: Vec<u32>,
    /// Whole records of the seedlings that say more than a row holds.
    // Boxed, because a growing list would copy these large records again and again and keep room for twice as many.
    #[allow(clippy::vec_box)]
    pub(super) details: Vec<Box<Seedling<'t>>>,
    /// Fates of seedlings of which no more is said.
    pub(super) fates: Vec<Fate<'t>>,
    pub(super) sittings: Vec<LocalSitting<'t>>,
    pub(super) findings: Vec<Finding>,
}

/// Takes a page apart.
pub(super) fn take_apart<'t>(
    sources: &'t Sources,
    file: FileId,
    mut page: CrossPage<'t>,
) -> Cross<'t> {
    let mut findings = Vec::new();
    local_codes(sources, file, &page, &mut findings);
    let seedlings = std::mem::take(&mut page.seedlings).0;
    let seedlings = with_own_number(sources, file, seedlings, &mut findings);
    let sittings = std::mem::take(&mut page.sittings);
    let mut parts = Cross {
        file,
        page,
        seedlings: Vec::new(),
        origin: OriginRow(u32::MAX),
        seedling_rows: Vec::with_capacity(seedlings.len()),
        by_number: Vec::new(),
        details: Vec::new(),
        fates: Vec::new(),
        sittings: Vec::new(),
        findings,
    };
    for seedling in seedlings {
        parts.add_seedling(sources, seedling);
    }
    parts.sort_numbers(sources);
    parts.sittings = sittings
        .into_iter()
        .map(|sitting| {
            let mut next = 0;
            take_sitting(sources, file, sitting, |number| {
                parts.find_after(sources, number, &mut next)
            })
        })
        .collect();
    parts.details.shrink_to_fit();
    parts.fates.shrink_to_fit();
    parts
}

impl<'t> Cross<'t> {
    pub(super) fn number_text(&self, sources: &'t Sources, at: u32) -> &'t str {
        let seedling = &self.seedling_rows[at as usize];
        let end = seedling.start + u32::from(seedling.len);
        sources.kept_slice(Span::new(self.file, seedling.start..end))
    }

    fn sort_numbers(&mut self, sources: &'t Sources) {
        let count = self.seedling_rows.len();
        let number = |at| self.number_text(sources, at);
        if !(0..count as u32).is_sorted_by(|&a, &b| by_length(number(a), number(b)).is_lt()) {
            self.by_number = sorted(count, number);
        }
    }

    /// The seedling at a place in the order of numbers.
    fn ranked(&self, rank: usize) -> u32 {
        match self.by_number.get(rank) {
            Some(&at) => at,
            None => rank as u32,
        }
    }

    /// The seedling of this page with a number.
    pub(super) fn find(&self, sources: &'t Sources, number: &str) -> Option<u32> {
        self.find_after(sources, number, &mut 0)
    }

    /// As `find`, looking first a few places on from where the last one was found: readings mostly follow the page.
    fn find_after(&self, sources: &'t Sources, number: &str, next: &mut usize) -> Option<u32> {
        const STEPS: usize = 3;
        let count = self.seedling_rows.len();
        let near = *next..count.min(*next + STEPS);
        for rank in near {
            let at = self.ranked(rank);
            if self.number_text(sources, at) == number {
                *next = rank + 1;
                return Some(at);
            }
        }
        let (mut low, mut high) = (0, count);
        while low < high {
            let middle = low.midpoint(high);
            let at = self.ranked(middle);
            match by_length(self.number_text(sources, at), number) {
                std::cmp::Ordering::Less => low = middle + 1,
                std::cmp::Ordering::Greater => high = middle,
                std::cmp::Ordering::Equal => {
                    *next = middle + 1;
                    return Some(at);
                }
            }
        }
        None
    }
}

/// Codes given twice on the page, and references from one local record to another.
fn local_codes<'t>(
    sources: &'t Sources,
    file: FileId,
    page: &CrossPage<'t>,
    findings: &mut Vec<Finding>,
) {
    let lookup = Lookup { sources, file };
    let zones = || page.pollinations.iter().map(|p| p.zone);
    let pods = || page.pods.iter().map(|p| p.code);
    let lots = || page.seed_lots.iter().map(|l| l.code);
    let sowings = || page.sowings.iter().map(|s| s.code);
    let community_pots = || page.community_pots.iter().map(|p| p.code);
    for (what, mut codes) in [
        ("zone", Box::new(zones()) as Box<dyn Iterator<Item = &str>>),
        ("pod", Box::new(pods())),
        ("seed lot", Box::new(lots())),
        ("sowing", Box::new(sowings())),
        ("community pot", Box::new(community_pots())),
    ] {
        let bad = codes.by_ref().filter(|code| !is_code(code));
        findings.extend(bad.map(|code| lookup.bad_code(what, code)));
    }
    lookup.repeated("zone", zones(), findings);
    lookup.repeated("pod", pods(), findings);
    lookup.repeated("seed lot", lots(), findings);
    lookup.repeated("sowing", sowings(), findings);
    lookup.repeated("community pot", community_pots(), findings);
    for pod in &page.pods {
        lookup.known("zone", pod.zone, zones(), findings);
    }
    for lot in &page.seed_lots {
        lookup.known("pod", lot.pod, pods(), findings);
    }
    for sowing in &page.sowings {
        lookup.known("seed lot", sowing.lot, lots(), findings);
        lookup.known("pod", sowing.pod, pods(), findings);
    }
    for community_pot in &page.community_pots {
        lookup.known("sowing", community_pot.sowing, sowings(), findings);
    }
}

/// Pages in the order of their codes, whatever their files are called; of two with one code the one whose file bears
/// that code comes first.
pub(super) fn by_code(sources: &Sources, parts: &mut [Cross]) {
    let misnamed = |part: &Cross| {
        let path = &sources.get(part.file).path;
        path.strip_prefix("crosses/")
            .and_then(|name| name.strip_suffix(".ron"))
            != Some(part.page.code)
    };
    parts.sort_by(|a, b| {
        let by_code = natural_order(a.page.code, b.page.code);
        by_code
            .then_with(|| misnamed(a).cmp(&misnamed(b)))
            .then(a.file.cmp(&b.file))
    });
}
