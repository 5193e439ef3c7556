//! The collection: every plant in a row, seedlings under their cross, with what a grower looks for.

use super::door::Door;
use super::shots::Shot;
use super::whole::Album;
use crate::analysis::album::Collection;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::observation::places::is_in;
use crate::observation::sex::SexSeen;
use crate::observation::standing::status_words;
use crate::observation::who_it_may_be::is_mixed_up;
use crate::registry::CrossRow;
use crate::wording::{Name, counted, days, joined_if_any};
use std::collections::BTreeSet;

/// One plant.
pub struct CollectionRow {
    /// Code.
    pub id: String,
    /// Its page.
    pub path: String,
    /// Its own name and evidence, where it is not a seedling.
    pub own: Option<(Name, String)>,
    /// Cultivar or nickname, and whether it is mixed up.
    pub also: Option<String>,
    /// Its latest photo.
    pub shot: Option<Shot>,
    /// Whether it is here.
    pub is_here: bool,
    /// `here`, or what became of it.
    pub status: String,
    /// Whether it is kept.
    pub kept: bool,
    /// Sex by open flowers: `female`, `male`, or nothing.
    pub sex: &'static str,
    /// Whether flowers are open on record.
    pub flowering: bool,
    /// Where it stands, and every place that this is a part of, by their number among [`CollectionPage::places`].
    pub places: Vec<usize>,
    /// Where it stands, in words.
    pub place: String,
    /// When it was last read, in words; empty when never.
    pub read: String,
    /// The last day that may have been, as `2025-05-10`, where the words are not that day.
    pub read_by: Option<String>,
    /// Species in it, by their number among [`CollectionPage::species`], where they are not those of the group.
    pub species: Option<Vec<usize>>,
}

/// Founders, or the seedlings of one cross.
pub struct Group {
    /// Code and page of the cross; none for founders.
    pub cross: Option<Door>,
    /// Name of the seedlings.
    pub name: Name,
    /// How surely their descent is known, in few words.
    pub evidence: String,
    /// Species in it.
    pub species: Vec<usize>,
    /// The plants.
    pub rows: Vec<CollectionRow>,
}

/// What the first page says.
pub struct CollectionPage {
    /// How many plants and crosses there are.
    pub answer: String,
    /// Founders, then crosses.
    pub groups: Vec<Group>,
    /// Names of species that are in any plant.
    pub species: Vec<String>,
    /// Names of places where plants stand.
    pub places: Vec<String>,
    /// Doubts about names.
    pub cautions: Vec<String>,
}

impl CollectionPage {
    pub(super) fn of(album: &Album) -> CollectionPage {
        let registry = album.registry();
        let of = Collection::of(album.context);
        let within = of.places.iter().map(|place| {
            let of_whole = of.places.iter().enumerate();
            let of_whole = of_whole.filter(|(_, whole)| is_in(place, whole));
            of_whole.map(|(at, _)| at).collect()
        });
        let within = within.collect();
        let rows = Rows { album, of, within };
        let founders = rows.of.founders.iter();
        let founders = Group {
            cross: None,
            name: crate::wording::upright("Founders"),
            evidence: String::new(),
            species: Vec::new(),
            rows: founders.map(|plant| rows.row(*plant, &[])).collect(),
        };
        let crosses = registry.cross_rows();
        let crosses = crosses.map(|cross| rows.group(cross));
        CollectionPage {
            answer: format!(
                "{} in the collection, of {} on record; {}",
                counted(rows.of.here, "plant", "plants"),
                rows.of.plants,
                counted(registry.crosses.len(), "cross", "crosses")
            ),
            groups: [founders]
                .into_iter()
                .chain(crosses)
                .filter(|group| !group.rows.is_empty())
                .collect(),
            species: album.species_present().to_vec(),
            places: rows.of.places.iter().map(|&of| of.to_owned()).collect(),
            cautions: album.crosses.cautions.clone(),
        }
    }
}

/// What all rows are made with.
struct Rows<'a, 'c, 'r, 't> {
    album: &'a Album<'c, 'r, 't>,
    of: Collection<'r>,
    /// For each place the places it is a part of, itself among them.
    within: Vec<Vec<usize>>,
}

impl Rows<'_, '_, '_, '_> {
    fn group(&self, cross: CrossRow) -> Group {
        let registry = self.album.registry();
        let of = &registry[cross];
        let species = self.album.species_of_cross(cross);
        Group {
            cross: Some(self.album.door_of_cross(cross)),
            name: self.album.short_name(Unit::Cross(cross)),
            evidence: self
                .album
                .context
                .evidence()
                .weakest_short(Unit::Cross(cross)),
            rows: of
                .seedlings
                .iter()
                .map(|plant| self.row(*plant, &species))
                .collect(),
            species,
        }
    }

    fn row(&self, plant: PlantRow, of_group: &[usize]) -> CollectionRow {
        let (album, registry) = (self.album, self.album.registry());
        let seen = self.of.plant(album.context, plant);
        let own = registry.cross_of(plant).is_none().then(|| {
            let unit = Unit::Plant(plant);
            (
                album.short_name(unit),
                album.context.evidence().weakest_short(unit),
            )
        });
        let species = album.species_of_plant(plant);
        CollectionRow {
            id: registry.code(plant),
            path: album.files.plant(plant).to_owned(),
            own,
            also: also(album, plant),
            shot: album.shots(plant).first().cloned(),
            is_here: seen.is_here,
            status: match seen.is_here {
                true => "here".to_owned(),
                false => status_words(registry.fate(plant), false),
            },
            kept: registry.is_kept(plant),
            sex: match seen.sex {
                SexSeen::Certain(sex) => sex.word(),
                _ => "",
            },
            flowering: seen.flowering,
            places: {
                let known = seen.places.iter();
                let known = known.filter_map(|place| self.of.places.binary_search(place).ok());
                let within: BTreeSet<usize> =
                    known.flat_map(|at| &self.within[at]).copied().collect();
                within.into_iter().collect()
            },
            place: seen.places.join("; "),
            read: seen.last_read.map(days).unwrap_or_default(),
            read_by: seen
                .last_read
                .filter(|when| !when.is_exact())
                .map(|when| when.last.to_string()),
            species: (species != of_group).then_some(species),
        }
    }
}

fn also(album: &Album, plant: PlantRow) -> Option<String> {
    let mixed_up = is_mixed_up(album.registry(), plant).then(|| "mixed up".to_owned());
    joined_if_any(album.also(plant).into_iter().chain(mixed_up), ", ")
}
