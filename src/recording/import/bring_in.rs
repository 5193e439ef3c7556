//! Every row that comes, written as one change.

use super::codes::{Begun, Codes};
use super::founders::{NewPlant, fate_record};
use super::pages::{NewOnPage, sowings, write};
use super::sittings::Sittings;
use crate::analysis::import::{Import, ImportRow, Kind, Who};
use crate::naming::recorded::MissingNames;
use crate::record::RowClass;
use crate::recording::draft::Draft;
use crate::recording::names::take_in;
use crate::recording::page::FieldChange;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::Words;
use crate::recording::written::text;
use crate::registry::{CrossRow, PlantRow, Registry};
use crate::text::LONGEST_PAGE;
use crate::wording::{counted, listed};
use std::collections::BTreeMap;

/// Writes the records of all rows that come.
///
/// # Errors
/// If a page cannot be changed, or would become longer than a page may be.
pub fn bring_in(import: &Import, draft: &mut Draft) -> Result<Recorded, Slip> {
    let registry = draft.registry;
    let codes = Codes::given(registry, import);
    let sorted = Sorted::of(import, &codes, registry);
    let remarks = take_in(draft, names(import, registry))?;
    sorted.write(import, &codes, draft)?;
    for change in draft.changes() {
        let length = change.now.as_ref().map_or(0, String::len) as u64;
        if length > LONGEST_PAGE {
            return Err(Slip::nothing(format!(
                "{} would be longer than the {} MB that a page may have\nbring the tables in part by part, into more than one registry if need be",
                change.path,
                LONGEST_PAGE >> 20
            )));
        }
    }
    let crosses = sorted.crosses.keys();
    Ok(Recorded {
        about: sorted
            .known
            .keys()
            .map(|plant| registry.code(*plant))
            .chain(crosses.map(|cross| registry[*cross].page.code.to_owned()))
            .collect(),
        tags: Vec::new(),
        remarks: Words::all(remarks),
        what: What::InWords(format!(
            "Brought in {}{}",
            counted(import.coming().count(), "row", "rows"),
            Brings::of(import, &codes, &sorted, registry).words()
        )),
    })
}

/// How many records of each kind the rows that come would bring.
pub fn contents(import: &Import, registry: &Registry) -> Brings {
    let codes = Codes::given(registry, import);
    let sorted = Sorted::of(import, &codes, registry);
    Brings::of(import, &codes, &sorted, registry)
}

/// How many records of each kind rows bring.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Brings {
    /// Founders.
    pub founders: usize,
    /// Crosses.
    pub crosses: usize,
    /// Sowings.
    pub sowings: usize,
    /// Seedlings.
    pub seedlings: usize,
    /// Readings.
    pub readings: usize,
    /// Plants on record of which more is said.
    pub plants_on_record: usize,
    /// Crosses on record on which a remark is made.
    pub crosses_on_record: usize,
}

impl Brings {
    fn of(import: &Import, codes: &Codes, sorted: &Sorted, registry: &Registry) -> Brings {
        let founders = sorted.founders.keys();
        Brings {
            founders: founders.map(|&row| codes_of(codes, row).len()).sum(),
            crosses: codes.crosses.len(),
            sowings: sowings(registry, import, codes, &sorted.pages),
            seedlings: codes.seedlings.len(),
            readings: sorted.readings,
            plants_on_record: sorted.known.len(),
            crosses_on_record: sorted.crosses.len(),
        }
    }

    /// Behind a colon; nothing where nothing is brought.
    pub fn words(&self) -> String {
        let known = counted(self.plants_on_record, "plant", "plants");
        let crosses = counted(self.crosses_on_record, "cross", "crosses");
        let parts = [
            (self.founders, counted(self.founders, "founder", "founders")),
            (self.crosses, counted(self.crosses, "cross", "crosses")),
            (self.sowings, counted(self.sowings, "sowing", "sowings")),
            (
                self.seedlings,
                counted(self.seedlings, "seedling", "seedlings"),
            ),
            (self.readings, counted(self.readings, "reading", "readings")),
            (
                self.plants_on_record,
                format!("more about {known} on record"),
            ),
            (
                self.crosses_on_record,
                format!("remarks on {crosses} on record"),
            ),
        ];
        let parts = parts.into_iter().filter(|(count, _)| *count > 0);
        let parts: Vec<String> = parts.map(|(_, words)| words).collect();
        match parts.is_empty() {
            true => String::new(),
            false => format!(": {}", listed(&parts)),
        }
    }
}

