//! The season's best set of pollinations.

mod bench;
mod cautions;
mod errors;
mod later;
mod picture;
mod sheet;
mod tables;
mod words;
mod worth;

pub use bench::plan_on_the_bench;
pub use picture::plans_chart;
pub use worth::figure as worth_figure;
