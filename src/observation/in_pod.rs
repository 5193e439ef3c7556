//! Which flowers that were dusted may still bear pods, and on which plant.

use super::bearer::Borne;
use super::parent_of::mother;
use super::provenance::covering;
use super::seen_open::SeenOpen;
use crate::record::{CrossPage, Day, Fate, Pod, Pollination, When};
use crate::registry::{Cross, PlantOrRamet, Registry};

/// Days below which no pod can have ripened: common practice has pods of the genus ripen in some two to four months,
/// so three weeks are far below what any grower has seen.
pub const LEAST_RIPENING: i32 = 21;

/// Days from pollination to a ripe pod: common practice, no source.
pub const RIPEN: (i32, i32) = (60, 180);

/// The zones of a registry on a day.
#[derive(Clone, Copy)]
pub struct InPod<'r, 't> {
    /// The registry.
    pub registry: &'r Registry<'t>,
    /// The day.
    pub today: Day,
}

/// A pollination whose pods may be ripening.
pub struct Ripening<'r, 't> {
    /// The plant or piece that bears them.
    pub bearer: PlantOrRamet,
    /// The cross.
    pub cross: &'r Cross<'t>,
    /// The pollination.
    pub zone: &'r Pollination<'t>,
}

impl Ripening<'_, '_> {
    /// Its code, `X22-02.A`.
    pub fn code(&self) -> String {
        format!("{}.{}", self.cross.page.code, self.zone.zone)
    }

    /// Whether it has flowers left alone and no others.
    pub fn is_of_controls(&self) -> bool {
        is_of_controls(self.zone)
    }
}

/// Whether a zone has flowers left alone and no others: nothing was dusted there, and it bears pods by chance.
pub fn is_of_controls(of: &Pollination) -> bool {
    let is_dusted = of.flowers.is_some() || of.pollen.is_some() || !of.on.is_empty();
    !is_dusted && of.control_flowers.is_some()
}

/// Whether a zone was dusted again after its pods were counted.
pub fn was_dusted_since(registry: &Registry, of: &Pollination) -> bool {
    let Some(counted) = of.counted.map(|on| registry.when(on)) else {
        return false;
    };
    let mut dusted = of.on.iter().map(|on| registry.when(on));
    dusted.any(|on| counted.surely_before(on))
}

/// First to last day of a pollination; unknown when no day is recorded.
pub fn dusted(registry: &Registry, of: &Pollination) -> When {
    covering(of.on.iter().map(|on| registry.when(on)))
}

impl<'r, 't> InPod<'r, 't> {
    /// The zones whose pods may be ripening on plants and pieces here, by page. What was dusted longer ago than pods take to ripen
    /// is off, or forgotten.
    pub fn ripening(&self) -> Vec<Ripening<'r, 't>> {
        let crosses = self.registry.own_crosses();
        crosses
            .flat_map(|(_, cross)| {
                let zones = self.bearing(&cross.page).into_iter();
                zones.filter_map(|(of, _)| self.ripens_on(cross, of))
            })
            .collect()
    }

    fn ripens_on(
        &self,
        cross: &'r Cross<'t>,
        zone: &'r Pollination<'t>,
    ) -> Option<Ripening<'r, 't>> {
        let ripe_by = dusted(self.registry, zone).last.0.saturating_add(RIPEN.1);
        let is_on = ripe_by >= self.today.0 && self.bearer_ended(cross, zone).is_none();
        let bearer = mother(self.registry, cross, zone).filter(|_| is_on)?;
        Some(Ripening {
            bearer,
            cross,
            zone,
        })
    }

    /// Whether something dated is on record by the day; what has no date is.
    pub fn by_today(&self, on: Option<&str>) -> bool {
        on.is_none_or(|on| self.registry.when(on).first <= self.today)
    }

    /// Pods set, as counted by the day; a count before the last dusting says nothing of that dusting.
    pub fn set_of(&self, of: &Pollination) -> Option<u32> {
        let counts = self.by_today(of.counted) && !was_dusted_since(self.registry, of);
        of.set.filter(|_| counts)
    }

    /// What became of the plant, or of the piece of it, that bore a zone.
    pub fn bearer_ended(&self, cross: &Cross, of: &Pollination) -> Option<&'r Fate<'t>> {
        let registry = self.registry;
        let mother = mother(registry, cross, of)?;
        let spikes = registry.flowerings(mother.plant).iter();
        let mut named = spikes.filter(|spike| of.spike.is_some() && spike.code == of.spike);
        let of_spike = named.next().and_then(|spike| spike.ramet);
        let borne = Borne {
            plant: mother.plant,
            piece: registry.ramet(mother).map(|piece| piece.code).or(of_spike),
            seen: dusted(registry, of),
        };
        borne.ended(registry, self.today)
    }

