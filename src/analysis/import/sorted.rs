//! Rows sorted into classes, one after the other: what was brought in before, what is equal, what each row is, what of it is
//! not clear, and whether it comes in.

use super::answer::{Doubt, Import, ImportRow, ImportTable, Kind, Who, Why};
use super::cells::RowReader;
use super::chosen::chosen;
use super::columns::{ColumnReader, Headed};
use super::dittos::written_out;
use super::equal::Equal;
use super::facts::InputTable;
use super::index::{Codes, Index, code_of, folded, kind};
use super::labels::{Suppliers, Unread, says_more, several, suppliers};
use super::own_rows::OwnRows;
use super::parents::Parentage;
use super::said_before::SaidBefore;
use super::source::key;
use crate::naming::Vocabulary;
use crate::naming::recorded::{vocabulary, words_for};
use crate::record::{Choose, Day, ImportChoices, RowClass};
use crate::registry::Registry;
use crate::text::GridRow;

/// Sorts tables out.
pub fn import(
    registry: &Registry,
    tables: &[InputTable],
    choices: &ImportChoices,
    today: Day,
) -> Import {
    let (own, _) = vocabulary(registry);
    let columns = ColumnReader {
        registry,
        vocabulary: &own,
        choices,
    };
    let tables: Vec<InputTable> = tables.iter().flat_map(|of| columns.parts(of)).collect();
    let headed = tables.iter().map(|table| columns.table(table));
    let mut headed: Vec<Headed> = headed.collect();
    let mut equal = Equal::default();
    let mut rows = Vec::new();
    for (at, of) in headed.iter_mut().enumerate() {
        let grid: Vec<&GridRow> = of.rows.iter().map(|&row| &tables[at].rows[row]).collect();
        let written_out = written_out(&mut of.table, &grid);
        let reader = RowReader {
            registry,
            choices,
            today,
            table: &of.table,
            own: &OwnRows::of(registry, today, &of.table, &grid),
        };
        rows.extend(grid.iter().enumerate().map(|(place, row)| {
            let read = written_out.as_ref().map_or(*row, |rows| &rows[place]);
            equal.row(at, &reader, row, read)
        }));
    }
    let (words, names) = words_for(registry, named(&rows));
    let sorting = Sorting {
        registry,
        choices,
        vocabulary: &words,
        tables: headed.into_iter().map(|of| of.table).collect(),
    };
    let rows = sorting.sorted(rows);
    Import {
        tables: sorting.tables,
        rows,
        names,
    }
}

/// Every label and parent of the rows.
fn named(rows: &[ImportRow]) -> impl Iterator<Item = &str> {
    rows.iter().flat_map(|row| {
        let facts = &row.facts;
        let all = [
            &facts.label,
            &facts.seed_parent,
            &facts.pollen_parent,
            &facts.both_parents,
            &facts.cross,
        ];
        all.into_iter().filter_map(|words| words.as_deref())
    })
}

struct Sorting<'a, 't> {
    registry: &'a Registry<'t>,
    choices: &'a ImportChoices,
    vocabulary: &'a Vocabulary,
    tables: Vec<ImportTable>,
}

impl Sorting<'_, '_> {
    fn sorted(&self, mut rows: Vec<ImportRow>) -> Vec<ImportRow> {
        let mut before = SaidBefore::of(self.registry);
        for row in &mut rows {
            if before.take(&row.source) {
                row.doubts.clear();
                self.doubt(row, RowClass::OnRecord, "", Why::BroughtInBefore);
            }
        }
        let lost = before.without_code();
        for row in rows
            .iter_mut()
            .filter(|row| !is_out(row) && row.facts.code.is_none())
        {
            if let Some(&code) = key(&row.source).and_then(|key| lost.get(&key)) {
                self.doubt(row, RowClass::NoPlant, code, Why::LostCode(code.to_owned()));
            }
        }
        let index = self.index(&mut rows);
        let suppliers = suppliers(&rows);
        let mut unread = Unread::default();
        for at in 0..rows.len() {
            let (done, rest) = rows.split_at_mut(at);
            let Some((row, later)) = rest.split_first_mut() else {
                break;
            };
            let other = |of: usize| done.get(of).or_else(|| later.get(of.checked_sub(at + 1)?));
            let comes = !is_out(row);
            if comes {
                self.known(&index, done, at, row);
            }
            if !is_out(row) {
                self.of_row(&index, at, row, &mut unread);
                self.against_parents(&index, (at, row), other);
                self.shared(&index, &suppliers, done, row);
            }
            // Also of a row that says nothing new otherwise.
            if comes {
                self.against_record(&index, (at, row), other);
            }
            self.settle(row);
        }
        rows
    }

