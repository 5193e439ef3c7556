//! How fast did the groups grow between the same two ages?
//!
//! Young plants grow faster, so rates over different ages say nothing about who is faster. Of all pairs of ages at least
//! [`SHORTEST`] months apart the window is the longest one that nine tenths of the most plants the smallest group can
//! show have a size at both ends of. A plant's rate is the growth between those two sizes, read or interpolated.

use crate::analysis::growth::grown::{AtAge, Grown};
use crate::observation::circumstances::{Circumstance, ReadIn, unlike_among, unlike_once};
use crate::observation::moment::NEAR;
use crate::registry::Registry;
use crate::statistics::growth::mean_rate;
use crate::statistics::{Confidence, Scale, nearly_all};
use serde::Serialize;

/// Months below which a window says more of reading error than of growth (ours).
pub const SHORTEST: f64 = 2.0;

/// Rates of several groups between the same ages.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct SharedWindow {
    /// First age, months.
    pub from: f64,
    /// Last age, months.
    pub to: f64,
    /// Every group, in the order asked.
    pub rates: Vec<WindowRate>,
    /// What was not alike of the groups at one of the two ages, or is not known to have been.
    pub unlike: Vec<Circumstance>,
}

/// The rate of one group between two ages.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct WindowRate {
    /// Code of the group.
    pub id: String,
    /// Plants with a size at both ages.
    pub n: usize,
    /// Mean of their rates, per month.
    pub mean: f64,
    /// 95 % limits of the mean (Student); `null` for one plant.
    pub interval: Option<(f64, f64)>,
    /// Least and greatest mean that the days allow, each size taken by itself; `null` where they are exact.
    pub mean_between: Option<(f64, f64)>,
}

/// The groups between the ages they share; `None` where there is no such window.
pub fn shared_window(
    registry: &Registry,
    groups: &[(&str, &[Grown])],
    scale: Scale,
) -> Option<SharedWindow> {
    let (from, to) = window(groups)?;
    let rates = groups.iter().map(|(id, grown)| {
        let plants = grown.iter();
        let rates: Vec<Rate> = plants
            .filter_map(|plant| rate(plant, (from, to), scale))
            .collect();
        let middles: Vec<f64> = rates.iter().map(|of| of.middle).collect();
        let mean = mean_rate(&middles, Confidence::P95).ok();
        let mean_of =
            |end: fn(&Rate) -> f64| rates.iter().map(end).sum::<f64>() / rates.len() as f64;
        let is_vague = rates.iter().any(|of| of.least < of.greatest);
        Some(WindowRate {
            id: (*id).to_owned(),
            n: rates.len(),
            mean: mean.map_or(*middles.first()?, |mean| mean.mean),
            interval: mean.map(|mean| (mean.interval.low, mean.interval.high)),
            mean_between: is_vague.then(|| (mean_of(|of| of.least), mean_of(|of| of.greatest))),
        })
    });
    let rates = rates.collect::<Option<Vec<_>>>()?;
    let unlike = unlike_at_ends(registry, groups, (from, to));
    Some(SharedWindow {
        from,
        to,
        rates,
        unlike,
    })
}

fn unlike_at_ends(
    registry: &Registry,
    groups: &[(&str, &[Grown])],
    (from, to): (f64, f64),
) -> Vec<Circumstance> {
    let mut ends: [Vec<Vec<ReadIn>>; 2] = Default::default();
    for (_, grown) in groups {
        let both = grown
            .iter()
            .filter_map(|of| Some((of.plant, of.at(from)?, of.at(to)?)));
        let both =
            both.map(|(plant, first, last)| ((plant, first.sittings), (plant, last.sittings)));
        let (first, last) = both.unzip();
        ends[0].push(first);
        ends[1].push(last);
    }
    unlike_once(ends.iter().flat_map(|sides| unlike_among(registry, sides)))
}

/// The rate of a plant between two ages, with the least and the greatest that its sizes there allow.
struct Rate {
    middle: f64,
    least: f64,
    greatest: f64,
}

fn rate(plant: &Grown, (from, to): (f64, f64), scale: Scale) -> Option<Rate> {
    let (first, last) = (plant.at(from)?, plant.at(to)?);
    let value = |size: f64| scale.values(&[size], 1).ok().map(|values| values[0]);
    let middle = |at: &AtAge| value(scale.middle(at.size.low, at.size.high));
    let months = last.age - first.age;
    let rate = |first: f64, last: f64| (last - first) / months;
    (months > 0.0).then_some(())?;
    Some(Rate {
        middle: rate(middle(&first)?, middle(&last)?),
        least: rate(value(first.size.high)?, value(last.size.low)?),
        greatest: rate(value(first.size.low)?, value(last.size.high)?),
    })
}

/// The longest pair of ages at which nearly as many plants of the smallest group as at any have a size; of equally long
/// ones the latest.
fn window(groups: &[(&str, &[Grown])]) -> Option<(f64, f64)> {
    let spans: Vec<Vec<(f64, f64)>> = groups
        .iter()
        .map(|(_, grown)| {
            let known = grown.iter().filter_map(Grown::known_ages);
            known.map(|span| (span.low, span.high)).collect()
        })
        .collect();
    let ages = ages_of(groups);
    let present = |from: f64, to: f64| {
        let of = |spans: &Vec<(f64, f64)>| {
            let over = |span: &&(f64, f64)| span.0 <= from && to <= span.1;
            spans.iter().filter(over).count()
        };
        spans.iter().map(of).min().unwrap_or(0)
    };
    let mut pairs: Vec<(f64, f64, usize)> = Vec::new();
    for (at, &from) in ages.iter().enumerate() {
        for &to in &ages[at + 1..] {
            if to - from >= SHORTEST {
                pairs.push((from, to, present(from, to)));
            }
        }
    }
    let most = pairs.iter().map(|pair| pair.2).max().filter(|&n| n > 0)?;
    let enough = pairs.iter().filter(|pair| nearly_all(pair.2, most));
    let longest = enough.max_by(|a, b| {
        let length = |pair: &&(f64, f64, usize)| pair.1 - pair.0;
        length(a).total_cmp(&length(b)).then(a.0.total_cmp(&b.0))
    });
    longest.map(|&(from, to, _)| (from, to))
}

/// Every age at which a plant was read, earliest first; ages nearer than half a month to one before count with it.
fn ages_of(groups: &[(&str, &[Grown])]) -> Vec<f64> {
    let plants = groups.iter().flat_map(|(_, grown)| grown.iter());
    let points = plants.flat_map(|plant| &plant.points);
    let mut ages: Vec<f64> = points.filter_map(|point| point.middle_age()).collect();
    ages.sort_unstable_by(f64::total_cmp);
    ages.dedup_by(|later, kept| *later - *kept <= NEAR);
    ages
}
