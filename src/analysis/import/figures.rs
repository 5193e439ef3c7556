//! Words that are whole numbers and nothing else.

/// The numbers between some marks; `None` for words with anything else in them.
pub(super) fn numbers<'c>(words: &'c str, marks: &[char]) -> Option<Vec<&'c str>> {
    let numbers: Vec<&str> = words.split(marks).collect();
    numbers.iter().all(|of| is_number(of)).then_some(numbers)
}

/// Whether a word is digits and nothing else.
pub(super) fn is_number(word: &str) -> bool {
    !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_digit())
}
