//! What a record and another record of the same thing say otherwise, and so where the two contradict each other.

use crate::recording::page::At;
use crate::recording::written::RonRecord;
use crate::text::Outline;
use crate::text::outline::Kind;

/// Something that one of two records says otherwise than the other.
#[derive(Clone, Debug)]
pub enum Difference {
    /// A field that says something else, or that only one of the two has.
    Field {
        /// The field.
        field: &'static str,
        /// What it says here.
        here: Option<String>,
        /// What it says there.
        there: Option<String>,
    },
    /// An entry of a list that is not here.
    Entry {
        /// The list.
        list: &'static str,
        /// The entry.
        entry: String,
    },
    /// An entry of a list that is not there.
    Gone {
        /// The list.
        list: &'static str,
        /// Its place in the list here, from 0.
        at: usize,
        /// The entry.
        entry: String,
    },
    /// An entry of a list that says something else here.
    Within {
        /// The list.
        list: &'static str,
        /// Its place in the list here.
        at: At,
        /// What tells it apart from the others, in words.
        of: String,
        /// The fields that differ, as here and as there.
        fields: Vec<FieldsDiffer>,
    },
}

/// A field with what it says here and there.
pub type FieldsDiffer = (&'static str, Option<String>, Option<String>);

/// A list whose entries are known again.
struct Known {
    list: &'static str,
    /// The fields that tell its entries apart: of two entries the first of these that both have the last field of.
    keys: &'static [&'static [&'static str]],
    /// Whether its entries come from the other grower alone: then one that the newer lineage lacks is a contradiction.
    is_told: bool,
}

/// The lists whose entries are known again; pieces are made, and take root, where the plant stands. A spike without a code is
/// known by its first day.
const KNOWN: [Known; 9] = [
    told("pollinations", &[&["zone"]]),
    told("pods", &[&["code"]]),
    told("seed_lots", &[&["code"]]),
    told("sowings", &[&["code"]]),
    told("community_pots", &[&["code"]]),
    told("identified", &[&["on", "name"]]),
    told("muddled", &[&["on", "with"]]),
    told(
        "flowerings",
        &[
            &["ramet", "code"],
            &["ramet", "opened"],
            &["ramet", "spike"],
            &["ramet", "over"],
        ],
    ),
    Known {
        list: "ramets",
        keys: &[&["code"]],
        is_told: false,
    },
];

const fn told(list: &'static str, keys: &'static [&'static [&'static str]]) -> Known {
    Known {
        list,
        keys,
        is_told: true,
    }
}

/// A code of the plant in another registry: each grower knows others.
const OF_EITHER: &str = "foreign";

/// Every field that an entry of these lists may have in a lineage, with strokes between.
const FIELDS: &str = "zone | plant | spike | on | pollen_told_by | flowers | set | counted | covered | control_flowers | \
    control_set | spike_control_flowers | spike_control_set | spike_control_by_days | spike_control_covered | same_flowers | \
    code | opened | over | sex | seen_by | ramet | capsules | harvested | seeds | pod | estimated | lot | sowing | one_of | muddled | from | made | cut | rooted | container | name | basis | \
    confidence | accepted | with | settled | one_of_before";

/// What the two say otherwise.
pub fn differing(here: &RonRecord, there: &RonRecord) -> Vec<Difference> {
    let own = |field: &str| value_in(here, field);
    let mut found = Vec::new();
    for (field, value) in there.fields() {
        if own(field) != Some(value) {
            one_field(field, (own(field), Some(value)), &mut found);
        }
    }
    let only_here = here.fields().filter(|of| value_in(there, of.0).is_none());
    for (field, value) in only_here.filter(|of| of.0 != OF_EITHER) {
        one_field(field, (Some(value), None), &mut found);
    }
    found
}

fn value_in<'r>(record: &'r RonRecord, field: &str) -> Option<&'r str> {
    let mut fields = record.fields();
    fields.find(|of| of.0 == field).map(|of| of.1)
}

