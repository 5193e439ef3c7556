//! Two pollens on the flowers of one thread: a zone of that name on the same plant that bears pollen of another father.

use super::event::Pollinate;
use super::father::{Father, pair_of};
use crate::observation::spike_days::LAST_AT_MOST;
use crate::record::{Pollination, When};
use crate::recording::voice::Words;
use crate::registry::{PlantOrRamet, Registry};
use crate::wording::at_date;

impl Pollinate {
    /// The zones of that name on the same spike that were dusted with other pollen; none where the name was not given,
    /// since the letters chosen for zones begin anew with each cross.
    pub(super) fn other_pollen(
        &self,
        registry: &Registry,
        seed: PlantOrRamet,
        (father, on): (&Father, When),
    ) -> Vec<Words> {
        let Some(zone) = self.zone.as_deref() else {
            return Vec::new();
        };
        let mother = registry.code(seed.plant);
        let mut found = Vec::new();
        for (_, cross) in registry.own_crosses() {
            let pair = pair_of(registry, &cross.page.parents);
            let Some((_, other)) = pair.filter(|(of, by)| *of == mother && by != father) else {
                continue;
            };
            let same = |known: &&Pollination| {
                known.zone == zone && self.may_be_the_same(registry, seed, known)
            };
            for known in cross.page.pollinations.iter().filter(same) {
                let day = known.on.iter().find(|day| is_near(registry.when(day), on));
                if let Some(day) = day {
                    found.push(Words::from(format!(
                        "Zone {zone} of {} was dusted with {} {} ({}.{zone}): if these are the same flowers, their pods have two possible fathers. If they are others, undo this and give their zone another name",
                        registry.code_of(seed),
                        other.pollen_words(known.pollen),
                        at_date(day),
                        cross.page.code
                    )));
                }
            }
        }
        found
    }

    /// Whether a pollination may be of the piece and the spike that are meant.
    fn may_be_the_same(
        &self,
        registry: &Registry,
        seed: PlantOrRamet,
        known: &Pollination,
    ) -> bool {
        let piece = seed.ramet.map(|_| registry.code_of(seed));
        let differ = |one: Option<&str>, other: Option<&str>| {
            one.zip(other).is_some_and(|(one, other)| one != other)
        };
        !differ(piece.as_deref(), known.plant) && !differ(self.spike.as_deref(), known.spike)
    }
}

/// Whether two days may be of one spike.
fn is_near(one: When, other: When) -> bool {
    let reaches = |from: When, to: When| from.first.0 <= to.last.0.saturating_add(LAST_AT_MOST);
    reaches(one, other) && reaches(other, one)
}
