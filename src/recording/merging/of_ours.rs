//! What another grower recorded on a cross of ours. Readings and opinions say who made them, so they come in as that
//! grower's; flowers, photos, pods and seed have no place for it, so they stay there and are counted.

use super::let_go::day_of;
use crate::record::{Hemisphere, When};
use crate::recording::says::dates::is_date;
use crate::recording::says::value::{Record, Value};
use std::collections::{BTreeMap, BTreeSet};

/// What of a cross or a plant stayed with the other grower.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Stayed {
    /// The cross or the plant, by its code here.
    pub of: String,
    /// How many of what, in the singular.
    pub what: Vec<(usize, &'static str)>,
}

/// Who the two growers are.
#[derive(Clone, Copy)]
pub struct Growers<'n> {
    /// Our half of the world, in which dates are read.
    pub hemisphere: Hemisphere,
    /// What ours is called there.
    pub us: &'n str,
    /// What theirs is called here.
    pub by: &'n str,
}

/// Parts of a cross that stay there.
const PARTS: [(&str, &str); 5] = [
    ("pollinations", "pollination"),
    ("pods", "pod"),
    ("seed_lots", "seed lot"),
    ("sowings", "sowing"),
    ("community_pots", "community pot"),
];

/// What is on record of a seedling that stays there.
const OF_SEEDLING: [(&str, &str); 6] = [
    ("flowerings", "flowering"),
    ("photos", "photo"),
    ("pots", "potting"),
    ("treatments", "treatment"),
    ("ramets", "piece"),
    ("muddled", "mix-up"),
];

/// Fields that make a seedling the one it is: two that differ in one are two plants.
const ORIGIN: [&str; 4] = ["sowing", "pod", "community_pot", "one_of"];

/// Leaves on their page what comes in, and counts what stays there; `own` is our page.
pub fn of_ours(page: &mut Record, own: &Record, growers: Growers) -> Vec<(usize, &'static str)> {
    let mut stayed = Counts::default();
    for (list, one) in PARTS {
        let new = page
            .records(list)
            .filter(|part| !growers.known(part, own, list));
        stayed.add(new.count(), one);
    }
    let (theirs, new) = same_seedlings(page, own);
    stayed.add(new, "seedling");
    // Each of ours is named: one that is not would count as taken out there.
    let seedlings = own.records("seedlings").map(|known| {
        let there = known.text("number").and_then(|number| theirs.get(number));
        growers.seedling(there.copied(), known, &mut stayed)
    });
    let seedlings: Vec<Value> = seedlings.map(Value::Record).collect();
    let sittings = growers.sittings(page, own, &mut stayed);
    let mut comes = Record::default();
    comes.set("code", page.get("code").cloned());
    comes.set_list("seedlings", seedlings);
    comes.set_list("sittings", sittings);
    *page = comes;
    stayed.0
}

