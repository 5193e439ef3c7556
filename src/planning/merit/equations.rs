//! The mixed-model equations of parents and columns, with every plant without offspring absorbed.
//!
//! The readings of one plant share what is its own: with n readings V = σ²_e I + h J, where h is the variance of what
//! they share beyond the unknowns kept (σ²_p for a parent; σ²_p + D σ²_a for a plant without offspring, D its own part
//! of the relationship matrix). V⁻¹ = (I − h / (σ²_e + n h) J) / σ²_e, so a plant adds sums over its readings and one
//! outer product.

use super::cholesky::Cholesky;
use std::fmt;

/// How plants are related: the inverse of A as a sum of contributions, sources before what draws from them.
#[derive(Clone, Debug, Default)]
pub struct Relatives {
    /// For each row its earlier rows with the part expected from each.
    pub sources: Vec<Vec<(u32, f64)>>,
    /// For each row the variance of its own, in units of A, above 0.
    pub own: Vec<f64>,
}

/// One reading.
#[derive(Clone, Debug)]
pub struct Reading {
    /// Row of the plant.
    pub plant: u32,
    /// What was read.
    pub value: f64,
    /// Columns that apply, with their values; the same for all readings of a plant where they belong to the plant.
    pub columns: Vec<(u32, f64)>,
}

/// The readings and the columns.
#[derive(Clone, Debug, Default)]
pub struct Design {
    /// Readings in any order.
    pub readings: Vec<Reading>,
    /// For each column the name of its group of equal variance, or `None` for a fixed effect.
    pub group_of: Vec<Option<usize>>,
}

/// Variances, in squared units of the readings.
#[derive(Clone, PartialEq, Debug)]
pub struct Variances {
    /// σ²_a, above 0.
    pub additive: f64,
    /// σ²_p, at least 0.
    pub permanent: f64,
    /// σ²_e, above 0.
    pub residual: f64,
    /// Variance of each group of columns, above 0 for the group to count.
    pub groups: Vec<f64>,
}

/// Why the equations cannot be solved.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Unsolvable {
    /// Nothing was read.
    NoReadings,
    /// A variance is not above 0.
    Variance,
    /// The equations are not positive definite.
    NotDefinite,
}

impl fmt::Display for Unsolvable {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Unsolvable::NoReadings => "nothing comparable was read",
            Unsolvable::Variance => "heritability and the other parts must leave something above 0 for each and for the error of a reading",
            Unsolvable::NotDefinite => "the readings cannot tell the effects apart",
        })
    }
}

impl std::error::Error for Unsolvable {}

/// The equations with what is needed to go back to the plants absorbed.
pub(super) struct Equations {
    /// Unknown of each row of the relationship matrix that was kept.
    pub unknown_of: Vec<Option<u32>>,
    /// Number of unknowns: columns, then rows kept.
    pub size: usize,
    /// The lower triangle, row by row.
    pub matrix: Vec<f64>,
    /// The right-hand side.
    pub right: Vec<f64>,
    /// Σ yᵀ V⁻¹ y.
    pub squares: f64,
    /// Σ ln |V| over plants read.
    pub log_spread: f64,
    /// ln of the variances of the unknowns with a stated variance.
    pub log_prior: f64,
    /// Indices of readings by plant.
    pub of_plant: Vec<(u32, std::ops::Range<usize>)>,
    /// Readings in that order.
    pub order: Vec<u32>,
}

/// A sparse row of the design: unknowns with values.
pub(super) type Sparse = Vec<(u32, f64)>;

/// Adds up a sparse row, joining equal unknowns.
pub(super) fn joined(mut row: Sparse) -> Sparse {
    row.sort_unstable_by_key(|(unknown, _)| *unknown);
    row.dedup_by(|later, kept| {
        let same = later.0 == kept.0;
        if same {
            kept.1 += later.1;
        }
        same
    });
    row
}

impl Equations {
    /// Builds the equations.
    pub fn of(
        relatives: &Relatives,
        design: &Design,
        variances: &Variances,
    ) -> Result<Equations, Unsolvable> {
        let positive = [variances.additive, variances.residual];
        if design.readings.is_empty() {
            return Err(Unsolvable::NoReadings);
        }
        if positive.iter().any(|v| !(v.is_finite() && *v > 0.0)) || variances.permanent < 0.0 {
            return Err(Unsolvable::Variance);
        }
        let mut equations = Equations::empty(relatives, design);
        equations.add_priors(relatives, design, variances);
        for at in 0..equations.of_plant.len() {
            equations.add_plant(at, relatives, design, variances);
        }
        Ok(equations)
    }

