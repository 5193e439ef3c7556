//! What identifies the entries of each list, so that the same entry is recognised on two copies of a page.

use crate::record::Hemisphere;
use crate::recording::says::dates;
use crate::recording::says::value::{Record, Value};
use std::collections::BTreeMap;

/// What a list holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Manner {
    /// Plants and what belongs to a cross: each has a code of its own, and two with one code may be two things.
    Things(&'static str),
    /// Facts, identified by what these fields say together.
    Facts(&'static [&'static str]),
    /// Facts, identified by the first of these fields that is there.
    FirstOf(&'static [&'static str]),
    /// Values that are there or not.
    Set,
    /// Readings, a row for each plant.
    Rows,
    /// One fact as a whole.
    Whole,
}

/// What identifies the entries of a list, by the name of its field.
pub fn manner(list: &str) -> Manner {
    match list {
        "seedlings" => Manner::Things("number"),
        "pollinations" => Manner::Things("zone"),
        "clones" | "lots" | "ramets" | "pods" | "seed_lots" | "sowings" | "community_pots" => {
            Manner::Things("code")
        }
        SPIKES => Manner::FirstOf(&["code", "spike", "opened", "over"]),
        "identified" => Manner::Facts(&["on", "name"]),
        "germinated" | "alive" | "pots" | "came_back" => Manner::Facts(&["on"]),
        "pricked_out" => Manner::Facts(&["on", "to"]),
        "gone" => Manner::Facts(&["count", "fate"]),
        "treatments" => Manner::Facts(&["on", "place", "product"]),
        "photos" => Manner::Facts(&["file"]),
        "muddled" => Manner::Facts(&["on", "with"]),
        "species" | "named_hybrids" | "epithets" => Manner::Facts(&["epithet"]),
        "synonyms" | "places" => Manner::Facts(&["name"]),
        "codes" => Manner::Facts(&["code"]),
        "traits" => Manner::FirstOf(&["code", "of"]),
        "pot_steps" => Manner::Facts(&["from_months"]),
        "sittings" => Manner::Facts(&["on", "place", "method", "by", "pitcher", "light"]),
        "rows" => Manner::Rows,
        "on" | "thawed" | "varieties" | "keep_lines" | "must" | "never" | "shelves" => Manner::Set,
        _ => Manner::Whole,
    }
}

/// Whether the entries of a list have codes under which they are one thing each; a spike may have one.
pub fn has_codes(list: &str) -> bool {
    list == SPIKES || matches!(manner(list), Manner::Things(_))
}

/// The list of a plant's spikes.
pub const SPIKES: &str = "flowerings";

/// The whole code of a spike: that of its plant and its own, such as `Ven1 spike 24a`.
pub fn spike_of(plant: &str, code: &str) -> String {
    format!("{plant} spike {code}")
}

/// Records that are one fact: their fields are never taken from two sides.
pub fn is_one_fact(field: &str) -> bool {
    matches!(field, "kept" | "foreign" | "told_by" | "cultivar")
}

/// Lists whose order says something: of accepted opinions without dates the last counts, and days follow each other.
pub fn is_in_order(list: &str) -> bool {
    matches!(list, "identified" | "on" | "thawed")
}

/// What identifies an entry, in words; `say` says what the value of a field says.
fn key(manner: Manner, entry: &Value, say: &dyn Fn(&str, &Value) -> String) -> String {
    let record = match entry {
        Value::Record(record) => record,
        Value::List(cells) if manner == Manner::Rows => {
            return cells
                .first()
                .and_then(Value::words)
                .unwrap_or("")
                .to_owned();
        }
        entry => return say("", entry),
    };
    let said = match manner {
        Manner::Things(field) => said(record, &[field], say),
        Manner::Facts(fields) => said(record, fields, say),
        Manner::FirstOf(fields) => {
            let first = fields.iter().find(|field| record.get(field).is_some());
            first.map_or(Vec::new(), |first| said(record, &[first], say))
        }
        Manner::Set | Manner::Rows | Manner::Whole => Vec::new(),
    };
    match said.is_empty() {
        true => entry.canonical(),
        false => said.join(" "),
    }
}

fn said(record: &Record, fields: &[&str], say: &dyn Fn(&str, &Value) -> String) -> Vec<String> {
    let said = |field: &&str| Some(say(field, record.get(field)?));
    fields.iter().filter_map(said).collect()
}

/// The keys of a list's entries; where several entries have one key, each further one gets its number.
pub fn keys(manner: Manner, entries: &[Value]) -> Vec<(String, usize)> {
    numbered(manner, entries, &|field, value| {
        // An entry that is a value is known by all of it, the value of a field by its words.
        let words = value.words().filter(|_| !field.is_empty());
        words.map_or_else(|| value.canonical(), str::to_owned)
    })
}

/// The keys of the entries of a list of that name, the same for two spellings of the same days.
pub fn keys_by_days(list: &str, entries: &[Value], hemisphere: Hemisphere) -> Vec<(String, usize)> {
    numbered(manner(list), entries, &|field, value| {
        let field = if field.is_empty() { list } else { field };
        dates::said(field, value, hemisphere)
    })
}

fn numbered(
    manner: Manner,
    entries: &[Value],
    say: &dyn Fn(&str, &Value) -> String,
) -> Vec<(String, usize)> {
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    let numbered = entries.iter().map(|entry| {
        let key = key(manner, entry, say);
        let number = seen.entry(key.clone()).or_default();
        *number += 1;
        (key, *number)
    });
    numbered.collect()
}
