//! Letters with marks are spelt in two ways: `ü` as one sign, or as `u` with the mark after it. The eye sees no difference.

use unicode_normalization::UnicodeNormalization;

/// Whether two texts are the same once their letters and marks are composed (NFC of Unicode Standard Annex 15).
pub fn same_form(one: &str, other: &str) -> bool {
    one == other || (!one.is_ascii() && !other.is_ascii() && one.nfc().eq(other.nfc()))
}

/// A text with its letters and marks composed.
pub fn composed(text: String) -> String {
    // Most words are ASCII, and some commands ask this of every place of a large registry.
    match text.is_ascii() {
        true => text,
        false => text.nfc().collect(),
    }
}
