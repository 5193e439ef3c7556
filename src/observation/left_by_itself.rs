//! Whether a piece left with its plant or by itself.

use super::standing::fate_word;
use crate::record::{Fate, Ramet};
use crate::registry::{PlantRow, Registry};

/// Whether a piece left with its plant: it has that fate without words of its own, as `podbook gone` writes it.
pub fn left_with_plant(piece: &Fate, whole: &Fate) -> bool {
    let is_bare = piece.handed_on().is_none_or(|with| with.is_bare());
    is_bare && fate_word(piece) == fate_word(whole) && piece.on() == whole.on()
}

/// How a piece ended by itself; `None` where it is here, or left with its plant.
pub fn fate_of_its_own<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    piece: &'r Ramet<'t>,
) -> Option<&'r Fate<'t>> {
    let whole = registry.fate(plant);
    let own = piece.fate.as_ref();
    own.filter(|own| !whole.is_some_and(|whole| left_with_plant(own, whole)))
}
