//! Which weights on measured traits move a population where it is wanted?
//!
//! Smith (1936) and Hazel (1943): the best linear index for stated economic weights. Pešek & Baker (1969): the index
//! whose gains stand in a desired proportion. Kempthorne & Nordskog (1959): the best index that leaves some traits
//! still. All need covariances of what is seen (P) and of what is inherited (G), hence many plants; with few, weights
//! on standardised traits (`merit`) lose little.

use super::error::StatisticsError;
use super::matrix::{Matrix, dot};

/// An index and what it does.
#[derive(Clone, PartialEq, Debug)]
pub struct SelectionIndex {
    /// Weight of each trait as measured.
    pub weights: Vec<f64>,
    /// Standard deviation of the index among plants.
    pub sd: f64,
    /// Gain in each trait per unit of selection intensity.
    pub gains: Vec<f64>,
}

impl SelectionIndex {
    /// Correlation of the index with the merit `aᵀ·(inherited values)`.
    pub fn accuracy(&self, inherited: &Matrix, merit: &[f64]) -> f64 {
        dot(&self.gains, merit) / libm::sqrt(dot(merit, &inherited.times(merit)))
    }
}

fn check(seen: &Matrix, inherited: &Matrix, list: &[f64]) -> Result<(), StatisticsError> {
    let n = list.len();
    let sides = [
        seen.rows(),
        seen.columns(),
        inherited.rows(),
        inherited.columns(),
    ];
    match sides.iter().find(|&&side| side != n) {
        Some(&side) => Err(StatisticsError::Unpaired {
            left: n,
            right: side,
        }),
        None if n == 0 => Err(StatisticsError::TooFew {
            found: 0,
            needed: 1,
        }),
        None => Ok(()),
    }
}

/// The figures of any weights.
///
/// # Errors
/// Sides that do not fit, or an index without spread.
pub fn index_of(
    seen: &Matrix,
    inherited: &Matrix,
    weights: &[f64],
) -> Result<SelectionIndex, StatisticsError> {
    check(seen, inherited, weights)?;
    let variance = dot(weights, &seen.times(weights));
    if variance.is_nan() || variance <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    let sd = libm::sqrt(variance);
    let gains = inherited
        .times(weights)
        .into_iter()
        .map(|gain| gain / sd)
        .collect();
    Ok(SelectionIndex {
        weights: weights.to_vec(),
        sd,
        gains,
    })
}

/// Smith & Hazel: `b = P⁻¹·G·a` for economic weights `a`.
///
/// # Errors
/// Sides that do not fit, P not positive definite (traits that repeat each other), or an index without spread.
pub fn smith_hazel(
    seen: &Matrix,
    inherited: &Matrix,
    merit: &[f64],
) -> Result<SelectionIndex, StatisticsError> {
    check(seen, inherited, merit)?;
    let factor = seen.factor().ok_or(StatisticsError::NoSpread)?;
    index_of(seen, inherited, &factor.solve(&inherited.times(merit)))
}

/// Pešek & Baker: `b = G⁻¹·d`, gains in the proportion of `d`.
///
/// # Errors
/// Sides that do not fit, G not positive definite, or an index without spread.
pub fn desired_gains(
    seen: &Matrix,
    inherited: &Matrix,
    wanted: &[f64],
) -> Result<SelectionIndex, StatisticsError> {
    check(seen, inherited, wanted)?;
    let factor = inherited.factor().ok_or(StatisticsError::NoSpread)?;
    index_of(seen, inherited, &factor.solve(wanted))
}

/// Kempthorne & Nordskog: the best index for `merit` that leaves the traits in `held` (places in the list) still.
///
/// # Errors
/// As [`smith_hazel`]; a place outside the list; or all traits held.
pub fn restricted(
    seen: &Matrix,
    inherited: &Matrix,
    merit: &[f64],
    held: &[usize],
) -> Result<SelectionIndex, StatisticsError> {
    let free = smith_hazel(seen, inherited, merit)?;
    if let Some(&outside) = held.iter().find(|&&place| place >= merit.len()) {
        return Err(StatisticsError::OutOfRange {
            found: outside as f64,
            low: 0.0,
            high: merit.len() as f64 - 1.0,
        });
    }
    let factor = seen.factor().ok_or(StatisticsError::NoSpread)?;
    // Each held trait's covariances with the traits, and the weights that would move it alone.
    let moving: Vec<Vec<f64>> = held
        .iter()
        .map(|&i| (0..merit.len()).map(|j| inherited.at(j, i)).collect())
        .collect();
    let levers: Vec<Vec<f64>> = moving.iter().map(|column| factor.solve(column)).collect();
    let rows: Vec<Vec<f64>> = moving
        .iter()
        .map(|m| levers.iter().map(|lever| dot(m, lever)).collect())
        .collect();
    let Some(cross) = Matrix::from_rows(&rows) else {
        return Ok(free);
    };
    let pull: Vec<f64> = moving.iter().map(|m| dot(m, &free.weights)).collect();
    let back = cross
        .factor()
        .ok_or(StatisticsError::NoSpread)?
        .solve(&pull);
    let corrected =
        |j: usize| free.weights[j] - levers.iter().zip(&back).map(|(l, k)| l[j] * k).sum::<f64>();
    let weights: Vec<f64> = (0..merit.len()).map(corrected).collect();
    let held_still = index_of(seen, inherited, &weights)?;
    // With nothing left to move, what remains of the index is rounding.
    if held_still.sd > 1e-9 * free.sd {
        Ok(held_still)
    } else {
        Err(StatisticsError::NoSpread)
    }
}
