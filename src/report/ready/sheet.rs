//! What can be pollinated now, as a person reads it.

use super::words::SET_SO_FAR;
use crate::analysis::ready::{OptionRow, ReadyReport, SpikeRow, SpikeState};
use crate::observation::flowers::{Forecast, which_spike};
use crate::observation::pollen::Envelope;
use crate::report::kinship::may_be_words;
use crate::report::made_before::made_before_words;
use crate::report::sheet::{Report, Sheet};
use crate::report::table::Table;
use crate::wording::{age_of_days, counted, each_once};

impl Report for ReadyReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(format!(
            "{}: {}; {}; {}",
            self.on,
            self.females_words(),
            counted(self.males.len(), "male spike", "male spikes"),
            self.pollen_words(),
        ));
        sheet.table_if_any(self.option_table());
        for (title, rows) in [("Females", &self.females), ("Males", &self.males)] {
            if !rows.is_empty() {
                sheet.table(spike_table(title, rows));
                let rests = rows
                    .iter()
                    .filter(|row| row.rests_on != Forecast::default());
                sheet.lines(
                    None,
                    rests.map(|row| format!("{}: {}", row.told(), row.rests_on)),
                );
            }
        }
        for (title, rows) in self.pollen_by_age() {
            sheet.table(envelopes(title, &rows, true));
        }
        self.short(&mut sheet);
        let own = self.own_results.iter();
        let own = own.map(|row| (row.pollen.as_str(), &row.rate));
        let alone = self.controls.interval.is_some();
        let alone = alone.then_some((LEFT_ALONE, &self.controls));
        sheet.table_if_any(
            Table::of(own.chain(alone))
                .titled(SET_SO_FAR)
                .text("pollen", |(pollen, _)| pollen)
                .text(
                    "flowers set, all envelopes together",
                    |(pollen, rate)| match pollen {
                        LEFT_ALONE => rate.share_words(),
                        _ => rate.words(),
                    },
                ),
        );
        sheet.cautions_of(&self.cautions);
        sheet
    }
}

/// The row of flowers that had no pollen, and so no pollinations to count.
const LEFT_ALONE: &str = "none: flowers left alone";

/// Pairs that a screen lists one by one.
const SHORT_OPTIONS: usize = 12;

/// Pollen parents that a cell names.
const NAMED: usize = 4;

/// Whether nothing is on record against a pair: as far as recorded unrelated, and not made before.
fn is_new(row: &OptionRow) -> bool {
    let related = row.inbreeding > 0.0 || !row.inbreeding_may_be.is_empty() || !row.ways_known;
    !related && row.made_before.is_empty() && row.perhaps_made_before.is_empty()
}

/// The first few pollen parents, each once, and how many more there are.
fn few<'r>(rows: impl Iterator<Item = &'r OptionRow>) -> String {
    let codes: Vec<&str> = each_once(rows.map(|row| row.pollen.as_str()));
    match codes.len() {
        0..=NAMED => codes.join(", "),
        n => format!("{} and {} more", codes[..NAMED].join(", "), n - NAMED),
    }
}

fn spike_table(title: &str, rows: &[SpikeRow]) -> Table {
    Table::of(rows)
        .titled(title)
        .text("plant", |row| row.told())
        .text("sex", |row| row.sex.to_string())
        .text("", |row| row.state.to_string())
        .text("first flower", |row| row.opens.to_string())
        .text("last flower", |row| row.closes.to_string())
        .text("spike seen", |row| &row.spike_seen)
        .into()
}

impl SpikeRow {
    /// The plant or piece, and which of its spikes.
    fn told(&self) -> String {
        which_spike(&self.id, self.spike.as_deref())
    }
}

impl OptionRow {
    /// Whether its seed parent flowers with a spike.
    fn is_on(&self, spike: &SpikeRow) -> bool {
        (&self.seed, &self.seed_spike) == (&spike.id, &spike.spike)
    }

    /// The seed parent, and which of its spikes.
    fn seed_told(&self) -> String {
        which_spike(&self.seed, self.seed_spike.as_deref())
    }
}

