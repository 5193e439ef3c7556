//! Sowings and community pots as things that stand somewhere: which stand yet, and where.

use super::community_pot_left::community_pot_left;
use super::count_in_sowing::counts_of;
use super::places::is_in;
use super::presence::is_over;
use super::sowing_left::{LeftBy, sowing_left};
use crate::record::{Day, Fate, When};
use crate::registry::{CrossRow, PotRow, Registry, SowingRow};

/// Seedlings without numbers, in a pot or tray.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum SeedlingTray {
    /// In the pot they were sown in.
    Sowing(SowingRow),
    /// Pricked out together.
    Pot(PotRow),
}

/// Days for which a sowing counts as standing after the last seedlings were taken out, where no record says how many are
/// left: common practice is to throw the rest away within a season or two.
pub const STANDS_ON: i32 = 365;

impl SeedlingTray {
    /// The cross they are of.
    pub fn cross(self) -> CrossRow {
        match self {
            SeedlingTray::Sowing(row) => row.cross,
            SeedlingTray::Pot(row) => row.cross,
        }
    }

    /// The code with that of its cross: `X24-01.S1`.
    pub fn code(self, registry: &Registry) -> String {
        let code = match self {
            SeedlingTray::Sowing(row) => registry[row].code,
            SeedlingTray::Pot(row) => registry[row].code,
        };
        format!("{}.{code}", registry[self.cross()].page.code)
    }

    /// The tray whose tag is written: of a count of what stands in a sowing, that sowing.
    pub fn on_its_tag(self, registry: &Registry) -> SeedlingTray {
        let of = |row: &PotRow| {
            let mut sowings = registry.sowings(row.cross).map(|(sowing, _)| sowing);
            sowings.find(|sowing| counts_of(registry, *sowing).any(|at| at == *row))
        };
        match self {
            SeedlingTray::Pot(row) => of(&row).map_or(self, SeedlingTray::Sowing),
            sowing => sowing,
        }
    }

    /// Where it stands.
    pub fn place<'r>(self, registry: &'r Registry) -> Option<&'r str> {
        match self {
            SeedlingTray::Sowing(row) => registry[row].place.as_deref(),
            SeedlingTray::Pot(row) => registry[row].place.as_deref(),
        }
    }

    /// What became of it.
    pub fn fate<'r, 't>(self, registry: &'r Registry<'t>) -> Option<&'r Fate<'t>> {
        match self {
            SeedlingTray::Sowing(row) => registry[row].fate.as_ref(),
            SeedlingTray::Pot(row) => registry[row].fate.as_ref(),
        }
    }

    /// The day as typed since when it is there: of sowing, or the earliest of its counts and of the prickings out into it.
    pub fn since_typed<'t>(self, registry: &Registry<'t>) -> Option<&'t str> {
        let row = match self {
            SeedlingTray::Sowing(row) => return registry[row].on,
            SeedlingTray::Pot(row) => row,
        };
        let counted = registry[row].alive.iter().map(|tally| tally.on);
        let days = counted.chain(days_filled(registry, row));
        days.min_by_key(|on| registry.when(on).last)
    }

    /// Since when it is there.
    pub fn since(self, registry: &Registry) -> When {
        let on = self.since_typed(registry);
        on.map_or(When::UNKNOWN, |on| registry.when(on))
    }

    /// Seedlings in it, least and most; `None` where they were not counted.
    pub fn seedlings(self, registry: &Registry, today: Day) -> Option<(u32, u32)> {
        match self {
            SeedlingTray::Sowing(row) => sowing_left(registry, row, today).left,
            SeedlingTray::Pot(row) => community_pot_left(registry, row, today).left,
        }
    }

    /// Whether it stands yet by a day, as far as recorded. A count of what stands in a sowing is no tray of its own.
    pub fn stands(self, registry: &Registry, today: Day) -> bool {
        let begun = self.since(registry).first <= today;
        let gone = self.fate(registry);
        if !begun || gone.is_some_and(|fate| is_over(registry, fate, today)) {
            return false;
        }
        match self {
            SeedlingTray::Sowing(row) => may_hold_some(registry, row, today),
            SeedlingTray::Pot(row) => {
                let emptied = self.seedlings(registry, today) == Some((0, 0));
                !emptied && !is_count(registry, row)
            }
        }
    }
}

/// The days as typed on which a community pot was filled out of its sowing.
pub fn days_filled<'r, 't>(
    registry: &'r Registry<'t>,
    row: PotRow,
) -> impl Iterator<Item = &'t str> + 'r {
    let pot = &registry[row];
    let sowings = registry[row.cross].page.sowings.iter();
    let sowings = sowings.filter(|of| Some(of.code) == pot.sowing);
    let pricked = sowings.flat_map(|of| &of.pricked_out);
    let filled = pricked.filter(|of| of.to.as_deref() == Some(pot.code));
    filled.map(|of| of.on)
}

/// Whether seedlings of a sowing were taken out of it less than a year before a day.
pub fn lately_taken_out(registry: &Registry, row: SowingRow, on: When, today: Day) -> bool {
    let within = |day: Day| today.0.saturating_sub(day.0) <= STANDS_ON;
    // What was taken out on an unknown day was taken out after the sowing.
    let sown = registry[row].on.map(|on| registry.when(on).first);
    match on.last {
        Day::LAST => sown.is_some_and(|sown| sown != Day::FIRST && within(sown)),
        last => within(last),
    }
}

/// Whether seedlings may still stand in a sowing.
fn may_hold_some(registry: &Registry, row: SowingRow, today: Day) -> bool {
    let of = sowing_left(registry, row, today);
    match (of.taken_out, of.left) {
        (None, Some((_, 0))) if of.by == LeftBy::Count => false,
        (None, _) => true,
        (Some(_), Some((_, 0))) => false,
        (Some(_), Some(_)) if of.by == LeftBy::Count => true,
        (Some(on), _) => lately_taken_out(registry, row, on, today),
    }
}

/// Whether a community pot is only the count of what stands in its sowing.
pub fn is_count(registry: &Registry, row: PotRow) -> bool {
    let tray = SeedlingTray::Pot(row);
    tray.on_its_tag(registry) != tray
}

/// The trays of a cross that stand by a day: its sowings, then its community pots.
pub fn trays_of(
    registry: &Registry,
    cross: CrossRow,
    today: Day,
) -> impl Iterator<Item = SeedlingTray> {
    every_tray(registry, cross).filter(move |tray| tray.stands(registry, today))
}

/// Every tray on the page of a cross.
pub fn every_tray(registry: &Registry, cross: CrossRow) -> impl Iterator<Item = SeedlingTray> {
    let sowings = registry.sowings(cross);
    let sowings = sowings.map(|(row, _)| SeedlingTray::Sowing(row));
    let pots = registry.community_pots(cross);
    let pots = pots.map(|(row, _)| SeedlingTray::Pot(row));
    sowings.chain(pots)
}

/// The grower's own trays that stand at a place by a day, in the order of the pages.
pub fn trays_at(registry: &Registry, place: &str, today: Day) -> Vec<SeedlingTray> {
    let at = |tray: &SeedlingTray| (tray.place(registry)).is_some_and(|of| is_in(of, place));
    let crosses = registry.own_crosses().map(|(cross, _)| cross);
    let trays = crosses.flat_map(|cross| every_tray(registry, cross));
    // What stands there costs a look at every seedling of its cross, so the place comes first.
    let there = trays.filter(at);
    there.filter(|tray| tray.stands(registry, today)).collect()
}
