//! One cross page, taken apart on its own: seedlings and readings as compact rows, local codes resolved.
//!
//! Runs for many pages at once. What needs another page (parents, pods of other crosses, plants of other pages) is
//! left to `build`.

use super::PlantRow;
use super::ids::{is_seedling_number, natural_order};
use super::lookup::Lookup;
use super::readings::Reading;
use crate::diagnostic::{Code, Finding};
use crate::record::{CrossPage, Fate, Seedling, Sitting};
use crate::text::{FileId, Sources, Span};

/// A seedling's row on its page, 16 bytes; what few seedlings have lies beside it in their own records.
#[derive(Clone, Copy, Debug)]
pub(super) struct SeedlingRow {
    /// Where its number starts in the file.
    pub start: u32,
    /// Index of its further record, or [`SeedlingRow::NONE`].
    pub rest: u32,
    /// Index of its sowing on the page, or [`SeedlingRow::NOWHERE`]; so for pod and patch.
    pub sowing: u16,
    pub pod: u16,
    pub patch: u16,
    /// Bytes of its number.
    pub len: u8,
}

impl SeedlingRow {
    pub const NONE: u32 = u32::MAX;
    pub const NOWHERE: u16 = u16::MAX;
}

/// A cell's row before its page is numbered.
#[derive(Debug)]
pub(super) struct LocalCell {
    /// Index of the seedling on the page, or of the code among [`LocalSitting::foreign`].
    pub plant: u32,
    pub foreign: bool,
    pub start: u32,
    pub len: u8,
    pub column: u8,
}

/// A sitting taken apart.
#[derive(Debug)]
pub(super) struct LocalSitting<'t> {
    pub sitting: Sitting<'t>,
    pub cells: Vec<LocalCell>,
    pub foreign: Vec<&'t str>,
    pub spelt: Vec<Box<str>>,
}

/// A cross: its page, with the seedlings as rows.
#[derive(Debug)]
pub struct Cross<'t> {
    /// The file of the page.
    pub file: FileId,
    /// The page, without its seedlings and sittings.
    pub page: CrossPage<'t>,
    /// Rows of its seedlings in the order of the page.
    pub seedlings: Vec<PlantRow>,
    /// Index of the origin of its seedlings.
    pub origin: u32,
    pub(super) locals: Vec<SeedlingRow>,
    /// Indices of seedlings in the order of their numbers' bytes.
    pub(super) by_number: Vec<u32>,
    pub(super) rests: Vec<Box<Seedling<'t>>>,
    pub(super) fates: Vec<(u32, Fate<'t>)>,
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
    let seedlings = std::mem::take(&mut page.seedlings);
    let sittings = std::mem::take(&mut page.sittings);
    let mut parts = Cross {
        file,
        page,
        seedlings: Vec::new(),
        origin: 0,
        locals: Vec::with_capacity(seedlings.len()),
        by_number: Vec::new(),
        rests: Vec::new(),
        fates: Vec::new(),
        sittings: Vec::new(),
        findings,
    };
    for seedling in seedlings {
        parts.add_seedling(sources, seedling);
    }
    parts.sort_numbers(sources);
    for sitting in sittings {
        let taken = take_sitting(sources, file, sitting, |number| parts.find(sources, number));
        parts.sittings.push(taken);
    }
    parts
}

