//! Rows between those of plants that are none: sums and means of others, titles of sections, and further lines of headings.

use super::answer::Why;
use super::dittos::is_ditto;
use super::headings::headed;
use super::unit_cells::unit_in;
use super::word_lists::is_in;
use crate::text::GridRow;

/// First words of a row that adds up others.
const SUMS: &str =
    "total | totals | total plants | sum | subtotal | sub-total | grand total | summe | count";
/// First words of a row of other figures about those above it. A plant may be called so too, but its row has words.
const FIGURES: &str = "mean | means | average | averages | avg | ave | ø | ⌀ | median | min | minimum | max | maximum | sd | \
    stdev | range";

/// Why a row is no plant whatever its columns hold; none where it may be one.
pub(super) fn no_plant(row: &GridRow) -> Option<Why> {
    let mut filled = row.cells.iter().map(|cell| cell.trim());
    let mut filled = filled.by_ref().filter(|cell| !cell.is_empty());
    let first = filled.next()?.to_lowercase();
    let rest: Vec<&str> = filled.collect();
    let word = first.trim_end_matches([':', '.', ' ']);
    let is_figure = |cell: &&str| !cell.starts_with(char::is_alphabetic);
    if is_in(SUMS, word) || is_in(FIGURES, word) && rest.iter().all(is_figure) {
        return Some(Why::Figures);
    }
    let is_of_headings =
        |cell: &&str| headed(cell).is_some() || unit_in(cell).is_some() && !is_ditto(cell);
    if !rest.is_empty() && headed(&first).is_some() && rest.iter().all(is_of_headings) {
        return Some(Why::Headings);
    }
    (rest.is_empty() && first.ends_with(':')).then_some(Why::Title)
}
