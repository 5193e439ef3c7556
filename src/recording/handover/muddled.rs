//! The mix-ups of a plant in a lineage, including those that only plants which stay behind have on their records.

use super::closure::Lineage;
use super::codes::Codes;
use super::words::renamed;
use crate::recording::written::RonRecord;
use crate::registry::{MixUp, PlantRow, Registry};

/// The mix-ups on a seedling's own record, then in a lineage those that would be lost without it.
pub fn of_seedling<'t>(
    registry: &Registry<'t>,
    plant: PlantRow,
    lineage: Option<&Lineage>,
) -> Vec<MixUp<'t>> {
    let all = registry.mix_ups(plant).iter();
    let is_told = |of: &&MixUp| {
        let stays = |lineage: &Lineage| !comes_along(registry, of, lineage);
        of.is_own || lineage.is_some_and(stays)
    };
    all.filter(is_told).cloned().collect()
}

/// Whether a mix-up stands on the record of one of its plants that is in the lineage, too: then it counts there for all of
/// them, as it does here.
fn comes_along(registry: &Registry, mix_up: &MixUp, lineage: &Lineage) -> bool {
    let named = mix_up.with.iter();
    let named = named.filter_map(|code| registry.target(code)?.plant());
    let mut in_it = named.filter(|of| lineage.plants.contains(of));
    in_it.any(|of| {
        let mut known = registry.mix_ups(of).iter();
        known.any(|of| of.is_own && of.on == mix_up.on)
    })
}

/// Mix-ups as they are written.
pub fn written(of: &[MixUp], codes: &Codes) -> Vec<String> {
    let muddle = |of: &MixUp| {
        RonRecord::new()
            .text("on", of.on)
            .value("with", renamed(codes, &of.with))
            .text_if("settled", of.settled)
            .value_if(
                "one_of_before",
                (!of.one_of_before.is_empty()).then(|| renamed(codes, &of.one_of_before)),
            )
            .line()
    };
    of.iter().map(muddle).collect()
}
