//! The front of a label, as far as every word is understood.

use crate::naming::token::{Kind, is_picture};

use super::ends::{Ends, LONGEST};
use super::piece::{Piece, is_code, is_ornament, is_year, piece};
use super::words::{is_doubt, is_hybrid, is_meant, is_other_genus};

impl Ends<'_> {
    /// Clears the front; gives the place where the name begins.
    pub(super) fn front(&mut self) -> usize {
        let mut at = 0;
        while at < self.tokens.len() {
            let token = &self.tokens[at];
            let word = token.text.to_lowercase();
            let word = word.trim_end_matches('.');
            if self.ornament_in_front(at) {
                self.take(at, at + 1, Piece::Aside, String::new());
                at += 1;
            } else if let Some((piece, length, text)) = self.front_piece(at) {
                self.take(at, at + length, piece, text);
                at += length;
            } else if token.kind == Kind::Word
                && self.is_kept_doubt(word)
                && (at > 0 || self.title_ahead(1))
            {
                at += 1;
            } else {
                let length = self.words_before_genus(at);
                if length == 0 {
                    break;
                }
                let text = self.text(at, at + length);
                self.take(at, at + length, Piece::Aside, text);
                at += length;
            }
        }
        at
    }

    fn is_kept_doubt(&self, word: &str) -> bool {
        (is_doubt(word) || is_hybrid(word)) && !self.vocabulary.means_a_plant(word)
    }

    fn title_ahead(&self, at: usize) -> bool {
        self.front_piece(at).is_some() || self.words_before_genus(at) > 0
    }

    /// A picture before a sign may stand for a parent; it stays to be refused.
    fn ornament_in_front(&self, at: usize) -> bool {
        let token = &self.tokens[at];
        let next = self.tokens.get(at + 1);
        let for_parent =
            token.text.chars().any(is_picture) && next.is_none_or(|next| next.kind == Kind::Sign);
        let before_name = next.is_some_and(|next| {
            matches!(next.kind, Kind::Open(_)) || self.vocabulary.is_genus(&next.text)
        });
        let taken = self.kept[..at].iter().any(|kept| !kept);
        let sign_of_name = token.kind == Kind::Sign && !taken && !before_name;
        is_ornament(token) && !for_parent && !sign_of_name && next.is_some()
    }

    fn front_piece(&self, at: usize) -> Option<(Piece, usize, String)> {
        let rest = &self.tokens[at..];
        let first = rest.first()?;
        if let Kind::Open(close) = first.kind {
            let inside = &self.tokens[at + 1..close];
            let piece = self.bracketed(inside)?;
            let follows = self.tokens.get(close + 1);
            let of_name = follows.is_some_and(|next| next.kind != Kind::Sign);
            return of_name.then(|| (piece, close + 1 - at, self.text(at + 1, close)));
        }
        if first.kind != Kind::Word {
            return None;
        }
        if self.counted(at) {
            return Some((Piece::Aside, 2, self.text(at, at + 2)));
        }
        if is_code(&first.text, self.vocabulary) && self.name_behind(at + 1) {
            let code = first.text.trim_end_matches([':', '.']).to_owned();
            return Some((Piece::Code, 1, code));
        }
        // `2019 lowii`: when it was bought or sown; a year in front publishes nothing.
        let before_word = rest.get(1).is_some_and(|next| next.kind == Kind::Word);
        if is_year(&first.text) && before_word && self.name_behind(at + 1) {
            return Some((Piece::Aside, 1, first.text.clone()));
        }
        let longest = rest.len().min(LONGEST);
        (1..=longest).rev().find_map(|length| {
            let found = piece(&rest[..length], self.vocabulary)?;
            let ends = rest.get(length).is_some_and(|next| next.kind != Kind::Sign);
            ends.then(|| (found, length, self.text(at, at + length)))
        })
    }

    /// `5 x Nepenthes …`: a number of plants, not a cross.
    fn counted(&self, at: usize) -> bool {
        let [number, sign, next, ..] = &self.tokens[at..] else {
            return false;
        };
        number.text.len() <= 2
            && number.text.chars().all(|letter| letter.is_ascii_digit())
            && sign.kind == Kind::Sign
            && next.kind == Kind::Word
            && self.vocabulary.is_genus(&next.text)
    }

    /// Whether something that can be a name stands behind a code: a genus, an epithet, a bracket or quotes.
    fn name_behind(&self, at: usize) -> bool {
        self.tokens
            .get(at)
            .is_some_and(|next| next.kind != Kind::Sign || next.text != "*")
            && self.tokens[at..].iter().any(|token| match token.kind {
                Kind::Open(_) | Kind::Single | Kind::Double => true,
                Kind::Word => {
                    self.vocabulary.is_genus(&token.text)
                        || self.vocabulary.means_a_plant(&token.text.to_lowercase())
                }
                _ => false,
            })
            && self.tokens.get(at).is_some_and(|next| match next.kind {
                Kind::Sign => self.tokens[at + 1..]
                    .iter()
                    .all(|token| token.kind != Kind::Sign),
                _ => true,
            })
    }

    /// How many words before a genus written out are no names and change nothing of one.
    fn words_before_genus(&self, at: usize) -> usize {
        for (length, token) in self.tokens[at..].iter().enumerate() {
            let word = token.text.to_lowercase();
            let word = word.trim_end_matches('.');
            match token.kind {
                Kind::Word if self.is_genus_in_full(word) => return length,
                Kind::Word
                    if !self.vocabulary.means_a_plant(word)
                        && !self.vocabulary.is_genus(word)
                        && !is_meant(word)
                        && !is_other_genus(word) => {}
                Kind::Comma | Kind::Plus => {}
                _ => return 0,
            }
        }
        0
    }

    fn is_genus_in_full(&self, word: &str) -> bool {
        word.chars().count() >= 5 && self.vocabulary.is_genus(word)
    }
}
