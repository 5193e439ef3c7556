//! What the grower recorded on a plant that another one told of: a lineage that does not have it contradicts nothing.

use super::same::Difference;
use crate::record::{Fate, Muddle, ToldBy};
use crate::registry::{PlantRow, Registry};

/// The differences without those that are the grower's own records.
pub(super) fn told_only(
    ours: &Registry,
    plant: PlantRow,
    differ: Vec<Difference>,
) -> Vec<Difference> {
    let Some(told) = ours.told_by(plant) else {
        return differ;
    };
    let is_told = |of: &Difference| !is_own(ours, plant, told, of);
    let mut differ: Vec<Difference> = differ.into_iter().filter(is_told).collect();
    if stands_here(ours, plant) {
        differ.iter_mut().for_each(without_what_came_after);
    }
    differ
}

/// A spike that was begun with another grower may have opened and faded here.
fn without_what_came_after(of: &mut Difference) {
    if let Difference::Within {
        list: "flowerings",
        fields,
        ..
    } = of
    {
        fields.retain(|(_, _, there)| there.is_some());
    }
}

fn is_own(ours: &Registry, plant: PlantRow, told: &ToldBy, of: &Difference) -> bool {
    match of {
        // An opinion that came with a lineage does not say whose it is.
        Difference::Gone {
            list: "identified",
            at,
            ..
        } => {
            let by = ours
                .identified(plant)
                .get(*at)
                .and_then(|of| of.by.as_deref());
            by.is_some_and(|by| !is_by(by, told))
        }
        Difference::Gone {
            list: "muddled",
            at,
            ..
        } => {
            let muddled = ours.seedling(plant).and_then(|of| of.muddled.get(*at));
            muddled.is_some_and(|of| is_since_it_came(ours, plant, of))
        }
        Difference::Field {
            field: "one_of",
            there: None,
            ..
        } => {
            let muddled = ours.seedling(plant).map_or(&[][..], |of| &of.muddled);
            let open = muddled.iter().filter(|of| of.settled.is_none());
            open.into_iter().any(|of| is_since_it_came(ours, plant, of))
        }
        // Whoever has the plant sees its flowers, also those that opened before its lineage came.
        Difference::Gone {
            list: "flowerings", ..
        } => stands_here(ours, plant),
        // Whoever has the plant may name it.
        Difference::Field {
            field: "cultivar",
            there: None,
            ..
        } => stands_here(ours, plant),
        _ => false,
    }
}

/// Whether a mix-up may be the grower's own: only plants that stand here are mixed up here, and since they came.
fn is_since_it_came(ours: &Registry, plant: PlantRow, of: &Muddle) -> bool {
    let came = ours.told_by(plant).and_then(|told| told.on);
    let before = |came| ours.when(of.on).surely_before(ours.when(came));
    stands_here(ours, plant) && !came.is_some_and(before)
}

fn is_by(by: &str, told: &ToldBy) -> bool {
    let rest = by.strip_prefix(told.registry);
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with(", "))
}

fn stands_here(ours: &Registry, plant: PlantRow) -> bool {
    !matches!(ours.fate(plant), Some(Fate::Elsewhere))
}
