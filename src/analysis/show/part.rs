//! Parts of a cross: what stands under a zone, a pod or a sowing.

use super::history::{History, history};
use crate::analysis::list::{PodLine, pod_line};
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::provenance::{pod_of_sowing, sowings_it_may_be_of, stages, sure_sowing};
use crate::observation::who_it_may_be::is_mixed_up;
use crate::record::When;
use crate::registry::{LotRow, PodRow, Registry, SowingRow, ZoneRow};

/// The road of a pod's seed.
pub fn pod_history(context: &Context, pod: PodRow) -> History {
    let road = stages(context.registry, pod.cross, None, Some(pod));
    history(road, None, When::on(context.today))
}

/// The road of a seed lot: that of the pod it is of; `None` where that is not on record.
pub fn lot_history(context: &Context, lot: LotRow) -> Option<History> {
    let code = context.registry[lot].pod?;
    let mut pods = context.registry.pods(lot.cross);
    let (pod, _) = pods.find(|(_, pod)| pod.code == code)?;
    Some(pod_history(context, pod))
}

/// The road of a sowing, by the days of the pod its seed is of where that is on record.
pub fn sowing_history(context: &Context, sowing: SowingRow) -> History {
    let pod = pod_of_sowing(context.registry, sowing);
    let road = stages(context.registry, sowing.cross, Some(sowing), pod);
    history(road, None, When::on(context.today))
}

/// The pods a zone set, in the order of the page.
pub fn pods_of_zone(registry: &Registry, zone: ZoneRow) -> Vec<PodLine> {
    let pods = registry.pods(zone.cross);
    let of_zone = pods.filter(|(_, pod)| pod.zone == Some(registry[zone].zone));
    of_zone.map(|(pod, _)| pod_line(registry, pod)).collect()
}

/// How many numbered seedlings are surely of a pod.
pub fn numbered_of_pod(registry: &Registry, pod: PodRow) -> usize {
    let is_of = |plant: &&PlantRow| registry.road(**plant).1 == Some(pod);
    registry[pod.cross].seedlings.iter().filter(is_of).count()
}

/// How many more numbered seedlings may be of a pod: of a muddled tray, or of its cross with no pod on record.
pub fn perhaps_of_pod(registry: &Registry, pod: PodRow) -> usize {
    let may_be = |plant: &PlantRow| {
        let pods = registry.pods_it_may_be_of(*plant);
        let own = registry.road(*plant).1;
        let is_open = own.is_none() && registry.cross_of(*plant) == Some(pod.cross);
        own != Some(pod) && (pods.contains(&pod) || (pods.is_empty() && is_open))
    };
    registry.plants().filter(may_be).count()
}

/// How many numbered seedlings are surely of a sowing.
pub fn numbered_of_sowing(registry: &Registry, sowing: SowingRow) -> usize {
    let is_of = |plant: &&PlantRow| sure_sowing(registry, **plant) == Some(sowing);
    let seedlings = registry[sowing.cross].seedlings.iter();
    seedlings.filter(is_of).count()
}

/// How many more may be of it, since they or their pots were mixed up.
pub fn perhaps_of_sowing(registry: &Registry, sowing: SowingRow) -> usize {
    let may_be = |plant: &PlantRow| {
        is_mixed_up(registry, *plant)
            && sure_sowing(registry, *plant) != Some(sowing)
            && sowings_it_may_be_of(registry, *plant).contains(&Some(sowing))
    };
    registry.plants().filter(may_be).count()
}
