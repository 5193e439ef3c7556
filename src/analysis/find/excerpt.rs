//! Text compared without capitals and accents, and the words around what was found.

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

/// Letters shown on either side of what was found.
const AROUND: usize = 30;

/// A text without accents, in small letters: canonical decomposition (Unicode Standard Annex 15), marks left out.
pub fn folded(text: &str) -> String {
    text.chars().flat_map(fold).collect()
}

fn fold(letter: char) -> impl Iterator<Item = char> {
    let plain = letter.nfd().filter(|part| !is_combining_mark(*part));
    plain.flat_map(char::to_lowercase)
}

/// The part of a text around the first place where it holds `needle`, which is folded; of a long text with `…` where it
/// is cut.
pub fn excerpt(text: &str, needle: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    let (mut all, mut places) = (String::new(), Vec::new());
    for (at, letter) in letters.iter().enumerate() {
        for part in fold(*letter) {
            all.push(part);
            places.extend(std::iter::repeat_n(at, part.len_utf8()));
        }
    }
    let found = all.find(needle).unwrap_or(0);
    let first = places.get(found).copied().unwrap_or(0);
    let end = found + needle.len().max(1) - 1;
    let last = places.get(end).map_or(letters.len(), |at| at + 1);
    let from = first.saturating_sub(AROUND);
    let to = last.saturating_add(AROUND).min(letters.len());
    let cut: String = letters[from..to].iter().collect();
    let (before, after) = (from > 0, to < letters.len());
    let mark = |cut: bool| if cut { "…" } else { "" };
    format!("{}{}{}", mark(before), cut.trim(), mark(after))
}
