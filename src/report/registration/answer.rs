//! The draft as plain values.

use serde::Serialize;

/// A draft of the form for one clone.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RegistrationReport {
    /// Code of the plant.
    pub id: String,
    /// Its name by its parents.
    pub name: String,
    /// The epithet, written as it should be; none when none was given and none is on record.
    pub epithet: Option<String>,
    /// Whether the epithet was refused.
    pub refused: bool,
    /// What is asked for, in the order of the form.
    pub items: Vec<Item>,
    /// What stands against it, because the plant is no longer here or was raised by somebody else.
    pub away: Option<String>,
    /// Doubts about the species behind it, and about whose the records are.
    pub doubts: Vec<String>,
    /// The day the draft was made.
    pub made: String,
}

/// One thing that is asked for.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Item {
    /// What it is.
    pub asked: &'static str,
    /// What is on record of it, each in one line.
    pub recorded: Vec<String>,
    /// What has to be added by hand; none where the record is enough.
    pub missing: Option<&'static str>,
}
