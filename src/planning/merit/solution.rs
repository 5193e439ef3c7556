//! The equations solved: what is absorbed is eliminated one by one, the rest by one sparse factor.

use super::assembly::{Equations, Place};
use super::equations::{Design, Relatives, Unsolvable};
use super::factor::Factor;
use super::joined::{Sparse, joined};
use super::products::Products;

/// Parents and columns that are solved together at most: who meets whom takes a bit for every two of them.
const MOST: usize = 40_000;

impl Equations {
    /// Number of unknowns solved together.
    pub fn core(&self) -> usize {
        self.right.len()
    }

    /// The factor of the core with everything absorbed eliminated.
    ///
    /// # Errors
    /// If there are too many parents, or the readings do not separate the effects.
    pub fn factor(&self, relatives: &Relatives, design: &Design) -> Result<Factor, Unsolvable> {
        if self.core() > MOST {
            return Err(Unsolvable::TooWide);
        }
        let fixed = design.group_of.iter().zip(&self.place_of);
        let fixed = fixed.filter(|(group, _)| group.is_none());
        let products = Products {
            rows: self.products(),
            last: fixed.filter_map(|(_, place)| in_core(*place)).collect(),
            together: self.together(relatives, design),
        };
        Factor::of(&products).ok_or(Unsolvable::NotDefinite)
    }

    fn products(&self) -> Vec<Sparse> {
        let wide = self.wide;
        let of_column = |row: usize| -> Sparse {
            let products = &self.among_columns[row * wide..=row * wide + row];
            let products = (0..).zip(products.iter().copied());
            products
                .filter(|(at, product)| *product != 0.0 || *at as usize == row)
                .collect()
        };
        let columns = (0..wide).map(of_column);
        let mut rows: Vec<Sparse> = columns.chain(self.of_kept.iter().cloned()).collect();
        for absorbed in &self.absorbed {
            for (place, (a, x)) in absorbed.row.iter().enumerate() {
                for (b, y) in &absorbed.row[..=place] {
                    rows[*a as usize].push((*b, -(x * y / absorbed.weight)));
                }
            }
        }
        rows.into_iter().map(joined).collect()
    }

    /// What errors of plants without offspring are made of, as places of the core: parents, and columns that siblings
    /// share.
    fn together(&self, relatives: &Relatives, design: &Design) -> Vec<Vec<u32>> {
        let absorbed = relatives
            .sources
            .iter()
            .zip(0..)
            .filter(|(_, row)| self.unknown_of[*row as usize].is_none());
        let set = |(sources, row): (&Vec<(u32, f64)>, u32)| {
            let sources = sources
                .iter()
                .filter_map(|(row, _)| self.unknown_of[*row as usize]);
            let columns = design.family(row).iter().map(|(column, _)| *column);
            let unknowns = sources.chain(columns);
            unknowns
                .filter_map(|at| in_core(self.place_of[at as usize]))
                .collect()
        };
        let mut sets: Vec<Vec<u32>> = absorbed.map(set).collect();
        sets.dedup();
        sets
    }

    /// Logarithm of the determinant of what is eliminated one by one.
    pub fn log_absorbed(&self) -> f64 {
        self.absorbed
            .iter()
            .map(|absorbed| libm::log(absorbed.weight))
            .sum()
    }

    /// The solution of the core.
    pub fn solved(&self, factor: &Factor) -> Vec<f64> {
        let mut right = self.right.clone();
        for absorbed in &self.absorbed {
            let part = absorbed.right / absorbed.weight;
            absorbed
                .row
                .iter()
                .for_each(|(at, x)| right[*at as usize] -= part * x);
        }
        factor.solve(&right)
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
        (joined(core), beyond)
    }
}

fn along(row: &Sparse, x: &[f64]) -> f64 {
    row.iter().map(|(at, value)| value * x[*at as usize]).sum()
}

fn in_core(place: Place) -> Option<u32> {
    match place {
        Place::Core(at) => Some(at),
        _ => None,
    }
}