impl<'t> Cross<'t> {
    fn add_seedling(&mut self, sources: &'t Sources, mut seedling: Seedling<'t>) {
        let span = sources.span_of(self.file, seedling.number);
        let start = span.map_or(0, |span| span.start);
        if !is_seedling_number(seedling.number) {
            self.findings.push(
                Finding::fault(
                    Code("bad-code"),
                    "a seedling's number must begin with a digit",
                )
                .at(span)
                .found(format!("`{}`", seedling.number))
                .needed("a number such as `17` or `17b`, without blanks, hyphens or marks")
                .help(
                    "letters come first in the codes of ramets, so that the two are not confused",
                ),
            );
            return;
        }
        let sowing = self.local_sowing(sources, &seedling);
        let pod = self.local_pod(sources, &seedling, sowing);
        let patch = seedling.patch.map_or(SeedlingRow::NOWHERE, |code| {
            let codes = self.page.patches.iter().map(|patch| patch.code);
            index_of(sources, self.file, "patch", code, codes, &mut self.findings)
        });
        if let Some(fate) = seedling.fate.take() {
            self.fates.push((self.locals.len() as u32, fate));
        }
        let len = seedling.number.len() as u8;
        let rest = if has_more(&seedling) {
            self.rests.push(Box::new(seedling));
            self.rests.len() as u32 - 1
        } else {
            SeedlingRow::NONE
        };
        self.locals.push(SeedlingRow {
            start,
            rest,
            sowing,
            pod,
            patch,
            len,
        });
    }

    /// The sowing a seedling names; without one the page's only sowing.
    fn local_sowing(&mut self, sources: &'t Sources, seedling: &Seedling<'t>) -> u16 {
        let sowings = &self.page.sowings;
        if let Some(code) = seedling.sowing {
            let codes = sowings.iter().map(|sowing| sowing.code);
            return index_of(
                sources,
                self.file,
                "sowing",
                code,
                codes,
                &mut self.findings,
            );
        }
        if let Some(patch) = seedling.patch
            && let Some(patch) = self.page.patches.iter().find(|p| p.code == patch)
            && let Some(sowing) = patch.sowing
            && let Some(at) = sowings.iter().position(|s| s.code == sowing)
        {
            return at as u16;
        }
        let alone = sowings.len() == 1 && seedling.pod.is_none() && seedling.one_of.is_empty();
        if alone { 0 } else { SeedlingRow::NOWHERE }
    }

    /// The pod a seedling names, or that of its sowing, or the page's only pod.
    fn local_pod(&mut self, sources: &'t Sources, seedling: &Seedling<'t>, sowing: u16) -> u16 {
        if !seedling.one_of.is_empty() {
            return SeedlingRow::NOWHERE;
        }
        if let Some(code) = seedling.pod {
            let codes = self.page.pods.iter().map(|pod| pod.code);
            return index_of(sources, self.file, "pod", code, codes, &mut self.findings);
        }
        if let Some(sowing) = self.page.sowings.get(sowing as usize) {
            let lots = &self.page.seed_lots;
            let lot = sowing
                .lot
                .and_then(|lot| lots.iter().find(|l| l.code == lot));
            if let Some(pod) = sowing.pod.or(lot.and_then(|lot| lot.pod))
                && let Some(at) = self.page.pods.iter().position(|p| p.code == pod)
            {
                return at as u16;
            }
        }
        if self.page.pods.len() == 1 {
            0
        } else {
            SeedlingRow::NOWHERE
        }
    }

