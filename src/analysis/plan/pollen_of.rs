//! Whose pollen there is for a season, and how long it can be used.

use crate::analysis::plan::candidates::PollenOf;
use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::days::ALWAYS;
use crate::lineage::PlantRow;
use crate::observation::flowers::Spike;
use crate::observation::pollen::{Envelope, OwnResults, in_hand};
use crate::planning::windows::{Between, Window};
use crate::record::{Day, PollenPlace, Sex, When};

impl PlanContext<'_, '_, '_> {
    /// All pollen; of one plant as shed before stored, the freshest envelope first.
    pub(crate) fn pollen(&self, near: &[Spike], any_time: bool) -> Vec<PollenOf> {
        let shed = |plant, window| PollenOf {
            plant,
            lot: None,
            age_days: None,
            remark: None,
            window,
            keeps: self.goals.lasts(Some(PollenPlace::Fresh)).unwrap_or(0),
        };
        let mut pollen: Vec<PollenOf> = if any_time {
            let male = |&plant: &PlantRow| self.is(plant, Sex::Male);
            self.registry
                .plants()
                .filter(male)
                .map(|plant| shed(plant, ALWAYS))
                .collect()
        } else {
            let males = near.iter().filter(|s| s.planned_sex() == Some(Sex::Male));
            let today = self.context.today.0;
            males
                .map(|spike| shed(spike.plant, spike.left_on(today)))
                .collect()
        };
        let results = OwnResults::of(self.registry, self.context.today);
        let envelopes = in_hand(self.registry, self.context.today, &results);
        pollen.extend(
            envelopes
                .iter()
                .filter_map(|envelope| self.stored(envelope)),
        );
        pollen
    }

    fn stored(&self, envelope: &Envelope) -> Option<PollenOf> {
        let lot = &self.registry[self.registry.pollen_lot(&envelope.lot)?];
        let collected = lot.collected.map(|text| self.registry.when(text));
        let closes = self.last_use(collected.unwrap_or(When::UNKNOWN), lot.stored);
        Some(PollenOf {
            plant: envelope.plant?,
            lot: Some(envelope.lot.clone()),
            age_days: envelope.age_days,
            remark: envelope.remark.clone(),
            window: Window { closes, ..ALWAYS },
            keeps: 0,
        })
    }

    /// The last day on which pollen can be used. Of an unknown day it may be of any up to today, of an unknown place in any.
    fn last_use(&self, collected: When, place: Option<PollenPlace>) -> Between {
        let Some((shortest, longest)) = self.goals.lives(place) else {
            return ALWAYS.closes;
        };
        let after = |day: Day, life: u32| {
            let life = i32::try_from(life).unwrap_or(i32::MAX);
            let day = day.0.saturating_add(life);
            day.clamp(ALWAYS.opens.earliest, ALWAYS.closes.latest)
        };
        let last = collected.last.min(self.context.today).max(collected.first);
        Between {
            earliest: after(collected.first, shortest),
            latest: longest.map_or(ALWAYS.closes.latest, |life| after(last, life)),
        }
    }
}
