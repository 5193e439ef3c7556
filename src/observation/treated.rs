//! Which treatments a plant had: its own, and those of the place it stands at, since it has been there.

use super::places::is_in;
use super::provenance::sown;
use crate::record::{Ramet, Treatment, When};
use crate::registry::{PlantRow, Registry};

/// A treatment of a plant, and whether it was one of the place.
#[derive(Clone, Copy, Debug)]
pub struct Treated<'r, 't> {
    /// The treatment.
    pub treatment: &'r Treatment<'t>,
    /// Whether all that stood at a place was treated.
    pub of_place: bool,
}

/// The treatments of a plant and those of the place where it, or one piece of it, stands now; those of the place that were
/// over before the plant was sown, came, got its number, was cut or was potted at that place are left out.
pub fn treated<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    piece: Option<&Ramet>,
    place: Option<&str>,
) -> Vec<Treated<'r, 't>> {
    let own = registry.treatments(plant).iter();
    let own = own.map(|treatment| Treated {
        treatment,
        of_place: false,
    });
    let there = registry.settings.treatments.iter().filter(|of| {
        let treated = of.place.as_deref();
        let here = treated.zip(place).is_some_and(|(of, at)| is_in(at, of));
        here && !registry
            .when(of.on)
            .surely_before(since(registry, plant, piece, treated))
    });
    let there = there.map(|treatment| Treated {
        treatment,
        of_place: true,
    });
    own.chain(there).collect()
}

/// Since when a plant or piece can have stood at a place, as far as recorded.
fn since(registry: &Registry, plant: PlantRow, piece: Option<&Ramet>, place: Option<&str>) -> When {
    let day = |on: &str| registry.when(on);
    let came = registry.founder(plant).and_then(|founder| founder.on);
    let numbered = registry.seedling(plant).and_then(|own| own.numbered);
    let cut = piece.and_then(|piece| piece.cut);
    let there = |at: Option<&str>| at.zip(place).is_none_or(|(at, of)| is_in(at, of));
    // The run of last pottings at that place: one without a place left the plant where it was.
    let pots = registry.pots(plant).iter().rev();
    let pots = pots.take_while(|pot| there(pot.place.as_deref()));
    let potted = pots.filter(|pot| pot.place.is_some()).last();
    let potted = potted.filter(|_| piece.is_none()).map(|pot| pot.on);
    let dated = [came, numbered, cut, potted].into_iter().flatten().map(day);
    let dated = dated.chain([sown(registry, plant)]);
    let known = dated.filter(|when| when.is_bounded());
    known.max_by_key(|when| when.first).unwrap_or(When::UNKNOWN)
}
