//! One stretch of a label and what it is.

use crate::naming::token::{Kind, Token};
use crate::naming::vocabulary::Vocabulary;

use super::words::{grown_from, holds_hybrid, is_count, is_size, is_title};

/// What a stretch of a label says beside the name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece {
    Aside,
    Code,
    Grown(&'static str),
    Size,
    Place,
}

/// The words of a stretch in lower case, without full stops at their ends; `None` when it holds more than words.
pub(super) fn plain_words(tokens: &[Token]) -> Option<Vec<String>> {
    let word = |token: &Token| {
        (token.kind == Kind::Word).then(|| {
            token
                .text
                .to_lowercase()
                .trim_end_matches(['.', ':', '!'])
                .to_owned()
        })
    };
    tokens.iter().map(word).collect()
}

/// What a stretch of words is, if it is understood whole. A word that names a plant is never taken off.
pub(super) fn piece(tokens: &[Token], vocabulary: &Vocabulary) -> Option<Piece> {
    let words = plain_words(tokens)?;
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let text = words.join(" ");
    if words.iter().any(|word| vocabulary.means_a_plant(word)) {
        return None;
    }
    if let Some(how) = grown_from(&text) {
        return Some(Piece::Grown(how));
    }
    if is_title(&text) || is_count(&words) {
        return Some(Piece::Aside);
    }
    is_size(&words).then_some(Piece::Size)
}

/// `QK-3172`, `QK3172`: a supplier's or grower's code. A plant's number (`#3`), a generation (`F2`) and a size are none.
pub(super) fn is_code(word: &str, vocabulary: &Vocabulary) -> bool {
    let word = word.trim_end_matches([':', '.']);
    let of_code = |letter: char| letter.is_ascii_alphanumeric() || "-._/".contains(letter);
    let digits = word.chars().filter(char::is_ascii_digit).count();
    let letters = word.chars().filter(char::is_ascii_alphabetic).count();
    let generation = matches!(word.chars().next(), Some('f' | 'F')) && letters == 1
        || word.to_ascii_lowercase().starts_with("bc") && digits <= 2;
    let numeric = letters == 0 && word.len() == digits && (3..=6).contains(&digits);
    word.chars().all(of_code)
        && word.starts_with(|letter: char| letter.is_ascii_alphanumeric())
        && !generation
        && !vocabulary.means_a_plant(&word.to_lowercase())
        && !is_size(&[&word.to_lowercase()])
        && !is_count(&[&word.to_lowercase()])
        && !holds_hybrid(&word.to_lowercase())
        && ((letters >= 1 && digits >= 1 && letters <= 6) || (numeric && !is_year(word)))
}

/// A year of the last or this century.
pub(super) fn is_year(word: &str) -> bool {
    word.len() == 4
        && word.chars().all(|letter| letter.is_ascii_digit())
        && ["17", "18", "19", "20"].contains(&&word[..2])
}

/// A letter that is no part of any word: a dash, a bar, a star, a picture.
pub(super) fn is_ornament(token: &Token) -> bool {
    match token.kind {
        Kind::Word => !token.text.chars().any(char::is_alphanumeric),
        Kind::Comma => true,
        Kind::Star => true,
        Kind::Sign => token.text == "*",
        _ => false,
    }
}
