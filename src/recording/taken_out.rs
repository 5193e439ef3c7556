//! Seedlings taken out of a community pot or a sowing: of which count they are, and whether so many stand there.

use super::dates::Dated;
use super::slip::Slip;
use super::voice::{Words, words};
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::count_in_sowing::counts_of;
use crate::observation::seedling_trays::SeedlingTray;
use crate::observation::sowing_left::SowingAccount;
use crate::record::{CommunityPot, Day};
use crate::registry::{PotRow, Registry, SowingRow};

/// The count of what stands in a sowing, where seedlings are taken out of a sowing that has one; else what was named.
pub fn counted(registry: &Registry, named: SeedlingTray) -> SeedlingTray {
    let SeedlingTray::Sowing(row) = named else {
        return named;
    };
    let is_open = |pot: &CommunityPot| pot.fate.is_none() && !pot.alive.is_empty();
    let mut counts = counts_of(registry, row).filter(|pot| is_open(&registry[*pot]));
    match (counts.next(), counts.next()) {
        (Some(count), None) => SeedlingTray::Pot(count),
        _ => named,
    }
}

/// Refuses more seedlings than stand there.
///
/// # Errors
/// If so many are not left.
pub fn enough(registry: &Registry, tray: SeedlingTray, asked: u64, on: &Dated) -> Result<(), Slip> {
    let there = match tray {
        SeedlingTray::Pot(row) => left_in_pot(registry, row, on),
        SeedlingTray::Sowing(row) => left_in_sowing(registry, row),
    };
    match there.map(u64::from) {
        Some(there) if asked > there => Err(Slip::too_many(
            format!(
                "seedlings left in {}",
                tray.on_its_tag(registry).code(registry)
            ),
            (asked, there),
            words!(
                "count them again first{}";
                Words::or(": `podbook count … --standing N`", ", under “Counted”")
            ),
        )),
        _ => Ok(()),
    }
}

/// The most seedlings left in a community pot, then and now.
fn left_in_pot(registry: &Registry, row: PotRow, on: &Dated) -> Option<u32> {
    let today = on.today;
    let left = |day: Day| Some(community_pot_left(registry, row, day).left?.1);
    let (then, now) = (left(on.when.last.min(today)), left(today));
    // Where it was counted later, those taken out before are out of that count already.
    let counts = registry[row].alive.iter();
    let is_counted_later = counts
        .map(|tally| registry.when(tally.on))
        .any(|when| when.first <= today && on.when.surely_before(when));
    match then {
        Some(then) if is_counted_later => Some(then),
        _ => then.into_iter().chain(now).min(),
    }
}

/// The most seedlings of a sowing that still have no number and are in no community pot: of those that came up, or of the
/// seeds where they were not counted.
fn left_in_sowing(registry: &Registry, row: SowingRow) -> Option<u32> {
    let sowing = &registry[row];
    let up = sowing.germinated.iter().map(|tally| tally.count).max();
    Some(SowingAccount::of(registry, row).most_left(up.or(sowing.seeds)?))
}
