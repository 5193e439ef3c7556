//! Days in headings: of the readings or counts below them.

use super::answer::{ColumnTaken, ReadOn, TakenBy};
use super::figures::numbers;
use crate::record::{Hemisphere, Holds, When};

/// A heading without the day in it, and that day: `2022-05-01` or `2022-05`, which can be read one way only.
pub(super) fn day_in(heading: &str) -> Option<(String, String)> {
    let is_day = |word: &&str| {
        let numbers = numbers(word, &['-']).unwrap_or_default();
        let lengths: Vec<usize> = numbers.iter().map(|of| of.len()).collect();
        let is_whole = matches!(lengths[..], [4, 2] | [4, 2, 2]);
        is_whole && When::read(word, Hemisphere::North).is_ok()
    };
    let day = heading.split([' ', ',', '(', ')']).find(is_day)?;
    let rest = heading.replacen(day, " ", 1);
    let words: Vec<&str> = rest.split_whitespace().collect();
    Some((words.join(" "), day.to_owned()))
}

/// Whether a day in the heading of a column is that of what its cells hold.
pub(super) fn may_have_day(holds: Holds) -> bool {
    matches!(holds, Holds::Reading | Holds::Germinated)
}

/// Takes columns headed by a day alone for counts of seedlings, where the table says when seed was sown, has no sizes, and
/// the cells are whole numbers.
pub(super) fn counts_by_day(columns: &mut [ColumnTaken]) {
    let has = |holds: Holds| columns.iter().any(|of| of.holds == holds);
    if !has(Holds::Sown) || has(Holds::Reading) {
        return;
    }
    for column in columns.iter_mut().filter(|of| of.by == TakenBy::Nothing) {
        let is_count = |cell: &String| cell.parse::<u32>().is_ok();
        let are_counts = !column.examples.is_empty() && column.examples.iter().all(is_count);
        let day = day_in(&column.heading).filter(|(rest, _)| rest.is_empty());
        if let Some((_, day)) = day.filter(|_| are_counts) {
            (column.holds, column.by) = (Holds::Germinated, TakenBy::Heading);
            column.read_on = Some(ReadOn::Day(day));
        }
    }
}
