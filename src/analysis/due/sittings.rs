//! Sittings that make siblings comparable: at an age at which another sowing was read, or at the ages this grower reads.
//!
//! Readings stand side by side when their ages lie within half a month of each other (`observation::moment`), so a
//! sitting is due in the month around that age and not afterwards.

use super::context::DueContext;
use super::row::{Basis, DueRow, Task, Urgency};
use crate::observation::moment::NEAR;
use crate::observation::months::{MONTH, months};
use crate::observation::presence::{Presence, presence};
use crate::observation::provenance::sown;
use crate::planning::windows::Between;
use crate::record::When;
use crate::registry::{SittingRow, SowingRow};
use std::collections::BTreeMap;

/// Plants a sowing must have for its siblings to be compared.
const FEWEST: usize = 3;
/// Ages at which siblings are read where `registry.ron` names none, months: common practice.
const USUAL: [f64; 2] = [12.0, 24.0];

/// One sowing.
struct Group {
    sown: When,
    here: usize,
    /// Ages at which plants of it were read, months.
    read: Vec<f64>,
}

/// An age worth a sitting: months, and the sowing read then.
type Age = (f64, Option<SowingRow>);

impl DueContext<'_, '_> {
    /// Sittings due.
    pub fn sittings(&self) -> Vec<DueRow> {
        let groups = self.groups();
        let read = groups
            .iter()
            .flat_map(|(place, group)| group.read.iter().map(|age| (*age, Some(*place))));
        let set = &self.registry.settings.intervals.sittings_at_months;
        let usual = match set.is_empty() {
            true => &USUAL[..],
            false => &set[..],
        };
        let mut ages: Vec<Age> = read.chain(usual.iter().map(|age| (*age, None))).collect();
        ages.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let large = groups.iter().filter(|(_, group)| group.here >= FEWEST);
        large
            .flat_map(|(place, group)| self.of_group(*place, group, &ages))
            .collect()
    }

    fn of_group(&self, place: SowingRow, group: &Group, ages: &[Age]) -> Vec<DueRow> {
        let others = ages.iter().filter(|(_, of)| *of != Some(place));
        let unread = |(age, _): &&Age| !group.read.iter().any(|own| (own - age).abs() <= NEAR);
        let mut rows: Vec<DueRow> = Vec::new();
        let mut together: Vec<Age> = Vec::new();
        let wanted: Vec<Age> = others.filter(unread).copied().collect();
        for (at, age) in wanted.iter().enumerate() {
            together.push(*age);
            let next = wanted.get(at + 1);
            if next.is_none_or(|next| next.0 - together[0].0 > NEAR) {
                rows.extend(self.sitting(place, group, &together));
                together.clear();
            }
        }
        rows
    }

    /// One sitting at ages no more than half a month apart.
    fn sitting(&self, sowing: SowingRow, group: &Group, ages: &[Age]) -> Option<DueRow> {
        let (first, last) = (ages.first()?.0, ages.last()?.0);
        let day = |from: i32, months: f64| f64::from(from) + months * MONTH;
        let window = Between {
            earliest: libm::ceil(day(group.sown.last.0, last - NEAR)) as i32,
            latest: libm::floor(day(group.sown.first.0, first + NEAR)) as i32,
        };
        if window.latest < window.earliest {
            return None;
        }
        // Asked first: of most ages the days are over, and each may stand beside all other sowings.
        self.urgency(Some(window))
            .filter(|of| matches!(of, Urgency::Now | Urgency::Soon))?;
        let mut beside: Vec<String> = ages
            .iter()
            .filter_map(|(_, of)| of.map(|place| self.sowing_code(place)))
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

    /// Sowings whose day is known to a month.
    fn groups(&self) -> BTreeMap<SowingRow, Group> {
        let registry = self.registry;
        let mut groups: BTreeMap<SowingRow, Group> = BTreeMap::new();
        let mut read: BTreeMap<(SowingRow, SittingRow), usize> = BTreeMap::new();
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
            let mut sittings: Vec<SittingRow> =
                registry.readings.of(plant).map(|of| of.sitting).collect();
            sittings.dedup();
            for sitting in sittings {
                *read.entry((sowing, sitting)).or_default() += 1;
            }
        }
        for ((place, sitting), plants) in read {
            let group = groups.get_mut(&place).filter(|_| plants >= FEWEST);
            if let Some(group) = group {
                let on = registry.when(registry[sitting].sitting.on);
                let age = months(group.sown, on).filter(|(least, most)| most - least <= 2.0 * NEAR);
                group
                    .read
                    .extend(age.map(|(least, most)| (least + most) / 2.0));
            }
        }
        groups
    }
}
