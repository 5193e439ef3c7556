//! What is said of a whole plant and not of its last parent: doubt, sex, a number or epithet behind a cross.

use crate::naming::formula::{Certainty, NATURAL_HYBRID, Part, PartId, Sex, Tag};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::sift::{doubt_words, is_doubt, is_hybrid};
use crate::naming::token::Kind;

use super::frame::{Frame, Generation, Parent, Role, Whole};
use super::parser::Parser;

/// Longest remark in brackets that is looked up, in tokens.
const LONGEST: usize = 8;

/// How many tokens behind a cross are taken for marks of the plant.
const MOST_MARKS: usize = 64;

impl Parser<'_> {
    /// How many of the words at hand doubt what stands beside them.
    pub(super) fn doubt_ahead(&self) -> usize {
        let words = [self.word_ahead(0), self.word_ahead(1), self.word_ahead(2)];
        match self.vocabulary.means_a_plant(&words[0]) {
            true => 0,
            false => doubt_words([&words[0], &words[1], &words[2]]),
        }
    }

    /// `possibly lowii × ventricosa` doubts the whole, `lowii × possibly ventricosa` the next parent.
    pub(super) fn doubt_before(&mut self, words: usize) -> Result<(), Refusal> {
        let frame = self.frame();
        if frame.parents.is_empty() {
            frame.whole.doubted = true;
        } else {
            frame.next_doubted = true;
        }
        self.skip(words)
    }

    /// A doubt at the end of a cross is of the whole; anywhere else of the parent before it.
    pub(super) fn doubt_behind(&mut self, words: usize) -> Result<(), Refusal> {
        self.skip(words)?;
        if self.frame().is_cross() && self.only_marks_ahead() {
            self.frame().whole.doubted = true;
        } else {
            self.doubt_part();
        }
        Ok(())
    }

    pub(super) fn doubt_part(&mut self) {
        if let Some(part) = self.current() {
            self.builder.marks(part).certainty = Certainty::Doubtful;
            let text = "the label doubts a parent; no share of it counts as a named species";
            self.notes.say(NoteCode::DoubtOfThePart, text);
        }
    }

    /// Whether tokens say only that something is in doubt: `?`, `probably`.
    pub(super) fn only_doubts(&self, from: usize, to: usize) -> bool {
        let tokens = &self.tokens[from..to];
        if tokens.len() > LONGEST {
            return false;
        }
        let doubts = tokens.iter().all(|token| match token.kind {
            Kind::Question => true,
            Kind::Word => {
                token.text.to_lowercase() == "id" || is_doubt(&super::parser::bare(&token.text))
            }
            _ => false,
        });
        let phrase: Vec<String> = tokens
            .iter()
            .map(|token| super::parser::bare(&token.text))
            .collect();
        !tokens.is_empty() && (doubts || is_doubt(&phrase.join(" ")))
    }

    /// A number or epithet behind the last parent of a cross belongs to the whole, unless an earlier parent bears one too.
    pub(super) fn individual(&mut self, tag: Tag, words: usize) -> Result<(), Refusal> {
        let is_leaf = self
            .current()
            .is_some_and(|part| matches!(self.builder.part(part), Part::Leaf(_)));
        let parallel = self.frame().individuals;
        self.skip(words)?;
        if self.frame().is_cross() && is_leaf && !parallel && self.only_marks_ahead() {
            let text = "a number or epithet behind a cross is read of the whole plant, not of its last parent";
            self.notes.say(NoteCode::SaidOfTheWhole, text);
            self.frame().whole.tags.push(tag);
        } else {
            self.tag(tag);
        }
        Ok(())
    }

    /// Nothing but further marks of the plant stands ahead in this frame.
    pub(super) fn only_marks_ahead(&self) -> bool {
        let mut ahead = 0;
        while let Some(token) = self.peek(ahead) {
            if ahead > MOST_MARKS {
                return false;
            }
            match token.kind {
                Kind::Close => return true,
                Kind::Sign | Kind::Plus => return false,
                Kind::Word if matches!(self.word_ahead(ahead).as_str(), "or" | "and" | "by") => {
                    return false;
                }
                Kind::Open(close) => ahead = close + 1 - self.at,
                _ => ahead += 1,
            }
        }
        true
    }

    /// Puts what is said of the whole on it.
    pub(super) fn say_of_whole(&mut self, part: PartId, whole: Whole) -> PartId {
        let mut part = part;
        if whole.hybrid.is_some() {
            part = self.hybrid_part(part);
        }
        if whole.natural {
            let marks = self.builder.marks(part);
            let tag = Tag::Word(NATURAL_HYBRID.to_owned());
            if !marks.tags.contains(&tag) {
                marks.tags.push(tag);
            }
        }
        self.builder.marks(part).tags.extend(whole.tags);
        if whole.doubted {
            self.builder.marks(part).certainty = Certainty::Doubtful;
            let text = "the label doubts the whole name; no share counts as a named species";
            self.notes.say(NoteCode::DoubtOfTheWhole, text);
        }
        part
    }

    /// One sex word at the end of a cross without brackets usually sexes the plant on offer, but may be its last parent's.
    pub(super) fn sex_is_of_one(&mut self, frame: &mut Frame) -> Result<(), Refusal> {
        if self.frames.len() > 1 || frame.role != Role::Group {
            return Ok(());
        }
        let is_cross = frame.is_cross();
        let sexed: Vec<&Parent> = frame
            .parents
            .iter()
            .filter(|parent| parent.sex.is_some())
            .collect();
        let of_plant = match (&frame.parents[..], &sexed[..]) {
            ([_], [_]) => true,
            ([.., last], [only]) if only.sex_behind && last.part == only.part && is_cross => {
                self.ask(self.sex_of_which(last.sex), 2)? == 0
            }
            _ => false,
        };
        if of_plant && let Some(last) = frame.parents.last_mut() {
            self.plant_sex = last.sex.take();
            let text = "the sex on the label is the plant's own";
            self.notes.say(NoteCode::SexOfThePlant, text);
        }
        Ok(())
    }

    fn sex_of_which(&self, sex: Option<Sex>) -> Refusal {
        let mark = sex.map_or("", Sex::mark);
        let text = format!(
            "`{mark}` at the end may be the sex of the plant or of its last parent; write which"
        );
        Refusal::new(RefusalCode::SexOfWhich, self.end_column(), text)
    }

    /// `F2, sib cross`, `F2 (sib cross)`, `sib cross F2` are one statement; how many tokens it takes.
    pub(super) fn generation_said_twice(
        &self,
        generation: Generation,
        words: usize,
    ) -> (Generation, usize) {
        let mut from = words;
        let bracket = match self.peek(from).map(|token| token.kind.clone()) {
            Some(Kind::Comma) => {
                from += 1;
                None
            }
            Some(Kind::Open(close)) => {
                from += 1;
                Some(close)
            }
            _ => None,
        };
        let Some((other, more)) = self.generation_at(from) else {
            return (generation, words);
        };
        let end = from + more;
        if bracket.is_some_and(|close| close != self.at + end) {
            return (generation, words);
        }
        let end = end + usize::from(bracket.is_some());
        match (&generation, other) {
            (&Generation::Filial(number), Generation::Sib)
            | (Generation::Sib, Generation::Filial(number))
                if number > 1 =>
            {
                (Generation::Filial(number), end)
            }
            _ => (generation, words),
        }
    }

    /// Whether the bracket at hand calls the plant a hybrid among other words.
    pub(super) fn says_hybrid(&self, close: usize) -> bool {
        let mut words = self.tokens[self.at + 1..close].iter().take(MOST_MARKS);
        words.any(|token| token.kind == Kind::Word && is_hybrid(&super::parser::bare(&token.text)))
    }

    /// Whether a bracket says only that the plant is a hybrid: `(hybrid)`, `(x?)`.
    pub(super) fn only_hybrid(&self, from: usize, to: usize) -> bool {
        let tokens = &self.tokens[from..to];
        if tokens.len() > LONGEST {
            return false;
        }
        let hybrid = |text: &str| is_hybrid(&super::parser::bare(text));
        let said = |kind: Kind, text: &str| match kind {
            Kind::Question | Kind::Sign => true,
            Kind::Word => hybrid(text) || is_doubt(&super::parser::bare(text)),
            _ => false,
        };
        let named = tokens
            .iter()
            .any(|token| token.kind == Kind::Sign || hybrid(&token.text));
        named
            && tokens
                .iter()
                .all(|token| said(token.kind.clone(), &token.text))
    }
}
