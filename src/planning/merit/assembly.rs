//! The equations of parents and columns, with every plant without offspring and every pod's own effect absorbed.
//!
//! The readings of one plant share what is its own: with n readings V = σ²_e I + h J, where h is the variance of what
//! they share beyond the unknowns kept (σ²_p for a parent; σ²_p + D σ²_a for a plant without offspring, D its own part
//! of the relationship matrix). V⁻¹ = (I − h / (σ²_e + n h) J) / σ²_e. With s the row all readings of a plant share and
//! q the reading's own, siblings of one s add up to one s sᵀ Σ n / (σ²_e + n h) and one s Σ q / (σ²_e + n h): per pod,
//! not per seedling. Columns of which no two ever meet (pods) are diagonal and are eliminated one by one.

use super::equations::{Design, Reading, Relatives, Unsolvable, Variances};
use super::joined::{Gathered, Sparse, joined};

/// Where an unknown stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Place {
    /// Among the unknowns solved together.
    Core(u32),
    /// Among the columns eliminated one by one.
    Absorbed(u32),
    /// Nowhere: a column whose group has no variance has no effect.
    Absent,
}

/// A column that meets no other of its kind.
#[derive(Clone, Debug, Default)]
pub(super) struct Absorbed {
    pub weight: f64,
    /// Its products with the core.
    pub row: Sparse,
    pub right: f64,
}

/// The equations with what is needed to go back to the plants absorbed. Unknowns are numbered columns first, then rows
/// kept; those of the core stand with columns first too.
pub(super) struct Equations {
    /// Unknown of each row of the relationship matrix that was kept.
    pub unknown_of: Vec<Option<u32>>,
    pub place_of: Vec<Place>,
    pub columns: usize,
    /// Columns in the core.
    pub wide: usize,
    /// Products of these, row by row, lower triangle.
    pub among_columns: Vec<f64>,
    /// For each row kept its products with the core up to itself.
    pub of_kept: Vec<Sparse>,
    pub absorbed: Vec<Absorbed>,
    /// The right-hand side of the core.
    pub right: Vec<f64>,
    /// Σ yᵀ V⁻¹ y.
    pub squares: f64,
    /// Σ ln |V| over plants read.
    pub log_spread: f64,
    /// ln of the variances of the unknowns with a stated variance.
    pub log_prior: f64,
    /// Places of readings by plant, of plants read.
    pub of_plant: Vec<(u32, std::ops::Range<usize>)>,
    /// For each row its place among these, and one beyond the last for a plant not read.
    pub place_of_plant: Vec<u32>,
    /// Readings in that order.
    pub order: Vec<u32>,
}

impl Equations {
    /// Builds the equations.
    pub fn of(
        relatives: &Relatives,
        design: &Design,
        variances: &Variances,
    ) -> Result<Equations, Unsolvable> {
        if design.readings.is_empty() {
            return Err(Unsolvable::NoReadings);
        }
        let positive = [variances.additive, variances.residual];
        let not_negative = variances.groups.iter().chain([&variances.permanent]);
        if positive.iter().any(|v| !(v.is_finite() && *v > 0.0))
            || not_negative.into_iter().any(|v| v.is_nan() || *v < 0.0)
        {
            return Err(Unsolvable::Variance);
        }
        let mut equations = Equations::empty(relatives, design, variances);
        equations.add_priors(relatives, design, variances);
        equations.add_readings(relatives, design, variances);
        for row in &mut equations.of_kept {
            *row = joined(std::mem::take(row));
        }
        for absorbed in &mut equations.absorbed {
            absorbed.row = joined(std::mem::take(&mut absorbed.row));
        }
        Ok(equations)
    }

