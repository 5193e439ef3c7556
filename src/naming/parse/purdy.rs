//! Purdy notation read: seed parent left of the stroke, more strokes for later crosses, `*n` for doses of a recurrent parent.
//!
//! After Purdy and others 1968, Crop Science 8: 405–406. In a pedigree the highest stroke may stand once; that each stroke
//! is higher than those beside it makes the order of crosses plain.

use crate::naming::formula::{Direction, Leaf, Part, PartId};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::token::{self, Kind};

use super::frame::{Frame, Role};
use super::parser::{How, Nesting, Parser, parse};

/// More doses of one parent than anyone has given.
const MOST_DOSES: u32 = 64;

/// A name between strokes.
#[derive(Clone, Copy, Debug)]
struct Name {
    part: PartId,
    doses: u32,
}

impl Parser<'_> {
    pub(super) fn has_strokes(&self) -> bool {
        self.tokens
            .iter()
            .any(|token| matches!(token.kind, Kind::Stroke(_)))
    }

    /// Reads the whole label as a Purdy pedigree.
    pub(super) fn purdy(&mut self) -> Result<PartId, Refusal> {
        let all = self.end;
        let mut names: Vec<Name> = Vec::new();
        let mut strokes: Vec<u32> = Vec::new();
        let mut from = 0;
        for (to, level, column) in self.strokes_in_order() {
            let name = self.name_between(from, to)?;
            names.push(name);
            self.reduce(&mut names, &mut strokes, level, column)?;
            strokes.push(level);
            from = to + 1;
        }
        let name = self.name_between(from, all)?;
        names.push(name);
        self.end = all;
        while strokes.pop().is_some() {
            self.cross_last(&mut names)?;
        }
        self.genus_missing = false;
        self.notes.say(
            NoteCode::PurdyRead,
            "read as a Purdy pedigree: seed parent left of each stroke",
        );
        Ok(names[0].part)
    }

    /// Place, level and column of every stroke outside brackets.
    fn strokes_in_order(&self) -> Vec<(usize, u32, usize)> {
        let mut found = Vec::new();
        let mut at = 0;
        while at < self.tokens.len() {
            match self.tokens[at].kind {
                Kind::Open(close) => at = close,
                Kind::Stroke(level) => found.push((at, level, self.tokens[at].column)),
                _ => {}
            }
            at += 1;
        }
        found
    }

    /// Crosses what stands between lower strokes than the one at hand.
    fn reduce(
        &mut self,
        names: &mut Vec<Name>,
        strokes: &mut Vec<u32>,
        level: u32,
        column: usize,
    ) -> Result<(), Refusal> {
        while let Some(&before) = strokes.last() {
            if before == level && self.nesting == Nesting::Ask {
                let text = format!(
                    "the stroke at column {column} stands twice on one level, so the order of crosses is open"
                );
                self.ask_nesting(Refusal::new(RefusalCode::PurdyAmbiguous, column, text))?;
            }
            if before > level || (before == level && self.nesting == Nesting::FromRight) {
                break;
            }
            if before == level {
                self.notes.say(
                    NoteCode::ReadLeftToRight,
                    "strokes of one level were read from left to right, as asked",
                );
            }
            strokes.pop();
            self.cross_last(names)?;
        }
        Ok(())
    }

    fn cross_last(&mut self, names: &mut Vec<Name>) -> Result<(), Refusal> {
        let (Some(pollen), Some(seed)) = (names.pop(), names.pop()) else {
            return Ok(());
        };
        if seed.doses > 1 && pollen.doses > 1 {
            return self.refuse(
                RefusalCode::DoseMisplaced,
                "only one parent of a cross can be the recurrent one",
            );
        }
        let mut part = if seed.doses > 1 {
            pollen.part
        } else {
            seed.part
        };
        for _ in 0..seed.doses.max(pollen.doses) {
            part = if seed.doses > 1 {
                self.builder.cross(seed.part, part, Direction::Known)
            } else {
                self.builder.cross(part, pollen.part, Direction::Known)
            };
        }
        names.push(Name { part, doses: 1 });
        Ok(())
    }

    /// The name between two strokes, with its doses.
    fn name_between(&mut self, from: usize, to: usize) -> Result<Name, Refusal> {
        let (from, to, doses) = self.doses(from, to)?;
        self.at = from;
        self.end = to;
        if from == to {
            self.end = self.tokens.len();
            return self.refuse(
                RefusalCode::ParentMissing,
                "a parent is missing beside a stroke; write ? if it is not known",
            );
        }
        let quoted = &self.tokens[from];
        if to == from + 1
            && quoted.kind == Kind::Double
            && let Some(part) = self.taxon_in_quotes(&quoted.text.clone())
        {
            return Ok(Name { part, doses });
        }
        self.frames
            .push(Frame::new(Role::Group, self.tokens[from].column));
        self.run()?;
        if self.frame().parents.len() > 1 {
            let text = "a sign between strokes: write either Purdy notation or signs with brackets";
            return self.refuse(RefusalCode::PurdyMixed, text);
        }
        let part = self.finish_frame()?;
        self.frames.pop();
        Ok(Name { part, doses })
    }

    /// A name of one taxon that holds spaces and stands in double quotes: `"mirabilis var. globosa"`.
    pub(super) fn taxon_in_quotes(&mut self, text: &str) -> Option<PartId> {
        let cut = token::cut(text, self.vocabulary).ok()?;
        let parsed = parse(
            cut,
            self.vocabulary,
            How {
                expand: self.expand,
                ..How::PLAIN
            },
        )
        .ok()?;
        let top = parsed.formula.top();
        let taxon = matches!(
            parsed.formula.part(top),
            Part::Leaf(Leaf::Species { .. } | Leaf::Unnamed { .. })
        );
        (taxon && parsed.formula.marks(top).is_empty())
            .then(|| self.builder.copy_of(&parsed.formula))
    }

    fn doses(&mut self, from: usize, to: usize) -> Result<(usize, usize, u32), Refusal> {
        let star = |at: usize| self.tokens[at].kind == Kind::Star;
        let digits = |at: usize| {
            self.tokens[at]
                .text
                .starts_with(|letter: char| letter.is_ascii_digit())
        };
        let (number, from, to) = match to - from {
            length if length >= 3 && star(from + 1) && digits(from) => (from, from + 2, to),
            length if length >= 3 && star(to - 2) => (to - 1, from, to - 2),
            _ => return Ok((from, to, 1)),
        };
        let token = &self.tokens[number];
        match token.text.parse::<u32>() {
            Ok(doses) if (1..=MOST_DOSES).contains(&doses) => Ok((from, to, doses)),
            Ok(doses) => {
                let text = format!(
                    "{doses} doses of one parent at column {}; 1 to {MOST_DOSES} are read",
                    token.column
                );
                Err(Refusal::new(
                    RefusalCode::GenerationUnlikely,
                    token.column,
                    text,
                ))
            }
            Err(_) => {
                let text = format!(
                    "a dose at column {} must be a whole number from 1 to {MOST_DOSES}",
                    token.column
                );
                Err(Refusal::new(RefusalCode::DoseMisplaced, token.column, text))
            }
        }
    }
}
