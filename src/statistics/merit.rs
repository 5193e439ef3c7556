//! How do plants rank when the grower weighs several traits?
//!
//! Traits are standardised within the sowing (mean 0, standard deviation 1), multiplied by the grower's weights and
//! added. A trait nobody read on a plant counts as the sowing's mean and widens the plant's interval by the whole
//! spread it might have had; a plant without any reading has no score at all, not zero. Levels a plant must reach and
//! fronts without weights are in `culling` and `pareto`.

use super::describe::{mean, sample_sd};
use super::distribution::normal_quantile;
use super::error::{StatisticsError, require};
use super::interval::{Confidence, Interval};

/// A trait within one sowing.
#[derive(Clone, PartialEq, Debug)]
pub struct Trait {
    /// Weight per standard deviation; below zero where less is better.
    pub weight: f64,
    /// Standard deviation of one reading of it, in its unit; 0 if read without error.
    pub reading_sd: f64,
    /// One reading per plant, all traits in the same order of plants.
    pub readings: Vec<Option<f64>>,
}

/// One plant's weighted sum.
#[derive(Clone, PartialEq, Debug)]
pub struct Score {
    /// The weighted sum of standardised traits.
    pub value: f64,
    /// Limits from reading error and from traits not read.
    pub interval: Interval,
    /// Traits not read on this plant.
    pub unread: usize,
}

/// Scores all plants; `None` for plants without any reading.
///
/// A trait whose readings are all equal cannot tell plants apart: it adds nothing, and its weight widens no interval. Of one
/// that was read on fewer than two plants the spread is not known: it adds nothing either, and widens all intervals by its
/// weight, as a trait that was not read does.
///
/// # Errors
/// No trait, lists of different length, or a reading, weight or reading error that is not finite.
pub fn scores(
    traits: &[Trait],
    confidence: Confidence,
) -> Result<Vec<Option<Score>>, StatisticsError> {
    let plants = traits
        .first()
        .map(|t| t.readings.len())
        .ok_or(StatisticsError::TooFew {
            found: 0,
            needed: 1,
        })?;
    if let Some(odd) = traits.iter().find(|t| t.readings.len() != plants) {
        return Err(StatisticsError::Unpaired {
            left: plants,
            right: odd.readings.len(),
        });
    }
    let spreads = traits.iter().map(spread).collect::<Result<Vec<_>, _>>()?;
    let z = normal_quantile(1.0 - confidence.tail());
    let score = |plant: usize| {
        let unread = traits
            .iter()
            .filter(|t| t.readings[plant].is_none())
            .count();
        let (mut value, mut variance) = (0.0, 0.0);
        for (of_trait, spread) in traits.iter().zip(&spreads) {
            let (share, error) = contribution(of_trait, plant, *spread);
            value += share;
            variance += error * error;
        }
        let interval = Interval::around(value, z * libm::sqrt(variance));
        (unread < traits.len()).then_some(Score {
            value,
            interval,
            unread,
        })
    };
    Ok((0..plants).map(score).collect())
}

/// How the readings of a trait are spread.
#[derive(Clone, Copy)]
enum Spread {
    /// By their mean and standard deviation.
    Of(f64, f64),
    /// All are equal.
    None,
    /// Fewer than two plants were read.
    Unknown,
}

/// What a trait adds to a plant's score, and the standard deviation of that.
fn contribution(of_trait: &Trait, plant: usize, spread: Spread) -> (f64, f64) {
    match (spread, of_trait.readings[plant]) {
        (Spread::Of(centre, sd), Some(reading)) => {
            let error = of_trait.weight * of_trait.reading_sd / sd;
            (of_trait.weight * (reading - centre) / sd, error)
        }
        (Spread::Of(..), None) | (Spread::Unknown, _) => (0.0, of_trait.weight),
        (Spread::None, _) => (0.0, 0.0),
    }
}

/// The spread of the readings present.
fn spread(of_trait: &Trait) -> Result<Spread, StatisticsError> {
    require(&[of_trait.weight, of_trait.reading_sd], 2)?;
    let values: Vec<f64> = of_trait.readings.iter().flatten().copied().collect();
    require(&values, 0)?;
    Ok(match sample_sd(&values) {
        Ok(sd) if sd > 0.0 => Spread::Of(mean(&values), sd),
        Ok(_) => Spread::None,
        Err(_) => Spread::Unknown,
    })
}

/// Places of the plants from the highest score down, plants of equal score in the order given, unread plants left out.
pub fn ranking(scores: &[Option<Score>]) -> Vec<usize> {
    let value = |plant: usize| {
        scores[plant]
            .as_ref()
            .map_or(f64::NEG_INFINITY, |score| score.value)
    };
    let mut order: Vec<usize> = (0..scores.len())
        .filter(|&plant| scores[plant].is_some())
        .collect();
    order.sort_by(|&a, &b| value(b).total_cmp(&value(a)));
    order
}
