//! A stock-take: which plants of a place were found, and which were not.

use crate::observation::presence::{Presence, presence};
use crate::record::Day;
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::plants::plants;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::written::{RonRecord, lines, texts};
use crate::registry::{PlantRow, Registry};
use std::collections::{BTreeMap, BTreeSet};

/// What a stock-take is called where sittings say how they were made.
pub const STOCK_TAKE: &str = "stock-take";

/// Plants seen at a place.
#[derive(Clone, Debug, Default)]
pub struct Seen {
    /// Lists of plants; none for all of a place.
    pub plants: Vec<String>,
    /// The place.
    pub place: Option<String>,
    /// Those that were not found.
    pub except: Vec<String>,
    /// When; today if not given.
    pub on: Option<String>,
}

impl Seen {
    /// Writes a sitting without readings on each page; a plant not found has a note.
    ///
    /// # Errors
    /// If no plant stands at the place, or one that was not found does not belong to it.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let wanted = match (&self.place, self.plants.is_empty()) {
            (Some(place), true) => at_place(registry, place, draft.today)?,
            (_, false) => plants(registry, &self.plants)?,
            (None, true) => {
                return Err(Slip::Missing {
                    what: "what was looked at",
                    option: "plants, or --place, such as --place \"shelf 1\"",
                });
            }
        };
        let missing = match self.except.is_empty() {
            true => BTreeSet::new(),
            false => plants(registry, &self.except)?
                .into_iter()
                .collect::<BTreeSet<PlantRow>>(),
        };
        if let Some(other) = missing.iter().find(|plant| !wanted.contains(plant)) {
            return Err(Slip::Contradicts {
                asked: format!("{} was not found", registry.code(*other)),
                recorded: "it is not on record there".to_owned(),
                help: "name the place it belongs to, or leave it out".to_owned(),
            });
        }
        let mut pages: BTreeMap<Option<u32>, Vec<String>> = BTreeMap::new();
        for &plant in &wanted {
            let name = registry
                .number(plant)
                .map_or_else(|| registry.code(plant), str::to_owned);
            let note = if missing.contains(&plant) {
                "not found"
            } else {
                ""
            };
            pages
                .entry(registry.cross_of(plant))
                .or_default()
                .push(texts([name.as_str(), note]));
        }
        for (cross, rows) in pages {
            let sitting = RonRecord::new()
                .text("on", &on.text)
                .text_if("place", self.place.as_ref())
                .text("method", STOCK_TAKE)
                .value("columns", texts(["note"]))
                .value("rows", lines(&rows));
            let page = match cross {
                Some(cross) => draft.cross(cross),
                None => draft.clones()?,
            };
            page.append("sittings", &[sitting.line()])?;
        }
        let code = |plant: &PlantRow| registry.code(*plant);
        let missing: Vec<String> = missing.iter().map(code).collect();
        Ok(Recorded {
            about: wanted.iter().map(code).collect(),
            tags: Vec::new(),
            remarks: Vec::new(),
            what: What::Seen {
                seen: wanted.len() - missing.len(),
                place: self.place.clone(),
                missing,
                on: on.text,
            },
        })
    }
}

/// The plants here that stand at a place.
///
/// # Errors
/// If there are none, with the places on record that are spelt nearly so.
pub fn at_place(registry: &Registry, place: &str, today: Day) -> Result<Vec<PlantRow>, Slip> {
    let asked = place.trim().to_lowercase();
    let mut places = BTreeSet::new();
    let mut found = Vec::new();
    for plant in registry.plants() {
        let Some(stands) = place_of(registry, plant) else {
            continue;
        };
        if presence(registry, plant, today) != Presence::Here {
            continue;
        }
        let lower = stands.trim().to_lowercase();
        // `shelf 1` holds `shelf 1, front` too.
        let within = lower
            .strip_prefix(&asked)
            .is_some_and(|rest| !rest.starts_with(char::is_alphanumeric));
        if within {
            found.push(plant);
        } else {
            places.insert(stands.to_owned());
        }
    }
    if found.is_empty() {
        let near = crate::text::nearest(place, places.iter().map(String::as_str));
        return Err(Slip::Unknown {
            what: "place with plants",
            code: place.to_owned(),
            near: near.into_iter().map(str::to_owned).collect(),
        });
    }
    Ok(found)
}

/// Where a plant stands: its own place, its last pot's, or that of its only piece.
pub fn place_of<'r>(registry: &'r Registry, plant: PlantRow) -> Option<&'r str> {
    let own = registry
        .seedling(plant)
        .and_then(|seedling| seedling.place.as_deref());
    let pot = || {
        registry
            .pots(plant)
            .iter()
            .rev()
            .find_map(|pot| pot.place.as_deref())
    };
    let piece = || {
        let mut pieces = registry
            .ramets(plant)
            .iter()
            .filter(|ramet| ramet.fate.is_none());
        pieces.next().and_then(|ramet| ramet.place.as_deref())
    };
    own.or_else(pot).or_else(piece)
}
