//! L Lᵀ of a sparse symmetric positive definite matrix: solving, the logarithm of its determinant, and the entries of its
//! inverse where L has entries.
//!
//! A parent meets few others in the equations. Unknowns are eliminated in an order that keeps it so: always the one that
//! meets the fewest of those left (minimum degree; George & Liu 1981, from memory). The entries of the inverse follow from the last unknown to the first (Takahashi, Fagan & Chin 1973, from
//! memory); they cost about twice the work of L, where the whole inverse would grow with the cube of the unknowns.

use super::elimination::elimination;
use super::products::Products;

/// What is left of a pivot that is nothing but rounding, as a part of the diagonal before.
const ROUNDING: f64 = 1e-9;

/// The factor of a matrix.
#[derive(Clone, Debug)]
pub struct Factor {
    /// Place of each unknown in the order of elimination.
    place_of: Vec<u32>,
    /// L below its diagonal, column by column.
    below: Columns,
    diagonal: Vec<f64>,
}

/// Some entries of an inverse.
#[derive(Clone, Debug)]
pub struct KnownInverse {
    place_of: Vec<u32>,
    below: Columns,
    diagonal: Vec<f64>,
}

/// Entries below a diagonal, column by column, with ascending rows.
#[derive(Clone, Debug)]
struct Columns {
    starts: Vec<usize>,
    rows: Vec<u32>,
    values: Vec<f64>,
}

impl Columns {
    fn of(met: Vec<Vec<u32>>) -> Columns {
        let mut starts = vec![0];
        let mut rows = Vec::new();
        for of_column in met {
            rows.extend(of_column);
            starts.push(rows.len());
        }
        Columns {
            values: vec![0.0; rows.len()],
            starts,
            rows,
        }
    }

    fn range(&self, column: usize) -> std::ops::Range<usize> {
        self.starts[column]..self.starts[column + 1]
    }

    fn place(&self, row: u32, column: u32) -> Option<usize> {
        let range = self.range(column as usize);
        let found = self.rows[range.clone()].binary_search(&row).ok()?;
        Some(range.start + found)
    }
}

impl Factor {
    /// Factors a matrix. An unknown that the others already say (an effect without readings and without a stated variance)
    /// is left out and answers 0. `None` if the matrix is not positive definite within rounding.
    pub fn of(products: &Products) -> Option<Factor> {
        let (place_of, met) = elimination(products);
        let mut factor = Factor {
            diagonal: vec![0.0; place_of.len()],
            below: Columns::of(met),
            place_of,
        };
        for (unknown, row) in products.rows.iter().enumerate() {
            for (other, product) in row {
                factor.add(unknown as u32, *other, *product)?;
            }
        }
        factor.eliminate().then_some(factor)
    }

    fn add(&mut self, one: u32, other: u32, product: f64) -> Option<()> {
        let (a, b) = (self.place_of[one as usize], self.place_of[other as usize]);
        match a == b {
            true => self.diagonal[a as usize] += product,
            false => {
                let place = self.below.place(a.max(b), a.min(b))?;
                self.below.values[place] += product;
            }
        }
        Some(())
    }

    /// Makes the matrix its factor, column by column; each takes what the columns before it that meet it have to give.
    fn eliminate(&mut self) -> bool {
        let size = self.diagonal.len();
        let mut next: Vec<usize> = self.below.starts.clone();
        let mut meeting: Vec<Vec<u32>> = vec![Vec::new(); size];
        let mut work = vec![0.0; size];
        for column in 0..size {
            let range = self.below.range(column);
            for place in range.clone() {
                work[self.below.rows[place] as usize] = self.below.values[place];
            }
            let before = self.diagonal[column];
            let mut pivot = before;
            let given = std::mem::take(&mut meeting[column]);
            for &earlier in &given {
                pivot -= self.give(earlier as usize, next[earlier as usize], &mut work);
            }
            let Some(root) = root(pivot, before) else {
                return false;
            };
            self.diagonal[column] = root;
            for place in range.clone() {
                let of_row = &mut work[self.below.rows[place] as usize];
                let value = std::mem::take(of_row);
                self.below.values[place] = if root > 0.0 { value / root } else { 0.0 };
            }
            for earlier in given {
                let at = &mut next[earlier as usize];
                if root == 0.0 {
                    self.below.values[*at] = 0.0;
                }
                *at += 1;
                if *at < self.below.starts[earlier as usize + 1] {
                    meeting[self.below.rows[*at] as usize].push(earlier);
                }
            }
            if let Some(first) = self.below.rows[range].first() {
                meeting[*first as usize].push(column as u32);
            }
        }
        true
    }

