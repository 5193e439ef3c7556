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
    /// For each observation the slope of the fitted value by each parameter; 0 beyond the last.
    fn slopes(&self, at: &[f64]) -> Vec<Slopes>;
}

/// Slopes by at most [`MOST_PARAMETERS`] parameters.
pub(crate) type Slopes = [f64; MOST_PARAMETERS];

/// Parameters a model may have.
pub(crate) const MOST_PARAMETERS: usize = 3;

/// Sums of products of slopes by `parameters` parameters.
pub(crate) fn normal_matrix(slopes: &[Slopes], parameters: usize) -> Matrix {
    let mut sums = [[0.0; MOST_PARAMETERS]; MOST_PARAMETERS];
    for row in slopes {
        for (sums, by) in sums.iter_mut().zip(row) {
            for (sum, with) in sums.iter_mut().zip(row) {
                *sum += by * with;
            }
        }
    }
    let mut normal = Matrix::zero(parameters, parameters);
    for (i, sums) in sums.iter().enumerate().take(parameters) {
        for (j, &sum) in sums.iter().enumerate().take(parameters) {
            *normal.at_mut(i, j) = sum;
        }
    }
    normal
}

/// Where a search stands.
struct Place {
    at: Vec<f64>,
    residuals: Vec<f64>,
    rss: f64,
}

impl Place {
    fn of(model: &impl Model, at: Vec<f64>) -> Option<Self> {
        let residuals = model.residuals(&at);
        let rss = dot(&residuals, &residuals);
        rss.is_finite().then_some(Self { at, residuals, rss })
    }
}

/// The nearest minimum of the sum of squares from `start`, with its value; `None` if the start is impossible.
pub(crate) fn least_squares(model: &impl Model, start: Vec<f64>) -> Option<(Vec<f64>, f64)> {
    let mut place = Place::of(model, start)?;
    let mut damping = 1e-3;
    for _ in 0..500 {
        let Some(next) = downhill(model, &place, &mut damping) else {
            break;
        };
        let step = place.at.iter().zip(&next.at).map(|(a, b)| (a - b).abs());
        let settled = step.fold(0.0, f64::max) < 1e-12 || place.rss - next.rss <= 1e-15 * place.rss;
        place = next;
        if settled {
            break;
        }
    }
    Some((place.at, place.rss))
}

/// A place no higher, with as little damping as that takes; none if none was found.
fn downhill(model: &impl Model, place: &Place, damping: &mut f64) -> Option<Place> {
    let slopes = model.slopes(&place.at);
    let normal = normal_matrix(&slopes, place.at.len());
    let along = |j: usize| {
        slopes
            .iter()
            .zip(&place.residuals)
            .map(|(s, r)| s[j] * r)
            .sum()
    };
    let pull: Vec<f64> = (0..place.at.len()).map(along).collect();
    while *damping < 1e12 {
        let step = damped(&normal, *damping)
            .factor()
            .map(|factor| factor.solve(&pull));
        let next = step.and_then(|step| {
            Place::of(
                model,
                place.at.iter().zip(&step).map(|(a, s)| a + s).collect(),
            )
        });
        if let Some(next) = next.filter(|next| next.rss <= place.rss) {
            *damping = (*damping * 0.2).max(1e-12);
            return Some(next);
        }
        *damping *= 4.0;
    }
    None
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

/// A point and its height.
type Corner = (Vec<f64>, f64);

/// One descent of Nelder & Mead's simplex.
fn simplex(value: &impl Fn(&[f64]) -> f64, start: &[f64], size: f64) -> Corner {
    let scored = |point: Vec<f64>| {
        let height = value(&point);
        let height = if height.is_nan() {
            f64::INFINITY
        } else {
            height
        };
        (point, height)
    };
    let mut corners = vec![scored(start.to_vec())];
    for i in 0..start.len() {
        let mut point = start.to_vec();
        point[i] += size;
        corners.push(scored(point));
    }
    for _ in 0..600 {
        corners.sort_by(|a, b| a.1.total_cmp(&b.1));
        if width(&corners) < 1e-10 {
            break;
        }
        match instead_of_worst(&corners, &scored) {
            Some(point) => corners[start.len()] = point,
            None => halve(&mut corners, &scored),
        }
    }
    corners.sort_by(|a, b| a.1.total_cmp(&b.1));
    corners.swap_remove(0)
}

/// Largest distance between the best corner and the worst in one direction.
fn width(corners: &[Corner]) -> f64 {
    let (best, worst) = (&corners[0].0, &corners[corners.len() - 1].0);
    let apart = |(a, b): (&f64, &f64)| (a - b).abs();
    best.iter().zip(worst).map(apart).fold(0.0, f64::max)
}

/// A better corner on the line from the worst through the middle of the others; none if the simplex must shrink.
fn instead_of_worst(corners: &[Corner], scored: &impl Fn(Vec<f64>) -> Corner) -> Option<Corner> {
    let n = corners.len() - 1;
    let (worst, others) = (&corners[n], &corners[..n]);
    let middle = |j: usize| others.iter().map(|corner| corner.0[j]).sum::<f64>() / n as f64;
    let centre: Vec<f64> = (0..n).map(middle).collect();
    let along = |by: f64| {
        let toward = |j: usize| centre[j] + by * (worst.0[j] - centre[j]);
        scored((0..n).map(toward).collect())
    };
    let mirrored = along(-1.0);
    if mirrored.1 < others[0].1 {
        let far = along(-2.0);
        return Some(if far.1 < mirrored.1 { far } else { mirrored });
    }
    if mirrored.1 < others[n - 1].1 {
        return Some(mirrored);
    }
    let near = along(if mirrored.1 < worst.1 { -0.5 } else { 0.5 });
    (near.1 < worst.1.min(mirrored.1)).then_some(near)
}

/// Draws every corner half way to the best.
fn halve(corners: &mut [Corner], scored: &impl Fn(Vec<f64>) -> Corner) {
    let best = corners[0].0.clone();
    for corner in &mut corners[1..] {
        let halved = corner.0.iter().zip(&best).map(|(c, b)| 0.5 * (c + b));
        *corner = scored(halved.collect());
    }
}
