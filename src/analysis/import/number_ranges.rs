//! Numbers from one to another in the place of a code: several plants.

use super::figures::is_number;
use super::looks::is_code_like;
use crate::registry::ids::is_new_code;

/// Marks of a range that no code has.
const MARKS: [&str; 4] = ["..", "–", "—", " to "];

/// `X20-01-7..9`, `V1 to V3`.
pub(super) fn is_marked_range(cell: &str) -> bool {
    let ends_in_number = |side: &str| {
        let side = side.trim();
        is_new_code(side) && side.ends_with(|c: char| c.is_ascii_digit())
    };
    let mut sides = MARKS.iter().filter_map(|mark| cell.split_once(mark));
    sides.any(|(from, to)| ends_in_number(from) && ends_in_number(to))
}

/// `4-6`, which may also be a code; a number has no zero in front.
pub(super) fn is_range(numbers: &str) -> bool {
    let number = |text: &str| {
        text.parse::<u32>()
            .ok()
            .filter(|_| is_number(text) && !text.starts_with('0'))
    };
    let ends = numbers
        .split_once('-')
        .and_then(|(from, to)| number(from).zip(number(to)));
    ends.is_some_and(|(from, to)| from < to)
}

/// `X20-01`: the form of the codes that podbook gives to crosses.
pub(super) fn is_form_of_cross(code: &str) -> bool {
    let parts = code.split_once('-');
    parts.is_some_and(|(letters, number)| is_code_like(letters) && is_number(number))
}
