//! Words on generations: sib, self, F2, BC1, open pollinated. They are taken only where they can be true.

use crate::naming::formula::{Cross, Direction, Leaf, Part, PartId, Relation, Unknown};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};
use crate::naming::token::Kind;

use super::frame::{Generation, Join};
use super::operand::shown;
use super::parser::Parser;

/// Why open pollination said of a cross is refused.
pub(super) const WHICH_PLANT: &str =
    "open pollination of which plant? put brackets round the seed parent";

/// Beyond this no generation has been bred.
pub(super) const MOST_GENERATIONS: u32 = 40;

impl Parser<'_> {
    /// The generation word at hand and how many words it takes.
    pub(super) fn generation_ahead(&self) -> Option<(Generation, usize)> {
        self.generation_at(0)
    }

    /// The generation word so many tokens ahead and how many words it takes.
    pub(super) fn generation_at(&self, ahead: usize) -> Option<(Generation, usize)> {
        let token = self.peek(ahead).filter(|token| token.kind == Kind::Word)?;
        if token.text.len() > 16 {
            return None;
        }
        let word = self.word_ahead(ahead);
        let second = self.word_ahead(ahead + 1);
        match (word.as_str(), second.as_str()) {
            ("sib" | "sibling" | "sibs", "cross" | "crossed" | "mating") => {
                Some((Generation::Sib, 2))
            }
            ("sib" | "sibling" | "sibs" | "sibbed", _) => Some((Generation::Sib, 1)),
            ("self", "reported" | "pollinated") => Some((Generation::SelfReported, 2)),
            ("self" | "selfed" | "selfing", _) => Some((Generation::SelfReported, 1)),
            ("open", "pollinated" | "pollination") => Some((Generation::OpenPollinated, 2)),
            ("op", _) => Some((Generation::OpenPollinated, 1)),
            _ => numbered(&word).map(|generation| (generation, 1)),
        }
    }

    /// Notes a generation word on the parent before it or, where that is a plain parent of a cross, on the whole cross.
    pub(super) fn generation_mark(
        &mut self,
        generation: Generation,
        words: usize,
    ) -> Result<(), Refusal> {
        let column = self.here().column;
        let (generation, words) = self.generation_said_twice(generation, words);
        let in_cross = !self.frame().joins.is_empty();
        let whole = match self.current().map(|part| self.builder.part(part)) {
            _ if matches!(generation, Generation::Backcross(_)) => true,
            Some(Part::Leaf(_)) => in_cross,
            _ => false,
        };
        if generation == Generation::MixedPollen && self.is_mixture() {
            self.at += words;
            return Ok(());
        }
        match generation {
            Generation::OpenPollinated if whole => {
                return self.refuse(RefusalCode::NotUnderstood, WHICH_PLANT);
            }
            Generation::MixedPollen if whole => {
                let text = "mixed pollen of which plants? write them after the sign, as in lowii × mixed pollen (maxima, veitchii)";
                return self.refuse(RefusalCode::NotUnderstood, text);
            }
            _ => {}
        }
        let word = shown(&self.here().text);
        self.at += words;
        if whole {
            self.note_whole(&generation, &word);
            self.frame().generations.push((generation, column));
            return Ok(());
        }
        let Some(part) = self.current() else {
            return Ok(());
        };
        let made = self.generation_of(part, generation, column)?;
        if let Some(parent) = self.frame().parents.last_mut() {
            parent.part = made;
        }
        Ok(())
    }

    /// Whether the parents last read are pollen of several plants already: `lowii + maxima`.
    fn is_mixture(&mut self) -> bool {
        let joined = self.frame().joins.last() == Some(&Join::With);
        let part = self.current().map(|part| self.builder.part(part));
        joined || matches!(part, Some(Part::Mixed(_)))
    }

    fn note_whole(&mut self, generation: &Generation, word: &str) {
        if !matches!(generation, Generation::Backcross(_) | Generation::Filial(1)) {
            let text = format!(
                "`{word}` is read of the whole cross, not of its last parent; brackets would tell"
            );
            self.notes.say(NoteCode::SaidOfTheWhole, text);
        }
    }

    /// The part a generation word makes of a part.
    pub(super) fn generation_of(
        &mut self,
        part: PartId,
        generation: Generation,
        column: usize,
    ) -> Result<PartId, Refusal> {
        match generation {
            Generation::Sib => Ok(self.builder.within(part, Relation::Sib)),
            Generation::SelfReported => {
                let text = "selfing is reported, but these plants are dioecious; probably a sib cross: ask";
                self.notes.say(NoteCode::SelfReported, text);
                Ok(self.builder.within(part, Relation::SelfReported))
            }
            Generation::Filial(number) => self.filial(part, number, column),
            Generation::Backcross(times) => self.backcross_true(part, (times, None), column),
            Generation::BackcrossTo(times, to) => {
                self.backcross_true(part, (times, Some(&to)), column)
            }
            Generation::OpenPollinated => Ok(self.by_unknown(part, Unknown::OpenPollinated)),
            Generation::MixedPollen => Ok(self.by_unknown(part, Unknown::MixedPollen)),
        }
    }

    fn by_unknown(&mut self, part: PartId, how: Unknown) -> PartId {
        let pollen = self.builder.leaf(Leaf::Unknown(how));
        self.builder.cross(part, pollen, Direction::Known)
    }

    fn filial(&mut self, part: PartId, number: u32, column: usize) -> Result<PartId, Refusal> {
        if number == 1 && self.is_species(part) && self.frame().whole.hybrid.is_none() {
            return self.first_of_species(part, column);
        }
        if number == 1 {
            self.notes.say(
                NoteCode::FirstGeneration,
                "F1 says no more than the formula and is left out",
            );
            return Ok(part);
        }
        if number > MOST_GENERATIONS || number == 0 {
            let text = format!("F{number} at column {column} is no generation anyone has bred");
            return Err(Refusal::new(RefusalCode::GenerationUnlikely, column, text));
        }
        let part = if matches!(self.builder.part(part), Part::Cross(_)) {
            part
        } else if self.filial_of_species(part, number, column)? {
            return Ok(self.builder.within(part, Relation::Sib));
        } else {
            self.partnered(part)
        };
        let text = format!(
            "F{number} is taken from the label as a sib cross; it is true only if both parents are of one cross"
        );
        self.notes.say(NoteCode::FilialTakenFromLabel, text);
        let first = self.generation_number(part);
        if first >= number {
            let text = format!(
                "F{number} at column {column} contradicts what stands before it, which is already F{first}"
            );
            return Err(Refusal::new(RefusalCode::GenerationUnlikely, column, text));
        }
        Ok((first..number).fold(part, |parent, _| {
            self.builder.within(parent, Relation::Filial)
        }))
    }

    /// F1 of a species: a plant raised from it, or a cross of it with a parent that was left out.
    fn first_of_species(&mut self, part: PartId, column: usize) -> Result<PartId, Refusal> {
        let text =
            format!("F1 at column {column} needs a cross before it, as in (maxima × veitchii) F1");
        let question = Refusal::new(RefusalCode::FilialNeedsACross, column, text);
        Ok(match self.ask(question, 2)? {
            0 => part,
            _ => self.partnered(part),
        })
    }

    /// F2 of a species: its plants are sibs, which this says, or a cross of it with a parent that was left out.
    fn filial_of_species(
        &mut self,
        part: PartId,
        number: u32,
        column: usize,
    ) -> Result<bool, Refusal> {
        let text = format!(
            "F{number} at column {column} needs a cross before it, as in (maxima × veitchii) F{number}"
        );
        let question = Refusal::new(RefusalCode::FilialNeedsACross, column, text);
        if !self.is_species(part) {
            return Err(question);
        }
        if self.frame().whole.hybrid.is_some() {
            return Ok(false);
        }
        let sibs = self.ask(question, 2)? == 0;
        if let Some(parent) = self.frame().parents.last_mut() {
            parent.taken_for_sibs = sibs;
        }
        Ok(sibs)
    }

    /// Which filial generation a cross already is.
    fn generation_number(&self, part: PartId) -> u32 {
        let (mut number, mut at) = (1, part);
        while let Part::Cross(Cross {
            relation: Relation::Filial,
            seed,
            ..
        }) = self.builder.part(at)
        {
            number += 1;
            at = *seed;
        }
        number
    }
}

/// `f2`, `bc1`.
fn numbered(word: &str) -> Option<Generation> {
    let number = |digits: &str| digits.parse::<u32>().ok().filter(|_| digits.len() <= 3);
    match (word.strip_prefix("bc"), word.strip_prefix('f')) {
        (Some(digits), _) => number(digits).map(Generation::Backcross),
        (_, Some(digits)) => number(digits).map(Generation::Filial),
        _ => None,
    }
}
