//! A label with its brackets or quotes put right, as far as one change or a few closing brackets can do it.

use crate::naming::notes::{Refusal, RefusalCode};
use crate::naming::token::{closing, cut};
use crate::naming::vocabulary::Vocabulary;

/// How many brackets are closed for the grower.
const MOST_CLOSED: usize = 8;

/// The labels that may have been meant, unread; empty when the refusal is of another kind.
pub(super) fn mended(label: &str, vocabulary: &Vocabulary, refusal: &Refusal) -> Vec<String> {
    let found = label.chars().nth(refusal.column - 1);
    match (refusal.code, found) {
        (RefusalCode::BracketNotClosed, _) => closed(label, vocabulary).into_iter().collect(),
        (RefusalCode::BracketNotOpened, _) => vec![with_letter(label, refusal.column, "")],
        (RefusalCode::BracketsDiffer, _) => [")", "]", "}"]
            .map(|bracket| with_letter(label, refusal.column, bracket))
            .to_vec(),
        (RefusalCode::QuoteNotClosed, Some(quote)) => vec![format!("{label}{quote}")],
        _ => Vec::new(),
    }
}

/// The label with every open bracket closed at its end, the innermost first.
fn closed(label: &str, vocabulary: &Vocabulary) -> Option<String> {
    let mut label = label.to_owned();
    for _ in 0..MOST_CLOSED {
        match cut(&label, vocabulary) {
            Ok(_) => return Some(label),
            Err(open) if open.code == RefusalCode::BracketNotClosed => {
                label.push(closing(label.chars().nth(open.column - 1)?));
            }
            Err(_) => return None,
        }
    }
    cut(&label, vocabulary).is_ok().then_some(label)
}

/// The label with the letter at a column replaced.
fn with_letter(label: &str, column: usize, letter: &str) -> String {
    let before: String = label.chars().take(column - 1).collect();
    let after: String = label.chars().skip(column).collect();
    format!("{before}{letter}{after}")
}
