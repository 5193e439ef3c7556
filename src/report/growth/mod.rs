//! Who grows: sizes at a common age, group against group, with a plain verdict and what it rests on.
//!
//! Groups are crosses, pods, sowings, species or single plants. Which readings may be compared at all is decided in
//! `series`; the arithmetic lies in `statistics`. Here ages are brought together, differences are told with everything
//! else that differed, and growth rates, curves, survival and germination stand beside them.

mod beside;
mod came_up;
mod cautions;
mod course_tables;
mod picture;
mod sheet;
mod size_tables;
mod survival_picture;

pub use came_up::{CameUp, GerminationCompared, compared};
pub use picture::growth_chart;
pub use survival_picture::survival_chart;
