//! What is said of the descent of plants whose parents are not recorded: a species, a label's formula, or nothing.

use std::collections::BTreeMap;

use crate::lineage::PlantRow;

use super::composition::{Composition, TooDeep};
use super::part::Part;

/// The descent of a founder, as received.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub enum FounderDescent {
    /// A plant of a species, by the caller's number.
    Species(u32),
    /// A hybrid received under a label: what came through its seed parent and what through its pollen parent.
    /// Where only the shares as a whole are stated, give the same composition twice.
    Sides(Box<[Composition; 2]>),
    /// A hybrid received under a Latin name alone: its composition if the name is right. In which generation it stands
    /// and what came through which parent is not known.
    Named(Box<Composition>),
    /// Nothing is known.
    #[default]
    Unknown,
}

impl FounderDescent {
    /// What came through the seed parent and through the pollen parent.
    pub fn sides(&self) -> [Composition; 2] {
        let both = |part| [Composition::pure(part), Composition::pure(part)];
        match self {
            Self::Species(species) => both(Part::Species(*species)),
            Self::Sides(sides) => (**sides).clone(),
            Self::Named(whole) => [(**whole).clone(), (**whole).clone()],
            Self::Unknown => both(Part::Unknown),
        }
    }

    /// The founder's own composition.
    ///
    /// # Errors
    /// [`TooDeep`] when a label's sides cannot be averaged within the limit.
    pub fn composition(&self) -> Result<Composition, TooDeep> {
        match self {
            Self::Species(species) => Ok(Composition::pure(Part::Species(*species))),
            Self::Unknown => Ok(Composition::pure(Part::Unknown)),
            Self::Sides(sides) => Composition::offspring(&sides[0], &sides[1]),
            Self::Named(whole) => Ok((**whole).clone()),
        }
    }
}

/// The founders of whose descent something is known; all others are unknown.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Founders(BTreeMap<PlantRow, FounderDescent>);

impl Founders {
    /// What is known of a founder.
    pub fn descent(&self, founder: PlantRow) -> &FounderDescent {
        self.0.get(&founder).unwrap_or(&FounderDescent::Unknown)
    }
}

impl FromIterator<(PlantRow, FounderDescent)> for Founders {
    fn from_iter<I: IntoIterator<Item = (PlantRow, FounderDescent)>>(stated: I) -> Self {
        Self(stated.into_iter().collect())
    }
}