#[derive(Default)]
struct Counts(Vec<(usize, &'static str)>);

impl Counts {
    fn add(&mut self, count: usize, one: &'static str) {
        match self.0.iter_mut().find(|of| of.1 == one) {
            Some(of) => of.0 += count,
            None if count > 0 => self.0.push((count, one)),
            None => {}
        }
    }
}

/// Whether a field of a seedling is counted entry by entry, or comes in.
fn is_listed(field: &str) -> bool {
    let lists = OF_SEEDLING.iter().map(|of| of.0);
    lists.chain(["number", "identified"]).any(|of| of == field)
}

/// What of a plant or a cross stays there; none where nothing does.
fn stayed(of: &str, one: &'static str, count: usize) -> Option<Stayed> {
    (count > 0).then(|| Stayed {
        of: of.to_owned(),
        what: vec![(count, one)],
    })
}

/// The plant that a row of a sitting is about.
fn plant_of(row: &Value) -> &str {
    let first = row.list().first().and_then(Value::words);
    first.unwrap_or_default()
}

/// Whether a text names a piece of the plant that another names.
fn is_piece_of(piece: &str, plant: &str) -> bool {
    let rest = piece.strip_prefix(plant.trim_end_matches('"'));
    rest.is_some_and(|rest| rest.starts_with('-'))
}

/// By what an opinion is known again.
fn what_and_when(opinion: &Record) -> [Option<&str>; 2] {
    [opinion.text("on"), opinion.text("name")]
}

/// Seedlings there that are ours, by their numbers, and how many are not: ours has the number and comes from the same seed.
fn same_seedlings<'r>(page: &'r Record, own: &Record) -> (BTreeMap<&'r str, &'r Record>, usize) {
    let known: BTreeMap<&str, &Record> = own.by_text("seedlings", "number").collect();
    let is_same = |there: &Record, here: &Record| {
        let differs = |field: &&str| {
            let both = there.get(field).zip(here.get(field));
            both.is_some_and(|(there, here)| there != here)
        };
        !ORIGIN.iter().any(differs)
    };
    let mut same = BTreeMap::new();
    let mut new = 0;
    for seedling in page.records("seedlings") {
        let number = seedling.text("number").unwrap_or_default();
        match known.get(number).filter(|here| is_same(seedling, here)) {
            Some(_) => drop(same.insert(number, seedling)),
            None => new += 1,
        }
    }
    (same, new)
}

impl Growers<'_> {
    /// A seedling of ours by its number, with their opinions on it.
    fn seedling(&self, there: Option<&Record>, here: &Record, stayed: &mut Counts) -> Record {
        let mut comes = Record::default();
        comes.set("number", here.get("number").cloned());
        let Some(there) = there else {
            return comes;
        };
        for (list, one) in OF_SEEDLING {
            let new = there.records(list).filter(|of| !self.known(of, here, list));
            stayed.add(new.count(), one);
        }
        // Where it comes from agrees; a lineage writes out what followed from other fields here.
        let fields = there.fields().filter(|of| !ORIGIN.contains(&of.0));
        for (field, value) in fields.filter(|of| !is_listed(of.0)) {
            let is_new = !self.known_field(field, value, here);
            let one = if field == "fate" {
                "fate"
            } else {
                "other field"
            };
            stayed.add(usize::from(is_new), one);
        }
        comes.set("identified", there.get("identified").cloned());
        self.opinions(&mut comes, Some(here));
        comes
    }

    /// Leaves their opinions on a plant of ours, each as theirs. What they accept they accept for themselves.
    pub fn opinions(&self, plant: &mut Record, here: Option<&Record>) {
        let own = here.into_iter().flat_map(|of| of.records("identified"));
        let own = own.filter(|of| !self.is_told(of)).map(what_and_when);
        let own: BTreeSet<_> = own.collect();
        plant.retain("identified", |of| !own.contains(&what_and_when(of)));
        plant.each("identified", |opinion| {
            opinion.set("accepted", None);
            self.tell(opinion);
        });
    }

    /// Whether it came from them.
    fn is_told(&self, record: &Record) -> bool {
        let by = record.text("by").unwrap_or_default();
        by == self.by || by.starts_with(&format!("{}, ", self.by))
    }

    /// Their sittings, with the rows of plants that are on record here.
    fn sittings(&self, page: &Record, own: &Record, stayed: &mut Counts) -> Vec<Value> {
        let seedlings = own.by_text("seedlings", "number");
        let numbers: BTreeSet<&str> = seedlings.map(|(number, _)| number).collect();
        let mut sittings = Vec::new();
        for sitting in page.records("sittings") {
            if self.known(sitting, own, "sittings") {
                continue;
            }
            if sitting.get("by").is_none() {
                stayed.add(1, "sitting without a reader");
                continue;
            }
            let mut sitting = sitting.clone();
            self.tell(&mut sitting);
            let rows = sitting.list("rows").iter();
            let here = rows.filter(|row| {
                let plant = plant_of(row);
                numbers.contains(plant) || plant.contains('-')
            });
            let here: Vec<Value> = here.cloned().collect();
            if !here.is_empty() {
                sitting.set("rows", Some(Value::List(here)));
                sittings.push(Value::Record(sitting));
            }
        }
        sittings
    }

    /// Takes off a page of theirs what came from us: what we said of their plants, and read of them.
    pub fn without_ours(&self, page: &mut Record) {
        page.retain("sittings", |of| !self.is_ours(of));
        for plants in ["clones", "seedlings"] {
            page.each(plants, |plant| {
                plant.retain("identified", |of| !self.is_ours(of));
            });
        }
    }

    /// Whether it came from us: we are named as the one who said it, or its place is one of ours.
    fn is_ours(&self, record: &Record) -> bool {
        let place = format!("{}, {}, ", self.by, self.us);
        let by = record.text("by").unwrap_or_default();
        let role = by.strip_prefix(self.us).map(|rest| rest.starts_with(", "));
        (!self.us.is_empty() && (by == self.us || role == Some(true)))
            || record
                .text("place")
                .is_some_and(|of| of.starts_with(&place))
    }

    /// Takes off a plant what was seen of its flowers there, and counts what is not on record here. Where both growers have
    /// pieces of a plant, a spike there is none of those here, whatever its code.
    pub fn flowerings_stay(&self, plant: &mut Record, here: Option<&Record>) -> Option<Stayed> {
        let new = plant.records("flowerings");
        let new = new.filter(|of| !here.is_some_and(|here| self.known(of, here, "flowerings")));
        let count = new.count();
        plant.set("flowerings", None);
        stayed(plant.text("code")?, "flowering", count)
    }

    /// Readings of founders of ours: each is by their grower, and those without a reader stay there. Of these the ones that are
    /// not on record here are counted; `own` is our page.
    pub fn readings_of(
        &self,
        (founders, own): (&BTreeSet<String>, Option<&Record>),
        page: &mut Record,
    ) -> Vec<Stayed> {
        let mut count: BTreeMap<String, usize> = BTreeMap::new();
        page.each("sittings", |sitting| {
            let rows = sitting.list("rows");
            let (of_ours, others): (Vec<&Value>, Vec<&Value>) = rows
                .iter()
                .partition(|row| founders.contains(plant_of(row)));
            if of_ours.is_empty() {
                return;
            }
            if sitting.get("by").is_some() {
                return self.tell(sitting);
            }
            let mut one = sitting.clone();
            for row in of_ours {
                one.set("rows", Some(Value::List(vec![row.clone()])));
                if own.is_some_and(|own| self.known(&one, own, "sittings")) {
                    continue;
                }
                *count.entry(plant_of(row).to_owned()).or_default() += 1;
            }
            let others: Vec<Value> = others.into_iter().cloned().collect();
            sitting.set_list("rows", others);
        });
        page.retain("sittings", |sitting| sitting.get("rows").is_some());
        let count = count.into_iter();
        let stays = |(of, count): (String, usize)| stayed(&of, "reading without a reader", count);
        count.filter_map(stays).collect()
    }

    /// Whether a place is one of ours.
    pub fn is_our_place(&self, row: &Record) -> bool {
        let name = row.text("name").unwrap_or_default();
        name.starts_with(&format!("{}, {}, ", self.by, self.us))
    }

    /// Names their grower beside whoever said it there; who is "me" there is that grower alone.
    fn tell(&self, record: &mut Record) {
        let by = match record.text("by") {
            None | Some("me") => self.by.to_owned(),
            Some(other) => format!("{}, {other}", self.by),
        };
        record.set("by", Some(Value::Plain(format!("\"{by}\""))));
    }

    fn known(&self, there: &Record, here: &Record, list: &str) -> bool {
        let there = Value::Record(there.clone());
        let mut own = here.list(list).iter();
        own.any(|own| self.says_as_much("", own, &there))
    }

    fn known_field(&self, field: &str, there: &Value, here: &Record) -> bool {
        let here = here.get(field);
        // What stands with us is elsewhere there.
        let elsewhere = *there == Value::Plain("elsewhere".to_owned());
        elsewhere || here.is_some_and(|here| self.says_as_much(field, here, there))
    }

    /// Whether two dates can mean the same days, whatever form they are written in.
    fn same_days(&self, here: &str, there: &str) -> bool {
        let days = |words: &str| When::read(words.trim_matches('"'), self.hemisphere);
        days(here).is_ok_and(|here| days(there) == Ok(here))
    }

    /// Whether ours says all that theirs says.
    fn says_as_much(&self, field: &str, here: &Value, there: &Value) -> bool {
        match (here, there) {
            (Value::Record(here), Value::Record(there)) => there.fields().all(|(name, there)| {
                let here = here.get(name);
                // A lineage writes out how a sex is known where nothing else is said.
                let by_flowers = || name == "seen_by" && there.words() == Some("flowers");
                here.map_or_else(by_flowers, |here| self.says_as_much(name, here, there))
            }),
            (Value::List(here), Value::List(there)) => there.iter().all(|there| {
                let mut here = here.iter();
                here.any(|here| self.says_as_much("", here, there))
            }),
            (Value::Plain(here), Value::Plain(there)) => match field {
                // Pieces of ours have no codes there.
                "plant" => here == there || is_piece_of(here, there),
                "place" => there.replacen(&format!("{}, {}, ", self.by, self.us), "", 1) == *here,
                date if is_date(date) => here == there || self.same_days(here, there),
                "fate" | "left" => here == there || day_of(here) == *there,
                "by" if here == "\"me\"" => there.trim_matches('"') == self.us,
                _ => here == there,
            },
            _ => false,
        }
    }
}
