//! What a grower may want to look at after a pollination: a mother of unknown sex, pollen that was not there or is old.

use super::event::Pollinate;
use super::father::GivenPollen;
use crate::observation::mixed_up::mixed_up_since;
use crate::observation::pollen::{LASTS_LONGEST, outlived};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::spike_days::LAST_AT_MOST;
use crate::record::{PollenSource, When};
use crate::recording::dates::Dated;
use crate::recording::voice::{Words, flower, words};
use crate::registry::{PlantOrRamet, PlantRow, PollenRow, Registry, Target};
use crate::wording::age_of_days;

impl Pollinate {
    /// What a grower may want to look at: a mother whose sex is not known, pollen that was not there or is old.
    pub(super) fn doubts(
        &self,
        registry: &Registry,
        seed: PlantOrRamet,
        (envelope, on): (Option<&str>, &Dated),
    ) -> Vec<Words> {
        let mut doubts = Vec::new();
        let sex = sex_seen(registry, seed.plant);
        let plant = registry.code_of(seed);
        if let (SexSeen::MixedUp, Some(since)) = (sex, mixed_up_since(registry, seed.plant)) {
            doubts.push(words!(
                "The sex of {plant} is not known ({since}), and only a female bears pods; record its flowers: {}";
                flower(&plant, " --sex female")
            ));
        }
        if sex == SexSeen::Unsexed {
            doubts.push(words!(
                "The sex of {plant} is not on record, and only a female bears pods; record its flowers: {}";
                flower(&plant, " --sex female")
            ));
        }
        if let Some(GivenPollen::With(typed)) = &self.pollen
            && let Some(father) = registry.target(typed).and_then(Target::plant)
            && !had_pollen(registry, father, on.when)
        {
            let father = typed.trim();
            doubts.push(format!("{father} has no open flower on record for that day, and no envelope of its pollen: check which plant it was").into());
        }
        let lot = envelope.and_then(|code| registry.pollen_lot(code));
        doubts.extend(lot.and_then(|lot| old_pollen(registry, lot, on.when)));
        doubts
    }
}

/// Whether a plant had an open flower on some day of a date, or there was an envelope of its pollen.
fn had_pollen(registry: &Registry, father: PlantRow, on: When) -> bool {
    let in_flower = registry.flowerings(father).iter().any(|flowering| {
        let date = |text: Option<&str>| text.map_or(When::UNKNOWN, |text| registry.when(text));
        let (opened, over) = (date(flowering.opened), date(flowering.over));
        let dated = flowering.opened.or(flowering.over).is_some();
        let last = over.last.0.min(opened.last.0.saturating_add(LAST_AT_MOST));
        let first = opened
            .first
            .0
            .max(over.first.0.saturating_sub(LAST_AT_MOST));
        dated && first <= on.last.0 && on.first.0 <= last
    });
    in_flower
        || registry.pollen.iter().any(|lot| {
            let is_of = match &lot.from {
                PollenSource::Plant(of) => {
                    registry.target(of).and_then(Target::plant) == Some(father)
                }
                _ => false,
            };
            let begun = lot
                .collected
                .is_none_or(|day| registry.when(day).first <= on.last);
            let ended = lot
                .finished
                .is_some_and(|day| registry.when(day).surely_before(on));
            is_of && begun && !ended
        })
}

/// What to say of an envelope older than such pollen is reported to last.
fn old_pollen(registry: &Registry, lot: PollenRow, on: When) -> Option<Words> {
    let lot = &registry[lot];
    let age = registry.when(lot.collected?).days_until(on)?;
    let reported = outlived(lot.stored.unwrap_or(LASTS_LONGEST), age.0)?;
    Some(
        format!(
            "The pollen of {} is {} old; growers report that it lasts {reported}. Expect few pods",
            lot.code,
            age_of_days(age)
        )
        .into(),
    )
}
