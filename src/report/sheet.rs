//! The plain shape every answer can take: the answer in one line, tables, then one line per caution.
//!
//! A report keeps its own fields for `--json`; its sheet is what a person reads and what goes into a spreadsheet. All
//! wording and order is decided here on the report floor; widths, alignment and escaping are left to `render`.

use super::caution::{RankedCaution, Weighed, Weight};
use super::table::Table;

/// An answer as a person reads it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sheet {
    /// The answer, first.
    pub answer: String,
    /// What it is based on.
    pub sections: Vec<Section>,
    /// The sections of one screen, in order of weight, where they are not simply the first of all.
    pub brief: Option<Vec<Section>>,
    /// One line per caution, the weightiest first; equal ones in the order in which they were added.
    pub cautions: Vec<RankedCaution>,
    /// Whether no later run can say the cautions again, since something was written: then a screen shows all of them.
    pub is_said_once: bool,
    /// The one command most useful next.
    pub next: Option<String>,
}

/// A part of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Section {
    /// A table.
    Table(Table),
    /// What is known of one thing, a label and its value a line.
    Facts(Option<String>, Vec<(String, String)>),
    /// Lines of prose, under a heading if there is one.
    Lines(Option<String>, Vec<String>),
}

impl Sheet {
    /// A sheet with only the answer.
    pub fn new(answer: impl Into<String>) -> Sheet {
        Sheet {
            answer: answer.into(),
            ..Sheet::default()
        }
    }

    /// Adds a table.
    pub fn table(&mut self, table: impl Into<Table>) {
        self.sections.push(Section::Table(table.into()));
    }

    /// Adds tables.
    pub fn tables(&mut self, tables: impl IntoIterator<Item = Table>) {
        self.sections.extend(tables.into_iter().map(Section::Table));
    }

    /// Adds a table, unless it has no rows.
    pub fn table_if_any(&mut self, table: impl Into<Table>) {
        let table = table.into();
        if !table.rows.is_empty() {
            self.table(table);
        }
    }

    /// Adds facts, leaving out those without a value.
    pub fn facts<'l>(
        &mut self,
        title: Option<&str>,
        facts: impl IntoIterator<Item = (&'l str, Option<String>)>,
    ) {
        let facts = facts.into_iter();
        let known = facts.filter_map(|(label, value)| Some((label.to_owned(), value?)));
        let known: Vec<_> = known.collect();
        if !known.is_empty() {
            self.sections
                .push(Section::Facts(title.map(str::to_owned), known));
        }
    }

    /// Adds lines of prose.
    pub fn lines<L: Into<String>>(
        &mut self,
        title: Option<&str>,
        lines: impl IntoIterator<Item = L>,
    ) {
        let lines: Vec<String> = lines.into_iter().map(Into::into).collect();
        if !lines.is_empty() {
            self.sections
                .push(Section::Lines(title.map(str::to_owned), lines));
        }
    }

    /// Adds a table that only the screen shows, where the full answer has longer ones.
    pub fn brief_table(&mut self, table: impl Into<Table>) {
        self.brief
            .get_or_insert_default()
            .push(Section::Table(table.into()));
    }

    /// Adds such a table, unless it has no rows.
    pub fn brief_table_if_any(&mut self, table: impl Into<Table>) {
        let table = table.into();
        if !table.rows.is_empty() {
            self.brief_table(table);
        }
    }

    /// Adds a caution at the place its weight gives it.
    pub fn caution(&mut self, weight: Weight, text: impl Into<String>) {
        self.rank(RankedCaution::new(weight, text));
    }

    /// Adds cautions of one weight.
    pub fn cautions<C: Into<String>>(
        &mut self,
        weight: Weight,
        texts: impl IntoIterator<Item = C>,
    ) {
        for text in texts {
            self.caution(weight, text);
        }
    }

    /// Adds a caution about the table with this heading.
    pub fn caution_on(&mut self, table: &'static str, weight: Weight, text: impl Into<String>) {
        self.rank(RankedCaution {
            table: Some(table),
            ..RankedCaution::new(weight, text)
        });
    }

    /// Adds cautions that know their weight.
    pub fn cautions_of<T: Weighed>(&mut self, cautions: &[T]) {
        for caution in cautions {
            self.rank(RankedCaution {
                table: caution.table(),
                ..RankedCaution::new(caution.weight(), caution.to_string())
            });
        }
    }

    /// Adds cautions that were ranked before.
    pub fn ranked(&mut self, cautions: &[RankedCaution]) {
        for caution in cautions {
            self.rank(caution.clone());
        }
    }

    /// Adds a caution at the place its weight gives it.
    fn rank(&mut self, caution: RankedCaution) {
        let at = self
            .cautions
            .partition_point(|of| of.weight <= caution.weight);
        self.cautions.insert(at, caution);
    }
}

/// Anything that can be told as data, so that no other floor need name the library that does it.
pub trait Plain: serde::Serialize {}

impl<T: serde::Serialize + ?Sized> Plain for T {}

/// An answer to one question: its own fields for machines, a sheet for people.
pub trait Report: serde::Serialize {
    /// What a person reads.
    fn sheet(&self) -> Sheet;

    /// What a person reads on one screen: the same sheet, unless the whole of it is long in the making.
    fn screen(&self) -> Sheet {
        self.sheet()
    }

    /// What goes into a spreadsheet, where rows that a person reads as one stand apart.
    fn spreadsheet(&self) -> Sheet {
        self.sheet()
    }

    /// Whether the answer is bad news that the exit code tells (faults found, label refused).
    fn is_bad_news(&self) -> bool {
        false
    }
}
