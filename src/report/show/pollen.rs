//! An envelope of pollen.

use super::answer::ShowReport;
use super::screen::{Screen, fact};
use crate::naming::recorded::TopOf;
use crate::observation::pollen::{OwnResults, life_words};
use crate::record::{PollenPlace, PollenSource, When};
use crate::registry::PollenRow;
use crate::report::caution::RankedCaution;
use crate::wording::age_of_days;

impl Screen<'_, '_, '_> {
    /// Pollen of one plant or several, collected together.
    pub fn pollen(&self, at: PollenRow) -> ShowReport {
        let lot = &self.registry[at];
        let mut cautions = Vec::new();
        let (from, name) = match &lot.from {
            PollenSource::Plant(code) => {
                let plant = self.registry.plant(code).or_else(|| {
                    code.rsplit_once('-')
                        .and_then(|(plant, _)| self.registry.plant(plant))
                });
                cautions = self.names.doubts(plant.map(TopOf::Plant));
                (
                    (*code).to_owned(),
                    plant.map_or_else(|| "?".to_owned(), |plant| self.name(TopOf::Plant(plant))),
                )
            }
            PollenSource::OneOf(codes) => (
                format!("one of {}", codes.join(", ")),
                "one of several".to_owned(),
            ),
            PollenSource::Mixed(codes) => (
                format!("a mixture of {}", codes.join(", ")),
                "a mixture".to_owned(),
            ),
            PollenSource::Unknown => ("buyer not recorded".to_owned(), "unknown pollen".to_owned()),
        };
        let set = OwnResults::of(self.registry, self.context.today).by_lot(at);
        let stored = lot.stored.map(|place| match place {
            PollenPlace::Fresh => "fresh",
            PollenPlace::Room => "room temperature",
            PollenPlace::Fridge => "fridge",
            PollenPlace::Freezer => "freezer",
        });
        let collected = lot.collected.map(|on| self.registry.when(on));
        let finished = lot.finished.map(|on| self.registry.when(on));
        let until = finished.unwrap_or(When::on(self.context.today));
        let age = collected.and_then(|when| when.days_until(until));
        let life = life_words(lot.stored, age).filter(|_| finished.is_none());
        let facts = [
            fact("from", Some(from)),
            fact("collected", lot.collected.map(|on| self.typed(on))),
            fact(
                if finished.is_some() {
                    "age when finished"
                } else {
                    "age today"
                },
                age.map(age_of_days),
            ),
            fact("for its place", life),
            fact("dried", lot.dried.as_deref()),
            fact("stored", stored),
            fact(
                "thawed",
                (!lot.thawed.is_empty()).then(|| {
                    lot.thawed
                        .iter()
                        .map(|on| self.typed(on))
                        .collect::<Vec<_>>()
                        .join(", ")
                }),
            ),
            fact("pods set with it", Some(set.words())),
            fact("amount left", lot.left.as_deref()),
            fact("finished", lot.finished.map(|on| self.typed(on))),
            fact("note", lot.note.as_deref()),
        ];
        ShowReport {
            id: lot.code.to_owned(),
            what: "pollen lot",
            name,
            facts: facts.into_iter().flatten().collect(),
            cautions: RankedCaution::doubts(cautions).collect(),
            ..ShowReport::default()
        }
    }
}
