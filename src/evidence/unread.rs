//! Fields about parents that stand on record and could not be read: what they would lower is not known.

use super::unit::Unit;
use crate::registry::{CrossRow, Registry, ZoneRow};
use crate::text::{FileId, Span};
use std::collections::BTreeMap;

/// The units of which such a field could not be read, each with where the first of them stands.
pub(super) struct UnreadDoubts(BTreeMap<Unit, Span>);

impl UnreadDoubts {
    /// Those in all pages of a registry.
    pub fn in_pages_of(registry: &Registry) -> UnreadDoubts {
        let mut unread = BTreeMap::new();
        for (file, source) in registry.sources.iter() {
            for (code, what, at) in source.open() {
                for unit in units(registry, file, (code, what)) {
                    unread.entry(unit).or_insert(Span::at(file, at));
                }
            }
        }
        let envelopes = all_zones(registry);
        let envelopes =
            envelopes.filter_map(|zone| Some((zone, envelope_left_out(registry, zone)?)));
        for (zone, at) in envelopes {
            unread.entry(Unit::Zone(zone)).or_insert(at);
        }
        UnreadDoubts(unread)
    }

    /// Where such a field of a unit stands: on its own record, on that of the pot it was numbered out of, or on the page of a
    /// cross with these pollinations.
    pub fn of(
        &self,
        registry: &Registry,
        unit: Unit,
        (cross, zones): (CrossRow, &[ZoneRow]),
    ) -> Option<Span> {
        if self.0.is_empty() {
            return None;
        }
        let pot = match unit {
            Unit::Plant(plant) => registry.road(plant).2.map(Unit::Pot),
            _ => None,
        };
        let zones = zones.iter().map(|zone| Unit::Zone(*zone));
        let mut all = [unit, Unit::Cross(cross)]
            .into_iter()
            .chain(pot)
            .chain(zones);
        all.find_map(|of| self.0.get(&of).copied())
    }
}

/// What a record is, of a kind and with a code on a page.
fn units(registry: &Registry, file: FileId, (code, kind): (&str, &str)) -> Vec<Unit> {
    let cross = || {
        registry
            .cross_rows()
            .find(|cross| registry[*cross].file == file)
    };
    let unit = || match kind {
        "cross" => Some(Unit::Cross(cross()?)),
        "seedling" => {
            let whole = format!("{}-{code}", registry[cross()?].page.code);
            registry.plant(&whole).map(Unit::Plant)
        }
        "community pot" => {
            let mut pots = registry.community_pots(cross()?);
            pots.find(|(_, pot)| pot.code == code)
                .map(|(row, _)| Unit::Pot(row))
        }
        "pollination" => {
            let mut zones = registry.zones(cross()?);
            zones
                .find(|(_, of)| of.zone == code)
                .map(|(row, _)| Unit::Zone(row))
        }
        _ => None,
    };
    if kind != "pollen lot" {
        return unit().into_iter().collect();
    }
    let of_lot = all_zones(registry).filter(|zone| registry[*zone].pollen == Some(code));
    of_lot.map(Unit::Zone).collect()
}

fn all_zones<'r>(registry: &'r Registry) -> impl Iterator<Item = ZoneRow> + 'r {
    let crosses = registry.cross_rows();
    crosses.flat_map(|cross: CrossRow| registry.zones(cross).map(|(row, _)| row))
}

/// Where the envelope of a pollination stands, if it was left out because of a fault of its own.
fn envelope_left_out(registry: &Registry, zone: ZoneRow) -> Option<Span> {
    let file = registry.sources.find("pollen.ron")?;
    let at = registry
        .sources
        .get(file)
        .left_out(registry[zone].pollen?, Some("pollen lot"))?;
    Some(Span::at(file, at))
}
