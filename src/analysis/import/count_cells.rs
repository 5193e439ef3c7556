//! Cells of numbers: seed, pods and seedlings.

use super::answer::{ColumnTaken, Why};
use super::cell_words::is_none;
use super::cells::RowReader;
use super::dates::is_blank;
use super::facts::SeedCount;
use super::inexact::{about, inexact};

impl RowReader<'_, '_> {
    /// A number of seeds. About so many is an estimate; of a range, a limit or words only that there was seed is recorded.
    pub(super) fn seeds(&mut self, column: &ColumnTaken, cell: &str) {
        let words = [" seeds", " seed"];
        let bare = words.iter().find_map(|word| cell.strip_suffix(word));
        let bare = bare.unwrap_or(cell).trim_end_matches(".0");
        let of = |number, estimated| Some(SeedCount { number, estimated });
        if let Ok(seeds) = bare.parse::<u32>() {
            self.facts.seeds = of(Some(seeds), false);
        } else if let Some(seeds) = about(bare) {
            self.facts.seeds = of(Some(seeds), true);
        } else if let Some(why) = inexact(bare) {
            self.other(column, cell, Why::Inexact(why));
            self.facts.seeds = of(None, false);
        } else if is_none(cell) {
            self.facts.seeds = of(Some(0), false);
        } else if !is_blank(cell) {
            self.other(column, cell, Why::NoCount);
            self.facts.seeds = of(None, false);
        }
    }

    /// A whole number of pods or seedlings; `none` is 0, as it is of seeds.
    pub(super) fn count(&mut self, column: &ColumnTaken, cell: &str) -> Option<u32> {
        if is_none(cell) {
            return Some(0);
        }
        let bare = without_percent(cell);
        let count = bare.trim_end_matches(".0").parse::<u32>().ok();
        if count.is_none() && !is_blank(cell) {
            self.no_number(column, cell, Why::NoCount);
        }
        count
    }

    /// A cell that is not one number, for the reason that it shows, else another.
    pub(super) fn no_number(&mut self, column: &ColumnTaken, cell: &str, other: Why) {
        let why = inexact(cell).map_or(other, Why::Inexact);
        self.other(column, cell, why);
    }
}

/// `55 (55%)`: a count with what part it is of, which its seeds say too.
fn without_percent(cell: &str) -> &str {
    let Some((count, behind)) = cell.split_once('(') else {
        return cell;
    };
    let part = behind.strip_suffix("%)").map(str::trim);
    match part.is_some_and(|part| part.replace(',', ".").parse::<f64>().is_ok()) {
        true => count.trim(),
        false => cell,
    }
}
