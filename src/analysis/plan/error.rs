//! Why goals or a plan cannot be had.

use crate::analysis::carries::carries;
use crate::analysis::merit::MeritError;
use crate::lineage::PedigreeTooComplex;

/// What is wrong with the goals.
#[derive(Clone, Debug, PartialEq)]
pub enum GoalsError {
    /// A code that is no plant's.
    NoPlant {
        /// The code.
        code: String,
        /// Codes like it.
        near: Vec<String>,
    },
    /// A pair that must be made and must not: seed parent and pollen parent.
    Contradicted([String; 2]),
    /// A number out of its range, which begins at 0.
    OutOfRange {
        /// The field.
        field: &'static str,
        /// The most it may be.
        most: f64,
        /// What it is.
        found: f64,
    },
    /// A count of 0: the field.
    Zero(&'static str),
    /// A trait whose weight is no number: code of the trait.
    Weight(String),
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanError {
    /// The pedigree cannot be solved.
    Pedigree(PedigreeTooComplex),
    /// Merit cannot be predicted.
    Merit(MeritError),
    /// A pair that must be made cannot.
    Must {
        /// Seed parent and pollen parent.
        pair: [String; 2],
        /// Why not.
        why: WhyNot,
    },
    /// A line that is to be kept has no founder.
    NoFounder {
        /// The species.
        species: String,
        /// The species there are founders of.
        founders: Vec<String>,
    },
}

/// Why a pair that must be made cannot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyNot {
    /// Both are one plant.
    OnePlant,
    /// Each is of the other's sex.
    Swapped,
    /// The seed parent is male.
    SeedIsMale,
    /// The pollen parent is female.
    PollenIsFemale,
    /// The seed parent does not flower.
    NoFlowers,
    /// There is no pollen.
    NoPollen,
    /// Flowers and pollen do not meet.
    NeverMeet,
}

carries!(PlanError: PedigreeTooComplex => Pedigree, MeritError => Merit);
