//! Sowings and community pots named among plants: seedlings that are only a count, and that end or move as one.

use super::dates::Dated;
use super::draft::Draft;
use super::page::FieldChange;
use super::slip::Slip;
use super::voice::{day, words};
use crate::observation::count_in_sowing::counts_in_sowing;
use crate::observation::presence::is_over;
use crate::observation::seedling_trays::{SeedlingTray, is_count, trays_of};
use crate::observation::standing::fate_words;
use crate::record::Day;
use crate::registry::{PotRow, Registry, SowingRow, Target};
use crate::wording::at_date;

/// The trays that lists of plants name, each with the item that names it, and the lists without them.
pub fn told_apart(registry: &Registry, lists: &[String]) -> (Vec<String>, Vec<SeedlingTray>) {
    let (mut plants, mut trays) = (Vec::new(), Vec::new());
    for list in lists {
        let items = list.split(',').map(str::trim);
        let (of_trays, others): (Vec<&str>, Vec<&str>) =
            items.partition(|item| tray(registry, item).is_some());
        trays.extend(of_trays.iter().filter_map(|item| tray(registry, item)));
        if of_trays.is_empty() {
            plants.push(list.clone());
        } else if !others.is_empty() {
            plants.push(others.join(","));
        }
    }
    (plants, trays)
}

fn tray(registry: &Registry, code: &str) -> Option<SeedlingTray> {
    match registry.target(code)? {
        Target::Sowing(row) => Some(SeedlingTray::Sowing(row)),
        Target::CommunityPot(row) => Some(SeedlingTray::Pot(row)),
        _ => None,
    }
}

/// Refuses trays that are named twice, that another grower's registry told of, that are gone, or that were not there yet.
///
/// # Errors
/// With the first of them.
pub fn present_trays(
    registry: &Registry,
    trays: &[SeedlingTray],
    (today, on): (Day, &Dated),
) -> Result<(), Slip> {
    for (at, &tray) in trays.iter().enumerate() {
        if trays[..at].contains(&tray) {
            return Err(Slip::nothing(format!(
                "{} is named twice\nname it once",
                tray.code(registry)
            )));
        }
        let page = &registry[tray.cross()].page;
        if let Some(by) = &page.told_by {
            return Err(Slip::contradicts(
                format!("{} was named", tray.code(registry)),
                format!("{} is as told by the registry {}", page.code, by.registry),
                "what became of it there is not yours to record",
            ));
        }
        not_gone(registry, tray, (today, on))?;
        not_begun(registry, tray, on)?;
    }
    Ok(())
}

/// Refuses a tray that came to its end, but for a day before that.
///
/// # Errors
/// With what became of it.
pub fn not_gone(
    registry: &Registry,
    tray: SeedlingTray,
    (today, on): (Day, &Dated),
) -> Result<(), Slip> {
    let fate = tray.fate(registry);
    match fate.filter(|fate| is_over(registry, fate, today)) {
        Some(fate) if !on.when.surely_before(registry.when(fate.on())) => Err(Slip::Gone {
            code: tray.code(registry),
            fate: fate_words(fate),
            is_lost: false,
        }),
        _ => Ok(()),
    }
}

fn not_begun(registry: &Registry, tray: SeedlingTray, on: &Dated) -> Result<(), Slip> {
    let since = tray.since(registry);
    if !since.is_bounded() || on.when.last == Day::LAST || !on.when.surely_before(since) {
        return Ok(());
    }
    let began = match tray {
        SeedlingTray::Sowing(_) => "was sown",
        SeedlingTray::Pot(_) => "was first counted",
    };
    let on_record = tray.since_typed(registry).unwrap_or_default();
    Err(Slip::contradicts(
        format!("{} was entered for {}", tray.code(registry), on.text),
        format!("it {began} {}", at_date(on_record)),
        words!("give a later date with {}, or name another"; day()),
    ))
}

