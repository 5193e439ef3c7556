//! Readings of a trait as series: collected in one walk, judged, and those left out counted with their reasons.

mod asked;
mod left_out;
mod of_a_day;
mod readings;
mod sitting;
mod traits;
mod walk;

pub use asked::last_read_days;
pub use left_out::LeftOut;
pub use of_a_day::one_a_day;
pub use readings::{Comparable, Occasion, Run, TraitReadings};
pub use sitting::{SittingKey, method_of, one_method, one_method_of, sitting_key};
pub use traits::{
    comparable, comparable_by_day, comparable_of_one, one_pitcher_class, own_by_day, readings_of,
    readings_of_traits, with_pests,
};