    /// What each row is, and what there is by code and name.
    fn index(&self, rows: &mut [ImportRow]) -> Index {
        let mut index = Index::of(self.registry);
        index.add_crosses(rows);
        for row in rows.iter_mut() {
            row.kind = match is_out(row) {
                true => Kind::Nothing,
                false => kind(&index, self.registry, &row.facts),
            };
        }
        index.add_plants(rows);
        index
    }

    fn doubt(&self, row: &mut ImportRow, class: RowClass, found: &str, why: Why) -> Choose {
        let chosen = chosen(self.choices, class, &self.tables[row.table].name, row.line);
        row.doubts.push(Doubt {
            class,
            column: String::new(),
            found: found.to_owned(),
            why,
            chosen,
        });
        chosen
    }

    /// A row whose plant or cross is known already: more about it, nothing new, or another one with the same code.
    fn known(&self, index: &Index, done: &[ImportRow], at: usize, row: &mut ImportRow) {
        let is_taken = |code: &&String| {
            let before = index.codes.get(*code).is_some_and(|first| *first < at);
            before || index.crosses.contains_key(*code) || self.registry.target(code).is_some()
        };
        if let Some(code) = row.facts.codes.iter().find(is_taken).cloned() {
            self.doubt(row, RowClass::CodeTaken, &code, Why::CodeTaken);
            // A further column may hold one more code: of so many none is surely this plant's.
            row.facts.code = None;
            return row.facts.codes.clear();
        }
        let of_cross = row.kind == Kind::Cross;
        let code = match of_cross {
            true => row.facts.code.clone(),
            false => code_of(row),
        };
        let cross = match &row.kind {
            Kind::Seedling { cross, .. } => Some(cross),
            _ => None,
        };
        let written = code.iter().chain(cross);
        let other = written
            .filter_map(|code| Some((code.clone(), index.in_other_capitals(code)?)))
            .next();
        if let Some((code, other)) = other {
            let why = Why::OtherCapitals(other.to_owned());
            self.doubt(row, RowClass::CodeTaken, &code, why);
            return in_its_own_capitals(row, index);
        }
        let Some(code) = code else { return };
        let first = |codes: &Codes| codes.get(&code).copied().filter(|&first| first < at);
        let same = match of_cross {
            true => None,
            false => self.same_plant(index, (done, row), &code, first(&index.codes)),
        };
        if let Some(who) = same {
            return self.more(done, row, who);
        }
        let (own, other) = match of_cross {
            true => (&index.crosses, &index.codes),
            false => (&index.codes, &index.crosses),
        };
        let elsewhere = other.get(&code).is_some_and(|other| *other != at);
        if first(own).is_some() || elsewhere || self.registry.target(&code).is_some() {
            self.doubt(row, RowClass::CodeTaken, &code, Why::CodeTaken);
            row.facts.code = None;
            if let Kind::Seedling { number, .. } = &mut row.kind {
                *number = None;
            }
        }
    }

    /// The plant with a row's code or nickname, on record or in a row before, unless the two have different labels.
    fn same_plant(
        &self,
        index: &Index,
        (done, row): (&[ImportRow], &ImportRow),
        code: &str,
        first: Option<usize>,
    ) -> Option<Who> {
        let same_label = |label: Option<&str>| match (&row.facts.label, label) {
            (Some(own), Some(other)) => folded(own) == folded(other),
            _ => true,
        };
        if let Some(plant) = self.registry.plant(code) {
            let founder = self.registry.founder(plant);
            // A row without a name came in as "?": that is no name to compare.
            let label = founder
                .map(|of| &*of.received)
                .filter(|label| *label != "?");
            return same_label(label).then(|| Who::OnRecord(code.to_owned()));
        }
        // A seedling that came in by its parents alone has the grower's code as its nickname.
        if let (None, Some(of_nickname)) = (first, index.nicknamed(code)) {
            return Some(Who::OnRecord(of_nickname.to_owned()));
        }
        // Of a cell with several codes nothing says which of its plants is meant, and a row may have lost its code to another.
        let has_it = |first: &usize| match &done[*first] {
            of if !of.facts.codes.is_empty() => false,
            of if matches!(of.kind, Kind::More(_)) => true,
            of => code_of(of).as_deref() == Some(code),
        };
        let first = first.filter(has_it);
        let first = first.filter(|&first| same_label(done[first].facts.label.as_deref()))?;
        Some(plant_of(done, first))
    }

