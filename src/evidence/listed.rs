//! Codes in a row, and small numbers in words.

/// The most codes a sentence lists.
const MOST_CODES: usize = 4;

/// `A or B`; of many the first few and how many more.
pub(super) fn or(codes: &[String]) -> String {
    joined(codes, "or")
}

pub(super) fn and(codes: &[String]) -> String {
    joined(codes, "and")
}

fn joined(codes: &[String], word: &str) -> String {
    match codes {
        [] => String::new(),
        [one] => one.clone(),
        [some @ .., last] if codes.len() <= MOST_CODES => {
            format!("{} {word} {last}", some.join(", "))
        }
        _ => format!(
            "{} {word} {} more",
            codes[..MOST_CODES - 1].join(", "),
            codes.len() + 1 - MOST_CODES
        ),
    }
}

/// `two` to `ten`, then digits.
pub fn number_in_words(n: usize) -> String {
    let words = [
        "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    ];
    let word = n.checked_sub(2).and_then(|at| words.get(at));
    word.map_or_else(|| n.to_string(), |word| (*word).to_owned())
}
