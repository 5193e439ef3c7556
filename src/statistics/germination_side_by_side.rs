//! At which day after sowing can groups be compared by what came up, and how much had come up by then?
//!
//! A running total is a reading: within half a month before the first or after the last count it stands as counted,
//! between two counts it is taken straight and rounded to whole seedlings, elsewhere nothing is said. The day is chosen
//! as the age at which sizes are compared: of the days at which nearly the most seed of the smallest group has a total,
//! one counted near it goes before one between counts, then the latest.

use super::nearly::nearly_all;

/// Days on either side of a count for which it stands: half a month of 30.4375 days.
pub const NEAR: f64 = 30.4375 / 2.0;

/// The counts of one sowing.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct RunningTotal {
    /// Seeds sown.
    pub sown: u32,
    /// Days from sowing to each count, rising.
    pub days: Vec<f64>,
    /// Seedlings up in all by each count, not falling, at most `sown`.
    pub totals: Vec<u32>,
}

impl RunningTotal {
    /// How many had come up by a day; `None` more than half a month before the first or after the last count.
    pub fn up_by(&self, day: f64) -> Option<u32> {
        let after = self.days.partition_point(|&counted| counted < day);
        let Some(&next) = self.days.get(after) else {
            let last = self.days.last().filter(|&&last| day - last <= NEAR);
            return last.and(self.totals.last().copied());
        };
        let total = self.totals[after];
        let Some(before) = after.checked_sub(1).filter(|_| next > day) else {
            return (next - day <= NEAR).then_some(total);
        };
        let (from, was) = (self.days[before], self.totals[before]);
        let part = (day - from) / (next - from);
        Some(was + libm::round(part * f64::from(total - was)) as u32)
    }

    /// Whether a day lies between two counts and is none of them, so that the total is taken straight.
    pub fn is_between_counts(&self, day: f64) -> bool {
        let after = self.days.partition_point(|&counted| counted < day);
        after > 0 && self.days.get(after).is_some_and(|&next| next > day)
    }

    /// Whether a count stands within half a month of a day.
    pub fn is_counted_near(&self, day: f64) -> bool {
        self.days
            .iter()
            .any(|counted| (counted - day).abs() <= NEAR)
    }
}

/// The best day after sowing common to all groups; `None` if at none every group has a total.
pub fn common_day(groups: &[&[RunningTotal]]) -> Option<f64> {
    let seeds = |day: f64, has: &dyn Fn(&RunningTotal, f64) -> bool| {
        let of = |group: &&[RunningTotal]| -> usize {
            let counted = group.iter().filter(|sowing| has(sowing, day));
            counted.map(|sowing| sowing.sown as usize).sum()
        };
        groups.iter().map(of).min().unwrap_or(0)
    };
    let sowings = groups.iter().flat_map(|group| group.iter());
    let mut days: Vec<f64> = sowings.flat_map(|sowing| sowing.days.clone()).collect();
    days.sort_unstable_by(f64::total_cmp);
    days.dedup();
    let present = |day: f64| seeds(day, &|sowing, day| sowing.up_by(day).is_some());
    let near = |day: f64| seeds(day, &|sowing, day| sowing.is_counted_near(day));
    let most = days
        .iter()
        .map(|&day| present(day))
        .max()
        .filter(|&n| n > 0)?;
    days.retain(|&day| nearly_all(present(day), most));
    let counted = days
        .iter()
        .rev()
        .find(|&&day| nearly_all(near(day), present(day)));
    counted.or(days.last()).copied()
}
