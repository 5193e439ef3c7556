//! How long things take: by this grower's own records where there are enough, else by what `registry.ron` says, else by
//! common practice.
//!
//! Fewer than three records make no range of their own, because the next pod is likely to fall outside it; they widen the
//! range that stands in for them.

use super::practice;
use crate::observation::in_pod::{LEAST_RIPENING, RIPEN, dusted};
use crate::record::{CrossPage, Day, Made, Pod, Pollination, Sowing, When};
use crate::registry::Registry;
use serde::Serialize;

/// Records a range must have to stand alone.
const ENOUGH: usize = 3;

/// A range of days and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct DayRange {
    /// Days, least and most.
    pub days: (i32, i32),
    /// Where they come from.
    pub by: By,
    /// How many of the grower's own records are in it.
    pub own: usize,
}

/// Where a range of days comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum By {
    /// This grower's own records, shortest to longest.
    OwnRecords,
    /// What `registry.ron` says.
    Registry,
    /// What `goals.ron` says.
    Goals,
    /// Common practice, no source.
    Practice,
}

/// Every range of a registry.
pub(super) struct Ranges {
    pub ripen: DayRange,
    pub dust_again: DayRange,
    pub count_set: DayRange,
    pub sow: DayRange,
    pub germination: DayRange,
    pub count_again: DayRange,
    pub prick_out: DayRange,
    pub rooting: DayRange,
}

impl Ranges {
    /// The ranges to go by on a day, from what was done by then. The figures are common practice and have no source.
    pub fn of(registry: &Registry, today: Day) -> Ranges {
        let set = &registry.settings.intervals;
        let pages = || registry.own_crosses().map(|(_, cross)| &cross.page);
        let ripened: Vec<_> = pages()
            .flat_map(|page| ripened(registry, page, today))
            .collect();
        let pricked: Vec<_> = pages()
            .flat_map(|page| pricked(registry, page, today))
            .collect();
        Ranges {
            ripen: range(&ripened, set.pods_ripen, RIPEN),
            dust_again: range(&[], set.dust_again, (1, 3)),
            count_set: range(&[], set.count_set, practice::COUNT_SET),
            sow: range(&[], set.sow, practice::SOW),
            germination: range(&[], set.germination, practice::GERMINATION),
            count_again: range(&[], set.count_again, (14, 28)),
            prick_out: range(&pricked, set.prick_out, (120, 365)),
            rooting: range(&rooted(registry, today), set.rooting, (28, 90)),
        }
    }
}

fn range(own: &[(i32, i32)], set: Option<(u32, u32)>, practice: (i32, i32)) -> DayRange {
    let of_own = own
        .iter()
        .copied()
        .reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
    let days = |days: u32| i32::try_from(days).unwrap_or(i32::MAX);
    let (stands_in, by) = match set {
        Some((least, most)) => ((days(least), days(most)), By::Registry),
        None => (practice, By::Practice),
    };
    let (days, by) = match of_own {
        Some(days) if own.len() >= ENOUGH => (days, By::OwnRecords),
        Some((least, most)) => ((least.min(stands_in.0), most.max(stands_in.1)), by),
        None => (stands_in, by),
    };
    DayRange {
        days,
        by,
        own: own.len(),
    }
}

/// Days between two recorded dates; `None` when one is not known, the order cannot be, or the second is to come.
fn took(from: When, to: When, today: Day) -> Option<(i32, i32)> {
    if to.first > today {
        return None;
    }
    let days = from.days_until(to.happened_by(today));
    let (least, most) = days.filter(|(_, most)| *most >= 0)?;
    Some((least.max(0), most))
}

/// From pollination to harvest of every pod whose zone is known; not of one that cannot have been ripe.
fn ripened(registry: &Registry, page: &CrossPage, today: Day) -> Vec<(i32, i32)> {
    let one = |pod: &Pod| {
        let of = zone_of(page, pod)?;
        let harvested = registry.when(pod.harvested?);
        let ripe = |(_, most): &(i32, i32)| *most >= LEAST_RIPENING;
        let (least, most) = took(dusted(registry, of), harvested, today).filter(ripe)?;
        let days = (least.max(LEAST_RIPENING), most);
        // While flowers of the zone were still dusted.
        let too_soon = |on: When| on.days_until(harvested).is_some_and(|(_, most)| most < 1);
        let mut dusted = of.on.iter().map(|on| registry.when(on));
        (!dusted.any(too_soon)).then_some(days)
    };
    page.pods.iter().filter_map(one).collect()
}

/// The pollination a pod is of: that of its zone, or the only one of its page.
fn zone_of<'p, 't>(page: &'p CrossPage<'t>, pod: &Pod) -> Option<&'p Pollination<'t>> {
    match (pod.zone, &page.pollinations[..]) {
        (Some(zone), all) => all.iter().find(|of| of.zone == zone),
        (None, [only]) => Some(only),
        _ => None,
    }
}

fn pricked(registry: &Registry, page: &CrossPage, today: Day) -> Vec<(i32, i32)> {
    let one = |sowing: &Sowing| {
        let sown = registry.when(sowing.on?);
        let days = sowing.pricked_out.iter().map(|of| registry.when(of.on));
        let (least, most) = took(sown, days.min()?, today)?;
        // Before anything comes up nothing is pricked out: one of the two days is wrong.
        let up = practice::GERMINATION.0;
        (most >= up).then_some((least.max(up), most))
    };
    page.sowings.iter().filter_map(one).collect()
}

fn rooted(registry: &Registry, today: Day) -> Vec<(i32, i32)> {
    let ramets = registry.plants().flat_map(|plant| registry.ramets(plant));
    let cuttings = ramets.filter(|ramet| ramet.made == Some(Made::Cutting));
    cuttings
        .filter_map(|ramet| {
            let cut = registry.when(ramet.cut?);
            took(cut, registry.when(ramet.rooted?), today)
        })
        .collect()
}