impl ReadyReport {
    /// The same for one screen: what could be made, then who is open, then the envelopes in few columns.
    fn short(&self, sheet: &mut Sheet) {
        match self.options.len() > SHORT_OPTIONS {
            true => sheet.brief_table(self.by_seed_parent()),
            false => sheet.brief_table_if_any(self.option_table()),
        }
        for (title, rows) in [("Females", &self.females), ("Males", &self.males)] {
            sheet.brief_table_if_any(spike_table(title, rows));
        }
        for (title, rows) in self.pollen_by_age() {
            sheet.brief_table(envelopes(title, &rows, false));
        }
    }

    /// How many females are in flower, may be over, and are still to open.
    fn females_words(&self) -> String {
        let count = |state| self.females.iter().filter(|row| row.state == state).count();
        let open = count(SpikeState::Open);
        let females = counted(open, "female", "females");
        let perhaps = count(SpikeState::MayBeOver);
        let over = match perhaps {
            0 => String::new(),
            n => format!(", {n} more may be over"),
        };
        format!(
            "{females} in flower{over}, {} more forecast within {} days",
            self.females.len() - open - perhaps,
            self.days_ahead
        )
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
                "Older than pollen usually lasts: expect little",
                of(|(_, old)| old),
            ),
            (
                "Of several plants, or not known of which: not for a named cross",
                of(|(named, old)| !named && !old),
            ),
        ];
        groups.into_iter().filter(|(_, rows)| !rows.is_empty())
    }

    /// The same seed parent by seed parent, for a day with more than a screen of pairs: what is shed now, then envelopes,
    /// with what is related or was made before named apart.
    fn by_seed_parent(&self) -> Table {
        let mut females: Vec<&SpikeRow> = self.females.iter().collect();
        females.retain(|female| self.options.iter().any(|row| row.is_on(female)));
        females.sort_by_key(|female| (female.closes.earliest, female.closes.latest));
        let of = |female: &SpikeRow, wanted: fn(&OptionRow) -> bool| {
            let rows = self.options.iter().filter(|row| row.is_on(female));
            few(rows.filter(|row| wanted(row)))
        };
        Table::of(females)
            .titled("Could be made, the spike that closes first on top")
            .text("seed parent", |female| female.told())
            .text("last flower", |female| female.closes.to_string())
            .text("fresh pollen of", |female| {
                of(female, |row| row.lot.is_none() && is_new(row))
            })
            .text("envelopes of", |female| {
                of(female, |row| row.lot.is_some() && is_new(row))
            })
            .text("may be related, or made before", |female| {
                of(female, |row| !is_new(row))
            })
            .into()
    }

    fn option_table(&self) -> Table {
        Table::of(&self.options)
            .titled("Could be made, freshest pollen first")
            .text("seed parent", |row| row.seed_told())
            .text("pollen parent", |row| {
                which_spike(&row.pollen, row.pollen_spike.as_deref())
            })
            .text("envelope", |row| row.lot.as_deref().unwrap_or("fresh"))
            .figure("age", |row| row.age_days.map(age_of_days))
            .text("meet", |row| row.meet.to_string())
            .figure("inbreeding", |row| {
                may_be_words(row.inbreeding, &row.inbreeding_may_be, row.ways_known)
            })
            .text("made before", |row| {
                made_before_words(&row.made_before, &row.perhaps_made_before)
            })
            .into()
    }
}

/// Envelopes in few columns; in full, also what was set with them and remarks.
fn envelopes(title: &str, rows: &[&Envelope], full: bool) -> Table {
    Table::of(rows.iter().copied())
        .titled(title)
        .text("envelope", |row| &row.lot)
        .text("of", |row| &row.of)
        .figure("age", |row| row.age_days.map(age_of_days))
        .text("place", |row| row.place)
        .text("left", |row| &row.left)
        .when(full, |columns| {
            columns
                .text("flowers set with it", |row| row.set_by_it.words())
                .text("with all of its place and age", |row| row.pooled.words())
                .text("remark", |row| &row.remark)
        })
        .into()
}
