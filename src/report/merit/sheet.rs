//! Predicted merit as a person reads it: who leads and how surely, then all, the best first.

use super::super::sheet::{Report, Sheet};
use super::super::table::{Columns, Table};
use crate::analysis::merit::{MeritOfTrait, MeritReport, MeritRow, MeritUnit, TraitOfMerit};
use crate::wording::{chance, counted, from_to, listed};

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
        sheet.table_if_any(self.better_table());
        sheet.cautions_of(&self.cautions);
        sheet
    }

    /// Who is predicted best, and whether that is more than chance.
    fn lead(&self) -> String {
        let names = self.traits.iter().map(|of| of.name.as_str());
        let of = listed(names);
        let [first, others @ ..] = &self.rows[..] else {
            return format!("merit in {of}: nothing is known of any plant");
        };
        let Some(second) = others.first() else {
            return format!("merit in {of} of {}", first.id);
        };
        if self.not_clearly_worse.is_empty() {
            let (id, than) = (&first.id, &second.id);
            let better = chance(1.0 - second.chance_better_than_first.unwrap_or(0.5));
            return format!(
                "{id} leads in merit in {of}: {id} is better than {than} with a chance of {better}"
            );
        }
        format!(
            "No plant stands out in merit in {of}: {} cannot be told apart, {}",
            self.tied(first),
            self.reliability(first)
        )
    }

    /// The first plant and those not clearly worse.
    fn leaders<'r>(&'r self, first: &'r MeritRow) -> Vec<&'r MeritRow> {
        // They stand in the order of the rows.
        let mut tied = self.not_clearly_worse.iter().peekable();
        let mut leads = |id: &String| *id == first.id || tied.next_if_eq(&id).is_some();
        self.rows.iter().filter(|row| leads(&row.id)).collect()
    }

    /// Those that may be the best, by name as far as that is short.
    fn tied(&self, first: &MeritRow) -> String {
        let leaders = self.leaders(first);
        let codes: Vec<&str> = leaders.iter().map(|row| row.id.as_str()).collect();
        match codes.len() {
            n if n <= NAMED => listed(&codes),
            n if n == self.rows.len() => format!("the {n} plants"),
            n => format!("{n} plants, {} first,", first.id),
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
        format!("reliability {}", from_to(least, most, " to "))
    }

    fn table(&self, rows: usize) -> Table {
        Table::of(&self.rows[..rows])
            .more(self.rows.len() - rows)
            .text("plant", |row| &row.id)
            .when(self.traits.len() > 1, |columns| {
                columns
                    .number("index (genetic SD)", 2, |row| row.index)
                    .number("±", 2, |row| row.index_error)
                    .beside()
            })
            .when(self.rows.len() > 1, |columns| {
                columns.figure("may beat the first", |row| {
                    row.chance_better_than_first.map(chance)
                })
            })
            .each(self.traits.iter().enumerate(), trait_columns)
            .into()
    }

    fn better_table(&self) -> Table {
        Table::of(&self.better)
            .titled("Chance of being the better one of two")
            .text("plant", |row| &row.plant)
            .text("than", |row| &row.than)
            .figure("chance", |row| chance(row.chance))
            .into()
    }
}

/// The columns of one trait: its merit, how surely that is known, and from what.
fn trait_columns<'r>(
    columns: Columns<&'r MeritRow>,
    (at, told): (usize, &TraitOfMerit),
) -> Columns<&'r MeritRow> {
    let of = |row: &'r MeritRow| &row.of_traits[at];
    let (unit, decimals) = match told.unit {
        MeritUnit::Percent => (", % above mean", 0),
        MeritUnit::Steps => (", steps", 2),
        MeritUnit::AsRead => ("", 2),
    };
    let heading = format!("{}{unit}", told.code);
    let columns = columns.number(heading, decimals, |row| of(row).merit);
    let columns = match told.unit {
        MeritUnit::Percent => columns.figure("1 SE either way", |row| limits(of(row))),
        _ => columns.number("±", 2, |row| of(row).error),
    };
    columns
        .beside()
        .number("reliability", 2, |row| of(row).reliability)
        .beside()
        .figure("n", |row| of(row).readings)
        .beside()
        .text("known by", |row| of(row).known_by.to_string())
        .beside()
}
