//! The parts of the inverse put together: as a list of entries, as a product, as a determinant.

use podbook::kinship::{Contribution, InverseParts};

/// The vector v of a contribution v vᵀ / D: 1 at the row, minus the parts at its sources.
fn contrast(of: &Contribution) -> Vec<(usize, f64)> {
    let sources = of.sources.iter().map(|&(row, part)| (row, -part));
    std::iter::once((of.row, 1.0)).chain(sources).collect()
}

/// All entries of the inverse, row by row.
pub fn dense_inverse(parts: &InverseParts) -> Vec<Vec<f64>> {
    let size = parts.plants + parts.extra.len();
    let mut table = vec![vec![0.0; size]; size];
    for of in &parts.contributions {
        let v = contrast(of);
        for &(row, one) in &v {
            for &(column, other) in &v {
                table[row][column] += one * other / of.mendelian_variance;
            }
        }
    }
    table
}

/// The sum of the diagonal.
pub fn trace(parts: &InverseParts) -> f64 {
    let of_one = |of: &Contribution| {
        let squares: f64 = contrast(of).iter().map(|(_, part)| part * part).sum();
        squares / of.mendelian_variance
    };
    parts.contributions.iter().map(of_one).sum()
}

/// A⁻¹ x.
pub fn times(parts: &InverseParts, x: &[f64]) -> Vec<f64> {
    let mut y = vec![0.0; x.len()];
    for of in &parts.contributions {
        let v = contrast(of);
        let along: f64 = v.iter().map(|&(row, part)| part * x[row]).sum();
        v.iter()
            .for_each(|&(row, part)| y[row] += part * along / of.mendelian_variance);
    }
    y
}

/// Natural logarithm of the determinant of A: Σ ln D.
pub fn log_determinant(parts: &InverseParts) -> f64 {
    let logs = parts.contributions.iter();
    logs.map(|of| of.mendelian_variance.ln()).sum()
}
