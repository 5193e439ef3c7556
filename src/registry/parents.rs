//! Who the parents on a cross page are: codes turned into the records they name.

use super::cross::Cross;
use super::ids::splits;
use super::left_out::LeftOut;
use super::lookup::Lookup;
use super::row_types::CrossRow;
use super::target::as_recorded;
use crate::diagnostic::Finding;
use crate::record::{FounderClone, SpeciesPage};
use crate::text::{Names, Sources, nearest};
use indexmap::IndexMap;
use std::cell::{Cell, OnceCell};

/// A record named by a code.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Named<'t> {
    /// A founder, by its index.
    Founder(u32),
    /// A seedling, by cross and place on its page.
    Seedling {
        /// The cross.
        cross: CrossRow,
        /// Index of the seedling on the page.
        local: u32,
    },
    /// A cross as a whole.
    Cross(CrossRow),
    /// A species.
    Species(&'t str),
}

/// All codes of the registry.
pub(super) struct Codes<'t> {
    pub sources: &'t Sources,
    founders: IndexMap<&'t str, u32>,
    crosses: IndexMap<&'t str, CrossRow>,
    species: IndexMap<&'t str, ()>,
    /// Founders, crosses and species for suggestions, made ready when the first is asked for.
    all: OnceCell<Names<'t>>,
    /// Crosses alone, for a seedling's code whose cross is misspelt.
    cross_names: OnceCell<Names<'t>>,
    /// Made ready when the first unknown code is asked for.
    left_out: OnceCell<LeftOut<'t>>,
    suggestions_left: Cell<u32>,
}

/// How many unknown codes are compared with all that are known.
const SUGGESTIONS: u32 = 200;

impl<'t> Codes<'t> {
    pub fn new(
        sources: &'t Sources,
        founders: &[FounderClone<'t>],
        parts: &[Cross<'t>],
        taxa: Option<&SpeciesPage<'t>>,
    ) -> Self {
        Codes {
            sources,
            founders: founders
                .iter()
                .zip(0..)
                .map(|(founder, at)| (founder.code, at))
                .collect(),
            crosses: parts
                .iter()
                .zip(CrossRow::all(parts.len()))
                .map(|(part, row)| (part.page.code, row))
                .collect(),
            species: taxa
                .into_iter()
                .flat_map(|t| &t.species)
                .map(|s| (s.epithet, ()))
                .collect(),
            all: OnceCell::new(),
            cross_names: OnceCell::new(),
            left_out: OnceCell::new(),
            suggestions_left: Cell::new(SUGGESTIONS),
        }
    }

    pub fn founder(&self, code: &str) -> Option<u32> {
        as_recorded(&self.founders, code).copied()
    }

    pub fn cross(&self, code: &str) -> Option<CrossRow> {
        as_recorded(&self.crosses, code).copied()
    }

    /// The record a code names, and the ramet's code if it names a ramet.
    pub fn named<'a>(
        &self,
        parts: &[Cross<'t>],
        code: &'a str,
    ) -> Option<(Named<'t>, Option<&'a str>)> {
        if let Some(whole) = self.whole(parts, code) {
            return Some((whole, None));
        }
        let (plant, ramet) = splits(code).next()?;
        let named = self.whole(parts, plant)?;
        let may_have_ramets = matches!(named, Named::Founder(_) | Named::Seedling { .. });
        (may_have_ramets && super::ids::is_ramet_code(ramet)).then_some((named, Some(ramet)))
    }

    fn whole(&self, parts: &[Cross<'t>], code: &str) -> Option<Named<'t>> {
        if let Some(founder) = self.founder(code) {
            return Some(Named::Founder(founder));
        }
        if let Some(cross) = self.cross(code) {
            return Some(Named::Cross(cross));
        }
        for (cross, number) in splits(code) {
            if let Some(cross) = self.cross(cross) {
                let local = parts[cross.index()].find(self.sources, number)?;
                return Some(Named::Seedling { cross, local });
            }
        }
        self.species
            .get_full(code)
            .map(|(_, epithet, ())| Named::Species(epithet))
    }

    /// Whether one more unknown code may be compared with all that are known: in a registry where every reference is
    /// wrong, the first two hundred suggestions tell why, and the rest would take hours.
    pub fn may_suggest(&self) -> bool {
        let left = self.suggestions_left.get();
        self.suggestions_left.set(left.saturating_sub(1));
        left > 0
    }

    /// The note on a code whose record was left out.
    pub fn left_out(
        &self,
        parts: &[Cross<'t>],
        what: &str,
        code: &str,
        lookup: Lookup<'t>,
    ) -> Option<Finding> {
        let kept = || parts.iter().map(|part| part.file);
        let left_out = self
            .left_out
            .get_or_init(|| LeftOut::of(self.sources, kept()));
        left_out.note(what, code, lookup.file)
    }

    /// Codes a parent could have been meant to be: founders, crosses, species, the seedlings of a cross that the code
    /// begins with, and those of that number in crosses whose code is nearly that.
    pub fn near_parents(&self, parts: &[Cross<'t>], code: &str) -> Vec<String> {
        if !self.may_suggest() {
            return Vec::new();
        }
        let all = self.all.get_or_init(|| {
            let plants = self.founders.keys().chain(self.crosses.keys());
            let codes = plants.chain(self.species.keys());
            Names::new(codes.copied())
        });
        let mut near: Vec<String> = all.nearest(code).into_iter().map(str::to_owned).collect();
        let cross = splits(code).find_map(|(cross, _)| self.cross(cross));
        if let Some(cross) = cross {
            let page = &parts[cross.index()];
            near.extend((0..page.seedling_rows.len() as u32).map(|local| {
                let number = page.number_text(self.sources, local);
                format!("{}-{number}", page.page.code)
            }));
        }
        for (prefix, number) in splits(code) {
            let crosses = self
                .cross_names
                .get_or_init(|| Names::new(self.crosses.keys().copied()));
            let pages = crosses.nearest(prefix).into_iter();
            let pages = pages.filter_map(|cross| self.cross(cross));
            let pages = pages.map(|cross| &parts[cross.index()]);
            let there = pages.filter(|page| page.find(self.sources, number).is_some());
            near.extend(there.map(|page| format!("{}-{number}", page.page.code)));
        }
        nearest(code, near.iter().map(String::as_str))
            .into_iter()
            .map(str::to_owned)
            .collect()
    }
}
