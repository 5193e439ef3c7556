//! Where a seedling comes from, from the pollination to its pot, with every date as a range.

use crate::record::{CrossPage, Hemisphere, Pollination, When};
use crate::registry::{CrossRow, PlantRow, PodRow, Registry, SowingRow};

/// The dates from a seedling's pollination on; unknown ones are open ranges.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Provenance {
    /// First to last day of pollination of its zone, or of all zones when the pod is not known.
    pub pollinated: When,
    /// Harvest of its pod.
    pub harvested: When,
    /// Its sowing.
    pub sown: When,
    /// When it came up: its own date, or from the first to the last count of its sowing.
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

/// The provenance of a seedling; all unknown for a founder.
pub fn provenance(registry: &Registry, plant: PlantRow) -> Provenance {
    let Some(cross) = registry.cross_of(plant) else {
        return Provenance::UNKNOWN;
    };
    let (sowing, pod, _) = registry.road(plant);
    let muddled = registry.pods_it_may_be_of(plant);
    if !muddled.is_empty() {
        return of_any(registry, &muddled);
    }
    let own = registry
        .seedling(plant)
        .and_then(|seedling| seedling.germinated);
    let sowings = sowings_it_may_be_of(registry, plant);
    let counted = || covering(sowings.iter().map(|&sowing| germinated(registry, sowing)));
    Provenance {
        sown: covering(sowings.iter().map(|&sowing| on_record(registry, sowing))),
        germinated: own.map_or_else(counted, |on| registry.when(on)),
        ..stages(registry, cross, sowing, pod)
    }
}

/// The sowing of a seedling, and those of siblings it was mixed up with and is not known apart from yet; `None` is one that is
/// not on record.
fn sowings_it_may_be_of(registry: &Registry, plant: PlantRow) -> Vec<Option<SowingRow>> {
    let mut sowings = vec![registry.road(plant).0];
    let muddled = registry
        .seedling(plant)
        .map_or(&[][..], |own| &own.muddled[..]);
    let open = muddled.iter().filter(|muddle| muddle.settled.is_none());
    for other in open.flat_map(|muddle| &muddle.with) {
        if let Some(other) = registry.plant(other) {
            let sowing = registry.road(other).0;
            if !sowings.contains(&sowing) {
                sowings.push(sowing);
            }
        }
    }
    sowings
}

/// The provenance of a plant that may have come from any of several pods: each date covers all of them, the sowing is not known.
fn of_any(registry: &Registry, pods: &[PodRow]) -> Provenance {
    let roads = pods.iter();
    let roads = roads.map(|&pod| stages(registry, pod.cross, None, Some(pod)));
    let roads: Vec<Provenance> = roads.collect();
    Provenance {
        pollinated: covering(roads.iter().map(|road| road.pollinated)),
        harvested: covering(roads.iter().map(|road| road.harvested)),
        ..Provenance::UNKNOWN
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

/// The day a plant was sown; unknown for a founder and for a plant that may have come from any of several pods, a range
/// where it was mixed up with siblings of another sowing.
pub fn sown(registry: &Registry, plant: PlantRow) -> When {
    if !registry.pods_it_may_be_of(plant).is_empty() {
        return When::UNKNOWN;
    }
    let sowings = sowings_it_may_be_of(registry, plant).into_iter();
    covering(sowings.map(|sowing| on_record(registry, sowing)))
}

fn germinated(registry: &Registry, sowing: Option<SowingRow>) -> When {
    let Some(sowing) = sowing else {
        return When::UNKNOWN;
    };
    let counted = registry[sowing]
        .germinated
        .iter()
        .filter(|tally| tally.count > 0);
    covering(counted.map(|tally| registry.when(tally.on)))
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
