//! The equations solved: directly while they are few, by conjugate gradients (Hestenes & Stiefel 1952) when they are
//! many.
//!
//! What is absorbed one by one is eliminated exactly either way. The gradients are scaled by the columns' own block,
//! solved exactly, and by the diagonal of the rows kept. They end where the scaled residual has fallen by 10¹³.

use super::assembly::{Equations, Place};
use super::cholesky::Cholesky;
use super::equations::Unsolvable;
use super::joined::Sparse;

/// Unknowns up to which the core is factored.
const FEW: usize = 600;
/// Unknowns up to which an inverse is worked out.
const MOST: usize = 10_000;
/// What is left of the squared scaled residual.
const LEFT: f64 = 1e-26;

/// A way to the solution for any right-hand side of the core.
pub(super) enum Means {
    Factored(Cholesky),
    Iterated(Scaling),
}

/// What gradients are scaled by.
pub(super) struct Scaling {
    columns: Cholesky,
    diagonal: Vec<f64>,
}

impl Equations {
    pub fn core(&self) -> usize {
        self.right.len()
    }

    /// The way that suits the number of unknowns.
    pub fn means(&self) -> Result<Means, Unsolvable> {
        if self.core() <= FEW {
            return Ok(Means::Factored(self.factor()?));
        }
        let wide = self.wide;
        let mut columns = self.among_columns.clone();
        let mut diagonal: Vec<f64> = (wide..self.core())
            .map(|at| self.of_kept[at - wide].last().map_or(1.0, |(_, own)| *own))
            .collect();
        for absorbed in &self.absorbed {
            let split = absorbed
                .row
                .partition_point(|(at, _)| (*at as usize) < wide);
            let (of_columns, of_kept) = absorbed.row.split_at(split);
            for (place, (a, x)) in of_columns.iter().enumerate() {
                for (b, y) in &of_columns[..=place] {
                    columns[*a as usize * wide + *b as usize] -= x * y / absorbed.weight;
                }
            }
            for (at, x) in of_kept {
                diagonal[*at as usize - wide] -= x * x / absorbed.weight;
            }
        }
        let columns = Cholesky::of(columns, wide).ok_or(Unsolvable::NotDefinite)?;
        Ok(Means::Iterated(Scaling { columns, diagonal }))
    }

    /// The factor of the core with everything absorbed eliminated.
    pub fn factor(&self) -> Result<Cholesky, Unsolvable> {
        let (size, wide) = (self.core(), self.wide);
        if size > MOST {
            return Err(Unsolvable::TooWide);
        }
        let mut matrix = vec![0.0; size * size];
        for row in 0..wide {
            matrix[row * size..row * size + wide]
                .copy_from_slice(&self.among_columns[row * wide..(row + 1) * wide]);
        }
        for (kept, row) in self.of_kept.iter().enumerate() {
            let start = (wide + kept) * size;
            row.iter()
                .for_each(|(at, value)| matrix[start + *at as usize] += value);
        }
        for absorbed in &self.absorbed {
            for (place, (a, x)) in absorbed.row.iter().enumerate() {
                for (b, y) in &absorbed.row[..=place] {
                    matrix[*a as usize * size + *b as usize] -= x * y / absorbed.weight;
                }
            }
        }
        Cholesky::of(matrix, size).ok_or(Unsolvable::NotDefinite)
    }

    /// Logarithm of the determinant of what is eliminated one by one.
    pub fn log_absorbed(&self) -> f64 {
        self.absorbed
            .iter()
            .map(|absorbed| libm::log(absorbed.weight))
            .sum()
    }

    /// The solution of the core.
    pub fn solved(&self, means: &Means) -> Result<Vec<f64>, Unsolvable> {
        let mut right = self.right.clone();
        for absorbed in &self.absorbed {
            let part = absorbed.right / absorbed.weight;
            absorbed
                .row
                .iter()
                .for_each(|(at, x)| right[*at as usize] -= part * x);
        }
        means.solve(self, &right)
    }

    /// The solution of what was eliminated, from that of the core.
    pub fn of_absorbed(&self, core: &[f64]) -> Vec<f64> {
        let one = |at: u32| self.absorbed_from(at, self.absorbed[at as usize].right, core);
        (0..self.absorbed.len() as u32).map(one).collect()
    }

