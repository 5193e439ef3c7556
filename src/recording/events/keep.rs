//! Marking plants to keep, with the reason.

use crate::recording::at_place::{is_whole, plants_at};
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{plants, present_plants};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::Words;
use crate::recording::written::RonRecord;
use crate::registry::PlantRow;

/// A decision to keep plants.
#[derive(Clone, Debug, Default)]
pub struct Keep {
    /// Lists of plants; none for all that stand at a place.
    pub plants: Vec<String>,
    /// The place at which all are meant.
    pub place: Option<String>,
    /// Why.
    pub why: Option<String>,
    /// Whether the mark is taken away instead.
    pub no_longer: bool,
    /// When it was decided; today if not given.
    pub on: Option<String>,
}

impl Keep {
    /// Marks the plants.
    ///
    /// # Errors
    /// If a plant is unknown, or all of them bear a mark already, or none does that is to lose it; to be marked a plant must
    /// be here, or have been on that day.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        if let Some(place) = &self.place {
            is_whole(registry, place)?;
            let there = plants_at(registry, place, draft.today)?;
            return match self.no_longer {
                true => unmark(draft, &there),
                false => self.marked(draft, &on.text, &there),
            };
        }
        if self.no_longer {
            // A plant that is gone loses its mark like any other.
            return unmark(draft, &plants(registry, &self.plants)?);
        }
        let (wanted, left_out) = present_plants(registry, &self.plants, &on)?;
        let mut recorded = self.marked(draft, &on.text, &wanted)?;
        recorded.remarks.splice(0..0, left_out);
        Ok(recorded)
    }

    /// Marks the plants; one that bears a mark gets a new one only for another reason.
    fn marked(&self, draft: &mut Draft, on: &str, wanted: &[PlantRow]) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let is_new = |plant: &&PlantRow| match registry.kept(**plant) {
            None => !registry.is_kept(**plant),
            Some(kept) => self.why.is_some() && self.why.as_deref() != kept.why.as_deref(),
        };
        let new = wanted.iter().filter(is_new);
        let new: Vec<_> = new.map(|&plant| (plant, self.why.clone())).collect();
        let before = new.iter().filter_map(|(plant, _)| {
            let why = registry.kept(*plant)?.why.as_deref()?;
            Some(format!(
                "{} had another reason: {why}",
                registry.code(*plant)
            ))
        });
        let before: Vec<String> = before.collect();
        Ok(written(draft, on, wanted.len(), new)?.remarks(before))
    }
}

/// Marks plants, each with its reason; those marked already are left as they are.
///
/// # Errors
/// If all of them bear a mark, or a page cannot be changed.
pub fn mark(
    draft: &mut Draft,
    on: &str,
    marks: Vec<(PlantRow, Option<String>)>,
) -> Result<Recorded, Slip> {
    let all = marks.len();
    let mut new = marks;
    new.retain(|(plant, _)| !draft.registry.is_kept(*plant));
    written(draft, on, all, new)
}

/// Writes the marks that are new among so many plants.
fn written(
    draft: &mut Draft,
    on: &str,
    all: usize,
    new: Vec<(PlantRow, Option<String>)>,
) -> Result<Recorded, Slip> {
    let registry = draft.registry;
    let codes: Vec<String> = new.iter().map(|(plant, _)| registry.code(*plant)).collect();
    if codes.is_empty() {
        return Err(Slip::nothing(Words::or(
            "every plant named is marked to keep already\n`podbook keep` gives another reason with --why, and takes the mark away with --no-longer",
            "it is marked to keep already\nfill in another “Why it is to be kept”, or tick “Take the mark off”",
        )));
    }
    let changes = new.into_iter().map(|(plant, why)| {
        let mark = RonRecord::new().text("on", on).text_if("why", why);
        (plant, vec![FieldChange::Set("kept", mark.line())])
    });
    draft.change_plants(changes.collect())?;
    let what = What::Kept {
        before: all - codes.len(),
        plants: codes.clone(),
    };
    Ok(Recorded::of(what, codes, on))
}

/// Takes the mark away from those that bear one.
fn unmark(draft: &mut Draft, wanted: &[PlantRow]) -> Result<Recorded, Slip> {
    let registry = draft.registry;
    let marked = wanted.iter().filter(|plant| registry.is_kept(**plant));
    let marked: Vec<PlantRow> = marked.copied().collect();
    if marked.is_empty() {
        return Err(Slip::nothing(Words::or(
            "none of these plants is marked to keep\n`podbook list --kept` lists those that are",
            "it is not marked to keep",
        )));
    }
    let changes = marked
        .iter()
        .map(|&plant| (plant, vec![FieldChange::Remove("kept")]));
    draft.change_plants(changes.collect())?;
    let plants: Vec<String> = marked.iter().map(|&plant| registry.code(plant)).collect();
    let about = plants.clone();
    Ok(Recorded::of(What::NotKept { plants }, about, ""))
}
