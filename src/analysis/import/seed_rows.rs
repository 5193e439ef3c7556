//! Rows about the seed of a cross. Such a row is never a plant: the first begins a cross that is not known, a further one
//! adds a sowing, and what cannot be added is said.

use super::answer::{Doubt, ImportRow, Why};
use super::cross_cells::page_of_cross;
use super::facts::RowFacts;
use super::sorting::Sorting;
use crate::record::{Choose, RowClass, When};

/// A sowing that is known.
struct Known {
    /// Its code, where it is on record.
    code: Option<String>,
    on: When,
    seeds: Option<u32>,
}

impl Sorting<'_, '_> {
    /// What a row about the seed of a cross begins or adds.
    pub fn seed_of(&self, row: &mut ImportRow, cross: &str) {
        let rows = self.rows_of_seed(cross);
        if rows.is_empty() && self.registry.cross(cross).is_none() {
            self.doubt(row, RowClass::CrossNotListed, cross, Why::CrossNotListed);
            return;
        }
        let page = self.page(cross);
        if !row.facts.is_sown() {
            return left_out(row, cross, Why::SeedNotTaken(page));
        }
        if let Some(same) = self.same_sowing(cross, &rows, &row.facts) {
            return left_out(row, cross, Why::SownBefore(same.code, page));
        }
        let facts = &row.facts;
        let more = facts.pollinated.is_some() || facts.pods.is_some() || facts.harvested.is_some();
        if more || facts.left.is_some() || facts.has_parents() {
            self.doubt(row, RowClass::Other, cross, Why::OnlySowing(page));
        }
    }

    /// The rows that come and say something of the seed of a cross.
    fn rows_of_seed(&self, cross: &str) -> Vec<&ImportRow> {
        let before = self.index.of_seed.get(cross).into_iter().flatten();
        let listed = self.index.crosses.get(cross);
        let rows = before.chain(listed).map(|&at| &self.rows[at]);
        rows.filter(|of| of.comes).collect()
    }

    /// Whether the day of a row is surely that of no known sowing of its cross, of which there is one.
    pub fn is_another_sowing(&self, cross: &str, facts: &RowFacts) -> bool {
        let known = self.known_sowings(cross, &self.rows_of_seed(cross));
        let own = self.of_row_sown(facts);
        let apart = |known: &Known| is_apart(known, &own);
        !known.is_empty() && known.iter().all(apart)
    }

    /// The page of a cross, also where it is only begun.
    fn page(&self, cross: &str) -> String {
        let page = self
            .registry
            .cross(cross)
            .map(|at| page_of_cross(self.registry, at));
        page.unwrap_or_else(|| format!("crosses/{cross}.ron"))
    }

    /// The sowing of a cross, on record or in rows, that that of a row may be.
    fn same_sowing(&self, cross: &str, rows: &[&ImportRow], facts: &RowFacts) -> Option<Known> {
        let own = self.of_row_sown(facts);
        let known = self.known_sowings(cross, rows);
        known.into_iter().find(|known| may_be_same(known, &own))
    }

    /// The sowings of a cross, on record and in rows.
    fn known_sowings(&self, cross: &str, rows: &[&ImportRow]) -> Vec<Known> {
        let rows = rows.iter().filter(|of| of.facts.is_sown());
        let in_rows = rows.map(|of| self.of_row_sown(&of.facts));
        self.recorded(cross).into_iter().chain(in_rows).collect()
    }

    /// The sowings of a cross on record.
    fn recorded(&self, cross: &str) -> Vec<Known> {
        let page = self.registry.cross(cross).map(|at| &self.registry[at].page);
        let sowings = page.into_iter().flat_map(|page| &page.sowings);
        let known = sowings.map(|sowing| Known {
            code: Some(format!("{cross}.{}", sowing.code)),
            on: sowing.on.map_or(When::UNKNOWN, |on| self.registry.when(on)),
            seeds: sowing.seeds,
        });
        known.collect()
    }

    fn of_row_sown(&self, facts: &RowFacts) -> Known {
        let on = facts.sown.as_deref();
        Known {
            code: None,
            on: on.map_or(When::UNKNOWN, |on| self.registry.when(on)),
            seeds: facts.sown_seeds(),
        }
    }
}

/// Whether two sowings may be one: nothing of their days and numbers of seeds says that they are two.
fn may_be_same(one: &Known, other: &Known) -> bool {
    let counts = one.seeds.zip(other.seeds);
    !is_apart(one, other) && counts.is_none_or(|(one, other)| one == other)
}

/// Whether two sowings were surely on two days.
fn is_apart(one: &Known, other: &Known) -> bool {
    one.on.surely_before(other.on) || other.on.surely_before(one.on)
}

/// The record stays, whatever the row says.
fn left_out(row: &mut ImportRow, cross: &str, why: Why) {
    let doubt = Doubt::of_row(RowClass::Differs, cross, why, Choose::LeaveOut);
    row.doubts.push(doubt);
}
