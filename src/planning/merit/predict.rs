//! From the equations back to every plant: merit, its error, its reliability.
//!
//! For a plant absorbed, with w the parts expected from its sources, t the sum of its readings' rows, n readings,
//! D its own part and a = D σ²_a / (σ²_e + n h): û = w θ̂ + a Σ (y − x θ̂), and the prediction error variance is
//! (w − a t)ᵀ C (w − a t) + D σ²_a (1 − n a), C being the inverse of the equations. Reliability is
//! 1 − PEV / (A_ii σ²_a). Merit needs the solution only; errors of many plants are quicker with C worked out once.

use super::assembly::{Equations, Place};
use super::equations::{Design, Relatives, Unsolvable, Variances};
use super::factor::{Factor, KnownInverse};
use super::joined::{Sparse, joined};
use std::cell::RefCell;
use std::collections::{BTreeMap, VecDeque};

/// How sure a prediction is, in the unit of the readings.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PredictionError {
    /// Standard error of the prediction.
    pub error: f64,
    /// The standard error of a pod-mate without readings or offspring: that of the pod's mean, a little wider for what
    /// the plant's own relatives tell of its parents. For a founder that of a plant nobody knows anything of.
    pub error_unread: f64,
    /// Readings of the plant itself.
    pub readings: u32,
}

/// The equations solved; plants are asked one by one.
pub struct Solved<'a> {
    relatives: &'a Relatives,
    design: &'a Design,
    variances: &'a Variances,
    pub(super) equations: Equations,
    pub(super) factor: Factor,
    core: Vec<f64>,
    absorbed: Vec<f64>,
    inverse: Option<KnownInverse>,
    /// The last rows asked for, with their variances: siblings read on the same days, or never, share theirs.
    asked_last: RefCell<VecDeque<(Sparse, f64)>>,
    /// Columns of the inverse worked out in full, by their place in the core.
    full: RefCell<BTreeMap<u32, Vec<f64>>>,
}

/// Rows that are remembered.
const LAST: usize = 8;
/// Columns of the inverse worked out in full at most: each has an entry for every parent.
const MOST_FULL: usize = 64;

