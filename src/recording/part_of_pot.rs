//! Some of the seedlings of a community pot that died or left, while the others stay.

use super::dates::Dated;
use super::draft::Draft;
use super::events::number::{counted, enough};
use super::page::FieldChange;
use super::parts::{Part, part};
use super::slip::Slip;
use super::trays::{not_empty_yet, present_trays};
use super::voice::{Words, words};
use super::written::RonRecord;
use crate::observation::seedling_trays::SeedlingTray;
use crate::registry::{PotRow, SowingRow};

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
    let (registry, today) = (draft.registry, draft.today);
    if seedlings == 0 {
        return Err(Slip::BadNumber(
            "--seedlings",
            "0".to_owned(),
            "at least one seedling",
        ));
    }
    let (kind, cross, at) = part(registry, named, &[Part::CommunityPot, Part::Sowing])?;
    let named = match kind {
        Part::CommunityPot => SeedlingTray::Pot(PotRow { cross, at }),
        _ => SeedlingTray::Sowing(SowingRow { cross, at }),
    };
    present_trays(registry, &[named], (today, on))?;
    let page = &registry[cross].page;
    let (kind @ Part::CommunityPot, at) = counted(page, (kind, at)) else {
        let code = named.code(registry);
        return Err(Slip::nothing(words!(
            "how many seedlings stand in {} is not on record\ncount them first{}";
            Words::from(code.as_str()),
            Words::or(format!(": `podbook count {code} --standing N`"), ", under “Counted”")
        )));
    };
    let pot = SeedlingTray::Pot(PotRow { cross, at });
    not_empty_yet(registry, pot, on)?;
    enough(registry, (kind, cross, at), seedlings.into(), (today, on))?;
    let record = RonRecord::new()
        .value("count", seedlings)
        .value("fate", fate);
    let push = FieldChange::Push("gone", record.line());
    draft
        .cross(cross)
        .change_at("community_pots", at, &[push])?;
    Ok(pot.code(registry))
}
