//! A sheet for the bench as lists: on the screen, and as the file that `podbook measure --from` takes back filled in.

use super::sheet::{Report, Sheet};
use super::table::{Columns, Table};
use crate::analysis::bench_sheet::{BenchSheet, ReadAs, SheetColumn, SheetRow};
use crate::wording::{counted, joined, listed};

/// Columns of last readings begin with this word, so that they are not taken for new ones.
pub const LAST: &str = "last ";

impl BenchSheet {
    /// What the sheet is of: `X24-01 and X24-02`, or the place.
    pub fn subject(&self) -> String {
        match (&self.place, self.of.as_slice()) {
            (Some(place), []) => place.clone(),
            (Some(place), of) => format!("{} on {place}", listed(of)),
            (None, of) => listed(of),
        }
    }

    /// Whether it is to tick plants off by.
    pub fn is_stocktake(&self) -> bool {
        self.columns.is_empty()
    }

    /// The codes of its plants.
    fn codes(&self) -> Vec<&str> {
        self.rows.iter().map(|row| row.plant.as_str()).collect()
    }

    /// The command that takes the filled sheet in.
    pub fn command(&self) -> String {
        let of = match (&self.place, self.of.as_slice()) {
            (Some(place), []) => format!("--place \"{place}\""),
            (Some(_), _) => self.codes().join(" "),
            (None, of) => of.join(" "),
        };
        if self.is_stocktake() {
            return String::new();
        }
        let asked = self.columns.iter().map(|column| column.asked.as_str());
        let asked = joined(asked, ",");
        let quote = if asked.contains(' ') { "\"" } else { "" };
        format!("podbook measure {of} --traits {quote}{asked}{quote}")
    }

    fn stocktake(&self) -> Table {
        Table::of(&self.rows)
            .text("plant", |row| &row.plant)
            .text("place", |row| &row.place)
            .text("seen", |_| "")
            .text("note", |_| "")
            .into()
    }

    /// Adds a column of what was read last for each that is to be read.
    fn with_last<'s>(&'s self, table: Columns<&'s SheetRow>) -> Columns<&'s SheetRow> {
        table.each(self.columns.iter().enumerate(), |columns, (at, of)| {
            columns.text(format!("{LAST}{}", of.heading), |row| &row.last[at])
        })
    }
}

impl Report for BenchSheet {
    fn sheet(&self) -> Sheet {
        let plants = counted(self.rows.len(), "plant", "plants");
        let answer = match self.is_stocktake() {
            true => format!("Stock-take of {}: {plants}", self.subject()),
            false => format!(
                "What to read on the {plants} {} {}: {}",
                match self.of.is_empty() {
                    true => "on",
                    false => "of",
                },
                self.subject(),
                joined(self.columns.iter().map(|column| column.name.as_str()), ", ")
            ),
        };
        let mut sheet = Sheet::new(answer);
        if self.is_stocktake() {
            sheet.table(self.stocktake());
            return sheet;
        }
        let table = Table::of(&self.rows)
            .text("plant", |row| &row.plant)
            .text("place", |row| &row.place);
        sheet.table(self.with_last(table));
        sheet.lines(
            Some("How it is read"),
            self.columns.iter().map(SheetColumn::words),
        );
        sheet.next = Some(self.command());
        sheet
    }

    /// A row for each plant with empty cells to fill in; last readings stand behind, where they are not taken for new ones.
    fn spreadsheet(&self) -> Sheet {
        let mut sheet = Sheet::new("");
        if self.is_stocktake() {
            sheet.table(self.stocktake());
            return sheet;
        }
        let noted = self.columns.iter().any(|column| column.heading == "note");
        let table = Table::of(&self.rows)
            .text("plant", |row| &row.plant)
            .each(&self.columns, |columns, of| {
                columns.text(&of.heading, |_| "")
            })
            .when(!noted, |columns| columns.text("note", |_| ""));
        sheet.table(self.with_last(table));
        sheet
    }
}

impl SheetColumn {
    /// `leaf span, cm: how it is read`, or the anchors of a scale, or the kinds with their short forms.
    pub fn words(&self) -> String {
        let name = match &self.read_as {
            ReadAs::Measure(Some(unit)) => format!("{}, {unit}", self.name),
            _ => self.name.clone(),
        };
        let choices = match &self.read_as {
            ReadAs::Scale(anchors) => {
                let anchors = anchors.iter().enumerate();
                let steps = anchors.map(|(at, anchor)| format!("{} {anchor}", at + 1));
                Some(joined(steps, " · "))
            }
            ReadAs::Kinds(kinds) => {
                let kinds = kinds.iter().map(|(short, kind)| match short == kind {
                    true => kind.clone(),
                    false => format!("{short} = {kind}"),
                });
                Some(joined(kinds, " · "))
            }
            _ => None,
        };
        let parts: Vec<String> = choices.into_iter().chain(self.definition.clone()).collect();
        match parts.is_empty() {
            true => name,
            false => format!("{name}: {}", parts.join("; ")),
        }
    }
}
