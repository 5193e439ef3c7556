//! Pages of crosses: new ones whole, what is new on those there are.

use super::codes::{Begun, Codes};
use super::founders::NewPlant;
use super::parents::parents;
use super::sittings::Sittings;
use super::sowings::Sowings;
use crate::analysis::import::{Import, ImportRow, Kind, RowFacts, RowParents};
use crate::recording::draft::Draft;
use crate::recording::slip::Slip;
use crate::recording::written::{RonRecord, lines, text};
use crate::registry::Registry;
use std::collections::BTreeMap;

/// What comes onto the page of a cross.
#[derive(Default)]
pub(super) struct NewOnPage<'i> {
    /// Seedlings by number, in the order of the rows.
    pub seedlings: Vec<(String, NewPlant<'i>)>,
    /// Readings.
    pub sittings: Sittings,
    /// Rows about its seed that add a sowing.
    pub sowings: Vec<&'i ImportRow>,
    /// The cells of further rows with a remark on it.
    pub sources: Vec<&'i str>,
}

/// A page that is begun, and what comes onto it.
struct NewPage<'p, 'i> {
    import: &'i Import,
    codes: &'p Codes,
    code: &'p str,
    begun: &'p Begun,
    on_page: &'p NewOnPage<'i>,
    /// The row of its own that begins it.
    row: Option<&'i ImportRow>,
    /// Whether that is of seed that came.
    came: bool,
    /// What is known of the cross: by its own row, else by its first seedling, if that names its parents.
    known: Option<&'i RowFacts>,
}

/// The pages that are begun.
fn new_pages<'p, 'i>(
    import: &'i Import,
    codes: &'p Codes,
    pages: &'p BTreeMap<String, NewOnPage<'i>>,
) -> impl Iterator<Item = NewPage<'p, 'i>> {
    codes.crosses.iter().filter_map(move |(code, begun)| {
        let on_page = pages.get(code)?;
        let row = match begun {
            Begun::Row(at) => Some(&import.rows[*at]),
            _ => None,
        };
        let first = on_page.seedlings.first().map(|(_, plant)| plant.facts);
        let facts = row.map(|row| &row.facts).or(first);
        Some(NewPage {
            import,
            codes,
            code,
            begun,
            on_page,
            row,
            came: row.is_some_and(|row| row.kind == Kind::Seed),
            known: facts.filter(|_| !matches!(begun, Begun::Named(_))),
        })
    })
}

/// Writes what comes onto pages of crosses, and begins those that are new.
pub(super) fn write(
    draft: &mut Draft,
    import: &Import,
    codes: &Codes,
    pages: &BTreeMap<String, NewOnPage>,
) -> Result<(), Slip> {
    let registry = draft.registry;
    for page in new_pages(import, codes, pages) {
        draft.new_cross(page.code, &page.record(registry))?;
    }
    for (code, page) in pages {
        let cross = registry.cross(code);
        let Some(cross) = cross.filter(|_| !codes.crosses.contains_key(code)) else {
            continue;
        };
        let sown = Sowings::of_known(&page.sowings, &registry[cross].page);
        let rows = seedlings(code, page, &sown.by_day);
        let text = draft.cross(cross);
        text.append("sowings", &sown.records)?;
        text.append("seedlings", &rows)?;
        text.append("sittings", &page.sittings.records(registry))?;
    }
    Ok(())
}

/// How many sowings come onto pages of crosses.
pub(super) fn sowings(
    registry: &Registry,
    import: &Import,
    codes: &Codes,
    pages: &BTreeMap<String, NewOnPage>,
) -> usize {
    let begun = new_pages(import, codes, pages).map(|page| page.sowings().records.len());
    let known = pages.iter().filter_map(|(code, page)| {
        let there = &registry[registry.cross(code)?].page;
        Some(Sowings::of_known(&page.sowings, there).records.len())
    });
    begun.sum::<usize>() + known.sum::<usize>()
}

/// The rows of seedlings; `sown` are the codes of sowings by their day.
fn seedlings(cross: &str, page: &NewOnPage, sown: &BTreeMap<String, String>) -> Vec<String> {
    let row = |(number, plant): &(String, NewPlant)| {
        let facts = plant.facts;
        let code = format!("{cross}-{number}");
        let own = facts.code.as_ref();
        let name = own.filter(|own| *own != number && **own != code);
        let sowing = facts.sown.as_deref().and_then(|on| sown.get(on));
        let record = RonRecord::new()
            .text("number", number)
            .text_if("sowing", sowing)
            .text_if("place", facts.place.as_ref())
            .text_if("nickname", name);
        plant.parts(record).line()
    };
    page.seedlings.iter().map(row).collect()
}

impl NewPage<'_, '_> {
    /// The page: by a row of its own, or by its seedlings.
    fn record(&self, registry: &Registry) -> RonRecord {
        let sown = self.sowings();
        let rows = seedlings(self.code, self.on_page, &sown.by_day);
        let record = self.made(self.head());
        let record = listed(record, "sowings", &sown.records);
        let record = listed(record, "seedlings", &rows);
        let note = match (self.row, self.begun) {
            (Some(row), _) => row.source.as_str(),
            (None, Begun::Named(_)) => {
                "begun for seedlings in a table that does not say what was crossed"
            }
            (None, _) => "begun for seedlings in a table that names their parents",
        };
        let mut words = vec![note];
        words.extend(&self.on_page.sources);
        let record = record.text("note", &words.join(" "));
        let sittings = self.on_page.sittings.records(registry);
        listed(record, "sittings", &sittings)
    }

