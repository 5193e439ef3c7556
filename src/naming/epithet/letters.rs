//! The rules that look at letters and marks: capitals, length, codes, permitted marks.

use super::rule::{Remarks, Rule};

/// Small words that stay small inside an epithet.
const JOINING: [&str; 38] = [
    "a", "an", "and", "as", "at", "by", "for", "from", "in", "of", "on", "or", "the", "to", "with",
    "de", "del", "der", "des", "di", "da", "do", "dos", "du", "el", "en", "et", "la", "las", "le",
    "les", "los", "und", "van", "von", "y", "zu", "aus",
];

/// The longest epithet, in characters besides spaces.
const LONGEST: usize = 30;

/// The longest code.
const LONGEST_CODE: usize = 10;

/// Remarks under the rules that look at letters; gives the epithet with its capitals put right.
pub(super) fn judge_letters(epithet: &str, year: Option<i32>, remarks: &mut Remarks) -> String {
    if epithet.chars().all(char::is_whitespace) {
        remarks.refuse(Rule::TooLittle, "nothing stands between the quotes");
        return String::new();
    }
    length(epithet, year, remarks);
    too_little(epithet, remarks);
    code(epithet, remarks);
    marks(epithet, remarks);
    capitals(epithet, remarks)
}

fn length(epithet: &str, year: Option<i32>, remarks: &mut Remarks) {
    let letters = epithet
        .chars()
        .filter(|letter| !letter.is_whitespace())
        .count();
    if letters > LONGEST && year.is_none_or(|year| year >= 1996) {
        remarks.refuse(
            Rule::Length,
            format!("{letters} characters besides spaces; at most {LONGEST}"),
        );
    }
}

fn too_little(epithet: &str, remarks: &mut Remarks) {
    let letters = epithet
        .chars()
        .filter(|letter| letter.is_alphanumeric())
        .count();
    if epithet
        .chars()
        .all(|letter| letter.is_numeric() || letter.is_whitespace())
    {
        remarks.refuse(Rule::TooLittle, "only digits");
    } else if letters == 0 {
        remarks.refuse(Rule::TooLittle, "no letter at all");
    } else if letters == 1 {
        remarks.refuse(Rule::TooLittle, "a single letter");
    }
}

/// A code is in capitals and digits, or mixes letters and digits in one word.
fn code(epithet: &str, remarks: &mut Remarks) {
    let letters: Vec<char> = epithet
        .chars()
        .filter(|letter| letter.is_alphabetic())
        .collect();
    let digits = epithet.chars().filter(char::is_ascii_digit).count();
    if letters.is_empty() || epithet.contains(char::is_whitespace) || letters.len() + digits < 2 {
        return;
    }
    let capitals = letters.iter().all(|letter| letter.is_uppercase());
    let long = epithet.chars().count();
    if capitals && long > LONGEST_CODE {
        remarks.refuse(
            Rule::Code,
            format!("a code of {long} characters; at most {LONGEST_CODE}"),
        );
    } else if capitals || digits > 0 {
        remarks.warn(
            Rule::Code,
            "a code is allowed, but hard to remember and to tell from others",
        );
    }
}

fn marks(epithet: &str, remarks: &mut Remarks) {
    let mut refused: Vec<char> = epithet
        .chars()
        .filter(|letter| !permitted(*letter))
        .collect();
    refused.dedup();
    if !refused.is_empty() {
        let shown: Vec<String> = refused.iter().take(6).map(|mark| shown(*mark)).collect();
        remarks.refuse(
            Rule::Marks,
            format!("not permitted in an epithet: {}", shown.join(" ")),
        );
    }
    if epithet.contains("!!") || epithet.matches('!').count() > 2 {
        remarks.refuse(
            Rule::Marks,
            "at most two exclamation marks, not side by side",
        );
    }
}

fn permitted(letter: char) -> bool {
    letter.is_alphabetic()
        || letter.is_ascii_digit()
        || letter == ' '
        || "',.-/\\!".contains(letter)
        || matches!(letter, '\u{300}'..='\u{36f}')
}

fn shown(mark: char) -> String {
    if mark.is_control() {
        format!("U+{:04X}", u32::from(mark))
    } else {
        format!("`{mark}`")
    }
}

fn capitals(epithet: &str, remarks: &mut Remarks) -> String {
    let mended: Vec<String> = epithet
        .split(' ')
        .enumerate()
        .map(|(place, word)| capital(word, place == 0))
        .collect();
    let mended = mended.join(" ");
    if mended != epithet {
        remarks.mend(
            Rule::Capitals,
            format!("each word begins with a capital: {mended}"),
        );
    }
    mended
}

/// The word with a capital, unless it is a small joining word inside the epithet.
fn capital(word: &str, first: bool) -> String {
    let elided = ["d'", "l'"].iter().any(|start| word.starts_with(start));
    if !first && (JOINING.contains(&word) || elided) {
        return word.to_owned();
    }
    let start = word
        .char_indices()
        .find(|(_, letter)| letter.is_alphanumeric());
    match start {
        Some((at, letter)) if letter.is_lowercase() => {
            let upper: String = letter.to_uppercase().collect();
            format!("{}{upper}{}", &word[..at], &word[at + letter.len_utf8()..])
        }
        _ => word.to_owned(),
    }
}
