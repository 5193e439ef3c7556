//! Which plants a sheet or a sitting is of, in the order of the page, and what is read of them.

use super::at_place::{plants_at, stands_here};
use super::plants::{here, plants};
use super::slip::Slip;
use super::voice::{Words, words};
use crate::observation::asked_columns::{AskedColumn, all_columns, asked_column, columns_of};
use crate::observation::scope::Scope;
use crate::record::Day;
use crate::registry::{
    Column, PlantKind, PlantOrRamet, PlantRow, Registry, SittingHead, SittingRow, Target,
};
use crate::text::{nearest, one_line};
use std::collections::BTreeSet;

/// Plants by code or list, whole crosses, pods and sowings, and of all these or of the whole collection only those that
/// stand at a place where one is given; each once, those gone left out.
///
/// A cross gives its seedlings in the order of its page, a place founders first and then page after page.
///
/// # Errors
/// If a code is unknown, nothing is asked for, or no plant is left.
pub fn rows_asked(
    registry: &Registry,
    ids: &[String],
    place: Option<&str>,
    today: Day,
) -> Result<Vec<PlantRow>, Slip> {
    if ids.is_empty() && place.is_none() {
        return Err(Slip::missing(
            "the cross or place to read",
            words!(
                "a cross such as X24-01, a pod, a sowing, plants such as X24-01-1..40, or {}";
                Words::or("--place PLACE", "“Place”")
            ),
        ));
    }
    let mut asked = Vec::new();
    for id in ids {
        match registry.target(id) {
            Some(Target::Cross(_) | Target::Pod(..) | Target::Sowing(..)) => {
                // The target is one of those a scope can be.
                let scope = Scope::named(registry, id).map_err(Slip::nothing)?;
                asked.extend(in_order(registry, scope));
            }
            _ => asked.extend(
                plants(registry, std::slice::from_ref(id)).map_err(|slip| near(registry, slip))?,
            ),
        }
    }
    if ids.is_empty() {
        asked.extend(by_page(registry));
    }
    let mut seen = BTreeSet::new();
    asked.retain(|plant| stands_here(registry, *plant, place, today) && seen.insert(*plant));
    if asked.is_empty() {
        if let ([only], None) = (ids, place)
            && let Some(Target::Plant(plant)) = registry.target(only)
        {
            here(registry, PlantOrRamet { plant, ramet: None }, today)?;
        }
        if let (Some(place), true) = (place, ids.is_empty()) {
            plants_at(registry, place, today)?;
        }
        return Err(Slip::nothing(nothing_left(ids, place)));
    }
    Ok(asked)
}

/// The refusal of a code that names nothing, with every code it may have meant: a cross is asked for as well as a plant.
fn near(registry: &Registry, slip: Slip) -> Slip {
    match slip {
        Slip::Unknown { what, code, .. } => {
            Slip::unknown(registry, what, &code, registry.near(&code))
        }
        slip => slip,
    }
}

/// The columns named, or those of the last sitting in which one of the plants was read, or every declared trait.
///
/// # Errors
/// If a word names no trait, one is named twice, or no trait is declared.
pub fn columns_asked(
    registry: &Registry,
    traits: &[String],
    plants: &[PlantRow],
) -> Result<Vec<AskedColumn>, Slip> {
    let named: Result<Vec<_>, _> = traits
        .iter()
        .map(|typed| one_column(registry, typed))
        .collect();
    let mut columns = named?;
    if columns.is_empty() {
        let last = last_sitting(registry, plants);
        columns = last.map_or_else(Vec::new, |at| columns_of(registry, at));
    }
    if columns.is_empty() {
        columns = all_columns(registry);
    }
    let mut seen = BTreeSet::new();
    if let Some(twice) = columns
        .iter()
        .find(|of| !seen.insert(of.heading.split(' ').next().unwrap_or("").to_owned()))
    {
        return Err(Slip::nothing(format!(
            "{} is asked for twice\nname each trait once",
            twice.heading
        )));
    }
    match columns.is_empty() {
        true => Err(Slip::nothing(words!(
            "no trait is declared, so there is nothing to read\ndeclare what you read {}";
            Words::or("under `traits` in registry.ron", "at the computer")
        ))),
        false => Ok(columns),
    }
}

