//! Which record counts the seedlings that still stand in their sowing.
//!
//! It is a community pot of that sowing that nothing was pricked out into. A pot that was filled has its kind or its place on
//! record; a mere count has neither. Where a pricking out names no pot, the one that held as many on that day was filled by it.

use crate::record::{CommunityPot, CrossPage, Sowing};
use crate::registry::{PotRow, Registry, SowingRow};

/// The places, in the list of community pots, of the counts of what stands in a sowing: none, one, or several where they
/// were written by hand. Those that came to an end are among them.
pub fn counts_in_sowing(page: &CrossPage, sowing: &Sowing) -> impl Iterator<Item = usize> {
    let is_count = |pot: &CommunityPot| {
        pot.sowing == Some(sowing.code)
            && !is_filled(sowing, pot)
            && pot.pot.is_none()
            && pot.place.is_none()
            && pot.one_of.is_empty()
    };
    let pots = page.community_pots.iter().enumerate();
    pots.filter(move |(_, pot)| is_count(pot)).map(|(at, _)| at)
}

/// The same of a sowing by its row.
pub fn counts_of(registry: &Registry, row: SowingRow) -> impl Iterator<Item = PotRow> {
    let counts = counts_in_sowing(&registry[row.cross].page, &registry[row]);
    counts.map(move |at| PotRow {
        cross: row.cross,
        at,
    })
}

/// Whether seedlings of a sowing were pricked out into a pot.
pub fn is_filled(sowing: &Sowing, pot: &CommunityPot) -> bool {
    let mut prickings = sowing.pricked_out.iter();
    prickings.any(|pricking| match pricking.to.as_deref() {
        Some(to) => to == pot.code,
        None => pot.alive.iter().any(|of| {
            let (moved, left) = (pricking.moved, pricking.left);
            of.on == pricking.on && of.count == moved && left != Some(moved)
        }),
    })
}
