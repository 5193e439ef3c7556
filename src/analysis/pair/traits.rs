//! What is expected of each trait: from the readings of the two themselves, and from all their relatives.

use crate::analysis::expected_spread::ExpectedSpread;
use crate::analysis::merit::{Compared, MeritModel, MeritOptions, Parts};
use crate::analysis::pair::answer::{DeviationFrom, PairMerit, PairOptions, PairTrait, ParentRead};
use crate::analysis::pair::error::PairError;
use crate::analysis::pair::intended::Intended;
use crate::analysis::parent_readings::{ParentReadings, SeenSpread, reference_parents};
use crate::lineage::{PedigreeTooComplex, PlantRow};
use crate::observation::presence::{Presence, presence};
use crate::observation::trait_unit::TraitUnit;
use crate::planning::intensity::usefulness;
use crate::registry::{PlantKind, TraitRow};
use crate::statistics::heritability::heritability_within;

impl Intended<'_, '_, '_> {
    pub(crate) fn spread(
        &self,
    ) -> Result<(ExpectedSpread, Vec<ParentReadings>), PedigreeTooComplex> {
        let traits = self.registry.trait_rows();
        let [seed, pollen] = self.pair;
        let readings: Vec<ParentReadings> = traits
            .filter_map(|index| ParentReadings::of(self.registry, index))
            .filter(|of| of.is_read(seed) || of.is_read(pollen))
            .collect();
        let mut plants = reference_parents(self.context.lineage(), &readings);
        plants.extend(self.pair);
        plants.sort_unstable();
        plants.dedup();
        let spread = ExpectedSpread::of(
            self.context.lineage(),
            &self.context.descent().founders,
            &plants,
        )?;
        Ok((spread, readings))
    }

    pub(crate) fn traits(
        &self,
        readings: &[ParentReadings],
        spread: &ExpectedSpread,
        options: PairOptions,
    ) -> Result<Vec<PairTrait>, PairError> {
        let kinship = self.context.kinship()?;
        let here = |plant: &PlantRow| {
            self.registry.kind(*plant) != PlantKind::Unseen
                && presence(self.registry, *plant, self.context.today) == Presence::Here
        };
        let listed: Vec<PlantRow> = self.registry.plants().filter(here).collect();
        let model = MeritModel::of(self.context, &kinship, &listed)?;
        let of_trait = |of: &ParentReadings| {
            let mut row = self.of_trait(of, spread, options);
            row.merit = self.merit(&model, of.index, spread, options);
            row
        };
        Ok(readings.iter().map(of_trait).collect())
    }

    fn of_trait(
        &self,
        of: &ParentReadings,
        spread: &ExpectedSpread,
        options: PairOptions,
    ) -> PairTrait {
        let unit = TraitUnit::shown_in(self.registry, of.index);
        let shown = |value: f64| unit.shown(value);
        let of_pair = of.of_pair(self.registry, self.pair);
        let read = of_pair.sides.map(|side| {
            side.map(|side| ParentRead {
                mean: shown(side.mean),
                age_months: side.age,
            })
        });
        let both = read[0].zip(read[1]).filter(|_| of_pair.comparable);
        let deviation = of.expected_deviation(
            self.context.lineage(),
            (spread, options.heritability),
            (self.pair, of_pair.age),
        );
        let limits = |figure: &dyn Fn(SeenSpread) -> f64| {
            let figures = deviation?.with.map(figure).map(shown);
            let least = figures.into_iter().reduce(f64::min);
            least.zip(figures.into_iter().reduce(f64::max))
        };
        // The genetic deviation is the accuracy times that of the readings.
        let best = |of: SeenSpread| {
            let accuracy = libm::sqrt(of.inherited);
            usefulness(0.0, options.seedlings, accuracy, accuracy * of.deviation)
        };
        PairTrait {
            seed: read[0],
            pollen: read[1],
            midparent: both.map(|(one, other)| 0.5 * (one.mean + other.mean)),
            deviation: limits(&|of| of.deviation),
            deviation_from: deviation.map(|of| DeviationFrom {
                plants: of.plants,
                pods: of.pods,
                age_months: of_pair.age,
            }),
            set_aside: of.set_aside(self.context.lineage(), of_pair.age),
            age_months: of_pair.age,
            best_above: limits(&best),
            merit: None,
            code: unit.code,
            name: unit.name,
            unit: unit.unit,
        }
    }

    /// Predicted merit of the two; `None` when nothing comparable was read, or nothing is known of either.
    fn merit(
        &self,
        model: &MeritModel,
        index: TraitRow,
        spread: &ExpectedSpread,
        options: PairOptions,
    ) -> Option<PairMerit> {
        let stated = MeritOptions {
            traits: Vec::new(),
            parts: Parts::with_heritability(options.heritability.clamp(0.01, 0.95)),
            estimate: false,
            compare: Vec::new(),
            all: false,
        };
        let basis = model.basis((index, 1.0), &stated).ok()?;
        let solved = [model.solved(&basis, self.pair.len()).ok()?];
        let [of_trait] = &solved;
        let [seed, pollen] = self.pair;
        let (_, apart) = of_trait.beside(seed, &of_trait.alone(pollen));
        let seed_is_better = Compared::of(&solved, pollen).chance_better(&solved, seed);
        let (seed, pollen) = (of_trait.single(seed), of_trait.single(pollen));
        if seed.told.reliability.max(pollen.told.reliability) < 1e-9 {
            return None;
        }
        let mean = 0.5 * (seed.standard + pollen.standard);
        let variance = spread.variance(self.pair[0], self.pair[1]);
        let told = of_trait.told();
        let useful = |genetic: f64| {
            let accuracy = libm::sqrt(heritability_within(genetic, options.heritability));
            usefulness(mean, options.seedlings, accuracy, libm::sqrt(genetic))
        };
        Some(PairMerit {
            rests_on: told.assumed(),
            unit: told.unit,
            mean_error: error_of_mean([seed.standard_error, pollen.standard_error], apart),
            seed_is_better,
            seed: seed.told,
            pollen: pollen.told,
            mean,
            usefulness: variance.least_and_most().map(useful).into(),
        })
    }
}

/// Standard error of the mean of two figures, from their own errors and that of their difference: what both share does
/// not cancel in the mean. Var ½(a + b) = ½ (Var a + Var b) − ¼ Var (a − b).
fn error_of_mean([one, other]: [f64; 2], apart: f64) -> f64 {
    let variance = 0.5 * (one * one + other * other) - 0.25 * apart * apart;
    libm::sqrt(variance.max(0.0))
}
