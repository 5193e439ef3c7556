//! How much gain does a season give up for less kinship?
//!
//! Gain is the mean value of a pod; kinship is the group coancestry `cᵀΦc` of the parents, each weighted by its share of
//! the seedlings' genes. Where all plans can be listed the frontier is exact. Otherwise plans are sought by weighing
//! kinship more and more (Frank & Wolfe 1956 on the season's own optimum), and every weight states the bound that holds.

mod drawn;
mod listing;
mod moves;
mod relations;
mod weighed;

pub use drawn::{Frontier, FrontierAsked, frontier, undominated};
pub use listing::all_plans;
pub use relations::{Point, Relations};
pub use weighed::{Weighed, weighed};
