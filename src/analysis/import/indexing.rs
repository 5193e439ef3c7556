//! What each row is, and whom codes and names mean, by the rows and the record together.

use super::answer::{ImportRow, Kind, Who, Why};
use super::dates::{DateRead, date};
use super::facts::{CodesOf, RowFacts};
use super::index::{code_of, folded};
use super::inexact::{Inexact, is_date};
use super::number_ranges::{is_form_of_cross, is_marked_range, is_range};
use super::sorting::{Sorting, is_out, left_out_as_several};
use super::source::key;
use super::species::is_species_of;
use crate::record::RowClass;
use crate::registry::ids::{is_code, is_seedling_number, splits};

impl Sorting<'_, '_> {
    /// Notes what each row is, and what there is by code and name.
    pub fn index_rows(&mut self) {
        for (at, row) in self.rows.iter().enumerate() {
            if let (true, Some(code)) = (is_cross(&row.facts), &row.facts.code) {
                self.index.crosses.entry(code.clone()).or_insert(at);
                self.index.write_down(code);
            }
        }
        for at in 0..self.rows.len() {
            self.with_row(at, Self::several_on_one_row);
            self.with_row(at, Self::date_as_code);
            let row = &self.rows[at];
            self.rows[at].kind = match is_out(row) {
                true => Kind::Nothing,
                false => self.kind(&row.facts),
            };
        }
        self.add_plants();
        self.add_shared();
    }

    /// Adds the plants that rows define, when their kinds are known.
    fn add_plants(&mut self) {
        for (at, row) in self.rows.iter().enumerate() {
            if let (Kind::Seed, Some(code)) = (&row.kind, &row.facts.code) {
                self.index.write_down(code);
                self.index.seeds.entry(code.clone()).or_insert(at);
            }
            if let Kind::Seedling { cross, .. } | Kind::SeedOf(cross) = &row.kind {
                self.index.write_down(cross);
            }
            let several = row.facts.codes.iter().cloned();
            for code in code_of(row).into_iter().chain(several) {
                self.index.write_down(&code);
                self.index.codes.entry(code).or_insert(at);
            }
            let label = row.facts.label.as_ref();
            let label = label.filter(|_| row.kind == Kind::Founder && !self.is_left(row));
            if let Some(label) = label
                && let Some(who) = self.labelled(at)
            {
                let of_label = self.index.labels.entry(folded(label));
                of_label.or_default().push(who);
            }
        }
    }

    /// Notes the codes that two plants have, by their names.
    fn add_shared(&mut self) {
        for row in &self.rows {
            let Some(code) = code_of(row).filter(|_| !self.is_left(row)) else {
                continue;
            };
            let own = row.facts.label.as_deref();
            let first = self.index.codes.get(&code).map(|first| &self.rows[*first]);
            let first = first.filter(|first| !self.is_left(first));
            let by_two = first.is_some_and(|first| differ(own, first.facts.label.as_deref()));
            let received = self.received(&code).filter(|_| !self.is_edited(row, &code));
            // A list may say no more than the species of a plant whose name on record says more. A longer name than that on
            // record is another plant's, as its row is.
            let may_be = |(own, received)| is_species_of(own, received, self.vocabulary);
            let is_other = differ(own, received)
                && (self.is_taken(row) || !own.zip(received).is_some_and(may_be));
            if by_two || is_other || self.has_cross(&code) {
                self.index.of_two.insert(code);
            }
        }
    }

    /// Whom the label of a row names: of a code that another plant has it is that plant, which has its own name, unless the
    /// grower takes the row as one more.
    fn labelled(&self, at: usize) -> Option<Who> {
        let row = &self.rows[at];
        let Some(code) = row.facts.code.as_deref() else {
            return Some(Who::Row(at));
        };
        let is_recorded = self.registry.plant(code).is_some();
        if is_recorded && self.is_edited(row, code) {
            return Some(Who::OnRecord(code.to_owned()));
        }
        let first = self.index.codes.get(code).filter(|first| **first != at);
        let other = match is_recorded {
            true => self.received(code),
            false => first.and_then(|first| self.rows[*first].facts.label.as_deref()),
        };
        let is_first = !is_recorded && first.is_none();
        let is_more = differ(row.facts.label.as_deref(), other) && self.is_taken(row);
        (is_first || is_more).then_some(Who::Row(at))
    }

