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
//!
//! Inches written as centimetres move a reading by 2.54 only, which a wide cross reaches by itself. Of the readings named
//! by the first half and less than [`FOLD`] times away, those are named that are extraordinary as they stand and ordinary
//! when multiplied or divided by 2.54, both against the other readings, the suspects left out: Student's *t* of a further
//! value, beyond the point that one tray in a hundred passes by chance (Bonferroni's share for each reading), and after
//! the conversion within one and a half standard deviations. The spread is taken as a tenth at least (ours).
//! The readings must be of plants of one age, as those of one sowing on one day are.

use super::describe::{mean, sample_sd};
use super::distribution::t_upper_quantile;
use super::error::{StatisticsError, logs};

/// How many times the typical size a reading must be, or be smaller than it, before it is named.
pub const FOLD: f64 = 5.0;
/// Readings below which nothing is named: among fewer nobody can say which of them is the odd one.
pub const FEWEST: usize = 5;
/// Modified z score beyond which a reading is named.
const FAR: f64 = 3.5;
/// What makes a median absolute deviation a standard deviation of normal values: `Φ⁻¹(¾)`.
const NORMAL_MAD: f64 = 0.674_489_750_196_081_7;

/// Centimetres in an inch.
const INCH: f64 = 2.54;
/// How many times the typical size a reading must be at least to be asked about as inches: the spread a conversion may be
/// in doubt by keeps it well above 1.
pub const INCH_FOLD: f64 = 1.7;
/// Trays of sound readings in which a reading is taken for inches.
const FALSE_ALARMS: f64 = 0.01;
/// Standard deviations from the others within which a converted reading is ordinary.
const ORDINARY: f64 = 1.5;
/// Standard deviation of the logarithms of size assumed at least: sizes are rounded, and no tray is all alike.
const LEAST_SPREAD: f64 = 0.1;

/// What is likelier than such a plant.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Slip {
    /// At least [`FOLD`] times away: a decimal point, or millimetres.
    Far,
    /// About 2.54 times away: inches for centimetres, or the other way round.
    Inches,
}

/// One reading far from the others.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Outlier {
    /// What it may be.
    pub slip: Slip,
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
    /// How many times larger, or smaller, than the median it is: at least [`FOLD`] for [`Slip::Far`].
    pub fn fold(&self) -> f64 {
        (self.size / self.typical).max(self.typical / self.size)
    }

    /// The size with a conversion between inches and centimetres put right, toward the others.
    pub fn converted(&self) -> f64 {
        match self.is_above() {
            true => self.size / INCH,
            false => self.size * INCH,
        }
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
pub fn outliers(sizes: &[f64]) -> Result<Vec<Outlier>, StatisticsError> {
    let logs = logs(sizes, 0)?;
    if sizes.len() < FEWEST {
        return Ok(Vec::new());
    }
    let mut sorted = logs.clone();
    sorted.sort_unstable_by(f64::total_cmp);
    let far_off = |place: usize| {
        let rank = sorted.partition_point(|&other| other < logs[place]);
        let centre = middle_without(&sorted, rank);
        let away = (logs[place] - centre).abs();
        let is_off = away >= libm::log(INCH_FOLD);
        (is_off && NORMAL_MAD * away > FAR * mad(&sorted, rank)).then_some((away, centre))
    };
    let suspects = (0..sizes.len()).filter_map(|place| {
        let (away, centre) = far_off(place)?;
        // Sizes are written to a tenth: a reading exactly five times the median is named whatever the last bit says.
        let is_far = away >= libm::log(FOLD) - 1e-9;
        Some(Outlier {
            slip: if is_far { Slip::Far } else { Slip::Inches },
            place,
            size: sizes[place],
            typical: libm::exp(centre),
            n: sizes.len(),
        })
    });
    let mut found: Vec<Outlier> = suspects.collect();
    keep_likely_inches(&logs, &mut found);
    Ok(found)
}

/// Leaves out those taken for inches that are not extraordinary, or not ordinary once converted.
fn keep_likely_inches(logs: &[f64], found: &mut Vec<Outlier>) {
    if found.iter().all(|of| of.slip == Slip::Far) {
        return;
    }
    let mut is_suspect = vec![false; logs.len()];
    found.iter().for_each(|of| is_suspect[of.place] = true);
    let rest: Vec<f64> = logs
        .iter()
        .zip(is_suspect)
        .filter(|of| !of.1)
        .map(|(log, _)| *log)
        .collect();
    let Ok(sd) = sample_sd(&rest) else {
        return found.retain(|of| of.slip == Slip::Far);
    };
    let (n, centre) = (rest.len() as f64, mean(&rest));
    let spread = sd.max(LEAST_SPREAD) * libm::sqrt(1.0 + 1.0 / n);
    let extraordinary = t_upper_quantile(0.5 * FALSE_ALARMS / logs.len() as f64, n - 1.0);
    found.retain(|of| {
        let away = (logs[of.place] - centre).abs() / spread;
        let converted = (libm::log(of.converted()) - centre).abs() / spread;
        let is_inches = rest.len() >= FEWEST && away > extraordinary && converted <= ORDINARY;
        of.slip == Slip::Far || is_inches
    });
}

/// The median of sorted values without the one of a rank.
fn middle_without(sorted: &[f64], rank: usize) -> f64 {
    let others = sorted.len() - 1;
    let at = |place: usize| sorted[place + usize::from(place >= rank)];
    (at((others - 1) / 2) + at(others / 2)) / 2.0
}

/// The median absolute deviation of the others from their median: the distances in order, walked from the median out.
fn mad(sorted: &[f64], rank: usize) -> f64 {
    let centre = middle_without(sorted, rank);
    let others = sorted.len() - 1;
    let at = |place: usize| sorted[place + usize::from(place >= rank)];
    let start = sorted.partition_point(|&value| value < centre);
    let mut above = start - usize::from(start > rank);
    let (mut below, mut last, mut before) = (above, 0.0, 0.0);
    for _ in 0..=others / 2 {
        let down = below.checked_sub(1).map(|place| centre - at(place));
        let up = (above < others).then(|| at(above) - centre);
        before = last;
        last = match (down, up) {
            (Some(down), up) if up.is_none_or(|up| down <= up) => {
                below -= 1;
                down
            }
            (_, Some(up)) => {
                above += 1;
                up
            }
            _ => return last,
        };
    }
    match others % 2 {
        0 => 0.5 * (before + last),
        _ => last,
    }
}
