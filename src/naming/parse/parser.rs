//! The loop and its state.

use crate::naming::formula::{Direction, Formula, FormulaBuilder, PartId, Sex};
use crate::naming::notes::{NoteCode, Notes, Refusal, RefusalCode};
use crate::naming::token::{Cut, Kind, Token};
use crate::naming::vocabulary::Vocabulary;

use super::frame::{Frame, Role};

/// How a chain of crosses without brackets is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nesting {
    /// Not at all: it is refused.
    Ask,
    /// `(a × b) × c`
    FromLeft,
    /// `a × (b × c)`
    FromRight,
}

/// How a label is parsed.
#[derive(Clone, Copy, Debug)]
pub struct How<'a> {
    /// What to do with chains.
    pub nesting: Nesting,
    /// Whether named hybrids and cultivars are read as their parents.
    pub expand: bool,
    /// Whether a hybrid name beside a formula is held against it.
    pub check_names: bool,
    /// Answers to the questions the label leaves open, in the order in which they arise.
    pub answers: &'a [u8],
}

impl How<'_> {
    /// As a label is read when nothing is asked for.
    pub const PLAIN: Self = Self {
        nesting: Nesting::Ask,
        expand: true,
        check_names: true,
        answers: &[],
    };
    /// As a formula of the vocabulary is read: names in it are not expanded again.
    pub const LISTED: Self = Self {
        nesting: Nesting::Ask,
        expand: false,
        check_names: false,
        answers: &[],
    };
}

/// A label read.
#[derive(Debug)]
pub struct Parsed {
    /// Who was crossed with whom.
    pub formula: Formula,
    /// The assumptions made.
    pub notes: Notes,
    /// The sex of the plant itself.
    pub sex: Option<Sex>,
}

/// What the label says of the order of parents, if anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Basis {
    Unsaid,
    SeedFirst,
    SeedAssumedFirst,
    Unknown,
}

pub(super) struct Parser<'v> {
    pub vocabulary: &'v Vocabulary,
    pub nesting: Nesting,
    pub tokens: Vec<Token>,
    pub at: usize,
    pub end: usize,
    pub builder: FormulaBuilder,
    pub frames: Vec<Frame>,
    pub notes: Notes,
    pub basis: Basis,
    pub genus_missing: bool,
    pub expand: bool,
    pub check_names: bool,
    /// Answers not yet used.
    pub answers: std::collections::VecDeque<u8>,
    /// Crosses that a natural hybrid's name stands beside: their order says nothing of sex.
    pub unordered: Vec<PartId>,
    /// The sex of the plant itself.
    pub plant_sex: Option<Sex>,
    /// How many signs stand before each token.
    pub signs: Vec<u32>,
}

/// Reads a label that was cut up.
///
/// # Errors
/// Refuses with the place and, where there are any, the readings to choose from.
pub fn parse(cut: Cut, vocabulary: &Vocabulary, how: How<'_>) -> Result<Parsed, Refusal> {
    let end = cut.tokens.len();
    let signs = signs_before(&cut.tokens);
    let mut parser = Parser {
        vocabulary,
        nesting: how.nesting,
        tokens: cut.tokens,
        at: 0,
        end,
        builder: FormulaBuilder::new(),
        frames: vec![Frame::new(Role::Group, 1)],
        notes: Notes::default(),
        basis: Basis::Unsaid,
        genus_missing: false,
        expand: how.expand,
        check_names: how.check_names,
        answers: how.answers.iter().copied().collect(),
        unordered: Vec::new(),
        plant_sex: None,
        signs,
    };
    if cut.markup {
        let text = "entities or tags of a web page were read as the signs they stand for";
        parser.notes.say(NoteCode::MarkupIgnored, text);
    }
    if cut.invisible > 0 {
        parser.notes.say(
            NoteCode::InvisibleMarksIgnored,
            format!("{} invisible marks were passed over", cut.invisible),
        );
    }
    if end == 0 {
        return Err(Refusal::new(
            RefusalCode::NothingToRead,
            1,
            "the label holds no name; write at least one parent",
        ));
    }
    let top = if parser.has_strokes() {
        parser.purdy()?
    } else {
        parser.whole()?
    };
    parser.settle(top)
}

impl Parser<'_> {
    /// Reads the tokens up to the end as one formula.
    fn whole(&mut self) -> Result<PartId, Refusal> {
        self.run()?;
        self.finish_frame()
    }

    pub(super) fn run(&mut self) -> Result<(), Refusal> {
        while self.at < self.end {
            if self.frame().wants_parent() {
                self.parent()?
            } else {
                self.after_parent()?
            }
        }
        Ok(())
    }

    pub(super) fn frame(&mut self) -> &mut Frame {
        let last = self.frames.len() - 1;
        &mut self.frames[last]
    }

    pub(super) fn here(&self) -> &Token {
        &self.tokens[self.at]
    }

    pub(super) fn peek(&self, ahead: usize) -> Option<&Token> {
        self.tokens[..self.end].get(self.at + ahead)
    }

    /// The word so many tokens ahead in lower case without a closing full stop; empty when there is none.
    pub(super) fn word_ahead(&self, ahead: usize) -> String {
        match self.peek(ahead) {
            Some(token) if token.kind == Kind::Word => bare(&token.text),
            _ => String::new(),
        }
    }

    /// The column after the last token.
    pub(super) fn end_column(&self) -> usize {
        self.end
            .checked_sub(1)
            .map_or(1, |last| self.tokens[last].end)
    }

    pub(super) fn refuse<T>(
        &self,
        code: RefusalCode,
        text: impl Into<String>,
    ) -> Result<T, Refusal> {
        let column = self
            .peek(0)
            .map_or_else(|| self.end_column(), |token| token.column);
        Err(Refusal::new(code, column, text))
    }

    /// The answer, from 0, to a question the label leaves open; without one the label is refused. Every offer is the whole
    /// label read again with an answer, so that no word behind the question is lost.
    pub(super) fn ask(&mut self, question: Refusal, ways: u8) -> Result<u8, Refusal> {
        self.answers.pop_front().ok_or(Refusal { ways, ..question })
    }

    /// Puts what the label says of direction into the crosses, and tells the assumptions.
    fn settle(mut self, top: PartId) -> Result<Parsed, Refusal> {
        for cross in self
            .builder
            .crosses_mut()
            .filter(|cross| cross.direction == Direction::Assumed)
        {
            cross.direction = match self.basis {
                Basis::SeedFirst => Direction::Known,
                Basis::Unknown => Direction::Unknown,
                Basis::Unsaid | Basis::SeedAssumedFirst => Direction::Assumed,
            };
        }
        self.leave_unordered();
        if self.genus_missing {
            let text = format!(
                "the genus was left out of a parent; {} is added to each",
                self.vocabulary.genus_short()
            );
            self.notes.say(NoteCode::GenusAdded, text);
        }
        Ok(Parsed {
            formula: self.builder.finish(top),
            notes: self.notes,
            sex: self.plant_sex,
        })
    }
}

fn signs_before(tokens: &[Token]) -> Vec<u32> {
    let mut count = 0;
    let mut before = Vec::with_capacity(tokens.len());
    for token in tokens {
        before.push(count);
        count += u32::from(token.kind == Kind::Sign);
    }
    before
}

/// A word in lower case without its closing full stop.
pub(super) fn bare(word: &str) -> String {
    word.to_lowercase().trim_end_matches('.').to_owned()
}
