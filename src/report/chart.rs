//! Numbers ready to be drawn as charts: values, intervals and every word beside them.
//!
//! One kind of chart for each question: how siblings differ, who grows, whether one cross varies more than another,
//! what plants descend from, and what a season gains for the kinship it costs.

use serde::Serialize;

use super::pedigree::{DrawnShare, Sex};
use crate::analysis::growth::Lived;
use crate::analysis::siblings::Measure;
use crate::wording::Name;

/// A middle value and the interval around it, in the unit of the axis.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct ChartInterval {
    /// Lower end.
    pub low: f64,
    /// Median, mean or estimate.
    pub middle: f64,
    /// Upper end.
    pub high: f64,
}

/// One reading of one plant.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ChartDot {
    /// The value, in the unit of the axis.
    pub value: f64,
    /// Name of the plant where it is to be pointed out.
    pub label: Option<String>,
    /// Whether the reading is doubtful, such as one without a unit; drawn hollow.
    pub doubtful: bool,
}

impl ChartInterval {
    /// The mean of a measure with its limits, where there are some.
    pub fn of_mean(measure: &Measure) -> Option<ChartInterval> {
        let (low, high) = measure.mean_between?;
        let middle = measure.mean;
        Some(ChartInterval { low, middle, high })
    }
}

/// Readings in which nothing stands out.
pub fn plain_dots(values: &[f64]) -> Vec<ChartDot> {
    let dot = |&value: &f64| ChartDot {
        value,
        ..ChartDot::default()
    };
    values.iter().map(dot).collect()
}

/// Siblings as dots, trait by trait.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SiblingsChart {
    /// What is shown.
    pub title: Name,
    /// One strip for each trait.
    pub strips: Vec<TraitStrip>,
    /// Cautions and what was left out.
    pub notes: Vec<String>,
}

/// One trait of siblings.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct TraitStrip {
    /// The trait with its unit, such as "leaf span, cm".
    pub heading: String,
    /// How many steps the scale has, 1 the least; `None` for a measure, whose axis follows what was read.
    pub steps: Option<usize>,
    /// Siblings, one row for each pod or sowing.
    pub rows: Vec<DotRow>,
    /// The parents' own values, where they were read.
    pub parents: Vec<ParentReading>,
    /// In place of rows and parents where the trait has kinds without order: one group for each pod or sowing.
    pub kinds: Vec<KindGroup>,
}

/// How many plants of one group show each kind.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct KindGroup {
    /// What the group is called; its count belongs here too.
    pub label: String,
    /// The kinds, in declared order, nobody's left out.
    pub bars: Vec<KindBar>,
}

/// The plants that show one kind.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct KindBar {
    /// The kind.
    pub kind: String,
    /// Plants.
    pub n: u64,
    /// What is said at the end of the bar after the count: share, limits, a parent of that kind.
    pub remark: String,
}

/// The readings of one group of plants.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct DotRow {
    /// What the group is called; counts belong here too.
    pub label: Name,
    /// Its readings.
    pub dots: Vec<ChartDot>,
    /// Its middle and interval.
    pub interval: Option<ChartInterval>,
    /// Where ancestry expects the middle 95 % of siblings to lie.
    pub expected: Option<(f64, f64)>,
    /// What is said at the end of the row.
    pub remark: String,
}

/// A parent's value on the axis of its offspring.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ParentReading {
    /// The value.
    pub value: f64,
    /// The parent's code or name.
    pub label: String,
    /// Which side it is.
    pub sex: Option<Sex>,
}

/// Sizes over age.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GrowthChart {
    /// What is shown.
    pub title: Name,
    /// The age axis, such as "months from sowing".
    pub across: String,
    /// The size axis, such as "leaf span, cm".
    pub up: String,
    /// One curve for each plant or pod.
    pub curves: Vec<GrowthCurve>,
    /// Whether sizes are drawn on a log scale; then they must be above zero.
    pub logarithmic: bool,
    /// Cautions and what was left out.
    pub notes: Vec<String>,
}

/// The readings of one plant, or the means of one pod, in order of age.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GrowthCurve {
    /// The plant's code.
    pub label: String,
    /// Age and size of every reading.
    pub readings: Vec<GrowthReading>,
    /// Age and size along a fitted curve, where one was fitted.
    pub fitted: Vec<(f64, f64)>,
    /// Ages at which it was potted on; marked across the line of a plant in question.
    pub potted: Vec<f64>,
    /// Whether it is the plant in question.
    pub focus: bool,
}

/// One reading in time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct GrowthReading {
    /// Age in the unit of the axis.
    pub age: f64,
    /// Size in the unit of the axis.
    pub size: f64,
    /// Whether the reading is doubtful; drawn hollow and left out of the line.
    pub doubtful: bool,
}

/// How many of each group live on.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SurvivalChart {
    /// What is shown.
    pub title: Name,
    /// The age axis, such as "months from sowing".
    pub across: String,
    /// The axis up, in percent, such as "alive, %".
    pub up: String,
    /// What the counts below the axis are, such as "followed at that age".
    pub counted: String,
    /// One curve for each group.
    pub curves: Vec<SurvivalCurve>,
    /// Cautions and what was left out.
    pub notes: Vec<String>,
}

/// The steps of one group and the plants behind them.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SurvivalCurve {
    /// The group's code.
    pub label: String,
    /// One step for each age at which plants died, in order of age.
    pub steps: Vec<SurvivalFall>,
    /// Every plant followed.
    pub lives: Vec<Lived>,
}

/// One step of a survival curve.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct SurvivalFall {
    /// Age in the unit of the axis.
    pub age: f64,
    /// Alive after it, percent.
    pub alive: f64,
    /// 95 % limits, percent; none once no plant is left.
    pub limits: Option<(f64, f64)>,
}

/// The spread of crosses side by side.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct VariationChart {
    /// What is shown.
    pub title: Name,
    /// The trait with its unit.
    pub heading: String,
    /// One row for each cross.
    pub rows: Vec<DotRow>,
    /// Cautions and what was left out.
    pub notes: Vec<String>,
}

/// What several plants descend from.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ParentageChart {
    /// What is shown.
    pub title: Name,
    /// Species in order of first appearance in the registry.
    pub species: Vec<Name>,
    /// One row for each plant.
    pub rows: Vec<SharesRow>,
    /// Cautions.
    pub notes: Vec<String>,
}

/// What one plant descends from.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SharesRow {
    /// Its name or code.
    pub label: Name,
    /// Part of each species.
    #[serde(rename = "parentage")]
    pub shares: Vec<DrawnShare>,
    /// Part that is not known, 0 to 1.
    pub unknown_share: f64,
}

/// One pair in plans side by side.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PlansRow {
    /// Seed parent.
    pub seed: String,
    /// Pollen parent.
    pub pollen: String,
    /// Pods in each plan; 0 where it does not make the pair.
    pub pods: Vec<u32>,
}

/// The pollinations of a plan and of the best other plan.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct PlansChart {
    /// What is shown.
    pub title: Name,
    /// What each plan is called, and facts of it in few words.
    pub plans: Vec<(String, Vec<String>)>,
    /// Pairs in the order of the plan.
    pub rows: Vec<PlansRow>,
    /// Cautions.
    pub notes: Vec<String>,
}
