//! Merit of some plants in one trait: the equations of all relatives solved, told against the mean of the herd.

use super::super::descent::Descent;
use super::super::trait_unit::TraitUnit;
use super::super::words::counted;
use super::answer::{MeritOfTrait, TraitOfMerit};
use super::model::{Model, model};
use super::wishes::{MeritWishes, Parts};
use crate::kinship::Kinship;
use crate::lineage::{Lineage, PlantRow};
use crate::planning::merit::{Fractions, Relatives, Solved, Sureness, Unsolvable, estimate};
use crate::record::Reads;
use crate::registry::Registry;
use std::collections::BTreeSet;

/// Pods and readings below which heritability is stated, not estimated.
const LEAST_PODS: usize = 20;
const LEAST_READINGS: usize = 200;
/// Reliability that must come on top of a pod's mean before a plant is told apart from its pod-mates.
const BEYOND_THE_POD: f64 = 0.05;
/// Variance of the species' means as a multiple of the whole: wide, so that the readings decide, yet a species with few
/// plants is drawn to the mean. Our own choice.
const SPECIES: f64 = 1.0;

/// The plants merit is told against, with how they are related.
pub struct Herd<'h, 'r, 't> {
    registry: &'r Registry<'t>,
    lineage: &'r Lineage,
    descent: &'h Descent,
    kinship: &'h Kinship<'r>,
    relatives: Relatives,
    /// Merit is told as a difference from the mean of these.
    listed: &'h [PlantRow],
}

/// Merit of one plant in one trait, with the scale that makes traits comparable.
#[derive(Clone)]
pub struct Single {
    /// As told.
    pub told: MeritOfTrait,
    /// In genetic standard deviations.
    pub standard: f64,
    /// Its standard error.
    pub standard_error: f64,
    /// Set when nothing is known of the plant beyond the mean of all: whether a relative of it was read all the same.
    pub without_news: Option<bool>,
}

/// Parts of the whole variance, and limits of heritability when it was estimated.
type Stated = (Parts, Option<(f64, f64)>);

