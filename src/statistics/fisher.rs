//! How probable is a table of counts no more probable than the one seen, its margins given?
//!
//! Fisher's exact test, for more than two rows or columns after Freeman & Halton (1951). Every table with the margins is
//! listed while there are few enough; beyond that tables are drawn with a fixed seed if an expected count is small, else
//! chi-square has to do.

use super::count_table::Table;
use super::distribution::ln_factorials;
use super::multinomial::{DRAWS, Found};
use super::random::SplitMix64;

/// Tables listed at most where an expected count is below 5; beyond, they are drawn.
pub const LARGEST_LIST: u64 = 200_000;
/// Tables listed at most where all expected counts are 5 or more; beyond, chi-square is as good and much faster.
pub const LIST_OF_LARGE: u64 = 5_000;
/// Plants above which nothing is listed where all expected counts are 5 or more.
const MOST_LISTED: u64 = 20_000;
/// Tables whose probabilities differ by less than this share count as equally probable.
const TIE: f64 = 1e-7;
const SEED: u64 = 0x00C0_47A8_1E00;

/// The probability and how it was found; `None` if chi-square is to stand in. `large`: no expected count below 5.
pub(crate) fn exact(table: &Table, large: bool) -> Option<(f64, Found)> {
    if large && table.plants > MOST_LISTED {
        return None;
    }
    if large && table.rows.len() == 2 && tables_of_two(table) > LIST_OF_LARGE {
        return None;
    }
    let chances = Chances::new(table);
    match chances.listed(if large { LIST_OF_LARGE } else { LARGEST_LIST }) {
        None if large => None,
        None => Some(chances.sampled()),
        listed => listed,
    }
}

/// How many tables of two rows have the margins, counted to one more than [`LIST_OF_LARGE`]: the ways to fill the first
/// row, column after column.
fn tables_of_two(table: &Table) -> u64 {
    let first = table.rows[0] as usize;
    let mut ways = vec![0u64; first + 1];
    ways[0] = 1;
    for &column in &table.columns {
        let (most, before) = (column as usize, ways.clone());
        let mut within = 0;
        for filled in 0..=first {
            within += before[filled];
            if filled > most {
                within -= before[filled - most - 1];
            }
            ways[filled] = within.min(LIST_OF_LARGE + 1);
        }
    }
    ways[first]
}

/// Log probabilities of tables with fixed margins.
struct Chances<'a> {
    table: &'a Table,
    ln_factorial: Vec<f64>,
    /// The part every table with these margins shares.
    shared: f64,
    /// The table counted.
    seen: f64,
}

impl<'a> Chances<'a> {
    fn new(table: &'a Table) -> Self {
        let ln_factorial = ln_factorials(table.plants);
        let ln_of = |counts: &[u64]| {
            counts
                .iter()
                .map(|&k| ln_factorial[k as usize])
                .sum::<f64>()
        };
        let shared =
            ln_of(&table.rows) + ln_of(&table.columns) - ln_factorial[table.plants as usize];
        let seen = shared - ln_of(&table.cells);
        Self {
            table,
            ln_factorial,
            shared,
            seen,
        }
    }

    /// Walks through all tables, cell by cell and column after column; `None` if there are more than `most`.
    fn listed(&self, most: u64) -> Option<(f64, Found)> {
        let mut walk = Walk::new(&self.table.rows, &self.table.columns);
        let cells = self.table.cells.len();
        let (mut sum, mut tables, mut at) = (0.0, 0, 0);
        let mut ln_left = vec![self.shared; cells + 1];
        walk.open(0);
        loop {
            if at == cells {
                tables += 1;
                if tables > most {
                    return None;
                }
                if ln_left[cells] <= self.seen + TIE {
                    sum += libm::exp(ln_left[cells]);
                }
            } else if let Some(count) = walk.step(at) {
                ln_left[at + 1] = ln_left[at] - self.ln_factorial[count as usize];
                at += 1;
                if at < cells {
                    walk.open(at);
                }
                continue;
            }
            if at == 0 {
                return Some((sum.min(1.0), Found::Listed(tables)));
            }
            at -= 1;
        }
    }

    /// Random tables; the counted table is one of the draws, so the probability is never 0.
    fn sampled(&self) -> (f64, Found) {
        let mut random = SplitMix64::new(SEED);
        let mut as_rare = 1;
        for _ in 1..DRAWS {
            as_rare += u64::from(self.ln_of_drawn(&mut random) <= self.seen + TIE);
        }
        (as_rare as f64 / DRAWS as f64, Found::Sampled(DRAWS))
    }

    /// Fills column after column: how many of the column's plants fall to each pod, given what the pods have left.
    fn ln_of_drawn(&self, random: &mut SplitMix64) -> f64 {
        let (columns, mut row_left) = (&self.table.columns, self.table.rows.clone());
        let mut ln_chance = self.shared;
        let (last, mut plants_left) = (columns.len() - 1, self.table.plants);
        for &column in &columns[..last] {
            let (mut of_kind, mut all) = (column, plants_left);
            for left in &mut row_left {
                let count = random.hypergeometric(*left, of_kind, all, &self.ln_factorial);
                ln_chance -= self.ln_factorial[count as usize];
                all -= *left;
                of_kind -= count;
                *left -= count;
            }
            plants_left -= column;
        }
        ln_chance
            - row_left
                .iter()
                .map(|&count| self.ln_factorial[count as usize])
                .sum::<f64>()
    }
}

/// The cells of a table under way: what each may still hold given its margins.
struct Walk {
    row_left: Vec<u64>,
    column_left: Vec<u64>,
    /// For each cell the next count to try, the largest possible, and the count now set aside for it.
    cells: Vec<(u64, u64, u64)>,
}

impl Walk {
    fn new(rows: &[u64], columns: &[u64]) -> Self {
        Self {
            row_left: rows.to_vec(),
            column_left: columns.to_vec(),
            cells: vec![(0, 0, 0); rows.len() * columns.len()],
        }
    }

    fn place(&self, at: usize) -> (usize, usize) {
        (at % self.row_left.len(), at / self.row_left.len())
    }

    /// Prepares a cell: the rows below it must be able to take the rest of its column.
    fn open(&mut self, at: usize) {
        let (row, column) = self.place(at);
        let below: u64 = self.row_left[row + 1..].iter().sum();
        let least = self.column_left[column].saturating_sub(below);
        self.cells[at] = (least, self.row_left[row].min(self.column_left[column]), 0);
    }

    /// Takes back what the cell holds and sets the next count, if there is one.
    fn step(&mut self, at: usize) -> Option<u64> {
        let (row, column) = self.place(at);
        let (next, most, held) = self.cells[at];
        self.row_left[row] += held;
        self.column_left[column] += held;
        if next > most {
            self.cells[at].2 = 0;
            return None;
        }
        self.row_left[row] -= next;
        self.column_left[column] -= next;
        self.cells[at] = (next + 1, most, next);
        Some(next)
    }
}
