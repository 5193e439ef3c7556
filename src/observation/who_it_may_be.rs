//! Who a plant may be while mix-ups are not settled: those of plants, and those of the pots that plants were numbered out of.

use crate::lineage::PlantRow;
use crate::record::{Day, When};
use crate::registry::{MayBeOne, MixUp, MixedUp, PotRow, Registry};

/// What a plant that was mixed up may be, while that is not settled.
pub struct MayBe {
    /// The plants it may be besides itself, as far as they are on record.
    pub others: Vec<PlantRow>,
    /// Whether all of them are on record: a lineage that was handed over comes without them.
    pub all_on_record: bool,
    /// When its last mix-up was noticed.
    pub since: When,
    /// Whether it was mixed up once, and each of the others as well: with it, and on the same day. Not so where one of them
    /// is not on record.
    pub at_once: bool,
}

/// A plant with the pots that it may have been numbered out of.
pub(super) struct OutOf {
    pub plant: PlantRow,
    /// The pots that the one on its road was mixed up with before it was numbered; none for nearly every plant.
    pub pots: Vec<PotRow>,
}

/// Whether it is not known which of several plants this is, of another pod perhaps, or which of several pots it came out of.
pub fn is_mixed_up(registry: &Registry, plant: PlantRow) -> bool {
    registry.open_mix_ups(plant).next().is_some()
        || !registry.pods_it_may_be_of(plant).is_empty()
        || pot_mixed_up(registry, plant).is_some()
}

/// The community pot a plant was numbered out of, where that was mixed up with others by then, with the mix-ups.
pub fn pot_mixed_up<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
) -> Option<(PotRow, Vec<&'r MixUp<'t>>)> {
    let of = MixedUp::Pot(registry.road(plant).2?);
    // Nearly no pot was mixed up: the day of the numbering is read for those alone.
    registry.open_mix_ups_of(of).next()?;
    let (pot, numbered) = registry.stood_in(plant)?;
    let mix_ups = registry.open_mix_ups_of(of);
    let by_then = mix_ups.filter(|muddle| {
        let mut with = registry.others(of, muddle, Day::LAST);
        !numbered.surely_before(registry.when(muddle.on)) && with.next().is_some()
    });
    let by_then: Vec<&MixUp> = by_then.collect();
    (!by_then.is_empty()).then_some((pot, by_then))
}

/// The plants that one may be, of all its mix-ups that are not settled; `None` where there are none.
pub fn may_be(registry: &Registry, plant: PlantRow) -> Option<MayBe> {
    let open: Vec<&MixUp> = registry.open_mix_ups(plant).collect();
    let since = open.iter().map(|muddle| registry.when(muddle.on));
    let since = since.max_by_key(|when| (when.last, when.first))?;
    let code = registry.code(plant);
    let reached = registry.may_be(MixedUp::Plant(plant), Day::LAST);
    let others: Vec<PlantRow> = reached.iter().filter_map(plant_of).collect();
    let all_on_record = others.len() == reached.len();
    let once = |&other: &PlantRow| {
        let of_other: Vec<&MixUp> = registry.open_mix_ups(other).collect();
        matches!(of_other[..], [of] if of.on == open[0].on && of.with.contains(&code))
    };
    let at_once = open.len() == 1 && all_on_record && others.iter().all(once);
    Some(MayBe {
        others,
        all_on_record,
        since,
        at_once,
    })
}

/// The plants that those named by a mix-up of a plant were mixed up with by then, step by step, in the order found.
pub(super) fn further(registry: &Registry, plant: PlantRow, muddle: &MixUp) -> Vec<PlantRow> {
    let this = MixedUp::Plant(plant);
    let named = || registry.others(this, muddle, Day::LAST);
    let reached = registry.further(this, named(), |_| true);
    let is_named = |one: &&MayBeOne| named().any(|of| of.named == one.named);
    let further = reached.iter().filter(|one| !is_named(one));
    further.filter_map(plant_of).collect()
}

/// A plant and all that it may be, each with the pots it may have been numbered out of; and whether all of them are on record.
pub(super) fn out_of(registry: &Registry, plant: PlantRow) -> (Vec<OutOf>, bool) {
    let others = registry.may_be(MixedUp::Plant(plant), Day::LAST);
    let mut all_on_record = are_on_record(&others);
    let mut pots_of = |plant: PlantRow, by: Day| {
        let (pot, numbered) = registry.stood_in(plant)?;
        let pots = registry.may_be(MixedUp::Pot(pot), by.min(numbered.last));
        all_on_record &= are_on_record(&pots);
        Some(but_filled(registry, pots.iter().filter_map(pot_of)).collect())
    };
    let others = others
        .iter()
        .filter_map(|one| Some((plant_of(one)?, one.by)));
    let plants = [(plant, Day::LAST)].into_iter().chain(others);
    let plants = plants.map(|(plant, by)| OutOf {
        plant,
        pots: pots_of(plant, by).unwrap_or_default(),
    });
    (plants.collect(), all_on_record)
}

/// A community pot and those that it may be, but those that hold seedlings of others only; and whether all are on record.
pub(super) fn pots_it_may_be(registry: &Registry, pot: PotRow) -> (Vec<PotRow>, bool) {
    let others = registry.may_be(MixedUp::Pot(pot), Day::LAST);
    let pots = [pot].into_iter().chain(others.iter().filter_map(pot_of));
    (but_filled(registry, pots).collect(), are_on_record(&others))
}

/// Pots without those that hold seedlings of others only, which are among them.
fn but_filled(
    registry: &Registry,
    pots: impl Iterator<Item = PotRow>,
) -> impl Iterator<Item = PotRow> {
    pots.filter(|pot| registry[*pot].filled_by().is_none())
}

fn plant_of(one: &MayBeOne) -> Option<PlantRow> {
    one.named.and_then(MixedUp::plant)
}

fn pot_of(one: &MayBeOne) -> Option<PotRow> {
    one.named.and_then(MixedUp::pot)
}

/// A lineage that was handed over comes without the others of a mix-up.
fn are_on_record(others: &[MayBeOne]) -> bool {
    others.iter().all(|one| one.named.is_some())
}
