//! Parents that a further row of a cross or of a seedling names otherwise than the record, also where they may be the same: fewer
//! of several, one more, or one for sure that was in doubt. The record stays, and what differs is said.

use super::answer::{ImportRow, RowParents, Who, Why};
use super::corrected_by;
use super::cross_cells::page_of_cross;
use super::dates::is_blank;
use super::index::folded;
use super::sorting::Sorting;
use crate::evidence::Side;
use crate::record::{Holds, Parents};
use crate::registry::{CrossRow, PlantRow};
use crate::wording::{each_once, joined};

/// A cell that is not what is known: what its column holds, the cell, and what is known.
type Changed = (Holds, (String, Why));

impl Sorting<'_, '_> {
    /// The parents of a seedling on record that a row names otherwise; where they cannot be the same, that is said elsewhere.
    pub fn other_parents_of(&self, at: usize, row: &ImportRow, plant: PlantRow) -> Vec<Changed> {
        let cross = self.registry.cross_of(plant);
        let cross = cross.filter(|_| row.facts.has_parents());
        let cross = cross.filter(|cross| self.parents_against(at, row, *cross).is_none());
        let seedling = self.registry.seedling(plant);
        let note = seedling.as_ref().and_then(|of| of.note.as_deref());
        cross.map_or_else(Vec::new, |cross| self.other_parents(at, row, cross, note))
    }

    /// The parents of a cross on record that a row names otherwise; `note` holds the words that were brought in before.
    pub fn other_parents(
        &self,
        at: usize,
        row: &ImportRow,
        cross: CrossRow,
        note: Option<&str>,
    ) -> Vec<Changed> {
        let (facts, own) = (&row.facts, self.parents_of(at, &row.facts));
        let code = facts.code.as_deref().unwrap_or_default();
        let is_new =
            |cell: &str| self.is_edited(row, code) && !note.is_some_and(|note| note.contains(cell));
        let both = facts.both_parents.as_ref();
        let cells: [(Holds, Option<&String>, &[Side]); 3] = [
            (Holds::SeedParent, facts.seed_parent.as_ref(), &[Side::Seed]),
            (
                Holds::PollenParent,
                facts.pollen_parent.as_ref(),
                &[Side::Pollen],
            ),
            (Holds::Parents, both, &[Side::Seed, Side::Pollen]),
        ];
        let differs = cells.into_iter().filter_map(|(holds, cell, sides)| {
            let cell = cell.filter(|cell| !is_blank(cell))?;
            let is_same = |side: &Side| self.is_side(cell, &own, (cross, *side));
            let is_known = match &own.label {
                Some(label) => self.is_label(label, cross),
                None => sides.iter().all(is_same),
            };
            // Words that name no plant are in the note alone.
            let is_named = |side: &Side| own.open || !of_side(&own, *side).is_empty();
            let is_read = own.label.is_some() || sides.iter().all(is_named);
            let why = || Why::Differs {
                recorded: self.recorded_words(cross, sides),
                by: corrected_by::page(&page_of_cross(self.registry, cross)),
            };
            let is_said = is_known && (is_read || !is_new(cell));
            (!is_said).then(|| (holds, (cell.clone(), why())))
        });
        differs.collect()
    }

    /// The plants that a parent may be by the record; none for one that is not known.
    fn recorded_side(&self, cross: CrossRow, side: Side) -> Vec<Option<PlantRow>> {
        let pairs = &self.registry[self.registry[cross].origin].pairs;
        each_once(pairs.iter().map(|pair| match side {
            Side::Seed => pair.seed,
            Side::Pollen => pair.pollen,
        }))
    }

    /// Whether those that a cell names for one parent are those of the record, and no fewer.
    fn is_side(&self, cell: &str, own: &RowParents, (cross, side): (CrossRow, Side)) -> bool {
        let (recorded, all) = (self.recorded_side(cross, side), of_side(own, side));
        // A plant with a code is more than some plant of its species.
        let is_plant = self.registry.plant(cell).is_some();
        let is_one = |who: &Who, of: &Option<PlantRow>| {
            let is_unseen = |of: PlantRow| self.registry.unseen(of).is_some();
            of.is_some_and(|of| self.may_be(who, of) && !(is_plant && is_unseen(of)))
        };
        let among = |who: &Who| recorded.iter().any(|of| is_one(who, of));
        let named = |of: &Option<PlantRow>| all.iter().any(|who| is_one(who, of));
        match &self.registry[cross].page.parents {
            Parents::Open { .. } if side == Side::Pollen => own.open,
            _ if all.is_empty() => !own.open && recorded.iter().all(Option::is_none),
            Parents::LabelOnly(_) => false,
            parents => {
                let is_mixed = matches!(parents, Parents::PollenMixed { .. });
                let is_drawn = side == Side::Seed || all.len() < 2 || own.mixed == is_mixed;
                is_drawn && all.iter().all(among) && recorded.iter().all(named)
            }
        }
    }

    /// Whether a label for both parents is that of the record; of parents that are known it says no more than their names.
    fn is_label(&self, label: &str, cross: CrossRow) -> bool {
        match &self.registry[cross].page.parents {
            Parents::LabelOnly(there) => folded(there) == folded(label),
            Parents::Unknown => false,
            _ => true,
        }
    }

    /// What the record says of parents, in words; none where none of them is known.
    fn recorded_words(&self, cross: CrossRow, sides: &[Side]) -> Option<String> {
        let parents = &self.registry[cross].page.parents;
        let between = match parents {
            Parents::LabelOnly(label) => return Some(label.to_string()),
            Parents::PollenMixed { .. } => " & ",
            _ => " or ",
        };
        let of_side = |side: &Side| {
            let is_open = matches!(parents, Parents::Open { .. }) && *side == Side::Pollen;
            let plants = self.recorded_side(cross, *side);
            let code = |plant: &Option<PlantRow>| plant.map(|plant| self.registry.code(plant));
            let codes = plants
                .iter()
                .map(|of| code(of).unwrap_or_else(|| "?".to_owned()));
            match is_open {
                true => "open".to_owned(),
                false => joined(codes, between),
            }
        };
        let words: Vec<String> = sides.iter().map(of_side).collect();
        let is_known = words.iter().any(|words| words != "?");
        is_known.then(|| words.join(" × "))
    }
}

/// Those that a row names for one parent.
fn of_side(own: &RowParents, side: Side) -> &[Who] {
    match side {
        Side::Seed => &own.seed,
        Side::Pollen => &own.pollen,
    }
}
