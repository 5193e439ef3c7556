//! How much should each parent contribute to balance merit against kinship?
//!
//! Optimal contributions (Meuwissen 1997): maximise `gᵀc − (λ/2)·cᵀAc` with the contributions of the females and of the
//! males each summing to one half and none negative. Solved as a convex quadratic programme by an active set, which
//! does not lose the optimum as dropping negative contributions does (Pong-Wong & Woolliams 2007). Dense; meant for up
//! to about sixty candidates.

/// Contributions and what they come to.
#[derive(Clone, PartialEq, Debug)]
pub struct Contributions {
    /// Share of each candidate in the next generation's genes; they sum to 1.
    pub shares: Vec<f64>,
    /// `gᵀc`.
    pub gain: f64,
    /// Group coancestry `cᵀAc / 2`.
    pub coancestry: f64,
    /// The weight λ on coancestry under which they are optimal.
    pub weight: f64,
}

/// Candidates: their merit, sex and kinship.
#[derive(Clone, Copy, Debug)]
pub struct Candidates<'a> {
    /// Merit of each.
    pub merit: &'a [f64],
    /// Whether each bears seed; the others give pollen.
    pub female: &'a [bool],
    /// Kinship Φ of each pair (the relationship A is twice that), row by row; ½(1 + F) on the diagonal.
    pub kinship: &'a [f64],
}

/// Why there are no contributions.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoContributions {
    /// There is no female, or no male.
    OneSex,
    /// No contributions have so little coancestry.
    BelowLeast,
    /// The kinship is no kinship (not positive on differences), so that no optimum was reached.
    NoOptimum,
}

impl Candidates<'_> {
    fn count(&self) -> usize {
        self.merit.len()
    }

    fn relationship(&self, one: usize, other: usize) -> f64 {
        2.0 * self.kinship[one * self.count() + other]
    }

    fn contributions(&self, shares: Vec<f64>, weight: f64) -> Contributions {
        let gain = self.merit.iter().zip(&shares).map(|(g, c)| g * c).sum();
        let row = |i: usize| {
            (0..self.count())
                .map(|j| self.relationship(i, j) * shares[j])
                .sum::<f64>()
        };
        let coancestry = (0..self.count()).map(|i| shares[i] * row(i)).sum::<f64>() / 2.0;
        Contributions {
            shares,
            gain,
            coancestry,
            weight,
        }
    }

    fn gradient(&self, shares: &[f64], weight: f64) -> Vec<f64> {
        let row = |i: usize| {
            (0..self.count())
                .map(|j| self.relationship(i, j) * shares[j])
                .sum::<f64>()
        };
        (0..self.count())
            .map(|i| self.merit[i] - weight * row(i))
            .collect()
    }
}

/// The optimal contributions under a weight λ > 0 on coancestry.
///
/// # Errors
/// [`NoContributions::OneSex`], or [`NoContributions::NoOptimum`].
///
/// # Panics
/// If merit, sex and kinship do not match in length.
pub fn optimal(candidates: &Candidates, weight: f64) -> Result<Contributions, NoContributions> {
    let n = candidates.count();
    assert_eq!(
        (candidates.female.len(), candidates.kinship.len()),
        (n, n * n),
        "one kinship a pair"
    );
    let mut shares = vec![0.0; n];
    let mut free = vec![false; n];
    for sex in [true, false] {
        // Start from the best candidate of each sex alone.
        let of_sex = (0..n).filter(|&i| candidates.female[i] == sex);
        let best = of_sex.max_by(|&a, &b| {
            candidates.merit[a]
                .total_cmp(&candidates.merit[b])
                .then(b.cmp(&a))
        });
        let best = best.ok_or(NoContributions::OneSex)?;
        (shares[best], free[best]) = (0.5, true);
    }
    let scale = 1.0
        + candidates
            .merit
            .iter()
            .fold(0.0_f64, |most, g| most.max(g.abs()))
        + weight;
    for _ in 0..100 * n + 1000 {
        let (wanted, levels) =
            on_free(candidates, weight, &free).ok_or(NoContributions::NoOptimum)?;
        if let Some(leaving) = step_towards(&mut shares, &wanted, &free) {
            (shares[leaving], free[leaving]) = (0.0, false);
            continue;
        }
        let gradient = candidates.gradient(&shares, weight);
        let rise = |i: usize| gradient[i] - levels[usize::from(!candidates.female[i])];
        let idle = (0..n).filter(|&i| !free[i]);
        match idle.max_by(|&a, &b| rise(a).total_cmp(&rise(b)).then(b.cmp(&a))) {
            Some(entering) if rise(entering) > 1e-12 * scale => free[entering] = true,
            _ => return Ok(candidates.contributions(shares, weight)),
        }
    }
    Err(NoContributions::NoOptimum)
}

