//! What was sown of a seed lot, and what is left of it where its seeds were counted.

use crate::observation::presence::is_over;
use crate::record::{CommunityPot, CrossPage, Day, SeedLot, Sowing};
use crate::registry::Registry;

/// What became of a seed lot.
pub struct SeedLeft<'p, 't> {
    /// The sowings of it, in the order of the page.
    pub sown: Vec<&'p Sowing<'t>>,
    /// Seeds it held, those of its pod where it is the only lot of a pod that was counted; `None` where that is not known.
    pub seeds: Option<u32>,
    /// Seeds left by the record; the most it can be where some sowing was not counted.
    pub left: Option<u32>,
}

/// What is left of a lot of a page on a day.
pub fn seed_left<'p, 't>(
    registry: &Registry,
    page: &'p CrossPage<'t>,
    lot: &SeedLot,
    today: Day,
) -> SeedLeft<'p, 't> {
    let by_today = |on: Option<&str>| on.is_none_or(|on| registry.when(on).first <= today);
    let sown = page.sowings.iter();
    let sown = sown.filter(|sowing| sowing.lot == Some(lot.code) && by_today(sowing.on));
    let sown: Vec<&Sowing> = sown.collect();
    let counted = sown.iter().map(|sowing| took_at_least(page, sowing));
    let gone = lot
        .gone
        .iter()
        .filter(|part| by_today(Some(part.fate.on())));
    let gone = gone.map(|part| part.count).chain(lot.given_away);
    let used = counted.chain(gone).fold(0, u32::saturating_add);
    let is_over = lot
        .fate
        .as_ref()
        .is_some_and(|fate| is_over(registry, fate, today));
    let of_pod = || {
        let pod = page.pods.iter().find(|pod| lot.pod == Some(pod.code))?;
        let lots = page.seed_lots.iter().filter(|of| of.pod == lot.pod).count();
        let sown = page.sowings.iter().any(|sowing| sowing.pod == lot.pod);
        pod.seeds.filter(|_| lots == 1 && !sown)
    };
    let seeds = lot.seeds.or_else(of_pod);
    SeedLeft {
        sown,
        seeds,
        left: match is_over {
            true => Some(0),
            false => seeds.map(|seeds| seeds.saturating_sub(used)),
        },
    }
}

/// The fewest seeds that a sowing took: its number; without one as many as came up, were pricked out or stood in a pot of it.
pub fn took_at_least(page: &CrossPage, sowing: &Sowing) -> u32 {
    let moved = sowing.pricked_out.iter().map(|of| of.moved);
    let pots = page.community_pots.iter();
    // Of a pot that was mixed up some may be of another sowing.
    let is_of_it = |pot: &&CommunityPot| {
        pot.sowing == Some(sowing.code) && pot.one_of.is_empty() && pot.muddled.is_empty()
    };
    let tallies = pots.filter(is_of_it).flat_map(|pot| &pot.alive);
    let tallies = sowing.germinated.iter().chain(tallies);
    let most = tallies.map(|tally| tally.count).max();
    let seen = moved.fold(0, u32::saturating_add).max(most.unwrap_or(0));
    sowing.seeds.unwrap_or(seen)
}

/// The most seeds that a sowing can have taken: its number, else what is left of its lot, where that was counted.
pub fn took_at_most(page: &CrossPage, sowing: &Sowing) -> Option<u32> {
    let mut lots = page.seed_lots.iter();
    let lot = lots.find(|lot| sowing.lot == Some(lot.code));
    let left = || left_without(page, lot?, Some(sowing));
    let left = sowing.seeds.map(u64::from).or_else(left)?;
    Some(u32::try_from(left).unwrap_or(u32::MAX))
}

/// What the sowings of a counted lot, but perhaps one, and those who were handed seed left of it at most.
pub fn left_without(page: &CrossPage, lot: &SeedLot, without: Option<&Sowing>) -> Option<u64> {
    let is_of_it = |of: &&Sowing| {
        of.lot == Some(lot.code) && without.is_none_or(|without| without.code != of.code)
    };
    let sown = page.sowings.iter().filter(is_of_it);
    let sown = sown.map(|of| u64::from(took_at_least(page, of)));
    let used = sown.sum::<u64>() + lot.handed_on();
    let all = lot.seeds.filter(|_| !lot.estimated).map(u64::from);
    all.map(|all| all.saturating_sub(used))
}
