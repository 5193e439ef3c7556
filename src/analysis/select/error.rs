//! Why nothing can be proposed; how it is said stands in `report`.

use crate::analysis::carries::carries;
use crate::analysis::siblings::UnknownTrait;
use crate::statistics::StatisticsError;
use crate::statistics::culling::Level;

/// Why nothing can be proposed.
#[derive(Clone, PartialEq, Debug)]
pub enum SelectError {
    /// A code that cannot be used, as `observation` words it.
    Scope(String),
    /// A trait that is not declared.
    Trait(UnknownTrait),
    /// A quota for a cross that is not on record: its code.
    QuotaWithoutCross(String),
    /// A trait with two weights: as typed.
    WeighedTwice(String),
    /// A weight of zero: the trait as typed.
    WeightZero(String),
    /// A weight that is not a number: name of the trait.
    WeightNotFinite(String),
    /// A level without a limit: the trait as typed.
    LevelWithoutLimit(String),
    /// A trait of kinds without order: its name.
    NoOrder(String),
    /// A level that is no step of the scale.
    NotAStep {
        /// Name of the trait.
        name: String,
        /// The level.
        level: Level,
        /// The written anchors, first step first.
        steps: Vec<String>,
    },
    /// Two levels that leave nothing between them.
    NothingBetween {
        /// Name of the trait.
        name: String,
        /// Unit the levels are stated in.
        unit: &'static str,
        /// The least.
        least: f64,
        /// The most.
        most: f64,
        /// Steps of a scale.
        steps: Option<usize>,
    },
    /// One side of a trait stated twice.
    TwoLevels {
        /// Name of the trait.
        name: String,
        /// The one and the other.
        levels: (Level, Level),
    },
    /// No rule says what counts.
    NoRules {
        /// Codes asked for.
        ids: Vec<String>,
        /// Codes of traits of this registry that could be weighed, with a weight each.
        example: Vec<(String, u8)>,
    },
    /// A figure cannot be worked out.
    NoFigure(StatisticsError),
}

carries!(SelectError: UnknownTrait => Trait, StatisticsError => NoFigure);
