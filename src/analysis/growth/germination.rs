//! How many seeds of a sowing came up, and when.
//!
//! Counts are running totals, as written; a count below an earlier one only tells of deaths and adds nothing. Days run
//! from sowing to the visit. Where a date is a range of up to a month its middle is used for times, and the row says how vague
//! it was; of days vaguer than that there are no times.

use crate::analysis::growth::group::Group;
use crate::observation::moment::is_within_a_month;
use crate::observation::months::MONTH;
use crate::record::{Day, Sowing, Tally, When};
use crate::registry::{Registry, SowingRow};
use crate::statistics::germination::{Course, Germination, Reached, Visits, course, germination};
use crate::statistics::germination_limits::{CourseLimits, course_limits};
use crate::statistics::germination_side_by_side::RunningTotal;
use crate::statistics::proportion::wilson;
use crate::statistics::{Confidence, StatisticsError};
use serde::Serialize;

/// Germination of one sowing.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct GerminationRow {
    /// Code of the sowing.
    pub id: String,
    /// Seeds sown; `null` when not counted.
    pub sown: Option<u32>,
    /// Seedlings that came up; `null` when not counted.
    pub germinated: Option<u32>,
    /// Percent of the seeds sown.
    pub percent: Option<f64>,
    /// 95 % limits of it (Wilson), percent.
    pub interval: Option<(f64, f64)>,
    /// Day by which half of the germinated had come up, by (N + 1)/2 (Coolbear et al. 1984).
    pub t50_coolbear: Option<f64>,
    /// The same by N/2 (Farooq et al. 2005).
    pub t50_farooq: Option<f64>,
    /// Whether half had come up by the first visit: the day is then the latest it can have been.
    pub by_first_visit: bool,
    /// The same by N/2.
    pub farooq_by_first_visit: bool,
    /// Mean germination time in days, by the day of the visits.
    pub mean_days: Option<f64>,
    /// The same by the middle of the time since the visit before.
    pub mean_days_between: Option<f64>,
    /// Counts with a date.
    pub counts: usize,
    /// Why no course was fitted to counts that have days and a number sown.
    #[serde(skip)]
    pub(crate) unfitted: Option<StatisticsError>,
    /// Fit to the intervals between visits: percent that come up in the end.
    pub fitted_percent: Option<f64>,
    /// 95 % limits of it (profile likelihood).
    pub fitted_percent_between: Option<(f64, f64)>,
    /// Fit: day by which half of those have.
    pub fitted_t50: Option<f64>,
    /// 95 % limits of it; `null` on a side where the counts set none.
    pub fitted_t50_between: Option<(Option<f64>, Option<f64>)>,
    /// Days by which the vaguest of the dates is in doubt.
    pub vague_by: i32,
    /// Its counts by days after sowing; `None` without both numbers, or where an age is vaguer than a month.
    #[serde(skip)]
    pub(crate) total: Option<RunningTotal>,
}

/// The germination of every sowing of a group.
pub fn germination_of(registry: &Registry, group: &Group, today: Day) -> Vec<GerminationRow> {
    let rows = group.sowings.iter();
    rows.map(|&sowing| of_sowing(registry, sowing, today))
        .collect()
}

fn middle(when: When) -> f64 {
    f64::from(when.first.0) / 2.0 + f64::from(when.last.0) / 2.0
}

/// The germination of one sowing of a cross.
pub(super) fn of_sowing(registry: &Registry, row: SowingRow, today: Day) -> GerminationRow {
    let page = &registry[row.cross].page;
    let sowing = &registry[row];
    let germinated = sowing.germinated.iter().map(|tally| tally.count).max();
    let share = sowing
        .seeds
        .zip(germinated)
        .filter(|(sown, up)| *sown > 0 && up <= sown);
    let wilson =
        share.and_then(|(sown, up)| wilson(u64::from(up), u64::from(sown), Confidence::P95).ok());
    // Times are of those that came up, whatever number was sown; only a course that is fitted needs it.
    let sown = match sowing.seeds {
        Some(_) => share.map(|(sown, _)| sown),
        None => germinated,
    };
    let timed = sown.and_then(|sown| timed(registry, row, sown));
    let known = timed.as_ref().filter(|of| of.is_known);
    let timing = known.and_then(|of| germination(&of.visits).ok());
    let fitted = timed.as_ref().filter(|_| share.is_some());
    let (fit, unfitted) = match fitted.map(fit).transpose() {
        Ok(fit) => (fit, None),
        Err(why) => (None, Some(why)),
    };
    let dated = |tally: &&&Tally| registry.when(tally.on).is_bounded();
    let day = |reached: Reached| match reached {
        Reached::At(day) => day,
        Reached::ByFirstVisit(day) => timed.as_ref().map_or(day, |of| of.latest(day)),
    };
    let at_first = |t50: fn(&Germination) -> Reached| {
        let t50 = timing.as_ref().map(t50);
        matches!(t50, Some(Reached::ByFirstVisit(_)))
    };
    GerminationRow {
        id: format!("{}.{}", page.code, sowing.code),
        sown: sowing.seeds,
        germinated,
        percent: share.map(|(sown, up)| 100.0 * f64::from(up) / f64::from(sown)),
        interval: wilson.map(|limits| (100.0 * limits.low, 100.0 * limits.high)),
        t50_coolbear: timing.as_ref().map(|t| day(t.t50_coolbear)),
        t50_farooq: timing.as_ref().map(|t| day(t.t50_farooq)),
        by_first_visit: at_first(|of| of.t50_coolbear),
        farooq_by_first_visit: at_first(|of| of.t50_farooq),
        mean_days: timing.as_ref().map(|t| t.mean_time),
        mean_days_between: timing.as_ref().map(|t| t.mean_time_between),
        counts: by_day(registry, sowing).iter().filter(dated).count(),
        unfitted: unfitted.filter(|_| !sowing.germinated.is_empty()),
        fitted_percent: fit.map(|(fit, _)| 100.0 * fit.final_share),
        fitted_percent_between: fit.map(|(_, limits)| {
            let share = limits.final_share;
            (100.0 * share.low, 100.0 * share.high)
        }),
        fitted_t50: fit.map(|(fit, _)| fit.t50),
        fitted_t50_between: fit.map(|(_, limits)| limits.t50),
        total: share.and(total(registry, row, today)),
        vague_by: timed.map_or(0, |of| of.vague),
    }
}

