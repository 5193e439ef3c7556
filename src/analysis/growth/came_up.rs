//! Did more seed of one group come up than of another, by one day after sowing?
//!
//! A pod counted until day 60 is not set against one counted until day 200: all are taken at the best day common to
//! them, by the rule of `statistics::germination_side_by_side`. A sowing that was last counted before that day, or first
//! counted after it, is not left out, since that is seldom chance: trays that came up are pricked out and counted no more.
//! It counts as a range, and a difference is stated only where all of the ranges show it. Where they do not decide, and where
//! there is no such day, the last counts stand side by side with their days and are not tested.

use crate::analysis::growth::GerminationRow;
use crate::analysis::growth::germination::of_sowing;
use crate::observation::scope::Scope;
use crate::record::Day;
use crate::registry::{CrossRow, Registry};
use crate::statistics::Confidence;
use crate::statistics::germination_side_by_side::{
    Alike, CLEAR, FEW_OPEN, RunningTotal, UpOf, came_up_alike, common_day,
};
use crate::statistics::proportion::wilson;
use serde::Serialize;

/// How many seeds of a group came up.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct CameUp {
    /// Code of the group.
    pub id: String,
    /// Seeds sown in the sowings counted here.
    pub sown: u64,
    /// Seedlings that had come up in them: by the common day, at least; else by the last counts.
    pub up: u64,
    /// The most that can have come up by the common day; `up` where all were counted then.
    pub up_at_most: u64,
    /// 95 % limits of the share (Wilson 1927), 0 to 1; of a range the lower of its least and the upper of its most.
    pub between: (f64, f64),
    /// Days after sowing of the last counts, first and last of its sowings; `null` where of any it is not known to a month.
    pub last_counted: Option<(f64, f64)>,
    /// Sowings that are not among those compared: their codes.
    pub left_out: Vec<String>,
    /// Those of them whose days after sowing are vaguer than half a month either way.
    #[serde(skip)]
    pub too_vague: Vec<String>,
    /// Those of them that lack a count or the number sown.
    #[serde(skip)]
    pub uncounted: Vec<String>,
    /// Sowings whose count is taken between two visits: their codes.
    pub interpolated: Vec<String>,
}

/// Groups set side by side by what came up.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct GerminationCompared {
    /// The day after sowing all are taken at; `null` where there is none common to all, so that nothing is compared.
    pub day: Option<f64>,
    /// Groups with both numbers, in the order asked.
    pub groups: Vec<CameUp>,
    /// Chance of shares as unlike if seeds of all came up alike (Fisher's exact test); `null` where not compared, or
    /// where all or none came up everywhere. Of ranges the largest that fits them where groups differ, else the smallest.
    pub p: Option<f64>,
}

/// A group whose seed was counted.
struct Counted<'r> {
    id: &'r str,
    /// Sowings with a percentage.
    rows: Vec<&'r GerminationRow>,
    /// Codes of the others.
    uncounted: Vec<String>,
    totals: Vec<RunningTotal>,
}

/// What came up of each pod of a cross; `None` with fewer than two pods that have both numbers.
pub fn pods_came_up(
    registry: &Registry,
    cross: CrossRow,
    today: Day,
) -> Option<GerminationCompared> {
    let pods = registry.pods(cross).map(|(pod, of)| {
        let scope = Scope {
            cross,
            pod: Some(pod),
            sowing: None,
        };
        let sowings = scope.sowings(registry).into_iter();
        let rows: Vec<GerminationRow> = sowings
            .map(|(sowing, _)| of_sowing(registry, sowing, today))
            .collect();
        (of.code, rows)
    });
    let pods: Vec<(&str, Vec<GerminationRow>)> = pods.collect();
    let groups: Vec<(&str, &[GerminationRow])> =
        pods.iter().map(|(code, rows)| (*code, &rows[..])).collect();
    compared(&groups)
}

