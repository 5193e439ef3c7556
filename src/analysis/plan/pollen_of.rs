//! Whose pollen there is for a season, and how long it can be used.

use crate::analysis::plan::candidates::PollenOf;
use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::days::ALWAYS;
use crate::lineage::PlantRow;
use crate::observation::flowers::Spike;
use crate::observation::pollen::{Envelope, OwnResults, in_hand};
use crate::planning::windows::{Between, Window};
use crate::record::{PollenPlace, Sex};

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
        let lasts = self.goals.lasts(lot.stored);
        let closes = match (collected.filter(|when| when.is_bounded()), lasts) {
            (Some(when), Some(days)) => Between {
                earliest: when.first.0.saturating_add(days as i32),
                latest: when.last.0.saturating_add(days as i32),
            },
            _ => ALWAYS.closes,
        };
        Some(PollenOf {
            plant: envelope.plant?,
            lot: Some(envelope.lot.clone()),
            age_days: envelope.age_days,
            remark: envelope.remark.clone(),
            window: Window { closes, ..ALWAYS },
            keeps: 0,
        })
    }
}
