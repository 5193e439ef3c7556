//! Which plants and pieces get a tag, and how the pages stood before a change, so that tags that changed can be told.

use super::at_place::stands_here;
use super::journal::before;
use super::rows_asked::{by_page, rows_asked};
use super::slip::Slip;
use crate::observation::pieces::pieces_left;
use crate::observation::places::stands_as_plant;
use crate::observation::pottings::pots_in_order;
use crate::record::{Day, JournalEntry, When};
use crate::registry::{PlantKind, PlantOrRamet, PlantRow, Registry, Target};
use crate::text::Sources;
use std::collections::{BTreeMap, BTreeSet};

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

/// The plants in the order of [`rows_asked`]; a plant with recorded pieces gives each that is here.
///
/// # Errors
/// As [`rows_asked`].
pub fn tags_asked(
    registry: &Registry,
    asked: TagsAsked,
    today: Day,
) -> Result<Vec<PlantOrRamet>, Slip> {
    let mut tagged = Vec::new();
    let each = |rows: Vec<PlantRow>| {
        let rows = rows.into_iter();
        rows.flat_map(|row| pieces(registry, row, asked.place))
    };
    match (asked.ids.is_empty(), asked.place) {
        (true, Some(_)) => tagged.extend(each(rows_asked(registry, &[], asked.place, today)?)),
        (true, None) => tagged.extend(each(by_page(registry))),
        (false, _) => {}
    }
    for id in asked.ids {
        if let Some(Target::Ramet(plant, ramet)) = registry.target(id) {
            tagged.push(PlantOrRamet::ramet(plant, ramet));
            continue;
        }
        let id = std::slice::from_ref(id);
        tagged.extend(each(rows_asked(registry, id, asked.place, today)?));
    }
    let mut seen = BTreeSet::new();
    tagged.retain(|&of: &PlantOrRamet| {
        let is_new = |since: Day| came(registry, of).first >= since;
        stands_here(registry, of.plant, asked.place, today)
            && asked.since.is_none_or(is_new)
            && seen.insert(of)
    });
    Ok(tagged)
}

/// What is left out by `since` although it may have come from that day on: its day is not on record, or not exactly.
///
/// # Errors
/// As [`tags_asked`].
pub fn perhaps_since(
    registry: &Registry,
    asked: TagsAsked,
    today: Day,
) -> Result<Vec<PlantOrRamet>, Slip> {
    let Some(since) = asked.since else {
        return Ok(Vec::new());
    };
    let all = TagsAsked {
        since: None,
        ..asked
    };
    let mut perhaps = tags_asked(registry, all, today)?;
    perhaps.retain(|of| {
        let came = came(registry, *of);
        came.first < since && since <= came.last
    });
    Ok(perhaps)
}

/// The pieces of a plant that are left; at a place those that stand there, or, where none has that place, the plant itself.
fn pieces(registry: &Registry, plant: PlantRow, place: Option<&str>) -> Vec<PlantOrRamet> {
    let mut left = pieces_left(registry, plant, place);
    if left.is_empty() && place.is_some() {
        left = pieces_left(registry, plant, None);
        left.retain(|(_, piece)| stands_as_plant(piece));
    }
    match left.is_empty() {
        true => vec![PlantOrRamet::whole(plant)],
        false => left.into_iter().map(|(of, _)| of).collect(),
    }
}

/// When a plant or piece first stood by itself; before all time where that is not recorded.
fn came(registry: &Registry, of: PlantOrRamet) -> When {
    let plant = of.plant;
    if let Some(piece) = registry.ramet(of)
        && let Some(on) = piece.rooted.or(piece.cut)
    {
        return registry.when(on);
    }
    let founder = registry.founder(plant).and_then(|founder| founder.on);
    let own = registry.seedling(plant);
    let own = own.filter(|_| registry.kind(plant) == PlantKind::Seedling);
    let potted = pots_in_order(registry, plant).first().map(|pot| pot.on);
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
    let mut taken = taken.filter(|(at, entry)| counts(*at, entry)).peekable();
    if taken.peek().is_none() {
        return Ok(None);
    }
    let mut pages: BTreeMap<String, String> = sources
        .iter()
        .map(|(file, source)| (source.path.clone(), sources.text(file).to_owned()))
        .collect();
    for (_, entry) in taken {
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
    Slip::nothing(format!(
        "which tags changed cannot be told: {path} was edited by hand after change {change}\n\
        name the plants, or leave out --changed"
    ))
}
