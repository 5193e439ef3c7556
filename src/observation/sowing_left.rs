//! How many seedlings may still stand in a sowing once some were pricked out or numbered.
//!
//! A count of what stands there goes before all else; then the number written as left behind at the last pricking out; else
//! it is at most what came up less what was taken out, and may be none, since deaths in a pot of seed are seldom recorded.

use super::community_pot_left::community_pot_left;
use super::count_in_sowing::{counts_in_sowing, counts_of};
use super::presence::is_over;
use crate::record::{CommunityPot, Day, When};
use crate::registry::{PlantRow, PotRow, Registry, SowingRow};

/// What may be left in a sowing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct SowingLeft {
    /// Least and most seedlings; `None` where neither those that came up nor those left behind were counted.
    pub left: Option<(u32, u32)>,
    /// The last day on which some were pricked out or numbered; `None` where none were.
    pub taken_out: Option<When>,
    /// What says so.
    pub by: LeftBy,
    /// Whether something was taken out or came up since the count, or may have.
    pub is_changed: bool,
}

/// What says how many seedlings are left in a sowing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum LeftBy {
    /// That all that was left came to an end.
    End,
    /// A count of what stands there.
    Count,
    /// The number written at the last pricking out.
    Pricking,
    /// Only that more came up than were taken out.
    CameUp,
}

/// What is left of a sowing by a day.
pub fn sowing_left(registry: &Registry, row: SowingRow, today: Day) -> SowingLeft {
    let account = SowingAccount::of(registry, row);
    let fate = registry[row].fate.as_ref();
    let is_gone = fate.is_some_and(|fate| is_over(registry, fate, today));
    let counts: Vec<PotRow> = counts_of(registry, row).collect();
    let (left, by) = match counts.as_slice() {
        _ if is_gone => (Some((0, 0)), LeftBy::End),
        [] => match account.left_behind(today) {
            Some(left) => (Some(left), LeftBy::Pricking),
            None => {
                let most = account.up_by(today);
                let most = most.map(|up| account.not_taken_out(up, today));
                (most.map(|most| (0, most)), LeftBy::CameUp)
            }
        },
        counts => (sum_of_counts(registry, counts, today), LeftBy::Count),
    };
    let of_counts = counts.iter();
    let mut of_counts = of_counts.map(|pot| community_pot_left(registry, *pot, today));
    let is_changed = by == LeftBy::Count && of_counts.any(|of| of.is_changed());
    SowingLeft {
        left,
        taken_out: account.last_taken_out(today),
        by,
        is_changed,
    }
}

/// What the counts of what stands in a sowing leave together; `None` where one of them says nothing.
fn sum_of_counts(registry: &Registry, counts: &[PotRow], today: Day) -> Option<(u32, u32)> {
    let mut counts = counts.iter();
    counts.try_fold((0u32, 0u32), |sum, pot| {
        let (least, most) = count_left(registry, *pot, today)?;
        Some((sum.0.saturating_add(least), sum.1.saturating_add(most)))
    })
}

fn count_left(registry: &Registry, pot: PotRow, today: Day) -> Option<(u32, u32)> {
    let gone = registry[pot].fate.as_ref();
    match gone.is_some_and(|fate| is_over(registry, fate, today)) {
        true => Some((0, 0)),
        false => community_pot_left(registry, pot, today).left,
    }
}

/// What came up in a sowing and what was taken out of it.
pub struct SowingAccount<'r, 't> {
    registry: &'r Registry<'t>,
    row: SowingRow,
    prickings: Vec<PrickedOut>,
    /// The days on which seedlings were numbered out of the sowing itself, or out of the count of what stands in it, and not
    /// out of another pot.
    numbered: Vec<When>,
    /// How many had come up, and when.
    up: Vec<(u32, When)>,
}

/// Seedlings that were pricked out of a sowing.
struct PrickedOut {
    moved: u32,
    left: Option<u32>,
    on: When,
    /// Whether they went into a community pot of the page.
    into_pot: bool,
}

impl<'r, 't> SowingAccount<'r, 't> {
    /// What is recorded of a sowing.
    pub fn of(registry: &'r Registry<'t>, row: SowingRow) -> Self {
        let (sowing, page) = (&registry[row], &registry[row.cross].page);
        let is_pot = |to: &str| page.community_pots.iter().any(|pot| pot.code == to);
        let prickings = sowing.pricked_out.iter().map(|of| PrickedOut {
            moved: of.moved,
            left: of.left,
            on: registry.when(of.on),
            into_pot: of.to.as_deref().is_some_and(is_pot),
        });
        let up = sowing.germinated.iter();
        SowingAccount {
            registry,
            row,
            prickings: prickings.collect(),
            numbered: numbered_on(registry, row),
            up: up.map(|of| (of.count, registry.when(of.on))).collect(),
        }
    }

