//! Who a plant may be while mix-ups are not settled: those of plants, and those of the pots that plants were numbered out of.
//!
//! From today back in time, step by step. What was mixed up with another on a day may be what the other was by that day, so
//! only mix-ups that were no later lead on. Which sowings, ages and sexes a plant may have follows from this one walk.

use crate::lineage::PlantRow;
use crate::record::{Day, When};
use crate::registry::{MixUp, MixedUp, PotRow, Registry};
use std::collections::VecDeque;

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
        let mut with = others(registry, (of, muddle));
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
    let reached = Reached::of(registry, MixedUp::Plant(plant), Day::LAST);
    let others: Vec<PlantRow> = reached.others().filter_map(MixedUp::plant).collect();
    let all_on_record = reached.all_on_record && others.len() == reached.others().count();
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
    let mut reached = Reached::nothing_but(MixedUp::Plant(plant), Day::LAST);
    reached.step(registry, (0, muddle));
    let named = reached.known.len();
    reached.walk(registry, 1);
    let further = reached.known[named..].iter();
    further.filter_map(|(of, _)| of.plant()).collect()
}

/// A plant and all that it may be, each with the pots it may have been numbered out of; and whether all of them are on record.
pub(super) fn out_of(registry: &Registry, plant: PlantRow) -> (Vec<OutOf>, bool) {
    let reached = Reached::of(registry, MixedUp::Plant(plant), Day::LAST);
    let mut all_on_record = reached.all_on_record;
    let mut pots_of = |plant: PlantRow, by: Day| {
        let (pot, numbered) = registry.stood_in(plant)?;
        let pots = Reached::of(registry, MixedUp::Pot(pot), by.min(numbered.last));
        all_on_record &= pots.all_on_record;
        Some(pots.others().filter_map(MixedUp::pot).collect())
    };
    let plants = reached.known.iter();
    let plants = plants.filter_map(|(of, by)| Some((of.plant()?, *by)));
    let plants = plants.map(|(plant, by)| OutOf {
        plant,
        pots: pots_of(plant, by).unwrap_or_default(),
    });
    (plants.collect(), all_on_record)
}

/// A community pot and those that it may be, but those that hold seedlings of others only; and whether all are on record.
pub(super) fn pots_it_may_be(registry: &Registry, pot: PotRow) -> (Vec<PotRow>, bool) {
    let reached = Reached::of(registry, MixedUp::Pot(pot), Day::LAST);
    let pots = reached.known.iter().filter_map(|(of, _)| of.pot());
    let pots = pots.filter(|pot| registry[*pot].filled_by().is_none());
    (pots.collect(), reached.all_on_record)
}

/// What something may be, with the last day on which it may have been that.
struct Reached {
    /// The plant or pot itself first.
    known: Vec<(MixedUp, Day)>,
    all_on_record: bool,
}

impl Reached {
    fn nothing_but(of: MixedUp, by: Day) -> Reached {
        Reached {
            known: vec![(of, by)],
            all_on_record: true,
        }
    }

    fn of(registry: &Registry, of: MixedUp, by: Day) -> Reached {
        let mut reached = Reached::nothing_but(of, by);
        reached.walk(registry, 0);
        reached
    }

    fn others(&self) -> impl Iterator<Item = MixedUp> {
        self.known[1..].iter().map(|(of, _)| *of)
    }

    /// Follows the mix-ups of all that is known from a place on.
    fn walk(&mut self, registry: &Registry, from: usize) {
        let mut to_come: VecDeque<usize> = (from..self.known.len()).collect();
        while let Some(at) = to_come.pop_front() {
            let (of, by) = self.known[at];
            let open = registry.open_mix_ups_of(of);
            for muddle in open.filter(|muddle| registry.when(muddle.on).first <= by) {
                to_come.extend(self.step(registry, (at, muddle)));
            }
        }
    }

    /// Adds what a mix-up of something known leads to. Returns the places of what is new, or may have been so later than was
    /// known.
    fn step(&mut self, registry: &Registry, (at, muddle): (usize, &MixUp)) -> Vec<usize> {
        let (of, by) = self.known[at];
        let by = by.min(registry.when(muddle.on).last);
        let mut changed = Vec::new();
        for other in others(registry, (of, muddle)) {
            let Some(other) = other else {
                self.all_on_record = false;
                continue;
            };
            match self.known.iter().position(|(known, _)| *known == other) {
                Some(known) if self.known[known].1 >= by => {}
                Some(known) => {
                    self.known[known].1 = by;
                    changed.push(known);
                }
                None => {
                    changed.push(self.known.len());
                    self.known.push((other, by));
                }
            }
        }
        changed
    }
}

/// What a mix-up of a plant or pot leads to; `None` for a code that is not on record. A pot that some seedlings were put into
/// from others leads to these, but they do not lead to it: no seedling came back.
fn others<'r>(
    registry: &'r Registry,
    (of, muddle): (MixedUp, &'r MixUp),
) -> impl Iterator<Item = Option<MixedUp>> + 'r {
    let named = muddle.with.iter();
    let named = named.map(|code| MixedUp::named(registry, code));
    named.filter(move |other| match (of, other) {
        (MixedUp::Pot(_), Some(MixedUp::Pot(other))) if !muddle.is_own => {
            let names_it = |code: &String| MixedUp::named(registry, code) == Some(of);
            let says_so = |known: &MixUp| {
                known.is_own && known.on == muddle.on && known.with.iter().any(names_it)
            };
            let mut of_other = registry.open_mix_ups_of(MixedUp::Pot(*other));
            registry[*other].filled_by().is_none() && of_other.any(says_so)
        }
        _ => true,
    })
}
