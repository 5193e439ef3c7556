//! The cell that names the cross of a row: a code, a pair of parents among such codes, or something in doubt.

use super::answer::{ColumnTaken, Why};
use super::cells::{RowReader, first};
use super::code_cells::{joined, marks};
use super::dates::is_blank;
use super::facts::CodesOf;
use super::inexact::{Inexact, is_date};
use super::looks::is_pair;
use super::parents::without_doubt;
use crate::registry::ids::{is_code, is_new_code};

impl RowReader<'_, '_> {
    /// The cross of a row by its code; two parents with a sign between them are a pair, as in a column of formulas. Where the
    /// cell is in doubt nothing says whose seedling the row is, and no plant is made of it.
    pub fn cross(&mut self, column: &ColumnTaken, cell: &str) {
        if is_blank(cell) {
            return;
        }
        let is_known = || !is_date(cell) || self.of.registry.cross(cell).is_some();
        if is_code(cell) && is_known() {
            first(&mut self.facts.cross, Some(cell.to_owned()));
        } else if is_pair(cell) {
            first(&mut self.facts.both_parents, Some(cell.to_owned()));
            // A code beside it is that of a plant, as in the other rows.
            if self.facts.codes_of == CodesOf::Unsaid {
                self.facts.codes_of = CodesOf::Seedlings;
            }
        } else {
            match no_one_cross(cell) {
                Some(why) => self.left_out(column, cell, why),
                None => {
                    let code = joined(cell);
                    self.other(column, cell, Why::CodeChanged(code.clone()));
                    first(&mut self.facts.cross, Some(code));
                }
            }
        }
    }
}

/// Why a cell that is no code names no one cross; none where only its signs are others than those of codes.
fn no_one_cross(cell: &str) -> Option<Why> {
    let pieces = cell.split(" or ").flat_map(|of| of.split(marks));
    let pieces: Vec<&str> = pieces.map(str::trim).collect();
    let sure = without_doubt(cell);
    if is_date(cell) {
        Some(Why::Inexact(Inexact::Date))
    } else if sure != cell && is_code(sure) {
        Some(Why::CodeDoubted(sure.to_owned()))
    } else if pieces.len() > 1 && pieces.iter().all(|piece| is_code(piece)) {
        Some(Why::OneOfCrosses)
    } else if cell.contains(['?', '(']) || !is_new_code(&joined(cell)) {
        Some(Why::CrossNotListed)
    } else {
        None
    }
}
