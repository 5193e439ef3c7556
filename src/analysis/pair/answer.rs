//! One intended pollination as an answer.

use crate::analysis::evidence::EvidenceRow;
use crate::analysis::hybrid_names::HybridName;
use crate::analysis::kinship::{DrawnParents, Outcome, RestsOn};
use crate::analysis::merit::{MeritOfTrait, MeritUnit, TraitAssumed};
use crate::analysis::pair::caution::Caution;
use crate::analysis::pair::impossible::{Impossible, OtherWay};
use crate::analysis::parentage::SharesAre;
use crate::analysis::set_aside::SetAside;
use crate::observation::pollen::{Envelope, SetRate};
use crate::observation::sex::SexSeen;
use crate::planning::windows::Window;
use serde::Serialize;

/// What the page is asked with.
#[derive(Clone, Copy, Debug)]
pub struct PairOptions {
    /// Seedlings that fit.
    pub seedlings: u32,
    /// Heritability inside a species, 0 to 1: an assumption.
    pub heritability: f64,
}

/// One intended pollination.
#[derive(Serialize)]
pub struct PairReport {
    /// Would bear the pods.
    pub seed: SideRow,
    /// Would give the pollen.
    pub pollen: SideRow,
    /// Why it cannot be made; empty if nothing is known against it.
    pub impossible: Vec<Impossible>,
    /// The two the other way round, when that can be made; `null` when this way can, or neither.
    pub other_way: Option<OtherWay>,
    /// The seedlings' formula in breeder order.
    pub formula: Option<String>,
    /// The same in botanical order.
    pub botanical: Option<String>,
    /// Hybrid names with exactly these parents.
    pub names: Vec<HybridName>,
    /// Expected shares, exact.
    #[serde(rename = "parentage")]
    pub shares: Vec<PairShare>,
    /// What they are, as `parentage_is` of `podbook parentage` says it.
    #[serde(rename = "parentage_is")]
    pub shares_are: SharesAre,
    /// The shares with each possible pair of parents of a parent whose own are one of several; empty where that makes no
    /// difference. No seedling has the mean of them.
    #[serde(rename = "parentage_with_each")]
    pub shares_with_each: Vec<SharesIf>,
    /// Chance of two copies from different species, at least and at most.
    pub heterozygosity: (f64, f64),
    /// Whether both are means over several possible pairs of parents further back.
    pub heterozygosity_is_a_mean: bool,
    /// Expected inbreeding.
    pub inbreeding: PairInbreeding,
    /// Expected standard deviation against that of a pod of one species, least and greatest.
    pub spread_ratio: (f64, f64),
    /// What is expected of each trait.
    pub traits: Vec<PairTrait>,
    /// Seedlings that fit.
    pub seedlings: u32,
    /// Chance of both sexes among them.
    pub both_sexes: f64,
    /// How far the best of so many is expected to stand above their mean, standard deviations.
    #[serde(skip)]
    pub best_of_them: f64,
    /// Plants for a 95 % chance of one with an outcome expected in so many.
    pub plants_for_one: Vec<(String, u32)>,
    /// Crosses of the two on record.
    pub made_before: Vec<MadeBefore>,
    /// Flowers of the two, open or expected.
    pub flowers: Vec<FlowersOf>,
    /// Envelopes of the pollen parent.
    pub envelopes: Vec<Envelope>,
    /// Facts and cautions.
    pub cautions: Vec<Caution>,
}

/// One side.
#[derive(Serialize)]
pub struct SideRow {
    /// Code.
    pub id: String,
    /// Short name.
    pub name: Option<String>,
    /// How surely its descent is known.
    pub evidence: EvidenceRow,
    /// Whether something of it is less sure than a tag, which the first screen says.
    #[serde(skip)]
    pub(crate) is_less_than_a_tag: bool,
    /// What is recorded of its sex.
    pub sex: SexSeen,
    /// Claims on nights, of the plant or of the founders behind it: code and words.
    pub nights: Vec<(String, String)>,
}

/// The shares if a parent's own parents were these.
#[derive(Serialize)]
pub struct SharesIf {
    /// The parents.
    pub parents: DrawnParents,
    /// Their chance, 0 to 1; `null` where it is not stated.
    pub chance: Option<f64>,
    /// The shares then.
    #[serde(rename = "parentage")]
    pub shares: Vec<PairShare>,
}

