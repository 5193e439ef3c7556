//! What the record of one plant says in the sheet of plants: the cells that are exported, and that a sheet which comes
//! back is held against.

use super::pieces::pot_here;
use super::places::places;
use super::presence::{Presence, presence};
use super::provenance::provenance;
use super::sex::sex_seen;
use super::standing::{DAY_NOT_KNOWN, status_words};
use crate::record::{Day, Fate, When};
use crate::registry::{PlantRow, Registry};
use crate::wording::days;

/// The headings of the cells, in the order of the sheet.
pub const CELLS: [&str; 15] = [
    "sex",
    "status",
    "kept",
    "place",
    "pot",
    "sown",
    "arrived",
    "received as",
    "from",
    "supplier's code",
    "nickname",
    "note",
    "went to",
    "price",
    "tag it left with",
];

/// The cells of a plant under [`CELLS`]; none where nothing is recorded.
pub fn plant_cells(registry: &Registry, plant: PlantRow, today: Day) -> [Option<String>; 15] {
    let founder = registry.founder(plant);
    let is_here = presence(registry, plant, today) == Presence::Here;
    let fate = registry.fate(plant).filter(|_| !is_here);
    let left_with = fate.and_then(Fate::handed_on);
    let places = places(registry, plant, today);
    let pot = pot_here(registry, plant);
    let arrived = founder.and_then(|of| of.on).map(|on| registry.when(on));
    let own = |text: Option<&str>| text.map(str::to_owned);
    [
        Some(sex_seen(registry, plant).to_string()),
        // A sheet that was written before says it so.
        Some(status_words(fate, is_here).replace(DAY_NOT_KNOWN, " ?")),
        own(registry.is_kept(plant).then_some("kept")),
        (!places.is_empty()).then(|| places.join("; ")),
        own(pot.map(|pot| &*pot.pot)),
        day_cell(provenance(registry, plant).sown),
        arrived.and_then(day_cell),
        own(founder.map(|of| &*of.received)),
        own(founder.and_then(|of| of.from.as_deref())),
        own(founder.and_then(|of| of.supplier_code.as_deref())),
        own(registry.nickname(plant)),
        own(note(registry, plant)),
        own(left_with.and_then(|with| with.to)),
        own(left_with.and_then(|with| with.price)),
        own(left_with.and_then(|with| with.label)),
    ]
}

/// A date as the sheet has it; none where nothing is known of it.
pub fn day_cell(when: When) -> Option<String> {
    (when != When::UNKNOWN).then(|| days(when))
}

fn note<'r>(registry: &'r Registry, plant: PlantRow) -> Option<&'r str> {
    match registry.founder(plant) {
        Some(founder) => founder.note.as_deref(),
        None => registry.seedling(plant)?.note.as_deref(),
    }
}
