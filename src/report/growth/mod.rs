//! Who grows, on the screen and as pictures.

mod beside;
mod cautions;
mod course_tables;
mod picture;
mod rates_alike;
mod sheet;
mod size_tables;
mod survival;
mod survival_picture;
mod words;

pub use picture::growth_chart;
pub use survival::Survival;
pub use survival_picture::survival_chart;
