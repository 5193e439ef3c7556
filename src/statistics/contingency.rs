//! Do pods differ in the kinds their seedlings show?
//!
//! Pods are rows, kinds are columns. Fisher's exact test (for more than two rows or columns after Freeman & Halton
//! 1951) lists every table with the same margins while there are at most [`LARGEST_LIST`], otherwise it draws tables
//! with a stated seed. Chi-square, G with Williams' correction and Cramér's V stand beside it; on small pods
//! chi-square rejects too often, so the exact probability is the one to act on.

use super::distribution::{chi_square_upper, ln_factorials};
use super::multinomial::{DRAWS, Found};
use super::random::SplitMix64;
use super::segregation::x_ln_ratio;
use super::unanswered::Unanswered;

/// Tables listed one by one at most; beyond, they are drawn.
pub const LARGEST_LIST: u64 = 2_000_000;
/// Tables whose probabilities differ by less than this share count as equally probable.
const TIE: f64 = 1e-7;
/// Plants up to which tables are drawn when they cannot be listed.
const MOST_DRAWN: u64 = 5_000;
const SEED: u64 = 0x00C0_47A8_1E00;

/// A comparison of pods by counts of kinds.
#[derive(Clone, PartialEq, Debug)]
pub struct TableTest {
    /// Plants counted.
    pub plants: u64,
    /// The smallest expected count.
    pub smallest_expected: f64,
    /// Degrees of freedom of both approximations.
    pub df: usize,
    /// Probability of a table no more probable than the one counted, the margins given.
    pub p_exact: f64,
    /// How `p_exact` was found.
    pub found: Found,
    /// Pearson's chi-square and the probability of a larger one.
    pub chi_square: (f64, f64),
    /// The likelihood ratio G and the probability of a larger one.
    pub g: (f64, f64),
    /// G divided by Williams' q (Williams 1976) and the probability of a larger one.
    pub g_williams: (f64, f64),
    /// Cramér's V, 0 (alike) to 1 (kinds told by the pod).
    pub cramers_v: f64,
}

/// Compares the rows (pods) of a table of counts; empty rows and columns are left out.
///
/// # Errors
/// Rows of different length, fewer than two pods with plants, or all plants of one kind.
pub fn compare_pods(rows: &[Vec<u64>]) -> Result<TableTest, Unanswered> {
    let table = Table::without_empty(rows)?;
    let (r, c, n) = (
        table.rows.len() as f64,
        table.columns.len() as f64,
        table.plants as f64,
    );
    let df = (table.rows.len() - 1) * (table.columns.len() - 1);
    let (mut chi_square, mut g, mut smallest) = (0.0, 0.0, f64::INFINITY);
    for (&count, expected) in table.cells.iter().zip(table.expected()) {
        chi_square += (count as f64 - expected) * (count as f64 - expected) / expected;
        g += 2.0 * x_ln_ratio(count as f64, expected);
        smallest = smallest.min(expected);
    }
    let tail = |statistic: f64| (statistic, chi_square_upper(statistic, df as f64));
    let (p_exact, found) = table
        .exact()
        .unwrap_or((tail(chi_square).1, Found::ByChiSquare));
    Ok(TableTest {
        plants: table.plants,
        smallest_expected: smallest,
        df,
        p_exact,
        found,
        chi_square: tail(chi_square),
        g: tail(g.max(0.0)),
        g_williams: tail(g.max(0.0) / table.williams_q()),
        cramers_v: libm::sqrt(chi_square / (n * (r.min(c) - 1.0))).min(1.0),
    })
}

/// Counts row by row, with margins that are all above zero.
struct Table {
    cells: Vec<u64>,
    rows: Vec<u64>,
    columns: Vec<u64>,
    plants: u64,
}

