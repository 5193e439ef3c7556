//! Sizes of a group as read, day by day.

use crate::analysis::growth::grown::{Grown, Point};
use crate::record::When;
use crate::statistics::describe::describe;
use crate::wording::days;
use serde::Serialize;
use std::collections::BTreeMap;

/// Sizes of one group on one day.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct SittingLine {
    /// The day, as a range in words.
    pub on: String,
    /// Ages of the plants, months, least and greatest; `null` where one is not known.
    pub age: Option<(f64, f64)>,
    /// Plants read.
    pub n: usize,
    /// Middle size.
    pub median: f64,
    /// Mean size.
    pub mean: f64,
    /// Standard deviation; `null` for one plant.
    pub sd: Option<f64>,
}

/// A row for each day, the earliest first.
pub fn sitting_rows(grown: &[Grown]) -> Vec<SittingLine> {
    let points = || grown.iter().flat_map(|of| &of.points);
    let sittings = points().map(|point| point.sitting.index() + 1).max();
    // Several sittings may be of one day; each point finds its day by its sitting.
    let mut day_of: Vec<Option<usize>> = vec![None; sittings.unwrap_or(0)];
    let mut known: BTreeMap<When, usize> = BTreeMap::new();
    let mut read: Vec<DaySizes> = Vec::new();
    for point in points() {
        let at = *day_of[point.sitting.index()].get_or_insert_with(|| {
            *known.entry(point.when).or_insert_with(|| {
                read.push(DaySizes::default());
                read.len() - 1
            })
        });
        read[at].add(point);
    }
    let rows = known.into_iter();
    rows.filter_map(|(when, at)| read[at].row(when)).collect()
}

/// Sizes of one day.
#[derive(Default)]
struct DaySizes {
    sizes: Vec<Option<f64>>,
    ages: Option<(f64, f64)>,
    without_age: bool,
}

impl DaySizes {
    fn add(&mut self, point: &Point) {
        self.sizes.push(Some(point.size));
        self.without_age |= point.age.is_none();
        if let Some((least, most)) = point.age {
            let (low, high) = self.ages.unwrap_or((f64::INFINITY, 0.0));
            self.ages = Some((f64::min(low, least), f64::max(high, most)));
        }
    }

    fn row(&self, when: When) -> Option<SittingLine> {
        let described = describe(&self.sizes).ok()?;
        Some(SittingLine {
            on: days(when),
            age: self.ages.filter(|_| !self.without_age),
            n: described.n,
            median: described.median,
            mean: described.mean,
            sd: described.sd.ok(),
        })
    }
}