fn one_field(
    field: &'static str,
    (here, there): (Option<&str>, Option<&str>),
    found: &mut Vec<Difference>,
) {
    let listed_in = |value: Option<&str>| value.map_or(Some(Vec::new()), entries);
    match (listed_in(here), listed_in(there)) {
        // What was never here comes as it is.
        (Some(own), Some(other)) if here.is_some() => listed(field, &own, &other, found),
        _ => found.push(Difference::Field {
            field,
            here: here.map(str::to_owned),
            there: there.map(str::to_owned),
        }),
    }
}

fn listed(list: &'static str, own: &[String], other: &[String], found: &mut Vec<Difference>) {
    let known = KNOWN.iter().find(|of| of.list == list);
    let mut met = vec![false; own.len()];
    for entry in other {
        let same = own.iter().position(|own| own == entry);
        let alike = || {
            let alike = |(at, own): &(usize, &String)| {
                !met[*at] && !other.contains(own) && key_of_both(known, own, entry).is_some()
            };
            let mut own = own.iter().enumerate();
            own.find(alike).map(|of| of.0)
        };
        let Some(at) = same.or_else(alike) else {
            let entry = entry.clone();
            found.push(Difference::Entry { list, entry });
            continue;
        };
        met[at] = true;
        let is_told = known.is_some_and(|known| known.is_told);
        let fields = differing_fields(&own[at], entry, is_told);
        if !fields.is_empty() {
            let key = key_of_both(known, &own[at], entry).unwrap_or_default();
            let of = shown(key.iter().map(|field| value_of(entry, field)));
            found.push(Difference::Within {
                list,
                at: place(known, &own[at], at),
                of,
                fields,
            });
        }
    }
    if known.is_some_and(|known| known.is_told) {
        let gone = own.iter().enumerate().filter(|(at, _)| !met[*at]);
        // From the last to the first: the places of those before stay.
        found.extend(gone.rev().map(|(at, entry)| Difference::Gone {
            list,
            at,
            entry: entry.clone(),
        }));
    }
}

/// The fields by which two entries are the same one; `None` where they are not, or where neither can be told.
fn key_of_both(known: Option<&Known>, own: &str, other: &str) -> Option<&'static [&'static str]> {
    let both_have = |fields: &&&[&str]| {
        let last = fields.last();
        last.is_some_and(|last| value_of(own, last).and(value_of(other, last)).is_some())
    };
    let decides = known?.keys.iter().find(both_have)?;
    let are_equal = |field: &&str| value_of(own, field) == value_of(other, field);
    decides.iter().all(are_equal).then_some(decides)
}

/// Where an entry is found on the page: by its code, where it has one.
fn place(known: Option<&Known>, entry: &str, at: usize) -> At {
    let code = known.and_then(|known| match known.keys {
        [[key]] => Some(At::Key(key, shown([value_of(entry, key)]))),
        _ => None,
    });
    code.unwrap_or(At::Index(at))
}

/// Values in words.
fn shown(values: impl IntoIterator<Item = Option<String>>) -> String {
    let values = values.into_iter().flatten();
    let values: Vec<String> = values
        .map(|value| value.replace(['"', '[', ']'], ""))
        .collect();
    values.join(", ")
}

/// The fields of another entry that say something else, or something this one does not say; with `both_ways` also those that
/// only this one has.
fn differing_fields(own: &str, other: &str, both_ways: bool) -> Vec<FieldsDiffer> {
    let differ = |field: &'static str| {
        let (here, there) = (value_of(own, field), value_of(other, field));
        let says = both_ways || there.is_some();
        (says && here != there).then_some((field, here, there))
    };
    FIELDS.split(" | ").filter_map(differ).collect()
}

/// The value of a field of a record, as it is written.
fn value_of(record: &str, field: &str) -> Option<String> {
    let outline = Outline::of(record);
    let value = outline.field(outline.root()?, field)?;
    Some(outline.slice(value).to_owned())
}

/// The records in a list; none for a value that is no list of records.
fn entries(value: &str) -> Option<Vec<String>> {
    let outline = Outline::of(value);
    let root = outline.root()?;
    let is_list = outline.part(root).kind == Kind::List && outline.faults().is_empty();
    let entries: Vec<String> = outline
        .children(root)
        .map(|entry| outline.slice(entry).to_owned())
        .collect();
    // A list of codes is one fact.
    let are_records = entries.iter().all(|entry| entry.starts_with('('));
    (is_list && are_records).then_some(entries)
}
