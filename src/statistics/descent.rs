//! Searching for a least sum of squares or a least value.
//!
//! Levenberg–Marquardt (Marquardt 1963) for curves of two or three parameters, Nelder & Mead (1965) with restarts for
//! likelihoods. Both are deterministic; neither proves that its optimum is the lowest, so callers start from several
//! points. Written here because a general crate brings a matrix library for what are 3 × 3 problems.

use super::matrix::{Matrix, dot};

/// A model to fit: residuals, and how the fitted values change with each parameter.
pub(crate) trait Model {
    /// Observed less fitted; infinite where the parameters are impossible.
    fn residuals(&self, at: &[f64]) -> Vec<f64>;
    /// For each observation the slope of the fitted value by each parameter.
    fn slopes(&self, at: &[f64]) -> Vec<Vec<f64>>;

    /// Sums of products of slopes.
    fn normal_matrix(&self, at: &[f64]) -> Matrix {
        let slopes = self.slopes(at);
        let mut normal = Matrix::zero(at.len(), at.len());
        for row in &slopes {
            for i in 0..at.len() {
                for j in 0..at.len() {
                    *normal.at_mut(i, j) += row[i] * row[j];
                }
            }
        }
        normal
    }
}

/// The nearest minimum of the sum of squares from `start`, with its value; `None` if the start is impossible.
pub(crate) fn least_squares(model: &impl Model, start: Vec<f64>) -> Option<(Vec<f64>, f64)> {
    let mut at = start;
    let mut residuals = model.residuals(&at);
    let mut rss = dot(&residuals, &residuals);
    let mut damping = 1e-3;
    for _ in 0..500 {
        if !rss.is_finite() {
            return None;
        }
        let normal = model.normal_matrix(&at);
        let slopes = model.slopes(&at);
        let pull: Vec<f64> = (0..at.len())
            .map(|j| slopes.iter().zip(&residuals).map(|(s, r)| s[j] * r).sum())
            .collect();
        let (mut improved, mut small) = (false, false);
        while !improved && damping < 1e12 {
            if let Some(step) = damped(&normal, damping)
                .factor()
                .map(|factor| factor.solve(&pull))
            {
                let next: Vec<f64> = at.iter().zip(&step).map(|(a, s)| a + s).collect();
                let tried = model.residuals(&next);
                let value = dot(&tried, &tried);
                if value.is_finite() && value <= rss {
                    small = step.iter().all(|s| s.abs() < 1e-12) || rss - value <= 1e-15 * rss;
                    (at, residuals, rss, improved) = (next, tried, value, true);
                    damping = (damping * 0.2).max(1e-12);
                    continue;
                }
            }
            damping *= 4.0;
        }
        if !improved || small {
            break;
        }
    }
    Some((at, rss))
}

fn damped(normal: &Matrix, damping: f64) -> Matrix {
    let mut matrix = normal.clone();
    for i in 0..matrix.rows() {
        *matrix.at_mut(i, i) += damping * normal.at(i, i).max(1e-12);
    }
    matrix
}

/// The lowest point found from `start` with first steps of `size`, restarted until it no longer moves.
pub(crate) fn lowest(value: &impl Fn(&[f64]) -> f64, start: &[f64], size: f64) -> (Vec<f64>, f64) {
    let (mut at, mut least) = (start.to_vec(), value(start));
    let mut step = size;
    for _ in 0..12 {
        let (next, found) = simplex(value, &at, step);
        let gained = least - found;
        if found <= least {
            (at, least) = (next, found);
        }
        step = (step * 0.3).max(1e-3);
        if gained.abs() <= 1e-13 * least.abs() {
            break;
        }
    }
    (at, least)
}

/// One descent of Nelder & Mead's simplex.
fn simplex(value: &impl Fn(&[f64]) -> f64, start: &[f64], size: f64) -> (Vec<f64>, f64) {
    let n = start.len();
    let corner = |i: usize| -> Vec<f64> {
        let mut point = start.to_vec();
        if i > 0 {
            point[i - 1] += size;
        }
        point
    };
    let scored = |point: Vec<f64>| {
        let height = value(&point);
        (
            point,
            if height.is_nan() {
                f64::INFINITY
            } else {
                height
            },
        )
    };
    let mut corners: Vec<(Vec<f64>, f64)> = (0..=n).map(|i| scored(corner(i))).collect();
    for _ in 0..600 {
        corners.sort_by(|a, b| a.1.total_cmp(&b.1));
        let width: f64 = (0..n)
            .map(|j| (corners[n].0[j] - corners[0].0[j]).abs())
            .fold(0.0, f64::max);
        if width < 1e-10 {
            break;
        }
        let centre: Vec<f64> = (0..n)
            .map(|j| corners[..n].iter().map(|c| c.0[j]).sum::<f64>() / n as f64)
            .collect();
        let along = |by: f64| {
            scored(
                (0..n)
                    .map(|j| centre[j] + by * (corners[n].0[j] - centre[j]))
                    .collect(),
            )
        };
        let mirrored = along(-1.0);
        let replacement = if mirrored.1 < corners[0].1 {
            let far = along(-2.0);
            Some(if far.1 < mirrored.1 { far } else { mirrored })
        } else if mirrored.1 < corners[n - 1].1 {
            Some(mirrored)
        } else {
            let near = along(if mirrored.1 < corners[n].1 { -0.5 } else { 0.5 });
            (near.1 < corners[n].1.min(mirrored.1)).then_some(near)
        };
        match replacement {
            Some(point) => corners[n] = point,
            None => {
                let best = corners[0].0.clone();
                for corner in &mut corners[1..] {
                    let halved = corner
                        .0
                        .iter()
                        .zip(&best)
                        .map(|(c, b)| 0.5 * (c + b))
                        .collect();
                    *corner = scored(halved);
                }
            }
        }
    }
    corners.sort_by(|a, b| a.1.total_cmp(&b.1));
    corners.swap_remove(0)
}
