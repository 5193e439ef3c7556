//! The plants a question is about, found by their row, and the sittings that may hold them.

use crate::lineage::PlantRow;
use crate::observation::provenance::{sown, sure_sowing};
use crate::observation::stock_take::is_remark;
use crate::observation::who_it_may_be::is_mixed_up;
use crate::record::When;
use crate::registry::{CrossRow, Registry, SittingHead, SittingRow, SowingRow};
use std::collections::BTreeMap;

/// The plants asked for, found by their row.
pub(crate) struct Asked {
    /// In the order of the registry, each once.
    pub plants: Vec<PlantRow>,
    /// For each row from the first plant's to the last's its place among the plants, or [`NOBODY`].
    places: Vec<u32>,
    /// For each place the index of its sowing.
    pub sowing_of: Vec<u32>,
    pub sowings: Vec<Sowing>,
}

pub(crate) const NOBODY: u32 = u32::MAX;

/// Cross and sowing.
type Came = (Option<CrossRow>, Option<SowingRow>);

/// Cross and sowing, and the day it was sown.
#[derive(Clone, Copy)]
pub(crate) struct Sowing {
    pub of: Came,
    pub on: When,
}

impl Asked {
    pub fn of(registry: &Registry, plants: &[PlantRow]) -> Asked {
        let mut plants = plants.to_vec();
        plants.sort_unstable();
        plants.dedup();
        let mut asked = Asked {
            places: vec![
                NOBODY;
                plants
                    .last()
                    .map_or(0, |p| p.index() + 1 - plants[0].index())
            ],
            sowing_of: Vec::with_capacity(plants.len()),
            sowings: Vec::new(),
            plants,
        };
        let mut known: BTreeMap<(Came, Option<When>), u32> = BTreeMap::new();
        let mut last = None;
        for (place, &plant) in asked.plants.iter().enumerate() {
            asked.places[plant.index() - asked.plants[0].index()] = place as u32;
            let of = (registry.cross_of(plant), sure_sowing(registry, plant));
            // A plant that was mixed up may be of another sowing than its siblings: its days are its own.
            let own = is_mixed_up(registry, plant).then(|| sown(registry, plant));
            let index = match last {
                Some((same, index)) if same == (of, own) => index,
                _ => *known.entry((of, own)).or_insert_with(|| {
                    let on = own.unwrap_or_else(|| sown(registry, plant));
                    asked.sowings.push(Sowing { of, on });
                    asked.sowings.len() as u32 - 1
                }),
            };
            asked.sowing_of.push(index);
            last = Some(((of, own), index));
        }
        asked
    }

    pub fn place(&self, plant: PlantRow) -> Option<u32> {
        let at = plant.index().checked_sub(self.plants.first()?.index())?;
        self.places
            .get(at)
            .copied()
            .filter(|&place| place != NOBODY)
    }

    /// The sittings that may hold the plants, first day first.
    pub fn sittings_by_day(&self, registry: &Registry) -> Vec<(SittingRow, When)> {
        let all = registry.all_sittings();
        let mut by_day: Vec<(SittingRow, When)> = all
            .filter(|(_, head)| self.may_be_in(head))
            .map(|(at, head)| (at, registry.when(head.sitting.on)))
            .collect();
        by_day.sort_by_key(|&(at, when)| (when, at));
        by_day
    }

    fn may_be_in(&self, head: &SittingHead) -> bool {
        match (head.plants(), &self.plants[..]) {
            (Some((first, last)), [one, .., other]) => first <= *other && *one <= last,
            (Some((first, last)), [one]) => (first..=last).contains(one),
            _ => false,
        }
    }
}

/// The last day each plant was read, in the order given; `None` for one never read. A remark, such as that a stock-take
/// did not find it, reads nothing of it.
pub fn last_read_days(registry: &Registry, plants: &[PlantRow]) -> Vec<Option<When>> {
    let asked = Asked::of(registry, plants);
    let mut last: Vec<Option<When>> = vec![None; asked.plants.len()];
    let mut by_day = asked.sittings_by_day(registry);
    by_day.sort_by_key(|(_, when)| (when.last, when.first));
    for (at, when) in by_day {
        for (plant, mut cells) in registry[at].rows() {
            if let Some(place) = asked.place(plant)
                && cells.any(|cell| !is_remark(&registry[at], &cell))
            {
                last[place as usize] = Some(when);
            }
        }
    }
    let of = |plant: &PlantRow| asked.place(*plant).and_then(|place| last[place as usize]);
    plants.iter().map(of).collect()
}
