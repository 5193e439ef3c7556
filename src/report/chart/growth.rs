//! Who grows and who lives on, as a picture shows it.

use crate::analysis::growth::Lived;
use crate::wording::Name;
use serde::Serialize;

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
    /// Least and greatest age that the dates allow, drawn as a bar; `None` where the age is known to a month.
    pub between: Option<(f64, f64)>,
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
