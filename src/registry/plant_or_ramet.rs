//! A plant as it is named for an event: the whole of it, or one of its rooted pieces.

use super::row_types::{PlantRow, RametRow};
use super::target::Target;
use super::whole::Registry;
use crate::record::Ramet;

/// A plant, or one of its ramets.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct PlantOrRamet {
    /// The plant.
    pub plant: PlantRow,
    /// The ramet, where only that is meant.
    pub ramet: Option<RametRow>,
}

impl PlantOrRamet {
    /// The whole plant.
    pub const fn whole(plant: PlantRow) -> Self {
        Self { plant, ramet: None }
    }

    /// One of its ramets.
    pub const fn ramet(plant: PlantRow, ramet: RametRow) -> Self {
        Self {
            plant,
            ramet: Some(ramet),
        }
    }

    /// Whether the other is this, or a piece of the plant where the whole of it is meant.
    pub fn covers(self, other: Self) -> bool {
        self.plant == other.plant && (self.ramet.is_none() || self.ramet == other.ramet)
    }
}

impl Target<'_> {
    /// The plant, or the ramet of one, that a code names; none where it names something else.
    pub const fn plant_or_ramet(self) -> Option<PlantOrRamet> {
        match self {
            Self::Plant(plant) => Some(PlantOrRamet::whole(plant)),
            Self::Ramet(plant, ramet) => Some(PlantOrRamet::ramet(plant, ramet)),
            _ => None,
        }
    }

    /// The plant that a code names by itself or by one of its ramets; none where it names something else.
    pub fn plant(self) -> Option<PlantRow> {
        self.plant_or_ramet().map(|of| of.plant)
    }
}

impl<'t> Registry<'t> {
    /// The record of the ramet that is meant; none where the whole plant is.
    pub fn ramet(&self, of: PlantOrRamet) -> Option<&Ramet<'t>> {
        of.ramet.map(|ramet| &self.ramets(of.plant)[ramet.index()])
    }

    /// The ramets of a plant, each with its record.
    pub fn each_ramet(
        &self,
        plant: PlantRow,
    ) -> impl Iterator<Item = (PlantOrRamet, &Ramet<'t>)> + Clone {
        let rows = RametRow::all(self.ramets(plant).len());
        rows.map(move |row| PlantOrRamet::ramet(plant, row))
            .zip(self.ramets(plant))
    }

    /// The code of a plant, `X24-01-7`, or of the ramet that is meant, `X24-01-7-b`.
    pub fn code_of(&self, of: PlantOrRamet) -> String {
        let code = self.code(of.plant);
        match self.ramet(of) {
            Some(ramet) => format!("{code}-{}", ramet.code),
            None => code,
        }
    }
}
