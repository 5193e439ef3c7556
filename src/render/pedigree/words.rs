//! A name in the faces of the picture.

use crate::render::scene::{Face, Word};
use crate::wording::Name;

/// Most characters of a name that are looked at.
const LETTERS: usize = 600;

/// A name in the faces of the picture; a name without end is cut.
pub fn words(name: &Name, bold: bool) -> Vec<Word> {
    let mut left = LETTERS;
    let mut words = Vec::new();
    for run in name {
        let text: String = crate::text::one_line(&run.text)
            .chars()
            .take(left)
            .collect();
        left -= text.chars().count();
        let face = match (run.italic, bold) {
            (false, false) => Face::Roman,
            (true, false) => Face::Italic,
            (false, true) => Face::Bold,
            (true, true) => Face::BoldItalic,
        };
        words.push(Word { text, face });
    }
    if left == 0 {
        words.push(Word::roman("… (see code)"));
    }
    words
}
