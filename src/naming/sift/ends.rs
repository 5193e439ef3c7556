//! Both ends of a label, walked inwards.

use crate::naming::token::{INCH, Kind, Token};
use crate::naming::vocabulary::Vocabulary;

use super::facts::LabelFacts;
use super::piece::{Piece, is_code, is_ornament, is_year, piece, plain_words};
use super::words::{begins_place, is_meant};

/// Longest stretch that is looked up, in words.
pub(super) const LONGEST: usize = 4;

/// A stretch of tokens from one place to another, and what it says; nothing for an ornament.
type Stretch = (usize, usize, Option<(Piece, String)>);

/// A label whose ends are being cleared.
pub struct Ends<'t> {
    pub(super) tokens: &'t [Token],
    pub(super) vocabulary: &'t Vocabulary,
    pub(super) kept: Vec<bool>,
    found: Vec<(usize, Piece, String)>,
}

impl<'t> Ends<'t> {
    pub fn of(tokens: &'t [Token], vocabulary: &'t Vocabulary) -> Self {
        Self {
            tokens,
            vocabulary,
            kept: vec![true; tokens.len()],
            found: Vec::new(),
        }
    }

    /// Which tokens stay, and what the others said.
    pub fn taken_off(mut self) -> (Vec<bool>, LabelFacts) {
        let strokes = self
            .tokens
            .iter()
            .any(|token| matches!(token.kind, Kind::Stroke(_)));
        if !strokes {
            let from = self.front();
            self.back(from);
        }
        self.found.sort_by_key(|(at, ..)| *at);
        let mut facts = LabelFacts::default();
        for (_, piece, text) in self.found {
            let slot = match piece {
                Piece::Grown(how) if facts.grown_from.is_none() => {
                    facts.grown_from = Some(how);
                    continue;
                }
                Piece::Code => &mut facts.stock_code,
                Piece::Size => &mut facts.size,
                Piece::Place => &mut facts.place,
                Piece::Aside | Piece::Grown(_) => {
                    facts.set_aside.push(text);
                    continue;
                }
            };
            match slot {
                None => *slot = Some(text),
                Some(_) => facts.set_aside.push(text),
            }
        }
        (self.kept, facts)
    }

    pub(super) fn text(&self, from: usize, to: usize) -> String {
        let words: Vec<&str> = self.tokens[from..to]
            .iter()
            .map(|token| token.text.as_str())
            .collect();
        words.join(" ").replace(INCH, "\"")
    }

    pub(super) fn take(&mut self, from: usize, to: usize, piece: Piece, text: String) {
        self.kept[from..to].fill(false);
        if text.chars().any(|letter| letter.is_alphanumeric()) {
            self.found.push((from, piece, text));
        }
    }

    /// Clears the back, as far as every word is understood.
    fn back(&mut self, from: usize) {
        let mut end = self.tokens.len();
        let mut passed: Vec<Stretch> = Vec::new();
        loop {
            if end > from + 1 && is_ornament(&self.tokens[end - 1]) && self.may_drop(end, &passed) {
                end -= 1;
                passed.push((end, end + 1, None));
            } else if let Some((piece, start, text)) = self.back_piece(from, end) {
                passed.push((start, end, Some((piece, text))));
                end = start;
            } else {
                break;
            }
        }
        // A word not understood in front of them makes them one label with it.
        if self.ends_in_unknown_word(from, end) {
            return;
        }
        // An ornament that stands alone in front of what was taken off is kept when nothing was.
        let any = passed.iter().any(|(_, _, found)| found.is_some());
        for (start, stop, found) in passed {
            match found {
                Some((piece, text)) => self.take(start, stop, piece, text),
                None if any || self.tokens[start].kind != Kind::Sign => {
                    self.take(start, stop, Piece::Aside, String::new());
                }
                None => {}
            }
        }
    }

    /// A star or picture at the very end may stand for a parent; behind it a title must have been taken off.
    fn may_drop(&self, end: usize, passed: &[Stretch]) -> bool {
        let token = &self.tokens[end - 1];
        let titled = passed.iter().any(|(_, _, found)| found.is_some());
        let after_sign =
            self.tokens[end - 2].kind == Kind::Sign && self.tokens[end - 2].text != "*";
        match token.kind {
            Kind::Sign | Kind::Star => titled,
            _ => !after_sign,
        }
    }

