//! One trait solved: merit of single plants against the mean of those listed, and what tells two plants apart.

use crate::analysis::merit::answer::{MeritOfTrait, MeritSource, MeritUnit, TraitOfMerit};
use crate::analysis::merit::error::MeritError;
use crate::analysis::merit::merit_model::{Basis, MeritModel, variance};
use crate::analysis::merit::model::Model;
use crate::lineage::PlantRow;
use crate::observation::trait_unit::TraitUnit;
use crate::planning::merit::{Centre, PredictionError, Solved};
use crate::record::Reads;

/// Reliability that must come on top of a pod's mean before a plant is told apart from its pod-mates.
const BEYOND_THE_POD: f64 = 0.05;
/// Reliability that rounding alone may leave.
const KNOWS_NOTHING: f64 = 1e-9;
/// Part of the readings' variance that rounding may leave of a whole variance of nothing.
const ROUNDING: f64 = 1e-10;
/// Plants for which errors are worked out one by one rather than with the inverse of all equations.
const FEW: usize = 20;

/// One trait solved.
pub struct SolvedTrait<'s, 'h, 'r, 't> {
    of: &'s MeritModel<'h, 'r, 't>,
    /// What was solved.
    pub basis: &'s Basis<'r, 't>,
    solved: Solved<'s>,
    centre: Centre,
    scale: Scale,
    /// Ascending.
    read_kin: Vec<PlantRow>,
}

/// Merit of one plant in one trait, with the scale that makes traits comparable.
#[derive(Clone)]
pub struct Single {
    /// As told.
    pub told: MeritOfTrait,
    /// In genetic standard deviations.
    pub standard: f64,
    /// Standard error of its difference from the mean of the plants listed.
    pub standard_error: f64,
    /// Set when nothing is known of the plant beyond the mean of all: whether a relative of it was read all the same.
    pub without_news: Option<bool>,
    /// Merit as solved, and the variance of its error.
    pub(super) predicted: Predicted,
}

/// Merit of one plant as solved, species included, and the variance of its error: in the unit of the readings.
#[derive(Clone, Copy)]
pub(super) struct Predicted {
    merit: f64,
    variance: f64,
}

impl<'h, 'r, 't> MeritModel<'h, 'r, 't> {
    /// Solves a trait; `asked` is the number of plants it will be asked of.
    ///
    /// # Errors
    /// When the equations cannot be solved or the readings leave nothing to tell plants apart by.
    pub fn solved<'s>(
        &'s self,
        basis: &'s Basis<'r, 't>,
        asked: usize,
    ) -> Result<SolvedTrait<'s, 'h, 'r, 't>, MeritError> {
        let model = &basis.model;
        let mut solved = Solved::of(&self.relatives, &model.design, &basis.variances)?;
        let declared = &self.registry[basis.index];
        let whole = solved.whole_variance();
        if whole.is_nan() || whole <= ROUNDING * variance(model) {
            return Err(MeritError::NothingLeft(declared.code.to_owned()));
        }
        if asked > FEW {
            solved.invert();
        }
        let of_listed = |plant: &PlantRow| (plant.0, model.species_of(*plant));
        let listed: Vec<_> = self.listed.iter().map(of_listed).collect();
        Ok(SolvedTrait {
            centre: solved.centre(&listed),
            scale: Scale {
                is_length: matches!(declared.reads, Reads::Length(_)),
                is_scale: matches!(declared.reads, Reads::Scale(_)),
                additive: basis.variances.additive,
                whole,
            },
            read_kin: self.read_kin(model),
            of: self,
            basis,
            solved,
        })
    }

    /// The plants read and all their ancestors: who descends from one of these, or is one, has a read relative.
    fn read_kin(&self, model: &Model) -> Vec<PlantRow> {
        let readings = model.design.readings.iter();
        let mut read: Vec<PlantRow> = readings.map(|reading| PlantRow(reading.plant)).collect();
        read.dedup();
        self.context.lineage().pedigree.with_ancestors(&read)
    }
}

impl SolvedTrait<'_, '_, '_, '_> {
    /// Merit of one plant.
    pub fn single(&self, plant: PlantRow) -> Single {
        let scale = &self.scale;
        let species = self.basis.model.species_of(plant);
        let solved = self.solved.merit(plant.0, species);
        let merit = solved - self.centre.merit;
        let of = (plant.0, species);
        let (error, variance) = self.solved.error_and_variance(&self.centre, of);
        let error = error * libm::sqrt(scale.whole);
        let own = self.solved.prediction_error(plant.0, &[]);
        let prior = scale.additive * (1.0 + self.of.kinship.inbreeding(plant));
        let reliable = |error: f64| (1.0 - error * error / prior).clamp(0.0, 1.0);
        let reliability = reliable(own.error);
        let beyond = reliability - reliable(own.error_unread) >= BEYOND_THE_POD;
        let has_read_kin = || {
            let above = self.of.context.lineage().pedigree.with_ancestors(&[plant]);
            above
                .iter()
                .any(|kin| self.read_kin.binary_search(kin).is_ok())
        };
        Single {
            without_news: (reliability <= KNOWS_NOTHING).then(has_read_kin),
            told: MeritOfTrait {
                merit: scale.shown(merit),
                error,
                low: scale.shown(merit - error),
                high: scale.shown(merit + error),
                error_within_species: own.error / libm::sqrt(scale.additive),
                reliability,
                readings: own.readings,
                beyond_its_pod: beyond,
                known_by: self.known_by(plant, beyond, &own),
            },
            standard: merit / scale.genetic(),
            standard_error: error / scale.genetic(),
            predicted: Predicted {
                merit: solved,
                variance,
            },
        }
    }

