//! At which day after sowing can groups be compared by what came up, and how much had come up by then?
//!
//! A running total is a reading: within half a month before the first or after the last count it stands as counted,
//! between two counts it is taken straight and rounded to whole seedlings. Elsewhere it is a range: what came up can only
//! rise, so a sowing has at least its last count later on, and at most its first count before it, none where that was none.
//! Where days are vague it is the range from the fewest, had all been counted as late as can be, to the most; the half month
//! is shorter by as many days as they are vague.
//! The day is one at which little is unknown; of those, as for sizes, one at which nearly the most seed of the
//! smallest group has a total, one counted near it before one between counts, then the latest.

use rayon::prelude::*;

use super::contingency::compare_pods;
use super::nearly::nearly_all;

/// Days on either side of a count for which it stands: half a month of 30.4375 days.
pub const NEAR: f64 = 30.4375 / 2.0;

/// The counts of one sowing.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct RunningTotal {
    /// Seeds sown.
    pub sown: u32,
    /// Least and most days from sowing to each count, both rising.
    pub days: Vec<(f64, f64)>,
    /// Seedlings up in all by each count, not falling, at most `sown`.
    pub totals: Vec<u32>,
    /// Days from sowing to the day of the question; later nothing can have been counted.
    pub until: f64,
}

impl RunningTotal {
    /// The fewest and the most that had come up by a day; `None` for a day that had not come yet, or without counts.
    pub fn range_by(&self, day: f64) -> Option<(u32, u32)> {
        let fewest = self.counted_by(day, |of| of.1)?.0;
        Some((fewest, self.counted_by(day, |of| of.0)?.1))
    }

    /// The same, had the counts been on certain days.
    fn counted_by(&self, day: f64, on: fn(&(f64, f64)) -> f64) -> Option<(u32, u32)> {
        let after = self.days.partition_point(|of| on(of) <= day);
        let last = after.checked_sub(1);
        let day_and_total = |at: usize| Some((on(self.days.get(at)?), self.totals[at]));
        match (last.and_then(day_and_total), day_and_total(after)) {
            (Some((from, was)), Some((to, total))) => {
                let part = (day - from) / (to - from);
                let up = was + libm::round(part * f64::from(total - was)) as u32;
                Some((up, up))
            }
            (Some((from, was)), None) if day - from <= self.near() => Some((was, was)),
            (Some((_, was)), None) => (day <= self.until).then_some((was, self.sown)),
            (None, Some((to, total))) if to - day <= self.near() => Some((total, total)),
            (None, next) => next.map(|(_, total)| (0, total)),
        }
    }

    /// Days on either side of a count for which it stands.
    fn near(&self) -> f64 {
        let vague = self.days.iter().map(|(least, most)| most - least);
        NEAR - vague.fold(0.0, f64::max).min(NEAR)
    }

    /// Whether what had come up by a day is known.
    fn is_known(&self, day: f64) -> bool {
        self.range_by(day)
            .is_some_and(|(least, most)| least == most)
    }

    /// Whether a day may lie between two counts and is none of them, so that the total is taken straight.
    pub fn is_between_counts(&self, day: f64) -> bool {
        let is_one = self.days.contains(&(day, day));
        let ends = self.days.first().zip(self.days.last());
        !is_one && ends.is_some_and(|(first, last)| first.0 < day && day < last.1)
    }

    /// Whether a count stands within half a month of a day.
    pub fn is_counted_near(&self, day: f64) -> bool {
        let reach = |of: &(f64, f64)| f64::max(day - of.0, of.1 - day);
        self.days.iter().any(|of| reach(of) <= NEAR)
    }
}

/// The best day after sowing common to all groups; `None` if at none every group has a sowing that was counted. Days at which of
/// every group no more than a part `open` of its seed is unknown (0 to 1) are as good as those at which the least is.
pub fn common_day(groups: &[&[RunningTotal]], open: f64) -> Option<f64> {
    let seeds = |day: f64, has: &dyn Fn(&RunningTotal, f64) -> bool| {
        let of = |group: &&[RunningTotal]| -> usize {
            let counted = group.iter().filter(|sowing| has(sowing, day));
            counted.map(|sowing| sowing.sown as usize).sum()
        };
        groups.iter().map(of).min().unwrap_or(0)
    };
    let known = |day: f64| seeds(day, &RunningTotal::is_known);
    let near = |day: f64| {
        seeds(day, &|sowing, day| {
            sowing.is_counted_near(day) || sowing.is_known(day) && !sowing.is_between_counts(day)
        })
    };
    let sowings = groups.iter().flat_map(|group| group.iter());
    let mut days: Vec<f64> = sowings
        .flat_map(|sowing| &sowing.days)
        .flat_map(|of| [of.0, of.1])
        .collect();
    days.sort_unstable_by(f64::total_cmp);
    days.dedup();
    let unknown = |day: f64| {
        let mut of_each = groups.iter().map(|group| unknown_part(group, day));
        of_each.try_fold(0.0, |most, part| Some(f64::max(most, part?)))
    };
    let least = days.iter().filter_map(|&day| unknown(day));
    let least = least.min_by(f64::total_cmp)?;
    days.retain(|&day| unknown(day).is_some_and(|part| part <= f64::max(least, open)));
    let most = days.iter().map(|&day| known(day)).max()?;
    days.retain(|&day| nearly_all(known(day), most));
    let counted = days
        .iter()
        .rev()
        .find(|&&day| nearly_all(near(day), known(day)));
    counted.or(days.last()).copied()
}

