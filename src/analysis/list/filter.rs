//! Which plants are meant.

use super::species::{UnknownSpecies, descends, species_part};
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::places::{is_in, places};
use crate::observation::presence::{Presence, presence};
use crate::observation::sex::{SexSeen, sex_seen};
use crate::observation::standing::last_read;
use crate::record::{Day, Sex};
use crate::registry::{CrossRow, PlantKind, Registry};

/// Which plants are listed; every condition given must hold.
#[derive(Clone, Debug, Default)]
pub struct PlantFilter {
    /// Only plants in the collection.
    pub alive: bool,
    /// Only plants that are not here any more.
    pub gone: bool,
    /// Only plants marked to keep.
    pub kept: bool,
    /// Only plants of this sex, seen on open flowers.
    pub sex: Option<Sex>,
    /// Only plants that never showed a sex.
    pub unsexed: bool,
    /// Only plants that descend from this species.
    pub species: Option<String>,
    /// Only seedlings of this cross, by its index.
    pub cross: Option<CrossRow>,
    /// Only plants not read on or after this day.
    pub unread_since: Option<Day>,
    /// Only founders.
    pub founders: bool,
    /// Only plants in the collection that stand at this place, or a piece of which does.
    pub place: Option<String>,
}

impl PlantFilter {
    /// Whether it asks for what only numbered plants have.
    pub fn is_of_plants(&self) -> bool {
        let of_sex = self.sex.is_some() || self.unsexed;
        let of_record = self.species.is_some() || self.unread_since.is_some();
        self.gone || self.kept || self.founders || of_sex || of_record
    }

    /// Whether it says where the plants are, or are not.
    pub fn says_where(&self) -> bool {
        self.alive || self.gone
    }
}

/// The plants on record, those that are only named as a parent left out.
pub(super) fn on_record(registry: &Registry) -> impl Iterator<Item = PlantRow> {
    let seen = |plant: &PlantRow| registry.kind(*plant) != PlantKind::Unseen;
    registry.plants().filter(seen)
}

/// The plants that pass a filter, in the order of the registry.
///
/// # Errors
/// When the species is not in the registry.
pub fn chosen(context: &Context, filter: &PlantFilter) -> Result<Vec<PlantRow>, UnknownSpecies> {
    let (registry, today) = (context.registry, context.today);
    let passing = on_record(registry).filter(|&plant| passes(registry, plant, filter, today));
    let Some(species) = &filter.species else {
        return Ok(passing.collect());
    };
    let (lineage, descent) = (context.lineage(), context.descent());
    let part = species_part(registry, descent, species)?;
    let of_species =
        |plant: &PlantRow| part.is_some_and(|part| descends(descent, lineage, *plant, part));
    Ok(passing.filter(of_species).collect())
}

fn passes(registry: &Registry, plant: PlantRow, filter: &PlantFilter, today: Day) -> bool {
    let here = presence(registry, plant, today) == Presence::Here;
    let sex = || sex_seen(registry, plant);
    let read_lately =
        |since: Day| last_read(registry, plant).is_some_and(|when| when.last >= since);
    (!filter.alive || here)
        && (!filter.gone || !here)
        && (!filter.kept || registry.is_kept(plant))
        && (!filter.founders || registry.kind(plant) == PlantKind::Founder)
        && filter
            .cross
            .is_none_or(|cross| registry.cross_of(plant) == Some(cross))
        && filter
            .sex
            .is_none_or(|wanted| sex() == SexSeen::Certain(wanted))
        && (!filter.unsexed || !matches!(sex(), SexSeen::Certain(_)))
        && filter.unread_since.is_none_or(|since| !read_lately(since))
        && filter.place.as_deref().is_none_or(|asked| {
            here && places(registry, plant, today)
                .iter()
                .any(|of| is_in(of, asked))
        })
}
