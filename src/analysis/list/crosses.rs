//! Crosses in rows: how far each came.

use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::presence::{Presence, presence};
use crate::observation::provenance::stages;
use crate::observation::tally::{Total, germinated, seeds_sown};
use crate::record::When;
use crate::registry::CrossRow;

/// All crosses.
#[derive(Clone, Debug, PartialEq)]
pub struct CrossList {
    /// Rows in the order of their codes.
    pub crosses: Vec<CrossLine>,
    /// Seedlings with a number of all of them.
    pub numbered: usize,
    /// Of those, here today.
    pub here: usize,
}

/// One cross.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CrossLine {
    /// The cross.
    pub cross: CrossRow,
    /// First to last day of pollination; `None` when no day is on record.
    pub pollinated: Option<When>,
    /// Pods on record.
    pub pods: usize,
    /// Seeds sown; `None` when not counted.
    pub sown: Option<Total>,
    /// Seedlings that came up; `None` when not counted.
    pub germinated: Option<Total>,
    /// Seedlings with a number.
    pub numbered: usize,
    /// Of those, here today.
    pub here: usize,
    /// Of those that are here, kept.
    pub kept: usize,
}

/// Lists crosses.
pub fn crosses(context: &Context) -> CrossList {
    let rows = context.registry.cross_rows();
    let crosses: Vec<CrossLine> = rows.map(|row| cross_line(context, row)).collect();
    CrossList {
        numbered: crosses.iter().map(|of| of.numbered).sum(),
        here: crosses.iter().map(|of| of.here).sum(),
        crosses,
    }
}

/// One cross in a row.
pub fn cross_line(context: &Context, row: CrossRow) -> CrossLine {
    let (registry, today) = (context.registry, context.today);
    let cross = &registry[row];
    let seedlings = cross.seedlings.iter();
    let here = |&&plant: &&PlantRow| presence(registry, plant, today) == Presence::Here;
    let pollinated = stages(registry, row, None, None).pollinated;
    CrossLine {
        cross: row,
        pollinated: (pollinated != When::UNKNOWN).then_some(pollinated),
        pods: cross.page.pods.len(),
        sown: seeds_sown(&cross.page),
        germinated: germinated(&cross.page),
        numbered: cross.seedlings.len(),
        here: seedlings.clone().filter(here).count(),
        kept: seedlings
            .filter(here)
            .filter(|&&plant| registry.is_kept(plant))
            .count(),
    }
}
