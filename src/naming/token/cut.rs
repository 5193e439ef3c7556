//! The cutting.

use crate::naming::notes::{Refusal, RefusalCode};
use crate::naming::vocabulary::Vocabulary;

use super::letter::{
    closing, has_strokes, is_bracket, is_double, is_invisible, is_letter_sign, is_picture, is_sign,
    is_single, stands_alone,
};
use super::markup::plain;

/// What a token is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A word.
    Word,
    /// A sign of crossing.
    Sign,
    /// An opening bracket; the place of its closing one among the tokens.
    Open(usize),
    /// A closing bracket.
    Close,
    /// A name in single quotes.
    Single,
    /// A name in double quotes.
    Double,
    /// Purdy strokes of this level.
    Stroke(u32),
    /// A Purdy dose star.
    Star,
    /// `?`
    Question,
    /// ♀
    Female,
    /// ♂
    Male,
    /// `,` or `;`
    Comma,
    /// `+` or `&`
    Plus,
    /// `=`
    Equals,
}

/// A piece of a label.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Its text: the word, what stands between the quotes, or the mark itself.
    pub text: String,
    /// Its column, counted in characters from 1.
    pub column: usize,
    /// The column after its last character.
    pub end: usize,
}

/// A label cut up.
#[derive(Clone, Debug, Default)]
pub struct Cut {
    /// The pieces in order.
    pub tokens: Vec<Token>,
    /// How many invisible marks were passed over.
    pub invisible: usize,
    /// Whether entities or tags of a web page were taken out.
    pub markup: bool,
}

struct Cutter<'v> {
    letters: Vec<char>,
    at: usize,
    strokes: bool,
    vocabulary: &'v Vocabulary,
    cut: Cut,
    open: Vec<(usize, char)>,
}

/// Bytes of the longest label that is read; each takes a hundred in the reading.
const LONGEST: usize = 1 << 20;

/// Cuts a label up.
///
/// # Errors
/// Refuses a label longer than a million bytes, control characters, quotes not closed, and brackets that do not match, with their column.
pub fn cut(label: &str, vocabulary: &Vocabulary) -> Result<Cut, Refusal> {
    if label.len() > LONGEST {
        return Err(Refusal::new(
            RefusalCode::LabelTooLong,
            1,
            "a label of more than a million letters; write the name of one plant",
        ));
    }
    let mut letters: Vec<char> = label.chars().collect();
    let markup = plain(&mut letters);
    let strokes = has_strokes(&letters);
    let mut cutter = Cutter {
        letters,
        at: 0,
        strokes,
        vocabulary,
        cut: Cut {
            markup,
            ..Cut::default()
        },
        open: Vec::new(),
    };
    while cutter.at < cutter.letters.len() {
        cutter.step()?;
    }
    match cutter.open.pop() {
        Some((token, bracket)) => Err(Refusal::new(
            RefusalCode::BracketNotClosed,
            cutter.cut.tokens[token].column,
            format!(
                "bracket `{bracket}` opened at column {} not closed",
                cutter.cut.tokens[token].column
            ),
        )),
        None => Ok(cutter.cut),
    }
}

