//! Which sex a plant has shown, and how surely.
//!
//! Only open flowers are certain. The shape of buds, a test on a leaf and a supplier's word are guesses: a sample or a
//! label may be of another plant, and buds deceive (common practice, no source).
//!
//! While plants are mixed up, what was seen before belongs to one of them, and it is not known to which: it counts where all
//! of them showed the same. What was seen after is of the pot that bears the code.

use crate::observation::who_it_may_be::may_be;
use crate::record::{Day, Flowering, SeenBy, Sex, When};
use crate::registry::{PlantRow, Registry};

/// What was seen of a plant's sex.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum SexSeen {
    /// Never flowered on record, or only guesses that differ.
    Unsexed,
    /// Seen on open flowers.
    Certain(Sex),
    /// Guessed from buds or a leaf test, or a supplier's word.
    Guess(Sex, SeenBy),
    /// Open flowers of both sexes on record: check the label first.
    Contradicted,
    /// Mixed up with others that did not all show the same sex, and not flowered since.
    MixedUp,
}

impl SexSeen {
    /// Whether neither flowers nor a guess say it: never flowered, or mixed up since.
    pub fn is_open(self) -> bool {
        matches!(self, SexSeen::Unsexed | SexSeen::MixedUp)
    }
}

/// One record of a sex.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Sighting {
    /// The sex.
    pub sex: Sex,
    /// How it is known.
    pub seen_by: SeenBy,
    /// Index of the flowering among those of the plant.
    pub flowering: usize,
}

impl Sighting {
    /// Whether it is certain.
    pub fn is_certain(&self) -> bool {
        self.seen_by == SeenBy::Flowers
    }

    /// What it says of the plant when no other is recorded.
    pub fn seen(&self) -> SexSeen {
        match self.is_certain() {
            true => SexSeen::Certain(self.sex),
            false => SexSeen::Guess(self.sex, self.seen_by),
        }
    }
}

/// The sex recorded with the flowering at an index; `None` when it has none.
pub fn sighting(at: usize, flowering: &Flowering) -> Option<Sighting> {
    Some(Sighting {
        sex: flowering.sex?,
        seen_by: flowering.seen_by,
        flowering: at,
    })
}

/// The records of a plant's sex by their days, whatever their order on the page. Of flowers those without a known day come
/// last, since the first decides; of guesses they come first, since the latest does.
fn sightings(registry: &Registry, plant: PlantRow) -> Vec<Sighting> {
    let flowerings = registry.flowerings(plant);
    let all = flowerings.iter().enumerate();
    let all = all.filter_map(|(at, flowering)| sighting(at, flowering));
    let mut all: Vec<Sighting> = all.collect();
    all.sort_by_key(|seen| {
        let day = seen_on(registry, &flowerings[seen.flowering]);
        let is_late = (day == When::UNKNOWN) == seen.is_certain();
        (is_late, day, seen.seen_by as u8)
    });
    all
}

/// The record that decides among several in the order of their days: the first on open flowers, else the latest guess. `None`
/// when there is none, or when those that would decide differ.
fn deciding(all: &[Sighting]) -> Option<Sighting> {
    let first = all.iter().find(|seen| seen.is_certain());
    let decides = *first.or(all.last())?;
    let mut of_its_kind = all
        .iter()
        .filter(|seen| seen.is_certain() == decides.is_certain());
    of_its_kind
        .all(|seen| seen.sex == decides.sex)
        .then_some(decides)
}

/// What decides the sex of a plant.
struct Known {
    /// The records that count for it.
    counting: Vec<Sighting>,
    /// Whether something was seen before a mix-up that may be of another plant.
    in_doubt: bool,
}

fn known(registry: &Registry, plant: PlantRow) -> Known {
    let all = sightings(registry, plant);
    let Some(mix_up) = may_be(registry, plant) else {
        let in_doubt = false;
        return Known {
            counting: all,
            in_doubt,
        };
    };
    let flowerings = registry.flowerings(plant);
    let is_own = |seen: &Sighting| is_after(registry, &flowerings[seen.flowering], mix_up.since);
    let own = all.into_iter().filter(is_own);
    let before = seen_before(registry, plant);
    // A plant that is not on record showed nothing.
    let not_on_record = (!mix_up.all_on_record).then_some(None);
    let of_each = before.iter().map(|(_, seen)| deciding(seen));
    let agreed = agreed(of_each.chain(not_on_record));
    Known {
        counting: agreed.into_iter().chain(own).collect(),
        in_doubt: agreed.is_none() && before.iter().any(|(_, seen)| !seen.is_empty()),
    }
}

