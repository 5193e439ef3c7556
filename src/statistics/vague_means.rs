//! The difference of two means of values of which only a range is known, each.
//!
//! A limit of the difference is farthest where every value stands at one end of its range: it grows with the distance of the
//! means and with the spread of each group. Of few values every way is tried. Of many, the low values of a group are low then
//! and the high ones high, so that the ends are looked for by a threshold in each group in turn; single values are turned over
//! after that.

use super::location::welch;
use super::{Confidence, Interval, StatisticsError};

/// Values with a range of which every way is tried, at most: 4,096 ways.
const FEW: usize = 12;

/// Thresholds tried in a group, and values of both that are turned over one by one, at most.
const MOST: usize = 256;

/// The limits of Welch's interval, first mean less second, over all values that fit the ranges: for each limit the values that
/// push it farthest. Where every range is one value they are those of [`welch`]. Of more than twelve values with a range
/// they are looked for by steps, which may end a little short of the farthest: of 400 cases by less than one in a hundred.
///
/// # Errors
/// As [`welch`], whatever the values in the ranges.
pub fn welch_of_ranges(
    first: &[Interval],
    second: &[Interval],
    confidence: Confidence,
) -> Result<Interval, StatisticsError> {
    let high = farthest(first, second, confidence)?;
    let low = farthest(second, first, confidence)?;
    Ok(Interval { low: -low, high })
}

/// The largest upper limit of the mean of some values less that of others.
fn farthest(
    up: &[Interval],
    down: &[Interval],
    confidence: Confidence,
) -> Result<f64, StatisticsError> {
    let limit = |up: &[f64], down: &[f64]| Ok(welch(up, down, confidence)?.interval.high);
    let apart = limit(&ends(up, 0), &ends(down, down.len()));
    let vague = vague([up, down]);
    if vague.is_empty() {
        return apart;
    }
    if vague.len() <= FEW {
        return every_way([up, down], &vague, &limit).map_or(apart, Ok);
    }
    let (up, down) = (by_middle(up), by_middle(down));
    // Starting with the means farthest apart, and with each group spread out.
    let starts = [(0, down.len()), (up.len() / 2, down.len() / 2)];
    let found = starts.map(|start| climb(&up, &down, start, &limit));
    let best = found
        .into_iter()
        .flatten()
        .max_by(|one, other| one.limit.total_cmp(&other.limit));
    match best {
        Some(best) => Ok(turned_over(best, [&up, &down], &limit)),
        None => apart,
    }
}

/// The group and the place of every value that has a range.
fn vague(ranges: [&[Interval]; 2]) -> Vec<(usize, usize)> {
    (0..2)
        .flat_map(|side| (0..ranges[side].len()).map(move |at| (side, at)))
        .filter(|&(side, at)| ranges[side][at].low < ranges[side][at].high)
        .collect()
}

/// The largest limit of all ways in which the values may stand at the ends of their ranges; `None` where none has one.
fn every_way(ranges: [&[Interval]; 2], vague: &[(usize, usize)], limit: Limit) -> Option<f64> {
    let mut values = ranges.map(|of| ends(of, of.len()));
    let mut best: Option<f64> = None;
    for way in 0..1u32 << vague.len() {
        for (bit, &(side, at)) in vague.iter().enumerate() {
            let range = ranges[side][at];
            values[side][at] = match way >> bit & 1 {
                0 => range.low,
                _ => range.high,
            };
        }
        let found = limit(&values[0], &values[1]).ok();
        if best < found {
            best = found;
        }
    }
    best
}

/// The upper limit of values at certain ends of their ranges.
struct Found {
    limit: f64,
    up: Vec<f64>,
    down: Vec<f64>,
}

type Limit<'l> = &'l dyn Fn(&[f64], &[f64]) -> Result<f64, StatisticsError>;

/// The best threshold of one group and of the other in turn, until neither brings more.
fn climb(
    up: &[Interval],
    down: &[Interval],
    (mut in_up, mut in_down): (usize, usize),
    limit: Limit,
) -> Option<Found> {
    let mut best: Option<f64> = None;
    loop {
        let before = best;
        let lows = ends(down, in_down);
        for at in thresholds(up) {
            let found = limit(&ends(up, at), &lows).ok();
            if found.is_some() && best < found {
                (best, in_up) = (found, at);
            }
        }
        let highs = ends(up, in_up);
        for at in thresholds(down) {
            let found = limit(&highs, &ends(down, at)).ok();
            if found.is_some() && best < found {
                (best, in_down) = (found, at);
            }
        }
        if best == before {
            return best.map(|limit| Found {
                limit,
                up: ends(up, in_up),
                down: ends(down, in_down),
            });
        }
    }
}

/// The limit once values are turned to the other end of their range, one by one, as long as that brings more.
fn turned_over(found: Found, ranges: [&[Interval]; 2], limit: Limit) -> f64 {
    let mut best = found.limit;
    let mut values = [found.up, found.down];
    let vague = vague(ranges);
    if vague.len() > MOST {
        return best;
    }
    loop {
        let before = best;
        for &(side, at) in &vague {
            let (range, was) = (ranges[side][at], values[side][at]);
            values[side][at] = if was == range.low {
                range.high
            } else {
                range.low
            };
            match limit(&values[0], &values[1]) {
                Ok(limit) if limit > best => best = limit,
                _ => values[side][at] = was,
            }
        }
        if best == before {
            return best;
        }
    }
}

/// The lower ends of so many ranges, and the upper ends of the others.
fn ends(ranges: &[Interval], low: usize) -> Vec<f64> {
    let (low, high) = ranges.split_at(low);
    let low = low.iter().map(|of| of.low);
    low.chain(high.iter().map(|of| of.high)).collect()
}

/// The ranges by their middles.
fn by_middle(ranges: &[Interval]) -> Vec<Interval> {
    let mut sorted = ranges.to_vec();
    sorted.sort_by(|one, other| (one.low + one.high).total_cmp(&(other.low + other.high)));
    sorted
}

/// How many ranges may stand at their lower ends: every number, or of many ranges numbers evenly apart.
fn thresholds(ranges: &[Interval]) -> impl Iterator<Item = usize> {
    let (n, steps) = (ranges.len(), ranges.len().min(MOST));
    (0..=steps).map(move |step| (n * step).checked_div(steps).unwrap_or(0))
}
