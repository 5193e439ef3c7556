//! Pots and shelves needed month by month, against the shelves there are.

use super::context::{DueContext, shifted};
use crate::lineage::PlantRow;
use crate::observation::pieces_here;
use crate::observation::places::is_original;
use crate::observation::presence::is_over;
use crate::observation::provenance::sown;
use crate::observation::shelf_room::{pot_cm, pots_on};
use crate::planning::room::{Batch, Room, Step, room};
use crate::planning::windows::Between;
use crate::record::{Day, Ramet, When};
use serde::Serialize;
use std::collections::BTreeMap;

/// Months looked ahead.
const MONTHS: i32 = 12;

/// Pots by age where `registry.ron` names none, months and cm: common practice.
const PRACTICE: [(f64, f64); 5] = [
    (0.0, 2.5),
    (12.0, 5.0),
    (20.0, 7.0),
    (30.0, 9.0),
    (48.0, 12.0),
];

/// The room needed, from today on.
#[derive(Serialize)]
pub struct RoomForecast {
    /// How many shelves there are; 0 when none are recorded.
    pub shelves: usize,
    /// Whether the steps from pot to pot are the grower's own.
    pub own_steps: bool,
    /// Today, then the first of each month.
    pub months: Vec<MonthRoom>,
    /// First day on which the shelves may be full, and on which they are full on every reading.
    pub full: (Option<String>, Option<String>),
}

/// The room needed on one day.
#[derive(Serialize)]
pub struct MonthRoom {
    /// The day.
    pub on: String,
    /// Pots, least and most.
    pub pots: (u64, u64),
    /// Shelves they fill, least and most; `None` without shelves.
    pub shelves: Option<(f64, f64)>,
    /// Pots of unknown width.
    pub unplaced: u64,
    /// Pots too wide for every shelf.
    pub too_wide: u64,
}

impl DueContext<'_, '_> {
    /// The room needed today and on the first of the months to come.
    pub fn room(&self) -> RoomForecast {
        let settings = &self.registry.settings;
        let own_steps = !settings.pot_steps.is_empty();
        let own = settings.pot_steps.iter().map(|step| Step {
            from_months: step.from_months,
            pot_cm: step.pot_cm,
        });
        let practice = PRACTICE.map(|(from_months, pot_cm)| Step {
            from_months,
            pot_cm,
        });
        let steps: Vec<Step> = match own_steps {
            true => own.collect(),
            false => practice.to_vec(),
        };
        let batches = self.batches();
        let held = |width: f64| -> u64 {
            let shelves = settings.shelves.iter();
            shelves
                .map(|shelf| pots_on((shelf.width_cm, shelf.depth_cm), width))
                .fold(0, u64::saturating_add)
        };
        let shelves = settings.shelves.len();
        let today = self.today.0;
        let months: Vec<MonthRoom> = self
            .days()
            .into_iter()
            .map(|day| month(day, room((today, day.0), &batches, &steps, &held), shelves))
            .collect();
        RoomForecast {
            shelves,
            own_steps,
            full: (
                full(&months, shelves, |of| of.1),
                full(&months, shelves, |of| of.0),
            ),
            months,
        }
    }

    fn days(&self) -> Vec<Day> {
        let today = self.today;
        let Some((year, month, _)) = today.ymd() else {
            return vec![today];
        };
        let first_of = |ahead: i32| {
            let month = month as i32 - 1 + ahead;
            Day::new(
                year + month.div_euclid(12),
                month.rem_euclid(12) as u32 + 1,
                1,
            )
        };
        let ahead = (1..=MONTHS).filter_map(first_of);
        [today].into_iter().chain(ahead).collect()
    }

    /// Every piece in a pot, and the seedlings that will need one each.
    fn batches(&self) -> Vec<Batch> {
        let (registry, today) = (self.registry, self.today);
        // Siblings of one sowing in pots of one size are one batch, whatever their number.
        let mut alike: BTreeMap<(When, Option<u64>), u64> = BTreeMap::new();
        for plant in registry.plants() {
            if pieces_here(registry, plant, today) == 0 || !self.is_sown(plant) {
                continue;
            }
            for piece in self.in_pots(plant) {
                // How long after its cutting a piece needs which pot is not known.
                let sown = match piece.is_none_or(is_original) {
                    true => sown(registry, plant),
                    false => When::UNKNOWN,
                };
                let pot = pot_cm(registry, (plant, piece), today).map(f64::to_bits);
                *alike.entry((sown, pot)).or_default() += 1;
            }
        }
        let here = |((sown, pot), pieces): ((When, Option<u64>), u64)| Batch {
            pots: (pieces, pieces),
            from: Between {
                earliest: today.0,
                latest: today.0,
            },
            sown: between(sown),
            pot_cm: pot.map(f64::from_bits),
        };
        let mut batches: Vec<Batch> = alike.into_iter().map(here).collect();
        for (cross, _) in registry.own_crosses() {
            for of in self.waiting(cross) {
                let (least, most) = of.seedlings.unwrap_or((0, 0));
                batches.push(Batch {
                    pots: (u64::from(least), u64::from(most)),
                    from: self.pricked_from(of.sown),
                    sown: between(of.sown),
                    pot_cm: None,
                });
            }
        }
        batches
    }

    /// The pieces of a plant that are here; one without a piece where none are on record.
    fn in_pots(&self, plant: PlantRow) -> Vec<Option<&Ramet<'_>>> {
        let pieces = self.registry.ramets(plant);
        let is_here = |piece: &&Ramet| {
            let fate = piece.fate.as_ref();
            !fate.is_some_and(|fate| is_over(self.registry, fate, self.today))
        };
        match pieces {
            [] => vec![None],
            _ => pieces.iter().filter(is_here).map(Some).collect(),
        }
    }

    /// When seedlings will need pots of their own. Once the last day for that has passed they need them from today on; of
    /// those sown on an unknown day it is never certain.
    fn pricked_from(&self, sown: When) -> Between {
        let today = self.today.0;
        let window = shifted(sown, self.ranges.prick_out.days);
        match window {
            Some(window) => Between {
                earliest: window.earliest.max(today),
                latest: window.latest.max(today),
            },
            None => Between {
                earliest: today,
                latest: i32::MAX,
            },
        }
    }
}

fn between(when: When) -> Option<Between> {
    when.is_bounded().then_some(Between {
        earliest: when.first.0,
        latest: when.last.0,
    })
}

fn month(day: Day, of: Room, shelves: usize) -> MonthRoom {
    let all = shelves as f64;
    MonthRoom {
        on: day.to_string(),
        pots: of.pots,
        shelves: (shelves > 0).then_some((of.share.0 * all, of.share.1 * all)),
        unplaced: of.unplaced,
        too_wide: if shelves > 0 { of.too_wide } else { 0 },
    }
}

fn full(months: &[MonthRoom], shelves: usize, end: impl Fn((f64, f64)) -> f64) -> Option<String> {
    let over = |of: &&MonthRoom| of.shelves.is_some_and(|of| end(of) > shelves as f64);
    months.iter().find(over).map(|of| of.on.clone())
}
