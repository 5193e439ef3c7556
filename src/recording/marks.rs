//! Decisions to keep, as changes to the pages: every byte else stays.

use crate::analysis::select::{Proposal, SelectReport};
use crate::record::Day;
use crate::registry::Registry;
use crate::text::edit::{Edit, apply};
use crate::text::{FileId, Outline, one_line};
use std::collections::BTreeMap;

/// A page as it is to be.
pub struct MarkedPage {
    /// The file.
    pub file: FileId,
    /// Its new text.
    pub text: String,
    /// Plants marked on it.
    pub plants: usize,
}

/// The pages with `kept: (on:, why:)` set for each plant proposed to be kept and not marked yet.
///
/// # Errors
/// In words, when a plant's record cannot be found or changed; then nothing is to be written.
pub fn marked_pages(
    registry: &Registry,
    report: &SelectReport,
    today: Day,
) -> Result<Vec<MarkedPage>, String> {
    let mut places: BTreeMap<FileId, Vec<(u32, String, String)>> = BTreeMap::new();
    let wanted = |proposal| proposal == Proposal::Keep;
    for row in report
        .plants
        .iter()
        .filter(|row| wanted(row.proposal) && !row.already_marked)
    {
        let place = registry
            .place(row.row)
            .ok_or_else(|| format!("the record of {} was not found", row.plant))?;
        let mark = format!(
            "(on: \"{today}\", why: {})",
            quoted(&row.reason.to_string())
        );
        places
            .entry(place.file)
            .or_default()
            .push((place.start, row.plant.clone(), mark));
    }
    let pages = places.into_iter();
    pages
        .map(|(file, marks)| marked_page(registry, file, &marks))
        .collect()
}

fn marked_page(
    registry: &Registry,
    file: FileId,
    marks: &[(u32, String, String)],
) -> Result<MarkedPage, String> {
    let text = registry.sources.text(file);
    let outline = Outline::of(text);
    let mut edits: Vec<Edit> = Vec::new();
    for (start, plant, mark) in marks {
        let refused = |why: &dyn std::fmt::Display| format!("{plant} could not be marked: {why}");
        let record = outline
            .record_at(*start)
            .ok_or_else(|| refused(&"its record was not found"))?;
        edits.extend(
            outline
                .insert_field(record, "kept", mark)
                .map_err(|why| refused(&why))?,
        );
    }
    let path = &registry.sources.get(file).path;
    Ok(MarkedPage {
        file,
        text: apply(text, &edits).map_err(|why| format!("{path} was not changed: {why}"))?,
        plants: marks.len(),
    })
}

/// Words as a RON text, every character seen.
fn quoted(words: &str) -> String {
    let mut out = String::from("\"");
    for c in one_line(words).chars() {
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}
