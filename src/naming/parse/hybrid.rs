//! The word hybrid: of a species it means that the other parent is not known; of a formula it says no more.

use crate::naming::formula::{Direction, Leaf, NATURAL_HYBRID, Part, PartId, Tag, Unknown};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::sift::{hybrid_words, is_doubt, is_hybrid};
use crate::naming::token::{Kind, Token};
use crate::naming::write::{Writing, formula_only};

use super::frame::Parent;
use super::parser::{Parser, bare};

impl Parser<'_> {
    /// How many words at hand call a plant a hybrid.
    pub(super) fn hybrid_ahead(&self) -> usize {
        let word = self.word_ahead(0);
        match self.vocabulary.means_a_plant(&word) {
            true => 0,
            false => hybrid_words(&word),
        }
    }

    /// `hybrid of lowii`, `hybrid lowii × ventricosa`, `lowii × hybrid`.
    pub(super) fn hybrid_before(&mut self) -> Result<(), Refusal> {
        let of = usize::from(matches!(
            self.word_ahead(1).as_str(),
            "of" | "between" | "from" | "with"
        ));
        if !self.parent_at(1 + of) {
            return self.unknown_parent(1, Unknown::NotRecorded);
        }
        let frame = self.frame();
        if frame.parents.is_empty() {
            frame.whole.hybrid = true;
        } else {
            frame.next_hybrid = true;
        }
        self.skip(1 + of)
    }

    /// Whether a parent may begin so many tokens ahead.
    fn parent_at(&self, ahead: usize) -> bool {
        match self.peek(ahead) {
            Some(token) => match token.kind {
                Kind::Single | Kind::Double | Kind::Open(_) => true,
                Kind::Word => {
                    let word = self.word_ahead(ahead);
                    self.vocabulary.means_a_plant(&word)
                        || self.vocabulary.is_genus(&token.text)
                        || matches!(word.as_str(), "cf" | "aff" | "sp")
                }
                Kind::Sign => {
                    self.peek(ahead + 1).is_some() && self.frames.len() == 1 && ahead == 1
                }
                _ => false,
            },
            None => false,
        }
    }

    /// `veitchii hybrid`: of a species, its other parent is not known; at the end of a cross it may be of the whole.
    pub(super) fn hybrid_behind(&mut self, words: usize) -> Result<(), Refusal> {
        let column = self
            .peek(0)
            .map_or_else(|| self.end_column(), |token| token.column);
        self.skip(words)?;
        let is_leaf = self
            .current()
            .is_some_and(|part| matches!(self.builder.part(part), Part::Leaf(_)));
        if self.frame().is_cross() && is_leaf && self.only_marks_ahead() {
            return self.hybrid_of_which(column);
        }
        self.hybrid_of_unknown();
        Ok(())
    }

    fn hybrid_of_which(&mut self, column: usize) -> Result<(), Refusal> {
        let mut frame = self.frame().clone();
        if frame.whole.natural {
            return Ok(());
        }
        let [first, last] = &frame.parents.clone()[..] else {
            return self.ambiguous(frame.parents.len(), frame.column);
        };
        frame.whole.doubted |= self.doubt_remains();
        let of_last = Parent {
            part: self.hybrid_part(last.part),
            ..last.clone()
        };
        let writing = Writing::plain(self.vocabulary);
        let mut readings = Vec::new();
        for last in [last.clone(), of_last] {
            let cross = self.as_finished(&frame, first.clone(), last)?;
            readings.extend(formula_only(&self.builder.excerpt(cross), &writing));
        }
        if self.frames.len() > 1 {
            readings.clear();
        }
        let text =
            "`hybrid` at the end may be said of the whole cross or of its last parent; write which";
        Err(Refusal::new(RefusalCode::HybridOfWhich, column, text).with_readings(readings))
    }

    /// Whether a doubt stands in or behind the word just read.
    fn doubt_remains(&self) -> bool {
        let last = self.at.saturating_sub(4);
        let doubts = |token: &Token| match token.kind {
            Kind::Question => true,
            Kind::Word => is_doubt(&bare(&token.text)),
            _ => false,
        };
        self.tokens[last..self.end].iter().any(doubts)
    }

    /// Gives the parent last read an unknown partner, where it is not a cross already.
    pub(super) fn hybrid_of_unknown(&mut self) {
        if let Some(part) = self.current() {
            let made = self.hybrid_part(part);
            if let Some(parent) = self.frame().parents.last_mut() {
                parent.part = made;
            }
        }
    }

    /// A hybrid of this part and nobody knows what; a cross or a name is one already.
    pub(super) fn hybrid_part(&mut self, part: PartId) -> PartId {
        let species = matches!(
            self.builder.part(part),
            Part::Leaf(Leaf::Species { .. } | Leaf::Unnamed { .. })
        );
        let of_one = self.parent_set(part).is_some_and(|set| set.len() == 1);
        if !species && !of_one {
            let text = "the word hybrid says no more than what it stands beside";
            self.notes.say(NoteCode::HybridSaysNoMore, text);
            return part;
        }
        let text = "a plant is called a hybrid; its other parent is not known, nor which one bore the seed";
        self.notes.say(NoteCode::HybridOfUnknown, text);
        let other = self.builder.leaf(Leaf::Unknown(Unknown::NotRecorded));
        self.builder.cross(part, other, Direction::Unknown)
    }

    /// `natural hybrid`, `nat. hyb.`: of a cross it leaves no seed parent, of a species no second parent.
    pub(super) fn natural_hybrid(&mut self, words: usize) -> Result<(), Refusal> {
        self.skip(words)?;
        let Some(part) = self.current() else {
            return Ok(());
        };
        let text = "a natural hybrid: its parents are listed in no order of sex, so no seed parent is known";
        self.notes.say(NoteCode::NaturalHybrid, text);
        if self.frame().is_cross() && self.only_marks_ahead() {
            self.frame().whole.natural = true;
            return Ok(());
        }
        let made = self.hybrid_part(part);
        if let Some(cross) = self.builder.cross_mut(made) {
            cross.direction = Direction::Unknown;
        }
        let tag = Tag::Word(NATURAL_HYBRID.to_owned());
        self.builder.marks(made).tags.push(tag);
        if let Some(parent) = self.frame().parents.last_mut() {
            parent.part = made;
        }
        Ok(())
    }

    /// `maxima-Hybride`: a species and the word hybrid grown together.
    pub(super) fn hybrid_grown_on(&self, lower: &str) -> Option<String> {
        let (name, hybrid) = lower.rsplit_once(['-', '–', '_'])?;
        let name = self.vocabulary.accepted(name).unwrap_or(name);
        (is_hybrid(hybrid) && self.vocabulary.species(name).is_some()).then(|| name.to_owned())
    }
}
