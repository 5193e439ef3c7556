//! A sheet for the bench as lists: on the screen, and as the file that `podbook measure --from` takes back filled in.

use super::sheet::{Cell, ColumnHead, Report, Sheet, Table};
use crate::analysis::bench_sheet::{BenchSheet, ReadAs, SheetColumn, SheetRow};
use crate::wording::{counted, listed};

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
        let asked = asked.collect::<Vec<_>>().join(",");
        let quote = if asked.contains(' ') { "\"" } else { "" };
        format!("podbook measure {of} --traits {quote}{asked}{quote}")
    }

    fn table(&self, headings: Vec<String>, cells: impl Fn(&SheetRow) -> Vec<Cell>) -> Table {
        let head = |heading: String| ColumnHead {
            heading,
            right: false,
            stays: false,
        };
        let mut table = Table {
            columns: headings.into_iter().map(head).collect(),
            ..Table::default()
        };
        for row in &self.rows {
            table.row(cells(row));
        }
        table
    }

    fn stocktake(&self) -> Table {
        let headings = ["plant", "place", "seen", "note"].map(str::to_owned).into();
        self.table(headings, |row| {
            let blank = Cell::Text(String::new());
            vec![
                row.plant.as_str().into(),
                row.place.clone().into(),
                blank.clone(),
                blank,
            ]
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
                self.columns
                    .iter()
                    .map(|column| column.name.as_str())
                    .collect::<Vec<_>>()
                    .join(", ")
            ),
        };
        let mut sheet = Sheet::new(answer);
        if self.is_stocktake() {
            sheet.table(self.stocktake());
            return sheet;
        }
        let last = self
            .columns
            .iter()
            .map(|column| format!("{LAST}{}", column.heading));
        let headings = ["plant".to_owned(), "place".to_owned()]
            .into_iter()
            .chain(last);
        sheet.table(self.table(headings.collect(), |row| {
            let last = row.last.iter().map(|last| last.clone().into());
            let own = [row.plant.as_str().into(), row.place.clone().into()];
            own.into_iter().chain(last).collect()
        }));
        sheet.lines(
            Some("How it is read"),
            self.columns.iter().map(SheetColumn::words).collect(),
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
        let asked = self.columns.iter().map(|column| column.heading.clone());
        let last = self
            .columns
            .iter()
            .map(|column| format!("{LAST}{}", column.heading));
        let mut headings = vec!["plant".to_owned()];
        headings.extend(asked);
        if self.columns.iter().all(|column| column.heading != "note") {
            headings.push("note".to_owned());
        }
        let blanks = headings.len() - 1;
        headings.extend(last);
        sheet.table(self.table(headings, |row| {
            let mut cells = vec![Cell::from(row.plant.as_str())];
            cells.resize(1 + blanks, Cell::Text(String::new()));
            cells.extend(row.last.iter().map(|last| Cell::from(last.clone())));
            cells
        }));
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
                Some(steps.collect::<Vec<_>>().join(" · "))
            }
            ReadAs::Kinds(kinds) => {
                let kinds = kinds.iter().map(|(short, kind)| match short == kind {
                    true => kind.clone(),
                    false => format!("{short} = {kind}"),
                });
                Some(kinds.collect::<Vec<_>>().join(" · "))
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