    pub(super) fn number_text(&self, sources: &'t Sources, at: u32) -> &'t str {
        let seedling = &self.locals[at as usize];
        let end = seedling.start + u32::from(seedling.len);
        sources.slice(Span::new(self.file, seedling.start..end))
    }

    fn sort_numbers(&mut self, sources: &'t Sources) {
        let mut order: Vec<u32> = (0..self.locals.len() as u32).collect();
        order.sort_by(|&a, &b| {
            self.number_text(sources, a)
                .cmp(self.number_text(sources, b))
                .then(a.cmp(&b))
        });
        for pair in order.windows(2) {
            let (first, second) = (pair[0], pair[1]);
            if self.number_text(sources, first) == self.number_text(sources, second) {
                let number = self.number_text(sources, second);
                let place = |at| sources.span_of(self.file, self.number_text(sources, at));
                let mut finding = Finding::fault(
                    Code("repeated-code"),
                    format!("seedling {number} is here twice"),
                )
                .at(place(second))
                .found("a number already given on this page")
                .needed("each seedling's number once")
                .help("give one of the two another number, and re-read its tag first");
                if let Some(place) = place(first) {
                    finding = finding.related(place, "first given here");
                }
                self.findings.push(finding);
            }
        }
        self.by_number = order;
    }

    /// The seedling of this page with a number.
    pub(super) fn find(&self, sources: &'t Sources, number: &str) -> Option<u32> {
        let at = self
            .by_number
            .partition_point(|&at| self.number_text(sources, at) < number);
        let at = *self.by_number.get(at)?;
        (self.number_text(sources, at) == number).then_some(at)
    }
}

/// Whether a seedling says more than a row holds.
fn has_more(seedling: &Seedling) -> bool {
    !(seedling.one_of.is_empty()
        && seedling.ramets.is_empty()
        && seedling.flowerings.is_empty()
        && seedling.pots.is_empty()
        && seedling.identified.is_empty())
        || seedling.germinated.is_some()
        || seedling.numbered.is_some()
        || seedling.place.is_some()
        || seedling.nickname.is_some()
        || seedling.cultivar.is_some()
        || seedling.kept.is_some()
        || seedling.note.is_some()
}

/// The index of a local code, or a finding.
fn index_of<'t>(
    sources: &'t Sources,
    file: FileId,
    what: &'static str,
    code: &'t str,
    codes: impl Iterator<Item = &'t str> + Clone,
    findings: &mut Vec<Finding>,
) -> u16 {
    if let Some(at) = codes.clone().position(|known| known == code)
        && at < SeedlingRow::NOWHERE as usize
    {
        return at as u16;
    }
    findings.push(Lookup { sources, file }.unknown(what, code, codes));
    SeedlingRow::NOWHERE
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
    let patches = || page.patches.iter().map(|p| p.code);
    lookup.repeated("zone", zones(), findings);
    lookup.repeated("pod", pods(), findings);
    lookup.repeated("seed lot", lots(), findings);
    lookup.repeated("sowing", sowings(), findings);
    lookup.repeated("patch", patches(), findings);
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
    for patch in &page.patches {
        lookup.known("sowing", patch.sowing, sowings(), findings);
    }
}

/// Takes a sitting's rows apart into cells.
pub(super) fn take_sitting<'t>(
    sources: &'t Sources,
    file: FileId,
    mut sitting: Sitting<'t>,
    find: impl Fn(&str) -> Option<u32>,
) -> LocalSitting<'t> {
    let rows = std::mem::take(&mut sitting.rows);
    let mut taken = LocalSitting {
        sitting,
        cells: Vec::new(),
        foreign: Vec::new(),
        spelt: Vec::new(),
    };
    for row in rows {
        let mut row = row.into_iter();
        let Some(number) = row.next() else { continue };
        let (plant, foreign) = match (find(&number), number.0) {
            (Some(local), _) => (local, false),
            (None, std::borrow::Cow::Borrowed(code)) => {
                taken.foreign.push(code);
                (taken.foreign.len() as u32 - 1, true)
            }
            // A code spelt with escapes names no plant; the row is told of by its first readable neighbour.
            (None, std::borrow::Cow::Owned(_)) => continue,
        };
        for (column, cell) in row.enumerate().take(usize::from(u8::MAX)) {
            if cell.trim().is_empty() {
                continue;
            }
            let span = sources
                .span_of(file, &cell)
                .filter(|span| span.len() < u32::from(Reading::SPELT));
            let (start, len) = match span {
                Some(span) => (span.start, span.len() as u8),
                None => {
                    taken.spelt.push(cell.0.into_owned().into_boxed_str());
                    (taken.spelt.len() as u32 - 1, Reading::SPELT)
                }
            };
            taken.cells.push(LocalCell {
                plant,
                foreign,
                start,
                len,
                column: column as u8,
            });
        }
    }
    taken.cells.shrink_to_fit();
    taken
}

/// Pages in the order of their codes, whatever their files are called.
pub(super) fn by_code(parts: &mut [Cross]) {
    parts.sort_by(|a, b| natural_order(a.page.code, b.page.code).then(a.file.cmp(&b.file)));
}
