//! What can be pollinated now, as a person reads it.

use crate::analysis::ready::{ReadyReport, SpikeRow, SpikeState};
use crate::observation::flowers::Forecast;
use crate::observation::pollen::Envelope;
use crate::report::kinship::probability;
use crate::report::sheet::{Cell, Report, Sheet, Table};
use crate::wording::{age_of_days, counted};

fn age_words(age: Option<(i32, i32)>) -> Cell {
    age.map(age_of_days).into()
}

impl Report for ReadyReport {
    fn sheet(&self) -> Sheet {
        let open = self
            .females
            .iter()
            .filter(|row| row.state == SpikeState::Open)
            .count();
        let mut sheet = Sheet::new(format!(
            "{}: {} open, {} more forecast within {} days; {}; {}",
            self.on,
            counted(open, "female", "females"),
            self.females.len() - open,
            self.days_ahead,
            counted(self.males.len(), "male spike", "male spikes"),
            self.pollen_words(),
        ));
        if !self.options.is_empty() {
            sheet.table(self.option_table());
        }
        for (title, rows) in [("Females", &self.females), ("Males", &self.males)] {
            if !rows.is_empty() {
                sheet.table(spike_table(title, rows));
                let rests = rows
                    .iter()
                    .filter(|row| row.rests_on != Forecast::default());
                sheet.lines(
                    None,
                    rests
                        .map(|row| format!("{}: {}", row.id, row.rests_on))
                        .collect(),
                );
            }
        }
        for (title, rows) in self.pollen_by_age() {
            sheet.table(envelopes(title, &rows));
        }
        self.short(&mut sheet);
        let mut table = Table::new(&["pollen", "pods set, all envelopes together"])
            .titled("Set so far, pooled");
        for row in &self.own_results {
            table.row(vec![row.pollen.clone().into(), row.rate.words().into()]);
        }
        table.row(vec![
            "none: flowers left alone".into(),
            self.controls.words().into(),
        ]);
        sheet.table(table);
        sheet.cautions_of(&self.cautions);
        sheet
    }
}

fn spike_table(title: &str, rows: &[SpikeRow]) -> Table {
    let mut table = Table::new(&[
        "plant",
        "sex",
        "",
        "first flower",
        "last flower",
        "spike seen",
    ])
    .titled(title);
    for row in rows {
        table.row(vec![
            row.id.clone().into(),
            row.sex.to_string().into(),
            row.state.to_string().into(),
            row.opens.to_string().into(),
            row.closes.to_string().into(),
            row.spike_seen.clone().into(),
        ]);
    }
    table
}

impl ReadyReport {
    /// The same for one screen: what could be made, then who is open, then the envelopes in few columns.
    fn short(&self, sheet: &mut Sheet) {
        if !self.options.is_empty() {
            sheet.brief_table(self.option_table());
        }
        for (title, rows) in [("Females", &self.females), ("Males", &self.males)] {
            if !rows.is_empty() {
                sheet.brief_table(spike_table(title, rows));
            }
        }
        for (title, rows) in self.pollen_by_age() {
            sheet.brief_table(short_envelopes(title, &rows));
        }
    }

    /// How many envelopes there are, and how many of them are too old to count on.
    fn pollen_words(&self) -> String {
        let envelopes = counted(self.pollen.len(), "envelope", "envelopes");
        let old = self.pollen.iter().filter(|of| of.beyond_reports).count();
        match old {
            0 => format!("{envelopes} in hand"),
            old if old == self.pollen.len() => {
                format!("{envelopes}, all older than pollen usually lasts")
            }
            old => format!("{envelopes}, {old} of them older than pollen usually lasts"),
        }
    }

    /// Envelopes to use, those that have outlived what growers report, then those for no named cross; no empty group.
    fn pollen_by_age(&self) -> impl Iterator<Item = (&'static str, Vec<&Envelope>)> {
        let group = |of: &&Envelope| (of.for_a_named_cross, of.beyond_reports);
        let of = |wanted: fn((bool, bool)) -> bool| -> Vec<&Envelope> {
            self.pollen.iter().filter(|of| wanted(group(of))).collect()
        };
        let groups = [
            ("Pollen in hand", of(|(named, old)| named && !old)),
            (
                "Older than pollen usually lasts: low expectation",
                of(|(_, old)| old),
            ),
            (
                "Of no one known plant: not for a named cross",
                of(|(named, old)| !named && !old),
            ),
        ];
        groups.into_iter().filter(|(_, rows)| !rows.is_empty())
    }

    fn option_table(&self) -> Table {
        let headings = [
            "seed parent",
            "pollen parent",
            "envelope",
            ">age",
            "meet",
            ">inbreeding",
            "made before",
        ];
        let mut table = Table::new(&headings).titled("Could be made, freshest pollen first");
        for row in &self.options {
            table.row(vec![
                row.seed.clone().into(),
                row.pollen.clone().into(),
                row.lot.clone().unwrap_or_else(|| "fresh".into()).into(),
                age_words(row.age_days),
                row.meet.to_string().into(),
                probability(row.inbreeding).into(),
                if row.made_before.is_empty() {
                    "no".into()
                } else {
                    row.made_before.join(", ").into()
                },
            ]);
        }
        table
    }
}

fn short_envelopes(title: &str, rows: &[&Envelope]) -> Table {
    let headings = ["envelope", "of", ">age", "place", "left"];
    let mut table = Table::new(&headings).titled(title);
    for row in rows {
        table.row(vec![
            row.lot.clone().into(),
            row.of.clone().into(),
            age_words(row.age_days),
            row.place.into(),
            row.left.clone().into(),
        ]);
    }
    table
}

fn envelopes(title: &str, rows: &[&Envelope]) -> Table {
    let headings = [
        "envelope",
        "of",
        ">age",
        "place",
        "left",
        "pods set with it",
        "with all of its place and age",
        "remark",
    ];
    let mut table = Table::new(&headings).titled(title);
    for row in rows {
        table.row(vec![
            row.lot.clone().into(),
            row.of.clone().into(),
            age_words(row.age_days),
            row.place.into(),
            row.left.clone().into(),
            row.set_by_it.words().into(),
            row.pooled.words().into(),
            row.remark.clone().into(),
        ]);
    }
    table
}
