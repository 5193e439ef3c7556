//! What the plants of one cross share: their readings, and who their ancestors are.

use super::whole::Album;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::observation::scope::Scope;
use crate::observation::series::{Comparable, readings_of_traits};
use crate::observation::trait_unit::TraitUnit;
use crate::observation::traits::span_trait;
use crate::registry::{CrossRow, OriginRow, PodRow, Registry, TraitRow};
use crate::report::card::ancestors_up;
use crate::wording::{Name, counted, days};
use std::collections::HashMap;

/// Generations of ancestors on a page; what is further back is on the pages of those.
const GENERATIONS: usize = 4;
/// Siblings whose growth is drawn.
const DRAWN: usize = 250;

/// A parent or a parent's parent.
#[derive(Clone, Debug)]
pub struct Kinsman {
    /// 1 for a parent, 2 for a grandparent.
    pub generation: usize,
    /// `♀` or `♂` by its part in the cross.
    pub side: Option<&'static str>,
    /// The clone, or what is known instead.
    pub clone: String,
    /// Its name.
    pub name: Name,
    /// Whether it is one of several, not known, or only probable.
    pub doubtful: bool,
    /// Its page, where it is one plant.
    pub path: Option<String>,
}

/// One trait as read last.
#[derive(Clone, Debug)]
pub struct SeenTrait {
    /// Its name.
    pub name: String,
    /// What was read, with its unit.
    pub value: String,
    /// When.
    pub when: String,
    /// What all siblings showed that were read with it, itself among them; empty where there was none.
    pub siblings: String,
}

/// Sizes by age.
#[derive(Clone, Debug)]
pub struct Curve {
    /// What was read, with its unit.
    pub heading: String,
    /// Of siblings: months from sowing and size, by age.
    pub siblings: Vec<Vec<(f64, f64)>>,
    /// Of the plant itself; empty on the page of a cross.
    pub own: Vec<(f64, f64)>,
    /// What is drawn, in words.
    pub words: String,
}

/// Readings of one declared trait.
pub(super) struct TraitRead {
    pub unit: TraitUnit,
    /// By day.
    pub readings: Vec<Comparable>,
}

/// What plants of one cross, or a founder alone, share.
pub struct Kin {
    /// Plants that are surely siblings.
    pub(super) sure: Vec<PlantRow>,
    pub(super) traits: Vec<TraitRead>,
    /// The trait that is the size of a plant.
    size: Option<TraitRow>,
    /// Of plants of one origin and pod, which have the same evidence.
    ancestors: HashMap<(OriginRow, Option<PodRow>), Vec<Kinsman>>,
}

impl Kin {
    /// Of a cross.
    pub fn of_cross(album: &Album, cross: CrossRow) -> Kin {
        let scope = Scope {
            cross,
            pod: None,
            sowing: None,
        };
        let sure = scope.seedlings(album.registry()).0;
        let all = &album.registry()[cross].seedlings;
        Kin::of(album, sure, all)
    }

    /// Of a plant that is no seedling.
    pub fn of_founder(album: &Album, plant: PlantRow) -> Kin {
        Kin::of(album, vec![plant], &[plant])
    }

    fn of(album: &Album, mut sure: Vec<PlantRow>, all: &[PlantRow]) -> Kin {
        let registry = album.registry();
        sure.sort_unstable();
        let mut ancestors = HashMap::new();
        for &plant in all {
            if let Some(key) = of_one_pod(registry, plant) {
                let of = || kinsmen(album, Unit::Plant(plant));
                ancestors.entry(key).or_insert_with(of);
            }
        }
        let wanted = vec![true; registry.settings.traits.len()];
        let read = readings_of_traits(registry, all, wanted).into_iter();
        let traits: Vec<TraitRead> = registry
            .trait_rows()
            .zip(read)
            .map(|(index, of)| TraitRead {
                unit: TraitUnit::shown_in(registry, index),
                readings: of.by_day().collect(),
            })
            .collect();
        Kin {
            sure,
            traits,
            size: span_trait(registry),
            ancestors,
        }
    }

    /// The ancestors of a plant, each parent followed by its own.
    pub(super) fn ancestors(&self, album: &Album, plant: PlantRow) -> Vec<Kinsman> {
        let known = of_one_pod(album.registry(), plant).and_then(|key| self.ancestors.get(&key));
        known
            .cloned()
            .unwrap_or_else(|| kinsmen(album, Unit::Plant(plant)))
    }

    fn is_sure(&self, plant: PlantRow) -> bool {
        self.sure.binary_search(&plant).is_ok()
    }

    /// The last comparable reading of every trait of a plant.
    pub fn seen(&self, plant: PlantRow) -> Vec<SeenTrait> {
        let traits = self.traits.iter();
        traits.filter_map(|of| self.seen_of(of, plant)).collect()
    }

