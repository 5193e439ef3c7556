//! What of a record is new to another record of the same thing, and where the two contradict each other.

use crate::recording::written::RonRecord;
use crate::text::Outline;
use crate::text::outline::Kind;

/// Something that another record says and this one does not.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Difference {
    /// A field that says nothing here, or something else.
    Field {
        /// The field.
        field: &'static str,
        /// What it says here.
        here: Option<String>,
        /// What it says there.
        there: String,
    },
    /// An entry of a list that is not here.
    Entry {
        /// The list.
        list: &'static str,
        /// The entry.
        entry: String,
    },
    /// An entry of a list that says something else here.
    Within {
        /// The list.
        list: &'static str,
        /// The field that tells its entries apart, and what it says in this one.
        key: (&'static str, String),
        /// The fields that differ, as here and as there.
        fields: Vec<(&'static str, Option<String>, String)>,
    },
}

/// Lists whose entries have a code, with the field it stands in. Entries of other lists are observations: one more never
/// contradicts those that are there.
const KEYED: [(&str, &str); 6] = [
    ("pollinations", "zone"),
    ("pods", "code"),
    ("seed_lots", "code"),
    ("sowings", "code"),
    ("community_pots", "code"),
    ("ramets", "code"),
];

/// Every field that an entry of these lists may have in a lineage.
const FIELDS: [&str; 27] = [
    "zone",
    "plant",
    "spike",
    "on",
    "flowers",
    "set",
    "counted",
    "covered",
    "control_flowers",
    "control_set",
    "spike_control_flowers",
    "spike_control_set",
    "code",
    "capsules",
    "harvested",
    "seeds",
    "pod",
    "estimated",
    "lot",
    "sowing",
    "one_of",
    "muddled",
    "from",
    "made",
    "cut",
    "rooted",
    "container",
];

/// What another record says that this one does not. What this one says beyond it stays as it is.
pub fn differing(here: &RonRecord, there: &RonRecord) -> Vec<Difference> {
    let mut found = Vec::new();
    for (field, value) in there.fields() {
        let own = here.fields().find(|(name, _)| *name == field);
        let own = own.map(|(_, value)| value);
        if own == Some(value) {
            continue;
        }
        match (own.map(entries), entries(value)) {
            (Some(Some(own)), Some(other)) => listed(field, &own, &other, &mut found),
            _ => found.push(Difference::Field {
                field,
                here: own.map(str::to_owned),
                there: value.to_owned(),
            }),
        }
    }
    found
}

fn listed(list: &'static str, own: &[&str], other: &[&str], found: &mut Vec<Difference>) {
    let key = KEYED
        .iter()
        .find(|(of, _)| *of == list)
        .map(|(_, key)| *key);
    for entry in other.iter().filter(|entry| !own.contains(entry)) {
        let code = key.and_then(|key| Some((key, value_of(entry, key)?)));
        let same = code.as_ref().and_then(|(key, code)| {
            let mut own = own.iter();
            own.find(|own| value_of(own, key).as_ref() == Some(code))
        });
        match (code, same) {
            (Some((key, code)), Some(own)) => {
                let fields = differing_fields(own, entry);
                if !fields.is_empty() {
                    found.push(Difference::Within {
                        list,
                        key: (key, code.trim_matches('"').to_owned()),
                        fields,
                    });
                }
            }
            _ => found.push(Difference::Entry {
                list,
                entry: (*entry).to_owned(),
            }),
        }
    }
}

/// The fields of another entry that say something else, or something this one does not say.
fn differing_fields(own: &str, other: &str) -> Vec<(&'static str, Option<String>, String)> {
    let differ = |field: &'static str| {
        let (here, there) = (value_of(own, field), value_of(other, field)?);
        (here.as_ref() != Some(&there)).then_some((field, here, there))
    };
    FIELDS.into_iter().filter_map(differ).collect()
}

/// The value of a field of a record, as it is written.
fn value_of(record: &str, field: &str) -> Option<String> {
    let outline = Outline::of(record);
    let value = outline.field(outline.root()?, field)?;
    Some(outline.slice(value).to_owned())
}

/// The records in a list; none for a value that is no list of records.
fn entries(value: &str) -> Option<Vec<&str>> {
    let outline = Outline::of(value);
    let root = outline.root()?;
    let is_list = outline.part(root).kind == Kind::List && outline.faults().is_empty();
    let entries: Vec<&str> = outline
        .children(root)
        .map(|entry| outline.slice(entry))
        .collect();
    // A list of codes is one fact.
    let are_records = entries.iter().all(|entry| entry.starts_with('('));
    (is_list && are_records).then_some(entries)
}
