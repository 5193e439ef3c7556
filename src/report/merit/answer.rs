//! Predicted merit as an answer.

use super::super::series::LeftOut;
use super::wishes::Parts;
use serde::Serialize;

/// Predicted merit of plants.
#[derive(Serialize)]
pub struct MeritReport {
    /// The traits, in the order asked for.
    pub traits: Vec<TraitOfMerit>,
    /// Plants, the best first.
    pub rows: Vec<MeritRow>,
    /// Plants of which nothing is known beyond the mean of all.
    pub without_news: usize,
    /// What to keep in mind.
    pub cautions: Vec<String>,
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
    /// `percent` for lengths (compared on the logarithm), `steps` for scales, else `as_read`.
    pub unit: &'static str,
    /// Readings used.
    pub readings: usize,
    /// Plants read.
    pub plants: usize,
    /// Pods read.
    pub pods: usize,
    /// Readings left out, and why.
    pub left_out: LeftOut,
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
    /// Standard error of the index.
    pub index_error: f64,
    /// Per trait.
    pub of_traits: Vec<MeritOfTrait>,
}

/// Merit in one trait.
#[derive(Clone, Serialize)]
pub struct MeritOfTrait {
    /// Difference from the mean of all, in the trait's unit of merit.
    pub merit: f64,
    /// Standard error in the same unit.
    pub error: f64,
    /// 0: the mean of all would do as well; 1: certain.
    pub reliability: f64,
    /// Readings of the plant itself.
    pub readings: u32,
    /// Whether it says more than the mean of the pod, or for a founder of its species.
    pub beyond_its_pod: bool,
    /// What tells the plant apart: `readings`, `offspring`; else only `pod` or `species`.
    pub known_by: &'static str,
}
