//! What is numbered as one, what must come before it, and the words for a loop.
//!
//! All seedlings of a cross have the same possible parents and are one unit; a seedling or a pot of a muddled tray is a
//! unit of its own.

use super::cross::Cross;
use super::mating::{Mating, Side};
use super::muddled::{Member, Muddled};
use super::parents::Named;
use super::plants::{KnownBy, Unseen};
use super::row_types::CrossRow;
use crate::diagnostic::{Code, Finding};
use crate::text::{Sources, Span};

/// Crosses and muddled seedlings, numbered through: the crosses first.
pub(super) struct Units<'a, 't> {
    pub sources: &'t Sources,
    pub parts: &'a [Cross<'t>],
    pub unseen: &'a [Unseen<'t>],
    pub muddled: &'a [Muddled],
    pub matings: &'a [Mating<'t>],
}

/// Of a loop of more steps than this only both ends are named.
const STEPS_TOLD: usize = 12;
/// How many steps of a long loop are named at its beginning and at its end.
const FIRST_STEPS: usize = 6;
const LAST_STEPS: usize = 3;

impl<'t> Units<'_, 't> {
    /// The unit a parent belongs to, if it is no founder.
    fn unit_of(&self, side: Side) -> Option<u32> {
        match side {
            Side::Plant(Named::Seedling { cross, local }, _) => {
                let own = self
                    .muddled
                    .binary_search_by_key(&(cross, Member::Seedling(local)), |m| {
                        (m.cross, m.member)
                    });
                Some(own.map_or(cross.0, |at| (self.parts.len() + at) as u32))
            }
            Side::Unseen(at, _) => match self.unseen[at as usize].known_by {
                KnownBy::SeedlingOf(cross) => Some(cross.0),
                _ => None,
            },
            _ => None,
        }
    }

    fn cross_sources(&self, cross: CrossRow) -> Vec<u32> {
        let pairs = &self.matings[cross.index()].pairs;
        let mut units: Vec<u32> = pairs
            .iter()
            .flat_map(|(seed, pollen, _)| [*seed, *pollen])
            .filter_map(|side| self.unit_of(side))
            .collect();
        units.sort_unstable();
        units.dedup();
        units
    }

    /// For each unit those that must come before it.
    pub fn links(&self) -> Vec<Vec<u32>> {
        let crosses = CrossRow::all(self.parts.len()).map(|cross| self.cross_sources(cross));
        let muddled = self
            .muddled
            .iter()
            .map(|plant| plant.crosses.iter().map(|cross| cross.0).collect());
        crosses.chain(muddled).collect()
    }

    /// The loop in words, each step at its place; of a long one the first steps, the last, and how many lie between.
    pub fn own_ancestor(&self, in_loop: &[u32]) -> Finding {
        let length = in_loop.len();
        let first = if length > STEPS_TOLD {
            FIRST_STEPS
        } else {
            length
        };
        let last = (length - LAST_STEPS.min(length)).max(first);
        let shown = (0..first).chain(last..length);
        let steps: Vec<(String, Option<Span>)> = shown
            .map(|at| self.step(in_loop[at], in_loop[(at + 1) % length]))
            .collect();
        let mut told: Vec<String> = steps.iter().map(|(told, _)| told.clone()).collect();
        if last > first {
            told.insert(first, format!("… {} more steps …", last - first));
        }
        let mut finding = Finding::fault(Code("own-ancestor"), "a plant would be its own ancestor")
            .at(steps[0].1)
            .found(told.join(", "))
            .needed("parents that are older than their seedlings")
            .help(format!(
                "one of these {} is wrong; until this is fixed, the parents of {} count as unknown",
                self.may_be_wrong(in_loop),
                self.named(in_loop[0])
            ));
        for (_, place) in &steps[1..] {
            finding = finding.related(*place, "and here");
        }
        finding
    }

    /// What a loop may come from.
    fn may_be_wrong(&self, in_loop: &[u32]) -> &'static str {
        let is_cross = |&unit: &u32| (unit as usize) < self.parts.len();
        match in_loop.iter().all(is_cross) {
            true => "parents",
            false => "parents or mix-ups",
        }
    }

    /// Why a unit must come after its source, and where that is said.
    fn step(&self, unit: u32, source: u32) -> (String, Option<Span>) {
        let named = self.named(unit);
        if let Some(at) = (unit as usize).checked_sub(self.parts.len()) {
            let muddled = &self.muddled[at];
            let file = self.parts[muddled.cross.index()].file;
            let place = self.sources.span_of(file, self.own_code(muddled));
            return (
                format!("{named} may come from {}", self.named(source)),
                place,
            );
        }
        let parent = self.parent_in(CrossRow(unit), source).unwrap_or("?");
        let file = self.parts[unit as usize].file;
        let place = self.sources.span_of(file, parent);
        (format!("{named} has parent {parent}"), place)
    }

    fn named(&self, unit: u32) -> String {
        let Some(at) = (unit as usize).checked_sub(self.parts.len()) else {
            return self.parts[unit as usize].page.code.to_owned();
        };
        let muddled = &self.muddled[at];
        let page = self.parts[muddled.cross.index()].page.code;
        let sign = match muddled.member {
            Member::Seedling(_) => '-',
            Member::Pot(_) => '.',
        };
        format!("{page}{sign}{}", self.own_code(muddled))
    }

    /// The number of a seedling or the code of a pot, as written on its page.
    fn own_code(&self, muddled: &Muddled) -> &'t str {
        let page = &self.parts[muddled.cross.index()];
        match muddled.member {
            Member::Seedling(local) => page.number_text(self.sources, local),
            Member::Pot(pot) => page.page.community_pots[pot].code,
        }
    }

    /// The code of the parent of a cross that belongs to a unit.
    fn parent_in(&self, cross: CrossRow, unit: u32) -> Option<&'t str> {
        let pairs = &self.matings[cross.index()].pairs;
        pairs
            .iter()
            .flat_map(|(seed, pollen, _)| [*seed, *pollen])
            .find_map(|side| {
                let code = match side {
                    Side::Plant(_, code) | Side::Unseen(_, code) => code,
                    Side::Unknown => return None,
                };
                (self.unit_of(side) == Some(unit)).then_some(code)
            })
    }
}
