//! The straight line through a plant's sizes: on the logarithm its slope is the relative growth rate over all readings.
//!
//! Curves with a final size are in `curves`.

use super::error::StatisticsError;
use super::growth::Reading;
use super::interval::Interval;
use super::scale::Scale;

/// The least-squares slope of the straight line through sizes on their scale; for two readings the growth between them.
///
/// Ages are counted from the first reading, so that the years since the first day of a calendar do not swamp them.
///
/// # Errors
/// Fewer than two readings, ages all equal, a size not on the scale, a value not finite.
pub fn slope(
    readings: impl Iterator<Item = Reading>,
    scale: Scale,
) -> Result<f64, StatisticsError> {
    let (mut n, mut start) = (0, 0.0);
    // Running means and sums of squares and products about them (Welford 1962, from memory).
    let (mut age_mean, mut size_mean, mut squares, mut products) = (0.0, 0.0, 0.0, 0.0);
    for Reading { age, size } in readings {
        if !(age.is_finite() && size.is_finite()) {
            return Err(StatisticsError::NotFinite);
        }
        let value = match scale {
            Scale::Log if size <= 0.0 => return Err(StatisticsError::NotPositive),
            Scale::Log => libm::log(size),
            Scale::Plain => size,
        };
        if n == 0 {
            start = age;
        }
        n += 1;
        let from_mean = age - start - age_mean;
        age_mean += from_mean / f64::from(n);
        size_mean += (value - size_mean) / f64::from(n);
        squares += from_mean * (age - start - age_mean);
        products += from_mean * (value - size_mean);
    }
    match n {
        0 | 1 => Err(StatisticsError::TooFew {
            found: n as usize,
            needed: 2,
        }),
        _ if squares > 0.0 => Ok(products / squares),
        _ => Err(StatisticsError::NoSpread),
    }
}

/// Vague ages of which every way is tried, at most: 4,096 ways.
const FEW: usize = 12;

/// The least and the greatest [`slope`] of sizes whose ages are only known to lie in ranges.
///
/// The ages at which a rising slope has at least a given value form a convex set. So the least rising slope has every age at
/// an end of its range, and the greatest is found by moving one age at a time until none makes it greater. A falling slope is
/// the same with least and greatest exchanged. The search starts from every way to place the ages at the ends of their ranges; of more than
/// twelve vague ages it starts from two: early ages early and late ages late, and the reverse.
///
/// # Errors
/// As [`slope`].
pub fn slope_between(
    readings: &[(Interval, f64)],
    scale: Scale,
) -> Result<Interval, StatisticsError> {
    let at = |ages: &[f64], sign: f64| {
        let sizes = readings.iter().map(|(_, size)| *size);
        let readings = ages.iter().zip(sizes);
        let found = slope(readings.map(|(&age, size)| Reading { age, size }), scale);
        found.map(|slope| sign * slope)
    };
    let vague: Vec<usize> = (0..readings.len())
        .filter(|&at| readings[at].0.low < readings[at].0.high)
        .collect();
    let starts = starts(readings, &vague);
    let greatest = |sign: f64| {
        let mut best = starts[0].clone();
        let mut value = at(&best, sign)?;
        for ages in &starts[1..] {
            let found = at(ages, sign)?;
            if found > value {
                (value, best) = (found, ages.clone());
            }
        }
        loop {
            let before = value;
            for &place in &vague {
                for age in turns(&best, place, readings, scale)? {
                    let was = std::mem::replace(&mut best[place], age);
                    match at(&best, sign) {
                        Ok(found) if found > value => value = found,
                        _ => best[place] = was,
                    }
                }
            }
            if value - before <= 1e-12 * value.abs() {
                return Ok(value);
            }
        }
    };
    Ok(Interval {
        low: -greatest(-1.0)?,
        high: greatest(1.0)?,
    })
}

/// Ages to start from: every way in which the vague ones stand at the ends of their ranges, or of many two ways.
fn starts(readings: &[(Interval, f64)], vague: &[usize]) -> Vec<Vec<f64>> {
    let n = readings.len();
    let way = |is_late: &dyn Fn(usize) -> bool| {
        let ranges = readings.iter().enumerate();
        let ends = ranges.map(|(at, (range, _))| if is_late(at) { range.high } else { range.low });
        ends.collect()
    };
    if vague.len() > FEW {
        return vec![way(&|at| 2 * at >= n), way(&|at| 2 * at < n)];
    }
    let ways = 0..1u32 << vague.len();
    let bit = |at: usize| vague.iter().position(|&of| of == at);
    ways.map(|of| way(&|at| bit(at).is_some_and(|bit| of >> bit & 1 == 1)))
        .collect()
}

/// The ages within the range of one reading at which the slope may be farthest: its ends, and where the slope turns as that age
/// moves. With u the distance of the age from the mean of the other n − 1, S their sum of squares about it, w the size less the
/// mean size and p the sum of products without w·u, the slope is (p + w·u)/(S + k·u²), k = (n − 1)/n, and turns at the roots
/// of w·k·u² + 2·k·p·u − w·S.
fn turns(
    ages: &[f64],
    place: usize,
    readings: &[(Interval, f64)],
    scale: Scale,
) -> Result<Vec<f64>, StatisticsError> {
    let sizes: Vec<f64> = readings.iter().map(|(_, size)| *size).collect();
    let sizes = scale.values(&sizes, 1)?;
    let n = ages.len() as f64;
    let mean_size = sizes.iter().sum::<f64>() / n;
    let others = || (0..ages.len()).filter(|&at| at != place);
    let mean = others().map(|at| ages[at]).sum::<f64>() / (n - 1.0);
    let squares: f64 = others()
        .map(|at| (ages[at] - mean) * (ages[at] - mean))
        .sum();
    let products: f64 = others()
        .map(|at| (ages[at] - mean) * (sizes[at] - mean_size))
        .sum();
    let (own, k) = (sizes[place] - mean_size, (n - 1.0) / n);
    let range = readings[place].0;
    let mut found = vec![range.low, range.high];
    let root = libm::sqrt(k * k * products * products + k * own * own * squares);
    let roots = match own == 0.0 {
        true => [0.0; 2],
        false => [-1.0, 1.0].map(|sign| (-k * products + sign * root) / (own * k)),
    };
    found.extend(
        roots
            .map(|u| mean + u)
            .into_iter()
            .filter(|age| range.holds(*age)),
    );
    Ok(found)
}
