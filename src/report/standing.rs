//! What the record says of one plant today: whether it is here, which sex it showed, when it was last read.

use crate::record::{Day, Fate, PitcherType, SeenBy, Sex, When};
use crate::registry::{PlantKind, PlantRow, Registry};

/// Whether a plant is here.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Presence {
    /// Alive and here, as far as recorded.
    Here,
    /// Died, was culled or was lost.
    Gone,
    /// Sold or given away; alive when it left.
    LetGo,
    /// Never stood here: a parent known only by name.
    NeverHere,
}

/// Whether a plant is here today. A clone with recorded ramets is gone when all of them are.
pub fn presence(registry: &Registry, plant: PlantRow, today: Day) -> Presence {
    if registry.kind(plant) == PlantKind::Unseen {
        return Presence::NeverHere;
    }
    let whole = registry
        .fate(plant)
        .map(|fate| ended(registry, fate, today));
    if let Some(ended) = whole.flatten() {
        return ended;
    }
    let ramets = registry.ramets(plant);
    let ends: Vec<Option<Presence>> = ramets
        .iter()
        .map(|ramet| {
            ramet
                .fate
                .as_ref()
                .and_then(|fate| ended(registry, fate, today))
        })
        .collect();
    match ends.iter().copied().collect::<Option<Vec<Presence>>>() {
        Some(all) if !all.is_empty() => {
            if all.contains(&Presence::LetGo) {
                Presence::LetGo
            } else {
                Presence::Gone
            }
        }
        _ => Presence::Here,
    }
}

/// How a fate ends a plant; `None` when it lies after today.
fn ended(registry: &Registry, fate: &Fate, today: Day) -> Option<Presence> {
    let (on, presence) = match fate {
        Fate::Died { on, .. } | Fate::Culled { on, .. } | Fate::Lost { on, .. } => {
            (on, Presence::Gone)
        }
        Fate::Sold { on, .. } | Fate::Given { on, .. } => (on, Presence::LetGo),
    };
    let when = registry.when(on);
    (when.first == Day::FIRST || when.first <= today).then_some(presence)
}

/// When a plant that is gone or was let go left; `None` while it is here, also when nobody wrote down the day.
pub fn end_of(registry: &Registry, plant: PlantRow, today: Day) -> Option<When> {
    if matches!(
        presence(registry, plant, today),
        Presence::Here | Presence::NeverHere
    ) {
        return None;
    }
    let day = |fate: &Fate| match fate {
        Fate::Died { on, .. }
        | Fate::Culled { on, .. }
        | Fate::Lost { on, .. }
        | Fate::Sold { on, .. }
        | Fate::Given { on, .. } => registry.when(on),
    };
    let ramets = registry.ramets(plant).iter();
    let last = ramets.filter_map(|ramet| ramet.fate.as_ref()).map(day);
    registry.fate(plant).map(day).or(last.max())
}

/// A fate in words: `died 2023-05 (rot)`.
pub fn fate_words(fate: &Fate) -> String {
    let (verb, on, why) = match fate {
        Fate::Died { on, cause } => ("died", on, cause.as_deref()),
        Fate::Culled { on, reason } => ("culled", on, reason.as_deref()),
        Fate::Sold { on, .. } => ("sold", on, None),
        Fate::Given { on, .. } => ("given away", on, None),
        Fate::Lost { on, note } => ("lost", on, note.as_deref()),
    };
    match why {
        Some(why) => format!("{verb} {on} ({why})"),
        None => format!("{verb} {on}"),
    }
}

/// Rooted pieces that are here; a plant without recorded ramets is one piece.
pub fn pieces_here(registry: &Registry, plant: PlantRow, today: Day) -> usize {
    if presence(registry, plant, today) != Presence::Here {
        return 0;
    }
    let ramets = registry.ramets(plant);
    let here = |fate: &Option<Fate>| {
        fate.as_ref()
            .and_then(|f| ended(registry, f, today))
            .is_none()
    };
    if ramets.is_empty() {
        1
    } else {
        ramets.iter().filter(|r| here(&r.fate)).count()
    }
}

/// What was seen of a plant's sex.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum SexSeen {
    /// Never flowered on record.
    Unsexed,
    /// Seen on open flowers, or by a leaf test.
    Certain(Sex),
    /// Guessed from buds, or a supplier's word.
    Guess(Sex, SeenBy),
    /// Both sexes on record: check the label first.
    Contradicted,
}

/// The sex seen on a plant: certain sightings outweigh guesses.
pub fn sex_seen(registry: &Registry, plant: PlantRow) -> SexSeen {
    let mut certain = None;
    let mut guess = None;
    for flowering in registry.flowerings(plant) {
        let Some(sex) = flowering.sex else { continue };
        match flowering.seen_by {
            SeenBy::Flowers | SeenBy::LeafTest if certain.is_some_and(|seen| seen != sex) => {
                return SexSeen::Contradicted;
            }
            SeenBy::Flowers | SeenBy::LeafTest => certain = Some(sex),
            by => guess = Some((sex, by)),
        }
    }
    match (certain, guess) {
        (Some(sex), _) => SexSeen::Certain(sex),
        (None, Some((sex, by))) => SexSeen::Guess(sex, by),
        (None, None) => SexSeen::Unsexed,
    }
}

/// The sex in words: `female`, `male by buds only`, `unsexed`.
pub fn sex_words(seen: SexSeen) -> String {
    let word = |sex| if sex == Sex::Female { "female" } else { "male" };
    match seen {
        SexSeen::Unsexed => "unsexed".to_owned(),
        SexSeen::Certain(sex) => word(sex).to_owned(),
        SexSeen::Guess(sex, SeenBy::Buds) => format!("{} by buds only", word(sex)),
        SexSeen::Guess(sex, _) => format!("{}, supplier's word", word(sex)),
        SexSeen::Contradicted => "both sexes on record".to_owned(),
    }
}

/// When a plant was last read; `None` when never.
pub fn last_read(registry: &Registry, plant: PlantRow) -> Option<When> {
    let sittings = registry.readings.sittings();
    let dates = registry
        .readings
        .of(plant)
        .map(|reading| registry.when(sittings[reading.sitting as usize].sitting.on));
    dates.max_by_key(|when| (when.last, when.first))
}

/// A kind of pitcher as written in a `pitcher` column.
pub fn pitcher_named(word: &str) -> Option<PitcherType> {
    Some(match word.trim() {
        "juvenile" => PitcherType::Juvenile,
        "lower" => PitcherType::Lower,
        "intermediate" => PitcherType::Intermediate,
        "upper" => PitcherType::Upper,
        _ => return None,
    })
}
