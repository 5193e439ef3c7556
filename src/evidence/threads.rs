//! Does one thread bear pollen of two crosses? Then the pods under it have two possible fathers, whatever their pages say.

use crate::observation::spike_days::LAST_AT_MOST;
use crate::record::{Parents, Pollination, When};
use crate::registry::{CrossRow, PlantRow, Registry, ZoneRow};
use std::collections::BTreeMap;

/// Zones of one name on one seed parent, in two crosses of other parents, that may be the same flowers: each with the first
/// other one, both ways. Single letters are chosen by podbook and begin anew with each cross.
pub fn shared_threads(registry: &Registry) -> BTreeMap<ZoneRow, ZoneRow> {
    let mut of_thread: BTreeMap<(PlantRow, &str), Vec<ZoneRow>> = BTreeMap::new();
    let mut found = BTreeMap::new();
    for cross in registry.cross_rows() {
        let Some(mother) = mother(registry, cross) else {
            continue;
        };
        for (zone, of) in registry.zones(cross).filter(|(_, of)| !is_letter(of.zone)) {
            let before = of_thread.entry((mother, of.zone)).or_default();
            let same = before.iter().find(|other| {
                has_other_parents(registry, other.cross, cross)
                    && may_be_one(registry, &registry[**other], of)
            });
            if let Some(same) = same {
                found.insert(zone, *same);
                found.entry(*same).or_insert(zone);
            }
            before.push(zone);
        }
    }
    found
}

/// For each pollination the zone of another cross that may be the same flowers, as `X23-02.red`: on record here, or
/// named by a lineage that came without its page.
pub fn same_flowers(registry: &Registry) -> BTreeMap<ZoneRow, String> {
    let shared = shared_threads(registry).into_iter();
    let shared = shared.map(|(zone, other)| (zone, zone_code(registry, other)));
    let mut found: BTreeMap<ZoneRow, String> = shared.collect();
    let zones = registry
        .cross_rows()
        .flat_map(|cross| registry.zones(cross));
    let told = zones.filter_map(|(zone, of)| Some((zone, of.same_flowers?.to_owned())));
    found.extend(told);
    found
}

/// The code of a pollination, such as `X23-02.red`.
pub fn zone_code(registry: &Registry, zone: ZoneRow) -> String {
    format!("{}.{}", registry[zone.cross].page.code, registry[zone].zone)
}

/// Whether two crosses are of other parents: a pair that is crossed again has a page for each year.
fn has_other_parents(registry: &Registry, one: CrossRow, other: CrossRow) -> bool {
    let pairs = |cross: CrossRow| &registry[registry[cross].origin].pairs;
    pairs(one) != pairs(other)
}

fn is_letter(zone: &str) -> bool {
    matches!(zone.as_bytes(), [letter] if letter.is_ascii_uppercase())
}

/// The seed parent, where it is certain.
fn mother(registry: &Registry, cross: CrossRow) -> Option<PlantRow> {
    if matches!(registry[cross].page.parents, Parents::DirectionLost(_)) {
        return None;
    }
    let mut seeds = registry[registry[cross].origin].pairs.iter();
    let seed = seeds.next()?.seed?;
    seeds.all(|pair| pair.seed == Some(seed)).then_some(seed)
}

/// Whether two pollinations may be of the same flowers: piece and spike do not differ, and two days are near.
fn may_be_one(registry: &Registry, one: &Pollination, other: &Pollination) -> bool {
    let differ = |one: Option<&str>, other: Option<&str>| {
        one.zip(other).is_some_and(|(one, other)| one != other)
    };
    let days = |of: &Pollination| -> Vec<When> {
        let days = of.on.iter().map(|day| registry.when(day));
        days.filter(|day| *day != When::UNKNOWN).collect()
    };
    let near = |a: &When, b: &When| a.first.0 <= b.last.0.saturating_add(LAST_AT_MOST);
    let (days, others) = (days(one), days(other));
    let mut pairs = days.iter().flat_map(|a| others.iter().map(move |b| (a, b)));
    !differ(one.plant, other.plant)
        && !differ(one.spike, other.spike)
        && pairs.any(|(a, b)| near(a, b) && near(b, a))
}
