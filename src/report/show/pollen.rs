//! An envelope of pollen.

use super::answer::ShowReport;
use super::screen::Screen;
use crate::analysis::show::pollen;
use crate::naming::recorded::TopOf;
use crate::observation::pollen::life_words;
use crate::record::{PollenPlace, PollenSource};
use crate::registry::PollenRow;
use crate::report::caution::RankedCaution;
use crate::report::fact::fact;
use crate::report::plants::typed;
use crate::wording::{age_of_days, joined_if_any};

impl Screen<'_, '_, '_> {
    /// Pollen of one plant or several, collected together.
    pub fn pollen(&self, at: PollenRow) -> ShowReport {
        let lot = &self.registry[at];
        let seen = pollen(self.context, at);
        let top = seen.plant.map(TopOf::Plant);
        let (from, name) = match &lot.from {
            PollenSource::Plant(code) => (
                (*code).to_owned(),
                top.map_or_else(|| "?".to_owned(), |top| self.name(top)),
            ),
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
        let stored = lot.stored.map(|place| match place {
            PollenPlace::Fresh => "fresh",
            PollenPlace::Room => "room temperature",
            PollenPlace::Fridge => "fridge",
            PollenPlace::Freezer => "freezer",
        });
        let age = seen.age;
        let life = life_words(lot.stored, age).filter(|_| !seen.finished);
        let age_is = match seen.finished {
            true => "age when finished",
            false => "age today",
        };
        let thawed = lot.thawed.iter().map(|on| typed(self.registry, on));
        let thawed = joined_if_any(thawed, ", ");
        let facts = [
            fact("from", Some(from)),
            fact(
                "collected",
                lot.collected.map(|on| typed(self.registry, on)),
            ),
            fact(age_is, age.map(age_of_days)),
            fact("at its age", life),
            fact("dried", lot.dried.as_deref()),
            fact("stored", stored),
            fact("thawed", thawed),
            fact("flowers set with it", Some(seen.set.words())),
            fact("amount left", lot.left.as_deref()),
            fact("finished", lot.finished.map(|on| typed(self.registry, on))),
            fact("note", lot.note.as_deref()),
        ];
        ShowReport {
            id: lot.code.to_owned(),
            what: "pollen lot",
            name,
            facts: facts.into_iter().flatten().collect(),
            cautions: RankedCaution::doubts(self.names.doubts(top)).collect(),
            ..ShowReport::default()
        }
    }
}
