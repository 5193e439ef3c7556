//! Rows whose plant or cross is known already, on record or from a row before.

use super::answer::{Doubt, ImportRow, Kind, Who, Why};
use super::figures::is_number;
use super::index::{Codes, code_of, folded};
use super::sorting::{Sorting, left_out_as_several};
use super::source::rows_in;
use crate::record::{Choose, RowClass};
use crate::registry::ids::{is_ramet_code, splits};

impl Sorting<'_, '_> {
    /// A row whose plant or cross is known already: more about it, nothing new, or another one with the same code.
    pub fn known(&self, at: usize, row: &mut ImportRow) {
        if let Some(code) = self.known_of_several(at, row) {
            self.doubt(row, RowClass::CodeTaken, &code, Why::CodeTaken);
            left_out_as_several(row, &Why::SeveralKnown(code));
            // A further column may hold one more code: of so many none is surely this plant's.
            row.facts.code = None;
            return row.facts.codes.clear();
        }
        let code = match row.kind {
            Kind::Cross | Kind::Seed => row.facts.code.clone(),
            _ => code_of(row),
        };
        if let Some((code, other)) = self.in_other_capitals(row, code.as_ref()) {
            self.doubt(row, RowClass::CodeTaken, &code, Why::OtherCapitals(other));
            return self.in_its_own_capitals(row);
        }
        let Some(code) = code else { return };
        let first = |codes: &Codes| codes.get(&code).copied().filter(|&first| first < at);
        let first_plant = first(&self.index.codes);
        let same = match row.kind {
            Kind::Cross | Kind::Seed => None,
            _ => self.same_plant(row, &code, first_plant),
        };
        if let Some(who) = same {
            return self.more(at, row, who);
        }
        let elsewhere = |codes: &Codes| codes.get(&code).is_some_and(|other| *other != at);
        let in_rows = match row.kind {
            Kind::Cross => first(&self.index.crosses).is_some() || elsewhere(&self.index.codes),
            Kind::Seed => first_plant.is_some() || first(&self.index.crosses).is_some(),
            _ => first_plant.is_some() || elsewhere(&self.index.crosses),
        };
        let in_rows = in_rows || first(&self.index.seeds).is_some();
        if in_rows || self.registry.target(&code).is_some() {
            let label = || self.rows[first_plant?].facts.label.as_deref();
            let other = self.received(&code).or_else(label).map(str::to_owned);
            let names = row.facts.label.clone().zip(other);
            let names = names.filter(|(own, other)| folded(own) != folded(other));
            let why = match names {
                Some((own, other)) => Why::OtherName(own, other),
                None if row.facts.label.is_none() && is_number(&code) => Why::NumberAlone,
                None => Why::CodeTaken,
            };
            self.doubt(row, RowClass::CodeTaken, &code, why);
            without_code(row);
        } else if let Some(plant) = self.whole_of(row, &code) {
            self.doubt(row, RowClass::CodeTaken, &code, Why::PieceOf(plant));
            without_code(row);
        }
    }

    /// The plant of which a code names a piece by its form: `V1-b` of V1.
    fn whole_of(&self, row: &ImportRow, code: &str) -> Option<String> {
        let (plant, piece) = splits(code).next()?;
        let is_piece = row.kind == Kind::Founder && piece.len() == 1 && is_ramet_code(piece);
        let is_plant = is_piece && !self.has_cross(plant) && self.coded(plant).is_some();
        is_plant.then(|| plant.to_owned())
    }

    /// Of several codes in one cell the first that is known.
    fn known_of_several(&self, at: usize, row: &ImportRow) -> Option<String> {
        let is_taken = |code: &&String| {
            let before = self.index.codes.get(*code).is_some_and(|first| *first < at);
            let is_cross = self.index.crosses.contains_key(*code);
            before || is_cross || self.registry.target(code).is_some()
        };
        row.facts.codes.iter().find(is_taken).cloned()
    }

