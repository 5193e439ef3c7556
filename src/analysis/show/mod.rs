//! What is on record of one plant, cross, pod, sowing or pollen lot.
//!
//! One file holds one kind of thing: [`plant`], [`cross`], [`part`], [`pollen`]; [`history`], [`parents`], [`offspring`] and
//! [`readings`] are what several of them have.

mod cross;
mod history;
mod offspring;
mod parents;
mod part;
mod plant;
mod pollen;
mod readings;

pub use cross::{CrossSeen, Muddled, cross};
pub use history::{History, Step, StepKind, history};
pub use offspring::{Offspring, Side, offspring};
pub use parents::{OneOf, Parents, parents};
pub use part::{
    lot_history, numbered_of_pod, numbered_of_sowing, perhaps_of_pod, perhaps_of_sowing,
    pod_history, pods_of_zone, sowing_history,
};
pub use plant::{PlantSeen, Standing, plant};
pub use pollen::{PollenSeen, pollen};
pub use readings::{ReadingSeen, readings};
