//! Where a seedling comes from, from the pollination to its pot, with every date as a range.

use super::who_it_may_be::{is_mixed_up, out_of, pots_it_may_be};
use crate::record::{CrossPage, Hemisphere, Pollination, Tally, When};
use crate::registry::{CrossRow, PlantRow, PodRow, PotRow, Registry, SowingRow};

/// The dates from a seedling's pollination on; unknown ones are open ranges.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Provenance {
    /// First to last day of pollination of its zone, or of all zones when the pod is not known.
    pub pollinated: When,
    /// Harvest of its pod.
    pub harvested: When,
    /// Its sowing.
    pub sown: When,
    /// When it came up: its own date, or from the last day on which none was up in its sowing, else from the day it was sown,
    /// to the last count.
    pub germinated: When,
}

impl Provenance {
    /// Nothing known.
    pub const UNKNOWN: Provenance = Provenance {
        pollinated: When::UNKNOWN,
        harvested: When::UNKNOWN,
        sown: When::UNKNOWN,
        germinated: When::UNKNOWN,
    };
}

/// The provenance of a seedling; all unknown for a founder. Where it may be of several pods or sowings each date covers all of
/// them.
pub fn provenance(registry: &Registry, plant: PlantRow) -> Provenance {
    let possible = possible(registry, plant);
    let covered = |of: fn(&Provenance) -> When| covering(possible.iter().map(of));
    Provenance {
        pollinated: covered(|road| road.pollinated),
        harvested: covered(|road| road.harvested),
        sown: covered(|road| road.sown),
        germinated: covered(|road| road.germinated),
    }
}

/// Every provenance a seedling may have: one for each road by which it may have come. Only one of them is true, so a time
/// between two days is taken within one.
pub fn possible(registry: &Registry, plant: PlantRow) -> Vec<Provenance> {
    let roads = roads(registry, plant).into_iter();
    roads.map(|road| road.provenance(registry)).collect()
}

/// A road by which a seedling may have come; `None` is what is not on record.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct Road {
    /// The cross; none for a founder.
    pub cross: Option<CrossRow>,
    pub sowing: Option<SowingRow>,
    pub pod: Option<PodRow>,
    /// When the seedling that came by it was seen to come up.
    germinated: Option<When>,
}

impl Road {
    /// The road on a plant's own record.
    fn of(registry: &Registry, plant: PlantRow) -> Road {
        let (sowing, pod, _) = registry.road(plant);
        let germinated = registry.seedling(plant).and_then(|own| own.germinated);
        Road {
            cross: registry.cross_of(plant),
            sowing,
            // A seedling that may be of several pods has none of its own, but the one of its sowing.
            pod: pod.or_else(|| pod_of_sowing(registry, sowing?)),
            germinated: germinated.map(|on| registry.when(on)),
        }
    }

    /// The same out of another pot.
    fn out_of(self, registry: &Registry, pot: PotRow) -> Road {
        let sowing = sowing_of_pot(registry, pot);
        let pods = registry[pot.cross].page.pods.len();
        let only = (pods == 1).then_some(PodRow {
            cross: pot.cross,
            at: 0,
        });
        Road {
            cross: Some(pot.cross),
            sowing,
            pod: sowing.and_then(|of| pod_of_sowing(registry, of)).or(only),
            ..self
        }
    }

    fn provenance(self, registry: &Registry) -> Provenance {
        let Some(cross) = self.cross else {
            return Provenance::UNKNOWN;
        };
        let stages = stages(registry, cross, self.sowing, self.pod);
        Provenance {
            germinated: self.germinated.unwrap_or(stages.germinated),
            ..stages
        }
    }
}

