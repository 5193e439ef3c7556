//! A label with its brackets or quotes put right, as far as one change or a few closing brackets can do it.

use crate::naming::notes::{Refusal, RefusalCode};
use crate::naming::sift::{is_doubt, is_hybrid};
use crate::naming::token::{closing, cut};
use crate::naming::vocabulary::Vocabulary;

/// How many brackets are closed for the grower.
const MOST_CLOSED: usize = 8;

/// The labels that may have been meant, unread; empty when the refusal is of another kind.
pub(super) fn mended(label: &str, vocabulary: &Vocabulary, refusal: &Refusal) -> Vec<String> {
    let found = label.chars().nth(refusal.column - 1);
    match (refusal.code, found) {
        (RefusalCode::BracketNotClosed, _) => closed(label, vocabulary).into_iter().collect(),
        (RefusalCode::BracketNotOpened, _) => vec![with_letter(label, refusal.column, " ")],
        (RefusalCode::BracketsDiffer, _) => [")", "]", "}"]
            .map(|bracket| with_letter(label, refusal.column, bracket))
            .to_vec(),
        (RefusalCode::QuoteNotClosed, Some(quote)) => {
            vec![quote_closed(label, refusal.column, quote)]
        }
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

/// The label with its open quote closed at the end, or before the first word that says hybrid or doubts the plant: such a
/// word stays to be read. A quote with nothing else behind it is taken out.
fn quote_closed(label: &str, column: usize, quote: char) -> String {
    let open: usize = label.chars().take(column).map(char::len_utf8).sum();
    let mut at = open;
    for word in label[open..].split_inclusive(char::is_whitespace) {
        let mut parts = word.split(|letter: char| !letter.is_alphabetic());
        if word.contains('?') || parts.any(|part| is_meant(&part.to_lowercase())) {
            return match label[open..at].trim() {
                "" => with_letter(label, column, " "),
                _ => format!("{}{quote} {}", label[..at].trim_end(), &label[at..]),
            };
        }
        at += word.len();
    }
    format!("{label}{quote}")
}

fn is_meant(word: &str) -> bool {
    is_hybrid(word) || is_doubt(word)
}