/// Names that labels need, and species that are parents and not in `species.ron`.
fn names(import: &Import, registry: &Registry) -> MissingNames {
    let mut names = import.names.clone();
    let rows = import.coming().map(|(_, row)| &row.parents);
    for who in rows.flat_map(|of| of.seed.iter().chain(&of.pollen)) {
        if let Who::Species(epithet) = who
            && !registry.taxa.species.iter().any(|of| of.epithet == epithet)
            && !names.species.contains(epithet)
        {
            names.species.push(epithet.clone());
        }
    }
    names
}

/// What comes, by where it goes.
struct Sorted<'i> {
    /// Founders by row.
    founders: BTreeMap<usize, NewPlant<'i>>,
    /// Readings of founders.
    of_founders: Sittings,
    /// What comes onto pages of crosses, by code.
    pages: BTreeMap<String, NewOnPage<'i>>,
    /// Where the seedling of a row stands: its page, and its place among those that are new there.
    seedlings: BTreeMap<usize, (String, usize)>,
    /// Further rows of plants on record.
    known: BTreeMap<PlantRow, Vec<&'i ImportRow>>,
    /// The cells of rows with a remark on a cross on record.
    crosses: BTreeMap<CrossRow, Vec<&'i str>>,
    readings: usize,
}

impl<'i> Sorted<'i> {
    fn of(import: &'i Import, codes: &Codes, registry: &Registry) -> Sorted<'i> {
        let mut sorted = Sorted {
            founders: BTreeMap::new(),
            of_founders: Sittings::default(),
            pages: BTreeMap::new(),
            seedlings: BTreeMap::new(),
            known: BTreeMap::new(),
            crosses: BTreeMap::new(),
            readings: 0,
        };
        for (at, row) in import.coming() {
            match &row.kind {
                Kind::Founder => {
                    for code in codes_of(codes, at) {
                        sorted.readings += sorted.of_founders.add(code, &row.facts);
                    }
                    let plant = NewPlant::of(&row.facts, &row.source);
                    sorted.founders.insert(at, plant);
                }
                Kind::Seedling { .. } | Kind::SeedlingOf(_) => sorted.seedling(codes, at, row),
                Kind::SeedOf(cross) if codes.crosses.get(cross) != Some(&Begun::Row(at)) => {
                    let page = sorted.pages.entry(cross.clone()).or_default();
                    page.sowings.push(row);
                }
                Kind::More(Who::OnRecord(code)) => {
                    if let Some(plant) = registry.plant(code) {
                        sorted.known.entry(plant).or_default().push(row);
                    } else if let Some(cross) = registry.cross(code) {
                        sorted.crosses.entry(cross).or_default().push(&row.source);
                    }
                }
                _ => {}
            }
        }
        for row in &import.rows {
            if let Kind::More(Who::Row(first)) = &row.kind {
                match (row.comes, row.class) {
                    (true, _) if import.rows[*first].kind == Kind::Cross => {
                        sorted.of_cross(codes, *first, row)
                    }
                    (true, _) => sorted.more(codes, *first, row),
                    // Its cells are kept too: when the plant has got another code, only they know the row again.
                    (false, RowClass::OnRecord | RowClass::Differs) => {
                        sorted.said(*first, &row.source)
                    }
                    (false, _) => {}
                }
            }
        }
        sorted.further(registry);
        sorted
    }

    /// The new plant of a row.
    fn plant(&mut self, row: usize) -> Option<&mut NewPlant<'i>> {
        if let Some((cross, place)) = self.seedlings.get(&row) {
            let page = self.pages.get_mut(cross)?;
            return Some(&mut page.seedlings[*place].1);
        }
        self.founders.get_mut(&row)
    }

    /// A further row that says nothing new of the plant of another.
    fn said(&mut self, first: usize, source: &'i str) {
        if let Some(plant) = self.plant(first) {
            plant.sources.push(source);
        }
    }

