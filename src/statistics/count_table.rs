//! A table of counts with its margins, empty rows and columns left out.

use super::error::{StatisticsError, require_count};
use super::segregation::total;

/// Counts row by row, with margins that are all above zero.
pub(crate) struct Table {
    pub(crate) cells: Vec<u64>,
    pub(crate) rows: Vec<u64>,
    pub(crate) columns: Vec<u64>,
    pub(crate) plants: u64,
}

impl Table {
    pub(crate) fn without_empty(rows: &[Vec<u64>]) -> Result<Self, StatisticsError> {
        let width = rows.first().map_or(0, Vec::len);
        if let Some(odd) = rows.iter().find(|row| row.len() != width) {
            return Err(StatisticsError::Unpaired {
                left: width,
                right: odd.len(),
            });
        }
        let filled: Vec<&Vec<u64>> = rows
            .iter()
            .filter(|row| row.iter().any(|&count| count > 0))
            .collect();
        require_count(filled.len(), 2)?;
        let kinds: Vec<usize> = (0..width)
            .filter(|&j| filled.iter().any(|row| row[j] > 0))
            .collect();
        if kinds.len() < 2 {
            return Err(StatisticsError::NoSpread);
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

    pub(crate) fn expected(&self) -> impl Iterator<Item = f64> + '_ {
        let n = self.plants as f64;
        self.rows
            .iter()
            .flat_map(move |&r| self.columns.iter().map(move |&c| r as f64 * c as f64 / n))
    }
}
