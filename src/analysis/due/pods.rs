//! Zones to dust again, pods to count, pods to harvest.

use super::context::DueContext;
use super::ranges::dusted;
use super::row::{Basis, DueRow, Task};
use crate::observation::flowers::Spike;
use crate::observation::places::places_of_flowers;
use crate::planning::windows::Between;
use crate::record::{CrossPage, Pollination, Sex, When};
use crate::registry::{Cross, PlantOrRamet, Target};

/// Days a dusting may lie before the first day a spike can have opened and still be of that spike: dates are noted late.
const BEFORE_OPEN: i32 = 7;

/// Whether a zone last dusted then may be on a spike.
fn may_be_on(last: When, spike: &Spike) -> bool {
    last.last.0 >= spike.window.opens.earliest.saturating_sub(BEFORE_OPEN)
}

impl DueContext<'_, '_> {
    /// Every pollination of a cross that still waits for something.
    pub fn pollinations(&self, cross: &Cross, spikes: &[Spike]) -> Vec<DueRow> {
        let page = &cross.page;
        let made = |of: &&Pollination| {
            let first = dusted(self.registry, of).first;
            first <= self.today
        };
        let waiting =
            |of: &&Pollination| self.set_of(of) != Some(0) && !self.is_harvested(page, of);
        let of = page.pollinations.iter().filter(made).filter(waiting);
        of.flat_map(|of| {
            let again = self.dust_again(cross, of, spikes);
            let count = match again {
                Some(_) => None,
                None => self.count_set(page, of),
            };
            [again, count, self.harvest(page, of)]
        })
        .flatten()
        .collect()
    }

    fn harvest(&self, page: &CrossPage, of: &Pollination) -> Option<DueRow> {
        // A zone of controls only bears pods by chance, and none that were meant.
        let set = self.set_of(of);
        of.flowers.or(set)?;
        let task = Task::Harvest {
            set,
            flowers: of.flowers,
        };
        let code = format!("{}.{}", page.code, of.zone);
        self.after(code, task, dusted(self.registry, of), self.ranges.ripen)
    }

    fn count_set(&self, page: &CrossPage, of: &Pollination) -> Option<DueRow> {
        if self.set_of(of).is_some() {
            return None;
        }
        let last = self.last_dusted(of)?;
        let task = Task::CountSet {
            flowers: of.flowers?,
        };
        let code = format!("{}.{}", page.code, of.zone);
        self.after(code, task, last, self.ranges.count_set)
    }

    /// While the spike is open and no pods are counted.
    fn dust_again(&self, cross: &Cross, of: &Pollination, spikes: &[Spike]) -> Option<DueRow> {
        let last = self.last_dusted(of).filter(|_| self.set_of(of).is_none())?;
        let mother = self.mother(cross, of)?;
        let (plant, ramet) = (
            mother.plant,
            self.registry.ramet(mother).map(|ramet| ramet.code),
        );
        let today = self.today.0;
        let fits = |spike: &&Spike| {
            // Flowers that have outlived what is forecast of them are looked at first.
            let open = !spike.forecast.outlived
                && spike.window.opens.earliest <= today
                && spike.window.closes.latest >= today;
            let same_piece = match (&spike.ramet, &ramet) {
                (Some(flowering), Some(dusted)) => flowering == dusted,
                _ => true,
            };
            open && spike.plant == plant && same_piece && may_be_on(last, spike)
        };
        let spike = spikes
            .iter()
            .filter(|spike| spike.planned_sex() != Some(Sex::Male))
            .find(fits)?;
        let until = spike.window.closes;
        let days = self.ranges.dust_again;
        // As long as the spike is open it is not too late.
        let window = Between {
            earliest: last.first.0.saturating_add(days.days.0),
            latest: last.last.0.saturating_add(days.days.1).max(today),
        };
        let code = format!("{}.{}", cross.page.code, of.zone);
        let task = Task::DustAgain { until, plant };
        let mut row = self.on(code, task, Some(window), Basis::Days(days))?;
        row.since = Some(crate::wording::days(last));
        Some(row)
    }

    /// Whether a zone was dusted on a spike that has outlived what is forecast of it: nothing is to be done there but
    /// to record its end.
    pub fn is_done_with(&self, spike: &Spike) -> bool {
        let on_it = |cross: &Cross| {
            let mut zones = cross.page.pollinations.iter();
            zones.any(|of| {
                let mother = self.mother(cross, of).map(|of| of.plant);
                let last = self.last_dusted(of);
                mother == Some(spike.plant) && last.is_some_and(|last| may_be_on(last, spike))
            })
        };
        let mut crosses = self.registry.own_crosses();
        spike.forecast.outlived && crosses.any(|(_, cross)| on_it(cross))
    }

    /// The last dusting, as a range of days.
    fn last_dusted(&self, of: &Pollination) -> Option<When> {
        let days = of.on.iter().map(|on| self.registry.when(on));
        days.filter(|when| when.first <= self.today)
            .max_by_key(|when| (when.last, when.first))
            .filter(|when| when.is_bounded())
    }

    /// The plant or piece to go to for the record with a code, and where it stands: for a zone the seed parent.
    pub fn stands(&self, code: &str) -> (Option<String>, Option<String>) {
        let registry = self.registry;
        let of = match registry.target(code) {
            Some(Target::Zone(zone)) => self.mother(&registry[zone.cross], &registry[zone]),
            target => target.and_then(Target::plant_or_ramet),
        };
        let Some(of) = of else {
            return (None, None);
        };
        let place = match registry.ramet(of) {
            Some(piece) => piece.place.as_deref().map(str::to_owned),
            None => {
                let places = places_of_flowers(registry, of.plant, None, self.today);
                (!places.is_empty()).then(|| places.join("; "))
            }
        };
        (Some(registry.code_of(of)), place)
    }

    /// The plant that bears the zone; its ramet where that is written down.
    pub fn mother(&self, cross: &Cross, of: &Pollination) -> Option<PlantOrRamet> {
        let named = of.plant.and_then(|code| self.registry.target(code));
        if let Some(named) = named.and_then(Target::plant_or_ramet) {
            return Some(named);
        }
        let pairs = &self.registry[cross.origin].pairs;
        let seed = pairs.first()?.seed?;
        pairs
            .iter()
            .all(|pair| pair.seed == Some(seed))
            .then_some(PlantOrRamet::whole(seed))
    }

    /// Pods set, as counted by today.
    fn set_of(&self, of: &Pollination) -> Option<u32> {
        of.set.filter(|_| self.by_today(of.counted))
    }

    /// Whether something on the page shows that the pods of a zone are off by today. A pod without a zone may be of any.
    fn is_harvested(&self, page: &CrossPage, of: &Pollination) -> bool {
        let sown = || {
            page.sowings
                .iter()
                .filter(|sowing| self.by_today(sowing.on))
        };
        let used = |code: &str| {
            page.seed_lots.iter().any(|lot| lot.pod == Some(code))
                || sown().any(|sowing| sowing.pod == Some(code))
        };
        let mut pods = page.pods.iter();
        let off = pods.any(|pod| {
            let may_be = pod.zone.is_none_or(|zone| zone == of.zone);
            let is_off = match pod.harvested {
                Some(on) => self.by_today(Some(on)),
                None => pod.seeds.is_some() || used(pod.code),
            };
            may_be && is_off
        });
        let has_offspring = sown().next().is_some() || !page.community_pots.is_empty();
        off || page.pods.is_empty() && has_offspring
    }
}
