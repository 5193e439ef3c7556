//! The compact row of a seedling on its page, and numbers given twice.

use super::ids::is_seedling_number;
use crate::diagnostic::{Code, Finding};
use crate::record::BriefSeedling;
use crate::text::{FileId, Sources};
use std::cmp::Ordering;

/// A seedling's row on its page, 16 bytes; what few seedlings have lies beside it in their own records.
#[derive(Clone, Copy, Debug)]
pub(super) struct SeedlingRow {
    /// Where its number starts in the file.
    pub start: u32,
    /// Index of its further record or of its fate alone, or [`SeedlingRow::NONE`].
    pub detail: u32,
    /// Index of its sowing on the page, or [`SeedlingRow::NOWHERE`]; so for pod and community pot.
    pub sowing: u16,
    pub pod: u16,
    pub community_pot: u16,
    /// Bytes of its number.
    pub len: u8,
    /// Whether `detail` is the index of its fate alone.
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
    .help("codes of pieces begin with a letter, so the two cannot be confused")
}

fn repeated_number(sources: &Sources, file: FileId, first: &str, second: &str) -> Finding {
    let finding = Finding::fault(
        Code("repeated-code"),
        format!("seedling {second} is here twice"),
    )
    .at(sources.span_of(file, second))
    .found("a number already given on this page")
    .needed("each seedling's number once")
    .help("the second record is left out; read the tags again and give one of the two another number first");
    finding.related(sources.span_of(file, first), "first given here")
}
