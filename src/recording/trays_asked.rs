//! Which sowings and community pots get a tag.

use super::slip::Slip;
use super::tags_asked::TagsAsked;
use crate::evidence::Unit;
use crate::observation::places::is_in;
use crate::observation::presence::is_over;
use crate::record::{CommunityPot, Day, Sowing, When};
use crate::registry::{CrossRow, Registry, Target};

/// Sowings and community pots by code, those of a cross, or all; each once, in the order of the pages. Of a cross, and of
/// all, only what still stands: a sowing until seedlings were pricked out of it, a community pot until it is gone.
///
/// # Errors
/// If a code names neither a cross, nor a sowing, nor a community pot.
pub fn trays_asked(registry: &Registry, asked: TagsAsked, today: Day) -> Result<Vec<Unit>, Slip> {
    let about = Trays { registry, today };
    let mut trays = Vec::new();
    if asked.ids.is_empty() {
        let all = registry.own_crosses().map(|(cross, _)| cross);
        trays.extend(all.flat_map(|cross| about.standing(cross)));
    }
    for id in asked.ids {
        match registry.target(id) {
            Some(Target::Cross(cross)) => trays.extend(about.standing(cross)),
            Some(Target::Sowing(sowing)) => trays.push(Unit::Sowing(sowing)),
            Some(Target::CommunityPot(pot)) => trays.push(Unit::Pot(pot)),
            _ => {
                return Err(Slip::NothingToChange(format!(
                    "`{}` has no tray\nname a cross such as X24-01, a sowing such as X24-01.S1 or a community pot such as X24-01.T1",
                    crate::text::one_line(id)
                )));
            }
        }
    }
    let mut seen = Vec::new();
    trays.retain(|tray| {
        let (place, began) = about.place(*tray);
        let stands = |at: &str| place.is_some_and(|place| is_in(place, at));
        let is_asked = asked.place.is_none_or(stands)
            && asked.since.is_none_or(|since| began.first >= since)
            && !seen.contains(tray);
        seen.push(*tray);
        is_asked
    });
    Ok(trays)
}

struct Trays<'r, 't> {
    registry: &'r Registry<'t>,
    today: Day,
}

impl<'r> Trays<'r, '_> {
    /// The trays of a cross that still stand.
    fn standing(&self, cross: CrossRow) -> Vec<Unit> {
        let by_today = |on: &str| self.registry.when(on).first <= self.today;
        let sown = |of: &Sowing| {
            let emptied = of.pricked_out.iter().any(|out| by_today(out.on));
            of.on.is_none_or(by_today) && !emptied
        };
        let here = |of: &CommunityPot| {
            let began = of.alive.first().is_none_or(|tally| by_today(tally.on));
            began
                && !of
                    .fate
                    .as_ref()
                    .is_some_and(|fate| is_over(self.registry, fate, self.today))
        };
        let sowings = self.registry.sowings(cross).filter(|(_, of)| sown(of));
        let pots = self.registry.community_pots(cross);
        let pots = pots.filter(|(_, of)| here(of));
        sowings
            .map(|(row, _)| Unit::Sowing(row))
            .chain(pots.map(|(row, _)| Unit::Pot(row)))
            .collect()
    }

    /// Where a tray stands, and since when it is there.
    fn place(&self, tray: Unit) -> (Option<&'r str>, When) {
        let on = |on: Option<&str>| on.map_or(When::UNKNOWN, |on| self.registry.when(on));
        match tray {
            Unit::Sowing(sowing) => {
                let of = &self.registry[sowing];
                (of.place.as_deref(), on(of.on))
            }
            Unit::Pot(pot) => {
                let of = &self.registry[pot];
                (
                    of.place.as_deref(),
                    on(of.alive.first().map(|tally| tally.on)),
                )
            }
            _ => (None, When::UNKNOWN),
        }
    }
}
