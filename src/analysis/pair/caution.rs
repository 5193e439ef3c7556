//! What a reader of an intended pollination must keep in mind.

use crate::analysis::kinship::Assumption;
use crate::analysis::names_taken::NamesTaken;
use crate::analysis::set_aside::SetAside;

/// One thing to keep in mind.
#[derive(Clone, Debug, PartialEq)]
pub enum Caution {
    /// Remarks on the seedlings' formula, as naming words them.
    Name(String),
    /// A parent stands elsewhere.
    Elsewhere(End),
    /// Only pollen in hand is left of the pollen parent.
    OnlyPollenLeft(End),
    /// What kinship assumes.
    Kinship(Vec<Assumption>),
    /// Seedlings are inbred.
    Inbred {
        /// How closely.
        degree: Degree,
        /// Whether that depends on who the parents were.
        perhaps: bool,
    },
    /// What the spread assumes.
    Spread,
    /// Names of founders that the spread takes as right, and which may be wrong.
    SpreadByNames(NamesTaken),
    /// That one of the two was mixed up with its own descendants, as naming words it.
    MixedUp(String),
    /// Pods set aside from the spread of traits, by their names.
    SetAside(Vec<(String, SetAside)>),
    /// What the midparent is, and the heritability assumed.
    Midparent(f64),
    /// Whom to ask before anything crosses a border or is sold.
    Border,
}

/// How inbred seedlings are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Degree {
    /// From 1/16.
    Some,
    /// From 1/8.
    Close,
    /// From 1/4.
    VeryClose,
}

/// How a plant came to stand here no more.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct End {
    /// Its code.
    pub plant: String,
    /// Its fate as recorded; `None` when only its pieces are gone.
    pub fate: Option<String>,
    /// Whether it died by itself.
    pub died: bool,
}