    fn seedling(&mut self, codes: &Codes, at: usize, row: &'i ImportRow) {
        let Some((cross, number)) = codes.seedlings.get(&at) else {
            return;
        };
        let page = self.pages.entry(cross.clone()).or_default();
        self.readings += page.sittings.add(number, &row.facts);
        self.seedlings
            .insert(at, (cross.clone(), page.seedlings.len()));
        let plant = NewPlant::of(&row.facts, &row.source);
        page.seedlings.push((number.clone(), plant));
    }

    /// A further row with a remark on the cross of another row.
    fn of_cross(&mut self, codes: &Codes, first: usize, row: &'i ImportRow) {
        let mut crosses = codes.crosses.iter();
        if let Some((code, _)) = crosses.find(|(_, begun)| **begun == Begun::Row(first)) {
            let page = self.pages.entry(code.clone()).or_default();
            page.sources.push(&row.source);
        }
    }

    /// A further row about the plant of another row.
    fn more(&mut self, codes: &Codes, first: usize, row: &'i ImportRow) {
        if let Some(plant) = self.plant(first) {
            plant.add(&row.facts, &row.source);
        }
        if let Some((cross, number)) = codes.seedlings.get(&first) {
            let page = self.pages.entry(cross.clone()).or_default();
            self.readings += page.sittings.add(number, &row.facts);
        } else if self.founders.contains_key(&first)
            && let Some(code) = codes_of(codes, first).first()
        {
            self.readings += self.of_founders.add(code, &row.facts);
        }
    }

    /// Readings of plants on record.
    fn further(&mut self, registry: &Registry) {
        for (&plant, rows) in &self.known {
            for row in rows {
                self.readings += match (registry.cross_of(plant), registry.number(plant)) {
                    (Some(cross), Some(number)) => {
                        let code = registry[cross].page.code.to_owned();
                        let page = self.pages.entry(code).or_default();
                        page.sittings.add(number, &row.facts)
                    }
                    _ => self.of_founders.add(&registry.code(plant), &row.facts),
                };
            }
        }
    }

    fn write(&self, import: &Import, codes: &Codes, draft: &mut Draft) -> Result<(), Slip> {
        let registry = draft.registry;
        let changes = self
            .known
            .iter()
            .map(|(&plant, rows)| (plant, of_known(registry, plant, rows)));
        draft.change_plants(changes.collect())?;
        for (&cross, sources) in &self.crosses {
            let note = noted(registry[cross].page.note.as_deref(), sources);
            draft.cross(cross).set("note", &note)?;
        }
        let mut founders = Vec::new();
        for (&at, plant) in &self.founders {
            let facts = plant.facts;
            for (piece, code) in codes_of(codes, at).iter().enumerate() {
                let label = facts.labels.get(piece).or(facts.label.as_ref());
                founders.push(plant.founder(code, label.map_or("?", String::as_str)));
            }
        }
        let sittings = self.of_founders.records(registry);
        if !founders.is_empty() || !sittings.is_empty() {
            draft.clones()?.append("clones", &founders)?;
            draft.clones()?.append("sittings", &sittings)?;
        }
        write(draft, import, codes, &self.pages)
    }
}

fn codes_of(codes: &Codes, row: usize) -> &[String] {
    codes.rows.get(&row).map_or(&[], Vec::as_slice)
}

/// What further rows change on the record of a plant: what became of it, and their cells behind its note.
fn of_known(registry: &Registry, plant: PlantRow, rows: &[&ImportRow]) -> Vec<FieldChange> {
    let founder = registry.founder(plant).map(|of| of.note.as_deref());
    let seedling = || registry.seedling(plant).and_then(|of| of.note.as_deref());
    let note = founder.unwrap_or_else(seedling);
    let sources: Vec<&str> = rows.iter().map(|row| row.source.as_str()).collect();
    let mut changes = vec![FieldChange::Set("note", noted(note, &sources))];
    let fate = rows.iter().find_map(|row| fate_record(&row.facts));
    changes.extend(fate.map(|fate| FieldChange::Set("fate", fate)));
    changes
}

/// A note with the cells of rows behind it, as the files write it.
fn noted(note: Option<&str>, sources: &[&str]) -> String {
    let words: Vec<&str> = note.into_iter().chain(sources.iter().copied()).collect();
    text(&words.join(" "))
}
