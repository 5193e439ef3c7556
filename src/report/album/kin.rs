//! What the plants of one cross share: their readings, and who their ancestors are.

use super::whole::Album;
use crate::analysis::album::SharedReadings;
use crate::analysis::card::{Siblings, ancestors_up};
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::observation::trait_unit::TraitUnit;
use crate::registry::{CrossRow, OriginRow, PodRow, Registry};
use crate::report::card::{Ancestor, ancestor};
use crate::wording::{counted, days, joined};
use std::collections::HashMap;

/// Generations of ancestors on a page; what is further back is on the pages of those.
const GENERATIONS: usize = 4;
/// Siblings whose growth is drawn.
const DRAWN: usize = 250;

/// A parent or a parent's parent.
#[derive(Clone, Debug)]
pub struct Kinsman {
    /// Who it is.
    pub of: Ancestor,
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
    /// What the other siblings showed that were read with it; empty where there was none.
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

/// What plants of one cross, or a founder alone, share.
pub struct Kin {
    pub(super) readings: SharedReadings,
    /// Of plants of one origin and pod, which have the same evidence.
    ancestors: HashMap<(OriginRow, Option<PodRow>), Vec<Kinsman>>,
}

impl Kin {
    /// Of a cross.
    pub fn of_cross(album: &Album, cross: CrossRow) -> Kin {
        let registry = album.registry();
        let readings = SharedReadings::of_cross(registry, cross);
        Kin::of(album, readings, &registry[cross].seedlings)
    }

    /// Of a plant that is no seedling.
    pub fn of_founder(album: &Album, plant: PlantRow) -> Kin {
        let readings = SharedReadings::of_founder(album.registry(), plant);
        Kin::of(album, readings, &[plant])
    }

    fn of(album: &Album, readings: SharedReadings, all: &[PlantRow]) -> Kin {
        let mut ancestors = HashMap::new();
        for &plant in all {
            if let Some(key) = of_one_pod(album.registry(), plant) {
                let of = || kinsmen(album, Unit::Plant(plant));
                ancestors.entry(key).or_insert_with(of);
            }
        }
        Kin {
            readings,
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

    /// The last comparable reading of every trait of a plant.
    pub fn seen(&self, registry: &Registry, plant: PlantRow) -> Vec<SeenTrait> {
        let seen = self.readings.seen(registry, plant).into_iter();
        let words = seen.map(|of| SeenTrait {
            name: of.unit.name.clone(),
            value: value_words(of.unit, of.last.value),
            when: days(of.last.when),
            siblings: of
                .siblings
                .map_or(String::new(), |all| range(of.unit, &all)),
        });
        words.collect()
    }

    /// How siblings grew, and one of them in front; nothing where no size was read at a known age.
    pub fn curve(&self, plant: Option<PlantRow>) -> Option<Curve> {
        let of = self.readings.curve(plant, DRAWN)?;
        let drawn = match (of.siblings.len(), of.more) {
            (0, _) => String::new(),
            (all, 0) => counted(all, "sibling", "siblings"),
            (drawn, more) => format!("the first {drawn} of {} siblings", drawn + more),
        };
        let words = match (plant, drawn.is_empty()) {
            (None, _) => drawn,
            (Some(_), true) => "this plant".to_owned(),
            (Some(_), false) => format!("this plant in front of {drawn}"),
        };
        let middle = match of.is_vague {
            true => "; where dates are vague, at the middle of the ages they allow",
            false => "",
        };
        let words = words + middle;
        Some(Curve {
            heading: of.unit.heading(),
            siblings: of.siblings,
            own: of.own,
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
fn range(unit: &TraitUnit, all: &Siblings) -> String {
    let words = |value: f64| unit.words(unit.shown(value));
    match all {
        Siblings::Kinds { siblings, counts } => {
            let kind = |at: usize| unit.kinds.as_ref().and_then(|kinds| kinds.get(at));
            let counts = counts.iter();
            let counts = counts.filter_map(|(at, of)| Some(format!("{of} {}", kind(*at)?)));
            format!("{} of {siblings}", joined(counts, ", "))
        }
        Siblings::Range {
            siblings,
            least,
            most,
        } => match words(*least) == words(*most) {
            true if *siblings == 1 => format!("{}, the one that was read", words(*least)),
            true => format!("{} in all {siblings}", words(*least)),
            false => format!("{} to {} among {siblings}", words(*least), words(*most)),
        },
    }
}

/// Origin and pod of a plant that is surely of them.
fn of_one_pod(registry: &Registry, plant: PlantRow) -> Option<(OriginRow, Option<PodRow>)> {
    let origin = registry.origin_of(plant);
    let sure = origin.filter(|_| registry.is_surely_of_its_pod(plant));
    sure.map(|origin| (origin, registry.road(plant).1))
}

/// Ancestors of a plant or a cross, with their pages.
pub(super) fn kinsmen(album: &Album, unit: Unit) -> Vec<Kinsman> {
    let evidence = album.context.evidence();
    let up = ancestors_up(evidence, unit, GENERATIONS).into_iter();
    up.map(|above| {
        let row = above.plant();
        Kinsman {
            of: ancestor(evidence, &above),
            path: row.map(|row| album.files.plant(row).to_owned()),
        }
    })
    .collect()
}
