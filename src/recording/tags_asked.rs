//! Which plants and pieces get a tag, and how the pages stood before a change, so that tags that changed can be told.

use super::journal::before;
use super::plants::single;
use super::rows_asked::{by_page, rows_asked};
use super::slip::Slip;
use crate::observation::places::{is_in, places};
use crate::observation::presence::{Presence, presence};
use crate::record::{Day, JournalEntry, When};
use crate::registry::{PlantKind, PlantRow, Registry, Target};
use crate::text::Sources;
use std::collections::BTreeMap;

/// What tags are asked for.
#[derive(Clone, Copy, Debug, Default)]
pub struct TagsAsked<'a> {
    /// Crosses, pods, sowings, plants and single pieces.
    pub ids: &'a [String],
    /// Only what stands here, also of the codes.
    pub place: Option<&'a str>,
    /// Only what arrived, was numbered or was potted by itself from this day on.
    pub since: Option<Day>,
}

/// A plant, or one of its pieces by its place in the plant's record.
pub type Tagged = (PlantRow, Option<usize>);

/// The plants in the order of [`rows_asked`]; a plant with recorded pieces gives each that is here.
///
/// # Errors
/// As [`rows_asked`].
pub fn tags_asked(registry: &Registry, asked: TagsAsked, today: Day) -> Result<Vec<Tagged>, Slip> {
    let mut tagged = Vec::new();
    if asked.ids.is_empty() {
        let rows = match asked.place {
            Some(_) => rows_asked(registry, &[], asked.place, today)?,
            None => by_page(registry),
        };
        tagged.extend(
            rows.into_iter()
                .flat_map(|row| pieces(registry, row, asked.place)),
        );
    }
    for id in asked.ids {
        if let Some(Target::Ramet(..)) = registry.target(id) {
            let named = single(registry, id)?;
            tagged.push((named.plant, named.ramet.map(|at| at as usize)));
            continue;
        }
        let rows = rows_asked(registry, std::slice::from_ref(id), asked.place, today)?;
        tagged.extend(
            rows.into_iter()
                .flat_map(|row| pieces(registry, row, asked.place)),
        );
    }
    let mut seen = std::collections::BTreeSet::new();
    tagged.retain(|&(plant, piece)| {
        let is_here = presence(registry, plant, today) == Presence::Here;
        let is_new = |since: Day| came(registry, (plant, piece)).first >= since;
        let stands = |at: &str| {
            let mut places = places(registry, plant, today).into_iter();
            places.any(|place| is_in(place, at))
        };
        is_here
            && asked.place.is_none_or(stands)
            && asked.since.is_none_or(is_new)
            && seen.insert((plant, piece))
    });
    Ok(tagged)
}

fn pieces(registry: &Registry, plant: PlantRow, place: Option<&str>) -> Vec<Tagged> {
    let all = registry.ramets(plant).iter().enumerate();
    let here = all.filter(|(_, piece)| {
        let stands = |asked| piece.place.as_deref().is_some_and(|at| is_in(at, asked));
        piece.fate.is_none() && place.is_none_or(stands)
    });
    let pieces: Vec<Tagged> = here.map(|(at, _)| (plant, Some(at))).collect();
    match pieces.is_empty() {
        true => vec![(plant, None)],
        false => pieces,
    }
}

/// When a plant or piece first stood by itself; before all time where that is not recorded.
fn came(registry: &Registry, (plant, piece): Tagged) -> When {
    if let Some(piece) = piece.map(|at| &registry.ramets(plant)[at])
        && let Some(on) = piece.rooted.or(piece.cut)
    {
        return registry.when(on);
    }
    let founder = registry.founder(plant).and_then(|founder| founder.on);
    let own = registry.seedling(plant);
    let own = own.filter(|_| registry.kind(plant) == PlantKind::Seedling);
    let potted = registry.pots(plant).first().map(|pot| pot.on);
    let on = founder.or(own.and_then(|own| own.numbered)).or(potted);
    on.map_or(When::UNKNOWN, |on| registry.when(on))
}

/// The pages as they stood before the last change podbook recorded, or before every change from a day on; `None` when
/// there was no such change.
///
/// # Errors
/// If a page was changed by another hand since.
pub fn earlier(
    sources: &Sources,
    entries: &[JournalEntry],
    since: Option<Day>,
) -> Result<Option<Sources>, Slip> {
    let since = since.map(|day| day.to_string());
    let counts = |at: usize, entry: &JournalEntry| match &since {
        Some(since) => entry.on >= *since,
        None => at == 0,
    };
    let taken = entries.iter().rev().enumerate();
    let taken: Vec<&JournalEntry> = taken
        .filter(|(at, entry)| counts(*at, entry))
        .map(|(_, entry)| entry)
        .collect();
    if taken.is_empty() {
        return Ok(None);
    }
    let mut pages: BTreeMap<String, String> = sources
        .iter()
        .map(|(file, source)| (source.path.clone(), sources.text(file).to_owned()))
        .collect();
    for entry in taken {
        for page in &entry.pages {
            let now = pages.remove(&page.path);
            let was =
                before(page, now.as_deref()).ok_or_else(|| edited(&page.path, entry.change))?;
            pages.extend(was.map(|text| (page.path.clone(), text)));
        }
    }
    let mut earlier = Sources::new();
    for (path, text) in pages {
        earlier.add(path, text);
    }
    Ok(Some(earlier))
}

fn edited(path: &str, change: u32) -> Slip {
    Slip::NothingToChange(format!(
        "which tags changed cannot be told: {path} was edited by hand after change {change}\n\
        name the plants, or leave out --changed"
    ))
}
