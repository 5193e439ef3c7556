//! Readings to choose from when a label is refused: the whole label, each way it may have been meant.

use crate::naming::notes::{Refusal, RefusalCode};
use crate::naming::parse::{How, Nesting};
use crate::naming::token::{Kind, Token, cut};
use crate::naming::vocabulary::Vocabulary;
use crate::naming::write::{Writing, formula_only};

use super::mended::mended;
use super::reading::parsed;

/// How long a label may be for its alternatives to be worked out, in bytes.
const OFFER_WITHIN: usize = 10_000;

/// How many alternatives are offered for one word.
const MOST_OFFERED: usize = 8;

/// Turns what the parser could offer into readings of the whole label.
pub(super) fn offers(label: &str, vocabulary: &Vocabulary, refusal: Refusal) -> Refusal {
    if label.len() > OFFER_WITHIN {
        return refusal.with_readings(Vec::new());
    }
    let each = |texts: &[String]| texts.iter().map(|text| offered(text, vocabulary)).collect();
    let readable =
        |texts: Vec<String>| distinct(texts.iter().flat_map(|t| nestings(t, vocabulary)));
    let readings = match refusal.code {
        RefusalCode::AmbiguousChain | RefusalCode::PurdyAmbiguous => nestings(label, vocabulary),
        RefusalCode::UnknownEpithet if stock_code(label, &refusal).is_some() => {
            readable(with_code_behind(label, vocabulary, &refusal))
        }
        RefusalCode::NotANamedHybrid => {
            let words = refusal.readings.iter().take(MOST_OFFERED);
            readable(
                words
                    .map(|word| replaced(label, vocabulary, refusal.column, word))
                    .collect(),
            )
        }
        RefusalCode::UndeclaredCode | RefusalCode::UnknownEpithet => {
            let words = refusal.readings.iter().take(MOST_OFFERED);
            let labels: Vec<String> = words
                .map(|word| replaced(label, vocabulary, refusal.column, word))
                .collect();
            each(&labels)
        }
        RefusalCode::SignMissing => readable(with_sign(label, vocabulary, refusal.column)),
        RefusalCode::NameContradictsFormula => {
            let as_formula = written_as(
                label,
                vocabulary,
                How {
                    check_names: false,
                    ..How::PLAIN
                },
            );
            let as_named: Vec<String> = each(&refusal.readings);
            as_formula.into_iter().chain(as_named).collect()
        }
        _ if refusal.readings.is_empty() => readable(mended(label, vocabulary, &refusal)),
        _ => each(&refusal.readings),
    };
    refusal.with_readings(readings)
}

/// The label with a sign put in before a column, or in the place of a plus or an "and" that stands there; then the plants
/// may also be a mixture whose seed parent was left out.
fn with_sign(label: &str, vocabulary: &Vocabulary, column: usize) -> Vec<String> {
    let tokens = cut(label, vocabulary).map_or_else(|_| Vec::new(), |cut| cut.tokens);
    let joins = |token: &&Token| {
        token.column == column && (token.kind == Kind::Plus || token.text.to_lowercase() == "and")
    };
    if tokens.iter().any(|token| joins(&token)) {
        let crossed = replaced(label, vocabulary, column, " × ");
        return vec![crossed, format!("? × mixed pollen ({label})")];
    }
    let mut label = sign_put_in(label, column);
    for _ in 0..MOST_OFFERED {
        match parsed(&label, vocabulary, How::PLAIN) {
            Err(again) if again.code == RefusalCode::SignMissing && again.column > column => {
                label = sign_put_in(&label, again.column);
            }
            _ => break,
        }
    }
    vec![label]
}

fn sign_put_in(label: &str, column: usize) -> String {
    let before: String = label.chars().take(column - 1).collect();
    let after: String = label.chars().skip(column - 1).collect();
    format!("{} × {after}", before.trim_end())
}

