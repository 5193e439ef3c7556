//! Which other registries told of what is on record.

use super::Registry;
use std::collections::BTreeSet;

impl<'t> Registry<'t> {
    /// The short names of the other registries that a founder, a cross or an envelope came from.
    pub fn tellers(&self) -> BTreeSet<&'t str> {
        let founders = self.founders().iter().filter_map(|of| of.told_by.as_ref());
        let crosses = self
            .crosses
            .iter()
            .filter_map(|of| of.page.told_by.as_deref());
        let lots = self.pollen.iter().filter_map(|of| of.told_by.as_ref());
        let told = founders.chain(crosses).chain(lots);
        told.map(|told| told.registry).collect()
    }
}
