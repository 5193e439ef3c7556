//! Predicted merit as a person reads it: who leads and how surely, then all, the best first.

use super::super::sheet::{Cell, Report, Sheet, Table};
use crate::analysis::merit::{MeritOfTrait, MeritReport, MeritRow, MeritUnit};
use crate::wording::{chance, counted, listed};
use std::collections::BTreeSet;

/// Percent beyond which an upper limit says nothing.
pub(super) const NO_LIMIT: f64 = 1e6;

/// One standard error either way, of percents: `42 to 134`; `−100 and up` where so little is known that there is no
/// upper limit.
pub(crate) fn limits(of: &MeritOfTrait) -> String {
    let [low, high] = [of.low, of.high].map(|limit| match format!("{limit:.0}") {
        shown if shown == "-0" => "0".to_owned(),
        shown => shown.replace('-', "−"),
    });
    match of.high > NO_LIMIT {
        true => format!("{low} and up"),
        false => format!("{low} to {high}"),
    }
}

/// Rows that a screen may have room for, and more.
const ON_A_SCREEN: usize = 50;

/// Plants named in the answer.
const NAMED: usize = 4;

impl Report for MeritReport {
    fn sheet(&self) -> Sheet {
        self.with_rows(self.rows.len())
    }

    fn screen(&self) -> Sheet {
        self.with_rows(self.rows.len().min(ON_A_SCREEN))
    }
}

impl MeritReport {
    /// The answer with the first rows of its table; the others are counted.
    fn with_rows(&self, rows: usize) -> Sheet {
        let read: usize = self.traits.iter().map(|of| of.readings).sum();
        let mut sheet = Sheet::new(format!(
            "{} ({}, {})",
            self.lead(),
            counted(self.rows.len(), "plant", "plants"),
            counted(read, "reading", "readings"),
        ));
        sheet.table(self.table(rows));
        if !self.better.is_empty() {
            sheet.table(self.better_table());
        }
        sheet.cautions_of(&self.cautions);
        sheet
    }

    /// Who is predicted best, and whether that is more than chance.
    fn lead(&self) -> String {
        let names: Vec<&str> = self.traits.iter().map(|of| of.name.as_str()).collect();
        let of = listed(&names);
        let [first, others @ ..] = &self.rows[..] else {
            return format!("merit in {of}: nothing is known of any plant");
        };
        let Some(second) = others.first() else {
            return format!("merit in {of} of {}", first.id);
        };
        if self.not_clearly_worse.is_empty() {
            return format!(
                "{} leads in merit in {of}: {} is better than {} with a chance of {}",
                first.id,
                first.id,
                second.id,
                chance(1.0 - second.chance_better_than_first.unwrap_or(0.5))
            );
        }
        format!(
            "No plant stands out in merit in {of}: {} are not told apart, {}",
            self.tied(first),
            self.reliability(first)
        )
    }

    /// The first plant and those not clearly worse.
    fn leaders<'r>(&'r self, first: &'r MeritRow) -> Vec<&'r MeritRow> {
        let tied: BTreeSet<&str> = self.not_clearly_worse.iter().map(String::as_str).collect();
        let leads = |id: &str| id == first.id || tied.contains(id);
        self.rows.iter().filter(|row| leads(&row.id)).collect()
    }

    /// Those that may be the best, by name as far as that is short.
    fn tied(&self, first: &MeritRow) -> String {
        let leaders = self.leaders(first);
        let codes: Vec<&str> = leaders.iter().map(|row| row.id.as_str()).collect();
        match codes.len() {
            n if n <= NAMED => listed(&codes),
            n if n == self.rows.len() => format!("the {n} plants"),
            n => format!("{n} plants, {} among them,", first.id),
        }
    }

    /// How much is known of those that may be the best: `reliability 0.12 to 0.15`.
    fn reliability(&self, first: &MeritRow) -> String {
        let leaders = self.leaders(first).into_iter();
        let known = leaders
            .flat_map(|row| &row.of_traits)
            .map(|of| of.reliability);
        let (least, most) = known.fold((1.0, 0.0), |(least, most), of| {
            (f64::min(least, of), f64::max(most, of))
        });
        let [least, most] = [least, most].map(|of| format!("{of:.2}"));
        match least == most {
            true => format!("reliability {most}"),
            false => format!("reliability {least} to {most}"),
        }
    }

    fn headings(&self, several: bool) -> Vec<String> {
        let mut headings = vec!["plant".to_owned()];
        if several {
            headings.extend([">index (genetic SD)".to_owned(), "+>±".to_owned()]);
        }
        if self.rows.len() > 1 {
            headings.push(">better than the first".to_owned());
        }
        for of in &self.traits {
            let (unit, limits) = match of.unit {
                MeritUnit::Percent => (", % above mean", "+>1 SE either way"),
                MeritUnit::Steps => (", steps", "+>±"),
                MeritUnit::AsRead => ("", "+>±"),
            };
            headings.extend([format!(">{}{unit}", of.code), limits.to_owned()]);
            headings.extend(["+>reliability", "+>n", "+known by"].map(str::to_owned));
        }
        headings
    }

    fn table(&self, rows: usize) -> Table {
        let several = self.traits.len() > 1;
        let headings = self.headings(several);
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table = Table::new(&headings);
        table.more = self.rows.len() - rows;
        for row in &self.rows[..rows] {
            let mut cells: Vec<Cell> = vec![row.id.clone().into()];
            if several {
                cells.extend([Cell::Number(row.index, 2), Cell::Number(row.index_error, 2)]);
            }
            if self.rows.len() > 1 {
                cells.push(row.chance_better_than_first.map(chance).into());
            }
            for (of, told) in row.of_traits.iter().zip(&self.traits) {
                cells.extend(match told.unit {
                    MeritUnit::Percent => [Cell::Number(of.merit, 0), limits(of).into()],
                    _ => [Cell::Number(of.merit, 2), Cell::Number(of.error, 2)],
                });
                cells.extend([
                    Cell::Number(of.reliability, 2),
                    of.readings.into(),
                    of.known_by.to_string().into(),
                ]);
            }
            table.row(cells);
        }
        table
    }

    fn better_table(&self) -> Table {
        let title = "Chance of being the better one of two";
        let mut table = Table::new(&["plant", "than", ">chance"]).titled(title);
        for row in &self.better {
            table.row(vec![
                row.plant.clone().into(),
                row.than.clone().into(),
                chance(row.chance).into(),
            ]);
        }
        table
    }
}
