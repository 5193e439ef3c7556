//! Which treatments a plant had, and which its place had.
//!
//! A treatment on the plant's own record was its own. One that only names a place was used there; whether a plant that
//! stands there now stood there then is not on record. A plant or tray that moves takes that doubt along: a move writes the
//! treatment on its own record, as one it had perhaps. A seedling has those of the tray that it was numbered out of, too.

use super::places::is_in;
use super::pottings::pots_in_order;
use super::provenance::sown;
use super::seedling_trays::{SeedlingTray, days_filled};
use crate::record::{Fate, Ramet, Treatment, When};
use crate::registry::{PlantRow, Registry};

/// A treatment of a plant, and whether it was one of the place.
#[derive(Clone, Copy, Debug)]
pub struct Treated<'r, 't> {
    /// The treatment.
    pub treatment: &'r Treatment<'t>,
    /// Whether only the place is on record, not whether the plant stood there.
    pub of_place: bool,
}

/// The treatments of a plant and those of the place where it, or one piece of it, stands now or stood last. Left out are
/// those of the place from before the plant was sown, came, got its number, was cut or was potted there, those from after
/// its end, and those that its own record has too. A seedling has those of its tray up to the day on which it got its number.
pub fn treated<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    piece: Option<&Ramet>,
    place: Option<&str>,
) -> Vec<Treated<'r, 't>> {
    let own = registry.treatments(plant).iter();
    let own = own.map(|treatment| Treated {
        treatment,
        of_place: treatment.perhaps,
    });
    // A plant that has no place of its own stands where its pieces do.
    let pieces = registry.ramets(plant).iter();
    let of_pieces = pieces.filter(|of| piece.is_none() && place.is_none() && of.fate.is_none());
    let of_pieces = of_pieces.filter_map(|of| of.place.as_deref());
    let places: Vec<&str> = place.into_iter().chain(of_pieces).collect();
    let there = registry.settings.treatments.iter().filter(|of| {
        let treated = of.place.as_deref();
        let here = treated.is_some_and(|of| places.iter().any(|at| is_in(at, of)));
        here && may_stand_there(registry, (plant, piece), treated, registry.when(of.on))
            && !ended_before(registry, (plant, piece), registry.when(of.on))
            && !has(registry, plant, of)
    });
    let in_tray = numbered_out_of(registry, plant).into_iter();
    let in_tray = in_tray.filter(|of| !has(registry, plant, of));
    own.chain(as_of_place(there.chain(in_tray))).collect()
}

/// Treatments, each once, as those of a place.
fn as_of_place<'r, 't: 'r>(
    all: impl Iterator<Item = &'r Treatment<'t>>,
) -> impl Iterator<Item = Treated<'r, 't>> {
    let mut each: Vec<&Treatment> = Vec::new();
    for treatment in all {
        if !each.iter().any(|known| is_same(known, treatment)) {
            each.push(treatment);
        }
    }
    each.into_iter().map(|treatment| Treated {
        treatment,
        of_place: true,
    })
}

/// The treatments that the tray of a seedling had perhaps before the seedling got its number.
fn numbered_out_of<'r, 't>(registry: &'r Registry<'t>, plant: PlantRow) -> Vec<&'r Treatment<'t>> {
    let (sowing, _, pot) = registry.road(plant);
    let pot = pot.map(SeedlingTray::Pot);
    let Some(tray) = pot.or(sowing.map(SeedlingTray::Sowing)) else {
        return Vec::new();
    };
    let numbered = registry.seedling(plant).and_then(|own| own.numbered);
    let numbered = numbered.map_or(When::UNKNOWN, |on| registry.when(on));
    let mut all = of_tray(registry, tray);
    all.retain(|of| !numbered.surely_before(registry.when(of.on)));
    all
}

/// The treatments that a sowing or a community pot had perhaps: on its own record, those of the place where it stands, and
/// those of the sowing that the pot was filled out of.
pub fn treated_tray<'r, 't>(
    registry: &'r Registry<'t>,
    tray: SeedlingTray,
) -> Vec<Treated<'r, 't>> {
    as_of_place(of_tray(registry, tray).into_iter()).collect()
}

