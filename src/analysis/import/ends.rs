//! What became of a plant by several cells of its row, which may contradict each other.

use super::answer::ColumnTaken;
use super::facts::FateRead;
use crate::record::When;

/// What one cell says.
pub(super) struct End {
    /// Place of its column.
    pub at: usize,
    /// Heading of its column.
    pub heading: String,
    /// The cell.
    pub cell: String,
    /// What became of the plant; none where the cell says that it is here.
    pub fate: Option<FateRead>,
}

/// The day on which a plant went, by a column that does not say how.
pub(super) struct Gone {
    /// Place of its column.
    pub at: usize,
    /// The cell.
    pub cell: String,
    /// The day in it.
    pub on: String,
}

impl Gone {
    /// What a cell says.
    pub fn of(column: &ColumnTaken, cell: &str, on: String) -> Gone {
        Gone {
            at: column.at,
            cell: cell.to_owned(),
            on,
        }
    }
}

impl End {
    /// What a cell says.
    pub fn of(column: &ColumnTaken, cell: &str, fate: Option<FateRead>) -> End {
        End {
            at: column.at,
            heading: column.heading.clone(),
            cell: cell.to_owned(),
            fate,
        }
    }
}

/// The first two cells that contradict each other: two kinds of end, two days, or an end of a plant that is here.
pub(super) fn contradiction(
    ends: &[End],
    when: impl Fn(&str) -> Option<When>,
) -> Option<(&End, &End)> {
    let differ = |one: &End, other: &End| match (&one.fate, &other.fate) {
        (Some(one), Some(other)) => one.word != other.word || apart(&one.on, &other.on, &when),
        (None, None) => false,
        _ => true,
    };
    let pairs = ends
        .iter()
        .enumerate()
        .flat_map(|(at, one)| ends[at + 1..].iter().map(move |other| (one, other)));
    pairs.into_iter().find(|(one, other)| differ(one, other))
}

/// Whether two days are surely not one.
fn apart(one: &str, other: &str, when: impl Fn(&str) -> Option<When>) -> bool {
    match (when(one), when(other)) {
        (Some(one), Some(other)) => one.surely_before(other) || other.surely_before(one),
        _ => false,
    }
}

/// The end with the earliest day; one without a day only where none has one. Of equal days the first cell counts.
pub(super) fn the_end(ends: Vec<End>, when: impl Fn(&str) -> Option<When>) -> Option<FateRead> {
    let fates = ends.into_iter().filter_map(|end| end.fate);
    // An unknown day is any day: it comes behind all that are known.
    let key = |fate: &FateRead| when(&fate.on).map_or(i32::MAX, |on| on.last.0);
    fates.min_by_key(|fate| if fate.on == "?" { i32::MAX } else { key(fate) })
}
