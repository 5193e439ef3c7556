//! What became of a plant by several cells of its row, which may contradict each other.

use super::answer::{ColumnTaken, Why};
use super::facts::FateRead;
use crate::record::When;

/// What one cell says.
pub(super) struct End<'a> {
    pub column: &'a ColumnTaken,
    /// The cell.
    pub cell: String,
    /// What became of the plant; none where the cell says that it is here.
    pub fate: Option<FateRead>,
}

impl End<'_> {
    /// What another cell contradicts.
    pub fn against(&self) -> Why {
        Why::Contradicts(self.column.heading.clone(), self.cell.clone())
    }
}

/// The day on which a plant went, by a column that does not say how.
pub(super) struct Gone<'a> {
    pub column: &'a ColumnTaken,
    /// The cell.
    pub cell: String,
    /// The day in it.
    pub on: String,
}

impl Gone<'_> {
    /// What another cell contradicts.
    pub fn against(&self) -> Why {
        Why::Contradicts(self.column.heading.clone(), self.cell.clone())
    }
}

/// The first two cells that contradict each other: two kinds of end, two days, or an end of a plant that is here.
pub(super) fn contradiction<'e, 'a>(
    ends: &'e [End<'a>],
    when: impl Fn(&str) -> Option<When>,
) -> Option<(&'e End<'a>, &'e End<'a>)> {
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
