//! The registry with an intended pollination in it, as one more cross of the pedigree.

use crate::context::Context;
use crate::lineage::{Founding, Pedigree, PlantRow};
use crate::naming::recorded::Names;
use crate::registry::{OriginRow, Registry};

/// The registry with the intended pollination added as one more origin.
pub(crate) struct Intended<'i, 'r, 't> {
    pub context: &'i Context<'r, 't>,
    pub registry: &'r Registry<'t>,
    pub names: &'i Names<'r, 't>,
    pub pedigree: Pedigree,
    pub origin: OriginRow,
    pub founding: &'i Founding,
    pub pair: [PlantRow; 2],
}
