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

/// How many ways of putting a label right are tried.
const MOST_TRIED: usize = 40;

/// Turns what the parser could offer into readings of the whole label.
pub(super) fn offers(label: &str, vocabulary: &Vocabulary, refusal: Refusal) -> Refusal {
    if label.len() > OFFER_WITHIN {
        return refusal.with_readings(Vec::new());
    }
    let each = |texts: &[String]| {
        let all = texts.iter().flat_map(|text| completed(text, vocabulary));
        distinct(all.take(MOST_OFFERED))
    };
    let readable =
        |texts: Vec<String>| distinct(texts.iter().flat_map(|t| nestings(t, vocabulary)));
    let readings = match refusal.code {
        RefusalCode::AmbiguousChain | RefusalCode::PurdyAmbiguous => nestings(label, vocabulary),
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
            if labels.is_empty() {
                readable(quoted_word(label, vocabulary, refusal.column))
            } else {
                each(&labels)
            }
        }
        RefusalCode::SexOfWhich | RefusalCode::HybridOfWhich => refusal.readings.clone(),
        RefusalCode::ParentMissing => readable(with_unknown(label, vocabulary, refusal.column)),
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
    let readable = |text: &String| parsed(text, vocabulary, How::PLAIN).is_ok();
    let readings = readings.into_iter().filter(readable).collect();
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

/// The word that means nothing known, in double quotes as a label.
fn quoted_word(label: &str, vocabulary: &Vocabulary, column: usize) -> Vec<String> {
    let tokens = cut(label, vocabulary).map_or_else(|_| Vec::new(), |cut| cut.tokens);
    let word = tokens
        .iter()
        .find(|token| token.column == column && token.kind == Kind::Word);
    let letters = |token: &&Token| token.text.chars().filter(|c| c.is_alphabetic()).count() >= 3;
    word.filter(letters)
        .map(|token| replaced(label, vocabulary, column, &format!("\"{}\"", token.text)))
        .into_iter()
        .collect()
}

/// `x lowii`, `lowii x`: the parent that is missing, written as not known.
fn with_unknown(label: &str, vocabulary: &Vocabulary, column: usize) -> Vec<String> {
    let tokens = cut(label, vocabulary).map_or_else(|_| Vec::new(), |cut| cut.tokens);
    let Some(at) = tokens.iter().position(|token| token.column == column) else {
        let ends_in_sign = tokens.last().is_some_and(|last| last.kind == Kind::Sign);
        let named = tokens.iter().any(|token| token.kind == Kind::Word);
        return if ends_in_sign && named {
            vec![format!("{label} ?")]
        } else {
            Vec::new()
        };
    };
    let named = tokens[at + 1..].iter();
    let named = named
        .into_iter()
        .find(|token| !vocabulary.is_genus(&token.text));
    match (&tokens[at].kind, named) {
        (Kind::Sign, Some(next)) if next.kind == Kind::Word => {
            let partner = format!("({} × ?, direction unknown)", next.text);
            let label = replaced(label, vocabulary, next.column, &partner);
            vec![replaced(&label, vocabulary, column, " ")]
        }
        _ => Vec::new(),
    }
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

/// What a label may say once every word of it that means nothing known is put right, as far as that can be read.
fn completed(label: &str, vocabulary: &Vocabulary) -> Vec<String> {
    let mut open = std::collections::VecDeque::from([label.to_owned()]);
    let mut found = Vec::new();
    for _ in 0..MOST_TRIED {
        let Some(label) = open.pop_front() else {
            break;
        };
        match parsed(&label, vocabulary, How::PLAIN) {
            Ok(_) => found.extend(written_as(&label, vocabulary, How::PLAIN)),
            Err(refusal) if is_of_a_word(refusal.code) => {
                let words = refusal.readings.iter().take(MOST_OFFERED);
                open.extend(words.map(|word| replaced(&label, vocabulary, refusal.column, word)));
            }
            Err(_) => {}
        }
        if found.len() >= MOST_OFFERED {
            break;
        }
    }
    found
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
