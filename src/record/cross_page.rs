//! One page per cross: who with whom, and the lists of what came of it.

use super::{
    CommunityPot, Confidence, FreeText, Pod, Pollination, SeedLot, Seedlings, Sitting, Sowing,
    ToldBy,
};
use serde::{Deserialize, Serialize};

/// `crosses/CODE.ron`.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct CrossPage<'t> {
    /// Code of the cross.
    pub code: &'t str,
    /// Who with whom, in that direction.
    pub parents: Parents<'t>,
    /// Whether `parents` is at fault and something stands in for it, which nothing may be held against.
    #[serde(skip)]
    pub(crate) parents_misread: bool,
    /// How the parentage is known.
    #[serde(default)]
    pub confidence: Confidence,
    /// The label that came with it, letter by letter.
    pub received: Option<FreeText<'t>>,
    /// Who it came from; private.
    pub from: Option<FreeText<'t>>,
    /// Whose record this is, if it is not the grower's own.
    pub told_by: Option<Box<ToldBy<'t>>>,
    /// What the cross is for.
    pub goal: Option<FreeText<'t>>,
    /// Flowers treated.
    #[serde(default)]
    pub pollinations: Vec<Pollination<'t>>,
    /// What the pollinations set.
    #[serde(default)]
    pub pods: Vec<Pod<'t>>,
    /// Seed harvested.
    #[serde(default)]
    pub seed_lots: Vec<SeedLot<'t>>,
    /// Seed sown.
    #[serde(default)]
    pub sowings: Vec<Sowing<'t>>,
    /// Seedlings that are still only a count.
    #[serde(default)]
    pub community_pots: Vec<CommunityPot<'t>>,
    /// Plants with a number.
    #[serde(default)]
    pub seedlings: Seedlings<'t>,
    /// Readings.
    #[serde(default)]
    pub sittings: Vec<Sitting<'t>>,
    /// Remarks.
    pub note: Option<FreeText<'t>>,
}

/// The parents of a cross, as far as they are known.
#[derive(Deserialize, Serialize, Debug)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Parents<'t> {
    /// Both known.
    Known {
        /// Bore the pods.
        seed: &'t str,
        /// Gave the pollen.
        pollen: &'t str,
    },
    /// One father for all, one of these.
    PollenOneOf {
        /// Bore the pods.
        seed: &'t str,
        /// The candidates.
        pollen: Vec<&'t str>,
        /// How likely each is, as whole-number weights.
        #[serde(default)]
        weights: Vec<u32>,
    },
    /// A declared mixture: every seed drew its own father.
    PollenMixed {
        /// Bore the pods.
        seed: &'t str,
        /// The males in the mixture.
        pollen: Vec<&'t str>,
        /// Parts of each in the mixture.
        #[serde(default)]
        weights: Vec<u32>,
    },
    /// Pollen from anywhere.
    Open {
        /// Bore the pods.
        seed: &'t str,
        /// Plants seen shedding pollen near it in those days; any other may have been the father as well.
        #[serde(default)]
        near: Vec<&'t str>,
    },
    /// One father, not known which plant.
    PollenUnknown {
        /// Bore the pods.
        seed: &'t str,
    },
    /// The pods came from one of these.
    SeedOneOf {
        /// The candidates.
        seed: Vec<&'t str>,
        /// Gave the pollen.
        pollen: &'t str,
    },
    /// The seed parent is not known.
    SeedUnknown {
        /// Gave the pollen.
        pollen: &'t str,
    },
    /// One of several pairs.
    OneOfPairs(#[serde(borrow)] Vec<PossiblePair<'t>>),
    /// Both known, direction lost.
    DirectionLost(#[serde(borrow)] (&'t str, &'t str)),
    /// Only a label says what they were: the plants were never seen.
    LabelOnly(#[serde(borrow)] FreeText<'t>),
    /// Nothing is known.
    Unknown,
}

/// One of several possible pairs.
#[derive(Deserialize, Serialize, Debug)]
#[serde(deny_unknown_fields)]
pub struct PossiblePair<'t> {
    /// Bore the pods.
    pub seed: &'t str,
    /// Gave the pollen.
    pub pollen: &'t str,
    /// How likely, as a whole-number weight.
    #[serde(default)]
    pub weight: u32,
}