    fn empty(relatives: &Relatives, design: &Design, variances: &Variances) -> Equations {
        let columns = design.group_of.len();
        let mut is_source = vec![false; relatives.mendelian_variance.len()];
        let sources = relatives.sources.iter().flatten();
        sources.for_each(|(row, _)| is_source[*row as usize] = true);
        let mut unknowns = columns;
        let mut unknown = |kept: &bool| {
            unknowns += usize::from(*kept);
            kept.then(|| unknowns as u32 - 1)
        };
        let unknown_of: Vec<Option<u32>> = is_source.iter().map(&mut unknown).collect();
        let group = diagonal_group(design, variances);
        let (mut wide, mut absorbed) = (0, 0);
        let mut place_of: Vec<Place> = Vec::with_capacity(unknowns);
        for of_column in &design.group_of {
            let (count, place): (&mut u32, fn(u32) -> Place) = match of_column {
                Some(own) if variances.groups[*own] == 0.0 => {
                    place_of.push(Place::Absent);
                    continue;
                }
                Some(own) if Some(*own) == group => (&mut absorbed, Place::Absorbed),
                _ => (&mut wide, Place::Core),
            };
            place_of.push(place(*count));
            *count += 1;
        }
        place_of.extend((0..(unknowns - columns) as u32).map(|kept| Place::Core(wide + kept)));
        let (order, of_plant) = by_plant(design);
        let mut place_of_plant = vec![of_plant.len() as u32; is_source.len()];
        for (place, (plant, _)) in of_plant.iter().enumerate() {
            place_of_plant[*plant as usize] = place as u32;
        }
        let wide = wide as usize;
        Equations {
            unknown_of,
            place_of,
            columns,
            wide,
            among_columns: vec![0.0; wide * wide],
            of_kept: vec![Vec::new(); unknowns - columns],
            absorbed: vec![Absorbed::default(); absorbed as usize],
            right: vec![0.0; wide + unknowns - columns],
            squares: 0.0,
            log_spread: 0.0,
            log_prior: 0.0,
            of_plant,
            place_of_plant,
            order,
        }
    }

