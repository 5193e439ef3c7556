//! Do pods differ in the kinds their seedlings show?
//!
//! Pods are rows, kinds are columns. Fisher's exact test (`fisher`) is the one to act on where an expected count is
//! small, since chi-square then rejects too often; chi-square, G with Williams' correction and Cramér's V stand beside.

use super::distribution::chi_square_upper;
use super::fisher::exact;
use super::multinomial::Found;
use super::segregation::{total, x_ln_ratio};
use super::unanswered::Unanswered;

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
    let by_chi_square = (tail(chi_square).1, Found::ByChiSquare);
    let (p_exact, found) = exact(&table, smallest >= 5.0).unwrap_or(by_chi_square);
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
pub(crate) struct Table {
    pub(crate) cells: Vec<u64>,
    pub(crate) rows: Vec<u64>,
    pub(crate) columns: Vec<u64>,
    pub(crate) plants: u64,
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
        let plants = total(&cells)?;
        let sums = cells
            .chunks(kinds.len())
            .map(|row| row.iter().sum())
            .collect();
        let of_kind = |j: usize| cells.iter().skip(j).step_by(kinds.len()).sum();
        let columns = (0..kinds.len()).map(of_kind).collect();
        Ok(Self {
            plants,
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
}