/// The course that fits the counts, and its limits.
fn fit(of: &Timed) -> Result<(Course, CourseLimits), StatisticsError> {
    let visits = Some(&of.visits).filter(|_| of.is_known);
    let fit = course(visits.ok_or(StatisticsError::OrderUnknown)?)?;
    Ok((fit, course_limits(&of.visits, &fit, Confidence::P95)))
}

/// The counts of a sowing in the order of their days, whatever the order in which they were entered. Two of one day are one
/// look at it, the larger count: nothing comes up twice. None up on the day of sowing says nothing.
fn by_day<'r, 't>(registry: &'r Registry<'t>, sowing: &'r Sowing<'t>) -> Vec<&'r Tally<'t>> {
    let on = sowing.on.map(|on| registry.when(on));
    let is_of_sowing =
        |tally: &Tally| tally.count == 0 && on.is_some_and(|on| on == registry.when(tally.on));
    let mut counts: Vec<&Tally> = sowing.germinated.iter().collect();
    counts.retain(|tally| !is_of_sowing(tally));
    counts.sort_by_key(|tally| (registry.when(tally.on).last, std::cmp::Reverse(tally.count)));
    counts.dedup_by_key(|tally| registry.when(tally.on));
    counts
}

/// The counts as running totals; `None` where a day after sowing is vaguer than a month, or not dated.
fn total(registry: &Registry, row: SowingRow, today: Day) -> Option<RunningTotal> {
    let sowing = &registry[row];
    let sown = Some(registry.when(sowing.on?)).filter(|when| when.is_bounded())?;
    let mut total = RunningTotal {
        sown: sowing.seeds?,
        until: f64::from(today.0) - middle(sown),
        ..RunningTotal::default()
    };
    let mut middles = Vec::new();
    for tally in by_day(registry, sowing) {
        let when = registry.when(tally.on);
        let (least, most) = known_days(sown, when)?;
        // What is counted later was counted no earlier, and nothing before it was sown.
        let before = total.days.last().copied().unwrap_or_default();
        let so_far = total.totals.last().copied().unwrap_or(0);
        total.days.push((least.max(before.0), most.max(before.1)));
        total.totals.push(tally.count.max(so_far));
        middles.push(middle(when));
    }
    let rises = middles.windows(2).all(|pair| pair[0] < pair[1]);
    (rises && !middles.is_empty()).then_some(total)
}

/// The least and the most days from a sowing to a count, where they are known to a month.
fn known_days(sown: When, counted: When) -> Option<(f64, f64)> {
    let (least, most) = sown.days_until(counted)?;
    let days = (f64::from(least), f64::from(most));
    is_within_a_month((days.1 - days.0) / MONTH).then_some(days)
}

/// The counts of a sowing by days after it.
struct Timed {
    visits: Visits,
    /// For each visit the most days it can have been after sowing.
    at_most: Vec<f64>,
    /// Days by which the vaguest of the dates is in doubt.
    vague: i32,
    /// Whether all days after sowing are known to a month.
    is_known: bool,
}

impl Timed {
    /// The most days a visit can have been after sowing, by its middle day.
    fn latest(&self, day: f64) -> f64 {
        let mut visits = self.visits.days.iter().zip(&self.at_most);
        visits.find(|of| *of.0 == day).map_or(day, |of| *of.1)
    }
}

/// Newly germinated at each visit, and how vague the dates are; `None` without two dates in order.
fn timed(registry: &Registry, row: SowingRow, sown: u32) -> Option<Timed> {
    let sowing = &registry[row];
    let day_sown = Some(registry.when(sowing.on?)).filter(|when| when.is_bounded())?;
    let mut vague = day_sown.last.0 - day_sown.first.0;
    let (mut days, mut counts, mut at_most, mut so_far) = (Vec::new(), Vec::new(), Vec::new(), 0);
    let mut is_known = true;
    for tally in by_day(registry, sowing) {
        let when = Some(registry.when(tally.on)).filter(|when| when.is_bounded())?;
        vague = vague.max(when.last.0 - when.first.0);
        is_known &= known_days(day_sown, when).is_some();
        days.push(middle(when) - middle(day_sown));
        at_most.push(f64::from(when.last.0 - day_sown.first.0));
        counts.push(u64::from(tally.count.saturating_sub(so_far)));
        so_far = so_far.max(tally.count);
    }
    let sown = u64::from(sown);
    let visits = Visits { days, counts, sown };
    Some(Timed {
        visits,
        at_most,
        vague,
        is_known,
    })
}