    /// The zones of a page that may still bear pods today, each with the pods off by then that may have been of it: those
    /// without a zone. Each of these is of one zone, so where there are more zones than such pods, some still bear.
    pub fn bearing<'p>(&self, page: &'p CrossPage<'t>) -> Vec<(&'p Pollination<'t>, Vec<String>)> {
        let off = page.pods.iter().filter(|pod| self.is_off(page, pod));
        let off: Vec<&Pod> = off.collect();
        let made = |of: &&Pollination| dusted(self.registry, of).first <= self.today;
        let of_named = |of: &&Pollination| {
            let is_off = off.iter().any(|pod| pod.zone == Some(of.zone));
            is_off && self.still_on(page, of).is_none()
        };
        let open = page.pollinations.iter().filter(made);
        let open = open.filter(|of| self.set_of(of) != Some(0) && !of_named(of));
        let may_be =
            |of: &Pollination, pod: &&&Pod| pod.zone.is_none() && self.may_be_ripe(of, pod);
        let open: Vec<_> = open
            .map(|of| {
                let pods = off.iter().filter(|pod| may_be(of, pod));
                (of, pods.map(|pod| pod.code.to_owned()).collect::<Vec<_>>())
            })
            .collect();
        let nameless = off.iter().filter(|pod| pod.zone.is_none()).count();
        let perhaps = open.iter().filter(|(_, pods)| !pods.is_empty()).count();
        let all_off = perhaps <= nameless;
        let unpodded = page.pods.is_empty() && self.has_offspring(page);
        let in_lots = self.zones_in_lots(page, open.iter().map(|(of, _)| *of));
        open.into_iter()
            .filter(|(of, pods)| {
                let is_in_lot = in_lots.contains(&of.zone);
                !unpodded && !is_in_lot && (pods.is_empty() || !all_off)
            })
            .collect()
    }

    /// Pods of a zone that are not off yet while some are: those that set less those harvested, where all were counted. After
    /// the days in which pods ripen they fell off or are forgotten.
    pub fn still_on(&self, page: &CrossPage, of: &Pollination) -> Option<u32> {
        let pods = page.pods.iter();
        let mut off = pods.filter(|pod| pod.zone == Some(of.zone) && self.is_off(page, pod));
        let (first, set) = (off.next()?.capsules?, self.set_of(of)?);
        let left = off.try_fold(set.checked_sub(first)?, |left, pod| {
            left.checked_sub(pod.capsules?)
        })?;
        let ripe_by = dusted(self.registry, of).last.0.saturating_add(RIPEN.1);
        (left > 0 && ripe_by >= self.today.0).then_some(left)
    }

    /// The zones that may have been ripe by now, where as many seed lots are on record without a pod: their seed is off.
    fn zones_in_lots<'p>(
        &self,
        page: &CrossPage,
        open: impl Iterator<Item = &'p Pollination<'p>>,
    ) -> Vec<&'p str> {
        let lots = page
            .seed_lots
            .iter()
            .filter(|lot| lot.pod.is_none())
            .count();
        let took = |of: &Pollination| dusted(self.registry, of).days_until(When::on(self.today));
        let may_be_ripe =
            |of: &&Pollination| took(of).is_none_or(|(_, most)| most >= LEAST_RIPENING);
        let zones: Vec<&str> = open.filter(may_be_ripe).map(|of| of.zone).collect();
        match page.pods.is_empty() && zones.len() <= lots {
            true => zones,
            false => Vec::new(),
        }
    }

    /// Whether a zone was dusted long enough before a pod came off for it to have ripened; so it is where a day is not known.
    fn may_be_ripe(&self, of: &Pollination, pod: &Pod) -> bool {
        let Some(harvested) = pod.harvested else {
            return true;
        };
        let harvested = self.registry.when(harvested);
        let took = dusted(self.registry, of).days_until(harvested);
        took.is_none_or(|(_, most)| most >= LEAST_RIPENING)
    }

    /// Whether something on the page shows that a pod is off by today.
    fn is_off(&self, page: &CrossPage, pod: &Pod) -> bool {
        let mut sown = page.sowings.iter().filter(|of| self.by_today(of.on));
        match pod.harvested {
            Some(on) => self.by_today(Some(on)),
            None => {
                pod.seeds.is_some()
                    || page.seed_lots.iter().any(|lot| lot.pod == Some(pod.code))
                    || sown.any(|sowing| sowing.pod == Some(pod.code))
            }
        }
    }

    fn has_offspring(&self, page: &CrossPage) -> bool {
        let mut sown = page.sowings.iter().filter(|of| self.by_today(of.on));
        sown.next().is_some() || !page.community_pots.is_empty()
    }

    /// The places, among the spikes of its seed parent, of those that a zone dusted by today may be on.
    pub fn spikes_of(&self, mother: PlantOrRamet, of: &Pollination) -> Vec<usize> {
        let spikes = |on: When| {
            let piece = self.registry.ramet(mother).map(|piece| piece.code);
            let spike = of.spike;
            SeenOpen { piece, spike, on }.spikes(self.registry, mother.plant)
        };
        let days = of.on.iter().map(|on| self.registry.when(on));
        let days = days.filter(|when| when.is_bounded() && when.first <= self.today);
        let all = days.map(spikes).filter(|spikes| !spikes.is_empty());
        // Dusted again, it is on a spike that was open each time.
        let on_each = all.reduce(|mut one, other| {
            one.retain(|at| other.contains(at));
            one
        });
        on_each.unwrap_or_default()
    }
}
