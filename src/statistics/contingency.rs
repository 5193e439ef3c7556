//! Do pods differ in the kinds their seedlings show?
//!
//! Pods are rows, kinds are columns. Fisher's exact test (`fisher`) is the one to act on where an expected count is
//! small, since chi-square then rejects too often; chi-square stands beside.

use super::count_table::Table;
use super::distribution::chi_square_upper;
use super::error::StatisticsError;
use super::fisher::exact;
use super::multinomial::Found;

/// A comparison of pods by counts of kinds.
#[derive(Clone, PartialEq, Debug)]
pub struct TableTest {
    /// Probability of a table no more probable than the one counted, the margins given.
    pub p_exact: f64,
    /// How `p_exact` was found.
    pub found: Found,
    /// Pearson's chi-square and the probability of a larger one.
    pub chi_square: (f64, f64),
}

/// Compares the rows (pods) of a table of counts; empty rows and columns are left out.
///
/// # Errors
/// Rows of different length, fewer than two pods with plants, or all plants of one kind.
pub fn compare_pods(rows: &[Vec<u64>]) -> Result<TableTest, StatisticsError> {
    let table = Table::without_empty(rows)?;
    let df = (table.rows.len() - 1) * (table.columns.len() - 1);
    let (mut chi_square, mut smallest) = (0.0, f64::INFINITY);
    for (&count, expected) in table.cells.iter().zip(table.expected()) {
        chi_square += (count as f64 - expected) * (count as f64 - expected) / expected;
        smallest = smallest.min(expected);
    }
    let chi_square = (chi_square, chi_square_upper(chi_square, df as f64));
    let by_chi_square = (chi_square.1, Found::ByChiSquare);
    let (p_exact, found) = exact(&table, smallest >= 5.0).unwrap_or(by_chi_square);
    Ok(TableTest {
        p_exact,
        found,
        chi_square,
    })
}
