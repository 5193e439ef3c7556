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
    let coming = Coming::of(import, registry);
    let remarks = take_in(draft, names(import, registry))?;
    coming.write(draft)?;
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
    let plants = coming.known.keys().map(|plant| registry.code(*plant));
    let crosses = coming.crosses.keys();
    let crosses = crosses.map(|cross| registry[*cross].page.code.to_owned());
    Ok(Recorded {
        about: plants.chain(crosses).collect(),
        tags: Vec::new(),
        remarks: Words::all(remarks),
        on: String::new(),
        what: What::InWords(format!(
            "Brought in {}{}",
            counted(import.coming().count(), "row", "rows"),
            coming.brings().words()
        )),
    })
}

/// How many records of each kind the rows that come would bring.
pub fn contents(import: &Import, registry: &Registry) -> Brings {
    Coming::of(import, registry).brings()
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
    /// Behind a colon; nothing where nothing is brought.
    pub fn words(&self) -> String {
        let part = |count, one, several| (count > 0).then(|| counted(count, one, several));
        let known = part(self.plants_on_record, "plant", "plants");
        let crosses = part(self.crosses_on_record, "cross", "crosses");
        let parts = [
            part(self.founders, "founder", "founders"),
            part(self.crosses, "cross", "crosses"),
            part(self.sowings, "sowing", "sowings"),
            part(self.seedlings, "seedling", "seedlings"),
            part(self.readings, "reading", "readings"),
            known.map(|known| format!("more about {known} on record")),
            crosses.map(|crosses| format!("remarks on {crosses} on record")),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
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
struct Coming<'i, 't> {
    registry: &'i Registry<'t>,
    import: &'i Import,
    codes: Codes,
    /// Founders by row.
    founders: BTreeMap<usize, NewPlant<'i>>,
    /// Readings of founders.
    of_founders: Sittings,
    /// What comes onto pages of crosses, by code: those that are begun, and others that it comes onto.
    pages: BTreeMap<String, NewOnPage<'i>>,
    /// Where the seedling of a row stands: its page, and its place among those that are new there.
    seedlings: BTreeMap<usize, (String, usize)>,
    /// Further rows of plants on record.
    known: BTreeMap<PlantRow, Vec<&'i ImportRow>>,
    /// The cells of rows with a remark on a cross on record.
    crosses: BTreeMap<CrossRow, Vec<&'i str>>,
    readings: usize,
}

impl<'i, 't> Coming<'i, 't> {
    fn of(import: &'i Import, registry: &'i Registry<'t>) -> Coming<'i, 't> {
        let codes = Codes::given(registry, import);
        let begun = codes.crosses.keys();
        let mut coming = Coming {
            registry,
            import,
            founders: BTreeMap::new(),
            of_founders: Sittings::default(),
            pages: begun
                .map(|code| (code.clone(), NewOnPage::default()))
                .collect(),
            seedlings: BTreeMap::new(),
            known: BTreeMap::new(),
            crosses: BTreeMap::new(),
            readings: 0,
            codes,
        };
        for (at, row) in import.coming() {
            coming.row(at, row);
        }
        for row in &import.rows {
            if let Kind::More(Who::Row(first)) = &row.kind {
                coming.further(*first, row);
            }
        }
        coming.readings_of_known();
        coming
    }

    /// A row that comes.
    fn row(&mut self, at: usize, row: &'i ImportRow) {
        match &row.kind {
            Kind::Founder => {
                for code in self.codes.of(at) {
                    self.readings += self.of_founders.add(code, &row.facts);
                }
                let plant = NewPlant::of(&row.facts, &row.source);
                self.founders.insert(at, plant);
            }
            Kind::Seedling { .. } | Kind::SeedlingOf(_) => self.seedling(at, row),
            Kind::SeedOf(cross) if self.codes.crosses.get(cross) != Some(&Begun::Row(at)) => {
                let page = self.pages.entry(cross.clone()).or_default();
                page.sowings.push(row);
            }
            Kind::More(Who::OnRecord(code)) => {
                if let Some(plant) = self.registry.plant(code) {
                    self.known.entry(plant).or_default().push(row);
                } else if let Some(cross) = self.registry.cross(code) {
                    self.crosses.entry(cross).or_default().push(&row.source);
                }
            }
            _ => {}
        }
    }

    /// A row that says more about the plant or cross of another.
    fn further(&mut self, first: usize, row: &'i ImportRow) {
        match (row.comes, row.class) {
            (true, _) if self.import.rows[first].kind == Kind::Cross => {
                let mut crosses = self.codes.crosses.iter();
                if let Some((code, _)) = crosses.find(|(_, begun)| **begun == Begun::Row(first)) {
                    let page = self.pages.entry(code.clone()).or_default();
                    page.sources.push(&row.source);
                }
            }
            (true, _) => self.more(first, row),
            // Its cells are kept too: when the plant has got another code, only they know the row again.
            (false, RowClass::OnRecord | RowClass::Differs) => {
                if let Some(plant) = self.plant(first) {
                    plant.sources.push(&row.source);
                }
            }
            (false, _) => {}
        }
    }

    fn brings(&self) -> Brings {
        let founders = self.founders.keys();
        Brings {
            founders: founders.map(|&row| self.codes.of(row).len()).sum(),
            crosses: self.codes.crosses.len(),
            sowings: sowings(self.registry, self.import, &self.codes, &self.pages),
            seedlings: self.codes.seedlings.len(),
            readings: self.readings,
            plants_on_record: self.known.len(),
            crosses_on_record: self.crosses.len(),
        }
    }

    /// The new plant of a row.
    fn plant(&mut self, row: usize) -> Option<&mut NewPlant<'i>> {
        if let Some((cross, place)) = self.seedlings.get(&row) {
            let page = self.pages.get_mut(cross)?;
            return Some(&mut page.seedlings[*place].1);
        }
        self.founders.get_mut(&row)
    }

    fn seedling(&mut self, at: usize, row: &'i ImportRow) {
        let Some((cross, number)) = self.codes.seedlings.get(&at) else {
            return;
        };
        let page = self.pages.entry(cross.clone()).or_default();
        self.readings += page.sittings.add(number, &row.facts);
        self.seedlings
            .insert(at, (cross.clone(), page.seedlings.len()));
        let plant = NewPlant::of(&row.facts, &row.source);
        page.seedlings.push((number.clone(), plant));
    }

    /// A row with something new about the plant of another.
    fn more(&mut self, first: usize, row: &'i ImportRow) {
        if let Some(plant) = self.plant(first) {
            plant.add(&row.facts, &row.source);
        }
        if let Some((cross, number)) = self.codes.seedlings.get(&first) {
            let page = self.pages.entry(cross.clone()).or_default();
            self.readings += page.sittings.add(number, &row.facts);
        } else if self.founders.contains_key(&first)
            && let Some(code) = self.codes.of(first).first()
        {
            self.readings += self.of_founders.add(code, &row.facts);
        }
    }

    /// Readings of plants on record.
    fn readings_of_known(&mut self) {
        let registry = self.registry;
        for (&plant, rows) in &self.known {
            let code = registry.code(plant);
            let (sittings, first) = match (registry.cross_of(plant), registry.number(plant)) {
                (Some(cross), Some(number)) => {
                    let of_cross = registry[cross].page.code.to_owned();
                    (
                        &mut self.pages.entry(of_cross).or_default().sittings,
                        number,
                    )
                }
                _ => (&mut self.of_founders, code.as_str()),
            };
            let read = rows.iter().map(|row| sittings.add(first, &row.facts));
            self.readings += read.sum::<usize>();
        }
    }

    fn write(&self, draft: &mut Draft) -> Result<(), Slip> {
        let registry = self.registry;
        let changes = self.known.iter();
        let changes = changes.map(|(&plant, rows)| (plant, of_known(registry, plant, rows)));
        draft.change_plants(changes.collect())?;
        for (&cross, sources) in &self.crosses {
            let note = noted(registry[cross].page.note.as_deref(), sources);
            draft.cross(cross).set("note", &note)?;
        }
        let mut founders = Vec::new();
        for (&at, plant) in &self.founders {
            let facts = plant.facts;
            for (piece, code) in self.codes.of(at).iter().enumerate() {
                let label = facts.labels.get(piece).or(facts.label.as_ref());
                founders.push(plant.founder(code, label.map_or("?", String::as_str)));
            }
        }
        let sittings = self.of_founders.records(registry);
        if !founders.is_empty() || !sittings.is_empty() {
            draft.clones()?.append("clones", &founders)?;
            draft.clones()?.append("sittings", &sittings)?;
        }
        write(draft, self.import, &self.codes, &self.pages)
    }
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
