//! One intended pollination as an answer.

use super::super::evidence::EvidenceRow;
use super::super::merit::MeritOfTrait;
use super::super::pollen::{Envelope, SetRate};
use super::super::read::HybridName;
use super::super::rests_on::RestsOn;
use crate::record::Day;
use serde::Serialize;

/// What the page is asked with.
#[derive(Clone, Copy, Debug)]
pub struct PairWishes {
    /// Seedlings that fit.
    pub seedlings: u32,
    /// Heritability within a pod, 0 to 1: an assumption.
    pub heritability: f64,
    /// Today.
    pub today: Day,
}

/// One intended pollination.
#[derive(Serialize)]
pub struct PairReport {
    /// Would bear the pods.
    pub seed: SideRow,
    /// Would give the pollen.
    pub pollen: SideRow,
    /// Why it cannot be made; empty if nothing is known against it.
    pub impossible: Vec<String>,
    /// The two the other way round, when that can be made; `null` when this way can, or neither.
    pub other_way: Option<String>,
    /// The seedlings' formula in breeder order.
    pub formula: Option<String>,
    /// The same in botanical order.
    pub botanical: Option<String>,
    /// Hybrid names with exactly these parents.
    pub names: Vec<HybridName>,
    /// Expected shares, exact.
    pub shares: Vec<PairShare>,
    /// Chance of two copies from different species, at least and at most.
    pub heterozygosity: (f64, f64),
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
    /// Plants for a 95 % chance of one with an outcome expected in so many.
    pub plants_for_one: Vec<(String, u32)>,
    /// Crosses of the two on record.
    pub made_before: Vec<MadeBefore>,
    /// Flowers of the two, open or expected.
    pub flowers: Vec<String>,
    /// Envelopes of the pollen parent.
    pub envelopes: Vec<Envelope>,
    /// Facts and cautions.
    pub cautions: Vec<String>,
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
    /// What is recorded of its sex.
    pub sex: String,
    /// Claims on nights, of the plant or of the founders behind it: code and words.
    pub nights: Vec<(String, String)>,
}

/// A share.
#[derive(Serialize)]
pub struct PairShare {
    /// Species, `A or B`, or `unknown`.
    pub of: String,
    /// Exact.
    pub share: String,
    /// Whether the list used puts the species in Appendix I.
    pub appendix_one: bool,
}

/// Inbreeding of the seedlings.
#[derive(Serialize)]
pub struct PairInbreeding {
    /// At least so much, under what is recorded.
    pub at_least: f64,
    /// The same if founders of one batch were unrelated; `null` when no batch matters.
    pub if_batches_unrelated: Option<f64>,
    /// What it rests on.
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
    /// Mean of the two.
    pub mean: Option<f64>,
    /// Expected standard deviation as read, least and greatest.
    pub deviation: Option<(f64, f64)>,
    /// Usefulness for the number that fits, least and greatest.
    pub usefulness: Option<(f64, f64)>,
    /// What all relatives tell of the parents; `null` when nothing comparable was read.
    pub merit: Option<PairMerit>,
}

/// Readings of a parent: at the latest age both were read at, else its latest.
#[derive(Clone, Copy, Serialize)]
pub struct ParentRead {
    /// Mean of the readings of that day.
    pub mean: f64,
    /// How many they are.
    pub readings: usize,
    /// Age then, months from sowing, least and greatest; `null` when not known.
    pub age_months: Option<(f64, f64)>,
}

/// Predicted merit of the parents in a trait, as a difference from the mean of the plants here.
#[derive(Serialize)]
pub struct PairMerit {
    /// `percent` for lengths, `steps` for scales, else `as_read`.
    pub unit: &'static str,
    /// Of the seed parent.
    pub seed: MeritOfTrait,
    /// Of the pollen parent.
    pub pollen: MeritOfTrait,
    /// Expected of the seedlings: the mean of the two, in genetic standard deviations.
    pub mean: f64,
    /// Its usefulness for the number that fits, in genetic standard deviations, least and greatest.
    pub usefulness: (f64, f64),
    /// What it rests on.
    pub rests_on: String,
}

/// A cross made before.
#[derive(Serialize)]
pub struct MadeBefore {
    /// Its code.
    pub cross: String,
    /// Whether in this direction; `null` when the direction is lost.
    pub same_direction: Option<bool>,
    /// Flowers treated and pods set; zero is an outcome.
    pub set: SetRate,
    /// Pollinations whose outcome was not written down.
    pub not_counted: usize,
    /// Seedlings with a number.
    pub numbered: usize,
}