/// The optimum when only the free candidates contribute, without regard to signs; with the levels of the two sexes.
fn on_free(candidates: &Candidates, weight: f64, free: &[bool]) -> Option<(Vec<f64>, [f64; 2])> {
    let active: Vec<usize> = (0..free.len()).filter(|&i| free[i]).collect();
    let m = active.len();
    let mut rows = vec![vec![0.0; m + 3]; m + 2];
    for (a, &i) in active.iter().enumerate() {
        for (b, &j) in active.iter().enumerate() {
            rows[a][b] = weight * candidates.relationship(i, j);
        }
        let sex = m + usize::from(!candidates.female[i]);
        (rows[a][sex], rows[sex][a], rows[a][m + 2]) = (1.0, 1.0, candidates.merit[i]);
    }
    (rows[m][m + 2], rows[m + 1][m + 2]) = (0.5, 0.5);
    let solution = solve(rows)?;
    let mut shares = vec![0.0; free.len()];
    active
        .iter()
        .enumerate()
        .for_each(|(a, &i)| shares[i] = solution[a]);
    Some((shares, [solution[m], solution[m + 1]]))
}

/// Goes towards the wanted shares until one reaches zero; gives that one, or `None` when all the way was gone.
fn step_towards(shares: &mut [f64], wanted: &[f64], free: &[bool]) -> Option<usize> {
    let falling = (0..shares.len()).filter(|&i| free[i] && wanted[i] < 0.0);
    let reach = falling.map(|i| (shares[i] / (shares[i] - wanted[i]), i));
    let first = reach.min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let step = first.map_or(1.0, |(step, _)| step.clamp(0.0, 1.0));
    for (share, wanted) in shares.iter_mut().zip(wanted) {
        *share += step * (wanted - *share);
    }
    first.map(|(_, leaving)| leaving)
}

/// Gaussian elimination with row exchanges; the right side is the last column. `None` if singular.
fn solve(mut rows: Vec<Vec<f64>>) -> Option<Vec<f64>> {
    let n = rows.len();
    for column in 0..n {
        let pivot =
            (column..n).max_by(|&a, &b| rows[a][column].abs().total_cmp(&rows[b][column].abs()))?;
        if rows[pivot][column].abs() < 1e-13 {
            return None;
        }
        rows.swap(column, pivot);
        let (above, below) = rows.split_at_mut(column + 1);
        let lead = &above[column];
        for row in below {
            let factor = row[column] / lead[column];
            row.iter_mut()
                .zip(lead)
                .skip(column)
                .for_each(|(cell, lead)| *cell -= factor * lead);
        }
    }
    let mut solution = vec![0.0; n];
    for row in (0..n).rev() {
        let known: f64 = (row + 1..n)
            .map(|column| rows[row][column] * solution[column])
            .sum();
        solution[row] = (rows[row][n] - known) / rows[row][row];
    }
    Some(solution)
}

/// The largest gain with a group coancestry of at most `cap`; bisection on the weight, exact to about 1e-12.
///
/// # Errors
/// As [`optimal`], or [`NoContributions::BelowLeast`].
pub fn within_coancestry(
    candidates: &Candidates,
    cap: f64,
) -> Result<Contributions, NoContributions> {
    let spread = candidates
        .merit
        .iter()
        .fold(0.0_f64, |most, g| most.max(g.abs()))
        .max(1.0);
    let (mut low, mut high) = (1e-9 * spread, 1e9 * spread);
    let free = optimal(candidates, low)?;
    if free.coancestry <= cap {
        return Ok(free);
    }
    let mut best = optimal(candidates, high)?;
    if best.coancestry > cap + 1e-12 {
        return Err(NoContributions::BelowLeast);
    }
    for _ in 0..200 {
        let middle = libm::sqrt(low * high);
        if high - low <= 1e-13 * high {
            break;
        }
        let found = optimal(candidates, middle)?;
        if found.coancestry > cap {
            low = middle
        } else {
            high = middle;
            best = found;
        }
    }
    Ok(best)
}
