//! What flowers left alone say about stray pollen, zone by zone.
//!
//! Controls speak for the whole spike they stood on. A pollination names its spike by the code its flowering has; where
//! one of two pollinations names none, the same plant (and no different ramets) with overlapping days decides, and that
//! is remembered, as it is where only the controls are on record as covered. None of n set does not exclude stray pollen.

use crate::observation::spike_days::{LAST_AT_MOST, NO_LONGER};
use crate::record::{Day, Flowering, Pollination, When};
use crate::registry::{CrossRow, PlantOrRamet, PlantRow, Registry, Target, ZoneRow};
use crate::statistics::{Confidence, Interval, proportion::wilson};
use std::collections::BTreeMap;

/// Control flowers of a spike.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Controls {
    /// Pods on them.
    pub set: u32,
    /// Flowers left alone, at least 1; none where only the pods on them are on record.
    pub flowers: Option<u32>,
    /// Whether the plant and the days joined some of them to the zone, since no spike was named.
    pub by_days: bool,
    /// Whether some of them stood under a cover, and the zone is not on record as covered: it may have got more.
    pub under_cover: bool,
}

impl Controls {
    /// The share of flowers that stray pollen sets, 0 to 1, with 95 % confidence (Wilson 1927), as every share here; any
    /// where it is not on record of how many flowers some set.
    pub fn interval(self) -> Interval {
        let whole = Interval {
            low: 0.0,
            high: 1.0,
        };
        let flowers = self.flowers.map(u64::from);
        let limits = flowers.and_then(|all| wilson(self.set.into(), all, Confidence::P95).ok());
        limits.unwrap_or(whole)
    }

    fn with(self, other: Controls) -> Controls {
        Controls {
            set: self.set.saturating_add(other.set),
            flowers: (self.flowers.zip(other.flowers))
                .map(|(one, other)| one.saturating_add(other)),
            by_days: self.by_days || other.by_days,
            under_cover: self.under_cover || other.under_cover,
        }
    }

    /// The one that leaves more room for stray pollen.
    pub(super) fn worse(self, other: Controls) -> Controls {
        let key = |of: Controls| ((of.set > 0, of.interval().high), of);
        let ((mine, one), (theirs, another)) = (key(self), key(other));
        if theirs > mine { another } else { one }
    }
}

/// For each pollination what the controls of its spike showed.
pub(super) struct AllControls(BTreeMap<ZoneRow, Controls>);

impl AllControls {
    /// Joins controls to zones; nothing is done for a plant without controls.
    pub fn of(registry: &Registry) -> AllControls {
        let mut on_plant: BTreeMap<PlantRow, Vec<Zone>> = BTreeMap::new();
        for zone in zones(registry) {
            on_plant.entry(zone.on.plant).or_default().push(zone);
        }
        let mut found = BTreeMap::new();
        for zones in on_plant.values() {
            let with_controls: Vec<&Zone> = zones.iter().filter(|z| z.controls.is_some()).collect();
            for zone in zones {
                if let Some(sum) = zone.of_its_spike(&with_controls) {
                    let so_far = found.entry(zone.at).or_insert(sum);
                    *so_far = so_far.worse(sum);
                }
            }
        }
        AllControls(found)
    }

    /// Those of the spike of a pollination.
    pub fn of_zone(&self, zone: ZoneRow) -> Option<Controls> {
        self.0.get(&zone).copied()
    }
}

/// The crosses on whose pages flowers left alone, or pods on them, were counted.
pub fn crosses_with_controls(registry: &Registry) -> Vec<CrossRow> {
    let has_controls = |cross: &CrossRow| {
        let mut zones = registry.zones(*cross);
        zones.any(|(_, of)| of.control_flowers.is_some() || of.control_set.is_some())
    };
    registry.cross_rows().filter(has_controls).collect()
}

/// What controls that are counted on other pages showed of the spike of a pollination, or what a lineage that was handed
/// over without those pages says they did; with several possible seed parents, what leaves more room for stray pollen.
///
/// Few zones have controls, and only those of `with_controls` are worth a look at their flowers.
pub fn controls_on_other_pages(
    registry: &Registry,
    zone: ZoneRow,
    with_controls: &[CrossRow],
) -> Option<Controls> {
    let own = zones_of(registry, zone.cross).filter(|of| of.at == zone);
    let elsewhere = with_controls.iter().filter(|cross| **cross != zone.cross);
    let with_controls = elsewhere.flat_map(|cross| zones_of(registry, *cross));
    let with_controls: Vec<Zone> = with_controls.filter(|of| of.controls.is_some()).collect();
    let found = own.filter_map(|own| {
        let others = with_controls
            .iter()
            .filter(|of| of.on.plant == own.on.plant);
        let others: Vec<&Zone> = others.collect();
        own.on_other_pages(&others)
    });
    found.reduce(Controls::worse)
}

/// A pollination on one plant that may have borne it.
struct Zone<'t> {
    at: ZoneRow,
    on: PlantOrRamet,
    spike: Option<&'t str>,
    days: When,
    /// Whether it is on record as covered against stray pollen.
    covered: bool,
    controls: Option<Controls>,
    /// What the record itself says of controls on other pages.
    told: Option<Controls>,
}