    fn add_priors(&mut self, relatives: &Relatives, design: &Design, variances: &Variances) {
        for (column, group) in design.group_of.iter().enumerate() {
            let variance = group.map(|group| variances.groups[group]);
            if let Some(variance) = variance.filter(|v| *v > 0.0) {
                self.add(column as u32, column as u32, 1.0 / variance);
                self.log_prior += libm::log(variance);
            }
        }
        for (row, own) in relatives.mendelian_variance.iter().enumerate() {
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

    fn add_readings(&mut self, relatives: &Relatives, design: &Design, variances: &Variances) {
        let alike = |a: u32, b: u32| {
            self.unknown_of[a as usize].is_none()
                && self.unknown_of[b as usize].is_none()
                && design.family_of.get(a as usize) == design.family_of.get(b as usize)
                && relatives.mendelian_variance[a as usize]
                    == relatives.mendelian_variance[b as usize]
                && relatives.sources[a as usize] == relatives.sources[b as usize]
        };
        let runs: Vec<usize> = self
            .of_plant
            .chunk_by(|a, b| alike(a.0, b.0))
            .map(<[_]>::len)
            .collect();
        let mut own = Gathered::new(self.columns);
        let mut first = 0;
        for length in runs {
            self.add_siblings(
                first..first + length,
                (relatives, design, variances),
                &mut own,
            );
            first += length;
        }
    }

    /// Adds plants whose readings share one row.
    fn add_siblings(
        &mut self,
        plants: std::ops::Range<usize>,
        (relatives, design, variances): (&Relatives, &Design, &Variances),
        own: &mut Gathered,
    ) {
        let error = variances.residual;
        let (shared, h) = self.shared(
            (relatives, design),
            self.of_plant[plants.start].0,
            variances,
        );
        let (mut weight, mut value) = (0.0, 0.0);
        let mut of_plant = Gathered::new(0);
        std::mem::swap(&mut of_plant, own);
        let mut across: Sparse = Vec::new();
        for at in plants {
            let range = self.of_plant[at].1.clone();
            let count = range.len() as f64;
            let folded = 1.0 / (error + count * h);
            let mut sum = 0.0;
            for place in range {
                let reading = &design.readings[self.order[place] as usize];
                self.add_outer(&reading.columns, 1.0 / error);
                self.add_right(&reading.columns, reading.value / error);
                self.squares += reading.value * reading.value / error;
                sum += reading.value;
                of_plant.add(&reading.columns);
            }
            let own = of_plant.take();
            let fold = h * folded / error;
            self.add_outer(&own, -fold);
            self.add_right(&own, -fold * sum);
            self.squares -= fold * sum * sum;
            self.log_spread += (count - 1.0) * libm::log(error) + libm::log(error + count * h);
            weight += count * folded;
            value += sum * folded;
            across.extend(own.iter().map(|(at, part)| (*at, part * folded)));
        }
        of_plant.add(&across);
        let across = of_plant.take();
        *own = of_plant;
        self.add_outer(&shared, weight);
        self.add_right(&shared, value);
        for (a, x) in &shared {
            across
                .iter()
                .for_each(|(b, y)| self.add_both(*a, *b, x * y));
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
        (relatives, design): (&Relatives, &Design),
        plant: u32,
        variances: &Variances,
    ) -> (Sparse, f64) {
        let (row, beyond) = self.of_merit(relatives, plant, variances);
        (self.with_family(row, design, plant), beyond)
    }

    /// A plant's merit among the unknowns, with the columns that all its readings share.
    pub fn with_family(&self, mut row: Sparse, design: &Design, plant: u32) -> Sparse {
        row.extend(design.family(plant).iter().filter(|(_, part)| *part != 0.0));
        joined(row)
    }

    /// A plant's merit among the unknowns, and the variance its readings share beyond these.
    pub fn of_merit(
        &self,
        relatives: &Relatives,
        plant: u32,
        variances: &Variances,
    ) -> (Sparse, f64) {
        match self.unknown_of[plant as usize] {
            Some(unknown) => (vec![(unknown, 1.0)], variances.permanent),
            None => {
                let own = relatives.mendelian_variance[plant as usize] * variances.additive;
                let sources = self.kept(&relatives.sources[plant as usize], 1.0);
                (joined(sources), own + variances.permanent)
            }
        }
    }

    /// The reading at a place in the order by plants.
    pub fn reading<'d>(&self, design: &'d Design, place: usize) -> &'d Reading {
        &design.readings[self.order[place] as usize]
    }
}

/// Readings in the order of their plants, and the places of each plant's.
fn by_plant(design: &Design) -> (Vec<u32>, Vec<(u32, std::ops::Range<usize>)>) {
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
    (order, of_plant)
}

/// The largest group of columns of which no two ever meet: each family has one at most, no reading has one of its own.
fn diagonal_group(design: &Design, variances: &Variances) -> Option<usize> {
    let groups = variances.groups.len();
    let mut columns = vec![0usize; groups];
    design
        .group_of
        .iter()
        .flatten()
        .for_each(|group| columns[*group] += 1);
    let mut meets: Vec<bool> = variances
        .groups
        .iter()
        .map(|variance| *variance <= 0.0)
        .collect();
    let group = |column: &u32| design.group_of[*column as usize];
    for reading in &design.readings {
        let own = reading
            .columns
            .iter()
            .filter_map(|(column, _)| group(column));
        own.for_each(|group| meets[group] = true);
    }
    for family in &design.families {
        let mut seen = vec![false; groups];
        for group in family.iter().filter_map(|(column, _)| group(column)) {
            meets[group] |= std::mem::replace(&mut seen[group], true);
        }
    }
    (0..groups)
        .filter(|&group| !meets[group] && columns[group] > 0)
        .max_by_key(|&group| (columns[group], std::cmp::Reverse(group)))
}