    fn ends_in_unknown_word(&self, from: usize, end: usize) -> bool {
        let Some(token) = end
            .checked_sub(1)
            .filter(|last| *last >= from)
            .map(|last| &self.tokens[last])
        else {
            return false;
        };
        let word = token.text.to_lowercase();
        let word = word.trim_end_matches('.');
        let number = word
            .chars()
            .all(|letter| letter.is_ascii_digit() || letter == '-');
        token.kind == Kind::Word && number && !word.is_empty()
    }

    fn back_piece(&self, from: usize, end: usize) -> Option<(Piece, usize, String)> {
        let last = end.checked_sub(1).filter(|last| *last > from)?;
        if self.tokens[last].kind == Kind::Close {
            let open = (from..last).find(|&at| self.tokens[at].kind == Kind::Open(last))?;
            let piece = self.bracketed(&self.tokens[open + 1..last])?;
            // In square brackets a code stands with the name, as a registry writes it.
            let of_name = piece == Piece::Code && self.tokens[open].text == "[";
            return (open > from && !of_name).then(|| (piece, open, self.text(open + 1, last)));
        }
        if self.tokens[last].kind != Kind::Word {
            return None;
        }
        if let Some(start) = self.place_from(from, end) {
            let word = self.tokens[start].text.to_lowercase();
            let begin = start + usize::from(matches!(word.as_str(), "from" | "ex"));
            return Some((Piece::Place, start, self.text(begin, end)));
        }
        if self.is_own_code(last) && self.is_only_code(from, last) {
            return Some((Piece::Code, last, self.tokens[last].text.clone()));
        }
        let longest = (end - from).saturating_sub(1).min(LONGEST);
        let shortest = if self.is_behind_clone(last) { 2 } else { 1 };
        (shortest..=longest).rev().find_map(|length| {
            let start = end - length;
            let found = piece(&self.tokens[start..end], self.vocabulary)?;
            Some((found, start, self.text(start, end)))
        })
    }

    /// What stands in brackets, when it is one piece and no more.
    pub(super) fn bracketed(&self, inside: &[Token]) -> Option<Piece> {
        match inside {
            [] => None,
            [one] if one.kind == Kind::Word && self.is_code_word(&one.text) => Some(Piece::Code),
            _ => piece(inside, self.vocabulary).filter(|piece| {
                *piece != Piece::Aside || inside.len() > 1 || plain_words(inside).is_some()
            }),
        }
    }

    fn is_code_word(&self, word: &str) -> bool {
        let capital = word.starts_with(|letter: char| letter.is_ascii_uppercase());
        let digits = word.chars().filter(char::is_ascii_digit).count();
        capital && digits >= 2 && is_code(word, self.vocabulary)
    }

    /// In square brackets a code is the plant's own in a registry and stays with the name.
    fn is_own_code(&self, at: usize) -> bool {
        self.tokens[at].kind == Kind::Word && self.is_code_word(&self.tokens[at].text)
    }

    /// A code behind every parent is of that parent.
    fn is_only_code(&self, from: usize, last: usize) -> bool {
        !self.is_behind_clone(last) && !(from..last).any(|at| self.is_own_code(at))
    }

    /// `clone rare`: a word right behind "clone" is the clone's name, whatever it says elsewhere.
    fn is_behind_clone(&self, at: usize) -> bool {
        let before = self.tokens[..at].last();
        before.is_some_and(|token| matches!(token.text.to_lowercase().as_str(), "clone" | "cl"))
    }

    /// Where a place begins that ends here: `from Sarawak`, `ex Mt. Trusmadi`, `Gunung Mulu`.
    fn place_from(&self, from: usize, end: usize) -> Option<usize> {
        let earliest = end.saturating_sub(LONGEST).max(from + 1);
        (earliest..end.saturating_sub(1)).find(|&start| {
            let words = plain_words(&self.tokens[start..end]).unwrap_or_default();
            let Some((first, rest)) = words.split_first() else {
                return false;
            };
            let begins = matches!(first.as_str(), "from" | "ex") || begins_place(first);
            let capital =
                |token: &Token| token.text.starts_with(|letter: char| letter.is_uppercase());
            begins
                && self.tokens[start + 1..end].iter().all(capital)
                && rest.iter().all(|word| self.is_of_place(word))
        })
    }

    fn is_of_place(&self, word: &str) -> bool {
        !self.vocabulary.means_a_plant(word)
            && !self.vocabulary.is_genus(word)
            && !self.vocabulary.is_author(word)
            && !is_meant(word)
            && !is_year(word)
            && word
                .chars()
                .all(|letter| letter.is_alphabetic() || letter == '-')
    }
}
