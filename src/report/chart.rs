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
    /// Number of the plant, written on the dot; empty for a plain dot.
    pub number: String,
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
    /// The answer; empty where there is none.
    pub verdict: String,
    /// What is shown.
    pub title: Name,
    /// What belongs to the answer, a line each.
    pub under: Vec<String>,
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
    /// The steps of a scale in words, the least first; empty for a measure.
    pub anchors: Vec<String>,
    /// The counts against a stated ratio, where one was stated for this trait.
    pub ratio: Option<RatioStrip>,
    /// Siblings, one row for each pod or sowing.
    pub rows: Vec<DotRow>,
    /// The parents' own values, where they were read.
    pub parents: Vec<ParentReading>,
    /// In place of rows and parents where the trait has kinds without order: one group for each pod or sowing.
    pub kinds: Vec<KindGroup>,
}

/// Counts against a stated ratio.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct RatioStrip {
    /// What is set side by side.
    pub verdict: String,
    /// One for each part of the ratio.
    pub parts: Vec<RatioPart>,
}

/// One part of a ratio.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct RatioPart {
    /// The kinds it counts.
    pub label: String,
    /// Plants counted.
    pub n: u64,
    /// Plants expected.
    pub expected: f64,
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
    /// Which of several groups it is, 0 first; each has a line of its own kind.
    pub group: usize,
    /// The plants behind a line that stands for many: the readings of each, in order of age.
    pub behind: Vec<Vec<GrowthReading>>,
    /// In place of these where they are too many: age, and the middle half of the sizes.
    pub band: Vec<(f64, f64, f64)>,
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

/// Siblings as rows, traits as columns of marks: whom to select.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct SelectGrid {
    /// The answer.
    pub title: Name,
    /// At which age and when the traits were read, a line each.
    pub under: Vec<String>,
    /// One for each trait.
    pub columns: Vec<GridColumn>,
    /// Whether rows have an index.
    pub has_index: bool,
    /// Each cross, pod or sowing by itself.
    pub crosses: Vec<GridCross>,
    /// What the marks mean, cautions and what was left out.
    pub notes: Vec<String>,
}

/// A trait as a column of marks.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridColumn {
    /// The trait with its unit.
    pub heading: String,
    /// How it counts, such as "weight 2".
    pub counts: String,
    /// How many steps a scale has, 1 the least; `None` for a measure.
    pub steps: Option<usize>,
}

/// The siblings of one cross.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridCross {
    /// Its code.
    pub id: String,
    /// Those to keep first, those gone last.
    pub groups: Vec<GridGroup>,
    /// First and last of rows that have the same index, counted over all groups.
    pub equal: Vec<(usize, usize)>,
    /// First and last of rows that are not clearly apart at the line between kept and not kept.
    pub unsure: Vec<(usize, usize)>,
}

/// Siblings for whom the same is proposed.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridGroup {
    /// What is proposed, and for how many.
    pub heading: String,
    /// Whether they are to be kept.
    pub is_kept: bool,
    /// Whether they are no longer here; drawn pale.
    pub is_gone: bool,
    /// Best first.
    pub rows: Vec<GridRow>,
}

/// One sibling.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridRow {
    /// Its number on the page of the cross.
    pub number: String,
    /// Its reading of each trait; `None` where there is none.
    pub cells: Vec<Option<GridCell>>,
    /// Its index with the 95 % limits.
    pub index: Option<ChartInterval>,
    /// The index in words, or what became of the plant.
    pub remark: String,
}

/// One reading in the grid.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct GridCell {
    /// In the unit of the column.
    pub value: f64,
    /// The same in words, without the unit.
    pub words: String,
}

/// Two traits against each other: is there a plant that has both?
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ScatterChart {
    /// The answer.
    pub title: Name,
    /// When the traits were read, a line each.
    pub under: Vec<String>,
    /// The first trait.
    pub across: ScatterAxis,
    /// The second trait.
    pub up: ScatterAxis,
    /// One for each place, however many plants stand there.
    pub dots: Vec<ScatterDot>,
    /// Corners of the line of those that no sibling beats in both, from the least across.
    pub front: Vec<(f64, f64)>,
    /// What the marks mean, cautions and what was left out.
    pub notes: Vec<String>,
}

/// A trait as an axis.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ScatterAxis {
    /// The trait with its unit, and which end is better.
    pub heading: String,
    /// How many steps a scale has; `None` for a measure.
    pub steps: Option<usize>,
}

/// The plants with the same two readings.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ScatterDot {
    /// Across and up, in the units of the axes.
    pub at: (f64, f64),
    /// Numbers of the plants.
    pub numbers: Vec<String>,
    /// Whether one of them is to be kept; drawn full.
    pub is_kept: bool,
    /// Whether they stand on the front.
    pub is_on_front: bool,
}