    fn sowings(&self) -> Sowings {
        let has_lot = |facts| self.came || has_lot(facts);
        let has_lot = self.known.is_some_and(has_lot);
        let of_seedlings = self.on_page.seedlings.iter();
        let days = of_seedlings.filter_map(|(_, plant)| plant.facts.sown.as_deref());
        // Where a seedling's row begins the page, its pot is the seedling's own.
        let container = self.row.and_then(|row| row.facts.pot.as_ref());
        Sowings::of_new(
            (self.known, container, has_lot),
            &self.on_page.sowings,
            days,
        )
    }

    /// Code, parents and label.
    fn head(&self) -> RonRecord {
        let named = match self.begun {
            Begun::Family(family) => {
                let mut coming = self.import.coming().map(|(_, row)| row);
                coming.find(|row| row.kind == Kind::SeedlingOf(family.clone()))
            }
            _ => self.row,
        };
        let label = self.row.and_then(|row| row.facts.label.clone());
        let who = match named {
            _ if self.came => RowParents {
                label: label.clone(),
                ..RowParents::default()
            },
            Some(row) => row.parents.clone(),
            None => RowParents::default(),
        };
        let (parents, confidence) = parents(&who, self.codes);
        // Words that name no parents for sure are all there is of them.
        let unread = named.and_then(|row| row.facts.both_parents.clone());
        let label = label.or(unread.filter(|_| parents == "unknown"));
        RonRecord::new()
            .text("code", self.code)
            .value("parents", parents)
            .value("confidence", confidence)
            .text_if("received", label)
            .text_if("from", self.row.and_then(|row| row.facts.supplier.as_ref()))
    }

    /// What was done to make it: the pollination, or the packet that came.
    fn made(&self, record: RonRecord) -> RonRecord {
        let Some(facts) = self.known else {
            return record;
        };
        let record = listed(record, "pollinations", &pollination(facts));
        let record = listed(record, "pods", &pod(facts, self.came));
        listed(record, "seed_lots", &seed_lot(facts, self.came))
    }
}

/// The pollination of a row, if it says when, or that no pod came of it.
fn pollination(facts: &RowFacts) -> Vec<String> {
    let on = facts.pollinated.as_deref();
    let none_set = facts.pods == Some(0);
    let record = RonRecord::new()
        .text("zone", "A")
        .value_if("on", on.map(|on| format!("[{}]", text(on))))
        .value_if("set", none_set.then_some(0));
    let is_there = on.is_some() || none_set;
    is_there.then(|| record.line()).into_iter().collect()
}

/// The pod of a row, or the packet that came. Of a cross none is written where the table has nothing but seed: it may be of
/// several pods. Seed of several capsules is that of the lot, and of none of them.
fn pod(facts: &RowFacts, came: bool) -> Vec<String> {
    let counted = facts.seeds.filter(|seeds| !seeds.estimated);
    let number = counted.and_then(|seeds| seeds.number);
    let record = RonRecord::new().text("code", "P1");
    // Seed of which the row says neither when nor from whom it came may be the grower's own.
    let is_bought = facts.acquired.is_some() || facts.supplier.is_some();
    let record = match came {
        true => record
            .value_if("seeds", number)
            .text_if("note", is_bought.then_some("the packet as it came")),
        false => record
            .value_if("capsules", facts.pods)
            .text_if("harvested", facts.harvested.as_ref())
            .value_if("seeds", number.filter(|_| facts.pods == Some(1))),
    };
    let is_there = came || has_pod(facts);
    is_there.then(|| record.line()).into_iter().collect()
}

fn has_pod(facts: &RowFacts) -> bool {
    facts.pods.is_some_and(|pods| pods > 0) || facts.harvested.is_some() && facts.pods != Some(0)
}

/// The seed of a row. What is left of it is not known without a column that says it, unless it was sown.
fn seed_lot(facts: &RowFacts, came: bool) -> Vec<String> {
    let on = facts.acquired.as_ref().filter(|_| came);
    let number = facts.seed_number();
    let is_open = !facts.is_sown() && number != Some(0);
    let unknown = is_open.then_some("not known from the table");
    let record = RonRecord::new()
        .text("code", "L1")
        .text_if("pod", (came || has_pod(facts)).then_some("P1"))
        .value_if("seeds", number);
    let estimated = facts.seeds.is_some_and(|seeds| seeds.estimated);
    let record = record
        .value_if("estimated", estimated.then_some("true"))
        .text_if("came", on)
        .text_if("left", facts.left.as_deref().or(unknown));
    let is_there = came || has_lot(facts);
    is_there.then(|| record.line()).into_iter().collect()
}

/// Whether there was seed: it was counted, some is left, or its pods were harvested.
fn has_lot(facts: &RowFacts) -> bool {
    facts.seeds.is_some() || facts.left.is_some() || has_pod(facts)
}

fn listed(record: RonRecord, name: &'static str, values: &[String]) -> RonRecord {
    match values.is_empty() {
        true => record,
        false => record.value(name, lines(values)),
    }
}
