//! One plant, cross, pod, sowing, pollen lot or species on one screen.
//!
//! [`screen`] chooses what a code names; one file holds one kind of thing; [`sheet`] says how it is read.

mod answer;
mod cross;
mod muddles;
mod part;
mod plant;
mod pollen;
mod records;
mod screen;
mod sheet;
mod species;

pub use answer::{
    FloweringLine, OffspringLine, PodLine, RametLine, ReadingLine, ShowReport, Stage,
};
pub use screen::show;