impl<'h, 'r, 't> Herd<'h, 'r, 't> {
    /// The plants listed among all their relatives.
    ///
    /// # Errors
    /// In words, when a plant's parents are completely inbred.
    pub fn of(
        (registry, lineage): (&'r Registry<'t>, &'r Lineage),
        (descent, kinship): (&'h Descent, &'h Kinship<'r>),
        listed: &'h [PlantRow],
    ) -> Result<Self, String> {
        Ok(Herd {
            registry,
            lineage,
            descent,
            kinship,
            relatives: relatives(kinship)?,
            listed,
        })
    }

    /// Merit of some plants in the trait of an index.
    ///
    /// # Errors
    /// In words, when the trait has no order, nothing was read, the parts do not fit or the equations cannot be solved.
    pub fn one_trait(
        &self,
        (index, weight): (u16, f64),
        asked: &[PlantRow],
        wishes: &MeritWishes,
    ) -> Result<(TraitOfMerit, Vec<Single>), String> {
        let declared = &self.registry.settings.traits[usize::from(index)];
        if matches!(declared.reads, Reads::Kinds(_)) {
            return Err(format!(
                "`{}` is read in kinds without order, so no plant can be better in it; choose a measure or a scale",
                declared.code
            ));
        }
        let model = model(self.registry, self.lineage, self.descent, index);
        if model.design.readings.is_empty() {
            let left = match model.left_out.words() {
                words if words.is_empty() => words,
                words => format!(" (left out: {words})"),
            };
            return Err(format!(
                "nothing comparable was read of `{}`{left}",
                declared.code
            ));
        }
        if variance(&model) == 0.0 {
            return Err(format!(
                "all readings of `{}` are the same, so nothing tells the plants apart",
                declared.code
            ));
        }
        let (parts, limits) = self.parts(&model, wishes)?;
        let variances = fractions(&parts)
            .of_whole(1.0)
            .ok_or("heritability and the other parts must sum to less than 1")?;
        let mut solved = Solved::of(&self.relatives, &model.design, &variances)
            .map_err(|error| error.to_string())?;
        if asked.len() > FEW {
            solved.invert().map_err(|error| error.to_string())?;
        }
        let trait_unit = TraitUnit::shown_in(self.registry, index);
        let scale = Scale {
            centre: self.centre(&model, &solved),
            is_length: matches!(declared.reads, Reads::Length(_)),
            is_scale: matches!(declared.reads, Reads::Scale(_)),
            additive: variances.additive,
            whole: solved.whole_variance(),
        };
        if scale.whole.is_nan() || scale.whole <= ROUNDING * variance(&model) {
            return Err(format!(
                "the readings of `{}` are too few, or their ages explain them wholly, so nothing tells the plants apart",
                declared.code
            ));
        }
        let read_kin = self.read_kin(&model);
        let singles = asked
            .iter()
            .map(|&plant| self.single(plant, (&model, &solved), (&scale, &read_kin)));
        let singles = singles
            .collect::<Result<_, _>>()
            .map_err(|error| error.to_string())?;
        let told = TraitOfMerit {
            code: trait_unit.code,
            name: trait_unit.name,
            weight,
            unit: scale.unit(),
            readings: model.design.readings.len(),
            plants: model.plants,
            pods: model.pods,
            crosses: model.crosses,
            left_out: model.left_out,
            parts,
            heritability_limits: limits,
        };
        Ok((told, singles))
    }

    fn single(
        &self,
        plant: PlantRow,
        (model, solved): (&Model, &Solved),
        (scale, read_kin): (&Scale, &BTreeSet<PlantRow>),
    ) -> Result<Single, Unsolvable> {
        let species = model.species_of(plant);
        let merit = solved.merit(plant.0, &species) - scale.centre;
        let whole = solved.sureness(plant.0, &species)?;
        let own = solved.sureness(plant.0, &[])?;
        let prior = scale.additive * (1.0 + self.kinship.inbreeding(plant));
        let reliable = |error: f64| (1.0 - error * error / prior).clamp(0.0, 1.0);
        let reliability = reliable(own.error);
        let beyond = reliability - reliable(own.error_unread) >= BEYOND_THE_POD;
        let genetic = libm::sqrt(scale.additive * scale.whole);
        let whole_error = whole.error * libm::sqrt(scale.whole);
        let has_read_kin = || {
            let above = self.lineage.pedigree.with_ancestors(&[plant]);
            above.iter().any(|kin| read_kin.contains(kin))
        };
        Ok(Single {
            without_news: (reliability <= KNOWS_NOTHING).then(has_read_kin),
            told: MeritOfTrait {
                merit: scale.shown(merit),
                error: whole_error,
                low: scale.shown(merit - whole_error),
                high: scale.shown(merit + whole_error),
                error_within_species: own.error / libm::sqrt(scale.additive),
                reliability,
                readings: own.readings,
                beyond_its_pod: beyond,
                known_by: self.known_by(plant, beyond, &own),
            },
            standard: merit / genetic,
            standard_error: whole_error / genetic,
        })
    }

    fn known_by(&self, plant: PlantRow, beyond: bool, own: &Sureness) -> &'static str {
        match (beyond, own.readings) {
            (true, 0) => "offspring",
            (true, _) => "readings",
            _ if self.registry.origin_of(plant).is_some() => "pod",
            _ => "species",
        }
    }

    /// The plants read and all their ancestors: who descends from one of these, or is one, has a read relative.
    fn read_kin(&self, model: &Model) -> BTreeSet<PlantRow> {
        let mut read: Vec<PlantRow> = model
            .design
            .readings
            .iter()
            .map(|reading| PlantRow(reading.plant))
            .collect();
        read.dedup();
        self.lineage
            .pedigree
            .with_ancestors(&read)
            .into_iter()
            .collect()
    }

    /// The mean merit, species' shares included, of the plants listed: merit is told as a difference from it.
    fn centre(&self, model: &Model, solved: &Solved) -> f64 {
        let merit = |plant: &PlantRow| solved.merit(plant.0, &model.species_of(*plant));
        let sum: f64 = self.listed.iter().map(merit).sum();
        sum / (self.listed.len().max(1)) as f64
    }

    fn parts(&self, model: &Model, wishes: &MeritWishes) -> Result<Stated, String> {
        if !wishes.estimate {
            return Ok((wishes.parts, None));
        }
        let readings = model.design.readings.len();
        if model.pods < LEAST_PODS || readings < LEAST_READINGS {
            return Err(format!(
                "heritability is not estimated from {} and {}: at least {LEAST_PODS} pods and {LEAST_READINGS} readings are needed, since fewer estimate it worse than any value from 0.2 to 0.65 stated beforehand; state one with --heritability",
                counted(model.pods, "pod", "pods"),
                counted(readings, "reading", "readings"),
            ));
        }
        let found = estimate(&self.relatives, &model.design, 2, &[SPECIES])
            .map_err(|error| error.to_string())?;
        let parts = Parts {
            heritability: found.fractions.additive,
            permanent: found.fractions.permanent,
            sitting: found.fractions.groups[0],
            pod: found.fractions.groups[1],
        };
        Ok((parts, Some(found.limits)))
    }
}

/// Reliability that rounding alone may leave.
pub(super) const KNOWS_NOTHING: f64 = 1e-9;
/// Part of the readings' variance that rounding may leave of a whole variance of nothing.
const ROUNDING: f64 = 1e-10;

/// Variance of the readings about their mean; exactly 0 when all are the same.
fn variance(model: &Model) -> f64 {
    let values = || model.design.readings.iter().map(|reading| reading.value);
    let (least, most) = values().fold(
        (f64::INFINITY, f64::NEG_INFINITY),
        |(least, most), value| (least.min(value), most.max(value)),
    );
    if least == most {
        return 0.0;
    }
    let count = model.design.readings.len() as f64;
    let mean = values().sum::<f64>() / count;
    values()
        .map(|value| (value - mean) * (value - mean))
        .sum::<f64>()
        / count
}

/// Plants for which errors are worked out one by one rather than with the inverse of all equations.
const FEW: usize = 20;

/// How a trait's merit is told.
struct Scale {
    centre: f64,
    /// Lengths are taken on the logarithm and told in percent.
    is_length: bool,
    is_scale: bool,
    /// Genetic variance as a part of the whole.
    additive: f64,
    /// The whole variance, in the squared unit of the readings.
    whole: f64,
}

impl Scale {
    fn unit(&self) -> &'static str {
        match (self.is_length, self.is_scale) {
            (true, _) => "percent",
            (_, true) => "steps",
            _ => "as_read",
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

fn fractions(parts: &Parts) -> Fractions {
    Fractions {
        additive: parts.heritability,
        permanent: parts.permanent,
        groups: vec![parts.sitting, parts.pod],
        apart: vec![SPECIES],
    }
}

fn relatives(kinship: &Kinship) -> Result<Relatives, String> {
    let parts = kinship
        .inverse_parts()
        .map_err(|singular| singular.to_string())?;
    let mut relatives = Relatives {
        sources: vec![Vec::new(); parts.len()],
        own: vec![1.0; parts.len()],
    };
    for part in parts.contributions {
        relatives.sources[part.row] = part
            .sources
            .into_iter()
            .map(|(row, share)| (row as u32, share))
            .collect();
        relatives.own[part.row] = part.own;
    }
    Ok(relatives)
}