    /// The code of a row, or of its cross, that another differs from only in capitals; and that other.
    fn in_other_capitals(
        &self,
        row: &ImportRow,
        code: Option<&String>,
    ) -> Option<(String, String)> {
        let cross = match &row.kind {
            Kind::Seedling { cross, .. } | Kind::SeedOf(cross) => Some(cross),
            _ => None,
        };
        code.into_iter().chain(cross).find_map(|code| {
            let other = self.index.in_other_capitals(code)?;
            Some((code.clone(), other.to_owned()))
        })
    }

    /// The plant with a row's code or nickname, on record or in a row before, unless the two have different labels.
    fn same_plant(&self, row: &ImportRow, code: &str, first: Option<usize>) -> Option<Who> {
        let same_label = |label: Option<&str>| match (&row.facts.label, label) {
            (Some(own), Some(other)) => folded(own) == folded(other),
            _ => true,
        };
        let is_bare = row.facts.label.is_none() && is_number(code);
        if self.registry.plant(code).is_some() {
            if is_bare && self.received(code).is_none() && !self.is_of_table(row, code) {
                return None;
            }
            // A row that was brought in and edited since is of its plant whatever the name is now.
            let is_same = same_label(self.received(code)) || self.is_edited(row, code);
            return is_same.then(|| Who::OnRecord(code.to_owned()));
        }
        // A seedling that came in by its parents alone has the grower's code as its nickname.
        if let (None, Some(of_nickname)) = (first, self.index.nicknamed(code)) {
            return Some(Who::OnRecord(of_nickname.to_owned()));
        }
        // Of a cell with several codes nothing says which of its plants is meant, and a row may have lost its code to another.
        let has_it = |first: &usize| match &self.rows[*first] {
            of if !of.facts.codes.is_empty() => false,
            of if matches!(of.kind, Kind::More(_)) => true,
            of => code_of(of).as_deref() == Some(code),
        };
        let of_table = |first: &usize| {
            let first = &self.rows[*first];
            !is_bare
                || first.facts.label.is_some()
                || self.table(first).name == self.table(row).name
        };
        let first = first.filter(has_it).filter(of_table);
        let first = first.filter(|&first| same_label(self.rows[first].facts.label.as_deref()))?;
        Some(self.plant_of(first))
    }

    /// Whether a founder on record was brought in from the table of a row.
    fn is_of_table(&self, row: &ImportRow, code: &str) -> bool {
        let plant = self.registry.plant(code);
        let founder = plant.and_then(|plant| self.registry.founder(plant));
        let note = founder.and_then(|of| of.note.as_deref());
        let own = &self.table(row).name;
        note.is_some_and(|note| rows_in(note).iter().any(|(table, _)| table == own))
    }

    fn more(&self, at: usize, row: &mut ImportRow, who: Who) {
        let code = row.facts.code.clone().unwrap_or_default();
        // Of a plant that is left out nothing will be recorded, so nothing is new or other.
        if let Who::Row(first) = who
            && !self.rows[first].comes
        {
            let class = self.rows[first].class;
            let doubt = Doubt::of_row(class, &code, Why::PlantLeftOut, Choose::LeaveOut);
            row.doubts.push(doubt);
        } else {
            self.remarks_of_plant(row, &who);
            self.changed(at, row, &who);
            let differs = row.doubts.iter().any(|of| of.class == RowClass::Differs);
            if !row.adds() && !differs {
                self.doubt(row, RowClass::OnRecord, &code, Why::NothingNew);
            }
        }
        row.kind = Kind::More(who);
    }

    /// Takes the code from a row that differs from another only in capitals; a seedling is of the cross as that is written.
    fn in_its_own_capitals(&self, row: &mut ImportRow) {
        without_code(row);
        if let Kind::Seedling { cross, .. } | Kind::SeedOf(cross) = &mut row.kind
            && let Some(other) = self.index.in_other_capitals(cross)
        {
            *cross = other.to_owned();
        }
    }
}

/// Takes the code from a row, which another plant or cross has.
fn without_code(row: &mut ImportRow) {
    row.facts.code = None;
    if let Kind::Seedling { number, .. } = &mut row.kind {
        *number = None;
    }
}
