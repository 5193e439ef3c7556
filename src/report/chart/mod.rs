//! Numbers ready to be drawn as charts: values, intervals and every word beside them.
//!
//! One kind of chart for each question.

mod beside;
mod calendar;
mod growth;
mod kinship;
mod merit;
mod select;
mod shared;
mod siblings;

pub use beside::{ParentageChart, PlansChart, PlansRow, SharesRow, VariationChart};
pub use calendar::{CalendarChart, CalendarEnd, CalendarGroup, CalendarRow, calendar_ticks};
pub use growth::{
    GrowthChart, GrowthCurve, GrowthReading, SurvivalChart, SurvivalCurve, SurvivalFall,
};
pub use kinship::{KinshipCell, KinshipChart};
pub use merit::{MeritChart, MeritChartRow, MeritKnown};
pub use select::{
    GridCell, GridColumn, GridCross, GridGroup, GridRow, ScatterAxis, ScatterChart, ScatterDot,
    SelectGrid,
};
pub use shared::{ChartDot, ChartInterval, DotRow, ParentReading, plain_dots};
pub use siblings::{KindBar, KindGroup, RatioPart, RatioStrip, SiblingsChart, TraitStrip};
