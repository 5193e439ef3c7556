//! Predicted merit as an answer.

use crate::analysis::merit::caution::Caution;
use crate::analysis::merit::options::Parts;
use crate::lineage::PlantRow;
use crate::observation::series::LeftOut;
use serde::Serialize;

/// Predicted merit of plants.
#[derive(Serialize)]
pub struct MeritReport {
    /// The traits, in the order asked for.
    pub traits: Vec<TraitOfMerit>,
    /// Plants, the best first.
    pub rows: Vec<MeritRow>,
    /// Plants that may well be better than the first: with a chance of at least 1 in 20.
    pub not_clearly_worse: Vec<String>,
    /// Of plants named to be compared the chance of each to be better than each after it.
    pub better: Vec<BetterRow>,
    /// The plants of the rows.
    #[serde(skip)]
    pub plants: Vec<PlantRow>,
    /// Plants of which nothing is known beyond the mean of all.
    pub without_news: usize,
    /// Those of them that have a read relative: readings that cannot be told from the mean.
    pub told_by_the_mean_alone: usize,
    /// What to keep in mind.
    pub cautions: Vec<Caution>,
}

/// One trait.
#[derive(Serialize)]
pub struct TraitOfMerit {
    /// Code.
    pub code: String,
    /// Name.
    pub name: String,
    /// Weight per genetic standard deviation.
    pub weight: f64,
    /// What its merit is counted in.
    pub unit: MeritUnit,
    /// Readings used.
    pub readings: usize,
    /// Plants read.
    pub plants: usize,
    /// Pods read.
    pub pods: usize,
    /// Crosses read.
    pub crosses: usize,
    /// Ages read that are apart; `null` when age is no effect, because most readings have none.
    pub ages: Option<usize>,
    /// Readings left out, and why.
    pub left_out: LeftOut,
    /// How many readings are doubtful, in words; among the cautions.
    #[serde(skip)]
    pub doubtful: Option<String>,
    /// Parts of the whole variance.
    pub parts: Parts,
    /// Limits of heritability at 95 % when it was estimated.
    pub heritability_limits: Option<(f64, f64)>,
}

/// One plant.
#[derive(Serialize)]
pub struct MeritRow {
    /// Code.
    pub id: String,
    /// The weighted sum in genetic standard deviations; with one trait its merit in them.
    pub index: f64,
    /// Standard error of the index as a difference from the mean of the plants here.
    pub index_error: f64,
    /// Chance of being better than the first plant, 0 to 1; `null` for the first.
    pub chance_better_than_first: Option<f64>,
    /// Per trait.
    pub of_traits: Vec<MeritOfTrait>,
}

/// Two plants compared.
#[derive(Serialize)]
pub struct BetterRow {
    /// Code.
    pub plant: String,
    /// Code of the other.
    pub than: String,
    /// Chance of the first being the better one, 0 to 1.
    pub chance: f64,
}

/// What merit is counted in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum MeritUnit {
    /// Percent, of lengths, which are compared on the logarithm.
    Percent,
    /// Steps of a scale.
    Steps,
    /// The unit of the readings.
    AsRead,
}

/// What tells a plant apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeritSource {
    /// Its own readings.
    Readings,
    /// Its offspring's.
    Offspring,
    /// Only the mean of its pod.
    Pod,
    /// Only the mean of its species.
    Species,
}

/// Merit in one trait.
#[derive(Clone, Serialize)]
pub struct MeritOfTrait {
    /// Difference from the mean of all, in the trait's unit of merit.
    pub merit: f64,
    /// Standard error of that difference, species' means included: of a length on the natural logarithm, else in the same
    /// unit.
    pub error: f64,
    /// The merit less one standard error, in the unit of the merit.
    pub low: f64,
    /// The merit and one standard error more.
    pub high: f64,
    /// Standard error within the species, its mean taken as known, in genetic standard deviations: reliability is
    /// 1 − its square / (1 + F).
    pub error_within_species: f64,
    /// 0: the mean of all would do as well; 1: certain.
    pub reliability: f64,
    /// Readings of the plant itself.
    pub readings: u32,
    /// Whether it says more than the mean of the pod, or for a founder of its species.
    pub beyond_its_pod: bool,
    /// Where its merit is known from.
    pub known_by: MeritSource,
}
