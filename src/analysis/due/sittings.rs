//! Sittings that make siblings comparable: at an age at which another sowing was read, or at the ages this grower reads.
//!
//! Readings of a trait stand side by side when their ages lie within half a month of each other (`observation::moment`), so
//! a sitting is due in the month around that age and not afterwards. One in which nothing was read that was read of the
//! others, remarks alone, say, or lengths without a unit, leaves it due.

use super::context::DueContext;
use super::row::{Basis, DueRow, Task, Urgency};
use crate::lineage::PlantRow;
use crate::observation::moment::NEAR;
use crate::observation::months::MONTH;
use crate::observation::presence::{Presence, presence};
use crate::observation::provenance::sown;
use crate::observation::series::readings_of_traits;
use crate::planning::windows::Between;
use crate::record::When;
use crate::registry::{SittingRow, SowingRow, TraitRow};
use std::collections::BTreeMap;

/// Plants a sowing must have for its siblings to be compared.
const FEWEST: usize = 3;
/// Ages at which siblings are read where `registry.ron` names none, months: common practice.
const USUAL: [f64; 2] = [12.0, 24.0];

/// One sowing.
struct Group {
    sown: When,
    here: usize,
    /// Ages at which plants of it were read.
    read: Vec<Age>,
}

/// An age at which siblings were read, or are read by habit.
#[derive(Clone)]
struct Age {
    /// The middle of what it may be, months.
    months: f64,
    /// Months from the least it may be to the greatest.
    width: f64,
    /// The sowing that was read.
    of: Option<SowingRow>,
    /// What was read; nothing of an age by habit, at which any trait will do.
    traits: Vec<TraitRow>,
}

impl Age {
    fn usual(months: f64) -> Age {
        Age {
            months,
            width: 0.0,
            of: None,
            traits: Vec::new(),
        }
    }

    /// Months on either side within which readings of an age so wide stand beside those of this one: `growth` compares at
    /// the middle of one of the two, where the other must surely lie within half a month.
    fn reach(&self, width: f64) -> f64 {
        NEAR - self.width.min(width) / 2.0
    }

    /// Whether readings of another age compare with those of this one.
    fn compares(&self, with: &Age) -> bool {
        let shares = |of: &TraitRow| with.traits.contains(of);
        (self.traits.is_empty() || self.traits.iter().any(shares))
            && (self.months - with.months).abs() <= self.reach(with.width)
    }
}

impl DueContext<'_, '_> {
    /// Sittings due.
    pub fn sittings(&self) -> Vec<DueRow> {
        let groups = self.groups();
        let read = groups.values().flat_map(|group| group.read.iter().cloned());
        let set = &self.registry.settings.intervals.sittings_at_months;
        let usual = match set.is_empty() {
            true => &USUAL[..],
            false => &set[..],
        };
        let usual = usual.iter().map(|&months| Age::usual(months));
        let mut ages: Vec<Age> = read.chain(usual).collect();
        ages.sort_by(|a, b| a.months.total_cmp(&b.months).then(a.of.cmp(&b.of)));
        let large = groups.iter().filter(|(_, group)| group.here >= FEWEST);
        large
            .flat_map(|(place, group)| self.of_group(*place, group, &ages))
            .collect()
    }

    fn of_group(&self, place: SowingRow, group: &Group, ages: &[Age]) -> Vec<DueRow> {
        let others = ages.iter().filter(|age| age.of != Some(place));
        let unread = |age: &&Age| !group.read.iter().any(|own| age.compares(own));
        let wanted: Vec<&Age> = others.filter(unread).collect();
        let mut rows: Vec<DueRow> = Vec::new();
        let mut together: Vec<&Age> = Vec::new();
        for (at, age) in wanted.iter().enumerate() {
            together.push(age);
            let next = wanted.get(at + 1);
            if next.is_none_or(|next| next.months - together[0].months > NEAR) {
                rows.extend(self.sitting(place, group, &together));
                together.clear();
            }
        }
        rows
    }

    /// One sitting at ages no more than half a month apart.
    fn sitting(&self, sowing: SowingRow, group: &Group, ages: &[&Age]) -> Option<DueRow> {
        let (first, last) = (ages.first()?.months, ages.last()?.months);
        let window = days(group.sown, ages)?;
        // Asked first: of most ages the days are over, and each may stand beside all other sowings.
        self.urgency(Some(window))
            .filter(|of| matches!(of, Urgency::Now | Urgency::Soon))?;
        let mut beside: Vec<String> = ages
            .iter()
            .filter_map(|age| age.of.map(|place| self.sowing_code(place)))
            .collect();
        beside.dedup();
        let basis = match beside.is_empty() {
            true => Basis::UsualAge,
            false => Basis::ReadBefore,
        };
        let task = Task::TakeSitting {
            months: (first + last) / 2.0,
            plants: group.here,
            beside,
        };
        let code = self.sowing_code(sowing);
        let mut row = self.on(code, task, Some(window), basis)?;
        row.since = Some(crate::wording::days(group.sown));
        Some(row)
    }