    /// Whether a row is one that was brought in with a code, and edited since.
    pub fn is_edited(&self, row: &ImportRow, code: &str) -> bool {
        let table = key(&row.source).map(|(table, _)| table);
        table.is_some_and(|table| self.index.edited.contains(&(table, code.to_owned())))
    }

    /// The plant, piece or cross that a code or nickname names.
    pub fn coded(&self, code: &str) -> Option<Who> {
        let (index, registry) = (&self.index, self.registry);
        if index.of_two.contains(code) {
            return None;
        }
        let in_rows = index.codes.get(code).or_else(|| index.crosses.get(code));
        if let Some(&row) = in_rows.filter(|_| registry.plant(code).is_none()) {
            return Some(Who::Row(row));
        }
        let is_piece = || {
            let whole = splits(code).next();
            let is_plant = whole.is_some_and(|(plant, _)| registry.plant(plant).is_some());
            is_plant && registry.target(code).is_some()
        };
        let known = registry.plant(code).is_some() || registry.cross(code).is_some();
        if known || is_piece() {
            return Some(Who::OnRecord(code.to_owned()));
        }
        let of_nickname = index.nicknamed(code)?;
        Some(Who::OnRecord(of_nickname.to_owned()))
    }

    /// Whether a cross is on record or in the tables.
    pub fn has_cross(&self, code: &str) -> bool {
        self.index.crosses.contains_key(code) || self.registry.cross(code).is_some()
    }

    /// The cross of whose seed a row speaks, and of no plant of it: it has no code but that of the cross.
    pub fn of_seed<'f>(&self, facts: &'f RowFacts) -> Option<&'f str> {
        let of_seed = facts.is_of_seed() || facts.codes_of == CodesOf::Sowings;
        if facts.is_of_plant() || !of_seed || !facts.codes.is_empty() {
            return None;
        }
        let code = facts.code.as_deref();
        let own = code.filter(|code| self.has_cross(code) && !is_cross(facts));
        let own = own.filter(|_| facts.label.is_none());
        own.or_else(|| crossed(facts).filter(|cross| code.is_none_or(|code| code == *cross)))
    }

    /// Leaves out a row whose one cell names several plants of which it can bring in one only, whatever was chosen.
    fn several_on_one_row(&self, row: &mut ImportRow) {
        let facts = &row.facts;
        let range = facts.code.clone().filter(|code| self.is_range(code, facts));
        let of_pair = facts.has_parents() && facts.supplier.is_none();
        match range.filter(|_| !is_out(row)) {
            Some(range) => drop(self.doubt(row, RowClass::SeveralPlants, &range, Why::Several)),
            None if crossed(facts).is_some() || of_pair => {}
            None => return,
        }
        left_out_as_several(row, &Why::SeveralOnOneRow);
    }

    /// Asks about a code that is a date, which a spreadsheet may have made of `3-9`: it is none unless it is on record, or
    /// begins with the code of a cross that is known or named beside it.
    fn date_as_code(&self, row: &mut ImportRow) {
        let facts = &row.facts;
        let is_of_cross = |code: &str| {
            let named = crossed(facts).is_some_and(|cross| number_in(cross, code) != code);
            named || splits(code).any(|(cross, _)| self.has_cross(cross))
        };
        let is_code = |code: &str| self.registry.target(code).is_some() || is_of_cross(code);
        // `3-Sep` among numbers of seedlings; elsewhere letters and a number may be a code.
        let is_day = |code: &str| {
            let has_words = code.contains('-') && code.contains(char::is_alphabetic);
            let read = date(code, self.registry.settings.hemisphere, self.today);
            let is_number = crossed(facts).is_some() && has_words;
            is_number && matches!(read, DateRead::NoYear(..) | DateRead::Known(_))
        };
        let is_date = |code: &String| (is_date(code) || is_day(code)) && !is_code(code);
        let date = facts.code.clone().filter(is_date).filter(|_| !is_out(row));
        if let Some(date) = date {
            self.doubt(row, RowClass::NoPlant, &date, Why::Inexact(Inexact::Date));
        }
    }

    /// Whether a code is numbers from one to another: of a cross that is named beside it, on record or in the tables, or has
    /// the form of those that podbook gives.
    fn is_range(&self, code: &str, facts: &RowFacts) -> bool {
        let is_cross = |cross: &str| self.has_cross(cross) || is_form_of_cross(cross);
        let mut of_cross = splits(code);
        let is_seedling = |(cross, _): (&str, &str)| self.has_cross(cross);
        let is_known =
            || splits(code).next().is_some_and(is_seedling) || self.registry.target(code).is_some();
        let is_of_cross = match crossed(facts) {
            Some(cross) => is_range(number_in(cross, code)),
            None => of_cross.any(|(cross, numbers)| is_range(numbers) && is_cross(cross)),
        };
        is_marked_range(code) || is_of_cross && !is_known()
    }

    /// What a row is, as far as its own cells and the crosses there are say.
    fn kind(&self, facts: &RowFacts) -> Kind {
        if let Some(cross) = self.of_seed(facts) {
            return Kind::SeedOf(cross.to_owned());
        }
        let code = facts.code.as_deref();
        if let Some(cross) = crossed(facts) {
            let number = code.map(|code| number_in(cross, code));
            let number = number.filter(|number| is_seedling_number(number));
            return seedling(cross, number);
        }
        let bare = facts.label.is_none() && facts.supplier.is_none();
        let is_known = |(cross, number): &(&str, &str)| {
            // `X21-03-4` is a seedling by its form, also where its cross is nowhere.
            let ends_with_digit = cross.ends_with(|c: char| c.is_ascii_digit());
            let by_form = bare && cross.contains('-') && ends_with_digit;
            is_seedling_number(number) && (by_form || self.has_cross(cross))
        };
        let founder = code.and_then(|code| self.registry.founder(self.registry.plant(code)?));
        let numbered = code.filter(|_| founder.is_none());
        if let Some((cross, number)) = numbered.and_then(|code| splits(code).find(is_known)) {
            return seedling(cross, Some(number));
        }
        if is_cross(facts) {
            Kind::Cross
        } else if is_seed(facts) {
            Kind::Seed
        } else if facts.has_parents() && facts.supplier.is_none() {
            Kind::SeedlingOf(family(facts))
        } else if code.is_some() || facts.label.is_some() || !facts.codes.is_empty() {
            Kind::Founder
        } else {
            Kind::Nothing
        }
    }
}

