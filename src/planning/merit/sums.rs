//! Adding products to the equations: where each pair of unknowns is kept.

use super::assembly::{Equations, Place};

impl Equations {
    /// Adds weight × row rowᵀ; no unknown stands in the row twice.
    pub(super) fn add_outer(&mut self, row: &[(u32, f64)], weight: f64) {
        for (place, (a, x)) in row.iter().enumerate() {
            self.add(*a, *a, weight * x * x);
            for (b, y) in &row[..place] {
                self.add_both(*a, *b, weight * x * y);
            }
        }
    }

    /// Adds a product of two unknowns in both directions; twice on the diagonal.
    pub(super) fn add_both(&mut self, a: u32, b: u32, product: f64) {
        if a == b {
            self.add(a, a, 2.0 * product);
        } else {
            self.add(a, b, product);
        }
    }

    /// Adds to an entry of the lower triangle.
    pub(super) fn add(&mut self, a: u32, b: u32, product: f64) {
        let (one, other) = match (self.place_of[a as usize], self.place_of[b as usize]) {
            (Place::Absent, _) | (_, Place::Absent) => return,
            (Place::Core(a), Place::Core(b)) => (a.max(b) as usize, a.min(b)),
            (Place::Absorbed(a), Place::Core(b)) | (Place::Core(b), Place::Absorbed(a)) => {
                return self.absorbed[a as usize].row.push((b, product));
            }
            (Place::Absorbed(a), Place::Absorbed(b)) => {
                assert_eq!(a, b, "columns absorbed never meet");
                self.absorbed[a as usize].weight += product;
                return;
            }
        };
        match one.checked_sub(self.wide) {
            None => self.among_columns[one * self.wide + other as usize] += product,
            Some(kept) => self.of_kept[kept].push((other, product)),
        }
    }

    /// Adds weight × row to the right-hand side.
    pub(super) fn add_right(&mut self, row: &[(u32, f64)], weight: f64) {
        for (at, part) in row {
            match self.place_of[*at as usize] {
                Place::Core(at) => self.right[at as usize] += weight * part,
                Place::Absorbed(at) => self.absorbed[at as usize].right += weight * part,
                Place::Absent => {}
            }
        }
    }
}
