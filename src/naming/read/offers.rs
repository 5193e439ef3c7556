//! Readings to choose from when a label is refused: the whole label, each way it may have been meant.

use crate::naming::notes::{Refusal, RefusalCode};
use crate::naming::parse::{How, Nesting};
use crate::naming::token::cut;
use crate::naming::vocabulary::Vocabulary;
use crate::naming::write::{Writing, formula_only};

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
    let readings = match refusal.code {
        RefusalCode::AmbiguousChain | RefusalCode::PurdyAmbiguous => nestings(label, vocabulary),
        RefusalCode::UndeclaredCode | RefusalCode::UnknownEpithet => {
            let words = refusal.readings.iter().take(MOST_OFFERED);
            let labels: Vec<String> = words
                .map(|word| replaced(label, vocabulary, refusal.column, word))
                .collect();
            each(&labels)
        }
        RefusalCode::SignMissing => each(&[with_sign(label, refusal.column)]),
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
        _ => each(&refusal.readings),
    };
    refusal.with_readings(readings)
}

/// The label with a sign put in before a column.
fn with_sign(label: &str, column: usize) -> String {
    let before: String = label.chars().take(column - 1).collect();
    let after: String = label.chars().skip(column - 1).collect();
    format!("{} × {after}", before.trim_end())
}

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
    [Nesting::FromLeft, Nesting::FromRight]
        .into_iter()
        .filter_map(nested)
        .collect()
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