/// A share.
#[derive(PartialEq, Serialize)]
pub struct PairShare {
    /// Species, `A or B`, or `unknown`.
    pub of: String,
    /// Exact.
    pub share: String,
    /// Whether the list used puts the species in Appendix I.
    pub appendix_one: bool,
    /// Whether it is of one species, not of several possible ones, a provisional name or unknown descent.
    #[serde(skip)]
    pub(crate) is_species: bool,
}

/// Inbreeding of the seedlings.
#[derive(Serialize)]
pub struct PairInbreeding {
    /// At least so much, whoever the parents were and founders unrelated.
    pub at_least: f64,
    /// The mean over what it may be; the same when parents are certain.
    pub expected: f64,
    /// What it may be, ascending, where parents are one of several; empty when that makes no difference.
    pub may_be: Vec<Outcome>,
    /// The same if founders of one batch were unrelated; `null` when no batch matters.
    pub if_batches_unrelated: Option<f64>,
    /// What it is based on.
    pub rests_on: RestsOn,
}

/// A trait; lengths in the unit of the trait.
#[derive(Serialize)]
pub struct PairTrait {
    /// Its code.
    pub code: String,
    /// Its name.
    pub name: String,
    /// `cm`, `mm`, `in`; empty for counts, numbers and steps.
    pub unit: &'static str,
    /// What the seed parent counts with; `null` when it was not read.
    pub seed: Option<ParentRead>,
    /// What the pollen parent counts with.
    pub pollen: Option<ParentRead>,
    /// Mean of the two as read at one age, of steps of a scale at any; `null` when they were not. No forecast: nothing is taken off for what is not
    /// inherited.
    pub midparent: Option<f64>,
    /// Expected standard deviation as read at that age, least and greatest.
    pub deviation: Option<(f64, f64)>,
    /// What that comes from.
    pub deviation_from: Option<DeviationFrom>,
    /// The age, months; `None` where the two are of two ages, or one is not known.
    #[serde(skip)]
    pub(crate) age_months: Option<f64>,
    /// Pods read at that age whose spread does not count, since their parents are not certain.
    pub set_aside: SetAside,
    /// What the best of the number that fits is expected to inherit above the mean of them, least and greatest.
    pub best_above: Option<(f64, f64)>,
    /// What all relatives tell of the parents; `null` when nothing comparable was read.
    pub merit: Option<PairMerit>,
}

/// The readings of this grower's pods behind an expected spread.
#[derive(Clone, Copy, Serialize)]
pub struct DeviationFrom {
    /// Plants, each with one reading.
    pub plants: usize,
    /// Pods with certain parents they are of.
    pub pods: usize,
    /// Months from sowing.
    pub age_months: Option<f64>,
}

/// Readings of a parent: at the latest age both were read at, else its latest.
#[derive(Clone, Copy, Serialize)]
pub struct ParentRead {
    /// Its reading; of several of one day their mean.
    pub mean: f64,
    /// Age then, months from sowing, least and greatest; `null` when not known.
    pub age_months: Option<(f64, f64)>,
}

/// Predicted merit of the parents in a trait, as a difference from the mean of the plants here.
#[derive(Serialize)]
pub struct PairMerit {
    /// What merit is counted in.
    pub unit: MeritUnit,
    /// Of the seed parent.
    pub seed: MeritOfTrait,
    /// Of the pollen parent.
    pub pollen: MeritOfTrait,
    /// Chance of the seed parent being the better of the two, 0 to 1.
    pub seed_is_better: f64,
    /// Expected of the seedlings: the mean of the two, in genetic standard deviations.
    pub mean: f64,
    /// Its standard error.
    pub mean_error: f64,
    /// Its usefulness for the number that fits, in genetic standard deviations, least and greatest.
    pub usefulness: (f64, f64),
    /// What it assumes.
    pub rests_on: TraitAssumed,
}

/// Flowers of a plant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FlowersOf {
    /// Its code.
    pub plant: String,
    /// Whether they are recorded as open.
    pub opened: bool,
    /// Whether they may be over by now.
    pub may_be_over: bool,
    /// First and last day of open flowers.
    pub window: Window,
}

/// A cross made before.
#[derive(Serialize)]
pub struct MadeBefore {
    /// Its code.
    pub cross: String,
    /// Whether one of the two, or both, are only possibly its parents.
    pub perhaps: bool,
    /// Whether in this direction; `null` when the direction is lost.
    pub same_direction: Option<bool>,
    /// Flowers treated and pods set; zero is an outcome.
    pub set: SetRate,
    /// Pollinations whose outcome was not written down.
    pub not_counted: usize,
    /// Seedlings with a number.
    pub numbered: usize,
}
