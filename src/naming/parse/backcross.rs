//! A backcross: checked against the formula it stands beside, or made of the two species that were crossed first.

use crate::naming::formula::{Certainty, Direction, Part, PartId, Structure, backcross};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};

use super::frame::Generation;
use super::generation::MOST_GENERATIONS;
use super::parser::Parser;

impl Parser<'_> {
    /// `(backcross 2 times to N. lowii)`, as botanical order says it: whether the bracket was one. `(later generation)`
    /// names no cross and is refused.
    pub(super) fn backcross_in_bracket(&mut self, inside: &str) -> Result<bool, Refusal> {
        let said = inside.to_lowercase();
        if said == "later generation" {
            let text = "`later generation` does not say who was crossed with whom; write the crosses with brackets";
            return self.refuse(RefusalCode::NotUnderstood, text);
        }
        let Some((times, named)) = backcross_said(&said) else {
            return Ok(false);
        };
        let column = self.tokens[self.at + 1].column;
        let name = match named.split_once(' ') {
            Some((genus, rest)) if self.vocabulary.is_genus(genus) => rest,
            _ => named,
        };
        let name = self.vocabulary.accepted(name).unwrap_or(name).to_owned();
        let generation = Generation::BackcrossTo(times, name);
        if !self.frame().joins.is_empty() {
            self.frame().generations.push((generation, column));
        } else if let Some(part) = self.current() {
            let made = self.generation_of(part, generation, column)?;
            if let Some(parent) = self.frame().parents.last_mut() {
                parent.part = made;
            }
        }
        Ok(true)
    }

    /// Checks a backcross word against the formula it stands beside; `to` is the recurrent parent, where it is named.
    pub(super) fn backcross_true(
        &mut self,
        part: PartId,
        (times, to): (u32, Option<&str>),
        column: usize,
    ) -> Result<PartId, Refusal> {
        let formula = self.builder.excerpt(part);
        let found = backcross(&formula, &Structure::of(&formula), formula.top());
        let sides = self.recurrent_sides(part).filter(|_| found.is_none());
        let text = match found {
            Some(found)
                if found.times == times as usize && to.is_none_or(|to| to == found.recurrent) =>
            {
                self.notes.say(
                    NoteCode::BackcrossFits,
                    format!(
                        "BC{times} fits: crossed back to {} {times} times",
                        found.recurrent
                    ),
                );
                return Ok(part);
            }
            Some(found) => format!(
                "the formula is BC{} to {}, not BC{times}{}",
                found.times,
                found.recurrent,
                to.map(|to| format!(" to {to}")).unwrap_or_default()
            ),
            None if to.is_some() => format!(
                "the backcross at column {column} is not true of this formula: the species is not one of two that were crossed; write who was crossed with whom, with brackets"
            ),
            None => format!(
                "BC{times} at column {column} is not true of this formula: it is not a cross of one species with a plant of others, crossed back to that species; name the recurrent parent"
            ),
        };
        let refusal = Refusal::new(RefusalCode::BackcrossContradicts, column, text);
        let Some(sides) = sides.filter(|_| (1..=MOST_GENERATIONS).contains(&times)) else {
            return Err(refusal);
        };
        let of_name = |to| sides.iter().position(|side| self.is_named(*side, to));
        let (side, direction) = match to {
            // Who bore the seed of a backcross is not said with it.
            Some(to) => (of_name(to).ok_or(refusal)?, Direction::Unknown),
            None => (
                usize::from(self.ask(refusal, 2)?.min(1)),
                Direction::Assumed,
            ),
        };
        let certainty = self.builder.marks(part).certainty;
        Ok((0..times).fold(part, |backcross, _| {
            let recurrent = self.another_of(sides[side], certainty);
            self.builder.cross(backcross, recurrent, direction)
        }))
    }

    fn is_named(&self, part: PartId, name: &str) -> bool {
        matches!(self.builder.part(part), Part::Leaf(leaf) if leaf.name() == name)
    }

    /// Another plant of the same name, known no more surely, nor than the cross it is named with.
    fn another_of(&mut self, part: PartId, of_cross: Certainty) -> PartId {
        let certainty = self.builder.marks(part).certainty.max(of_cross);
        let Part::Leaf(leaf) = self.builder.part(part).clone() else {
            return part;
        };
        let another = self.builder.leaf(leaf);
        self.builder.marks(another).certainty = certainty;
        another
    }

    /// A cross of two species said to be a backcross: either may be the recurrent parent that was left out.
    fn recurrent_sides(&self, part: PartId) -> Option<[PartId; 2]> {
        let Part::Cross(cross) = self.builder.part(part) else {
            return None;
        };
        let sides = [cross.seed, cross.pollen];
        match sides.map(|side| self.builder.part(side)) {
            [Part::Leaf(seed), Part::Leaf(pollen)] if seed != pollen => Some(sides),
            _ => None,
        }
    }
}

/// How often and to what, where the words say both: `backcross 2 times to n. lowii`.
fn backcross_said(said: &str) -> Option<(u32, &str)> {
    let rest = said.strip_prefix("backcross")?;
    let rest = rest.strip_prefix("ed").unwrap_or(rest).strip_prefix(' ')?;
    let (times, rest) = match rest.split_once(" times ") {
        Some((times, rest)) => (times.parse().ok()?, rest),
        None => (1, rest),
    };
    Some((times, rest.strip_prefix("to ")?))
}