/// Refuses a day before the first seedlings were pricked out into a community pot.
///
/// # Errors
/// With the day of the first pricking out.
pub fn not_empty_yet(registry: &Registry, tray: SeedlingTray, on: &Dated) -> Result<(), Slip> {
    let SeedlingTray::Pot(row) = tray else {
        return Ok(());
    };
    let pot = &registry[row];
    let sowings = registry[row.cross].page.sowings.iter();
    let filled = sowings.flat_map(|of| &of.pricked_out);
    let filled = filled.filter(|of| of.to.as_deref() == Some(pot.code));
    let first = filled
        .map(|of| of.on)
        .min_by_key(|on| registry.when(on).first);
    match first.filter(|first| on.when.surely_before(registry.when(first))) {
        None => Ok(()),
        Some(first) => Err(Slip::contradicts(
            format!("{} was entered for {}", tray.code(registry), on.text),
            format!(
                "seedlings were first pricked out into it {}",
                at_date(first)
            ),
            words!("give a later date with {}, or name another"; day()),
        )),
    }
}

/// The tray that moves when one is named: a count of what stands in a sowing moves with the sowing.
pub fn that_moves(registry: &Registry, tray: SeedlingTray) -> SeedlingTray {
    let SeedlingTray::Pot(row) = tray else {
        return tray;
    };
    if !is_count(registry, row) {
        return tray;
    }
    let page = &registry[row.cross].page;
    let sowing = page.sowings.iter().position(|of| {
        let mut counts = counts_in_sowing(page, of);
        counts.any(|at| at == row.at)
    });
    sowing.map_or(tray, |at| {
        SeedlingTray::Sowing(SowingRow {
            cross: row.cross,
            at,
        })
    })
}

/// Refuses the count of what stands in a sowing as something that goes while it counts none: a pot is meant.
///
/// # Errors
/// With the pots that hold seedlings of that sowing.
pub fn no_empty_count(registry: &Registry, trays: &[SeedlingTray], day: Day) -> Result<(), Slip> {
    for &tray in trays {
        let SeedlingTray::Sowing(sowing) = that_moves(registry, tray) else {
            continue;
        };
        let of_it = |other: &SeedlingTray| match *other {
            SeedlingTray::Pot(row) => registry[row].sowing == Some(registry[sowing].code),
            SeedlingTray::Sowing(_) => false,
        };
        if !of_it(&tray) || tray.seedlings(registry, day) != Some((0, 0)) {
            continue;
        }
        let pots = trays_of(registry, sowing.cross, day).filter(of_it);
        let pots: Vec<String> = pots.map(|pot| pot.code(registry)).collect();
        let sowing = SeedlingTray::Sowing(sowing).code(registry);
        return Err(Slip::contradicts(
            format!("{} was named", tray.code(registry)),
            format!("it is the count of what stands in {sowing}, and none is left there"),
            match pots.is_empty() {
                true => format!("name the sowing: {sowing}"),
                false => format!("name the pot they are in: {}", pots.join(", ")),
            },
        ));
    }
    Ok(())
}

/// Ends trays. What is counted in a sowing ends with it, with the bare fate.
///
/// # Errors
/// If a record is not found or cannot be changed.
pub fn end_trays(
    draft: &mut Draft,
    trays: &[SeedlingTray],
    whole: &str,
    bare: &str,
) -> Result<(), Slip> {
    let registry = draft.registry;
    for &tray in trays {
        change(draft, tray, "fate", whole)?;
        let SeedlingTray::Sowing(row) = tray else {
            continue;
        };
        let page = &registry[row.cross].page;
        let counts = counts_in_sowing(page, &registry[row]);
        let counts = counts.map(|at| {
            SeedlingTray::Pot(PotRow {
                cross: row.cross,
                at,
            })
        });
        let open = |tray: &SeedlingTray| tray.fate(registry).is_none() && !trays.contains(tray);
        for count in counts.filter(open) {
            change(draft, count, "fate", bare)?;
        }
    }
    Ok(())
}

/// Sets a field of a tray's record.
///
/// # Errors
/// If the record is not found or cannot be changed.
pub fn change(
    draft: &mut Draft,
    tray: SeedlingTray,
    field: &'static str,
    value: &str,
) -> Result<(), Slip> {
    let set = [FieldChange::Set(field, value.to_owned())];
    let page = draft.cross(tray.cross());
    match tray {
        SeedlingTray::Sowing(row) => page.change_at("sowings", row.at, &set)?,
        SeedlingTray::Pot(row) => page.change_at("community_pots", row.at, &set)?,
    }
    Ok(())
}
