//! What a grower may want to look at after a pollination: a mother of unknown sex, pollen that was not there or is old.

use super::event::Pollinate;
use super::father::{GivenPollen, in_hand};
use crate::observation::mixed_up::mixed_up_since;
use crate::observation::pollen::{LASTS_LONGEST, age_on, outlived};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::spike_days::LAST_AT_MOST;
use crate::record::When;
use crate::recording::dates::Dated;
use crate::recording::voice::{Words, flower, words};
use crate::registry::{PlantOrRamet, PlantRow, PollenRow, Registry, Target};
use crate::wording::{age_of_days, joined_if_any, listed};
use std::slice::from_ref;

impl Pollinate {
    /// What a grower may want to look at: a mother whose sex is not known, pollen that was not there or is old.
    pub(super) fn doubts(&self, registry: &Registry, seed: PlantOrRamet, on: &Dated) -> Vec<Words> {
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
        let old = |lot| old_pollen(registry, lot, on.when);
        doubts.extend(self.envelopes(registry).into_iter().filter_map(old));
        doubts
    }

    /// The envelopes that are named, one or among others.
    fn envelopes(&self, registry: &Registry) -> Vec<PollenRow> {
        let typed = match &self.pollen {
            Some(GivenPollen::With(typed)) => from_ref(typed),
            Some(GivenPollen::OneOf(typed) | GivenPollen::Mixed(typed)) => typed,
            _ => &[],
        };
        let lots = typed.iter().filter_map(|typed| registry.target(typed));
        lots.filter_map(|lot| match lot {
            Target::Pollen(lot) => Some(lot),
            _ => None,
        })
        .collect()
    }

    /// The remarks, with the envelopes among several fathers: a zone has a field for one envelope only.
    pub(super) fn remarks(&self, registry: &Registry) -> Option<String> {
        let lots = match &self.pollen {
            Some(GivenPollen::With(_)) => Vec::new(),
            _ => self.envelopes(registry),
        };
        let codes: Vec<&str> = lots.iter().map(|&lot| registry[lot].code).collect();
        let envelopes = (!codes.is_empty()).then(|| format!("pollen out of {}", listed(&codes)));
        let parts = [envelopes, self.note.clone()];
        joined_if_any(parts.into_iter().flatten(), "; ")
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
    in_flower || in_hand(registry, father, on).next().is_some()
}

/// What to say of an envelope older than such pollen is reported to last.
fn old_pollen(registry: &Registry, lot: PollenRow, on: When) -> Option<Words> {
    let lot = &registry[lot];
    let age = age_on(registry, lot, on)?;
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