fn of_tray<'r, 't>(registry: &'r Registry<'t>, tray: SeedlingTray) -> Vec<&'r Treatment<'t>> {
    let of = |tray| {
        own_of_tray(registry, tray)
            .iter()
            .chain(treated_there(registry, tray))
    };
    let SeedlingTray::Pot(row) = tray else {
        return of(tray).collect();
    };
    let filled: Vec<When> = days_filled(registry, row)
        .map(|on| registry.when(on))
        .collect();
    let before = |of: &&Treatment| {
        let on = registry.when(of.on);
        filled.iter().any(|day| !day.surely_before(on))
    };
    let mut sowings = registry.sowings(row.cross);
    let sowing = sowings.find(|(_, of)| Some(of.code) == registry[row].sowing);
    let in_sowing = sowing.map(|(row, _)| of(SeedlingTray::Sowing(row)).filter(before));
    in_sowing.into_iter().flatten().chain(of(tray)).collect()
}

fn own_of_tray<'r, 't>(registry: &'r Registry<'t>, tray: SeedlingTray) -> &'r [Treatment<'t>] {
    match tray {
        SeedlingTray::Sowing(row) => &registry[row].treatments,
        SeedlingTray::Pot(row) => &registry[row].treatments,
    }
}

/// The treatments of the place where a sowing or a community pot stands, from the day it is there to its end, that its own
/// record has not.
pub fn treated_there<'r, 't>(
    registry: &'r Registry<'t>,
    tray: SeedlingTray,
) -> impl Iterator<Item = &'r Treatment<'t>> {
    let own = own_of_tray(registry, tray);
    let stands = |of: &&Treatment| {
        let there = of.place.as_deref().zip(tray.place(registry));
        there.is_some_and(|(of, at)| is_in(at, of))
    };
    let end = tray.fate(registry).map(|fate| registry.when(fate.on()));
    let was_there = |of: &&Treatment| {
        let on = registry.when(of.on);
        let since = tray.since(registry);
        let begun = !since.is_bounded() || !on.surely_before(since);
        begun && !end.is_some_and(|end| end.surely_before(on))
    };
    let of_place = registry.settings.treatments.iter().filter(stands);
    let there: Vec<&Treatment> = of_place.filter(was_there).collect();
    let there = there.into_iter();
    there.filter(|of| !own.iter().any(|own| is_same(own, of)))
}

/// Whether a plant or piece can have stood at a place on a day, as far as the days on record say.
pub fn may_stand_there(
    registry: &Registry,
    (plant, piece): (PlantRow, Option<&Ramet>),
    place: Option<&str>,
    on: When,
) -> bool {
    !on.surely_before(since(registry, plant, piece, place))
}

/// Whether a plant or piece had surely come to its end before a day.
fn ended_before(registry: &Registry, (plant, piece): (PlantRow, Option<&Ramet>), on: When) -> bool {
    let of_piece = piece.and_then(|piece| piece.fate.as_ref());
    let end = of_piece.or(registry.fate(plant)).map(Fate::on);
    end.is_some_and(|end| registry.when(end).surely_before(on))
}

/// Whether a plant's own record has a treatment of a place too.
fn has(registry: &Registry, plant: PlantRow, of: &Treatment) -> bool {
    registry
        .treatments(plant)
        .iter()
        .any(|own| is_same(own, of))
}

/// Whether two treatments are one: of a day, a place and a product.
fn is_same(one: &Treatment, other: &Treatment) -> bool {
    let place = |of: &Treatment| of.place.as_deref().map(str::to_owned);
    one.on == other.on && one.product == other.product && place(one) == place(other)
}

/// Since when a plant or piece can have stood at a place, as far as recorded.
fn since(registry: &Registry, plant: PlantRow, piece: Option<&Ramet>, place: Option<&str>) -> When {
    let day = |on: &str| registry.when(on);
    let came = registry.founder(plant).and_then(|founder| founder.on);
    let numbered = registry.seedling(plant).and_then(|own| own.numbered);
    let cut = piece.and_then(|piece| piece.cut);
    let there = |at: Option<&str>| at.zip(place).is_none_or(|(at, of)| is_in(at, of));
    // The run of last pottings at that place: one without a place left the plant where it was.
    let pots = pots_in_order(registry, plant).into_iter().rev();
    let pots = pots.take_while(|pot| there(pot.place.as_deref()));
    let potted = pots.filter(|pot| pot.place.is_some()).last();
    let potted = potted.filter(|_| piece.is_none()).map(|pot| pot.on);
    let dated = [came, numbered, cut, potted].into_iter().flatten().map(day);
    let dated = dated.chain([sown(registry, plant)]);
    let known = dated.filter(|when| when.is_bounded());
    known.max_by_key(|when| when.first).unwrap_or(When::UNKNOWN)
}
