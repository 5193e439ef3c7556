//! A bracket that says something of the name before it: a doubt, hybrid, a citation, the name received, another species.

use crate::naming::formula::{Leaf, Part, Tag};
use crate::naming::notes::{Refusal, RefusalCode};
use crate::naming::sift::{is_doubt, is_hybrid};
use crate::naming::token::{Kind, Token};

use super::frame::{Frame, Join, Role};
use super::parser::{Parser, bare};

/// Longest name received that is kept, in tokens.
const LONGEST: usize = 64;

impl Parser<'_> {
    /// A bracket that doubts, says hybrid, or cites authors.
    pub(super) fn said_in_bracket(&mut self, close: usize) -> Option<Result<(), Refusal>> {
        let (from, all) = (self.at + 1, close + 1 - self.at);
        // In brackets of its own it is the sign of this program for a parent that is claimed.
        let is_claim = self.raw(from, close).eq_ignore_ascii_case("claimed");
        if self.only_doubts(from, close) && !is_claim {
            return Some(self.doubt_behind(all));
        }
        if let Some(name) = self.received_as(from, close) {
            self.tag(Tag::Received(name));
            return Some(self.skip(all));
        }
        let words = self.raw(from, close).to_lowercase();
        let natural = ["natural", "nat hyb", "nat. hyb", "wild hyb"];
        if natural.iter().any(|start| words.starts_with(start)) && self.natural_only(from, close) {
            return Some(self.natural_hybrid(all));
        }
        if self.only_hybrid(from, close) && !self.unknown_parents(from, close) {
            let doubted = self.tokens[from..close]
                .iter()
                .any(|token| token.kind == Kind::Question || is_doubt(&bare(&token.text)));
            let read = self.hybrid_behind(all);
            return Some(read.and_then(|()| match doubted {
                true => self.doubt_behind(0),
                false => Ok(()),
            }));
        }
        let is_citation = self.citation(from, close) == close - from
            || (all == 3
                && self
                    .year_of_current()
                    .is_some_and(|year| words == year.to_string()));
        is_citation.then(|| self.set_authors_aside(all))
    }

    /// `received as "N. alata"`, or a name with double quotes of its own: `received as N. ventricosa "red"`.
    fn received_as(&self, from: usize, close: usize) -> Option<String> {
        let [received, r#as, name @ ..] = &self.tokens[from..close] else {
            return None;
        };
        let has_quotes = name.iter().any(|token| token.kind == Kind::Double);
        if received.text != "received" || r#as.text != "as" || !has_quotes {
            return None;
        }
        if let [name] = name {
            return Some(name.text.clone());
        }
        let word = |token: &Token| match token.kind {
            Kind::Double => format!("\"{}\"", token.text),
            _ => token.text.clone(),
        };
        let words: Vec<String> = name.iter().take(LONGEST).map(word).collect();
        Some(words.join(" "))
    }

    /// `'Abc' (? × ?)`: the parents of a name, neither of them known.
    fn unknown_parents(&self, from: usize, to: usize) -> bool {
        let named = self.frames.last().and_then(|frame| frame.parents.last());
        let both = [Kind::Question, Kind::Sign, Kind::Question];
        named.is_some_and(|parent| parent.name.is_some())
            && self.tokens[from..to]
                .iter()
                .map(|token| &token.kind)
                .eq(&both)
    }

    pub(super) fn natural_only(&self, from: usize, to: usize) -> bool {
        let of_it = |word: &str| matches!(word, "natural" | "nat" | "wild") || is_hybrid(word);
        self.tokens[from..to]
            .iter()
            .all(|token| token.kind == Kind::Word && of_it(&bare(&token.text)))
    }

    /// Another species in a bracket behind the first: a synonym, a parent, another opinion? It is not for us to say.
    /// Whether it was read, the question being answered.
    pub(super) fn second_species(&mut self, close: usize) -> Result<bool, Refusal> {
        if self.names_a_hybrid(close) {
            return Ok(false);
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
            return Ok(false);
        };
        let column = self.here().column;
        let text = format!(
            "{named} stands in brackets at column {column} behind another name; write how the two belong together"
        );
        let question = Refusal::new(RefusalCode::SecondSpecies, column, text);
        let single = self.frames.len() == 1 && self.frame().joins.is_empty();
        match self.current().map(|part| self.builder.part(part)) {
            Some(Part::Leaf(Leaf::Species { epithet, .. })) if *epithet == named => Ok(false),
            Some(Part::Leaf(Leaf::Species { .. })) if single => {
                let join = [Join::Cross, Join::Or][usize::from(self.ask(question, 2)?.min(1))];
                self.joined_to_bracket(join);
                Ok(true)
            }
            _ => Err(question),
        }
    }

    /// Reads on as if the bracket at hand had opened before the parent last read, the two joined in it.
    fn joined_to_bracket(&mut self, join: Join) {
        let column = self.here().column;
        let mut frame = Frame::new(Role::Group, column);
        frame.parents.extend(self.frame().parents.pop());
        frame.joins.push(join);
        frame.direction_unknown = join == Join::Cross;
        frame.joined_at = (join != Join::Cross).then_some(column);
        self.frames.push(frame);
        self.at += 1;
    }
}