    /// How many were pricked out, of the prickings that are meant.
    fn moved(&self, is_meant: impl Fn(&PrickedOut) -> bool) -> u64 {
        let prickings = self.prickings.iter().filter(|of| is_meant(of));
        prickings.map(|of| u64::from(of.moved)).sum()
    }

    /// How many were pricked out into something that is no community pot of the page.
    fn elsewhere(&self) -> u64 {
        self.moved(|of| !of.into_pot)
    }

    /// How many were numbered on days that are meant.
    fn numbered(&self, is_meant: impl Fn(When) -> bool) -> u64 {
        self.numbered.iter().filter(|on| is_meant(**on)).count() as u64
    }

    /// The most that came up by a day.
    fn up_by(&self, day: Day) -> Option<u32> {
        let up = self.up.iter().filter(|(_, on)| on.first <= day);
        up.map(|(count, _)| *count).max()
    }

    /// The last day by today on which some were pricked out or numbered. A number without a day says that some were taken out,
    /// not when.
    fn last_taken_out(&self, today: Day) -> Option<When> {
        let days = self.prickings.iter().map(|of| of.on);
        let days = days.chain(self.numbered.iter().copied());
        let days = days.filter(|on| on.first <= today);
        days.reduce(|one, other| match (one.is_bounded(), other.is_bounded()) {
            (true, false) => one,
            (false, true) => other,
            _ if other.last > one.last => other,
            _ => one,
        })
    }

    /// How many of those that came up, or of the seeds where they were not counted, were not taken out by a day. Where
    /// seedlings were pricked out into something that is no community pot of the page, as many of those numbered, or counted
    /// in pots that no pricking out filled, may have come from there.
    pub fn not_taken_out(&self, came_up: u32, today: Day) -> u32 {
        let pots = self.in_pots_unrecorded(|on| on.first <= today);
        self.less_taken_out(came_up, (today, pots))
    }

    /// The same where so many went into pots without a pricking out on record.
    fn less_taken_out(&self, came_up: u32, (today, pots): (Day, u64)) -> u32 {
        let by_today = |on: When| on.first <= today;
        let elsewhere = self.moved(|of| by_today(of.on) && !of.into_pot);
        let numbered = (self.numbered(by_today) + pots).saturating_sub(elsewhere);
        less(came_up, self.moved(|of| by_today(of.on)) + numbered)
    }

    /// The fewest seedlings that were moved out: those of its prickings out, and those counted in community pots that no
    /// pricking out filled.
    pub fn moved_out(&self) -> u64 {
        let pots = self.in_pots_unrecorded(|_| true);
        self.moved(|_| true) + pots.saturating_sub(self.elsewhere())
    }

    /// The fewest seedlings that went into community pots without a pricking out on record, by the counts of those pots on
    /// some days.
    fn in_pots_unrecorded(&self, counts: impl Fn(When) -> bool + Copy) -> u64 {
        let pots = self.registry[self.row.cross].page.community_pots.iter();
        let into = pots.map(|pot| into_pot_unrecorded(self.registry, self.row, pot, counts));
        into.map(u64::from).sum()
    }

    /// What a pricking out by a day says was left behind, the last one that says it: with those that came up since, less those
    /// pricked out and numbered since. Where seedlings were pricked out into something that is no community pot of the page,
    /// those numbered may have come from there.
    fn left_behind(&self, today: Day) -> Option<(u32, u32)> {
        let by_today = |on: When| on.first <= today;
        let prickings = self.prickings.iter().filter(|of| by_today(of.on));
        let says_left = prickings.filter(|of| of.left.is_some());
        let counted = says_left.max_by_key(|of| of.on.last)?;
        let (left, on) = (counted.left?, counted.on);
        // Others of that day may have been pricked out after that count.
        let perhaps_since = |day: When| by_today(day) && !day.surely_before(on);
        let others = |of: &PrickedOut| !std::ptr::eq(of, counted) && perhaps_since(of.on);
        let least = less(left, self.numbered(perhaps_since) + self.moved(others));
        let up = self.up_by(today);
        let up_then = self.up_by(on.last.min(today));
        let more = up.zip(up_then);
        let more = more.map_or(0, |(up, then)| up.saturating_sub(then));
        let most = less(left.saturating_add(more), self.surely_since(on, today));
        // Those left were counted, so what a pot held later says nothing against it.
        let not_taken_out = |up| self.less_taken_out(up, (today, 0));
        let most = up.map_or(most, |up| most.min(not_taken_out(up)));
        Some((least.min(most), most))
    }

    /// The fewest that were pricked out or numbered after a day, by today. Those numbered may have come from elsewhere, where
    /// some were pricked out into something that is no community pot of the page.
    fn surely_since(&self, on: When, today: Day) -> u64 {
        let since = |day: When| day.first <= today && on.surely_before(day);
        let numbered = match self.elsewhere() {
            0 => self.numbered(since),
            _ => 0,
        };
        numbered + self.moved(|of| since(of.on))
    }

