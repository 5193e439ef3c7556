//! A mix-up as one of its plants has it.

use super::row_types::{PlantRow, PotRow};
use crate::record::Muddle;

/// What can be mixed up.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum MixedUp {
    /// A seedling.
    Plant(PlantRow),
    /// A community pot.
    Pot(PotRow),
}

impl MixedUp {
    /// The plant; `None` for a pot.
    pub fn plant(self) -> Option<PlantRow> {
        match self {
            MixedUp::Plant(plant) => Some(plant),
            MixedUp::Pot(_) => None,
        }
    }

    /// The pot; `None` for a plant.
    pub fn pot(self) -> Option<PotRow> {
        match self {
            MixedUp::Plant(_) => None,
            MixedUp::Pot(pot) => Some(pot),
        }
    }
}

/// A mix-up of one plant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MixUp<'t> {
    /// When it was noticed, as typed.
    pub on: &'t str,
    /// Codes of the others, at least one.
    pub with: Vec<String>,
    /// How it happened.
    pub why: Option<String>,
    /// When it became known again which is which, as typed.
    pub settled: Option<&'t str>,
    /// The pods its record named before, as typed; none on a mix-up that only another record has.
    pub one_of_before: Vec<&'t str>,
    /// Whether it stands on the plant's own record; else on that of one of the others only.
    pub is_own: bool,
}

impl<'t> MixUp<'t> {
    /// As it stands on a record.
    pub fn of(muddle: &Muddle<'t>) -> MixUp<'t> {
        MixUp {
            on: muddle.on,
            with: muddle.with.iter().map(|&code| code.to_owned()).collect(),
            why: muddle.why.as_deref().map(str::to_owned),
            settled: muddle.settled,
            one_of_before: muddle.one_of_before.clone(),
            is_own: true,
        }
    }
}
