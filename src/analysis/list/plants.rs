//! Plants in rows: what is seen of each and what became of it.

use super::filter::{PlantFilter, chosen, on_record};
use super::species::UnknownSpecies;
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::last_entry::not_found_since;
use crate::observation::months::months;
use crate::observation::places::place_noted;
use crate::observation::presence::{Presence, end_of, presence};
use crate::observation::provenance::provenance;
use crate::observation::seedling_trays::{SeedlingTray, trays_at};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::standing::latest;
use crate::observation::stock_take::is_remark;
use crate::record::{Fate, When};
use crate::registry::{OriginRow, PodRow, Registry};

/// The plants that pass a filter.
pub struct PlantList<'r, 't> {
    /// Rows in the order of the registry, founders first.
    pub plants: Vec<PlantLine<'r, 't>>,
    /// Of these, in the collection.
    pub here: usize,
    /// How many plants were looked at.
    pub of: usize,
    /// Sowings and community pots that stand at the place asked for, where nothing else is asked.
    pub trays: Vec<TrayLine<'r>>,
}

/// A sowing or a community pot.
#[derive(Clone, Copy)]
pub struct TrayLine<'r> {
    /// Which.
    pub tray: SeedlingTray,
    /// Seedlings in it, least and most; `None` where they were not counted.
    pub seedlings: Option<(u32, u32)>,
    /// Where it stands.
    pub place: Option<&'r str>,
}

/// One plant.
#[derive(Clone, Copy)]
pub struct PlantLine<'r, 't> {
    /// The plant.
    pub plant: PlantRow,
    /// What it comes of, by which it is named; `None` for a founder.
    pub origin: Option<OriginRow>,
    /// The siblings whose descent is known as surely: those of its origin and pod. `None` for a founder, and where a tray
    /// or a pot was muddled.
    pub as_sure_as: Option<(OriginRow, Option<PodRow>)>,
    /// Sex as seen.
    pub sex: SexSeen,
    /// Whether it is in the collection.
    pub is_here: bool,
    /// The day of the last stock-take, if it did not find a plant that is here on record.
    pub not_found: Option<When>,
    /// What became of it, for a plant that is not here.
    pub fate: Option<&'r Fate<'t>>,
    /// Whether it is marked to keep.
    pub kept: bool,
    /// Age from sowing in months, least and greatest; today, or when it died or left. `None` where one of the days is not
    /// known, and for a plant of another grower, which may live or not.
    pub months_from_sowing: Option<(f64, f64)>,
    /// When it was last read; `None` when never.
    pub last_read: Option<When>,
    /// Where it stands.
    pub place: Option<&'r str>,
}

/// Lists plants.
///
/// # Errors
/// When the species is not in the registry.
pub fn plants<'r, 't>(
    context: &Context<'r, 't>,
    filter: &PlantFilter,
) -> Result<PlantList<'r, 't>, UnknownSpecies> {
    let registry = context.registry;
    let sittings = registry.readings.sittings().iter();
    let days: Vec<When> = sittings.map(|of| registry.when(of.sitting.on)).collect();
    let chosen = chosen(context, filter)?.into_iter();
    let plants: Vec<_> = chosen.map(|plant| line(context, plant, &days)).collect();
    Ok(PlantList {
        here: plants.iter().filter(|plant| plant.is_here).count(),
        of: on_record(registry).count(),
        plants,
        trays: trays(context, filter),
    })
}

/// The trays that stand at the place asked for; a filter that asks for what only plants have passes none.
fn trays<'r>(context: &Context<'r, '_>, filter: &PlantFilter) -> Vec<TrayLine<'r>> {
    let (registry, today) = (context.registry, context.today);
    let Some(place) = filter.place.as_deref().filter(|_| !filter.is_of_plants()) else {
        return Vec::new();
    };
    let of_cross = |tray: &SeedlingTray| filter.cross.is_none_or(|cross| tray.cross() == cross);
    let there = trays_at(registry, place, today).into_iter();
    there
        .filter(of_cross)
        .map(|tray| TrayLine {
            tray,
            seedlings: tray.seedlings(registry, today),
            place: tray.place(registry),
        })
        .collect()
}

/// One plant in a row, with the days of all sittings.
fn line<'r, 't>(context: &Context<'r, 't>, plant: PlantRow, days: &[When]) -> PlantLine<'r, 't> {
    let (registry, today) = (context.registry, context.today);
    let presence = presence(registry, plant, today);
    let is_here = presence == Presence::Here;
    let origin = registry.origin_of(plant);
    let alone = origin.filter(|_| registry.is_surely_of_its_pod(plant));
    // Whether a plant of another grower lives is not known here, so it has no age.
    let until = match presence {
        Presence::NeverHere => None,
        _ => Some(end_of(registry, plant, today).unwrap_or(When::on(today))),
    };
    let read = last_read(registry, plant, days);
    let not_found = match is_here {
        true => not_found_since(registry, plant, read, today),
        false => None,
    };
    PlantLine {
        plant,
        origin,
        as_sure_as: alone.map(|origin| (origin, registry.road(plant).1)),
        sex: sex_seen(registry, plant),
        is_here,
        not_found,
        fate: registry.fate(plant).filter(|_| !is_here),
        kept: registry.is_kept(plant),
        months_from_sowing: until.and_then(|until| months(provenance(registry, plant).sown, until)),
        last_read: read,
        place: place_noted(registry, plant),
    }
}

/// The day on which a plant was last read, out of the days of all sittings.
fn last_read(registry: &Registry, plant: PlantRow, days: &[When]) -> Option<When> {
    let read = registry.readings.of(plant);
    let read = read.filter(|of| !is_remark(&registry[of.sitting], of));
    latest(read.map(|reading| days[reading.sitting.index()]))
}
