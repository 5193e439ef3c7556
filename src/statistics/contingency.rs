//! Do pods differ in the kinds their seedlings show?
//!
//! Pods are rows, kinds are columns. Fisher's exact test (`fisher`) is the one to act on where an expected count is
//! small, since chi-square then rejects too often; chi-square, G with Williams' correction and Cramér's V stand beside.

use super::count_table::Table;
use super::distribution::chi_square_upper;
use super::error::StatisticsError;
use super::fisher::exact;
use super::multinomial::Found;
use super::segregation::x_ln_ratio;

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
pub fn compare_pods(rows: &[Vec<u64>]) -> Result<TableTest, StatisticsError> {
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
