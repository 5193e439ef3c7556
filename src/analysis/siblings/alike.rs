//! Rows that say the same of several seedlings of one cross, as one row.
//!
//! Siblings share parents, so tables of kinship repeat one figure for each of them. Which rows say the same is the
//! caller's to know; the order is never changed.

use crate::registry::{CrossRow, PlantRow, Registry};

/// A seedling as one of its cross, by a plain number.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Sibling {
    cross: CrossRow,
    number: u32,
}

impl Sibling {
    /// `None` for a founder, and for a number that would not be written back the same, such as `07` or `12b`.
    pub fn of(registry: &Registry, plant: PlantRow) -> Option<Sibling> {
        let cross = registry.cross_of(plant)?;
        let written = registry.number(plant)?;
        let number: u32 = written.parse().ok()?;
        (number.to_string() == written).then_some(Sibling { cross, number })
    }
}

/// Rows one after another that say the same of seedlings of one cross, with their codes as one phrase: `X18-01-1`,
/// `X18-01-1, 3, 6 to 13`.
pub(crate) fn alike_siblings<R>(
    rows: &[R],
    plant: impl Fn(&R) -> (&str, Option<Sibling>),
    same: impl Fn(&R, &R) -> bool,
) -> Vec<(String, &[R])> {
    let cross = |row: &R| plant(row).1.map(|of| of.cross);
    let alike = |a: &R, b: &R| cross(a).is_some() && cross(a) == cross(b) && same(a, b);
    let phrase = |group: &[R]| {
        let (code, first) = plant(&group[0]);
        let numbers: Vec<u32> = group
            .iter()
            .filter_map(|row| Some(plant(row).1?.number))
            .collect();
        let before = first.and_then(|first| code.strip_suffix(&first.number.to_string()));
        match before {
            Some(before) if group.len() > 1 => format!("{before}{}", spans(&numbers)),
            _ => code.to_owned(),
        }
    };
    let groups = rows.chunk_by(alike);
    groups.map(|group| (phrase(group), group)).collect()
}

/// Numbers in the order given, three or more in a row as a span: `1, 3, 6 to 13`.
fn spans(numbers: &[u32]) -> String {
    let runs = numbers.chunk_by(|a, b| a.checked_add(1) == Some(*b));
    let words: Vec<String> = runs
        .flat_map(|run| match run {
            [first, .., last] if run.len() > 2 => vec![format!("{first} to {last}")],
            few => few.iter().map(u32::to_string).collect(),
        })
        .collect();
    words.join(", ")
}
