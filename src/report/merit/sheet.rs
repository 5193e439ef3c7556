//! Predicted merit as a person reads it: who leads and how surely, then all, the best first.

use super::super::sheet::{Cell, Report, Sheet, Table};
use crate::analysis::merit::{MeritReport, MeritRow};
use crate::wording::{chance, counted, listed};

/// Plants named in the answer.
const NAMED: usize = 4;

impl Report for MeritReport {
    fn sheet(&self) -> Sheet {
        let read: usize = self.traits.iter().map(|of| of.readings).sum();
        let mut sheet = Sheet::new(format!(
            "{} ({}, {})",
            self.lead(),
            counted(self.rows.len(), "plant", "plants"),
            counted(read, "reading", "readings"),
        ));
        sheet.table(self.table());
        if !self.better.is_empty() {
            sheet.table(self.better_table());
        }
        sheet.cautions.extend(self.cautions.iter().cloned());
        sheet
    }
}

impl MeritReport {
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
        let pair = format!(
            "{} is better than {} with a chance of {}",
            first.id,
            second.id,
            chance(1.0 - second.chance_better_than_first.unwrap_or(0.5))
        );
        match self.not_clearly_worse.is_empty() {
            true => format!("{} leads in merit in {of}: {pair}", first.id),
            false => format!(
                "{} not clearly apart in merit in {of}: {pair}",
                self.tied(first)
            ),
        }
    }

    /// The first plant and those not clearly worse, by name as far as that is short.
    fn tied(&self, first: &MeritRow) -> String {
        let all: Vec<&str> = std::iter::once(first.id.as_str())
            .chain(self.not_clearly_worse.iter().map(String::as_str))
            .collect();
        match all.len() <= NAMED + 1 {
            true => format!("{} are", listed(&all)),
            false => format!(
                "{} and {} more are",
                all[..NAMED].join(", "),
                all.len() - NAMED
            ),
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
            let unit = match of.unit {
                "percent" => ", %",
                "steps" => ", steps",
                _ => "",
            };
            let limits = match of.unit {
                "percent" => "+>± 1 error",
                _ => "+>±",
            };
            headings.extend([format!(">{}{unit}", of.code), limits.to_owned()]);
            headings.extend(["+>reliability", "+>n", "+known by"].map(str::to_owned));
        }
        headings
    }

    fn table(&self) -> Table {
        let several = self.traits.len() > 1;
        let headings = self.headings(several);
        let headings: Vec<&str> = headings.iter().map(String::as_str).collect();
        let mut table = Table::new(&headings);
        for row in &self.rows {
            let mut cells: Vec<Cell> = vec![row.id.clone().into()];
            if several {
                cells.extend([Cell::Number(row.index, 2), Cell::Number(row.index_error, 2)]);
            }
            if self.rows.len() > 1 {
                cells.push(row.chance_better_than_first.map(chance).into());
            }
            for (of, told) in row.of_traits.iter().zip(&self.traits) {
                let decimals = if told.unit == "percent" { 0 } else { 2 };
                cells.extend([
                    Cell::Number(of.merit, decimals),
                    match told.unit {
                        "percent" => of.limits().into(),
                        _ => Cell::Number(of.error, decimals),
                    },
                    Cell::Number(of.reliability, 2),
                    of.readings.into(),
                    of.known_by.into(),
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