/// The part of a group's seed of which it is not known whether it had come up by a day; `None` without a counted sowing.
fn unknown_part(group: &[RunningTotal], day: f64) -> Option<f64> {
    let (mut sown, mut unknown) = (0.0, 0.0);
    for sowing in group {
        let Some((least, most)) = sowing.range_by(day) else {
            continue;
        };
        sown += f64::from(sowing.sown);
        unknown += f64::from(most - least);
    }
    (sown > 0.0).then(|| unknown / sown)
}

/// What came up of a group by a day.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct UpOf {
    /// Seeds sown.
    pub sown: u64,
    /// The fewest that can have come up.
    pub least: u64,
    /// The most; as many as `least` where it is known, at most `sown`.
    pub most: u64,
}

/// What a test of groups says.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Alike {
    /// The chance of shares so unlike if seeds of all came up alike (Fisher's exact test). Of ranges, the value that is
    /// nearest to [`CLEAR`] of those that fit them.
    Tested(f64),
    /// None or all came up everywhere, so that there is nothing to test.
    NotTested,
    /// The ranges hold clear differences and others.
    Open,
}

/// Part of a group's seed of which it may be unknown whether it had come up: what `nearly_all` leaves out.
pub const FEW_OPEN: f64 = 0.1;

/// Chance below which groups differ.
pub const CLEAR: f64 = 0.05;

/// Tests whether as large a part of the seed of all groups came up, whatever the counts left open were.
pub fn came_up_alike(groups: &[UpOf]) -> Alike {
    let p = |counts: &[u64]| {
        let counted = counts.iter().zip(groups);
        let rows: Vec<Vec<u64>> = counted.map(|(&up, of)| vec![up, of.sown - up]).collect();
        compare_pods(&rows).ok().map(|test| test.p_exact)
    };
    let combinations = combinations(groups);
    if let [counts] = &combinations[..] {
        return p(counts).map_or(Alike::NotTested, Alike::Tested);
    }
    let (mut largest, mut smallest) = (0.0, 1.0);
    for together in combinations.chunks(TRIED_TOGETHER) {
        let of_each: Vec<f64> = together
            .par_iter()
            .map(|counts| p(counts).unwrap_or(1.0))
            .collect();
        largest = of_each.iter().copied().fold(largest, f64::max);
        smallest = of_each.into_iter().fold(smallest, f64::min);
        if smallest < CLEAR && largest >= CLEAR {
            return Alike::Open;
        }
    }
    Alike::Tested(if largest < CLEAR { largest } else { smallest })
}

/// Combinations tried before it is asked whether they answer: where many groups are drawn at random each takes long.
const TRIED_TOGETHER: usize = 8;

/// Combinations of counts that are all tried.
const ALL_TRIED: u64 = 500;

/// Counts of the groups that their ranges allow: all of them, or where these are many those as alike, and as unlike, as
/// groups can be around one share. Unlike are those at the ends of their ranges, which change over at their middles.
fn combinations(groups: &[UpOf]) -> Vec<Vec<u64>> {
    let sizes = groups.iter().map(|of| of.most - of.least + 1);
    if sizes.fold(1, u64::saturating_mul) <= ALL_TRIED {
        return groups.iter().fold(vec![Vec::new()], |begun, of| {
            let with = |counts: &Vec<u64>, up: u64| [&counts[..], &[up]].concat();
            let each = |up: u64| begun.iter().map(move |counts| with(counts, up));
            (of.least..=of.most).flat_map(each).collect()
        });
    }
    let share = |up: u64, of: &UpOf| up as f64 / of.sown as f64;
    let middle = |of: &UpOf| 0.5 * share(of.least + of.most, of);
    let shares = |of: &UpOf| [share(of.least, of), middle(of), share(of.most, of)];
    let near = |around: f64, of: &UpOf| {
        let up = libm::round(around * of.sown as f64) as u64;
        up.clamp(of.least, of.most)
    };
    let far = |is_low: bool, of: &UpOf| if is_low { of.least } else { of.most };
    let around = |around: f64| -> [Vec<u64>; 3] {
        [
            groups.iter().map(|of| near(around, of)).collect(),
            groups
                .iter()
                .map(|of| far(middle(of) < around, of))
                .collect(),
            groups
                .iter()
                .map(|of| far(middle(of) <= around, of))
                .collect(),
        ]
    };
    let mut counts: Vec<Vec<u64>> = groups.iter().flat_map(shares).flat_map(around).collect();
    counts.sort_unstable();
    counts.dedup();
    counts
}
