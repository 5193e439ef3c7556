//! Envelopes that another grower filled: whose pollen was in them is that grower's word.

use crate::record::Pollination;
use crate::registry::{CrossRow, Registry, ZoneRow};

/// Who told whose pollen a pollination was made with; `None` where that is on record as the word of whoever made it.
pub fn pollen_teller<'t>(registry: &Registry<'t>, of: &Pollination<'t>) -> Option<&'t str> {
    let lot = of.pollen.and_then(|code| registry.pollen_lot(code));
    let told = lot.and_then(|lot| registry[lot].told_by.as_ref());
    of.pollen_told_by.or(told.map(|by| by.registry))
}

/// The pollinations of a cross with such envelopes, and who told of them. What the teller of the whole page said is no
/// word of a third.
pub(super) fn pollen_tellers<'r, 't>(
    registry: &'r Registry<'t>,
    cross: CrossRow,
) -> impl Iterator<Item = (ZoneRow, &'t str)> + 'r {
    let page = registry[cross].page.told_by.as_ref();
    let own = page.map(|by| by.registry).or(registry.settings.registry);
    let zones = registry.zones(cross);
    let told = zones.filter_map(|(zone, of)| Some((zone, pollen_teller(registry, of)?)));
    told.filter(move |(_, by)| Some(*by) != own)
}
