//! The sets of parts that a share is "one of", numbered in the order in which they are met.

use std::collections::BTreeMap;

use super::part::Part;

/// Sets of parts, each numbered once.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(super) struct PartSets {
    members: Vec<Vec<Part>>,
    numbers: BTreeMap<Vec<Part>, u32>,
}

impl PartSets {
    /// The members of a set, ascending.
    pub(super) fn members(&self, set: u32) -> &[Part] {
        &self.members[set as usize]
    }

    /// The part "one of these"; sets among them are replaced by their members.
    pub(super) fn part_for(&mut self, open: Vec<Part>) -> Part {
        let mut flat = Vec::with_capacity(open.len());
        for part in open {
            match part {
                Part::OneOf(set) => flat.extend_from_slice(&self.members[set as usize]),
                _ => flat.push(part),
            }
        }
        flat.sort();
        flat.dedup();
        if let [only] = flat[..] {
            return only;
        }
        let next = self.members.len() as u32;
        let number = *self.numbers.entry(flat.clone()).or_insert(next);
        if number == next {
            self.members.push(flat);
        }
        Part::OneOf(number)
    }
}
