//! What was sown of a seed lot, and what is left of it where its seeds were counted.

use crate::observation::presence::is_over;
use crate::record::{CrossPage, Day, SeedLot, Sowing};
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
    let counted = sown.iter().filter_map(|sowing| sowing.seeds);
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
