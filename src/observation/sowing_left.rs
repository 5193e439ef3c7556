//! How many seedlings may still stand in a sowing once some were pricked out or numbered.
//!
//! A count of what stands there goes before all else; then the number written as left behind at the last pricking out; else
//! it is at most what came up less what was taken out, and may be none, since deaths in a pot of seed are seldom recorded.

use super::community_pot_left::community_pot_left;
use super::count_in_sowing::counts_in_sowing;
use super::presence::is_over;
use crate::record::{CommunityPot, Day, Sowing, When};
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
    /// Whether something was taken out since the count, or may have been.
    pub is_less: bool,
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
    let (sowing, page) = (&registry[row], &registry[row.cross].page);
    let by_today = |on: &str| registry.when(on).first <= today;
    let is_gone = (sowing.fate.as_ref()).is_some_and(|fate| is_over(registry, fate, today));
    let prickings = sowing.pricked_out.iter().filter(|of| by_today(of.on));
    let pricked = prickings.map(|of| registry.when(of.on));
    let numbered: Vec<When> = numbered_of(registry, row)
        .map(|plant| day_numbered(registry, plant))
        .filter(|on| on.first <= today)
        .collect();
    let taken_out = pricked.chain(numbered.iter().copied());
    // A number without a day says that some were taken out, not when.
    let taken_out = taken_out.reduce(|one, other| match (one.is_bounded(), other.is_bounded()) {
        (true, false) => one,
        (false, true) => other,
        _ if other.last > one.last => other,
        _ => one,
    });
    let counts: Vec<PotRow> = counts_in_sowing(page, sowing)
        .map(|at| PotRow {
            cross: row.cross,
            at,
        })
        .collect();
    let (left, by) = match counts.as_slice() {
        _ if is_gone => (Some((0, 0)), LeftBy::End),
        [] => match left_behind(registry, row, today, &numbered) {
            Some(left) => (Some(left), LeftBy::Pricking),
            None => {
                let most = came_up(registry, sowing, today);
                let most = most.map(|up| not_taken_out(registry, row, up, today));
                (most.map(|most| (0, most)), LeftBy::CameUp)
            }
        },
        counts => (sum_of_counts(registry, counts, today), LeftBy::Count),
    };
    let of_counts = counts.iter();
    let mut of_counts = of_counts.map(|pot| community_pot_left(registry, *pot, today));
    let is_less = by == LeftBy::Count && of_counts.any(|of| of.is_changed());
    SowingLeft {
        left,
        taken_out,
        by,
        is_less,
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

/// How many of those that came up, or of the seeds where they were not counted, were not taken out by a day. Where seedlings
/// were pricked out into something that is no community pot of the page, as many of those numbered, or counted in pots that
/// no pricking out filled, may have come from there.
pub fn not_taken_out(registry: &Registry, row: SowingRow, came_up: u32, today: Day) -> u32 {
    let pots = in_pots_unrecorded(registry, row, |on| on.first <= today);
    less_taken_out(registry, row, came_up, (today, pots))
}

/// The same where so many went into pots without a pricking out on record.
fn less_taken_out(
    registry: &Registry,
    row: SowingRow,
    came_up: u32,
    (today, pots): (Day, u64),
) -> u32 {
    let sowing = &registry[row];
    let prickings = sowing.pricked_out.iter();
    let prickings = prickings.filter(|of| registry.when(of.on).first <= today);
    let (mut moved, mut elsewhere) = (0u64, 0u64);
    for of in prickings {
        moved += u64::from(of.moved);
        if !is_pot(registry, row, of.to.as_deref()) {
            elsewhere += u64::from(of.moved);
        }
    }
    let numbered = numbered_of(registry, row).map(|plant| day_numbered(registry, plant));
    let numbered = numbered.filter(|on| on.first <= today).count() as u64;
    let taken = moved + (numbered + pots).saturating_sub(elsewhere);
    u32::try_from(u64::from(came_up).saturating_sub(taken)).unwrap_or(0)
}

/// The fewest seedlings that were moved out of a sowing: those of its prickings out, and those counted in community pots
/// that no pricking out filled.
pub fn moved_out(registry: &Registry, row: SowingRow) -> u64 {
    let moved = registry[row].pricked_out.iter();
    let moved: u64 = moved.map(|of| u64::from(of.moved)).sum();
    let pots = in_pots_unrecorded(registry, row, |_| true);
    moved + pots.saturating_sub(elsewhere(registry, row))
}

/// The fewest seedlings of a sowing that went into its community pots without a pricking out on record, by the counts of
/// those pots on some days.
fn in_pots_unrecorded(
    registry: &Registry,
    row: SowingRow,
    counts: impl Fn(When) -> bool + Copy,
) -> u64 {
    let pots = registry[row.cross].page.community_pots.iter();
    let into = pots.map(|pot| into_pot_unrecorded(registry, row, pot, counts));
    into.map(u64::from).sum()
}

/// The same of one pot: the most counted there beyond what was pricked out into it by then. A count of what stands in the
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

/// The most that came up by a day.
fn came_up(registry: &Registry, sowing: &Sowing, today: Day) -> Option<u32> {
    let counts = sowing.germinated.iter();
    let counts = counts.filter(|tally| registry.when(tally.on).first <= today);
    counts.map(|tally| tally.count).max()
}

/// What a pricking out by a day says was left behind, the last one that says it: with those that came up since, less those
/// pricked out and numbered since. Where seedlings were pricked out into something that is no community pot of the page,
/// those numbered may have come from there.
fn left_behind(
    registry: &Registry,
    row: SowingRow,
    today: Day,
    numbered: &[When],
) -> Option<(u32, u32)> {
    let sowing = &registry[row];
    let prickings = sowing.pricked_out.iter();
    let prickings = prickings.map(|of| (of, registry.when(of.on)));
    let prickings: Vec<_> = prickings.filter(|(_, on)| on.first <= today).collect();
    let says_left = prickings.iter().filter(|(of, _)| of.left.is_some());
    let (counted, on) = says_left.max_by_key(|(_, on)| on.last)?;
    let left = counted.left?;
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    let since = numbered.iter().filter(|day| !day.surely_before(*on));
    let perhaps = count(since.count());
    let surely = numbered.iter().filter(|day| on.surely_before(**day));
    let surely = match elsewhere(registry, row) {
        0 => count(surely.count()),
        _ => 0,
    };
    let moved = |is_since: &dyn Fn(When) -> bool| {
        let others = prickings
            .iter()
            .filter(|(of, _)| !std::ptr::eq(*of, *counted));
        let since = others.filter(|(_, day)| is_since(*day));
        since.map(|(of, _)| of.moved).fold(0, u32::saturating_add)
    };
    // Others of that day may have been pricked out after that count.
    let perhaps = perhaps.saturating_add(moved(&|day| !day.surely_before(*on)));
    let surely = surely.saturating_add(moved(&|day| on.surely_before(day)));
    let up = came_up(registry, sowing, today);
    let up_then = came_up(registry, sowing, on.last.min(today));
    let more = up
        .zip(up_then)
        .map_or(0, |(up, then)| up.saturating_sub(then));
    let least = left.saturating_sub(perhaps);
    let most = left.saturating_add(more).saturating_sub(surely);
    // Those left were counted, so what a pot held later says nothing against it.
    let not_taken_out = |up| less_taken_out(registry, row, up, (today, 0));
    let most = up.map_or(most, |up| most.min(not_taken_out(up)));
    Some((least.min(most), most))
}

/// The most seedlings of a sowing that still have no number and are in no community pot, out of those that came up. Those
/// pricked out into a pot of the page are numbered out of that pot; pricked out into anything else they stay of the sowing.
pub fn most_left(registry: &Registry, row: SowingRow, came_up: u32) -> u32 {
    let moved = registry[row].pricked_out.iter();
    let moved = moved.filter(|of| is_pot(registry, row, of.to.as_deref()));
    let moved: u64 = moved.map(|of| u64::from(of.moved)).sum();
    let pots = in_pots_unrecorded(registry, row, |_| true);
    let pots = pots.saturating_sub(elsewhere(registry, row));
    let taken = moved + pots + numbered_of(registry, row).count() as u64;
    u32::try_from(u64::from(came_up).saturating_sub(taken)).unwrap_or(0)
}

/// How many seedlings were pricked out by a day into something that is no community pot of the page and have neither a
/// number nor been counted in a pot since, and the last day on which some were. Those numbered or counted came from there
/// first.
pub fn pricked_out_elsewhere(registry: &Registry, row: SowingRow, today: Day) -> (u64, When) {
    let by_today = |on: When| on.first <= today;
    let prickings = registry[row].pricked_out.iter();
    let elsewhere = prickings.filter(|of| !is_pot(registry, row, of.to.as_deref()));
    let elsewhere = elsewhere.map(|of| (u64::from(of.moved), registry.when(of.on)));
    let elsewhere: Vec<(u64, When)> = elsewhere.filter(|(_, on)| by_today(*on)).collect();
    let numbered = numbered_of(registry, row).map(|plant| day_numbered(registry, plant));
    let numbered = numbered.filter(|on| by_today(*on)).count() as u64;
    let known = numbered + in_pots_unrecorded(registry, row, by_today);
    let moved: u64 = elsewhere.iter().map(|(moved, _)| moved).sum();
    let last = elsewhere.iter().map(|(_, on)| *on).max_by_key(|on| on.last);
    (moved.saturating_sub(known), last.unwrap_or(When::UNKNOWN))
}

/// How many seedlings were pricked out into something that is no community pot of the page.
fn elsewhere(registry: &Registry, row: SowingRow) -> u64 {
    let prickings = registry[row].pricked_out.iter();
    let elsewhere = prickings.filter(|of| !is_pot(registry, row, of.to.as_deref()));
    elsewhere.map(|of| u64::from(of.moved)).sum()
}

/// How many may still be taken out of a sowing by what a pricking out before a day says was left behind: less those moved
/// and numbered since, and with those that came up since. `None` where none says so, or none was counted up by then.
pub fn left_behind_then(registry: &Registry, row: SowingRow, on: When) -> Option<u32> {
    let sowing = &registry[row];
    let up_by = |day: Day| came_up(registry, sowing, day);
    let elsewhere = elsewhere(registry, row) > 0;
    let caps = sowing.pricked_out.iter().filter_map(|of| {
        let day = registry.when(of.on);
        let left = of.left.filter(|_| day.surely_before(on))?;
        let since_then = |when: When| day.surely_before(when);
        let more = up_by(Day::LAST)?.saturating_sub(up_by(day.last)?);
        let moved = sowing.pricked_out.iter();
        let moved = moved.filter(|of| since_then(registry.when(of.on)));
        let moved = moved.map(|of| of.moved).fold(0, u32::saturating_add);
        let numbered = numbered_of(registry, row);
        let numbered = numbered.filter(|plant| since_then(day_numbered(registry, *plant)));
        let numbered = if elsewhere { 0 } else { numbered.count() };
        let taken = moved.saturating_add(u32::try_from(numbered).unwrap_or(u32::MAX));
        Some(left.saturating_add(more).saturating_sub(taken))
    });
    caps.min()
}

/// Whether seedlings of a sowing were numbered straight out of it beside those that were pricked out.
pub fn numbered_beside_pricked_out(registry: &Registry, row: SowingRow) -> bool {
    let is_pricked = !registry[row].pricked_out.is_empty();
    is_pricked && elsewhere(registry, row) == 0 && numbered_of(registry, row).next().is_some()
}

fn is_pot(registry: &Registry, row: SowingRow, to: Option<&str>) -> bool {
    let mut pots = registry[row.cross].page.community_pots.iter();
    to.is_some_and(|to| pots.any(|pot| pot.code == to))
}

/// The seedlings numbered out of a sowing itself, or out of the count of what stands in it, and not out of another pot.
fn numbered_of(registry: &Registry, row: SowingRow) -> impl Iterator<Item = PlantRow> {
    let (sowing, page) = (&registry[row], &registry[row.cross].page);
    let counts: Vec<usize> = counts_in_sowing(page, sowing).collect();
    let seedlings = registry[row.cross].seedlings.iter().copied();
    seedlings.filter(move |plant| {
        let (of, _, pot) = registry.road(*plant);
        of == Some(row) && pot.is_none_or(|pot| counts.contains(&pot.at))
    })
}

fn day_numbered(registry: &Registry, plant: PlantRow) -> When {
    let seedling = registry.seedling(plant);
    let on = seedling.and_then(|of| of.numbered);
    on.map_or(When::UNKNOWN, |on| registry.when(on))
}
