//! A zone that is dusted again: what is the same line twice, and what contradicts the record.

use super::event::Pollinate;
use super::father::Father;
use crate::record::Pollination;
use crate::recording::dates::Dated;
use crate::recording::slip::Slip;
use crate::registry::{CrossRow, PlantOrRamet, Registry};
use crate::wording::at_date;

impl Pollinate {
    /// Refuses the same flowers on the same day once more: a line that was given twice.
    pub(super) fn not_twice(
        &self,
        registry: &Registry,
        cross: CrossRow,
        (seed, envelope, on): (PlantOrRamet, Option<&str>, &Dated),
    ) -> Result<(), Slip> {
        let page = &registry[cross].page;
        let piece = seed.ramet.map(|_| registry.code_of(seed));
        let same = |known: &&Pollination| {
            let zone = self.zone.as_deref().is_none_or(|zone| zone == known.zone);
            let day = |day: &&str| {
                *day == on.text || (on.when.is_exact() && registry.when(day) == on.when)
            };
            zone && known.on.iter().any(|text| day(&&**text))
                && known.pollen == envelope
                && known.spike == self.spike.as_deref()
                && known.plant == piece.as_deref()
        };
        let Some(known) = page.pollinations.iter().find(same) else {
            return Ok(());
        };
        Err(Slip::Contradicts {
            asked: format!("{} was pollinated {}", registry.code_of(seed), at_date(&on.text)),
            recorded: format!("{}.{} is on record as dusted that day already", page.code, known.zone),
            help: "if these are other flowers, name their zone with --zone, such as --zone upper; if the day is wrong, give it with --on"
                .to_owned(),
        })
    }

    /// Refuses what contradicts the record of a zone that is dusted again.
    pub(super) fn same_again(
        &self,
        registry: &Registry,
        (cross, at): (CrossRow, usize),
        seed: PlantOrRamet,
        (father, envelope): (&Father, Option<&str>),
    ) -> Result<(), Slip> {
        let page = &registry[cross].page;
        let known: &Pollination = &page.pollinations[at];
        let zone = format!("{}.{}", page.code, known.zone);
        let other = |asked: String, recorded: String| Slip::Contradicts {
            asked,
            recorded,
            help: "name another zone with --zone".to_owned(),
        };
        let piece = seed.ramet.map(|_| registry.code_of(seed));
        if let (Some(asked), Some(plant)) = (piece, known.plant)
            && asked != plant
        {
            return Err(other(
                format!("zone {zone} was asked for on {asked}"),
                format!("it is on {plant}"),
            ));
        }
        if let (Some(asked), Some(spike)) = (self.spike.as_deref(), known.spike)
            && asked != spike
        {
            return Err(other(
                format!("zone {zone} was asked for on spike {asked}"),
                format!("it is on spike {spike}"),
            ));
        }
        if envelope != known.pollen {
            return Err(other(
                format!(
                    "zone {zone} was to be dusted with {}",
                    father.pollen_words(envelope)
                ),
                format!("it was dusted with {}", father.pollen_words(known.pollen)),
            ));
        }
        match (self.flowers, known.flowers) {
            (Some(asked), Some(flowers)) if asked != flowers => Err(other(
                format!("zone {zone} was asked for with {asked} flowers"),
                format!("{flowers} are on record"),
            )),
            _ => Ok(()),
        }
    }
}
