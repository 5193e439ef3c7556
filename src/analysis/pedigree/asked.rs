//! What a pedigree is of.

use crate::evidence::Unit;
use crate::registry::{CrossRow, PlantRow, PodRow, PotRow, SowingRow, Target};

/// What the pedigree is of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Asked {
    /// One plant.
    Plant(PlantRow),
    /// The seedlings of a cross.
    Cross(CrossRow),
    /// Those of one pod.
    Pod(PodRow),
    /// Those of one sowing.
    Sowing(SowingRow),
    /// Those of one community pot.
    Pot(PotRow),
}

impl Asked {
    /// What a code names; `None` for what has no pedigree.
    pub fn of(target: Target) -> Option<Asked> {
        Some(match target {
            Target::Plant(plant) | Target::Ramet(plant, _) => Self::Plant(plant),
            Target::Cross(cross) => Self::Cross(cross),
            Target::Pod(pod) => Self::Pod(pod),
            Target::Sowing(sowing) => Self::Sowing(sowing),
            Target::CommunityPot(pot) => Self::Pot(pot),
            _ => return None,
        })
    }

    /// The plant on offer.
    pub fn plant(self) -> Option<PlantRow> {
        match self {
            Self::Plant(plant) => Some(plant),
            _ => None,
        }
    }

    /// The cross whose seedlings are meant.
    pub fn cross(self) -> Option<CrossRow> {
        match self {
            Self::Plant(_) => None,
            Self::Cross(cross)
            | Self::Pod(PodRow { cross, .. })
            | Self::Sowing(SowingRow { cross, .. })
            | Self::Pot(PotRow { cross, .. }) => Some(cross),
        }
    }

    /// The unit whose descent is shown.
    pub fn unit(self) -> Unit {
        match self {
            Self::Plant(plant) => Unit::Plant(plant),
            Self::Cross(cross) => Unit::Cross(cross),
            Self::Pod(pod) => Unit::Pod(pod),
            Self::Sowing(sowing) => Unit::Sowing(sowing),
            Self::Pot(pot) => Unit::Pot(pot),
        }
    }
}
