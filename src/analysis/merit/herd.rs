//! The plants merit is told against, and one trait of them made ready to be solved: its readings, its variances.

use crate::analysis::descent::Descent;
use crate::analysis::merit::model::{Model, model};
use crate::analysis::merit::wishes::{MeritWishes, Parts};
use crate::kinship::Kinship;
use crate::lineage::{Lineage, PlantRow};
use crate::planning::merit::{Fractions, Relatives, Variances, estimate};
use crate::record::Reads;
use crate::registry::Registry;
use crate::wording::counted;

/// Pods and readings below which heritability is stated, not estimated.
const LEAST_PODS: usize = 20;
const LEAST_READINGS: usize = 200;
/// Ages the curve of age takes.
const LEAST_AGES: usize = 3;
/// Variance of the species' means as a multiple of the whole: wide, so that the readings decide, yet a species with few
/// plants is drawn to the mean. Our own choice.
const SPECIES: f64 = 1.0;

/// The plants merit is told against, with how they are related.
pub struct Herd<'h, 'r, 't> {
    pub(crate) registry: &'r Registry<'t>,
    pub(crate) lineage: &'r Lineage,
    descent: &'h Descent,
    pub(crate) kinship: &'h Kinship<'r>,
    pub(crate) relatives: Relatives,
    /// Merit is told as a difference from the mean of these.
    pub(crate) listed: &'h [PlantRow],
}

/// One trait, ready to be solved.
pub struct Basis {
    pub(crate) index: u16,
    /// Weight per genetic standard deviation.
    pub(crate) weight: f64,
    pub(crate) model: Model,
    pub(crate) parts: Parts,
    /// Limits of heritability when it was estimated.
    pub(crate) limits: Option<(f64, f64)>,
    /// As parts of the whole.
    pub(crate) variances: Variances,
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

    /// The trait of an index with its weight.
    ///
    /// # Errors
    /// In words, when the trait has no order, nothing was read or the parts do not fit.
    pub fn basis(
        &self,
        (index, weight): (u16, f64),
        wishes: &MeritWishes,
    ) -> Result<Basis, String> {
        let declared = &self.registry.settings.traits[usize::from(index)];
        let code = declared.code;
        if matches!(declared.reads, Reads::Kinds(_)) {
            return Err(format!(
                "`{code}` is read in kinds without order, so no plant can be better in it; choose a measure or a scale"
            ));
        }
        let model = model(self.registry, self.lineage, self.descent, index);
        if model.design.readings.is_empty() {
            return Err(nothing_read(code, &model));
        }
        if variance(&model) == 0.0 {
            return Err(format!(
                "all readings of `{code}` are the same, so nothing tells the plants apart"
            ));
        }
        let (parts, limits) = self.parts(&model, wishes)?;
        let variances = fractions(&parts)
            .of_whole(1.0)
            .ok_or("heritability and the other parts must sum to less than 1")?;
        Ok(Basis {
            index,
            weight,
            model,
            parts,
            limits,
            variances,
        })
    }

    fn parts(&self, model: &Model, wishes: &MeritWishes) -> Result<Stated, String> {
        if !wishes.estimate {
            return Ok((wishes.parts, None));
        }
        estimable(model)?;
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

/// Why there is nothing to go by, and what would help.
fn nothing_read(code: &str, model: &Model) -> String {
    let left = match model.left_out.words() {
        words if words.is_empty() => words,
        words => format!(" (left out: {words})"),
    };
    let help = match model.left_out.age_unknown {
        0 => "",
        _ => "; plants are compared at an age, so write down when they were sown",
    };
    format!("nothing comparable was read of `{code}`{left}{help}")
}

/// Whether heritability can be estimated from the readings at all.
fn estimable(model: &Model) -> Result<(), String> {
    let readings = model.design.readings.len();
    if model.pods < LEAST_PODS || readings < LEAST_READINGS {
        return Err(format!(
            "heritability is not estimated from {} and {}: at least {LEAST_PODS} pods and {LEAST_READINGS} readings are needed, since fewer estimate it worse than any value from 0.2 to 0.65 stated beforehand; state one with --heritability",
            counted(model.pods, "pod", "pods"),
            counted(readings, "reading", "readings"),
        ));
    }
    let distinct = model.ages.map_or(0, |ages| ages.distinct);
    if distinct < LEAST_AGES {
        let found = match distinct {
            0 => "most have no age".to_owned(),
            n => format!("they are of {}", counted(n, "age", "ages")),
        };
        return Err(format!(
            "heritability is not estimable from these ages: {found}, and at least {LEAST_AGES} are needed to tell growth from what a plant inherits; state one with --heritability"
        ));
    }
    Ok(())
}

/// Variance of the readings about their mean; exactly 0 when all are the same.
pub(crate) fn variance(model: &Model) -> f64 {
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