impl<'a> Solved<'a> {
    /// Builds and solves the equations.
    ///
    /// # Errors
    /// As [`Unsolvable`] says.
    pub fn of(
        relatives: &'a Relatives,
        design: &'a Design,
        variances: &'a Variances,
    ) -> Result<Solved<'a>, Unsolvable> {
        let equations = Equations::of(relatives, design, variances)?;
        let factor = equations.factor(relatives, design)?;
        Ok(Solved::with(
            (relatives, design, variances),
            equations,
            factor,
        ))
    }

    /// Solves equations that are factored.
    pub(super) fn with(
        (relatives, design, variances): (&'a Relatives, &'a Design, &'a Variances),
        equations: Equations,
        factor: Factor,
    ) -> Solved<'a> {
        let core = equations.solved(&factor);
        Solved {
            absorbed: equations.of_absorbed(&core),
            core,
            relatives,
            design,
            variances,
            equations,
            factor,
            inverse: None,
            asked_last: RefCell::default(),
            full: RefCell::default(),
        }
    }

    /// Works out the entries of the inverse that errors of single plants are made of, so that many cost little each.
    pub fn invert(&mut self) {
        self.inverse = Some(self.factor.inverse());
    }

    /// The variance that makes the readings most likely when the variances given are fractions of it, in the squared
    /// unit of the readings.
    pub fn whole_variance(&self) -> f64 {
        let core = self.equations.right.iter().zip(&self.core);
        let absorbed = self.equations.absorbed.iter().zip(&self.absorbed);
        let fitted: f64 = core.map(|(right, x)| right * x).sum::<f64>()
            + absorbed.map(|(of, x)| of.right * x).sum::<f64>();
        match self.freedom() {
            0 => f64::NAN,
            free => (self.equations.squares - fitted) / free as f64,
        }
    }

    /// Readings less the fixed effects they can tell apart: the degrees of freedom behind the whole variance.
    pub fn freedom(&self) -> usize {
        let fixed = self.design.group_of.iter().filter(|group| group.is_none());
        let told_apart = fixed.count().saturating_sub(self.factor.left_out());
        self.design.readings.len().saturating_sub(told_apart)
    }

    /// Estimate of an unknown: a column, or after them a row kept.
    pub fn estimate(&self, unknown: u32) -> f64 {
        match self.equations.place_of[unknown as usize] {
            Place::Core(at) => self.core[at as usize],
            Place::Absorbed(at) => self.absorbed[at as usize],
            Place::Absent => 0.0,
        }
    }

    fn along(&self, row: &[(u32, f64)]) -> f64 {
        row.iter().map(|(at, part)| part * self.estimate(*at)).sum()
    }

    /// Merit of a plant: û plus the columns beside it.
    pub fn merit(&self, plant: u32, beside: &[(u32, f64)]) -> f64 {
        let (of_merit, _) = self
            .equations
            .of_merit(self.relatives, plant, self.variances);
        let parents = self.along(&of_merit);
        let level = parents + self.along(beside);
        let Some(fold) = self.fold(plant) else {
            return level;
        };
        let expected = parents + self.along(self.design.family(plant));
        let left = self.readings_of(plant).map(|place| {
            let reading = self.equations.reading(self.design, place);
            reading.value - self.along(&reading.columns) - expected
        });
        level + fold * left.sum::<f64>()
    }

    /// How sure that is.
    pub fn prediction_error(&self, plant: u32, beside: &[(u32, f64)]) -> PredictionError {
        let (row, beyond) = self.error_parts(plant, beside);
        let own = self.relatives.mendelian_variance[plant as usize] * self.variances.additive;
        let mut mates = self
            .equations
            .kept(&self.relatives.sources[plant as usize], 1.0);
        mates.extend(beside);
        let error = |row: &Sparse, beyond: f64| libm::sqrt((self.form(row) + beyond).max(0.0));
        PredictionError {
            error: error(&row, beyond),
            error_unread: error(&mates, own),
            readings: self.readings_of(plant).len() as u32,
        }
    }

    /// What the error of a plant's merit is made of: how much each unknown's error enters it, and a variance that no
    /// other plant shares.
    pub(super) fn error_parts(&self, plant: u32, beside: &[(u32, f64)]) -> (Sparse, f64) {
        let (mut row, _) = self
            .equations
            .of_merit(self.relatives, plant, self.variances);
        let Some(fold) = self.fold(plant) else {
            row.extend(beside);
            return (row, 0.0);
        };
        let readings = self.readings_of(plant);
        let count = readings.len() as f64;
        // An unread plant has nothing to fold in: most have no readings, and need no more of their row.
        let shared = match readings.is_empty() {
            true => Sparse::new(),
            false => self.equations.with_family(row.clone(), self.design, plant),
        };
        row.extend(beside);
        for place in readings {
            let reading = self.equations.reading(self.design, place);
            let of_reading = reading.columns.iter().chain(&shared);
            row.extend(of_reading.map(|(at, part)| (*at, -fold * part)));
        }
        let own = self.relatives.mendelian_variance[plant as usize] * self.variances.additive;
        (row, own * (1.0 - count * fold))
    }

    /// Whether all that is known of a plant is known of every such plant of the same sources and the same own part: it has
    /// no readings and no offspring.
    pub fn is_like_its_unread_siblings(&self, plant: u32) -> bool {
        self.equations.unknown_of[plant as usize].is_none() && self.readings_of(plant).is_empty()
    }

    /// Places of a plant's readings.
    fn readings_of(&self, plant: u32) -> std::ops::Range<usize> {
        let equations = &self.equations;
        let place = equations.place_of_plant[plant as usize] as usize;
        let found = equations.of_plant.get(place);
        found.map_or(0..0, |(_, places)| places.clone())
    }

    /// What each reading of a plant without offspring adds to its merit; `None` for a plant kept in the equations.
    fn fold(&self, plant: u32) -> Option<f64> {
        if self.equations.unknown_of[plant as usize].is_some() {
            return None;
        }
        let own = self.relatives.mendelian_variance[plant as usize] * self.variances.additive;
        let shared = own + self.variances.permanent;
        let count = self.readings_of(plant).len() as f64;
        Some(own / (self.variances.residual + count * shared))
    }

    /// The variance of a row of unknowns with values: rowᵀ C row.
    pub fn form(&self, row: &Sparse) -> f64 {
        let mut last = self.asked_last.borrow_mut();
        if let Some((_, form)) = last.iter().find(|(of, _)| of == row) {
            return *form;
        }
        let form = self.new_form(row.clone());
        last.truncate(LAST - 1);
        last.push_front((row.clone(), form));
        form
    }

    fn new_form(&self, row: Sparse) -> f64 {
        let (core, beyond) = self.equations.of_core(&joined(row));
        let known = self.inverse.as_ref();
        let known = known.and_then(|inverse| self.known_form(inverse, &core));
        beyond + known.unwrap_or_else(|| self.solved_form(&core))
    }

    fn solved_form(&self, core: &Sparse) -> f64 {
        let mut right = vec![0.0; self.equations.core()];
        core.iter()
            .for_each(|(at, part)| right[*at as usize] = *part);
        let solved = self.factor.solve(&right);
        core.iter()
            .map(|(at, part)| part * solved[*at as usize])
            .sum()
    }

    /// The same from entries of the inverse; `None` where one of them is not known.
    fn known_form(&self, inverse: &KnownInverse, core: &Sparse) -> Option<f64> {
        let entry = |a: u32, b: u32| inverse.of(a, b).or_else(|| self.full_entry(a, b));
        let mut sum = 0.0;
        for (place, (a, x)) in core.iter().enumerate() {
            let mut before = 0.0;
            for (b, y) in &core[..place] {
                before += y * entry(*a, *b)?;
            }
            sum += x * (2.0 * before + x * entry(*a, *a)?);
        }
        Some(sum)
    }

    /// The entry of the inverse of two unknowns that never meet in the factor, of which one is a column: a parent and a
    /// species, say, of which no seedling was read. There are few such columns and many parents, so a column is solved once
    /// for all of them.
    fn full_entry(&self, one: u32, other: u32) -> Option<f64> {
        let (column, other) = (one.min(other), one.max(other));
        let mut full = self.full.borrow_mut();
        let may_be_added = full.len() < MOST_FULL && (column as usize) < self.equations.wide;
        if may_be_added && !full.contains_key(&column) {
            let mut unit = vec![0.0; self.equations.core()];
            unit[column as usize] = 1.0;
            full.insert(column, self.factor.solve(&unit));
        }
        Some(full.get(&column)?[other as usize])
    }
}
