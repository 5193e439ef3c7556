//! Which sowings and community pots get a tag.

use super::slip::Slip;
use super::tags_asked::TagsAsked;
use crate::evidence::Unit;
use crate::observation::places::is_in;
use crate::observation::seedling_trays::{SeedlingTray, trays_of};
use crate::record::Day;
use crate::registry::{Registry, Target};

/// Sowings and community pots by code, those of a cross, or all; each once, in the order of the pages. Of a cross, and of
/// all, only what still stands.
///
/// # Errors
/// If a code names neither a cross, nor a sowing, nor a community pot.
pub fn trays_asked(registry: &Registry, asked: TagsAsked, today: Day) -> Result<Vec<Unit>, Slip> {
    let mut trays = Vec::new();
    if asked.ids.is_empty() {
        let all = registry.own_crosses().map(|(cross, _)| cross);
        trays.extend(all.flat_map(|cross| trays_of(registry, cross, today)));
    }
    for id in asked.ids {
        match registry.target(id) {
            Some(Target::Cross(cross)) => trays.extend(trays_of(registry, cross, today)),
            Some(Target::Sowing(sowing)) => trays.push(SeedlingTray::Sowing(sowing)),
            Some(Target::CommunityPot(pot)) => trays.push(SeedlingTray::Pot(pot)),
            _ => {
                return Err(Slip::nothing(format!(
                    "`{}` has no tray\nname a cross such as X24-01, a sowing such as X24-01.S1 or a community pot such as X24-01.T1",
                    crate::text::one_line(id)
                )));
            }
        }
    }
    let mut seen = Vec::new();
    trays.retain(|tray| {
        let place = tray.place(registry);
        let stands = |at: &str| place.is_some_and(|place| is_in(place, at));
        let is_asked = asked.place.is_none_or(stands)
            && (asked.since).is_none_or(|since| tray.since(registry).first >= since)
            && !seen.contains(tray);
        seen.push(*tray);
        is_asked
    });
    let unit = |tray| match tray {
        SeedlingTray::Sowing(row) => Unit::Sowing(row),
        SeedlingTray::Pot(row) => Unit::Pot(row),
    };
    Ok(trays.into_iter().map(unit).collect())
}