    fn sowing_code(&self, sowing: SowingRow) -> String {
        let page = &self.registry[sowing.cross].page;
        format!("{}.{}", page.code, self.registry[sowing].code)
    }

    /// Sowings whose day is known to a month, and when their plants were read.
    fn groups(&self) -> BTreeMap<SowingRow, Group> {
        let registry = self.registry;
        let mut groups: BTreeMap<SowingRow, Group> = BTreeMap::new();
        let mut plants: Vec<PlantRow> = Vec::new();
        for plant in registry.plants() {
            let (Some(sowing), ..) = registry.road(plant) else {
                continue;
            };
            let sown = sown(registry, plant);
            if !sown.is_bounded() || f64::from(sown.last.0 - sown.first.0) > MONTH {
                continue;
            }
            // One mixed up with siblings of another sowing is read with neither.
            if registry[sowing].on.map(|on| registry.when(on)) != Some(sown) {
                continue;
            }
            let group = groups.entry(sowing).or_insert_with(|| Group {
                sown,
                here: 0,
                read: Vec::new(),
            });
            group.here += usize::from(presence(registry, plant, self.today) == Presence::Here);
            plants.push(plant);
        }
        for (sowing, age) in self.ages_read(&plants) {
            if let Some(group) = groups.get_mut(&sowing) {
                group.read.push(age);
            }
        }
        groups
    }

    /// The ages at which some plants were read, known to a month, by sowing and sitting, with the traits of which enough
    /// readings compare.
    fn ages_read(&self, plants: &[PlantRow]) -> Vec<(SowingRow, Age)> {
        let registry = self.registry;
        let wanted = vec![true; registry.settings.traits.len()];
        let of_traits = readings_of_traits(registry, plants, wanted);
        let mut counts: BTreeMap<(SowingRow, SittingRow), Counted> = BTreeMap::new();
        for (row, of_trait) in registry.trait_rows().zip(&of_traits) {
            for (occasion, run) in of_trait.runs() {
                let known = |(least, most): &(f64, f64)| most - least <= 2.0 * NEAR;
                if let (Some(sowing), Some(age)) = (occasion.of.1, occasion.age.filter(known)) {
                    let counted = counts.entry((sowing, occasion.sitting)).or_default();
                    counted.age = age;
                    *counted.plants.entry(row).or_default() += run.places().count();
                }
            }
        }
        let ages = counts.into_iter();
        ages.filter_map(|((sowing, _), counted)| Some((sowing, counted.age_of(sowing)?)))
            .collect()
    }
}

/// What was read of one sowing in one sitting.
#[derive(Default)]
struct Counted {
    age: (f64, f64),
    /// Plants with a reading that compares, of each trait.
    plants: BTreeMap<TraitRow, usize>,
}

impl Counted {
    /// The age with the traits of which there are enough; `None` without any.
    fn age_of(&self, sowing: SowingRow) -> Option<Age> {
        let enough = self.plants.iter().filter(|(_, plants)| **plants >= FEWEST);
        let traits: Vec<TraitRow> = enough.map(|(of, _)| *of).collect();
        let (least, most) = self.age;
        (!traits.is_empty()).then_some(Age {
            months: (least + most) / 2.0,
            width: most - least,
            of: Some(sowing),
            traits,
        })
    }
}

/// The days on which readings of a sowing compare with those of all of some ages; `None` without such a day.
fn days(sown: When, ages: &[&Age]) -> Option<Between> {
    let width = f64::from(sown.last.0 - sown.first.0) / MONTH;
    let middle = (f64::from(sown.first.0) + f64::from(sown.last.0)) / 2.0;
    let day = |months: f64| middle + months * MONTH;
    let first = ages.iter().map(|age| day(age.months - age.reach(width)));
    let last = ages.iter().map(|age| day(age.months + age.reach(width)));
    let window = Between {
        earliest: libm::ceil(first.max_by(f64::total_cmp)?) as i32,
        latest: libm::floor(last.min_by(f64::total_cmp)?) as i32,
    };
    (window.earliest <= window.latest).then_some(window)
}
