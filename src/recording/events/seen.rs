//! A stock-take: which plants of a place were found, and which were not.

use crate::observation::places::places;
use crate::record::Day;
use crate::recording::at_place::plants_at;
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
            (Some(place), true) => plants_at(registry, place, draft.today)?,
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
            return Err(self.not_there(registry, *other, draft.today));
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

    /// The refusal of a plant that was missed where it does not stand.
    fn not_there(&self, registry: &Registry, plant: PlantRow, today: Day) -> Slip {
        let code = registry.code(plant);
        let there = match &self.place {
            Some(place) => format!("it is not on record on {place}"),
            None => "it is not among the plants named".to_owned(),
        };
        let stands = match places(registry, plant, today).as_slice() {
            [] => "its place is not recorded".to_owned(),
            places => format!("its place is {}", places.join(", ")),
        };
        Slip::Contradicts {
            asked: format!("{code} was not found"),
            recorded: format!("{there} ({stands})"),
            help: format!("leave it out, or record where it stands: podbook move {code} PLACE"),
        }
    }
}
