//! From the equations back to every plant: merit, its error, its reliability.
//!
//! For a plant absorbed, with w the parts expected from its sources, t the sum of its readings' rows, n readings,
//! D its own part and a = D σ²_a / (σ²_e + n h): û = w θ̂ + a Σ (y − x θ̂), and the prediction error variance is
//! (w − a t)ᵀ C (w − a t) + D σ²_a (1 − n a), C being the inverse of the equations. Reliability is
//! 1 − PEV / (A_ii σ²_a).

use super::equations::{Design, Equations, Relatives, Sparse, Unsolvable, Variances, joined};

/// The prediction.
#[derive(Clone, Debug)]
pub struct Prediction {
    /// Estimate of each column.
    pub columns: Vec<f64>,
    /// Standard error of each column.
    pub column_errors: Vec<f64>,
    /// Merit of each row asked for, in the unit of the readings: û plus what was asked to be added to it.
    pub merit: Vec<f64>,
    /// Standard error of the prediction.
    pub error: Vec<f64>,
    /// The standard error it would have without its own readings, for a plant without offspring: that of its pod's
    /// mean. Equal to `error` for a parent.
    pub error_unread: Vec<f64>,
    /// Readings of the plant itself.
    pub readings: Vec<u32>,
}

/// Predicts merit of the rows asked for; to each the columns in `beside` are added with their values (the shares of
/// species, say; none leaves û alone).
///
/// # Errors
/// As [`Unsolvable`] says.
pub fn predict(
    relatives: &Relatives,
    design: &Design,
    variances: &Variances,
    wanted: &[(u32, Vec<(u32, f64)>)],
) -> Result<Prediction, Unsolvable> {
    let equations = Equations::of(relatives, design, variances)?;
    let factor = equations.factor()?;
    let solution = factor.solve(&equations.right);
    let inverse = factor.inverse();
    let size = equations.size;
    let form = |row: &Sparse| -> f64 {
        row.iter()
            .flat_map(|(a, x)| row.iter().map(move |(b, y)| (*a, *b, x * y)))
            .map(|(a, b, weight)| weight * inverse[a as usize * size + b as usize])
            .sum()
    };
    let along = |row: &Sparse| -> f64 {
        row.iter()
            .map(|(at, part)| part * solution[*at as usize])
            .sum()
    };
    let columns = design.group_of.len();
    let mut found = Prediction {
        columns: solution[..columns].to_vec(),
        column_errors: (0..columns)
            .map(|at| libm::sqrt(inverse[at * size + at].max(0.0)))
            .collect(),
        merit: Vec::with_capacity(wanted.len()),
        error: Vec::with_capacity(wanted.len()),
        error_unread: Vec::with_capacity(wanted.len()),
        readings: Vec::with_capacity(wanted.len()),
    };
    for (plant, beside) in wanted {
        let (shared, h) = equations.shared(relatives, *plant, variances);
        let mut row: Sparse = shared.clone();
        row.extend(beside.iter().copied());
        let of = equations
            .of_plant
            .binary_search_by_key(plant, |(of, _)| *of)
            .ok();
        let range = of.map_or(0..0, |at| equations.of_plant[at].1.clone());
        let count = range.len();
        let (mut merit, mut own_error) = (0.0, 0.0);
        let mut own_unread = None;
        if equations.unknown_of[*plant as usize].is_none() {
            let own = relatives.own[*plant as usize] * variances.additive;
            let a = own / (variances.residual + count as f64 * h);
            let mut left = 0.0;
            for place in range {
                let reading = &design.readings[equations.order[place] as usize];
                let of_reading = equations.row(reading, &shared);
                left += reading.value - along(&of_reading);
                row.extend(of_reading.into_iter().map(|(at, part)| (at, -a * part)));
            }
            merit = a * left;
            own_error = own * (1.0 - count as f64 * a);
            own_unread = Some(own);
        }
        let mut level: Sparse = shared;
        level.extend(beside.iter().copied());
        let level = joined(level);
        let error = libm::sqrt((form(&joined(row)) + own_error).max(0.0));
        found.merit.push(merit + along(&level));
        found
            .error_unread
            .push(own_unread.map_or(error, |own| libm::sqrt((form(&level) + own).max(0.0))));
        found.error.push(error);
        found.readings.push(count as u32);
    }
    Ok(found)
}
