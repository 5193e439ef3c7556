//! A bracket that says something of the name before it: a doubt, hybrid, a citation, the name received, another species.

use crate::naming::formula::{Leaf, Part, Tag};
use crate::naming::notes::{Refusal, RefusalCode};
use crate::naming::sift::{is_doubt, is_hybrid};
use crate::naming::token::Kind;

use super::parser::{Parser, bare};

impl Parser<'_> {
    /// A bracket that doubts, says hybrid, or cites authors.
    pub(super) fn said_in_bracket(&mut self, close: usize) -> Option<Result<(), Refusal>> {
        let (from, all) = (self.at + 1, close + 1 - self.at);
        if self.only_doubts(from, close) {
            return Some(self.doubt_behind(all));
        }
        if let [received, r#as, name] = &self.tokens[from..close]
            && received.text == "received"
            && r#as.text == "as"
            && name.kind == Kind::Double
        {
            let name = name.text.clone();
            self.tag(Tag::Received(name));
            return Some(self.skip(all));
        }
        let words = self.raw(from, close).to_lowercase();
        let natural = ["natural", "nat hyb", "nat. hyb", "wild hyb"];
        if natural.iter().any(|start| words.starts_with(start)) && self.natural_only(from, close) {
            return Some(self.natural_hybrid(all));
        }
        if self.only_hybrid(from, close) {
            let doubted = self.tokens[from..close]
                .iter()
                .any(|token| token.kind == Kind::Question || is_doubt(&bare(&token.text)));
            let read = self.hybrid_behind(all);
            if doubted {
                self.doubt_part();
            }
            return Some(read);
        }
        let is_citation = self.citation(from, close) == close - from
            || (all == 3
                && self
                    .year_of_current()
                    .is_some_and(|year| words == year.to_string()));
        is_citation.then(|| self.set_authors_aside(all))
    }

    pub(super) fn natural_only(&self, from: usize, to: usize) -> bool {
        let of_it = |word: &str| matches!(word, "natural" | "nat" | "wild") || is_hybrid(word);
        self.tokens[from..to]
            .iter()
            .all(|token| token.kind == Kind::Word && of_it(&bare(&token.text)))
    }

    /// Another species in a bracket behind the first: a synonym, a parent, another opinion? It is not for us to say.
    pub(super) fn no_second_species(&mut self, close: usize) -> Result<(), Refusal> {
        if self.names_a_hybrid(close) {
            return Ok(());
        }
        let taxon = |word: &str| {
            let word = self.vocabulary.accepted(word).unwrap_or(word);
            let known = self.vocabulary.species(word).is_some() || self.is_hybrid_word(word);
            known.then(|| word.to_owned())
        };
        let words = self.tokens[self.at + 1..close].iter().take(64);
        let named = words
            .filter(|token| token.kind == Kind::Word)
            .find_map(|token| taxon(&bare(&token.text)));
        let Some(named) = named else {
            return Ok(());
        };
        let single = self.frames.len() == 1 && self.frame().joins.is_empty();
        let current = self.current().map(|part| self.builder.part(part).clone());
        let Some(Part::Leaf(Leaf::Species { epithet, .. })) = current else {
            return self.second_species(&named, Vec::new());
        };
        if epithet == named {
            return Ok(());
        }
        let readings = [
            format!("{epithet} × {named} (direction unknown)"),
            format!("{epithet} or {named}"),
        ];
        let readings = if single {
            readings.to_vec()
        } else {
            Vec::new()
        };
        self.second_species(&named, readings)
    }

    pub(super) fn second_species(&self, named: &str, readings: Vec<String>) -> Result<(), Refusal> {
        let column = self.here().column;
        let text = format!(
            "{named} stands in brackets at column {column} behind another name; write how the two belong together"
        );
        Err(Refusal::new(RefusalCode::SecondSpecies, column, text).with_readings(readings))
    }
}