impl Cutter<'_> {
    fn step(&mut self) -> Result<(), Refusal> {
        let letter = self.letters[self.at];
        match letter {
            _ if letter.is_whitespace() => self.at += 1,
            _ if is_invisible(letter) => self.pass_invisible(),
            _ if letter.is_control() => return Err(self.control(letter)),
            '(' | '[' | '{' => self.open(letter),
            ')' | ']' | '}' => self.close(letter)?,
            '/' if self.strokes => self.strokes(),
            '*' => self.star(),
            '?' => self.mark(Kind::Question),
            '♀' => self.mark(Kind::Female),
            '♂' => self.mark(Kind::Male),
            ',' | ';' => self.mark(Kind::Comma),
            '+' | '&' => self.mark(Kind::Plus),
            '=' => self.mark(Kind::Equals),
            _ if is_sign(letter) => self.mark(Kind::Sign),
            _ if is_letter_sign(letter) && stands_alone(&self.letters, self.at, self.at + 1) => {
                self.mark(Kind::Sign)
            }
            _ if is_double(letter) => self.quoted(Kind::Double)?,
            _ if is_single(letter) => self.quoted(Kind::Single)?,
            _ => self.word(),
        }
        Ok(())
    }

    fn push(&mut self, kind: Kind, text: String, from: usize, to: usize) {
        self.cut.tokens.push(Token {
            kind,
            text,
            column: from + 1,
            end: to + 1,
        });
        self.at = to;
    }

    fn mark(&mut self, kind: Kind) {
        self.push(
            kind,
            self.letters[self.at].to_string(),
            self.at,
            self.at + 1,
        );
    }

    fn pass_invisible(&mut self) {
        self.cut.invisible += 1;
        self.at += 1;
    }

    fn control(&self, letter: char) -> Refusal {
        let column = self.at + 1;
        let text = format!(
            "control character U+{:04X} at column {column}; take it out",
            u32::from(letter)
        );
        Refusal::new(RefusalCode::ControlCharacter, column, text)
    }

    fn open(&mut self, bracket: char) {
        self.open.push((self.cut.tokens.len(), bracket));
        self.mark(Kind::Open(0));
    }

    fn close(&mut self, bracket: char) -> Result<(), Refusal> {
        let column = self.at + 1;
        let Some((opened, kind)) = self.open.pop() else {
            let text = format!("bracket `{bracket}` at column {column} closes nothing");
            return Err(Refusal::new(RefusalCode::BracketNotOpened, column, text));
        };
        if closing(kind) != bracket {
            let from = self.cut.tokens[opened].column;
            let text = format!(
                "bracket `{kind}` opened at column {from} is closed by `{bracket}` at column {column}"
            );
            return Err(Refusal::new(RefusalCode::BracketsDiffer, column, text));
        }
        self.cut.tokens[opened].kind = Kind::Open(self.cut.tokens.len());
        self.mark(Kind::Close);
        Ok(())
    }

    /// `/`, `//`, `///` and `/n/`.
    fn strokes(&mut self) {
        let from = self.at;
        let row = self.letters[from..]
            .iter()
            .take_while(|letter| **letter == '/')
            .count();
        let digits = self.letters[from + row..]
            .iter()
            .take_while(|letter| letter.is_ascii_digit())
            .count();
        let after = from + row + digits;
        if row == 1 && digits > 0 && self.letters.get(after) == Some(&'/') {
            let text: String = self.letters[from + 1..after].iter().collect();
            let level = text.parse().unwrap_or(u32::MAX);
            self.push(Kind::Stroke(level), format!("/{text}/"), from, after + 1);
        } else {
            let level = u32::try_from(row).unwrap_or(u32::MAX);
            self.push(
                Kind::Stroke(level),
                "/".repeat(row.min(8)),
                from,
                from + row,
            );
        }
    }

    /// A star with room on both sides is a sign of crossing; otherwise it is a Purdy dose.
    fn star(&mut self) {
        let room = |letter: Option<&char>| {
            letter.is_none_or(|letter| letter.is_whitespace() || is_bracket(*letter))
        };
        let before = self
            .at
            .checked_sub(1)
            .and_then(|before| self.letters.get(before));
        let roomy = room(before) && room(self.letters.get(self.at + 1));
        self.mark(if roomy && !self.strokes {
            Kind::Sign
        } else {
            Kind::Star
        });
    }

    fn quoted(&mut self, kind: Kind) -> Result<(), Refusal> {
        let from = self.at;
        let closes = |at: usize| match kind {
            Kind::Double => is_double(self.letters[at]),
            _ => {
                is_single(self.letters[at])
                    && !self
                        .letters
                        .get(at + 1)
                        .is_some_and(|next| next.is_alphanumeric())
            }
        };
        let Some(to) = (from + 1..self.letters.len()).find(|&at| closes(at)) else {
            let text = format!("quote opened at column {} not closed", from + 1);
            return Err(Refusal::new(RefusalCode::QuoteNotClosed, from + 1, text));
        };
        let inside = &self.letters[from + 1..to];
        if let Some(place) = inside
            .iter()
            .position(|letter| letter.is_control() && !letter.is_whitespace())
        {
            self.at = from + 1 + place;
            return Err(self.control(self.letters[self.at]));
        }
        let text: String = inside
            .iter()
            .filter(|letter| !is_invisible(**letter))
            .collect();
        let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
        self.push(kind, text, from, to + 1);
        Ok(())
    }

    fn word(&mut self) {
        let from = self.at;
        let mut to = from + 1;
        while to < self.letters.len() && !self.ends_word(to) {
            to += 1;
        }
        let split = self.genus_in_front(from, to);
        if split > from {
            self.push(
                Kind::Word,
                self.letters[from..split].iter().collect(),
                from,
                split,
            );
        }
        let text = self.letters[split..to]
            .iter()
            .filter(|letter| !is_invisible(**letter))
            .collect();
        self.push(Kind::Word, text, split, to);
    }

    fn ends_word(&self, at: usize) -> bool {
        let letter = self.letters[at];
        let apostrophe = is_single(letter)
            && self
                .letters
                .get(at + 1)
                .is_some_and(|next| next.is_alphanumeric());
        let control = letter.is_control() && !is_invisible(letter);
        letter.is_whitespace()
            || control
            || is_picture(letter) != is_picture(self.letters[at - 1])
            || is_bracket(letter)
            || is_sign(letter)
            || is_double(letter)
            || (is_single(letter) && !apostrophe)
            || "*?♀♂,;+&=".contains(letter)
            || (letter == '/' && self.strokes)
    }

    /// Where the word proper begins in `N.lowii`; the start when no genus is glued on.
    fn genus_in_front(&self, from: usize, to: usize) -> usize {
        let Some(stop) = (from..to).find(|&at| self.letters[at] == '.') else {
            return from;
        };
        let front: String = self.letters[from..=stop].iter().take(40).collect();
        let rest_is_word = stop + 1 < to && self.letters[stop + 1].is_alphabetic();
        if rest_is_word && self.vocabulary.is_genus(&front) {
            stop + 1
        } else {
            from
        }
    }
}
