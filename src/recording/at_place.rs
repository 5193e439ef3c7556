//! What stands at a place, for an event that names the place in the stead of plants, pieces and trays.

use super::dates::Dated;
use super::parts::apart;
use super::plants::{Present, not_before, present};
use super::slip::Slip;
use super::trays::present_trays;
use crate::observation::pieces::pieces_left;
use crate::observation::places::{is_in, places, stands_as_plant};
use crate::observation::presence::{Presence, presence};
use crate::observation::seedling_trays::{SeedlingTray, trays_at, trays_of};
use crate::record::{Day, Ramet, Seedling};
use crate::registry::{PlantOrRamet, PlantRow, Registry};
use crate::text::one_line;
use crate::wording::listed;
use std::collections::BTreeSet;

/// Whether a plant is in the collection, and where a place is given stands there or has a piece that does.
pub fn stands_here(registry: &Registry, plant: PlantRow, place: Option<&str>, today: Day) -> bool {
    let places = || places(registry, plant, today).into_iter();
    presence(registry, plant, today) == Presence::Here
        && place.is_none_or(|place| places().any(|of| is_in(of, place)))
}

/// The plants in the collection that stand at a place, or a piece of which does.
///
/// # Errors
/// If there are none: with the trays that stand there, or the places on record that are spelt nearly so.
pub fn plants_at(registry: &Registry, place: &str, today: Day) -> Result<Vec<PlantRow>, Slip> {
    let plants = registry.plants();
    let found = plants.filter(|&plant| stands_here(registry, plant, Some(place), today));
    let found: Vec<PlantRow> = found.collect();
    if !found.is_empty() {
        return Ok(found);
    }
    let trays = trays_at(registry, place, today);
    if !trays.is_empty() {
        return Err(only_trays(registry, place, &trays));
    }
    Err(Slip::Unknown {
        what: "place with plants",
        code: place.to_owned(),
        near: near(registry, place, today),
    })
}

/// Refuses a place as a whole while plants or trays of it may be on pages that could not be read.
///
/// # Errors
/// If there are such pages.
pub fn is_whole(registry: &Registry, place: &str) -> Result<(), Slip> {
    match registry.may_have_more() {
        pages if pages.is_empty() => Ok(()),
        pages => Err(Slip::not_whole(place, &pages)),
    }
}

/// The refusal of a place without plants where seedlings stand in their trays.
fn only_trays(registry: &Registry, place: &str, trays: &[SeedlingTray]) -> Slip {
    let codes: Vec<String> = trays.iter().map(|tray| tray.code(registry)).collect();
    let what = match codes.len() {
        1 => "one tray stands",
        _ => "trays stand",
    };
    Slip::nothing(format!(
        "no plant stands at {}, only {what} there: {}\nseedlings are plants of their own once they are numbered; name another place",
        one_line(place),
        listed(&codes)
    ))
}

/// The same piece by piece: of a plant with a piece at the place that piece; of one that stands there itself, by its own place
/// or by that of its last pot, the piece that is the plant itself; of a plant without pieces, or with one, the whole plant.
///
/// # Errors
/// As [`plants_at`].
pub fn pieces_at(registry: &Registry, place: &str, today: Day) -> Result<Vec<PlantOrRamet>, Slip> {
    let mut found = Vec::new();
    let own_is_there = |of: &Seedling| of.place.as_deref().is_some_and(|at| is_in(at, place));
    for plant in plants_at(registry, place, today)? {
        let mut there = pieces_left(registry, plant, Some(place));
        if there.is_empty() || registry.seedling(plant).is_some_and(own_is_there) {
            there.extend(itself_of_several(registry, plant));
        }
        if there.is_empty() {
            found.push(PlantOrRamet::whole(plant));
            continue;
        }
        found.extend(there.into_iter().map(|(of, _)| of));
    }
    Ok(found)
}

/// The piece that is the plant itself and stands where the record of the plant says; none where it is the only one left.
fn itself_of_several<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
) -> Vec<(PlantOrRamet, &'r Ramet<'t>)> {
    let mut left = pieces_left(registry, plant, None);
    let several = left.len() > 1;
    left.retain(|(_, piece)| several && stands_as_plant(piece));
    left
}

/// Plants and pieces that are here, and sowings and community pots.
#[derive(Clone, Debug, Default)]
pub struct Standing {
    /// The plants and pieces.
    pub plants: Present,
    /// The sowings and community pots.
    pub trays: Vec<SeedlingTray>,
}

impl Standing {
    /// The codes of the sowings and community pots.
    pub fn tray_codes(&self, registry: &Registry) -> Vec<String> {
        self.trays.iter().map(|tray| tray.code(registry)).collect()
    }
}

/// What lists name: plants, pieces, sowings and community pots that are here.
///
/// # Errors
/// As [`present`] and [`present_trays`].
pub fn standing(registry: &Registry, lists: &[String], on: &Dated) -> Result<Standing, Slip> {
    let (lists, trays) = apart(registry, lists);
    present_trays(registry, &trays, on)?;
    let plants = match lists.is_empty() && !trays.is_empty() {
        true => Present::default(),
        false => present(registry, &lists, (on.today, on))?,
    };
    Ok(Standing { plants, trays })
}

/// All that stands at a place, plants as [`pieces_at`] has them.
///
/// # Errors
/// If nothing stands there.
pub fn standing_at(registry: &Registry, place: &str, today: Day) -> Result<Standing, Slip> {
    let trays = trays_at(registry, place, today);
    let named = match pieces_at(registry, place, today) {
        Err(_) if !trays.is_empty() => Vec::new(),
        named => named?,
    };
    let plants = Present { named, left_out: 0 };
    Ok(Standing { plants, trays })
}

/// What lists name, or all that stands at a place.
///
/// # Errors
/// As [`standing`] and [`standing_at`], or if something was not there yet.
pub fn named_or_at(
    registry: &Registry,
    (lists, place): (&[String], Option<&str>),
    on: &Dated,
) -> Result<Standing, Slip> {
    let Some(place) = place else {
        return standing(registry, lists, on);
    };
    is_whole(registry, place)?;
    let there = standing_at(registry, place, on.today)?;
    present_trays(registry, &there.trays, on)?;
    let mut named = Vec::new();
    for one in there.plants.named {
        let pieces = match one.ramet {
            Some(_) => Vec::new(),
            None => itself_of_several(registry, one.plant),
        };
        named.extend(pieces.iter().map(|(of, _)| *of));
        if pieces.is_empty() {
            named.push(one);
        }
    }
    named
        .iter()
        .try_for_each(|one| not_before(registry, *one, on))?;
    let plants = Present { named, left_out: 0 };
    Ok(Standing { plants, ..there })
}

/// Places on record that are spelt nearly as one that is not.
pub fn near(registry: &Registry, place: &str, today: Day) -> Vec<String> {
    let plants = registry.plants();
    let plants = plants.filter(|&plant| stands_here(registry, plant, None, today));
    let of_plants = plants.flat_map(|plant| places(registry, plant, today));
    let crosses = registry.own_crosses().map(|(cross, _)| cross);
    let trays = crosses.flat_map(|cross| trays_of(registry, cross, today));
    let of_trays = trays.filter_map(|tray| tray.place(registry));
    let all: BTreeSet<&str> = of_plants.chain(of_trays).collect();
    let near = crate::text::nearest(place, all);
    near.into_iter().map(str::to_owned).collect()
}
