//! Small dense matrices: a handful of traits or coefficients, never the plants of a registry.

/// Rows of equal length, stored one after another.
#[derive(Clone, PartialEq, Debug)]
pub struct Matrix {
    side: (usize, usize),
    cells: Vec<f64>,
}

impl Matrix {
    /// All cells zero.
    pub fn zero(rows: usize, columns: usize) -> Self {
        Self {
            side: (rows, columns),
            cells: vec![0.0; rows * columns],
        }
    }

    /// Number of rows.
    pub fn rows(&self) -> usize {
        self.side.0
    }

    /// One cell. Indices outside are a caller error.
    pub fn at(&self, row: usize, column: usize) -> f64 {
        self.cells[row * self.side.1 + column]
    }

    /// One cell to change. Indices outside are a caller error.
    pub fn at_mut(&mut self, row: usize, column: usize) -> &mut f64 {
        &mut self.cells[row * self.side.1 + column]
    }

    /// The Cholesky factor of a symmetric matrix; `None` unless it is positive definite beyond rounding.
    pub fn factor(&self) -> Option<Factor> {
        let n = self.rows();
        let mut lower = Self::zero(n, n);
        for i in 0..n {
            for j in 0..=i {
                let inner: f64 = (0..j).map(|k| lower.at(i, k) * lower.at(j, k)).sum();
                let rest = self.at(i, j) - inner;
                if i != j {
                    *lower.at_mut(i, j) = rest / lower.at(j, j);
                } else if rest > 1e-15 * self.at(i, i).abs() {
                    *lower.at_mut(i, i) = libm::sqrt(rest);
                } else {
                    return None;
                }
            }
        }
        Some(Factor(lower))
    }
}

/// The lower triangle `L` of `M = L·Lᵀ`.
#[derive(Clone, PartialEq, Debug)]
pub struct Factor(Matrix);

impl Factor {
    /// The `x` with `M·x = right`.
    pub fn solve(&self, right: &[f64]) -> Vec<f64> {
        let (lower, n) = (&self.0, self.0.rows());
        let mut x = right.to_vec();
        for i in 0..n {
            let inner: f64 = (0..i).map(|k| lower.at(i, k) * x[k]).sum();
            x[i] = (x[i] - inner) / lower.at(i, i);
        }
        for i in (0..n).rev() {
            let inner: f64 = (i + 1..n).map(|k| lower.at(k, i) * x[k]).sum();
            x[i] = (x[i] - inner) / lower.at(i, i);
        }
        x
    }

    /// The inverse of `M`.
    pub fn inverse(&self) -> Matrix {
        let n = self.0.rows();
        let mut out = Matrix::zero(n, n);
        for j in 0..n {
            let mut unit = vec![0.0; n];
            unit[j] = 1.0;
            for (i, value) in self.solve(&unit).into_iter().enumerate() {
                *out.at_mut(i, j) = value;
            }
        }
        out
    }
}

/// Sum of products; the shorter list decides.
pub fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}
