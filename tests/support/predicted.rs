//! Everything the equations of merit say at once, as the textbooks print it.

// The bench times the whole prediction and reads no part of it.
#![allow(dead_code)]

use podbook::planning::merit::{Design, PredictionError, Relatives, Solved, Unsolvable, Variances};

/// The prediction for the rows asked for.
pub struct Prediction {
    /// Estimate of each column.
    pub columns: Vec<f64>,
    /// Standard error of each column.
    pub column_errors: Vec<f64>,
    /// Merit of each row asked for.
    pub merit: Vec<f64>,
    /// How sure it is.
    pub prediction_error: Vec<PredictionError>,
}

/// Merit of the rows asked for with their errors; to each the columns beside it are added with their values.
pub fn predict(
    relatives: &Relatives,
    design: &Design,
    variances: &Variances,
    wanted: &[(u32, Vec<(u32, f64)>)],
) -> Result<Prediction, Unsolvable> {
    let mut solved = Solved::of(relatives, design, variances)?;
    solved.invert();
    let columns = 0..design.group_of.len() as u32;
    let error = |at: u32| solved.form(&vec![(at, 1.0)]).max(0.0).sqrt();
    let sure = |(plant, beside): &(u32, Vec<(u32, f64)>)| solved.prediction_error(*plant, beside);
    Ok(Prediction {
        columns: columns.clone().map(|at| solved.estimate(at)).collect(),
        column_errors: columns.map(error).collect(),
        merit: wanted
            .iter()
            .map(|(plant, beside)| solved.merit(*plant, beside))
            .collect(),
        prediction_error: wanted.iter().map(sure).collect(),
    })
}
