//! Days on which flowers were open by other records than those of their spike: they were dusted, or their pollen was taken.
//!
//! Such a day bounds the last flower of a spike from below, where it can be of no other spike of that plant.

use super::parent_of::mother;
use super::spike_days::{LAST_AT_MOST, NO_LONGER, may_be_of_piece};
use crate::lineage::PlantRow;
use crate::record::{Day, Flowering, PollenSource, When};
use crate::registry::{PlantOrRamet, Registry, Target};
use std::collections::BTreeMap;

/// Days a dusting may lie before the first day a spike can have opened and still be of that spike: dates are noted late.
const BEFORE_OPEN: i32 = 7;

/// Flowers of a plant that were open.
pub struct SeenOpen<'t> {
    /// The piece they were on, where that is written down.
    pub piece: Option<&'t str>,
    /// The spike, where its code is written down.
    pub spike: Option<&'t str>,
    /// When: days that are all on record.
    pub on: When,
}

/// What was seen by a day, by plant.
pub fn seen_open<'t>(registry: &Registry<'t>, by: Day) -> BTreeMap<PlantRow, Vec<SeenOpen<'t>>> {
    let mut seen: BTreeMap<PlantRow, Vec<SeenOpen>> = BTreeMap::new();
    let mut add = |of: PlantOrRamet, spike: Option<&'t str>, on: &str| {
        let on = registry.when(on);
        if on.is_bounded() && on.last <= by {
            let piece = registry.ramet(of).map(|ramet| ramet.code);
            let seen = seen.entry(of.plant).or_default();
            seen.push(SeenOpen { piece, spike, on });
        }
    };
    for (_, cross) in registry.own_crosses() {
        for of in &cross.page.pollinations {
            if let Some(mother) = mother(registry, cross, of) {
                of.on.iter().for_each(|on| add(mother, of.spike, on));
            }
        }
    }
    for lot in registry.pollen.iter().filter(|lot| lot.told_by.is_none()) {
        let PollenSource::Plant(code) = lot.from else {
            continue;
        };
        let of = registry.target(code).and_then(Target::plant_or_ramet);
        if let Some((of, on)) = of.zip(lot.collected) {
            add(of, None, on);
        }
    }
    seen
}

/// The last day on which a spike surely had open flowers by what was seen of its plant, at the least.
pub fn last_seen_open(
    registry: &Registry,
    plant: PlantRow,
    spike: &Flowering,
    seen: &[SeenOpen],
) -> Option<Day> {
    let surely = seen.iter().filter(|of| {
        let flowerings = registry.flowerings(plant).iter();
        let mut may_be = flowerings.filter(|other| of.may_be_of(registry, other, BEFORE_OPEN));
        let only = may_be.next();
        only.is_some_and(|only| std::ptr::eq(only, spike)) && may_be.next().is_none()
    });
    surely.map(|of| of.on.first).max()
}

impl SeenOpen<'_> {
    /// The places, among the spikes of their plant, of those that these flowers were of as far as the record says: the one
    /// that is named, else those on record as open that may have been so then, else any, as dates are noted late or not at all.
    pub fn spikes(&self, registry: &Registry, plant: PlantRow) -> Vec<usize> {
        let all = registry.flowerings(plant).iter().enumerate();
        let may_be = |days: i32| {
            let may_be = move |of: &(usize, &Flowering)| self.may_be_of(registry, of.1, days);
            all.clone().filter(may_be)
        };
        let is_known = |(_, of): &(usize, &Flowering)| {
            of.opened.is_some() || self.spike.is_some_and(|named| of.code == Some(named))
        };
        let open: Vec<usize> = may_be(0).filter(is_known).map(|of| of.0).collect();
        match open.is_empty() {
            true => may_be(BEFORE_OPEN).map(|of| of.0).collect(),
            false => open,
        }
    }

    /// Whether these flowers may be of a spike: of the one that is named, else of any that may have been open then, noted
    /// so many days late at most.
    fn may_be_of(&self, registry: &Registry, spike: &Flowering, before: i32) -> bool {
        if let Some((named, of)) = self.spike.zip(spike.code) {
            return named == of;
        }
        let when = |text: Option<&str>| text.map_or(When::UNKNOWN, |text| registry.when(text));
        let [seen, opened, over] = [spike.spike, spike.opened, spike.over].map(when);
        let after = |day: Day, days: i32| match day {
            Day::FIRST | Day::LAST => day,
            day => Day(day.0.saturating_add(days)),
        };
        let opens = if opened.is_bounded() { opened } else { seen };
        let longest = match opened.last {
            Day::LAST => after(seen.last, NO_LONGER + LAST_AT_MOST),
            last => after(last, LAST_AT_MOST),
        };
        may_be_of_piece(spike, self.piece)
            && after(opens.first, -before) <= self.on.last
            && over.last.min(longest) >= self.on.first
    }
}