    fn empty(relatives: &Relatives, design: &Design) -> Equations {
        let columns = design.group_of.len();
        let mut is_source = vec![false; relatives.own.len()];
        relatives
            .sources
            .iter()
            .flatten()
            .for_each(|(row, _)| is_source[*row as usize] = true);
        let mut size = columns;
        let unknown_of = is_source
            .iter()
            .map(|kept| {
                kept.then(|| {
                    size += 1;
                    size as u32 - 1
                })
            })
            .collect();
        let mut order: Vec<u32> = (0..design.readings.len() as u32).collect();
        order.sort_by_key(|&at| (design.readings[at as usize].plant, at));
        let mut of_plant: Vec<(u32, std::ops::Range<usize>)> = Vec::new();
        for (place, &at) in order.iter().enumerate() {
            let plant = design.readings[at as usize].plant;
            match of_plant.last_mut() {
                Some((last, range)) if *last == plant => range.end = place + 1,
                _ => of_plant.push((plant, place..place + 1)),
            }
        }
        Equations {
            unknown_of,
            size,
            matrix: vec![0.0; size * size],
            right: vec![0.0; size],
            squares: 0.0,
            log_spread: 0.0,
            log_prior: 0.0,
            of_plant,
            order,
        }
    }

    fn add_priors(&mut self, relatives: &Relatives, design: &Design, variances: &Variances) {
        for (column, group) in design.group_of.iter().enumerate() {
            if let Some(variance) = group
                .map(|group| variances.groups[group])
                .filter(|v| *v > 0.0)
            {
                self.matrix[column * self.size + column] += 1.0 / variance;
                self.log_prior += libm::log(variance);
            }
        }
        for (row, own) in relatives.own.iter().enumerate() {
            let Some(unknown) = self.unknown_of[row] else {
                continue;
            };
            let mut contrast: Sparse = vec![(unknown, 1.0)];
            contrast.extend(self.kept(&relatives.sources[row], -1.0));
            let variance = own * variances.additive;
            self.add_outer(&joined(contrast), 1.0 / variance);
            self.log_prior += libm::log(variance);
        }
    }

    /// Sources as unknowns, scaled; every source is kept.
    pub fn kept(&self, sources: &[(u32, f64)], scale: f64) -> Sparse {
        sources
            .iter()
            .filter_map(|(row, part)| Some((self.unknown_of[*row as usize]?, part * scale)))
            .collect()
    }

    /// What all readings of a plant share among the unknowns, and the variance they share beyond these.
    pub fn shared(
        &self,
        relatives: &Relatives,
        plant: u32,
        variances: &Variances,
    ) -> (Sparse, f64) {
        match self.unknown_of[plant as usize] {
            Some(unknown) => (vec![(unknown, 1.0)], variances.permanent),
            None => {
                let own = relatives.own[plant as usize] * variances.additive;
                (
                    self.kept(&relatives.sources[plant as usize], 1.0),
                    own + variances.permanent,
                )
            }
        }
    }

    /// The sparse row of one reading.
    pub fn row(&self, reading: &Reading, shared: &Sparse) -> Sparse {
        joined(
            reading
                .columns
                .iter()
                .chain(shared)
                .copied()
                .filter(|(_, value)| *value != 0.0)
                .collect(),
        )
    }

    fn add_plant(
        &mut self,
        at: usize,
        relatives: &Relatives,
        design: &Design,
        variances: &Variances,
    ) {
        let (plant, range) = self.of_plant[at].clone();
        let (shared, h) = self.shared(relatives, plant, variances);
        let error = variances.residual;
        let count = range.len() as f64;
        let fold = h / (error + count * h) / error;
        let (mut sum_row, mut sum_value): (Sparse, f64) = (Vec::new(), 0.0);
        for place in range {
            let reading = &design.readings[self.order[place] as usize];
            let row = self.row(reading, &shared);
            self.add_outer(&row, 1.0 / error);
            row.iter().for_each(|(unknown, part)| {
                self.right[*unknown as usize] += part * reading.value / error
            });
            self.squares += reading.value * reading.value / error;
            sum_value += reading.value;
            sum_row.extend(row);
        }
        let sum_row = joined(sum_row);
        self.add_outer(&sum_row, -fold);
        sum_row
            .iter()
            .for_each(|(unknown, part)| self.right[*unknown as usize] -= fold * part * sum_value);
        self.squares -= fold * sum_value * sum_value;
        self.log_spread += (count - 1.0) * libm::log(error) + libm::log(error + count * h);
    }

    /// Adds weight × row rowᵀ to the lower triangle; the row is sorted.
    fn add_outer(&mut self, row: &Sparse, weight: f64) {
        for (place, (below, left)) in row.iter().enumerate() {
            let start = *below as usize * self.size;
            for (column, right) in &row[..=place] {
                self.matrix[start + *column as usize] += weight * left * right;
            }
        }
    }

    /// Factors the equations.
    pub fn factor(&self) -> Result<Cholesky, Unsolvable> {
        Cholesky::of(self.matrix.clone(), self.size).ok_or(Unsolvable::NotDefinite)
    }
}
