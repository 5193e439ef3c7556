//! The registry with an intended pollination in it, as one more cross of the pedigree.

use crate::analysis::descent::Descent;
use crate::evidence::Evidence;
use crate::lineage::{Founding, Lineage, Pedigree, PlantRow};
use crate::naming::recorded::Names;
use crate::registry::{OriginRow, Registry};

/// The registry with the intended pollination added as one more origin.
pub(crate) struct Intended<'i, 't> {
    pub registry: &'i Registry<'t>,
    pub lineage: &'i Lineage,
    pub names: &'i Names<'i, 't>,
    pub evidence: &'i Evidence<'i, 't>,
    pub descent: Descent,
    pub pedigree: Pedigree,
    pub origin: OriginRow,
    pub founding: Founding,
    pub pair: [PlantRow; 2],
}
