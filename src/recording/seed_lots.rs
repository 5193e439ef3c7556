//! Seed lots named among plants: seed that is left unsown and came to an end, or left, as a whole.

use super::draft::Draft;
use super::page::FieldChange;
use super::parts::{Part, is_own};
use super::slip::Slip;
use super::written::RonRecord;
use crate::observation::seed_left::left_without;
use crate::registry::{LotRow, Registry};

/// Writes what became of all that was left of seed lots.
///
/// # Errors
/// If nothing was left of one, or another grower's registry told of it.
pub fn end_lots(draft: &mut Draft, lots: &[LotRow], fate: &str) -> Result<(), Slip> {
    let registry = draft.registry;
    for (at, &row) in lots.iter().enumerate() {
        if lots[..at].contains(&row) {
            return Err(Slip::twice(&row.code(registry)));
        }
        can_leave(registry, row)?;
        draft.change_part(row, &[FieldChange::Set("fate", fate.to_owned())])?;
    }
    Ok(())
}

/// Writes that so many seeds of a lot left, and to whom.
///
/// # Errors
/// As [`end_lots`], or if that is more than are left of a counted lot, or none.
pub fn hand_on(draft: &mut Draft, row: LotRow, seeds: u32, fate: &str) -> Result<(), Slip> {
    let registry = draft.registry;
    can_leave(registry, row)?;
    if seeds == 0 {
        return Err(Slip::bad_number("--seeds", "0", "at least one seed"));
    }
    enough_seed(registry, row, seeds)?;
    let part = RonRecord::new().value("count", seeds).value("fate", fate);
    draft.change_part(row, &[FieldChange::Push("gone", part.line())])
}

/// Refuses more seeds than are left of a counted lot.
///
/// # Errors
/// If so many are not left.
pub fn enough_seed(registry: &Registry, row: LotRow, seeds: u32) -> Result<(), Slip> {
    let lot = &registry[row];
    let sowings = registry[row.cross].page.sowings.iter();
    let mut sown = sowings.filter(|of| of.lot == Some(lot.code));
    let uncounted = sown.find(|sowing| sowing.seeds.is_none());
    let left = left_without(&registry[row.cross].page, lot, None);
    let Some(left) = left.filter(|left| u64::from(seeds) > *left) else {
        return Ok(());
    };
    let (cross, code) = (registry[row.cross].page.code, row.code(registry));
    let what = match uncounted {
        Some(of) => format!(
            "seeds left in {code} at most; how many {cross}.{} took is not on record",
            of.code
        ),
        None => format!("seeds left in {code}"),
    };
    Err(Slip::too_many(
        what,
        (seeds, left),
        "count the seeds again, or mark the lot's number as estimated on its page",
    ))
}

/// Refuses seed that another grower's registry told of, and a lot of which nothing is left.
fn can_leave(registry: &Registry, row: LotRow) -> Result<(), Slip> {
    is_own(registry, row)?;
    match registry[row].is_used_up() {
        true => Err(Slip::nothing(format!(
            "nothing is left of {} on record already",
            row.code(registry)
        ))),
        false => Ok(()),
    }
}
