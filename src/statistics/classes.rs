//! Which seedlings of one sowing are fast, medium or slow at one age?
//!
//! Thirds by mid-rank: `u = (rank − ½)/n`, slow below one third, fast from two thirds on. A grouping holds only within
//! the sowing and at the age it was made. Fewer than [`FEWEST`] plants are not classed, and one reading is too little to cull on: see [`chance_right`].

use super::distribution::{normal_density, normal_lower, normal_quantile};
use super::error::{StatisticsError, require_within};
use super::ranks::mid_ranks;

/// Plants below which no classes are made.
pub const FEWEST: usize = 6;
/// Standard deviation of one reading of leaf span, centimetres (a judgement, to be replaced by the grower's own).
pub const READING_SD: f64 = 0.25;

/// Two readings of equal plants differ by less than this 95 % of the time: `1.96·√2` reading standard deviations.
pub fn reading_error(reading_sd: f64) -> f64 {
    normal_quantile(0.975) * std::f64::consts::SQRT_2 * reading_sd
}

/// A third of the sowing.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Third {
    /// The lowest third.
    Slow,
    /// The middle third.
    Medium,
    /// The highest third.
    Fast,
}

/// Where one plant stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Standing {
    /// No reading; never zero.
    Unread,
    /// Read, but the sowing has too few plants to class.
    Unclassed,
    /// Classed.
    Classed(Third),
}

/// Classes the plants of one sowing, in the order given.
///
/// # Errors
/// A reading that is not finite.
pub fn thirds(readings: &[Option<f64>]) -> Result<Vec<Standing>, StatisticsError> {
    let values: Vec<f64> = readings.iter().flatten().copied().collect();
    super::error::require(&values, 0)?;
    if values.len() < FEWEST {
        let standing =
            |reading: &Option<f64>| reading.map_or(Standing::Unread, |_| Standing::Unclassed);
        return Ok(readings.iter().map(standing).collect());
    }
    let n = values.len() as f64;
    let third_of = |rank: f64| match (rank - 0.5) / n {
        u if u < 1.0 / 3.0 - 1e-12 => Third::Slow,
        u if u < 2.0 / 3.0 - 1e-12 => Third::Medium,
        _ => Third::Fast,
    };
    let mut thirds = mid_ranks(&values).into_iter().map(third_of);
    let standing = |reading: &Option<f64>| {
        let third = reading.and_then(|_| thirds.next());
        third.map_or(Standing::Unread, Standing::Classed)
    };
    Ok(readings.iter().map(standing).collect())
}

/// The plants of the neighbouring third that a second reading might swap a plant with.
#[derive(Clone, Default, PartialEq, Eq, Debug)]
pub struct Ties {
    /// The nearest of them on each side, at most [`NAMED`], the largest first; as places in the list given.
    pub nearest: Vec<usize>,
    /// How many there are besides.
    pub more: usize,
}

/// How many ties of a plant are named on each side.
pub const NAMED: usize = 3;

/// For each plant its ties: `classed` holds size and third of each plant, largest first. `error` is how far apart two
/// plants of neighbouring thirds may lie and still be tied, in the unit of the sizes (0 for no ties, 0.7 cm for one reading
/// of leaf span). A third without plants has no neighbours.
pub fn ties(classed: &[(f64, Third)], error: f64) -> Vec<Ties> {
    let mut ties = vec![Ties::default(); classed.len()];
    if error <= 0.0 {
        return ties;
    }
    // Readings are written to a tenth; a plant exactly so far apart is tied.
    let reach = error + 1e-9;
    let size = |at: usize| classed[at].0;
    let places: Vec<usize> = (0..classed.len()).collect();
    let thirds: Vec<&[usize]> = places
        .chunk_by(|&a, &b| classed[a].1 == classed[b].1)
        .collect();
    for boundary in thirds.windows(2) {
        let (above, below) = (boundary[0], boundary[1]);
        for &a in above {
            let near = below.partition_point(|&b| size(a) - size(b) <= reach);
            ties[a].nearest.extend(&below[..near.min(NAMED)]);
            ties[a].more += near.saturating_sub(NAMED);
        }
        for &b in below {
            let far = above.partition_point(|&a| size(a) - size(b) > reach);
            let near = above.len() - far;
            let named = &above[above.len() - near.min(NAMED)..];
            ties[b].nearest.extend(named);
            ties[b].more += near.saturating_sub(NAMED);
        }
    }
    for of in &mut ties {
        of.nearest.sort_unstable();
    }
    ties
}

/// The share of the spread among plants that is not reading error, 0 to 1: `1 − reading_sd²/s²`.
///
/// # Errors
/// Fewer than two values, one not finite, or all equal.
pub fn reliability(values: &[f64], reading_sd: f64) -> Result<f64, StatisticsError> {
    let sd = super::describe::spread(values)?;
    Ok((1.0 - reading_sd * reading_sd / (sd * sd)).max(0.0))
}

/// How often a plant is put into its true third, and how often a truly fast one is called slow, in a large sowing
/// whose readings have this reliability (0 to 1); both normal. One third and one ninth at reliability 0.
///
/// # Errors
/// `reliability` is not between 0 and 1.
pub fn chance_right(reliability: f64) -> Result<(f64, f64), StatisticsError> {
    require_within(reliability, 0.0, 1.0)?;
    let (lean, rest) = (
        libm::sqrt(reliability),
        libm::sqrt(1.0 - reliability).max(1e-6),
    );
    let cut = normal_quantile(2.0 / 3.0);
    // Over the true value: the chance that the reading falls below a limit is Φ((limit − lean·true)/rest).
    let below = |limit: f64, truth: f64| normal_lower((limit - lean * truth) / rest);
    let step = (rest / 4.0).min(0.01);
    let (mut right, mut fast_called_slow) = (0.0, 0.0);
    let steps = (8.0 / step) as usize;
    for i in 0..=steps {
        // Upper half only, from one cut outward and from the middle to the cut; the lower half mirrors it.
        let offset = 8.0 * (i as f64 + 0.5) / (steps + 1) as f64;
        let (outer, width) = (cut + offset, 8.0 / (steps + 1) as f64);
        right += 2.0 * width * normal_density(outer) * (1.0 - below(cut, outer));
        fast_called_slow += 3.0 * width * normal_density(outer) * below(-cut, outer);
        let (inner, narrow) = (cut * offset / 8.0, cut / (steps + 1) as f64);
        right += 2.0 * narrow * normal_density(inner) * (below(cut, inner) - below(-cut, inner));
    }
    Ok((right, fast_called_slow))
}