/// Every road by which a seedling may have come: its own, and those of all that it may be, with the pots they were numbered
/// out of. Where these are not all the pods it may be of, one for each of these pods, whose sowing is not known then.
pub(crate) fn roads(registry: &Registry, plant: PlantRow) -> Vec<Road> {
    let own = Road::of(registry, plant);
    if !is_mixed_up(registry, plant) {
        return vec![own];
    }
    let (plants, all_on_record) = out_of(registry, plant);
    let mut roads: Vec<Road> = Vec::new();
    for of in plants {
        let own = Road::of(registry, of.plant);
        let is_its_own = of.pots.is_empty() || !came_from_others(registry, of.plant);
        let others = of.pots.iter().map(|&pot| own.out_of(registry, pot));
        for road in is_its_own.then_some(own).into_iter().chain(others) {
            if !roads.contains(&road) {
                roads.push(road);
            }
        }
    }
    let pods = registry.pods_it_may_be_of(plant);
    let is_known = |pod: &PodRow| roads.iter().any(|road| road.pod == Some(*pod));
    let have_pods = all_on_record && roads.iter().all(|road| road.pod.is_some());
    let all_known = have_pods && pods.iter().all(is_known);
    if !pods.is_empty() && !all_known {
        let each = pods.into_iter();
        let each = each.map(|pod| Road {
            cross: Some(pod.cross),
            sowing: None,
            pod: Some(pod),
            germinated: None,
        });
        return each.collect();
    }
    if !all_on_record {
        roads.push(Road {
            sowing: None,
            germinated: None,
            ..own
        });
    }
    roads
}

/// Whether a plant was numbered out of a pot that holds seedlings of others.
fn came_from_others(registry: &Registry, plant: PlantRow) -> bool {
    let pot = registry.road(plant).2;
    pot.is_some_and(|pot| registry[pot].filled_by().is_some())
}

/// The sowing that a community pot is of: the one it names, or the page's only one.
fn sowing_of_pot(registry: &Registry, pot: PotRow) -> Option<SowingRow> {
    let named = registry[pot].sowing;
    let mut sowings = registry.sowings(pot.cross);
    let is_only = registry[pot.cross].page.sowings.len() == 1;
    let it = sowings.find(|(_, of)| named.map_or(is_only, |code| code == of.code));
    it.map(|(row, _)| row)
}

/// The pod a sowing came from, directly or through its seed lot.
pub fn pod_of_sowing(registry: &Registry, row: SowingRow) -> Option<PodRow> {
    let page = &registry[row.cross].page;
    let sowing = &registry[row];
    let lot = || {
        let lot = page
            .seed_lots
            .iter()
            .find(|lot| Some(lot.code) == sowing.lot);
        lot.and_then(|lot| lot.pod)
    };
    let pod = sowing.pod.or_else(lot)?;
    let mut pods = registry.pods(row.cross);
    pods.find(|(_, of)| of.code == pod).map(|(row, _)| row)
}

/// The sowings a seedling may be of; `None` is one that is not on record.
pub fn sowings_it_may_be_of(registry: &Registry, plant: PlantRow) -> Vec<Option<SowingRow>> {
    let mut sowings: Vec<Option<SowingRow>> = Vec::new();
    for road in roads(registry, plant) {
        if !sowings.contains(&road.sowing) {
            sowings.push(road.sowing);
        }
    }
    sowings
}

/// The sowing a plant is of for sure; none where it may be of another pod or sowing, or no sowing is on record.
pub fn sure_sowing(registry: &Registry, plant: PlantRow) -> Option<SowingRow> {
    if !is_mixed_up(registry, plant) {
        return registry.road(plant).0;
    }
    let is_of_one_pod = registry.pods_it_may_be_of(plant).is_empty();
    match sowings_it_may_be_of(registry, plant)[..] {
        [sowing] if is_of_one_pod => sowing,
        _ => None,
    }
}

/// The dates of a sowing and a pod of one cross.
pub fn stages(
    registry: &Registry,
    cross: CrossRow,
    sowing: Option<SowingRow>,
    pod: Option<PodRow>,
) -> Provenance {
    let pod = pod.map(|pod| &registry[pod]);
    let zone = pod.and_then(|pod| pod.zone);
    let of_zone = |p: &&Pollination| zone.is_none_or(|zone| p.zone == zone);
    let pollinations = registry[cross]
        .page
        .pollinations
        .iter()
        .filter(of_zone)
        .flat_map(|p| &p.on);
    Provenance {
        pollinated: covering(pollinations.map(|on| registry.when(on))),
        harvested: pod
            .and_then(|pod| pod.harvested)
            .map_or(When::UNKNOWN, |on| registry.when(on)),
        sown: on_record(registry, sowing),
        germinated: germinated(registry, sowing),
    }
}

