//! Sowings of a page: what the row of a cross, rows about its seed and its seedlings say of them.

use crate::analysis::import::{ImportRow, RowFacts};
use crate::record::CrossPage;
use crate::recording::written::{RonRecord, tally};
use std::collections::{BTreeMap, BTreeSet};

/// Sowings that are new on a page, and the codes of all that have a day.
pub(super) struct Sowings {
    /// The records of those that are new.
    pub records: Vec<String>,
    /// Codes by day, the first of each.
    pub by_day: BTreeMap<String, String>,
}

/// A sowing that is new.
struct NewSowing<'i> {
    on: Option<&'i str>,
    /// The row that says more of it than a day.
    facts: Option<&'i RowFacts>,
    /// What it stands in; the pot of a seedling is none.
    container: Option<&'i String>,
    /// Its cells, where they stand on no other record.
    source: Option<&'i str>,
    /// Whether its seed is that of the lot of the page.
    of_lot: bool,
}

impl Sowings {
    /// Those of a page that is begun: `known` is the row that begins it with the container of its seed, `has_lot` that it
    /// has any seed, `rows` are further ones about its seed, and `days` those of its seedlings.
    pub fn of_new<'i>(
        (known, container, has_lot): (Option<&'i RowFacts>, Option<&'i String>, bool),
        rows: &[&'i ImportRow],
        days: impl Iterator<Item = &'i str>,
    ) -> Sowings {
        let own = known.filter(|facts| facts.is_sown());
        let own = own.map(|facts| NewSowing {
            on: facts.sown.as_deref(),
            facts: Some(facts),
            container,
            source: None,
            of_lot: has_lot,
        });
        let mut all: Vec<NewSowing> = own.into_iter().chain(of_rows(rows)).collect();
        for on in days {
            if !all.iter().any(|sowing| sowing.on == Some(on)) {
                all.push(NewSowing {
                    on: Some(on),
                    facts: None,
                    container: None,
                    source: None,
                    of_lot: false,
                });
            }
        }
        Sowings::numbered(all, BTreeSet::new(), BTreeMap::new())
    }

    /// Those that rows about its seed add to a page on record.
    pub fn of_known(rows: &[&ImportRow], there: &CrossPage) -> Sowings {
        let taken = there.sowings.iter().map(|of| of.code.to_owned());
        let mut by_day = BTreeMap::new();
        for sowing in &there.sowings {
            if let Some(on) = sowing.on {
                by_day.insert(on.to_owned(), sowing.code.to_owned());
            }
        }
        Sowings::numbered(of_rows(rows).collect(), taken.collect(), by_day)
    }

    /// Sowings in the order of their days as they are written, with the next free codes; without a day they come last.
    fn numbered(
        mut all: Vec<NewSowing>,
        mut taken: BTreeSet<String>,
        mut by_day: BTreeMap<String, String>,
    ) -> Sowings {
        all.sort_by_key(|sowing| (sowing.on.is_none(), sowing.on));
        let mut records = Vec::new();
        for sowing in all {
            let mut codes = (1..).map(|number| format!("S{number}"));
            let Some(code) = codes.find(|code| !taken.contains(code)) else {
                continue;
            };
            records.push(sowing.record(&code));
            if let Some(on) = sowing.on {
                by_day.entry(on.to_owned()).or_insert_with(|| code.clone());
            }
            taken.insert(code);
        }
        Sowings { records, by_day }
    }
}

/// The sowings that rows about the seed add.
fn of_rows<'i>(rows: &[&'i ImportRow]) -> impl Iterator<Item = NewSowing<'i>> {
    rows.iter().map(|row| NewSowing {
        on: row.facts.sown.as_deref(),
        facts: Some(&row.facts),
        container: row.facts.pot.as_ref(),
        source: Some(&row.source),
        of_lot: false,
    })
}

impl NewSowing<'_> {
    fn record(&self, code: &str) -> String {
        let seeds = self.facts.and_then(RowFacts::sown_seeds);
        RonRecord::new()
            .text("code", code)
            .text_if("lot", self.of_lot.then_some("L1"))
            .text_if("on", self.on)
            .value_if("seeds", seeds)
            .text_if("container", self.container)
            .value_if("germinated", self.facts.and_then(came_up))
            .text_if("note", self.source)
            .line()
    }
}

/// How many had come up, by the days that headings say, and on the day of the count where the table has it.
fn came_up(facts: &RowFacts) -> Option<String> {
    let on = facts.counted.as_deref().unwrap_or("?");
    let own = facts.germinated.map(|count| (on, count));
    let dated = facts.counts.iter();
    let dated = dated.map(|(on, count)| (on.as_str(), *count));
    let mut all: Vec<(&str, u32)> = dated.chain(own).collect();
    all.sort_by_key(|(on, _)| *on);
    let tallies = all.into_iter().map(|(on, count)| tally(on, count));
    let tallies: Vec<String> = tallies.collect();
    (!tallies.is_empty()).then(|| format!("[{}]", tallies.join(", ")))
}
