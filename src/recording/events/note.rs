//! A remark on plants, dated: a sitting without readings.

use super::sitting_page::first_cell;
use crate::recording::draft::Draft;
use crate::recording::plants::present_plants;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::written::{RonRecord, lines, texts};
use crate::registry::{CrossRow, PlantRow};
use std::collections::BTreeMap;

/// A remark.
#[derive(Clone, Debug, Default)]
pub struct Note {
    /// Lists of plants.
    pub plants: Vec<String>,
    /// The remark.
    pub words: String,
    /// When; today if not given.
    pub on: Option<String>,
}

impl Note {
    /// Writes a row for each plant on a sitting of its page.
    ///
    /// # Errors
    /// If a plant is unknown, was not here on that day, or nothing is remarked.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let words = self.words.trim();
        if words.is_empty() || self.plants.is_empty() {
            return Err(Slip::missing(
                "the remark",
                "it in quotes behind the plants, such as X24-01-7 \"rim split\"",
            ));
        }
        let (wanted, left_out) = present_plants(registry, &self.plants, &on)?;
        let notes = wanted.iter().map(|&plant| (plant, words.to_owned()));
        write_notes(draft, notes, || RonRecord::new().text("on", &on.text))?;
        let plants: Vec<String> = wanted.iter().map(|of| registry.code(*of)).collect();
        let about = plants.clone();
        let what = What::Remarked {
            plants,
            words: words.to_owned(),
        };
        Ok(Recorded::of(what, about, on.text).remarks(left_out))
    }
}

/// Writes a sitting without readings on the page of each plant that has a note; `head` are its circumstances.
///
/// # Errors
/// If a page cannot be changed.
pub(super) fn write_notes(
    draft: &mut Draft,
    notes: impl Iterator<Item = (PlantRow, String)>,
    head: impl Fn() -> RonRecord,
) -> Result<(), Slip> {
    let registry = draft.registry;
    let mut pages: BTreeMap<Option<CrossRow>, Vec<String>> = BTreeMap::new();
    for (plant, note) in notes {
        let rows = pages.entry(registry.cross_of(plant)).or_default();
        rows.push(texts([&first_cell(registry, plant), &note]));
    }
    for (cross, rows) in pages {
        let sitting = head()
            .value("columns", texts(["note"]))
            .value("rows", lines(&rows));
        let page = draft.plants_of(cross)?;
        page.append("sittings", &[sitting.line()])?;
    }
    Ok(())
}