impl Table {
    fn without_empty(rows: &[Vec<u64>]) -> Result<Self, Unanswered> {
        let width = rows.first().map_or(0, Vec::len);
        if let Some(odd) = rows.iter().find(|row| row.len() != width) {
            return Err(Unanswered::Unpaired {
                left: width,
                right: odd.len(),
            });
        }
        let filled: Vec<&Vec<u64>> = rows
            .iter()
            .filter(|row| row.iter().any(|&count| count > 0))
            .collect();
        if filled.len() < 2 {
            return Err(Unanswered::TooFew {
                found: filled.len(),
                needed: 2,
            });
        }
        let kinds: Vec<usize> = (0..width)
            .filter(|&j| filled.iter().any(|row| row[j] > 0))
            .collect();
        if kinds.len() < 2 {
            return Err(Unanswered::NoSpread);
        }
        let cells: Vec<u64> = filled
            .iter()
            .flat_map(|row| kinds.iter().map(|&j| row[j]))
            .collect();
        let sums: Vec<u64> = cells
            .chunks(kinds.len())
            .map(|row| row.iter().sum())
            .collect();
        let columns = (0..kinds.len())
            .map(|j| cells.iter().skip(j).step_by(kinds.len()).sum())
            .collect();
        Ok(Self {
            plants: sums.iter().sum(),
            cells,
            rows: sums,
            columns,
        })
    }

    fn expected(&self) -> impl Iterator<Item = f64> + '_ {
        let n = self.plants as f64;
        self.rows
            .iter()
            .flat_map(move |&r| self.columns.iter().map(move |&c| r as f64 * c as f64 / n))
    }

    fn williams_q(&self) -> f64 {
        let n = self.plants as f64;
        let spread = |margin: &[u64]| n * margin.iter().map(|&m| 1.0 / m as f64).sum::<f64>() - 1.0;
        let df = ((self.rows.len() - 1) * (self.columns.len() - 1)) as f64;
        1.0 + spread(&self.rows) * spread(&self.columns) / (6.0 * n * df)
    }

    fn exact(&self) -> Option<(f64, Found)> {
        let ln_factorial = ln_factorials(self.plants);
        let ln_of = |counts: &[u64]| {
            counts
                .iter()
                .map(|&k| ln_factorial[k as usize])
                .sum::<f64>()
        };
        // The part every table with these margins shares.
        let shared = ln_of(&self.rows) + ln_of(&self.columns) - ln_factorial[self.plants as usize];
        let seen = shared - ln_of(&self.cells);
        let drawn =
            || (self.plants <= MOST_DRAWN).then(|| self.sampled(&ln_factorial, shared, seen));
        self.listed(&ln_factorial, shared, seen).or_else(drawn)
    }

    /// Walks through all tables with these margins, cell by cell and column after column; `None` if there are too many.
    fn listed(&self, ln_factorial: &[f64], shared: f64, seen: f64) -> Option<(f64, Found)> {
        let height = self.rows.len();
        let mut walk = Walk::new(&self.rows, &self.columns);
        let cells = height * self.columns.len();
        let (mut sum, mut tables) = (0.0, 0);
        let mut ln_left = vec![shared; cells + 1];
        let mut at = 0;
        walk.open(0);
        loop {
            if at == cells {
                tables += 1;
                if tables > LARGEST_LIST {
                    return None;
                }
                if ln_left[cells] <= seen + TIE {
                    sum += libm::exp(ln_left[cells]);
                }
            } else if let Some(count) = walk.step(at) {
                ln_left[at + 1] = ln_left[at] - ln_factorial[count as usize];
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

    /// Tables of random pairings of pods and kinds; the counted table is one of the draws.
    fn sampled(&self, ln_factorial: &[f64], shared: f64, seen: f64) -> (f64, Found) {
        let repeat = |margin: &[u64]| -> Vec<usize> {
            margin
                .iter()
                .enumerate()
                .flat_map(|(i, &m)| std::iter::repeat_n(i, m as usize))
                .collect()
        };
        let (pods, mut kinds) = (repeat(&self.rows), repeat(&self.columns));
        let mut random = SplitMix64::new(SEED);
        let mut cells = vec![0_usize; self.cells.len()];
        let mut as_rare = 1;
        for _ in 1..DRAWS {
            random.shuffle(&mut kinds);
            cells.fill(0);
            for (pod, kind) in pods.iter().zip(&kinds) {
                cells[pod * self.columns.len() + kind] += 1;
            }
            let ln_chance = shared - cells.iter().map(|&k| ln_factorial[k]).sum::<f64>();
            as_rare += u64::from(ln_chance <= seen + TIE);
        }
        (as_rare as f64 / DRAWS as f64, Found::Sampled(DRAWS))
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