/// The words for a trait that is not declared.
pub fn unknown_trait(registry: &Registry, typed: &str) -> Slip {
    let codes = registry.settings.traits.iter().map(|of| of.code);
    let near = nearest(typed, codes.clone());
    let listed = codes.collect::<Vec<_>>().join(", ");
    if let Some(help) = registry.lost_trait(typed) {
        return Slip::contradicts(
            format!("`{}` is asked for", one_line(typed)),
            "that trait could not be read",
            words!("{help} ({} where)"; Words::or("`podbook check` shows", "“Problems” shows")),
        );
    }
    Slip::contradicts(
        format!("`{}` is asked for", one_line(typed)),
        match listed.is_empty() {
            true => "no trait is declared".to_owned(),
            false => format!("the traits declared are {listed}"),
        },
        match near.first() {
            Some(near) => format!("did you mean {near}?").into(),
            None => Words::or(
                "name one of them, or declare the trait in registry.ron",
                "name one of them, or declare the trait at the computer",
            ),
        },
    )
}

/// The column that a word names.
///
/// # Errors
/// If it names no trait.
pub fn one_column(registry: &Registry, typed: &str) -> Result<AskedColumn, Slip> {
    asked_column(registry, typed).ok_or_else(|| unknown_trait(registry, typed))
}

/// The seedlings of a scope in the order of the page.
fn in_order(registry: &Registry, scope: Scope) -> Vec<PlantRow> {
    let inside: BTreeSet<PlantRow> = match (scope.pod, scope.sowing) {
        // A muddled seedling belongs to the page for sure, if not to its parents.
        (None, None) => return registry[scope.cross].seedlings.clone(),
        _ => scope.seedlings(registry).0.into_iter().collect(),
    };
    let page = registry[scope.cross].seedlings.iter();
    page.copied()
        .filter(|plant| inside.contains(plant))
        .collect()
}

/// All plants: founders, then the seedlings page after page.
pub(super) fn by_page(registry: &Registry) -> Vec<PlantRow> {
    let founders = registry.plants();
    let founders = founders.filter(|plant| registry.kind(*plant) == PlantKind::Founder);
    let pages = registry.crosses.iter();
    founders
        .chain(pages.flat_map(|cross| cross.seedlings.iter().copied()))
        .collect()
}

/// The last sitting in which one of the plants was read; a stock-take reads no trait.
fn last_sitting(registry: &Registry, plants: &[PlantRow]) -> Option<SittingRow> {
    let asked: BTreeSet<PlantRow> = plants.iter().copied().collect();
    let reads = |head: &SittingHead| {
        let mut columns = head.columns.iter();
        columns.any(|column| matches!(column, Column::Trait { .. }))
    };
    let sittings = registry.all_sittings().filter(|(_, head)| reads(head));
    let of_them =
        sittings.filter(|(_, head)| head.row_plants().any(|plant| asked.contains(&plant)));
    let last = of_them.max_by_key(|(at, head)| {
        let when = registry.when(head.sitting.on);
        (when.last, when.first, *at)
    });
    last.map(|(at, _)| at)
}

fn nothing_left(ids: &[String], place: Option<&str>) -> Words {
    let of = ids.join(", ");
    let Some(place) = place else {
        return format!(
            "no plant of {of} is in the collection\nname a cross with numbered seedlings that are here"
        )
        .into();
    };
    let (place, of) = match ids {
        [] => (one_line(place), "in the collection".to_owned()),
        _ => (one_line(place), format!("of {of}")),
    };
    words!(
        "no plant {of} stands at `{place}`\nplaces are those of the records{}";
        Words::or(": `podbook list --place \"shelf 1\"` lists the plants of one", "")
    )
}
