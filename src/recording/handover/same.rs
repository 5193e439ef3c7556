//! What of a record is new to another record of the same thing, and where the two contradict each other.

use crate::recording::written::RonRecord;
use crate::text::Outline;
use crate::text::outline::Kind;

/// A field in which two records are not the same.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Difference {
    /// The field.
    pub field: &'static str,
    /// What it says here; none where it says nothing yet.
    pub here: Option<String>,
    /// What the other record says.
    pub there: String,
}

/// The fields of another record that say something this one does not. A list that holds all of the other's is no
/// difference: entries made here since then stay.
pub fn differing(here: &RonRecord, there: &RonRecord) -> Vec<Difference> {
    let difference = |(field, value): (&'static str, &str)| {
        let own = here.fields().find(|(name, _)| *name == field);
        let own = own.map(|(_, value)| value);
        match own {
            Some(own) if own == value || holds(own, value) => None,
            own => Some(Difference {
                field,
                here: own.map(str::to_owned),
                there: value.to_owned(),
            }),
        }
    };
    there.fields().filter_map(difference).collect()
}

/// Whether a list holds every entry of another one.
fn holds(own: &str, other: &str) -> bool {
    match (entries(own), entries(other)) {
        (Some(own), Some(other)) => other.iter().all(|entry| own.contains(entry)),
        _ => false,
    }
}

/// The entries of a list; none for a value that is no list.
fn entries(value: &str) -> Option<Vec<&str>> {
    let outline = Outline::of(value);
    let root = outline.root()?;
    let is_list = outline.part(root).kind == Kind::List && outline.faults().is_empty();
    is_list.then(|| {
        outline
            .children(root)
            .map(|entry| outline.slice(entry))
            .collect()
    })
}