fn day_sown(registry: &Registry, sowing: SowingRow) -> When {
    let on = registry[sowing].on;
    on.map_or(When::UNKNOWN, |on| registry.when(on))
}

fn on_record(registry: &Registry, sowing: Option<SowingRow>) -> When {
    sowing.map_or(When::UNKNOWN, |sowing| day_sown(registry, sowing))
}

/// The day a plant was sown, for figures by age; unknown for a founder and for a plant that may have come from any of several
/// pods, whose readings may be of another cross, a range where it may be of several sowings of one.
pub fn sown(registry: &Registry, plant: PlantRow) -> When {
    if !is_mixed_up(registry, plant) {
        return on_record(registry, registry.road(plant).0);
    }
    if !registry.pods_it_may_be_of(plant).is_empty() {
        return When::UNKNOWN;
    }
    let sowings = sowings_it_may_be_of(registry, plant).into_iter();
    covering(sowings.map(|sowing| on_record(registry, sowing)))
}

/// The day the seedlings of a community pot were sown, by the rule of [`sown`].
pub fn pot_sown(registry: &Registry, pot: PotRow) -> When {
    let (pots, all_on_record) = pots_it_may_be(registry, pot);
    if !registry.pods_of_pot(pot).is_empty() || !all_on_record {
        return When::UNKNOWN;
    }
    let sowings = pots.into_iter().map(|pot| sowing_of_pot(registry, pot));
    covering(sowings.map(|sowing| on_record(registry, sowing)))
}

/// What was up at the first count with a seedling came up before it: since the last count of none, or since it was sown.
fn germinated(registry: &Registry, sowing: Option<SowingRow>) -> When {
    let Some(sowing) = sowing else {
        return When::UNKNOWN;
    };
    let counts = registry[sowing].germinated.iter();
    let (none, some): (Vec<_>, Vec<_>) = counts.partition(|tally| tally.count == 0);
    let dated = |tallies: Vec<&Tally>| -> Vec<When> {
        let dates = tallies.iter().map(|tally| registry.when(tally.on));
        dates.collect()
    };
    let (none, some) = (dated(none), dated(some));
    if some.is_empty() {
        return When::UNKNOWN;
    }
    let counted = covering(some.into_iter());
    let still_none = none.iter().map(|when| when.first);
    let still_none = still_none.filter(|&day| day <= counted.first).max();
    let since = still_none.unwrap_or(day_sown(registry, sowing).first);
    When {
        first: since.min(counted.first),
        last: counted.last,
    }
}

/// The least range that covers all; unknown when there is none.
pub fn covering(dates: impl Iterator<Item = When>) -> When {
    dates
        .reduce(|a, b| When {
            first: a.first.min(b.first),
            last: a.last.max(b.last),
        })
        .unwrap_or(When::UNKNOWN)
}

/// Which hemisphere the seasons among the dates of a cross are read in; `None` when no date is a season.
pub fn seasons_read(registry: &Registry, page: &CrossPage) -> Option<String> {
    let harvests = page.pods.iter().filter_map(|pod| pod.harvested);
    let sowings = page.sowings.iter().filter_map(|sowing| sowing.on);
    let pollinations = page.pollinations.iter().flat_map(|p| p.on.iter().copied());
    let is_season =
        |text: &&str| When::read(text, Hemisphere::North) != When::read(text, Hemisphere::South);
    let season = pollinations
        .chain(harvests)
        .chain(sowings)
        .find(is_season)?;
    let half = match registry.settings.hemisphere {
        Hemisphere::North => "northern",
        Hemisphere::South => "southern",
    };
    Some(format!(
        "\"{season}\" is read as in the {half} hemisphere: `hemisphere` in registry.ron (north if not said)"
    ))
}
