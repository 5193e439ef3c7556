//! Numbers with a range or a mark: `4-6`, `~12`, `12+`, `<5`. No reading of the files holds more than one number, and nothing
//! is put in its place.

use super::figures::{is_number, numbers};
use super::word_lists::words;

/// Why a cell is not one number.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Inexact {
    /// `4-6`, `4 to 6 cm`.
    Range,
    /// `~12`, `ca. 15`, `12?`.
    About,
    /// `12+`, `>20`, `<5`.
    Limit,
    /// A date: spreadsheets make one of `4-6`.
    Date,
}

/// Words before a number that is not exact, the longer before those they begin with.
const ABOUT: &str =
    "~ | ≈ | ∼ | circa | ca. | ca | c. | about | approx. | approx | around | roughly";
const LIMITS: &str =
    "≥ | ≤ | >= | <= | > | < | at least | at most | more than | less than | over | under | up to";

/// Words behind a number that is not exact, in brackets or not.
const ABOUT_BEHIND: &str =
    "estimated | estimate | est | approximately | approx | about | circa | ca";

/// A cell without such words; `None` where it has none.
fn without_about_behind(cell: &str) -> Option<&str> {
    let bare = cell.trim_end_matches([')', '.', ' ']);
    let number = words(ABOUT_BEHIND).find_map(|word| bare.strip_suffix(word))?;
    let number = number.trim_end_matches(['(', ' ', ',']);
    number
        .ends_with(|c: char| c.is_ascii_digit())
        .then_some(number)
}

/// What a cell is that holds a number and is not one; `None` where it holds none.
pub(super) fn inexact(cell: &str) -> Option<Inexact> {
    let cell = cell.trim().to_lowercase();
    if is_date(&cell) {
        return Some(Inexact::Date);
    }
    let begins = |list: &str| words(list).find_map(|word| cell.strip_prefix(word));
    let is_number = |rest: &str| rest.trim_start().starts_with(|c: char| c.is_ascii_digit());
    if begins(LIMITS).is_some_and(is_number) {
        return Some(Inexact::Limit);
    }
    if let Some(rest) = begins(ABOUT).filter(|rest| is_number(rest)) {
        return Some(if is_range(rest) {
            Inexact::Range
        } else {
            Inexact::About
        });
    }
    if without_about_behind(&cell).is_some_and(|rest| is_number(rest) && !is_range(rest)) {
        return Some(Inexact::About);
    }
    let figures = cell.trim_end_matches(|c: char| c.is_alphabetic() || " .\"".contains(c));
    match figures.chars().last().filter(|_| is_number(&cell))? {
        '+' => Some(Inexact::Limit),
        '?' => Some(Inexact::About),
        _ => is_range(&cell).then_some(Inexact::Range),
    }
}

/// The number of a cell that says it is about that many.
pub(super) fn about(cell: &str) -> Option<u32> {
    let lower = cell.trim().to_lowercase();
    let rest = words(ABOUT).find_map(|word| lower.strip_prefix(word));
    let rest = rest.or_else(|| lower.strip_suffix('?'));
    let rest = rest.or_else(|| without_about_behind(&lower))?;
    rest.trim().parse().ok()
}

/// `4-6`, `4 – 6 cm`, `4 cm to 6 cm`.
fn is_range(cell: &str) -> bool {
    let marks = cell
        .replace(" to ", "-")
        .replace("..", "-")
        .replace(['–', '—', '−'], "-");
    let begins = |side: &str| side.trim().starts_with(|c: char| c.is_ascii_digit());
    marks
        .split_once('-')
        .is_some_and(|(from, to)| begins(from) && begins(to))
}

/// `2024-06-04`.
pub(super) fn is_date(cell: &str) -> bool {
    let numbers = numbers(cell, &['-']).unwrap_or_default();
    numbers.iter().map(|of| of.len()).eq([4, 2, 2])
}

/// `24,5`, as where commas stand before decimals.
pub(super) fn has_comma(cell: &str) -> bool {
    let sides = cell.split_once(',');
    sides.is_some_and(|(whole, rest)| {
        let decimals = rest.trim_end_matches(|c: char| c.is_alphabetic() || c == ' ');
        is_number(whole.trim()) && is_number(decimals) && decimals.len() != 3
    })
}

/// `1.200`, which is twelve hundred where commas stand before decimals.
pub(super) fn is_in_thousands(cell: &str) -> bool {
    let number = cell.trim_end_matches(|c: char| c.is_alphabetic() || c == ' ');
    let parts = numbers(number, &['.']).unwrap_or_default();
    parts.len() > 1 && parts[1..].iter().all(|part| part.len() == 3)
}
