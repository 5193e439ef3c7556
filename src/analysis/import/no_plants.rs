//! Rows between those of plants that are none: sums and means of others, titles of sections, and further lines of headings.

use super::answer::{ImportTable, Why};
use super::dittos::is_ditto;
use super::facts::CodesOf;
use super::figures::is_number;
use super::headings::headed;
use super::unit_cells::unit_in;
use super::word_lists::is_in;
use crate::record::Holds;
use crate::text::GridRow;

/// Words of a row that adds up others, which stand first or in the place of its code.
const SUMS: &str =
    "total | totals | total plants | sum | subtotal | sub-total | grand total | summe | count";
/// Such words of a row of other figures about those above it. A plant may be called so too, but its row has words.
const FIGURES: &str = "mean | means | average | averages | avg | ave | ø | ⌀ | median | min | minimum | max | maximum | sd | \
    stdev | range";

/// Why a row is no plant whatever its columns hold; none where it may be one.
pub(super) fn no_plant(table: &ImportTable, row: &GridRow) -> Option<Why> {
    let filled = row.cells.iter().map(|cell| cell.trim());
    let filled: Vec<&str> = filled.filter(|cell| !cell.is_empty()).collect();
    let (first, rest) = filled.split_first()?;
    let cell = |holds| table.holding(holds).map(|of| of.cell(row));
    let (code, cross) = (cell(Holds::Code), cell(Holds::Cross));
    let is_of_figures = |named: &str| {
        let lower = named.to_lowercase();
        let word = lower.trim_end_matches([':', '.', ' ']);
        let mut rest = filled
            .iter()
            .filter(|of| **of != named && Some(**of) != cross);
        let is_figure = |cell: &&str| !cell.starts_with(char::is_alphabetic);
        is_in(SUMS, word) || is_in(FIGURES, word) && rest.all(is_figure)
    };
    if is_of_figures(first) || code.is_some_and(is_of_figures) {
        return Some(Why::Figures);
    }
    let is_of_headings =
        |cell: &&str| headed(cell).is_some() || unit_in(cell).is_some() && !is_ditto(cell);
    if !rest.is_empty() && headed(first).is_some() && rest.iter().all(is_of_headings) {
        return Some(Why::Headings);
    }
    // A year among crosses heads those of that year.
    let of_crosses = || matches!(table.codes_of(), CodesOf::Crosses | CodesOf::Sowings);
    let is_words = || are_words(first) || of_crosses() && is_year(first);
    let is_title = || table.columns.len() > 1 && code == Some(first) && is_words();
    (rest.is_empty() && (first.ends_with(':') || is_title())).then_some(Why::Title)
}

/// `2016`.
fn is_year(cell: &str) -> bool {
    let number = cell.parse::<u32>().ok().filter(|_| is_number(cell));
    number.is_some_and(|number| (1900..2100).contains(&number))
}

/// Whether a cell has words, and nothing with letters and digits in it as codes have.
fn are_words(cell: &str) -> bool {
    let has = |piece: &str, is: fn(char) -> bool| piece.contains(is);
    let mut pieces = cell.split(|c: char| !c.is_alphanumeric() && c != '-');
    let is_code = |piece: &str| has(piece, char::is_alphabetic) && has(piece, char::is_numeric);
    has(cell, char::is_alphabetic) && !pieces.any(is_code)
}