    /// The most seedlings that still have no number and are in no community pot, out of those that came up. Those pricked out
    /// into a pot of the page are numbered out of that pot; pricked out into anything else they stay of the sowing.
    pub fn most_left(&self, came_up: u32) -> u32 {
        let pots = self.in_pots_unrecorded(|_| true);
        let pots = pots.saturating_sub(self.elsewhere());
        let moved = self.moved(|of| of.into_pot);
        less(came_up, moved + pots + self.numbered(|_| true))
    }

    /// How many seedlings were pricked out by a day into something that is no community pot of the page and have neither a
    /// number nor been counted in a pot since, and the last day on which some were. Those numbered or counted came from there
    /// first.
    pub fn pricked_out_elsewhere(&self, today: Day) -> (u64, When) {
        let by_today = |on: When| on.first <= today;
        let is_meant = |of: &PrickedOut| by_today(of.on) && !of.into_pot;
        let days = self.prickings.iter().filter(|of| is_meant(of));
        let last = days.map(|of| of.on).max_by_key(|on| on.last);
        let known = self.numbered(by_today) + self.in_pots_unrecorded(by_today);
        let moved = self.moved(is_meant).saturating_sub(known);
        (moved, last.unwrap_or(When::UNKNOWN))
    }

    /// How many may still be taken out by what a pricking out before a day says was left behind: less those moved and numbered
    /// since, and with those that came up since. `None` where none says so, or none was counted up by then.
    pub fn left_behind_then(&self, on: When) -> Option<u32> {
        let caps = self.prickings.iter().filter_map(|of| {
            let left = of.left.filter(|_| of.on.surely_before(on))?;
            let up = self.up_by(Day::LAST)?;
            let more = up.saturating_sub(self.up_by(of.on.last)?);
            let taken = self.surely_since(of.on, Day::LAST);
            Some(less(left.saturating_add(more), taken))
        });
        caps.min()
    }

    /// Whether seedlings were numbered straight out of it beside those that were pricked out.
    pub fn numbered_beside_pricked_out(&self) -> bool {
        let is_pricked = !self.prickings.is_empty();
        is_pricked && self.elsewhere() == 0 && !self.numbered.is_empty()
    }
}

fn less(seedlings: u32, taken: u64) -> u32 {
    seedlings.saturating_sub(u32::try_from(taken).unwrap_or(u32::MAX))
}

/// The fewest seedlings of a sowing that went into one of its community pots without a pricking out on record: the most counted
/// there beyond what was pricked out into it by then, by its counts on some days. A count of what stands in the
/// sowing holds none of them, and seedlings of a pot that may be of other pods may be of another sowing.
pub fn into_pot_unrecorded(
    registry: &Registry,
    row: SowingRow,
    pot: &CommunityPot,
    counts: impl Fn(When) -> bool,
) -> u32 {
    let (page, sowing) = (&registry[row.cross].page, &registry[row]);
    let is_count =
        counts_in_sowing(page, sowing).any(|at| page.community_pots[at].code == pot.code);
    let is_mixed = !pot.one_of.is_empty() || !pot.muddled.is_empty();
    if pot.sowing != Some(sowing.code) || is_count || is_mixed {
        return 0;
    }
    let into = sowing.pricked_out.iter();
    let into = into.filter(|of| of.to.as_deref() == Some(pot.code));
    let into: Vec<(u32, When)> = into.map(|of| (of.moved, registry.when(of.on))).collect();
    let beyond = pot.alive.iter().filter_map(|tally| {
        let on = registry.when(tally.on);
        let by_then = into.iter().filter(|(_, moved)| !on.surely_before(*moved));
        let by_then = by_then.map(|(moved, _)| *moved);
        let recorded = by_then.fold(0, u32::saturating_add);
        counts(on).then(|| tally.count.saturating_sub(recorded))
    });
    beyond.max().unwrap_or(0)
}

/// The days on which seedlings were numbered out of a sowing itself, or out of the count of what stands in it.
fn numbered_on(registry: &Registry, row: SowingRow) -> Vec<When> {
    let counts: Vec<PotRow> = counts_of(registry, row).collect();
    let seedlings = registry[row.cross].seedlings.iter().copied();
    let numbered = seedlings.filter(|plant| {
        let (of, _, pot) = registry.road(*plant);
        of == Some(row) && pot.is_none_or(|pot| counts.contains(&pot))
    });
    numbered
        .map(|plant| day_numbered(registry, plant))
        .collect()
}

fn day_numbered(registry: &Registry, plant: PlantRow) -> When {
    let seedling = registry.seedling(plant);
    let on = seedling.and_then(|of| of.numbered);
    on.map_or(When::UNKNOWN, |on| registry.when(on))
}
