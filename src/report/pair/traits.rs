//! What is expected of each trait: from the readings of the two themselves, and from all their relatives.

use super::super::founding::founding;
use super::super::merit::{Herd, MeritWishes, Parts, Single, TraitOfMerit};
use super::super::parent_readings::{ExpectedSpread, ParentReadings, reference_parents};
use super::super::standing::{Presence, presence};
use super::super::trait_unit::TraitUnit;
use super::answer::{PairMerit, PairTrait, PairWishes, ParentRead};
use super::weigh::Intended;
use crate::kinship::Kinship;
use crate::lineage::PlantRow;
use crate::planning::intensity::usefulness;
use crate::registry::PlantKind;

impl Intended<'_, '_> {
    pub(super) fn spread(&self) -> Result<(ExpectedSpread, Vec<ParentReadings>), String> {
        let traits = 0..self.registry.settings.traits.len() as u16;
        let [seed, pollen] = self.pair;
        let readings: Vec<ParentReadings> = traits
            .filter_map(|index| ParentReadings::of(self.registry, index))
            .filter(|of| of.is_read(seed) || of.is_read(pollen))
            .collect();
        let mut plants = reference_parents(self.lineage, &readings);
        plants.extend(self.pair);
        plants.sort_unstable();
        plants.dedup();
        let spread = ExpectedSpread::of(self.lineage, &self.descent.founders, &plants)?;
        Ok((spread, readings))
    }

    pub(super) fn traits(
        &self,
        readings: &[ParentReadings],
        spread: &ExpectedSpread,
        wishes: PairWishes,
    ) -> Result<Vec<PairTrait>, String> {
        let founding = founding(self.registry, self.lineage, &self.descent);
        let kinship =
            Kinship::of(&self.lineage.pedigree, &founding).map_err(|error| error.to_string())?;
        let here = |plant: &PlantRow| {
            self.registry.kind(*plant) != PlantKind::Unseen
                && presence(self.registry, *plant, wishes.today) == Presence::Here
        };
        let listed: Vec<PlantRow> = self.registry.plants().filter(here).collect();
        let herd = Herd::of(
            (self.registry, self.lineage),
            (&self.descent, &kinship),
            &listed,
        )?;
        let of_trait = |of: &ParentReadings| {
            let mut row = self.of_trait(of, spread, wishes);
            row.merit = self.merit(&herd, of.index, spread, wishes);
            row
        };
        Ok(readings.iter().map(of_trait).collect())
    }

    fn of_trait(
        &self,
        of: &ParentReadings,
        spread: &ExpectedSpread,
        wishes: PairWishes,
    ) -> PairTrait {
        let [seed, pollen] = self.pair;
        let unit = TraitUnit::shown_in(self.registry, of.index);
        let shown = |value: f64| unit.shown(value);
        let read = of.of_pair(self.pair).map(|side| {
            side.map(|side| ParentRead {
                mean: shown(side.mean),
                readings: side.readings,
                age_months: side.age,
            })
        });
        let mean = read[0]
            .zip(read[1])
            .map(|(one, other)| 0.5 * (one.mean + other.mean));
        let deviation = of
            .expected_deviation(self.lineage, spread, (seed, pollen))
            .map(|(least, most)| (shown(least), shown(most)));
        let accuracy = libm::sqrt(wishes.heritability);
        let useful = |mean: f64, as_read: f64| {
            usefulness(mean, wishes.seedlings, accuracy, accuracy * as_read)
        };
        PairTrait {
            seed: read[0],
            pollen: read[1],
            usefulness: mean
                .zip(deviation)
                .map(|(mean, (least, most))| (useful(mean, least), useful(mean, most))),
            mean,
            deviation,
            merit: None,
            code: unit.code,
            name: unit.name,
            unit: unit.unit,
        }
    }

    /// Predicted merit of the two; `None` when nothing comparable was read, or nothing is known of either.
    fn merit(
        &self,
        herd: &Herd,
        index: u16,
        spread: &ExpectedSpread,
        wishes: PairWishes,
    ) -> Option<PairMerit> {
        let stated = MeritWishes {
            traits: Vec::new(),
            parts: Parts::with_heritability(wishes.heritability.clamp(0.01, 0.95)),
            estimate: false,
            all: false,
            today: wishes.today,
        };
        let (of, singles) = herd.one_trait((index, 1.0), &self.pair, &stated).ok()?;
        let [seed, pollen]: [Single; 2] = singles.try_into().ok()?;
        if seed.told.reliability.max(pollen.told.reliability) < 1e-9 {
            return None;
        }
        let mean = 0.5 * (seed.standard + pollen.standard);
        let accuracy = libm::sqrt(wishes.heritability);
        let [least, most] = spread.variance(self.pair[0], self.pair[1]);
        let useful =
            |variance: f64| usefulness(mean, wishes.seedlings, accuracy, libm::sqrt(variance));
        Some(PairMerit {
            rests_on: TraitOfMerit::rests_on(&of),
            unit: of.unit,
            seed: seed.told,
            pollen: pollen.told,
            mean,
            usefulness: (useful(least), useful(most)),
        })
    }
}