/// What came up of several groups; `None` with fewer than two groups that have both numbers.
pub fn compared(groups: &[(&str, &[GerminationRow])]) -> Option<GerminationCompared> {
    let groups = groups.iter().filter_map(|&(id, rows)| {
        let (rows, others): (Vec<&GerminationRow>, Vec<&GerminationRow>) =
            rows.iter().partition(|row| row.percent.is_some());
        let totals = rows.iter().filter_map(|row| row.total.clone()).collect();
        (!rows.is_empty()).then_some(Counted {
            id,
            rows,
            uncounted: others.into_iter().map(|row| row.id.clone()).collect(),
            totals,
        })
    });
    let groups: Vec<Counted> = groups.collect();
    if groups.len() < 2 {
        return None;
    }
    let totals: Vec<&[RunningTotal]> = groups.iter().map(|of| &of.totals[..]).collect();
    let at = |day: Option<f64>| -> Vec<CameUp> {
        groups.iter().filter_map(|of| of.came_up(day)).collect()
    };
    // A day at which little is open is the later one; where that does not decide, the day at which the least is.
    let tested = [FEW_OPEN, 0.0].into_iter().find_map(|open| {
        let day = common_day(&totals, open)?;
        let told = at(Some(day));
        let up: Vec<UpOf> = told.iter().map(CameUp::range).collect();
        match came_up_alike(&up) {
            Alike::Open => None,
            Alike::NotTested => Some((day, told, None)),
            Alike::Tested(p) => Some((day, told, Some(p))),
        }
    });
    Some(match tested {
        Some((day, groups, p)) => GerminationCompared {
            day: Some(day),
            groups,
            p,
        },
        None => GerminationCompared {
            day: None,
            groups: at(None),
            p: None,
        },
    })
}

impl CameUp {
    fn range(&self) -> UpOf {
        UpOf {
            sown: self.sown,
            least: self.up,
            most: self.up_at_most,
        }
    }
}

impl GerminationCompared {
    /// Whether the groups differ; of ranges whatever the numbers were.
    pub fn differ(&self) -> bool {
        self.p.is_some_and(|p| p < CLEAR)
    }

    /// Whether what had come up of a group is known as a range only.
    pub fn is_of_ranges(&self) -> bool {
        self.groups.iter().any(|of| of.up < of.up_at_most)
    }
}

impl Counted<'_> {
    fn came_up(&self, day: Option<f64>) -> Option<CameUp> {
        let (mut sown, mut up, mut up_at_most) = (0, 0, 0);
        let (mut too_vague, mut left_out, mut interpolated) = (Vec::new(), Vec::new(), Vec::new());
        for row in &self.rows {
            let by_day = match day {
                None => row.germinated.map(|up| (up, up)),
                Some(day) => row.total.as_ref().and_then(|total| total.range_by(day)),
            };
            let Some((seeds, (least, most))) = row.sown.zip(by_day) else {
                left_out.push(row.id.clone());
                too_vague.extend(row.total.is_none().then(|| row.id.clone()));
                continue;
            };
            sown += u64::from(seeds);
            up += u64::from(least);
            up_at_most += u64::from(most);
            let between = day.zip(row.total.as_ref());
            if between.is_some_and(|(day, total)| total.is_between_counts(day)) {
                interpolated.push(row.id.clone());
            }
        }
        let uncounted = match day {
            Some(_) => self.uncounted.clone(),
            None => Vec::new(),
        };
        left_out.extend(uncounted.iter().cloned());
        let limits = |up: u64| wilson(up, sown, Confidence::P95).ok();
        let is_dated = self.totals.len() == self.rows.len();
        let last = self.totals.iter().filter_map(|total| total.days.last());
        let last = last.copied().filter(|_| is_dated);
        Some(CameUp {
            id: self.id.to_owned(),
            sown,
            up,
            up_at_most,
            between: (limits(up)?.low, limits(up_at_most)?.high),
            last_counted: last.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1))),
            left_out,
            too_vague,
            uncounted,
            interpolated,
        })
    }
}
