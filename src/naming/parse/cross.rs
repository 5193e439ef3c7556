//! Parents crossed: sides between signs, chains, the order their marks of sex tell.

use std::collections::BTreeSet;

use crate::naming::formula::{Direction, Part, PartId, Sex};
use crate::naming::notes::{NoteCode, Refusal, RefusalCode};

use super::frame::{Frame, Join, Parent};
use super::parser::{Nesting, Parser};

impl Parser<'_> {
    /// The sides between signs of crossing; parents joined by "or" or "and" are one side.
    pub(super) fn sides(&mut self, frame: &Frame) -> Vec<Parent> {
        let mut sides: Vec<Parent> = Vec::new();
        let mut at = 0;
        while at < frame.parents.len() {
            let mut to = at + 1;
            while to < frame.parents.len() && frame.joins[to - 1] != Join::Cross {
                to += 1;
            }
            sides.push(self.side(&frame.parents[at..to], &frame.joins[at..to - 1]));
            at = to;
        }
        sides
    }

    pub(super) fn side(&mut self, parents: &[Parent], joins: &[Join]) -> Parent {
        if parents.len() == 1 {
            return parents[0].clone();
        }
        let parts = parents.iter().map(|parent| parent.part).collect();
        let part = if joins.contains(&Join::Or) {
            self.builder.one_of(parts)
        } else {
            self.builder.mixed(parts)
        };
        Parent::new(part, parents.iter().find_map(|parent| parent.sex))
    }

    pub(super) fn cross_all(
        &mut self,
        frame: &Frame,
        mut sides: Vec<Parent>,
    ) -> Result<PartId, Refusal> {
        let chain = sides.len() > 2;
        let from_right = chain && self.nesting == Nesting::FromRight;
        if chain && !from_right {
            let text = "a chain of crosses without brackets was read from left to right, as asked";
            self.notes.say(NoteCode::ReadLeftToRight, text);
        }
        if from_right {
            sides.reverse();
        }
        let mut sides = sides.into_iter();
        let Some(mut so_far) = sides.next() else {
            return self.parent_missing();
        };
        for next in sides {
            let (first, second) = if from_right {
                (next, so_far)
            } else {
                (so_far, next)
            };
            let part = self.cross_of(first, second, frame.column)?;
            so_far = Parent::new(part, None);
        }
        Ok(so_far.part)
    }

    /// A chain without brackets is refused; one answer holds for every chain of the label.
    pub(super) fn nesting_is_said(&mut self, sides: usize, column: usize) -> Result<(), Refusal> {
        if sides < 3 || self.nesting != Nesting::Ask {
            return Ok(());
        }
        let text = format!(
            "{sides} parents in a row from column {column} can be nested in several ways; put brackets round the earlier cross"
        );
        self.ask_nesting(Refusal::new(RefusalCode::AmbiguousChain, column, text))
    }

    pub(super) fn ask_nesting(&mut self, question: Refusal) -> Result<(), Refusal> {
        self.nesting = match self.ask(question, 2)? {
            0 => Nesting::FromLeft,
            _ => Nesting::FromRight,
        };
        Ok(())
    }

    /// A cross of two sides in the order their marks of sex tell.
    pub(super) fn cross_of(
        &mut self,
        first: Parent,
        second: Parent,
        column: usize,
    ) -> Result<PartId, Refusal> {
        use Sex::{Female, Male};
        let (seed, pollen, direction) = match (first.sex, second.sex) {
            (None, None) => (first.part, second.part, Direction::Assumed),
            (Some(Female), Some(Male)) | (Some(Female), None) | (None, Some(Male)) => {
                (first.part, second.part, Direction::Known)
            }
            (Some(Male), Some(Female)) | (Some(Male), None) | (None, Some(Female)) => {
                self.notes.say(
                    NoteCode::TurnedByMarks,
                    "the first parent is marked as pollen parent; the order was turned",
                );
                (second.part, first.part, Direction::Known)
            }
            (Some(Female), Some(Female)) => {
                return Err(Refusal::new(
                    RefusalCode::TwoSeedParents,
                    column,
                    "both parents are marked ♀; one must be ♂",
                ));
            }
            (Some(Male), Some(Male)) => {
                return Err(Refusal::new(
                    RefusalCode::TwoPollenParents,
                    column,
                    "both parents are marked ♂; one must be ♀",
                ));
            }
        };
        Ok(self.builder.cross(seed, pollen, direction))
    }

    /// The epithets of the species a part is made of; `None` when any end is no sure species or one of several.
    pub(super) fn parent_set(&self, part: PartId) -> Option<BTreeSet<String>> {
        let mut set = BTreeSet::new();
        let mut seen = BTreeSet::new();
        let mut open = vec![part];
        while let Some(id) = open.pop() {
            if !seen.insert(id) {
                continue;
            }
            match self.builder.part(id) {
                Part::OneOf(_) | Part::Mixed(_) => return None,
                Part::Leaf(leaf) => {
                    set.insert(leaf.sure_species()?.to_owned());
                }
                other => open.extend(other.made_of()),
            }
        }
        Some(set)
    }
}
