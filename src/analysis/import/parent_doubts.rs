//! What a row says of parents: who they are, and what speaks against it.

use super::answer::{ImportRow, Kind, Who, Why};
use super::parents::{Parentage, is_one_plant};
use super::sorting::Sorting;
use crate::record::{Choose, RowClass};

impl Sorting<'_, '_> {
    /// The parents of a cross or of a seedling with no page.
    pub fn parents(&self, own: usize, row: &mut ImportRow) {
        let named = |species_stay| {
            let parentage = Parentage {
                sorting: self,
                own,
                species_stay,
            };
            parentage.of(&row.facts)
        };
        let is_by_species = |why: &Why| matches!(why, Why::BySpecies(_));
        let (mut parents, mut unclear) = named(false);
        if is_one_plant(&parents) && unclear.iter().any(|(_, why)| is_by_species(why)) {
            // No plant is both parents, so the one of that name is not meant twice.
            (parents, unclear) = named(true);
        }
        let by_species = unclear.iter().any(|(_, why)| is_by_species(why));
        let species = by_species.then(|| named(true).0);
        let mut stays = false;
        for (found, why) in unclear {
            let by_species = is_by_species(&why);
            let class = match by_species {
                true => RowClass::ParentBySpecies,
                false => RowClass::ParentUnknown,
            };
            let chosen = self.doubt(row, class, &found, of_pods(why, row.facts.pods));
            stays |= by_species && chosen == Choose::Species;
        }
        row.parents = species.filter(|_| stays).unwrap_or(parents);
    }

    /// A parent whose row is left out is not known, and that is said. A row may be left out for it, and be a parent itself.
    pub fn without_left_out(&mut self) {
        let mut is_done = false;
        while !is_done {
            is_done = true;
            for at in 0..self.rows.len() {
                let parents = &self.rows[at].parents;
                let left = [&parents.seed, &parents.pollen].map(|side| self.any_left_out(side));
                if self.rows[at].comes && left.contains(&true) {
                    self.with_row(at, |sorting, row| sorting.parent_left_out(row, left));
                    is_done &= self.rows[at].comes;
                }
            }
        }
    }

    /// Whether a plant among some is that of a row which does not come in, and is not on record either.
    fn any_left_out(&self, all: &[Who]) -> bool {
        all.iter().any(|who| match who {
            Who::Row(at) => {
                let row = &self.rows[*at];
                !row.comes && !matches!(row.kind, Kind::More(Who::OnRecord(_)))
            }
            Who::OnRecord(_) | Who::Species(_) => false,
        })
    }

    /// Takes the sides of a row that name a plant left out, the seed parent's first, for not known.
    fn parent_left_out(&self, row: &mut ImportRow, [seed, pollen]: [bool; 2]) {
        let (facts, parents) = (&row.facts, &mut row.parents);
        let sides = [
            (seed, &mut parents.seed, &facts.seed_parent),
            (pollen, &mut parents.pollen, &facts.pollen_parent),
        ];
        let (mut found, mut gone) = (Vec::<String>::new(), Vec::new());
        for (_, side, cell) in sides.into_iter().filter(|(is_left, ..)| *is_left) {
            gone.append(side);
            found.extend(cell.clone().or_else(|| facts.both_parents.clone()));
        }
        found.dedup();
        let by_species = |why: &Why| matches!(why, Why::BySpecies(who) if gone.contains(who));
        row.doubts.retain(|of| !by_species(&of.why));
        for cell in found {
            self.doubt(row, RowClass::ParentUnknown, &cell, Why::PlantLeftOut);
        }
        self.settle(row);
    }

    /// A plant that came from a supplier has no parents on record: what the table says of them stays in the note.
    pub fn parents_of_founder(&self, row: &mut ImportRow) {
        let facts = &row.facts;
        let cells = [
            &facts.seed_parent,
            &facts.pollen_parent,
            &facts.both_parents,
        ];
        let said: Vec<&str> = cells.iter().filter_map(|cell| cell.as_deref()).collect();
        let said = said.join(" x ");
        self.doubt(row, RowClass::Other, &said, Why::ParentsOfAFounder);
    }

    /// What a row says against its parents: a label of one species where a parent is surely of another, or parents that
    /// are not those of its cross.
    pub fn against_parents(&self, at: usize, row: &mut ImportRow) {
        let contradiction = match &row.kind {
            Kind::Cross | Kind::SeedlingOf(_) => self.label_against(row),
            Kind::Seedling { cross, .. } if row.facts.has_parents() => {
                let line = self.index.crosses.get(cross);
                line.and_then(|&line| self.cross_against(at, row, line))
            }
            _ => None,
        };
        if let Some((found, against)) = contradiction {
            self.doubt(row, RowClass::Contradiction, &found, against);
        }
    }

    /// Parents that a row names and the registry has otherwise, unless the row contradicts itself already.
    pub fn against_record(&self, at: usize, row: &mut ImportRow) {
        let mut doubts = row.doubts.iter();
        let known = doubts.any(|of| of.class == RowClass::Contradiction);
        if known || !row.facts.has_parents() {
            return;
        }
        if let Some((found, against)) = self.recorded_against(at, row) {
            self.doubt(row, RowClass::Contradiction, &found, against);
        }
    }
}

/// One of several parents of several pods: the files have one form, in which it is the same for all of them.
fn of_pods(why: Why, pods: Option<u32>) -> Why {
    match (why, pods) {
        (Why::ParentOneOf, Some(pods)) if pods > 1 => Why::ParentOneOfPods(pods),
        (why, _) => why,
    }
}