    fn more(&self, done: &[ImportRow], row: &mut ImportRow, who: Who) {
        let known_fate = match &who {
            Who::Row(first) => done[*first].facts.fate.is_some(),
            Who::OnRecord(code) => {
                let plant = self.registry.plant(code);
                plant.is_some_and(|plant| self.registry.fate(plant).is_some())
            }
            Who::Species(_) => false,
        };
        if known_fate {
            row.facts.fate = None;
        }
        let code = row.facts.code.clone().unwrap_or_default();
        if row.facts.readings.is_empty() && row.facts.fate.is_none() {
            self.doubt(row, RowClass::OnRecord, &code, Why::NothingNew);
        } else if let Who::Row(first) = &who
            && !done[*first].comes
        {
            row.doubts.push(Doubt {
                class: done[*first].class,
                column: String::new(),
                found: code,
                why: Why::PlantLeftOut,
                chosen: Choose::LeaveOut,
            });
        }
        row.kind = Kind::More(who);
    }

    fn of_row(&self, index: &Index, at: usize, row: &mut ImportRow, unread: &mut Unread) {
        match row.kind.clone() {
            Kind::Nothing => {
                if self.doubt(row, RowClass::NoPlant, "", Why::NoPlant) == Choose::Take {
                    row.kind = Kind::Founder;
                }
                return;
            }
            Kind::Seedling { cross, .. } if self.is_plant(index, &cross) => {
                self.doubt(row, RowClass::CodeTaken, &cross, Why::CodeTaken);
                row.kind = Kind::Founder;
                row.facts.cross = None;
                row.facts.code = None;
            }
            Kind::Seedling { cross, .. } if !index.has_cross(self.registry, &cross) => {
                self.doubt(row, RowClass::CrossNotListed, &cross, Why::CrossNotListed);
            }
            Kind::Cross | Kind::SeedlingOf(_) => self.parents(index, at, row),
            Kind::Founder if row.facts.has_parents() => self.parents_of_founder(row),
            Kind::More(_) => return,
            _ => {}
        }
        let label = row.facts.label.clone();
        match label {
            Some(label) if !unread.is_unread(&label, self.vocabulary) => {}
            Some(label) => self.label_unread(row, &label, unread),
            None if row.kind == Kind::Founder => {
                self.doubt(row, RowClass::Other, "", Why::NoName);
            }
            None => {}
        }
    }

    /// Whether what a row names as its cross is the code or nickname of a plant.
    fn is_plant(&self, index: &Index, cross: &str) -> bool {
        let by_nickname =
            || index.nicknamed(cross).is_some() && !index.has_cross(self.registry, cross);
        index.codes.contains_key(cross) || self.registry.plant(cross).is_some() || by_nickname()
    }

    fn parents(&self, index: &Index, at: usize, row: &mut ImportRow) {
        let parentage = self.parentage(index);
        let (parents, unclear) = parentage.of(&row.facts, at);
        row.parents = parents;
        for (found, why) in unclear {
            self.doubt(row, RowClass::ParentUnknown, &found, why);
        }
    }

    /// A plant that came from a supplier has no parents on record: what the table says of them stays in the note.
    fn parents_of_founder(&self, row: &mut ImportRow) {
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

    fn parentage<'s>(&'s self, index: &'s Index) -> Parentage<'s, 's> {
        Parentage {
            registry: self.registry,
            index,
            vocabulary: self.vocabulary,
        }
    }

