//! Days in headings: of the readings or counts below them.

use super::answer::{ColumnTaken, ReadOn, TakenBy};
use super::dates::{DateRead, date};
use super::figures::is_number;
use crate::record::{Day, Hemisphere, Holds};

/// Most words of a day, such as `10 to 14 May 2022`, and of a heading that may have one.
const MOST_WORDS: usize = 5;
const MOST_OF_HEADING: usize = 12;

/// A heading without the day in it, and that day in its words: one that a cell of dates may have, of the longest such the
/// first.
pub(super) fn day_in(heading: &str, hemisphere: Hemisphere, today: Day) -> Option<(String, &str)> {
    let words = heading
        .split([' ', ',', '(', ')'])
        .filter(|word| !word.is_empty());
    let place = |word: &str| word.as_ptr() as usize - heading.as_ptr() as usize;
    let words: Vec<_> = words
        .map(|word| place(word)..place(word) + word.len())
        .collect();
    let runs = (1..=MOST_WORDS)
        .rev()
        .flat_map(|count| words.windows(count));
    let mut runs = runs.map(|run| run[0].start..run[run.len() - 1].end);
    let is_day = |run: &std::ops::Range<usize>| {
        let read = date(&heading[run.clone()], hemisphere, today);
        matches!(read, DateRead::Known(_) | DateRead::SeveralDays(_))
    };
    let day = runs
        .find(is_day)
        .filter(|_| words.len() <= MOST_OF_HEADING)?;
    let rest = format!("{} {}", &heading[..day.start], &heading[day.end..]).replace("( )", " ");
    let rest: Vec<&str> = rest.split_whitespace().collect();
    Some((rest.join(" "), &heading[day]))
}

/// Whether a day in the heading of a column is that of what its cells hold.
pub(super) fn may_have_day(holds: Holds) -> bool {
    matches!(holds, Holds::Reading | Holds::Germinated)
}

/// Takes columns headed by a day alone for counts of seedlings, where the table says when seed was sown, has no sizes, and
/// the cells are whole numbers.
pub(super) fn counts_by_day(columns: &mut [ColumnTaken], hemisphere: Hemisphere, today: Day) {
    let has = |holds: Holds| columns.iter().any(|of| of.holds == holds);
    if !has(Holds::Sown) || has(Holds::Reading) {
        return;
    }
    for column in columns.iter_mut().filter(|of| of.by == TakenBy::Nothing) {
        let is_count = |cell: &String| cell.parse::<u32>().is_ok();
        let are_counts = !column.examples.is_empty() && column.examples.iter().all(is_count);
        let day = day_in(&column.heading, hemisphere, today).filter(|(rest, _)| rest.is_empty());
        let day = day
            .map(|(_, day)| day.to_owned())
            .filter(|day| !is_number(day));
        if let Some(day) = day.filter(|_| are_counts) {
            (column.holds, column.by) = (Holds::Germinated, TakenBy::Heading);
            column.read_on = Some(ReadOn::Day(day));
        }
    }
}
