//! L Lᵀ of a symmetric positive definite matrix: solving, inverting, the logarithm of its determinant.
//!
//! Dense and plain: after absorption the equations have a few hundred unknowns. Behind this one interface a library's
//! solver can take its place.

use rayon::prelude::*;

/// Rows of an inverse worked out together.
const ROWS: usize = 16;
/// Columns of the inverse of a triangle worked out together: a block of a few thousand rows stays near the processor.
const COLUMNS: usize = 64;

/// The factor of a matrix.
#[derive(Clone, Debug)]
pub struct Cholesky {
    size: usize,
    /// Row by row, the lower triangle with its diagonal; the rest is not used.
    lower: Vec<f64>,
}

impl Cholesky {
    /// Factors a matrix given row by row, of which only the lower triangle is read. A row that is zero throughout (an
    /// effect without readings and without a stated variance) is left out and answers 0. `None` if the matrix is not
    /// positive definite within rounding.
    pub fn of(mut matrix: Vec<f64>, size: usize) -> Option<Cholesky> {
        for row in 0..size {
            let (above, rest) = matrix.split_at_mut(row * size);
            let own = &mut rest[..size];
            let before = own[row];
            for column in 0..row {
                let other = &above[column * size..column * size + column + 1];
                let (left, right) = (&own[..column], &other[..column]);
                let sum = own[column] - dot(left, right);
                own[column] = if other[column] > 0.0 {
                    sum / other[column]
                } else {
                    0.0
                };
            }
            let pivot = own[row] - dot(&own[..row], &own[..row]);
            own[row] = match pivot {
                pivot if pivot > 1e-9 * before.abs() && pivot > 0.0 => libm::sqrt(pivot),
                pivot if pivot.abs() <= 1e-9 * before.abs() || before == 0.0 => 0.0,
                _ => return None,
            };
            if own[row] == 0.0 {
                own[..row].fill(0.0);
            }
        }
        Some(Cholesky {
            size,
            lower: matrix,
        })
    }

    fn row(&self, row: usize) -> &[f64] {
        &self.lower[row * self.size..row * self.size + row + 1]
    }

    /// Solves for one right-hand side; unknowns left out are 0.
    pub fn solve(&self, right: &[f64]) -> Vec<f64> {
        let mut x = right.to_vec();
        for at in 0..self.size {
            let row = self.row(at);
            x[at] = if row[at] > 0.0 {
                (x[at] - dot(&row[..at], &x[..at])) / row[at]
            } else {
                0.0
            };
        }
        for at in (0..self.size).rev() {
            let row = self.row(at);
            if row[at] > 0.0 {
                x[at] /= row[at];
                let value = x[at];
                x[..at]
                    .iter_mut()
                    .zip(row)
                    .for_each(|(earlier, part)| *earlier -= part * value);
            }
        }
        x
    }

    /// The inverse, row by row; rows of unknowns left out are 0. Worked out in blocks side by side; every sum is taken
    /// in the same order whatever the number of processors.
    pub fn inverse(&self) -> Vec<f64> {
        let size = self.size;
        let half = self.inverse_of_lower();
        let mut inverse = vec![0.0; size * size];
        // Rows of (L⁻¹)ᵀ L⁻¹ up to the diagonal, a few at a time so that a row of L⁻¹ is fetched once for all of them.
        let blocks = inverse.par_chunks_mut(ROWS * size.max(1)).enumerate();
        blocks.for_each(|(block, targets)| {
            let first = block * ROWS;
            for at in first..size {
                let own = &half[at * size..at * size + at + 1];
                for (row, target) in (first..=at).zip(targets.chunks_mut(size)) {
                    let part = own[row];
                    if part != 0.0 {
                        let target = target[..=row].iter_mut();
                        target
                            .zip(own)
                            .for_each(|(sum, value)| *sum += part * value);
                    }
                }
            }
        });
        for row in 0..size {
            for column in row + 1..size {
                inverse[row * size + column] = inverse[column * size + row];
            }
        }
        inverse
    }

    /// L⁻¹ row by row. Its columns do not depend on each other.
    fn inverse_of_lower(&self) -> Vec<f64> {
        let size = self.size;
        let starts: Vec<usize> = (0..size).step_by(COLUMNS).collect();
        let blocks: Vec<Vec<f64>> = starts
            .par_iter()
            .map(|&start| self.columns_of_inverse(start, COLUMNS.min(size - start)))
            .collect();
        let mut half = vec![0.0; size * size];
        for (&start, block) in starts.iter().zip(&blocks) {
            let width = COLUMNS.min(size - start);
            for (at, row) in block.chunks(width).enumerate() {
                let to = at * size + start;
                half[to..to + width].copy_from_slice(row);
            }
        }
        half
    }

    /// Some columns of L⁻¹, row by row.
    fn columns_of_inverse(&self, start: usize, width: usize) -> Vec<f64> {
        let mut block = vec![0.0; self.size * width];
        for at in start..self.size {
            let row = self.row(at);
            if row[at] == 0.0 {
                continue;
            }
            let (above, rest) = block.split_at_mut(at * width);
            let own = &mut rest[..width];
            for (column, part) in row[..at].iter().enumerate().skip(start) {
                if *part != 0.0 {
                    let earlier = &above[column * width..(column + 1) * width];
                    own.iter_mut()
                        .zip(earlier)
                        .for_each(|(sum, value)| *sum -= part * value);
                }
            }
            if at - start < width {
                own[at - start] = 1.0;
            }
            own.iter_mut().for_each(|value| *value /= row[at]);
        }
        block
    }

    /// Natural logarithm of the determinant, unknowns left out not counted.
    pub fn log_determinant(&self) -> f64 {
        (0..self.size)
            .map(|at| self.row(at)[at])
            .filter(|pivot| *pivot > 0.0)
            .map(|pivot| 2.0 * libm::log(pivot))
            .sum()
    }

    /// Number of unknowns left out.
    pub fn left_out(&self) -> usize {
        (0..self.size).filter(|&at| self.row(at)[at] == 0.0).count()
    }
}

/// In eight lanes, always summed in the same order.
fn dot(left: &[f64], right: &[f64]) -> f64 {
    const LANES: usize = 8;
    let mut lanes = [0.0; LANES];
    let (l, r) = (left.chunks_exact(LANES), right.chunks_exact(LANES));
    let tail: f64 = l
        .remainder()
        .iter()
        .zip(r.remainder())
        .map(|(a, b)| a * b)
        .sum();
    for (a, b) in l.zip(r) {
        for lane in 0..LANES {
            lanes[lane] += a[lane] * b[lane];
        }
    }
    lanes.iter().sum::<f64>() + tail
}
