//! Readings to choose from when a label is refused: the whole label, each way it may have been meant.

use crate::naming::formula::{Direction, Formula, Part};
use crate::naming::notes::{Refusal, RefusalCode};
use crate::naming::parse::How;
use crate::naming::sift::{LabelFacts, sift};
use crate::naming::token::{Kind, Token, cut};
use crate::naming::vocabulary::Vocabulary;
use crate::naming::write::{Writing, bracketed, breeder, formula_only};

use super::labelled::{Labelled, labelled};
use super::mended::mended;

/// How long a label may be for its alternatives to be worked out, in bytes.
const OFFER_WITHIN: usize = 10_000;

/// How many alternatives are offered for one word.
const MOST_OFFERED: usize = 8;

/// How many ways of putting a label right are tried.
const MOST_TRIED: usize = 40;

/// One way in which the label may be read.
pub(super) struct Offer {
    /// The name, to be written in the label's place.
    pub text: String,
    /// What the label then says beside it.
    pub facts: LabelFacts,
}

/// A label on the way to being read: put right so far, with the answers given to what it leaves open.
struct Attempt {
    label: String,
    answers: Vec<u8>,
}

impl Attempt {
    fn new(label: String) -> Self {
        Self {
            label,
            answers: Vec::new(),
        }
    }

    /// The ways on from a refusal: each answer to its question, each known word for one that means nothing.
    fn further(self, refusal: &Refusal, vocabulary: &Vocabulary) -> Vec<Self> {
        let answered = (0..refusal.ways).map(|answer| Self {
            label: self.label.clone(),
            answers: self.answers.iter().copied().chain([answer]).collect(),
        });
        let words = refusal.readings.iter().take(MOST_OFFERED);
        let words = words.filter(|_| is_of_a_word(refusal.code));
        let worded = words.map(|word| Self {
            label: replaced(&self.label, vocabulary, refusal.column, word),
            answers: self.answers.clone(),
        });
        answered.chain(worded).collect()
    }
}

/// Readings of the whole label for what the parser could not decide; each carries every word that was read.
pub(super) fn offers(
    label: &str,
    vocabulary: &Vocabulary,
    how: How<'_>,
    refusal: &Refusal,
) -> Vec<Offer> {
    if label.len() > OFFER_WITHIN {
        return Vec::new();
    }
    let mut offers = completed(put_right(label, vocabulary, refusal), vocabulary, how);
    offers.retain(|offer| labelled(&offer.text, vocabulary, How::PLAIN).is_ok());
    offers
}

/// The label put right in each way that its first refusal allows.
fn put_right(label: &str, vocabulary: &Vocabulary, refusal: &Refusal) -> Vec<Attempt> {
    let further = Attempt::new(label.to_owned()).further(refusal, vocabulary);
    if !further.is_empty() {
        return further;
    }
    let labels = match refusal.code {
        RefusalCode::NotANamedHybrid => {
            let words = refusal.readings.iter().take(MOST_OFFERED);
            words
                .map(|word| replaced(label, vocabulary, refusal.column, word))
                .collect()
        }
        code if is_of_a_word(code) => quoted_word(label, vocabulary, refusal.column),
        RefusalCode::ParentMissing => with_unknown(label, vocabulary, refusal.column),
        RefusalCode::SignMissing => with_sign(label, vocabulary, refusal.column),
        _ => mended(label, vocabulary, refusal),
    };
    labels.into_iter().map(Attempt::new).collect()
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
        return std::iter::once(crossed)
            .chain(as_mixture(label, vocabulary))
            .collect();
    }
    let mut label = sign_put_in(label, column);
    for _ in 0..MOST_OFFERED {
        match labelled(&label, vocabulary, How::PLAIN) {
            Err(again) if again.code == RefusalCode::SignMissing && again.column > column => {
                label = sign_put_in(&label, again.column);
            }
            _ => break,
        }
    }
    vec![label]
}

/// The name as pollen of several plants on one that was left out; what stands around the name stays around it.
fn as_mixture(label: &str, vocabulary: &Vocabulary) -> Option<String> {
    let tokens = sift(cut(label, vocabulary).ok()?, vocabulary).cut.tokens;
    let (first, last) = (tokens.first()?, tokens.last()?);
    let letters: Vec<char> = label.chars().collect();
    let text = |from: usize, to: usize| letters[from..to].iter().collect::<String>();
    let (from, to) = (first.column - 1, (last.end - 1).min(letters.len()));
    let (before, name, after) = (text(0, from), text(from, to), text(to, letters.len()));
    Some(format!("{before}? × mixed pollen ({name}){after}"))
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

/// What labels may say once every question is answered and every word that means nothing is put right, as far as that can
/// be read; the first answers first.
fn completed(mut open: Vec<Attempt>, vocabulary: &Vocabulary, how: How<'_>) -> Vec<Offer> {
    open.reverse();
    let mut found: Vec<Offer> = Vec::new();
    for _ in 0..MOST_TRIED {
        let Some(attempt) = open.pop().filter(|_| found.len() < MOST_OFFERED) else {
            break;
        };
        let answers = &attempt.answers;
        match labelled(&attempt.label, vocabulary, How { answers, ..how }) {
            Ok(read) => {
                let offer = offer(read, vocabulary);
                let new = |offer: &Offer| found.iter().all(|other| other.text != offer.text);
                found.extend(offer.filter(new));
            }
            Err(refusal) => open.extend(attempt.further(&refusal, vocabulary).into_iter().rev()),
        }
    }
    found
}

/// A reading written so that it is read back the same: with the plant's sex, and the order of parents where it is known.
fn offer(read: Labelled, vocabulary: &Vocabulary) -> Option<Offer> {
    let (formula, facts) = (&read.parsed.formula, read.facts);
    let writing = Writing::plain(vocabulary);
    let text = match order_is_known(formula) {
        true => breeder(formula, &writing),
        false => formula_only(formula, &writing),
    };
    let text = text.ok()?;
    let text = match (facts.sex, formula.part(formula.top())) {
        (None, _) => text,
        (Some(sex), Part::Leaf(_)) => format!("{text} {}", sex.mark()),
        (Some(sex), _) => format!("{} {}", bracketed(&text), sex.mark()),
    };
    Some(Offer { text, facts })
}

/// Which parent bore the seed is known of at least one cross and assumed of none.
fn order_is_known(formula: &Formula) -> bool {
    let of = |wanted: Direction| {
        formula.parts().any(|(_, part)| match part {
            Part::Cross(cross) => cross.is_written_out() && cross.direction == wanted,
            _ => false,
        })
    };
    of(Direction::Known) && !of(Direction::Assumed)
}

fn is_of_a_word(code: RefusalCode) -> bool {
    matches!(
        code,
        RefusalCode::UndeclaredCode | RefusalCode::UnknownEpithet
    )
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
