//! Which readings are so far from the others of one age that a slip of the pen is more likely than a plant?
//!
//! A decimal point in the wrong place makes a reading ten times too large or too small, millimetres written as
//! centimetres do the same. Such a reading passes every other test and bends every mean. The rule is robust: it
//! measures with the median and the median absolute deviation, which one bad reading in five cannot move far.
//!
//! A reading is named when both hold, on the logarithm of size, median and MAD being those of the other readings:
//! - its modified z score `0.6745 · (ln x − median) / MAD` is beyond 3.5 either way (Iglewicz & Hoaglin 1993, from
//!   memory); where more than half of the readings are equal the MAD is 0 and this half always holds;
//! - it is at least [`FOLD`] times, or at most a [`FOLD`]th of, that median (ours): siblings of a wide cross differ
//!   twofold and more, a slip differs tenfold.
//!
//! The readings must be of plants of one age, as those of one sowing on one day are.

use super::describe::sorted_quantile;
use super::unanswered::{Unanswered, logs};

/// How many times the typical size a reading must be, or be smaller than it, before it is named.
pub const FOLD: f64 = 5.0;
/// Readings below which nothing is named: among fewer nobody can say which of them is the odd one.
pub const FEWEST: usize = 5;
/// Modified z score beyond which a reading is named.
const FAR: f64 = 3.5;
/// What makes a median absolute deviation a standard deviation of normal values: `Φ⁻¹(¾)`.
const NORMAL_MAD: f64 = 0.674_489_750_196_081_7;

/// One reading far from the others.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Outlier {
    /// Its place among the readings given.
    pub place: usize,
    /// The reading.
    pub size: f64,
    /// The median of the others.
    pub typical: f64,
    /// How many readings there were, itself included.
    pub n: usize,
}

impl Outlier {
    /// How many times larger, or smaller, than the median it is: at least [`FOLD`].
    pub fn fold(&self) -> f64 {
        (self.size / self.typical).max(self.typical / self.size)
    }

    /// Whether it lies above the median.
    pub fn is_above(&self) -> bool {
        self.size > self.typical
    }
}

/// The readings far from the others, in the order given; none among fewer than [`FEWEST`].
///
/// # Errors
/// A reading that is not finite or not above zero: counts and numbers that may be zero are not judged this way.
pub fn outliers(sizes: &[f64]) -> Result<Vec<Outlier>, Unanswered> {
    let logs = logs(sizes, 0)?;
    if sizes.len() < FEWEST {
        return Ok(Vec::new());
    }
    let mut sorted = logs.clone();
    sorted.sort_unstable_by(f64::total_cmp);
    let found = logs.iter().enumerate().filter_map(|(place, &log)| {
        let rank = sorted.partition_point(|&other| other < log);
        let centre = middle_without(&sorted, rank);
        let away = (log - centre).abs();
        // Sizes are written to a tenth: a reading exactly five times the median is named whatever the last bit says.
        let is_far = away >= libm::log(FOLD) - 1e-9 && NORMAL_MAD * away > FAR * mad(&sorted, rank);
        is_far.then(|| Outlier {
            place,
            size: sizes[place],
            typical: libm::exp(centre),
            n: sizes.len(),
        })
    });
    Ok(found.collect())
}

/// The median of sorted values without the one of a rank.
fn middle_without(sorted: &[f64], rank: usize) -> f64 {
    let others = sorted.len() - 1;
    let at = |place: usize| sorted[place + usize::from(place >= rank)];
    (at((others - 1) / 2) + at(others / 2)) / 2.0
}

/// The median absolute deviation of the others from their median.
fn mad(sorted: &[f64], rank: usize) -> f64 {
    let centre = middle_without(sorted, rank);
    let others = sorted.iter().enumerate().filter(|(at, _)| *at != rank);
    let mut away: Vec<f64> = others.map(|(_, value)| (value - centre).abs()).collect();
    away.sort_unstable_by(f64::total_cmp);
    sorted_quantile(&away, 0.5)
}
