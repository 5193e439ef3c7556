//! A record by its row: `registry[row]`.

use super::cross::Cross;
use super::origin::Origin;
use super::readings::SittingHead;
use super::row_types::{
    CrossRow, LotRow, OriginRow, PodRow, PollenRow, PotRow, SittingRow, SowingRow, TraitRow,
    ZoneRow,
};
use super::whole::Registry;
use crate::record::{CommunityPot, Pod, PollenLot, Pollination, SeedLot, Sowing, Trait};
use std::ops::Index;

impl<'t> Index<CrossRow> for Registry<'t> {
    type Output = Cross<'t>;

    fn index(&self, row: CrossRow) -> &Cross<'t> {
        &self.crosses[row.index()]
    }
}

impl Index<OriginRow> for Registry<'_> {
    type Output = Origin;

    fn index(&self, row: OriginRow) -> &Origin {
        &self.origins()[row.index()]
    }
}

impl<'t> Index<SittingRow> for Registry<'t> {
    type Output = SittingHead<'t>;

    fn index(&self, row: SittingRow) -> &SittingHead<'t> {
        &self.readings.sittings()[row.index()]
    }
}

impl<'t> Index<TraitRow> for Registry<'t> {
    type Output = Trait<'t>;

    fn index(&self, row: TraitRow) -> &Trait<'t> {
        &self.settings.traits[row.index()]
    }
}

impl<'t> Index<PollenRow> for Registry<'t> {
    type Output = PollenLot<'t>;

    fn index(&self, row: PollenRow) -> &PollenLot<'t> {
        &self.pollen[row.index()]
    }
}

/// A part of a cross by its place, and all parts of that kind on a page.
macro_rules! parts {
    ($row:ident, $part:ident, $list:ident, $(#[$docs:meta])* $all:ident) => {
        impl<'t> Index<$row> for Registry<'t> {
            type Output = $part<'t>;

            fn index(&self, row: $row) -> &$part<'t> {
                &self[row.cross].page.$list[row.at]
            }
        }

        impl<'t> Registry<'t> {
            $(#[$docs])*
            pub fn $all(&self, cross: CrossRow) -> impl ExactSizeIterator<Item = ($row, &$part<'t>)> {
                let parts = self[cross].page.$list.iter().enumerate();
                parts.map(move |(at, part)| ($row { cross, at }, part))
            }
        }
    };
}

parts! {
    ZoneRow, Pollination, pollinations,
    /// The pollinations of a cross, as on its page.
    zones
}
parts! {
    PodRow, Pod, pods,
    /// The pods of a cross, as on its page.
    pods
}
parts! {
    LotRow, SeedLot, seed_lots,
    /// The seed lots of a cross, as on its page.
    seed_lots
}
parts! {
    SowingRow, Sowing, sowings,
    /// The sowings of a cross, as on its page.
    sowings
}
parts! {
    PotRow, CommunityPot, community_pots,
    /// The community pots of a cross, as on its page.
    community_pots
}
