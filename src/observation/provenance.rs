//! Where a seedling comes from, from the pollination to its pot, with every date as a range.

use crate::record::{CrossPage, Hemisphere, Pollination, Tally, When};
use crate::registry::{CrossRow, PlantRow, PodRow, Registry, SowingRow};
use crate::wording::each_once;

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

/// Every provenance a seedling may have: one for each plant it was mixed up with, for each pod it may be of, whose sowing is
/// not known then, or for each sowing of siblings it was mixed up with. Only one of them is true, so a time between two days is
/// taken within one.
pub fn possible(registry: &Registry, plant: PlantRow) -> Vec<Provenance> {
    let Some(cross) = registry.cross_of(plant) else {
        return vec![Provenance::UNKNOWN];
    };
    let pods = registry.pods_it_may_be_of(plant);
    if let Some(roads) = roads_of_mixed_up(registry, plant, &pods) {
        let each = roads.into_iter();
        let each = each.map(|(sowing, pod)| stages(registry, pod.cross, sowing, Some(pod)));
        return each.collect();
    }
    if !pods.is_empty() {
        let each = pods.into_iter();
        let each = each.map(|pod| stages(registry, pod.cross, None, Some(pod)));
        return each.collect();
    }
    let own = registry
        .seedling(plant)
        .and_then(|seedling| seedling.germinated)
        .map(|on| registry.when(on));
    let pod = registry.road(plant).1;
    let sowings = sowings_it_may_be_of(registry, plant).into_iter();
    let roads = sowings.map(|sowing| stages(registry, cross, sowing, pod));
    roads
        .map(|road| Provenance {
            germinated: own.unwrap_or(road.germinated),
            ..road
        })
        .collect()
}

/// A sowing, if one is on record, and a pod.
type Road = (Option<SowingRow>, PodRow);

/// The sowing and the pod of a plant that may be of several pods, and those of the plants it was mixed up with; none where
/// these are not all the pods it may be of.
fn roads_of_mixed_up(registry: &Registry, plant: PlantRow, pods: &[PodRow]) -> Option<Vec<Road>> {
    let with = registry.open_mix_ups(plant).flat_map(|muddle| &muddle.with);
    let others = with.map(|code| registry.plant(code));
    let plants: Vec<PlantRow> = std::iter::once(Some(plant))
        .chain(others)
        .collect::<Option<_>>()?;
    let road = |plant| {
        let (sowing, pod, ..) = registry.road(plant);
        // A seedling that may be of several pods has none of its own, but the one of its sowing.
        let pod = pod.or_else(|| pod_of_sowing(registry, sowing?));
        Some((sowing, pod?))
    };
    let roads: Vec<Road> = plants.into_iter().map(road).collect::<Option<_>>()?;
    let roads = each_once(roads);
    let is_known = |pod: &PodRow| roads.iter().any(|road| road.1 == *pod);
    (!pods.is_empty() && pods.iter().all(is_known)).then_some(roads)
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

/// The sowing of a seedling, and those of siblings it was mixed up with and is not known apart from yet; `None` is one that is
/// not on record.
fn sowings_it_may_be_of(registry: &Registry, plant: PlantRow) -> Vec<Option<SowingRow>> {
    let with = registry.open_mix_ups(plant).flat_map(|muddle| &muddle.with);
    let others = with.filter_map(|other| registry.plant(other));
    each_once(
        [plant]
            .into_iter()
            .chain(others)
            .map(|of| registry.road(of).0),
    )
}

/// Whether a plant may be of another pod or sowing than its record names.
pub fn is_mixed_up(registry: &Registry, plant: PlantRow) -> bool {
    registry.open_mix_ups(plant).next().is_some() || !registry.pods_it_may_be_of(plant).is_empty()
}

/// The sowing a plant is of for sure; none where it was mixed up with a plant of another pod or sowing, or no sowing is on
/// record.
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
/// pods, whose readings may be of another cross, a range where it was mixed up with siblings of another sowing.
pub fn sown(registry: &Registry, plant: PlantRow) -> When {
    if !registry.pods_it_may_be_of(plant).is_empty() {
        return When::UNKNOWN;
    }
    let sowings = sowings_it_may_be_of(registry, plant).into_iter();
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
