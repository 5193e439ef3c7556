//! What is known of an epithet besides its text.

use crate::naming::vocabulary::Vocabulary;

/// How a plant that is to carry the epithet came to be.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Raised {
    /// It is not asked for a certain plant, or not known.
    #[default]
    NotSaid,
    /// It is the plant that bears the epithet on record, or a cutting, division or laboratory copy of it.
    FromTheClone,
    /// From seed.
    FromSeed,
}

/// What is known besides the text.
#[derive(Clone, Copy, Debug)]
pub struct Context<'v> {
    /// Species, named hybrids, and the cultivar epithets in use in the genus.
    pub vocabulary: &'v Vocabulary,
    /// The text is declared to be a trademark or sales name.
    pub trademark: bool,
    /// The year the epithet was coined; `None` for a new one.
    pub year: Option<i32>,
    /// How the plant came to be.
    pub raised: Raised,
}

impl<'v> Context<'v> {
    /// A new epithet that is no trademark, for no certain plant.
    pub fn new(vocabulary: &'v Vocabulary) -> Self {
        Self {
            vocabulary,
            trademark: false,
            year: None,
            raised: Raised::NotSaid,
        }
    }
}
