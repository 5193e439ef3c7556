//! Which plants and pieces stand at a place, for an event that names the place in their stead.

use super::dates::Dated;
use super::plants::{Present, not_before, present};
use super::slip::Slip;
use crate::observation::pieces::pieces_left;
use crate::observation::places::{is_in, places};
use crate::observation::presence::{Presence, presence};
use crate::record::Day;
use crate::registry::{PlantOrRamet, PlantRow, Registry};
use std::collections::BTreeSet;

/// The plants in the collection that stand at a place, or a piece of which does.
///
/// # Errors
/// If there are none, with the places on record that are spelt nearly so.
pub fn plants_at(registry: &Registry, place: &str, today: Day) -> Result<Vec<PlantRow>, Slip> {
    let here = |plant: &PlantRow| presence(registry, *plant, today) == Presence::Here;
    let stands = |plant: &PlantRow| {
        let places = places(registry, *plant, today);
        places.into_iter().any(|of| is_in(of, place))
    };
    let found: Vec<PlantRow> = registry.plants().filter(here).filter(stands).collect();
    match found.is_empty() {
        true => Err(Slip::Unknown {
            what: "place with plants",
            code: place.to_owned(),
            near: near(registry, place, today),
        }),
        false => Ok(found),
    }
}

/// The same piece by piece: of a plant with a piece at the place that piece, of a founder whose last pot stands there each
/// piece without a place of its own, of any other the whole plant.
///
/// # Errors
/// As [`plants_at`].
pub fn pieces_at(registry: &Registry, place: &str, today: Day) -> Result<Vec<PlantOrRamet>, Slip> {
    let mut found = Vec::new();
    for plant in plants_at(registry, place, today)? {
        let mut there = pieces_left(registry, plant, Some(place));
        if there.is_empty() && registry.founder(plant).is_some() {
            there = pieces_left(registry, plant, None);
            let several = there.len() > 1;
            there.retain(|(_, piece)| several && piece.place.is_none());
        }
        if there.is_empty() {
            found.push(PlantOrRamet::whole(plant));
            continue;
        }
        found.extend(there.into_iter().map(|(of, _)| of));
    }
    Ok(found)
}

/// The plants and pieces of lists, or all that stand at a place.
///
/// # Errors
/// As [`present`] and [`pieces_at`].
pub fn named_or_at(
    registry: &Registry,
    (lists, place): (&[String], Option<&str>),
    (today, on): (Day, &Dated),
) -> Result<Present, Slip> {
    let Some(place) = place else {
        return present(registry, lists, (today, on));
    };
    let mut named = Vec::new();
    for one in pieces_at(registry, place, today)? {
        // Of a seedling with several pieces those stand with it that have no place of their own.
        let mut pieces = match one.ramet {
            Some(_) => Vec::new(),
            None => pieces_left(registry, one.plant, None),
        };
        let several = pieces.len() > 1;
        pieces.retain(|(_, piece)| several && piece.place.is_none());
        named.extend(pieces.iter().map(|(of, _)| *of));
        if pieces.is_empty() {
            named.push(one);
        }
    }
    named
        .iter()
        .try_for_each(|one| not_before(registry, *one, on))?;
    Ok(Present { named, left_out: 0 })
}

/// Places on record that are spelt nearly as one that is not.
pub fn near(registry: &Registry, place: &str, today: Day) -> Vec<String> {
    let here = |plant: &PlantRow| presence(registry, *plant, today) == Presence::Here;
    let all = registry.plants().filter(here);
    let all: BTreeSet<&str> = all
        .flat_map(|plant| places(registry, plant, today))
        .collect();
    let near = crate::text::nearest(place, all);
    near.into_iter().map(str::to_owned).collect()
}
