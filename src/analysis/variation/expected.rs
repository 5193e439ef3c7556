//! How much the seedlings of a cross are expected to differ, from what their parents descend from.

use crate::analysis::expected_spread::{BETWEEN_SPECIES, ExpectedSpread};
use crate::analysis::variation::told::NotExpected;
use crate::ancestry::Heterozygosity;
use crate::context::Context;
use crate::registry::CrossRow;
use crate::statistics::heritability::seen_ratio;
use serde::Serialize;

/// What ancestry says of one cross.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Expected {
    /// Chance that a parent's two copies come from different species: seed parent, pollen parent, 0 to 1.
    pub parents_heterozygosity: Option<(f64, f64)>,
    /// Variance among seedlings in units of the variance inside a species, for each of [`BETWEEN_SPECIES`].
    pub variance: Option<[f64; 3]>,
    /// Why nothing is expected.
    pub why_not: Option<NotExpected>,
}

impl Expected {
    /// The ratio of the standard deviations seen in this cross and in another, at a heritability inside a species.
    pub fn ratio_to(&self, other: &Expected, heritability: f64) -> Option<[f64; 3]> {
        let (mine, others) = (self.variance?, other.variance?);
        let mut ratios = [0.0; 3];
        for (at, ratio) in ratios.iter_mut().enumerate() {
            *ratio = seen_ratio(mine[at], others[at], heritability).ok()?;
        }
        Some(ratios)
    }
}

/// What is expected of a cross whose parents are both certain and of known descent.
pub fn expected_of(context: &Context, cross: CrossRow) -> Expected {
    let lineage = context.lineage();
    let origin = context.registry[cross].origin;
    let pairs = &lineage.pedigree[origin].pairs;
    let not = |why| Expected {
        why_not: Some(why),
        ..Expected::default()
    };
    let [pair] = &pairs[..] else {
        return not(NotExpected::OneOfSeveral);
    };
    let (Some(seed), Some(pollen)) = (pair.seed, pair.pollen) else {
        return not(NotExpected::ParentUnknown);
    };
    let founders = &context.descent().founders;
    let spread = match ExpectedSpread::of(lineage, founders, &[seed, pollen]) {
        Ok(spread) => spread,
        Err(why) => return not(NotExpected::TooComplex(why)),
    };
    let mixed = [seed, pollen].map(|parent| spread.heterozygosity(parent));
    if !mixed.iter().all(Heterozygosity::is_known) {
        return not(NotExpected::DescentUnknown);
    }
    let [of_seed, of_pollen] = mixed.map(|of| of.possible);
    let variance = |between: f64| spread.variance(seed, pollen).at(between)[0];
    Expected {
        parents_heterozygosity: Some((of_seed, of_pollen)),
        variance: Some(BETWEEN_SPECIES.map(variance)),
        why_not: None,
    }
}
