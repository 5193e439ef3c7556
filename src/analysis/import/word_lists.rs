//! Lists of words that growers write, each as one text with strokes between, so that a whole list is read at a glance.

/// The words of a list.
pub(super) fn words(list: &str) -> impl Iterator<Item = &str> {
    list.split(" | ")
}

/// Whether a word is in a list.
pub(super) fn is_in(list: &str, word: &str) -> bool {
    words(list).any(|of| of == word)
}