impl Zone<'_> {
    /// The controls of its spike, those on its own page and those on others.
    fn of_its_spike(&self, with_controls: &[&Zone]) -> Option<Controls> {
        let own = with_controls.iter();
        let own = own.filter(|other| other.at.cross == self.at.cross);
        let own = own.filter_map(|other| self.speaks_for_it(other));
        let elsewhere = self.on_other_pages(with_controls);
        own.chain(elsewhere).reduce(Controls::with)
    }

    /// Those on other pages. The same flowers may be told of by the record and stand on a page here too, so the greater
    /// number counts, and not both.
    fn on_other_pages(&self, with_controls: &[&Zone]) -> Option<Controls> {
        let others = with_controls.iter();
        let others = others.filter(|other| other.at.cross != self.at.cross);
        let others = others.filter_map(|other| self.speaks_for_it(other));
        let found = others.reduce(Controls::with);
        match (found, self.told) {
            (Some(found), Some(told)) => match found.flowers.zip(told.flowers) {
                Some((here, there)) if here > there => Some(found),
                Some((here, there)) if here < there => Some(told),
                _ => Some(found.worse(told)),
            },
            (found, told) => found.or(told),
        }
    }

    /// The controls of another zone, if they stood on the same spike.
    fn speaks_for_it(&self, other: &Zone) -> Option<Controls> {
        let controls = other.controls?;
        if self.at == other.at {
            return Some(controls);
        }
        let controls = Controls {
            under_cover: other.covered && !self.covered,
            ..controls
        };
        if let (Some(one), Some(another)) = (self.spike, other.spike) {
            return (one == another).then_some(controls);
        }
        let ramets = self.on.ramet.zip(other.on.ramet);
        let overlap = self.days.first <= other.days.last && other.days.first <= self.days.last;
        let same = ramets.is_none_or(|(one, another)| one == another) && overlap;
        same.then_some(Controls {
            by_days: true,
            ..controls
        })
    }
}

fn zones<'r, 't>(registry: &'r Registry<'t>) -> impl Iterator<Item = Zone<'t>> + use<'r, 't> {
    let crosses = registry.cross_rows();
    crosses.flat_map(move |cross| zones_of(registry, cross))
}

fn zones_of<'r, 't>(
    registry: &'r Registry<'t>,
    cross: CrossRow,
) -> impl Iterator<Item = Zone<'t>> + use<'r, 't> {
    let zones = registry.zones(cross);
    zones.flat_map(move |(at, pollination)| {
        let zone = move |on: PlantOrRamet| Zone {
            at,
            on,
            spike: pollination.spike,
            days: days(registry, on.plant, pollination),
            covered: pollination.covered == Some(true),
            controls: counted(pollination.control_set, pollination.control_flowers),
            told: told(pollination),
        };
        mothers(registry, cross, pollination).into_iter().map(zone)
    })
}

/// What the record of a pollination says of controls on other pages.
fn told(of: &Pollination) -> Option<Controls> {
    let counted = counted(of.spike_control_set, of.spike_control_flowers)?;
    Some(Controls {
        by_days: of.spike.is_none() || of.spike_control_by_days == Some(true),
        under_cover: of.spike_control_covered == Some(true),
        ..counted
    })
}

/// What was counted on controls. Pods say that there was stray pollen also where the flowers were not counted.
fn counted(set: Option<u32>, flowers: Option<u32>) -> Option<Controls> {
    let set = set?;
    let says = flowers.map_or(set > 0, |flowers| flowers > 0 && set <= flowers);
    says.then_some(Controls {
        set,
        flowers,
        ..Controls::default()
    })
}

/// The plants that may have borne the zone, with the ramet where it is named.
fn mothers(registry: &Registry, cross: CrossRow, pollination: &Pollination) -> Vec<PlantOrRamet> {
    let named = pollination.plant.and_then(|code| registry.target(code));
    match named.and_then(Target::plant_or_ramet) {
        Some(named) => vec![named],
        None => {
            let origin = &registry[registry[cross].origin];
            let mut seeds: Vec<PlantRow> =
                origin.pairs.iter().filter_map(|pair| pair.seed).collect();
            seeds.sort_unstable();
            seeds.dedup();
            seeds.into_iter().map(PlantOrRamet::whole).collect()
        }
    }
}

/// The days a zone was open to pollen: those it was dusted on, widened to every recorded flowering they fall into. Days
/// that are not recorded may be any.
fn days(registry: &Registry, plant: PlantRow, pollination: &Pollination) -> When {
    let dusted = pollination.on.iter().map(|on| registry.when(on));
    let Some(dusted) = dusted.reduce(covering) else {
        return When::UNKNOWN;
    };
    let open = |flowering: &Flowering| {
        let from = registry.when(flowering.opened.or(flowering.spike)?);
        // The last flower is what growers write down least: without it they may have lasted as long as any do.
        let longest = match flowering.opened {
            Some(_) => LAST_AT_MOST,
            None => NO_LONGER,
        };
        let end = Day(from.last.0.saturating_add(longest)).min(Day::LAST);
        let over = flowering.over.map(|over| registry.when(over));
        Some(covering(from, over.unwrap_or(When::on(end))))
    };
    let flowerings = registry.flowerings(plant).iter().filter_map(open);
    let met = flowerings.filter(|open| open.first <= dusted.last && dusted.first <= open.last);
    met.fold(dusted, covering)
}

fn covering(one: When, other: When) -> When {
    When {
        first: one.first.min(other.first),
        last: one.last.max(other.last),
    }
}
