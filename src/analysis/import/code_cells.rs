//! The cell of a code: one code, several, or what is none.

use super::answer::{ColumnTaken, Why};
use super::cell_words::{fate, fate_and_rest};
use super::cells::{RowReader, first};
use super::dates::is_blank;
use super::number_ranges::is_marked_range;
use super::parents::without_doubt;
use crate::record::RowClass;
use crate::registry::ids::is_new_code;

impl<'a> RowReader<'a, '_> {
    pub(super) fn code(&mut self, column: &'a ColumnTaken, cell: &str) {
        if is_blank(cell) {
            return;
        }
        // `dead` where the number was: what became of the plant, and no code.
        if fate(cell).is_some() {
            return self.status(column, cell);
        }
        if self.is_own_code(cell) || is_marked_range(cell) {
            return first(&mut self.facts.code, Some(cell.to_owned()));
        }
        let several = cell.replace(" and ", ",").replace('␊', ",");
        let several: Vec<String> = several
            .split(marks)
            .map(|code| code.trim().to_owned())
            .collect();
        if several.len() > 1
            && all_differ(&several)
            && several.iter().all(|code| self.is_own_code(code))
        {
            self.doubt(RowClass::SeveralPlants, column, cell, Why::Several);
            self.facts.codes = several;
            return;
        }
        // Brackets may mean a doubt as well as a plant that is gone or lent.
        let sure = without_doubt(cell).trim_matches(['(', '[', ']']);
        let is_doubted = cell.contains('?') || !cell.starts_with(sure);
        if is_doubted && self.is_own_code(sure) {
            self.about_row(RowClass::NoPlant, Why::CodeDoubted(sure.to_owned()));
            return;
        }
        if has_end(cell) {
            return self.left_out(column, cell, Why::EndInCode);
        }
        let code = joined(cell);
        if is_new_code(&code) && self.facts.code.is_none() {
            self.other(column, cell, Why::CodeChanged(code.clone()));
            self.facts.code = Some(code);
        }
    }

    /// Whether a cell is a code as it stands: one on record, or one that can be given.
    fn is_own_code(&self, cell: &str) -> bool {
        is_new_code(cell) || self.of.registry.target(cell).is_some()
    }
}

/// A code of the letters and digits of a cell, with hyphens between them.
pub(super) fn joined(cell: &str) -> String {
    let pieces = cell.split(|c: char| !is_new_code(&c.to_string()));
    let pieces: Vec<&str> = pieces.filter(|piece| !piece.is_empty()).collect();
    pieces.join("-").chars().take(40).collect()
}

/// Marks between several codes.
pub(super) fn marks(c: char) -> bool {
    ",;&/\n+".contains(c)
}

/// `7 dead`, `7 and 8 sold to Ann`: what became of plants beside their codes.
fn has_end(cell: &str) -> bool {
    let behind = cell.match_indices(' ').map(|(at, _)| at + 1);
    let mut words = std::iter::once(0).chain(behind).map(|at| &cell[at..]);
    cell.contains(|c: char| c.is_ascii_digit()) && words.any(|of| fate_and_rest(of).is_some())
}

fn all_differ(codes: &[String]) -> bool {
    codes
        .iter()
        .enumerate()
        .all(|(at, code)| !codes[..at].contains(code))
}
