//! The plants merit is measured against, and one trait of them made ready to be solved: its readings, its variances.

use crate::analysis::merit::error::MeritError;
use crate::analysis::merit::model::{Model, model};
use crate::analysis::merit::options::{MeritOptions, Parts};
use crate::context::Context;
use crate::kinship::{Kinship, Singular};
use crate::lineage::PlantRow;
use crate::planning::merit::{Fractions, Relatives, Variances, estimate};
use crate::record::Reads;
use crate::registry::{Registry, TraitRow};

/// Pods below which heritability is stated, not estimated.
pub const LEAST_PODS: usize = 20;
/// Readings below which it is.
pub const LEAST_READINGS: usize = 200;
/// Ages the curve of age takes.
pub const LEAST_AGES: usize = 3;
/// Estimated heritability below which there is no genetic standard deviation to count in: it is shown as 0.00.
const LEAST_ESTIMATED: f64 = 0.005;
/// Variance of the species' means as a multiple of the whole: wide, so that the readings decide, yet a species with few
/// plants is drawn to the mean. Our own choice.
const SPECIES: f64 = 1.0;

/// The plants merit is measured against, with how they are related.
pub struct MeritModel<'h, 'r, 't> {
    pub(crate) registry: &'r Registry<'t>,
    pub(crate) context: &'h Context<'r, 't>,
    pub(crate) kinship: &'h Kinship<'h>,
    pub(crate) relatives: Relatives,
    /// Merit is given as a difference from the mean of these.
    pub(crate) listed: &'h [PlantRow],
}

/// One trait, ready to be solved.
pub struct Basis<'r, 't> {
    pub(crate) index: TraitRow,
    /// Weight per genetic standard deviation.
    pub(crate) weight: f64,
    pub(crate) model: Model<'r, 't>,
    pub(crate) parts: Parts,
    /// Limits of heritability when it was estimated.
    pub(crate) limits: Option<(f64, f64)>,
    /// As parts of the whole.
    pub(crate) variances: Variances,
}

/// Parts of the whole variance, and limits of heritability when it was estimated.
type Stated = (Parts, Option<(f64, f64)>);

impl<'h, 'r, 't> MeritModel<'h, 'r, 't> {
    /// The plants listed among all their relatives.
    ///
    /// # Errors
    /// [`Singular`] when a plant's parents are completely inbred.
    pub fn of(
        context: &'h Context<'r, 't>,
        kinship: &'h Kinship<'h>,
        listed: &'h [PlantRow],
    ) -> Result<Self, Singular> {
        Ok(MeritModel {
            registry: context.registry,
            context,
            kinship,
            relatives: relatives(kinship)?,
            listed,
        })
    }

    /// The trait of an index with its weight.
    ///
    /// # Errors
    /// When the trait has no order, nothing was read or the parts do not fit.
    pub fn basis(
        &self,
        (index, weight): (TraitRow, f64),
        options: &MeritOptions,
    ) -> Result<Basis<'r, 't>, MeritError> {
        let declared = &self.registry[index];
        let code = || declared.code.to_owned();
        if matches!(declared.reads, Reads::Kinds(_)) {
            return Err(MeritError::Unordered(code()));
        }
        let model = model(self.context, index);
        if model.design.readings.is_empty() {
            return Err(MeritError::NothingRead {
                code: code(),
                left_out: model.left_out,
            });
        }
        if variance(&model) == 0.0 {
            return Err(MeritError::AllTheSame(code()));
        }
        let (parts, limits) = self.parts(&model, options)?;
        if let Some((_, most)) = limits.filter(|_| parts.heritability < LEAST_ESTIMATED) {
            return Err(MeritError::NotInherited { code: code(), most });
        }
        let variances = fractions(&parts)
            .of_whole(1.0)
            .ok_or(MeritError::PartsTooLarge)?;
        Ok(Basis {
            index,
            weight,
            model,
            parts,
            limits,
            variances,
        })
    }

    fn parts(&self, model: &Model, options: &MeritOptions) -> Result<Stated, MeritError> {
        if !options.estimate {
            return Ok((options.parts, None));
        }
        estimable(model)?;
        let found = estimate(&self.relatives, &model.design, 2, &[SPECIES])?;
        let parts = Parts {
            heritability: found.fractions.additive,
            permanent: found.fractions.permanent,
            sitting: found.fractions.groups[0],
            pod: found.fractions.groups[1],
        };
        Ok((parts, Some(found.limits)))
    }
}

/// Whether heritability can be estimated from the readings at all.
fn estimable(model: &Model) -> Result<(), MeritError> {
    let (pods, readings) = (model.pods, model.design.readings.len());
    if pods < LEAST_PODS || readings < LEAST_READINGS {
        return Err(MeritError::TooFew { pods, readings });
    }
    match model.ages.map_or(0, |ages| ages.distinct) {
        few if few < LEAST_AGES => Err(MeritError::TooFewAges(few)),
        _ => Ok(()),
    }
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

fn relatives(kinship: &Kinship) -> Result<Relatives, Singular> {
    let parts = kinship.inverse_parts()?;
    let mut relatives = Relatives {
        sources: vec![Vec::new(); parts.len()],
        mendelian_variance: vec![1.0; parts.len()],
    };
    for part in parts.contributions {
        relatives.sources[part.row] = part
            .sources
            .into_iter()
            .map(|(row, share)| (row as u32, share))
            .collect();
        relatives.mendelian_variance[part.row] = part.mendelian_variance;
    }
    Ok(relatives)
}
