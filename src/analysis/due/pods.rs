//! Zones to dust again, pods to count, pods to harvest.

use super::context::{DueContext, shifted};
use super::row::{Basis, DueRow, Task, Urgency};
use crate::observation::flowers::Spike;
use crate::observation::in_pod::{InPod, dusted, is_of_controls};
use crate::observation::parent_of::mother;
use crate::observation::places::{place_of, places_of_flowers};
use crate::observation::seen_open::SeenOpen;
use crate::observation::standing::fate_words;
use crate::planning::windows::Between;
use crate::record::{CrossPage, Fate, Pollination, Sex, When};
use crate::registry::{Cross, PlantOrRamet, Target};

impl<'r, 't> DueContext<'r, 't> {
    fn in_pod(&self) -> InPod<'r, 't> {
        InPod {
            registry: self.registry,
            today: self.today,
        }
    }

    /// Every pollination of a cross that still waits for something.
    pub fn pollinations(&self, cross: &Cross, spikes: &[Spike]) -> Vec<DueRow> {
        let page = &cross.page;
        let waiting = self.in_pod().bearing(page).into_iter();
        waiting
            .flat_map(|(of, unless)| {
                let ended = self.in_pod().bearer_ended(cross, of);
                if ended.is_some_and(|fate| !self.may_have_ripened(of, fate)) {
                    return [None, None, None];
                }
                let harvest = self.harvest(page, of, (unless, ended));
                if ended.is_some() {
                    return [None, None, harvest];
                }
                let again = self.dust_again(cross, of, spikes);
                // While there are flowers to dust, a count is asked for only when it may be made.
                let can_wait = |row: &DueRow| again.is_some() && row.urgency == Urgency::Soon;
                let count = self.count_set(page, of).filter(|row| !can_wait(row));
                [again, count, harvest]
            })
            .flatten()
            .collect()
    }

    /// Whether pods of a zone may have been ripe when what bore them ended. Those of a plant that was sold or given away are
    /// its new owner's.
    fn may_have_ripened(&self, of: &Pollination, fate: &Fate) -> bool {
        let ripe = shifted(dusted(self.registry, of), self.ranges.ripen.days);
        let ended = self.registry.when(fate.on()).last;
        fate.handed_on().is_none() && ripe.is_none_or(|ripe| ripe.earliest <= ended.0)
    }

    fn harvest(
        &self,
        page: &CrossPage,
        of: &Pollination,
        (unless, ended): (Vec<String>, Option<&Fate>),
    ) -> Option<DueRow> {
        let set = self.in_pod().set_of(of);
        if set.is_none() && is_of_controls(of) {
            return None;
        }
        let task = Task::Harvest {
            set,
            still_on: self.in_pod().still_on(page, of),
            flowers: of.flowers,
            unless,
            ended: ended.map(fate_words),
        };
        let code = format!("{}.{}", page.code, of.zone);
        self.after(code, task, dusted(self.registry, of), self.ranges.ripen)
    }

    fn count_set(&self, page: &CrossPage, of: &Pollination) -> Option<DueRow> {
        if self.in_pod().set_of(of).is_some() || is_of_controls(of) {
            return None;
        }
        let last = self.last_dusted(of)?;
        let task = Task::CountSet {
            flowers: of.flowers,
        };
        let code = format!("{}.{}", page.code, of.zone);
        self.after(code, task, last, self.ranges.count_set)
    }

    /// While the spike is open and no pods are counted.
    fn dust_again(&self, cross: &Cross, of: &Pollination, spikes: &[Spike]) -> Option<DueRow> {
        let last = self
            .last_dusted(of)
            .filter(|_| self.in_pod().set_of(of).is_none())?;
        let mother = mother(self.registry, cross, of)?;
        let today = self.today.0;
        let on = self.in_pod().spikes_of(mother, of);
        let fits = |spike: &&Spike| {
            // Flowers that have outlived what is forecast of them are looked at first.
            let open = !spike.forecast.outlived
                && spike.window.opens.earliest <= today
                && spike.window.closes.latest >= today;
            open && spike.plant == mother.plant && on.contains(&spike.at)
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
        let task = Task::DustAgain { until };
        let mut row = self.on(code, task, Some(window), Basis::Days(days))?;
        row.since = Some(crate::wording::days(last));
        Some(row)
    }

    /// Whether a zone of a spike was dusted by today. Zones that may be on one or another spike are on as many as there are
    /// of them.
    pub fn is_dusted(&self, spike: &Spike) -> bool {
        let on = |cross: &Cross, of: &Pollination| {
            let mother = mother(self.registry, cross, of)?;
            let is_its = mother.plant == spike.plant;
            is_its.then(|| self.in_pod().spikes_of(mother, of))
        };
        let crosses = self.registry.own_crosses();
        let zones = crosses.flat_map(|(_, cross)| {
            let zones = cross.page.pollinations.iter();
            zones.filter_map(move |of| on(cross, of))
        });
        let zones: Vec<Vec<usize>> = zones.filter(|on| on.contains(&spike.at)).collect();
        let mut others: Vec<usize> = zones.concat();
        others.sort_unstable();
        others.dedup();
        zones.iter().any(|on| on.len() == 1) || (!others.is_empty() && zones.len() >= others.len())
    }

    /// Whether pollen of a spike was collected by today.
    pub fn is_collected(&self, spike: &Spike) -> bool {
        let lots = self.registry.pollen.iter();
        let mut own = lots.filter(|lot| lot.told_by.is_none());
        own.any(|lot| {
            let mut from = lot
                .from
                .codes()
                .iter()
                .filter_map(|code| self.registry.target(code));
            let on = lot.collected.map(|on| self.registry.when(on));
            let on = on.filter(|on| on.is_bounded() && on.first <= self.today);
            from.any(|of| {
                let of = of.plant_or_ramet().zip(on);
                of.is_some_and(|(of, on)| self.may_be_shed_by(of, on, spike))
            })
        })
    }

    /// Whether pollen of a plant, or of the piece of it that is named, may have been taken of a spike on a day.
    fn may_be_shed_by(&self, of: PlantOrRamet, on: When, spike: &Spike) -> bool {
        let piece = self.registry.ramet(of).map(|piece| piece.code);
        let taken = SeenOpen {
            piece,
            spike: None,
            on,
        };
        spike.plant == of.plant && taken.spikes(self.registry, of.plant).contains(&spike.at)
    }

    /// The last dusting, as a range of days.
    fn last_dusted(&self, of: &Pollination) -> Option<When> {
        let days = of.on.iter().map(|on| self.registry.when(on));
        let days = days.filter(|when| when.first <= self.today);
        // Whichever was the last, it was no earlier than any.
        let last = days.reduce(|one, other| When {
            first: one.first.max(other.first),
            last: one.last.max(other.last),
        });
        last.filter(|when| when.is_bounded())
    }

    /// The plant or piece to go to for the record with a code, and where it stands: for a zone the seed parent.
    pub fn stands(&self, code: &str) -> (Option<String>, Option<String>) {
        let registry = self.registry;
        let of = match registry.target(code) {
            Some(Target::Zone(zone)) => mother(registry, &registry[zone.cross], &registry[zone]),
            target => target.and_then(Target::plant_or_ramet),
        };
        let Some(of) = of else {
            return (None, None);
        };
        let place = match registry.ramet(of) {
            Some(piece) => place_of(registry, of.plant, Some(piece), self.today).map(str::to_owned),
            None => {
                let places = places_of_flowers(registry, of.plant, None, self.today);
                (!places.is_empty()).then(|| places.join("; "))
            }
        };
        (Some(registry.code_of(of)), place)
    }
}