/// The number of a code of a seedling without that of its cross.
fn number_in<'c>(cross: &str, code: &'c str) -> &'c str {
    let number = code
        .strip_prefix(cross)
        .and_then(|rest| rest.strip_prefix('-'));
    number.unwrap_or(code)
}

fn seedling(cross: &str, number: Option<&str>) -> Kind {
    Kind::Seedling {
        cross: cross.to_owned(),
        number: number.map(str::to_owned),
    }
}

/// Whether two names are not one.
fn differ(own: Option<&str>, other: Option<&str>) -> bool {
    own.zip(other)
        .is_some_and(|(own, other)| folded(own) != folded(other))
}

/// Whether a row speaks of seed that came or was sown under a label.
fn is_seed(facts: &RowFacts) -> bool {
    let seed = facts.seeds.is_some() || facts.sown.is_some() || facts.left.is_some();
    seed && facts.label.is_some() && !facts.is_of_plant()
}

/// What rows of one cross have in common.
fn family(facts: &RowFacts) -> String {
    let words = [
        &facts.seed_parent,
        &facts.pollen_parent,
        &facts.both_parents,
        &facts.pollinated,
        &facts.sown,
    ];
    let words = words.map(|words| folded(words.as_deref().unwrap_or("")));
    words.join("\n")
}

/// Whether a row speaks of a cross made here, and of no plant; under `Cross` beside parents a code alone is that of a cross.
fn is_cross(facts: &RowFacts) -> bool {
    let is_coded = facts.codes_of == CodesOf::Crosses && facts.code.is_some();
    let bred = facts.has_parents() || facts.pollinated.is_some() || is_coded;
    bred && crossed(facts).is_none() && !facts.is_of_plant() && facts.supplier.is_none()
}

/// The code of a row's cross; a formula in that column is none.
fn crossed(facts: &RowFacts) -> Option<&str> {
    facts.cross.as_deref().filter(|cross| is_code(cross))
}