/// A supplier's or registry's code at the very front of a label: a word that holds a digit.
fn stock_code(label: &str, refusal: &Refusal) -> Option<String> {
    let word = label.split_whitespace().next()?;
    let first = label
        .chars()
        .take_while(|letter| letter.is_whitespace())
        .count()
        + 1;
    let coded = |letter: char| letter.is_alphanumeric() || "-.#_".contains(letter);
    let is_code = refusal.readings.is_empty()
        && refusal.column == first
        && word.chars().all(coded)
        && word.contains(|letter: char| letter.is_ascii_digit());
    is_code.then(|| word.to_owned())
}

/// The code moved behind the whole and behind the first name: it may be of the lot or of the seed parent alone.
fn with_code_behind(label: &str, vocabulary: &Vocabulary, refusal: &Refusal) -> Vec<String> {
    let Some(code) = stock_code(label, refusal) else {
        return Vec::new();
    };
    let rest = label
        .trim_start()
        .get(code.len()..)
        .unwrap_or_default()
        .trim();
    let tokens = cut(rest, vocabulary).map_or_else(|_| Vec::new(), |cut| cut.tokens);
    let name = |token: &&Token| {
        let word = token.text.to_lowercase();
        token.kind == Kind::Word
            && (vocabulary.species(&word).is_some() || vocabulary.named_hybrid(&word).is_some())
    };
    let of_first = tokens.iter().find(name).map(|token| {
        let before: String = rest.chars().take(token.end - 1).collect();
        let after: String = rest.chars().skip(token.end - 1).collect();
        format!("{before} [{code}]{after}")
    });
    std::iter::once(format!("({rest}) [{code}]"))
        .chain(of_first)
        .collect()
}

fn distinct(texts: impl Iterator<Item = String>) -> Vec<String> {
    let mut seen = Vec::new();
    for text in texts {
        if !seen.contains(&text) {
            seen.push(text);
        }
    }
    seen
}

/// The ways a label can be read: one, or the two nestings of a chain.
fn nestings(label: &str, vocabulary: &Vocabulary) -> Vec<String> {
    let nested = |nesting| {
        written_as(
            label,
            vocabulary,
            How {
                nesting,
                ..How::PLAIN
            },
        )
    };
    let ways = [Nesting::FromLeft, Nesting::FromRight].into_iter();
    distinct(ways.filter_map(nested))
}

/// The canonical text of a label where it can be read, else the label itself. Other words of it that can only mean one
/// thing are put in too.
fn offered(label: &str, vocabulary: &Vocabulary) -> String {
    let mut label = label.to_owned();
    for _ in 0..MOST_OFFERED {
        match parsed(&label, vocabulary, How::PLAIN) {
            Ok(_) => break,
            Err(refusal) if is_of_a_word(refusal.code) && refusal.readings.len() == 1 => {
                label = replaced(&label, vocabulary, refusal.column, &refusal.readings[0]);
            }
            Err(_) => break,
        }
    }
    written_as(&label, vocabulary, How::PLAIN).unwrap_or(label)
}

fn is_of_a_word(code: RefusalCode) -> bool {
    matches!(
        code,
        RefusalCode::UndeclaredCode | RefusalCode::UnknownEpithet
    )
}

fn written_as(label: &str, vocabulary: &Vocabulary, how: How) -> Option<String> {
    let formula = parsed(label, vocabulary, how).ok()?.formula;
    formula_only(&formula, &Writing::plain(vocabulary)).ok()
}

/// The label with the word at a column replaced.
fn replaced(label: &str, vocabulary: &Vocabulary, column: usize, word: &str) -> String {
    let tokens = cut(label, vocabulary)
        .map(|cut| cut.tokens)
        .unwrap_or_default();
    let end = tokens
        .iter()
        .find(|token| token.column == column)
        .map_or(column, |token| token.end);
    let letters: Vec<char> = label.chars().collect();
    let before: String = letters[..column - 1].iter().collect();
    let after: String = letters[(end - 1).min(letters.len())..].iter().collect();
    format!("{before}{word}{after}")
}