/// What was seen before the last mix-up of a plant that is not settled: of itself, then of each other that it may be.
fn seen_before(registry: &Registry, plant: PlantRow) -> Vec<(PlantRow, Vec<Sighting>)> {
    let Some(mix_up) = may_be(registry, plant) else {
        return Vec::new();
    };
    let all = [plant].into_iter().chain(mix_up.others);
    all.map(|of| {
        let flowerings = registry.flowerings(of);
        let mut seen = sightings(registry, of);
        seen.retain(|seen| !is_after(registry, &flowerings[seen.flowering], mix_up.since));
        (of, seen)
    })
    .collect()
}

/// The sex that open flowers showed of the plant that bore a code before its last mix-up that is not settled: whichever pot it
/// stands in now, it was of that line.
pub fn shown_before_a_mix_up(registry: &Registry, plant: PlantRow) -> Option<Sex> {
    let before = seen_before(registry, plant);
    let of_itself = deciding(&before.first()?.1)?;
    of_itself.is_certain().then_some(of_itself.sex)
}

/// What the first of several showed, as surely as the least sure of them; `None` where one showed nothing or another sex.
fn agreed(mut of_each: impl Iterator<Item = Option<Sighting>>) -> Option<Sighting> {
    let mut least = of_each.next()??;
    for seen in of_each {
        let seen = seen.filter(|seen| seen.sex == least.sex)?;
        if least.is_certain() {
            least.seen_by = seen.seen_by;
        }
    }
    Some(least)
}

/// Whether flowers were surely seen after a day.
fn is_after(registry: &Registry, flowering: &Flowering, day: When) -> bool {
    day.surely_before(seen_on(registry, flowering))
}

/// The days on which flowers can have been seen. A day by which they were open is one on which they were seen.
fn seen_on(registry: &Registry, flowering: &Flowering) -> When {
    let seen = flowering.opened.or(flowering.over).or(flowering.spike);
    let seen = seen.map_or(When::UNKNOWN, |on| registry.when(on));
    match (seen.first, seen.last) {
        (_, Day::LAST) => seen,
        (Day::FIRST, last) => When { first: last, last },
        _ => seen,
    }
}

/// Whether a flowering of a plant that is mixed up may be of before that, so that it may be of another plant; `None` where it
/// is not mixed up.
pub fn is_of_before_a_mix_up(
    registry: &Registry,
    plant: PlantRow,
    flowering: &Flowering,
) -> Option<bool> {
    let mix_up = may_be(registry, plant)?;
    Some(!is_after(registry, flowering, mix_up.since))
}

/// The plant that a pot must be whose open flowers showed a sex on a day: one of those it may be showed it before they were
/// mixed up, and all the others showed the other sex. `None` where that does not follow.
pub fn told_apart(
    registry: &Registry,
    plant: PlantRow,
    (sex, on): (Sex, When),
) -> Option<PlantRow> {
    let mix_up = may_be(registry, plant)?;
    if !mix_up.at_once || !mix_up.since.surely_before(on) {
        return None;
    }
    let mut it_is = Vec::new();
    for (of, seen) in seen_before(registry, plant) {
        let seen = deciding(&seen).filter(Sighting::is_certain)?;
        it_is.extend((seen.sex == sex).then_some(of));
    }
    match it_is[..] {
        [of] => Some(of),
        _ => None,
    }
}

/// The record that decides a plant's sex: the first on open flowers, else the latest guess, by their days. `None` when none is
/// recorded, when those that would decide differ, or when they may be of another plant.
pub fn sighting_of(registry: &Registry, plant: PlantRow) -> Option<Sighting> {
    deciding(&known(registry, plant).counting)
}

/// The sex seen on a plant: open flowers outweigh guesses, and guesses that differ say nothing.
pub fn sex_seen(registry: &Registry, plant: PlantRow) -> SexSeen {
    let known = known(registry, plant);
    match deciding(&known.counting) {
        Some(seen) => seen.seen(),
        None if known.counting.iter().any(Sighting::is_certain) => SexSeen::Contradicted,
        None if known.in_doubt => SexSeen::MixedUp,
        None => SexSeen::Unsexed,
    }
}
