//! What is recorded of one plant, in words: what became of it, its sex, when it was last read.

use crate::record::{Fate, SeenBy, Sex, When};
use crate::registry::{PlantRow, Registry};

pub use crate::observation::{Presence, SexSeen, end_of, pieces_here, presence, sex_seen};

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

/// The sex in words: `female`, `male by buds only`, `unsexed`.
pub fn sex_words(seen: SexSeen) -> String {
    let word = |sex| if sex == Sex::Female { "female" } else { "male" };
    match seen {
        SexSeen::Unsexed => "unsexed".to_owned(),
        SexSeen::Certain(sex) => word(sex).to_owned(),
        SexSeen::Guess(sex, SeenBy::Buds) => format!("{} by buds only", word(sex)),
        SexSeen::Guess(sex, SeenBy::LeafTest) => format!("{} by leaf test only", word(sex)),
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
