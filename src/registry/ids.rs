//! Codes as growers write them: which text names which record.
//!
//! `V1` is a founder, `V1-a` its ramet; `X22-07` a cross, `X22-07-12` a seedling of it, `X22-07-12-b` that seedling's
//! ramet; `X22-07.P1` the pod P1 of that cross. A seedling's number begins with a digit and a ramet's code with a
//! letter, so that the two are never confused.

use std::cmp::Ordering;
use unicode_normalization::char::is_combining_mark;

/// Most letters and digits of a code.
pub const LONGEST: usize = 60;

/// Whether a text can be a code: visible characters, no blanks, quotes, brackets, `.`, `/` or `,`.
pub fn is_code(text: &str) -> bool {
    !text.is_empty()
        && text.chars().count() <= LONGEST
        && text.chars().all(|c| {
            !c.is_whitespace() && !c.is_control() && !"\"'`()[]{}<>,;:./\\|&?*".contains(c)
        })
        && !text.starts_with('-')
        && !text.ends_with('-')
}

/// Whether a text can be a new code: letters and digits of any script, with their marks, and hyphens between them. What is
/// on record may hold other signs.
pub fn is_new_code(text: &str) -> bool {
    is_code(text) && foreign_sign(text).is_none()
}

/// The first sign in a code that no new code may hold.
pub fn foreign_sign(code: &str) -> Option<char> {
    let belongs = |c: char| c.is_alphanumeric() || c == '-' || is_combining_mark(c);
    code.chars().find(|c| !belongs(*c))
}

/// Whether a text can be a seedling's number.
pub fn is_seedling_number(text: &str) -> bool {
    let plain = (1..=9).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    plain || is_code(text) && text.starts_with(|c: char| c.is_ascii_digit()) && !text.contains('-')
}

/// Whether a text can be a ramet's code.
pub fn is_ramet_code(text: &str) -> bool {
    is_code(text) && text.starts_with(char::is_alphabetic) && !text.contains('-')
}

/// Splits at every hyphen, the last first: `X22-07-12` gives (`X22-07`, `12`), (`X22`, `07-12`).
pub fn splits(text: &str) -> impl Iterator<Item = (&str, &str)> {
    text.rmatch_indices('-')
        .map(|(at, _)| (&text[..at], &text[at + 1..]))
}

/// Order in which codes are listed: numbers within them by value, so that 9 comes before 12.
pub fn natural_order(a: &str, b: &str) -> Ordering {
    let (mut left, mut right) = (a.as_bytes(), b.as_bytes());
    while let (Some(x), Some(y)) = (left.first(), right.first()) {
        let order = if x.is_ascii_digit() && y.is_ascii_digit() {
            let (m, n) = (run_of_digits(left), run_of_digits(right));
            let (p, q) = (trim_zeros(&left[..m]), trim_zeros(&right[..n]));
            (left, right) = (&left[m..], &right[n..]);
            p.len().cmp(&q.len()).then_with(|| p.cmp(q))
        } else {
            (left, right) = (&left[1..], &right[1..]);
            x.cmp(y)
        };
        if order.is_ne() {
            return order;
        }
    }
    left.len().cmp(&right.len()).then_with(|| a.cmp(b))
}

fn run_of_digits(text: &[u8]) -> usize {
    text.iter()
        .position(|byte| !byte.is_ascii_digit())
        .unwrap_or(text.len())
}

fn trim_zeros(digits: &[u8]) -> &[u8] {
    let start = digits
        .iter()
        .position(|&byte| byte != b'0')
        .unwrap_or(digits.len());
    &digits[start..]
}
