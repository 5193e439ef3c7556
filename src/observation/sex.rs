//! Which sex a plant has shown, and how surely.
//!
//! Only open flowers are certain. The shape of buds, a test on a leaf and a supplier's word are guesses: a sample or a
//! label may be of another plant, and buds deceive (common practice, no source).

use crate::record::{Flowering, SeenBy, Sex};
use crate::registry::{PlantRow, Registry};

/// What was seen of a plant's sex.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum SexSeen {
    /// Never flowered on record, or only guesses that differ.
    Unsexed,
    /// Seen on open flowers.
    Certain(Sex),
    /// Guessed from buds or a leaf test, or a supplier's word.
    Guess(Sex, SeenBy),
    /// Open flowers of both sexes on record: check the label first.
    Contradicted,
}

/// One record of a sex.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Sighting {
    /// The sex.
    pub sex: Sex,
    /// How it is known.
    pub seen_by: SeenBy,
    /// Index of the flowering among those of the plant.
    pub flowering: usize,
}

impl Sighting {
    /// Whether it is certain.
    pub fn is_certain(&self) -> bool {
        self.seen_by == SeenBy::Flowers
    }

    /// What it says of the plant when no other is recorded.
    pub fn seen(&self) -> SexSeen {
        match self.is_certain() {
            true => SexSeen::Certain(self.sex),
            false => SexSeen::Guess(self.sex, self.seen_by),
        }
    }
}

/// The sex recorded with the flowering at an index; `None` when it has none.
pub fn sighting(at: usize, flowering: &Flowering) -> Option<Sighting> {
    Some(Sighting {
        sex: flowering.sex?,
        seen_by: flowering.seen_by,
        flowering: at,
    })
}

/// The record that decides a plant's sex: the first on open flowers, else the latest written guess. `None` when none is
/// recorded, or when those that would decide differ.
pub fn sighting_of(registry: &Registry, plant: PlantRow) -> Option<Sighting> {
    let all = || {
        let flowerings = registry.flowerings(plant).iter().enumerate();
        flowerings.filter_map(|(at, flowering)| sighting(at, flowering))
    };
    let first = all().find(Sighting::is_certain);
    let decides = first.or_else(|| all().next_back())?;
    let of_its_kind = all().filter(|seen| seen.is_certain() == decides.is_certain());
    let agree = of_its_kind
        .map(|seen| seen.sex)
        .all(|sex| sex == decides.sex);
    agree.then_some(decides)
}

/// The sex seen on a plant: open flowers outweigh guesses, and guesses that differ say nothing.
pub fn sex_seen(registry: &Registry, plant: PlantRow) -> SexSeen {
    match sighting_of(registry, plant) {
        Some(seen) => seen.seen(),
        None => {
            let mut flowerings = registry.flowerings(plant).iter();
            let in_flower = |f: &Flowering| f.sex.is_some() && f.seen_by == SeenBy::Flowers;
            match flowerings.any(in_flower) {
                true => SexSeen::Contradicted,
                false => SexSeen::Unsexed,
            }
        }
    }
}