    fn seen_of(&self, of: &TraitRead, plant: PlantRow) -> Option<SeenTrait> {
        let mut own = of.readings.iter().rev();
        let last = own.find(|reading| reading.plant == plant)?;
        let like = |other: &&Comparable| {
            self.is_sure(other.plant)
                && other.sitting == last.sitting
                && other.age == last.age
                && other.pitcher == last.pitcher
        };
        let values = of.readings.iter().filter(like).map(|other| other.value);
        let values: Vec<f64> = match self.is_sure(plant) {
            true => values.collect(),
            false => Vec::new(),
        };
        Some(SeenTrait {
            name: of.unit.name.clone(),
            value: value_words(&of.unit, last.value),
            when: days(last.when),
            siblings: range(&of.unit, &values),
        })
    }

    /// How siblings grew, and one of them in front; nothing where no size was read at a known age.
    pub fn curve(&self, plant: Option<PlantRow>) -> Option<Curve> {
        let of = &self.traits[self.size?.index()];
        let mut lines: Vec<(PlantRow, Vec<(f64, f64)>)> = Vec::new();
        let mut readings: Vec<&Comparable> = of.readings.iter().collect();
        // Stable: the days of a plant stay in their order.
        readings.sort_by_key(|reading| reading.plant);
        for reading in readings {
            let Some((least, most)) = reading.age else {
                continue;
            };
            let point = ((least + most) / 2.0, of.unit.shown(reading.value));
            match lines.last_mut() {
                Some((of, points)) if *of == reading.plant => points.push(point),
                _ => lines.push((reading.plant, vec![point])),
            }
        }
        let own = lines.iter().find(|(of, _)| Some(*of) == plant);
        let own = own.map(|(_, points)| points.clone()).unwrap_or_default();
        if plant.is_some() && own.is_empty() {
            return None;
        }
        let shown = |of: PlantRow| Some(of) != plant && self.is_sure(of);
        let may_be_shown = plant.is_none_or(|plant| self.is_sure(plant));
        let mut siblings: Vec<Vec<(f64, f64)>> = lines
            .into_iter()
            .filter(|(of, _)| may_be_shown && shown(*of))
            .map(|(_, points)| points)
            .collect();
        let all = siblings.len();
        siblings.truncate(DRAWN);
        if siblings.is_empty() && own.is_empty() {
            return None;
        }
        let drawn = match (all, siblings.len()) {
            (0, _) => String::new(),
            (all, drawn) if drawn < all => format!("the first {drawn} of {all} siblings"),
            (all, _) => counted(all, "sibling", "siblings"),
        };
        let words = match (plant, drawn.is_empty()) {
            (None, _) => drawn,
            (Some(_), true) => "this plant".to_owned(),
            (Some(_), false) => format!("this plant in front of {drawn}"),
        };
        Some(Curve {
            heading: of.unit.heading(),
            siblings,
            own,
            words,
        })
    }
}

/// A value as it is read: a step by its number.
fn value_words(unit: &TraitUnit, value: f64) -> String {
    let shown = unit.words(unit.shown(value));
    let anchors = unit.kinds.as_ref().filter(|_| unit.is_scale);
    let at = (value as usize).checked_sub(1);
    let anchor = anchors.and_then(|anchors| anchors.get(at?).cloned());
    anchor.unwrap_or(shown)
}

/// `6.8 cm to 23.5 cm among 18`, or how many of each kind.
fn range(unit: &TraitUnit, values: &[f64]) -> String {
    if values.len() < 2 {
        return String::new();
    }
    let n = values.len();
    let kinds = unit.kinds.as_ref().filter(|_| !unit.is_scale);
    if let Some(kinds) = kinds {
        let counts = kinds.iter().enumerate().filter_map(|(at, kind)| {
            let of = values.iter().filter(|value| **value as usize == at).count();
            (of > 0).then(|| format!("{of} {kind}"))
        });
        return format!("{} of {n}", counts.collect::<Vec<_>>().join(", "));
    }
    let least = values.iter().copied().fold(f64::INFINITY, f64::min);
    let most = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let words = |value: f64| unit.words(unit.shown(value));
    match words(least) == words(most) {
        true => format!("all {n} alike"),
        false => format!("{} to {} among {n}", words(least), words(most)),
    }
}

/// Origin and pod of a plant that is surely of them.
fn of_one_pod(registry: &Registry, plant: PlantRow) -> Option<(OriginRow, Option<PodRow>)> {
    let origin = registry.origin_of(plant);
    let sure = origin.filter(|_| registry.pods_it_may_be_of(plant).is_empty());
    sure.map(|origin| (origin, registry.road(plant).1))
}

/// Ancestors of a plant or a cross, with their pages.
pub(super) fn kinsmen(album: &Album, unit: Unit) -> Vec<Kinsman> {
    let up = ancestors_up(album.context.evidence(), unit, GENERATIONS).into_iter();
    up.map(|(of, row)| Kinsman {
        generation: of.generation,
        side: of.side,
        clone: of.clone,
        name: of.name,
        doubtful: of.doubtful,
        path: row.map(|row| album.files.plant(row).to_owned()),
    })
    .collect()
}
