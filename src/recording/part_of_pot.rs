//! Some of the seedlings of a community pot that died or left, while the others stay.

use super::dates::Dated;
use super::draft::Draft;
use super::page::FieldChange;
use super::parts::{COMMUNITY_POT, part};
use super::slip::Slip;
use super::taken_out::{counted, enough};
use super::trays::{not_empty_yet, present_trays};
use super::voice::{Words, words};
use super::written::RonRecord;
use crate::observation::seedling_trays::SeedlingTray;

/// Writes that so many seedlings of a community pot, or of what stands counted in a sowing, came to a fate; gives the code of
/// the pot.
///
/// # Errors
/// If no such pot is named, what stands in a sowing was not counted, the pot is gone, or so many are not left in it.
pub fn part_gone(
    draft: &mut Draft,
    named: &str,
    (seedlings, fate): (u32, &str),
    on: &Dated,
) -> Result<String, Slip> {
    let registry = draft.registry;
    if seedlings == 0 {
        return Err(Slip::bad_number(
            "--seedlings",
            "0",
            "at least one seedling",
        ));
    }
    let named: SeedlingTray = part(registry, named, &COMMUNITY_POT)?;
    present_trays(registry, &[named], on)?;
    let pot = counted(registry, named);
    let code = pot.code(registry);
    if let SeedlingTray::Sowing(_) = pot {
        return Err(Slip::nothing(words!(
            "how many seedlings stand in {code} is not on record\ncount them first{}";
            Words::or(format!(": `podbook count {code} --standing N`"), ", under “Counted”")
        )));
    }
    not_empty_yet(registry, pot, on)?;
    enough(registry, pot, seedlings.into(), on)?;
    let record = RonRecord::new()
        .value("count", seedlings)
        .value("fate", fate);
    draft.change_part(pot, &[FieldChange::Push("gone", record.line())])?;
    Ok(code)
}
