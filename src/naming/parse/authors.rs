//! Authors and years behind a name cite where it was published. They are no clone and no label.

use crate::naming::formula::{Leaf, Part};
use crate::naming::notes::{NoteCode, Refusal};
use crate::naming::token::Kind;

use super::parser::Parser;

impl Parser<'_> {
    /// How many tokens from a place on cite authors and perhaps a year; 0 when they do not.
    pub(super) fn citation(&self, from: usize, to: usize) -> usize {
        let mut at = from;
        let mut named = false;
        while at < to {
            let token = &self.tokens[at];
            let word = token.text.as_str();
            let joins = matches!(
                word.trim_end_matches('.'),
                "ex" | "et" | "in" | "&" | "f" | "and"
            );
            let author = token.kind == Kind::Word
                && word.starts_with(char::is_uppercase)
                && self.vocabulary.is_author(word)
                && !self.vocabulary.means_a_plant(&super::parser::bare(word));
            match token.kind {
                Kind::Word if author => named = true,
                Kind::Word | Kind::Plus if joins && named => {}
                Kind::Comma if named && self.is_year_of_name(at + 1, to) => {}
                Kind::Word if self.is_year_of_name(at, to) => return at + 1 - from,
                _ => break,
            }
            at += 1;
        }
        let ended = at
            .checked_sub(1)
            .filter(|_| named)
            .map(|last| &self.tokens[last]);
        match ended {
            Some(last) if matches!(last.text.as_str(), "ex" | "et" | "in" | "&" | "and") => 0,
            Some(_) => at - from,
            None => 0,
        }
    }

    /// A year that is the one in which the species before it was published.
    fn is_year_of_name(&self, at: usize, to: usize) -> bool {
        let Some(token) = self.tokens[..to]
            .get(at)
            .filter(|token| token.kind == Kind::Word)
        else {
            return false;
        };
        let year = token.text.trim_end_matches(['.', ',']).parse::<u16>().ok();
        year.is_some() && year == self.year_of_current()
    }

    pub(super) fn year_of_current(&self) -> Option<u16> {
        let frame = self.frames.last()?;
        match self.builder.part(frame.parents.last()?.part) {
            Part::Leaf(Leaf::Species { epithet, .. }) => self.vocabulary.species(epithet)?.year,
            _ => None,
        }
    }

    /// Passes over a citation.
    pub(super) fn set_authors_aside(&mut self, words: usize) -> Result<(), Refusal> {
        let text = format!(
            "`{}` cites where the name was published; it is no part of the plant's name",
            self.raw(self.at, self.at + words)
        );
        self.notes.say(NoteCode::AuthorsSetAside, text);
        self.skip(words)
    }
}
