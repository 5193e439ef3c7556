//! Words in a row, as findings about a page name what may stand there.

/// Each word between marks, the last after "or"; `none` where there is no word.
pub(super) fn listed(words: &[&str], none: &str) -> String {
    let words: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match words.as_slice() {
        [] => none.to_owned(),
        [only] => only.clone(),
        [some @ .., last] => format!("{} or {last}", some.join(", ")),
    }
}