    /// What a row says against its parents: a label of one species where a parent is surely of another, or parents that
    /// are not those of its cross. `other` is another row by its place.
    fn against_parents<'r>(
        &self,
        index: &Index,
        (at, row): (usize, &mut ImportRow),
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) {
        let parentage = self.parentage(index);
        let contradiction = match &row.kind {
            Kind::Cross | Kind::SeedlingOf(_) => parentage.label_against(row, other),
            Kind::Seedling { cross, .. } if row.facts.has_parents() => {
                let line = index.crosses.get(cross).copied();
                line.and_then(|line| Some((line, other(line)?)))
                    .and_then(|of| parentage.cross_against((at, row), of))
            }
            _ => None,
        };
        if let Some((found, against)) = contradiction {
            self.doubt(row, RowClass::Contradiction, &found, against);
        }
    }

    /// Parents that a row names and the registry has otherwise, unless the row contradicts itself already.
    fn against_record<'r>(
        &self,
        index: &Index,
        (at, row): (usize, &mut ImportRow),
        other: impl Fn(usize) -> Option<&'r ImportRow>,
    ) {
        let known = row
            .doubts
            .iter()
            .any(|of| of.class == RowClass::Contradiction);
        if known || !row.facts.has_parents() {
            return;
        }
        let against = self.parentage(index).recorded_against((at, row), other);
        if let Some((found, against)) = against {
            self.doubt(row, RowClass::Contradiction, &found, against);
        }
    }

    /// A label that cannot be read: of several plants, or not readable at all.
    fn label_unread(&self, row: &mut ImportRow, label: &str, unread: &mut Unread) {
        let pieces = several(label);
        let named = pieces.len() > 1 && row.kind == Kind::Founder;
        if named
            && pieces
                .iter()
                .all(|piece| !unread.is_unread(piece, self.vocabulary))
        {
            self.doubt(row, RowClass::SeveralPlants, label, Why::Several);
            row.facts.labels = pieces;
        } else {
            self.doubt(row, RowClass::LabelUnread, label, Why::LabelUnread);
        }
    }

    /// A name that says more than a species and that two suppliers use.
    fn shared(
        &self,
        index: &Index,
        suppliers: &Suppliers,
        done: &[ImportRow],
        row: &mut ImportRow,
    ) {
        let (Kind::Founder, Some(label)) = (&row.kind, &row.facts.label) else {
            return;
        };
        let label = label.clone();
        let own = row.facts.supplier.as_deref().map(folded);
        let (Some(own), Some(of_name)) = (own, suppliers.get(&folded(&label))) else {
            return;
        };
        let recorded = index.labels.get(&folded(&label)).into_iter().flatten();
        let recorded = recorded.filter_map(|who| match who {
            Who::OnRecord(code) => self
                .registry
                .founder(self.registry.plant(code)?)?
                .from
                .as_deref(),
            _ => None,
        });
        let by_others = recorded.map(folded).chain(of_name.keys().cloned());
        if !says_more(&label) || !by_others.into_iter().any(|from| from != own) {
            return;
        }
        let chosen = self.doubt(row, RowClass::SharedName, &label, Why::NameOfTwo);
        let first = of_name.values().min().copied();
        if let (Choose::OnePlant, Some(first)) = (
            chosen,
            first.filter(|first| done.get(*first).is_some_and(|of| of.comes)),
        ) {
            row.kind = Kind::More(plant_of(done, first));
        }
    }

    /// The class of a row, and whether it comes.
    fn settle(&self, row: &mut ImportRow) {
        row.doubts.sort_by_key(|doubt| doubt.class);
        row.class = row
            .doubts
            .first()
            .map_or(RowClass::Clean, |doubt| doubt.class);
        let clean = chosen(
            self.choices,
            RowClass::Clean,
            &self.tables[row.table].name,
            row.line,
        );
        let left = match row.class {
            RowClass::Clean => clean == Choose::LeaveOut,
            _ => is_out(row),
        };
        row.comes = !left && row.kind != Kind::Nothing;
    }
}

/// Takes the code from a row that differs from another only in capitals; a seedling is of the cross as that is written.
fn in_its_own_capitals(row: &mut ImportRow, index: &Index) {
    row.facts.code = None;
    if let Kind::Seedling { cross, number } = &mut row.kind {
        *number = None;
        if let Some(other) = index.in_other_capitals(cross) {
            *cross = other.to_owned();
        }
    }
}

/// The plant of a row: its own, or the one that it says more about.
fn plant_of(done: &[ImportRow], row: usize) -> Who {
    match &done[row].kind {
        Kind::More(who) => who.clone(),
        _ => Who::Row(row),
    }
}

/// Whether something about a row leaves it out.
fn is_out(row: &ImportRow) -> bool {
    row.doubts
        .iter()
        .any(|doubt| doubt.chosen == Choose::LeaveOut)
}
