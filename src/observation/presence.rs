//! Whether a plant is in the collection on a day, and since when it is not.

use crate::record::{Day, Fate, When};
use crate::registry::{PlantKind, PlantRow, Registry};

/// Whether a plant is here.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Presence {
    /// Alive and here, as far as recorded.
    Here,
    /// Died, was culled or was lost.
    Gone,
    /// Sold or given away; alive when it left.
    LetGo,
    /// Never stood here: a parent known only by name, or a plant of another grower.
    NeverHere,
}

/// Whether a plant is here today. A clone with recorded ramets is gone when all of them are.
pub fn presence(registry: &Registry, plant: PlantRow, today: Day) -> Presence {
    if registry.kind(plant) == PlantKind::Unseen {
        return Presence::NeverHere;
    }
    let whole = registry
        .fate(plant)
        .map(|fate| ended(registry, fate, today));
    if let Some(ended) = whole.flatten() {
        return ended;
    }
    let ramets = registry.ramets(plant);
    let ends: Vec<Option<Presence>> = ramets
        .iter()
        .map(|ramet| {
            ramet
                .fate
                .as_ref()
                .and_then(|fate| ended(registry, fate, today))
        })
        .collect();
    match ends.iter().copied().collect::<Option<Vec<Presence>>>() {
        Some(all) if !all.is_empty() => {
            if all.contains(&Presence::LetGo) {
                Presence::LetGo
            } else {
                Presence::Gone
            }
        }
        _ => Presence::Here,
    }
}

/// What became of a plant by a day: its own fate, or, where every piece of it came to an end, that of a piece that was sold
/// or given away, since the plant lives on in it, else that of the last; `None` while any of it is here.
pub fn fate_by<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    today: Day,
) -> Option<&'r Fate<'t>> {
    let is_past = |fate: &&Fate| is_over(registry, fate, today);
    if let Some(own) = registry.fate(plant).filter(is_past) {
        return Some(own);
    }
    let ramets = registry.ramets(plant).iter();
    let ends: Option<Vec<&Fate>> = ramets
        .map(|piece| piece.fate.as_ref().filter(is_past))
        .collect();
    let order = |fate: &&Fate| {
        let when = registry.when(fate.on());
        (fate.handed_on().is_some(), when.last, when.first)
    };
    ends?.into_iter().max_by_key(order)
}

/// Whether a fate has come to pass by a day; one without a date has.
pub fn is_over(registry: &Registry, fate: &Fate, today: Day) -> bool {
    ended(registry, fate, today).is_some()
}

/// How a fate ends a plant or piece; `None` when it lies after today.
pub(super) fn ended(registry: &Registry, fate: &Fate, today: Day) -> Option<Presence> {
    let presence = match fate {
        Fate::Died { .. } | Fate::Culled { .. } | Fate::Lost { .. } => Presence::Gone,
        Fate::Sold { .. } | Fate::Given { .. } => Presence::LetGo,
        Fate::Elsewhere => Presence::NeverHere,
    };
    let when = registry.when(fate.on());
    (when.first == Day::FIRST || when.first <= today).then_some(presence)
}

/// When a plant that is gone or was let go left; `None` while it is here, also when the day is not recorded.
pub fn end_of(registry: &Registry, plant: PlantRow, today: Day) -> Option<When> {
    if matches!(
        presence(registry, plant, today),
        Presence::Here | Presence::NeverHere
    ) {
        return None;
    }
    let day = |fate: &Fate| registry.when(fate.on());
    let ramets = registry.ramets(plant).iter();
    let last = ramets.filter_map(|ramet| ramet.fate.as_ref()).map(day);
    registry.fate(plant).map(day).or(last.max())
}