    /// Whether two plants are siblings of which the same is known to the last bit: neither was read, neither has offspring,
    /// and both or neither count into the mean.
    pub(super) fn same_is_known(&self, one: PlantRow, other: PlantRow) -> bool {
        let registry = self.of.registry;
        let origin = registry.origin_of(one);
        let unread = |plant: PlantRow| self.solved.is_like_its_unread_siblings(plant.0);
        origin.is_some()
            && origin == registry.origin_of(other)
            && unread(one)
            && unread(other)
            && self.centre.holds(one.0) == self.centre.holds(other.0)
    }

    /// One plant that others are to be compared with.
    pub fn alone(&self, plant: PlantRow) -> Centre {
        let species = self.basis.model.species_of(plant);
        self.solved.centre(&[(plant.0, species)])
    }

    /// How much better a plant is than one made ready by [`alone`](Self::alone), and the standard error of that, in
    /// genetic standard deviations.
    pub fn beside(&self, plant: PlantRow, other: &Centre) -> (f64, f64) {
        let of = (plant.0, self.basis.model.species_of(plant));
        let difference = self.solved.merit(plant.0, of.1) - other.merit;
        self.in_genetic(difference, self.solved.error_from(other, of))
    }

    /// As [`beside`](Self::beside), of a plant whose merit is solved.
    pub(super) fn beside_of(
        &self,
        plant: PlantRow,
        known: &Predicted,
        other: &Centre,
    ) -> (f64, f64) {
        let of = (plant.0, self.basis.model.species_of(plant));
        let error = self.solved.error_known(other, of, known.variance);
        self.in_genetic(known.merit - other.merit, error)
    }

    /// Standard error of a sum of merits, each plant once and with a part in it, in genetic standard deviations.
    pub(super) fn error_of_sum(&self, plants: &[(PlantRow, f64)]) -> f64 {
        let part = |&(plant, part): &(PlantRow, f64)| {
            ((plant.0, self.basis.model.species_of(plant)), part)
        };
        let of: Vec<_> = plants.iter().map(part).collect();
        let error = self.solved.error_of_sum(&self.centre, &of);
        self.in_genetic(0.0, error).1
    }

    /// A difference and its error in genetic standard deviations.
    fn in_genetic(&self, difference: f64, error: f64) -> (f64, f64) {
        let genetic = self.scale.genetic();
        (
            difference / genetic,
            error * libm::sqrt(self.scale.whole) / genetic,
        )
    }

    /// Degrees of freedom behind the errors.
    pub fn freedom(&self) -> usize {
        self.solved.freedom()
    }

    /// The trait, with what was read of it.
    pub fn told(&self) -> TraitOfMerit {
        let (basis, model) = (self.basis, &self.basis.model);
        let unit = TraitUnit::shown_in(self.of.registry, basis.index);
        TraitOfMerit {
            code: unit.code,
            name: unit.name,
            weight: basis.weight,
            unit: self.scale.unit(),
            readings: model.design.readings.len(),
            plants: model.plants,
            pods: model.pods,
            crosses: model.crosses,
            ages: model.ages.map(|ages| ages.distinct),
            left_out: model.left_out,
            doubtful: model.doubtful.clone(),
            parts: basis.parts,
            heritability_limits: basis.limits,
        }
    }

    fn known_by(&self, plant: PlantRow, beyond: bool, own: &PredictionError) -> MeritSource {
        match (beyond, own.readings) {
            (true, 0) => MeritSource::Offspring,
            (true, _) => MeritSource::Readings,
            _ if self.of.registry.origin_of(plant).is_some() => MeritSource::Pod,
            _ => MeritSource::Species,
        }
    }
}

/// How a trait's merit is shown.
struct Scale {
    /// Lengths are taken on the logarithm and told in percent.
    is_length: bool,
    is_scale: bool,
    /// Genetic variance as a part of the whole.
    additive: f64,
    /// The whole variance, in the squared unit of the readings.
    whole: f64,
}

impl Scale {
    /// The genetic standard deviation, in the unit of the readings.
    fn genetic(&self) -> f64 {
        libm::sqrt(self.additive * self.whole)
    }

    fn unit(&self) -> MeritUnit {
        match (self.is_length, self.is_scale) {
            (true, _) => MeritUnit::Percent,
            (_, true) => MeritUnit::Steps,
            _ => MeritUnit::AsRead,
        }
    }

    fn shown(&self, merit: f64) -> f64 {
        if self.is_length {
            libm::expm1(merit) * 100.0
        } else {
            merit
        }
    }
}
