//! A label and its value.

use serde::Serialize;

/// A label and its value.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Fact {
    /// The label.
    pub label: &'static str,
    /// The value.
    pub value: String,
}

/// A label with its value, where there is one.
pub(super) fn fact(label: &'static str, value: Option<impl Into<String>>) -> Option<Fact> {
    value.map(|value| Fact {
        label,
        value: value.into(),
    })
}

impl Fact {
    /// As a sheet takes it.
    pub(super) fn told(&self) -> (&'static str, Option<String>) {
        (self.label, Some(self.value.clone()))
    }
}