    /// The solution of one column that was eliminated, from its right-hand side and the solution of the core.
    pub fn absorbed_from(&self, at: u32, right: f64, core: &[f64]) -> f64 {
        let absorbed = &self.absorbed[at as usize];
        (right - along(&absorbed.row, core)) / absorbed.weight
    }

    /// A row as one of the core, and the variance that what is eliminated adds to its own.
    pub fn of_core(&self, row: &[(u32, f64)]) -> (Sparse, f64) {
        let (mut core, mut beyond): (Sparse, f64) = (Vec::with_capacity(row.len()), 0.0);
        for (at, part) in row {
            match self.place_of[*at as usize] {
                Place::Core(at) => core.push((at, *part)),
                Place::Absorbed(at) => {
                    let absorbed = &self.absorbed[at as usize];
                    let scaled = part / absorbed.weight;
                    beyond += part * scaled;
                    core.extend(absorbed.row.iter().map(|(at, x)| (*at, -scaled * x)));
                }
                Place::Absent => {}
            }
        }
        (super::joined::joined(core), beyond)
    }

    /// The core, everything absorbed eliminated, times a vector.
    fn times(&self, x: &[f64], out: &mut [f64]) {
        out.fill(0.0);
        for row in 0..self.wide {
            let of_row = &self.among_columns[row * self.wide..row * self.wide + row];
            let own = self.among_columns[row * self.wide + row];
            let mut sum = own * x[row];
            for (column, value) in of_row.iter().enumerate() {
                sum += value * x[column];
                out[column] += value * x[row];
            }
            out[row] += sum;
        }
        for (kept, row) in self.of_kept.iter().enumerate() {
            let at = self.wide + kept;
            let mut sum = 0.0;
            for (other, value) in row {
                sum += value * x[*other as usize];
                if *other as usize != at {
                    out[*other as usize] += value * x[at];
                }
            }
            out[at] += sum;
        }
        for absorbed in &self.absorbed {
            let part = along(&absorbed.row, x) / absorbed.weight;
            absorbed
                .row
                .iter()
                .for_each(|(at, value)| out[*at as usize] -= part * value);
        }
    }
}

impl Means {
    /// Unknowns that nothing tells apart from the others, so that they answer 0.
    pub fn left_out(&self) -> usize {
        match self {
            Means::Factored(factor) => factor.left_out(),
            Means::Iterated(scaling) => scaling.columns.left_out(),
        }
    }

    /// The solution for a right-hand side of the core.
    ///
    /// # Errors
    /// If the gradients do not settle.
    pub fn solve(&self, equations: &Equations, right: &[f64]) -> Result<Vec<f64>, Unsolvable> {
        match self {
            Means::Factored(factor) => Ok(factor.solve(right)),
            Means::Iterated(scaling) => scaling.gradients(equations, right),
        }
    }
}

impl Scaling {
    fn scaled(&self, residual: &[f64]) -> Vec<f64> {
        let wide = residual.len() - self.diagonal.len();
        let mut scaled = self.columns.solve(&residual[..wide]);
        let kept = residual[wide..].iter().zip(&self.diagonal);
        scaled.extend(kept.map(|(residual, own)| residual / own));
        scaled
    }

    fn gradients(&self, equations: &Equations, right: &[f64]) -> Result<Vec<f64>, Unsolvable> {
        let size = right.len();
        let (mut x, mut residual) = (vec![0.0; size], right.to_vec());
        let mut scaled = self.scaled(&residual);
        let mut level = dot(&residual, &scaled);
        let enough = level * LEFT;
        let (mut toward, mut product) = (scaled.clone(), vec![0.0; size]);
        for _ in 0..10 * size {
            if level <= enough {
                return Ok(x);
            }
            equations.times(&toward, &mut product);
            let step = level / dot(&toward, &product);
            if !(step.is_finite() && step > 0.0) {
                return Err(Unsolvable::NotDefinite);
            }
            for at in 0..size {
                x[at] += step * toward[at];
                residual[at] -= step * product[at];
            }
            scaled = self.scaled(&residual);
            let next = dot(&residual, &scaled);
            let turn = next / level;
            toward
                .iter_mut()
                .zip(&scaled)
                .for_each(|(toward, scaled)| *toward = scaled + turn * *toward);
            level = next;
        }
        Err(Unsolvable::NotDefinite)
    }
}

fn along(row: &Sparse, x: &[f64]) -> f64 {
    row.iter().map(|(at, value)| value * x[*at as usize]).sum()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
