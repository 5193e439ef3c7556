//! What a newer lineage changes on a record that was taken in before, and which of two words stays.

use super::same::Difference;
use super::take_in::{Keep, TakeIn, Taken};
use crate::recording::page::{At, FieldChange, Within};

impl TakeIn<'_, '_> {
    /// The changes to a record taken in before; what contradicts it is kept apart where neither is to stay.
    pub(super) fn settled(
        &self,
        code: &str,
        differ: Vec<Difference>,
        taken: &mut Taken,
    ) -> Vec<FieldChange> {
        let mut changes = Vec::new();
        for difference in differ {
            match difference {
                Difference::Entry { list, entry } => changes.push(FieldChange::Push(list, entry)),
                Difference::Gone { list, at, entry } => {
                    let about = (code.to_owned(), list);
                    if self.gives_way(about, (Some(&entry), None), taken) {
                        changes.push(FieldChange::RemoveEntry(list, At::Index(at)));
                    }
                }
                Difference::Field { field, here, there } => {
                    let about = (code.to_owned(), field);
                    if self.gives_way(about, (here.as_deref(), there.as_deref()), taken) {
                        changes.push(set(field, there));
                    }
                }
                Difference::Within {
                    list,
                    at,
                    of,
                    fields,
                } => {
                    let about = format!("{code}, {list} {of}");
                    let fields = fields.into_iter().filter(|(field, here, there)| {
                        let words = (here.as_deref(), there.as_deref());
                        self.gives_way((about.clone(), field), words, taken)
                    });
                    // One after the other: each finds the entry as the last one left it.
                    changes.extend(fields.map(|(field, _, there)| {
                        FieldChange::Within(Within {
                            list,
                            at: at.clone(),
                            changes: vec![set(field, there)],
                        })
                    }));
                }
            }
        }
        taken.changed |= !changes.is_empty();
        changes
    }

    /// Whether what a field says here gives way to what it says there; it does where it says nothing.
    fn gives_way(
        &self,
        (about, field): (String, &str),
        (here, there): (Option<&str>, Option<&str>),
        taken: &mut Taken,
    ) -> bool {
        let Some(here) = here else {
            return true;
        };
        let there = there.unwrap_or("nothing");
        let both = format!("{about}, {field}: here {here}, in the lineage {there}");
        match self.keep {
            Keep::Neither => taken.contradictions.push(both),
            Keep::Ours | Keep::Theirs => taken.settled.push(both),
        }
        self.keep == Keep::Theirs
    }
}

/// Gives a field a value, or takes it out.
fn set(field: &'static str, value: Option<String>) -> FieldChange {
    match value {
        Some(value) => FieldChange::Set(field, value),
        None => FieldChange::Remove(field),
    }
}