    /// Takes off what an earlier column gives to the one whose row stands at `from`; the part of the pivot is answered.
    fn give(&self, earlier: usize, from: usize, work: &mut [f64]) -> f64 {
        let end = self.below.starts[earlier + 1];
        let own = self.below.values[from];
        let rows = &self.below.rows[from + 1..end];
        let values = &self.below.values[from + 1..end];
        for (row, value) in rows.iter().zip(values) {
            work[*row as usize] -= own * value;
        }
        own * own
    }

    /// Solves for one right-hand side; unknowns left out are 0.
    pub fn solve(&self, right: &[f64]) -> Vec<f64> {
        let size = self.diagonal.len();
        let mut x = vec![0.0; size];
        for (unknown, place) in self.place_of.iter().enumerate() {
            x[*place as usize] = right[unknown];
        }
        for column in 0..size {
            x[column] = over(x[column], self.diagonal[column]);
            let own = x[column];
            for place in self.below.range(column) {
                x[self.below.rows[place] as usize] -= self.below.values[place] * own;
            }
        }
        for column in (0..size).rev() {
            let range = self.below.range(column);
            let later: f64 = range
                .map(|place| self.below.values[place] * x[self.below.rows[place] as usize])
                .sum();
            x[column] = over(x[column] - later, self.diagonal[column]);
        }
        let of_unknown = self.place_of.iter().map(|place| x[*place as usize]);
        of_unknown.collect()
    }

    /// The entries of the inverse where L has entries; those of unknowns left out are 0.
    pub fn inverse(&self) -> KnownInverse {
        let size = self.diagonal.len();
        let mut inverse = KnownInverse {
            place_of: self.place_of.clone(),
            below: self.below.clone(),
            diagonal: vec![0.0; size],
        };
        // One more than the place of a row in the column at hand; 0 for a row that is not in it.
        let mut stands = vec![0_u32; size];
        for column in (0..size).rev() {
            let range = self.below.range(column);
            if self.diagonal[column] == 0.0 {
                inverse.below.values[range].fill(0.0);
                continue;
            }
            let rows = &self.below.rows[range.clone()];
            let parts: Vec<f64> = self.below.values[range.clone()]
                .iter()
                .map(|value| value / self.diagonal[column])
                .collect();
            (1..)
                .zip(rows)
                .for_each(|(at, row)| stands[*row as usize] = at);
            let sums = inverse.along(rows, &parts, &stands);
            let own: f64 = parts.iter().zip(&sums).map(|(part, sum)| part * sum).sum();
            inverse.diagonal[column] = 1.0 / (self.diagonal[column] * self.diagonal[column]) + own;
            for (place, sum) in range.zip(sums) {
                inverse.below.values[place] = -sum;
            }
            rows.iter().for_each(|row| stands[*row as usize] = 0);
        }
        inverse
    }

    /// Natural logarithm of the determinant, unknowns left out not counted.
    pub fn log_determinant(&self) -> f64 {
        self.diagonal
            .iter()
            .filter(|pivot| **pivot > 0.0)
            .map(|pivot| 2.0 * libm::log(*pivot))
            .sum()
    }

    /// Number of unknowns left out.
    pub fn left_out(&self) -> usize {
        self.diagonal.iter().filter(|pivot| **pivot == 0.0).count()
    }
}

impl KnownInverse {
    /// The entry of two unknowns, where it is known.
    pub fn of(&self, one: u32, other: u32) -> Option<f64> {
        let (a, b) = (self.place_of[one as usize], self.place_of[other as usize]);
        if a == b {
            return Some(self.diagonal[a as usize]);
        }
        let place = self.below.place(a.max(b), a.min(b))?;
        Some(self.below.values[place])
    }

    /// The entries among some rows times their parts; `stands` says where a row stands among them.
    fn along(&self, rows: &[u32], parts: &[f64], stands: &[u32]) -> Vec<f64> {
        let mut sums = vec![0.0; rows.len()];
        for (at, (row, part)) in rows.iter().zip(parts).enumerate() {
            let mut sum = self.diagonal[*row as usize] * part;
            for place in self.below.range(*row as usize) {
                let stands = stands[self.below.rows[place] as usize] as usize;
                if stands > 0 {
                    let value = self.below.values[place];
                    sums[stands - 1] += value * part;
                    sum += value * parts[stands - 1];
                }
            }
            sums[at] += sum;
        }
        sums
    }
}

/// The root of a pivot; 0 if it is nothing but rounding, `None` if it is negative beyond that.
fn root(pivot: f64, before: f64) -> Option<f64> {
    match pivot {
        pivot if pivot > ROUNDING * before.abs() && pivot > 0.0 => Some(libm::sqrt(pivot)),
        pivot if pivot.abs() <= ROUNDING * before.abs() || before == 0.0 => Some(0.0),
        _ => None,
    }
}

fn over(value: f64, pivot: f64) -> f64 {
    if pivot > 0.0 { value / pivot } else { 0.0 }
}
