//! What a pedigree is put together from.

use super::family::{muddled, raised};
use crate::context::Context;
use crate::lineage::{Family, Lineage, PlantRow};
use crate::naming::recorded::Names;
use crate::registry::{OriginRow, Registry};
use std::collections::BTreeMap;

/// Everything a pedigree is put together from.
pub(super) struct Work<'w, 'r, 't> {
    pub context: &'w Context<'r, 't>,
    pub registry: &'r Registry<'t>,
    pub lineage: &'w Lineage,
    pub names: &'w Names<'r, 't>,
    pub family: &'w Family,
    /// Seedlings of muddled trays by their origins: no cross leads to them.
    pub muddled: BTreeMap<OriginRow, Vec<PlantRow>>,
    /// Plants of the family by their origins.
    pub raised: BTreeMap<OriginRow, Vec<PlantRow>>,
}

impl<'w, 'r, 't> Work<'w, 'r, 't> {
    pub fn of(context: &'w Context<'r, 't>, family: &'w Family) -> Self {
        let (registry, names) = (context.registry, context.names());
        Work {
            context,
            registry,
            lineage: context.lineage(),
            names,
            family,
            muddled: muddled(registry, names),
            raised: raised(registry, family),
        }
    }
}
