//! The plants, one row of 12 bytes each: founders first, then unseen parents, then the seedlings.

use super::row_types::{CrossRow, PlantRow};

/// What a plant is on record as.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum PlantKind {
    /// A clone that came from elsewhere.
    Founder,
    /// A parent known only by a species or a label, or a sibling whose number was lost.
    Unseen,
    /// A numbered seedling.
    Seedling,
}

/// One row.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plant {
    /// Index of its founder, unseen plant or cross.
    pub record_index: u32,
    /// Index of a seedling on the page of its cross.
    pub local: u32,
    /// Index of its origin, or [`Plant::FOUNDER`]; [`Plant::UNSEEN`] is added for an unseen plant.
    pub origin: u32,
}

const _: () = assert!(size_of::<Plant>() <= 12);

impl Plant {
    /// The origin of a plant whose parents are not recorded.
    pub const FOUNDER: u32 = u32::MAX;
    /// `local` of a founder.
    pub const IS_FOUNDER: u32 = u32::MAX;
    /// `local` of an unseen plant.
    pub const IS_UNSEEN: u32 = u32::MAX - 1;

    pub fn kind(self) -> PlantKind {
        match self.local {
            Plant::IS_FOUNDER => PlantKind::Founder,
            Plant::IS_UNSEEN => PlantKind::Unseen,
            _ => PlantKind::Seedling,
        }
    }
}

/// A parent without a record of its own, called unseen: known by a species, a label, or as some seedling of a cross.
#[derive(Clone, Debug)]
pub struct Unseen<'t> {
    /// The cross it is a parent of.
    pub cross: CrossRow,
    /// Whether it is the seed parent there.
    pub bore_the_seed: bool,
    /// What is known of it.
    pub known_by: KnownBy<'t>,
    /// Its row.
    pub row: PlantRow,
}

/// What is known of an unseen parent.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum KnownBy<'t> {
    /// A species.
    Species(&'t str),
    /// One side of the label of its cross; the label is read by `naming`.
    Label,
    /// Some seedling of this cross, its number lost.
    SeedlingOf(CrossRow),
}
