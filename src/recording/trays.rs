//! Sowings and community pots named among plants: seedlings that are only a count, and that end or move as one.

use super::dates::Dated;
use super::draft::Draft;
use super::ending::not_to_come;
use super::page::FieldChange;
use super::parts::is_own;
use super::slip::{Absence, Slip};
use super::voice::{day, words};
use crate::observation::count_in_sowing::counts_of;
use crate::observation::presence::is_over;
use crate::observation::seedling_trays::{SeedlingTray, trays_of};
use crate::observation::standing::fate_words;
use crate::record::{Day, Sowing};
use crate::registry::{PotRow, Registry};
use crate::wording::at_date;

/// The sowing that a community pot comes from, if that is on record.
pub fn sowing_of<'r, 't>(registry: &'r Registry<'t>, pot: PotRow) -> Option<&'r Sowing<'t>> {
    let mut sowings = registry[pot.cross].page.sowings.iter();
    sowings.find(|of| Some(of.code) == registry[pot].sowing)
}

/// Refuses trays that are named twice, that another grower's registry told of, that are gone, or that were not there yet.
///
/// # Errors
/// With the first of them.
pub fn present_trays(registry: &Registry, trays: &[SeedlingTray], on: &Dated) -> Result<(), Slip> {
    for (at, &tray) in trays.iter().enumerate() {
        if trays[..at].contains(&tray) {
            return Err(Slip::twice(&tray.code(registry)));
        }
        is_own(registry, tray)?;
        not_gone(registry, tray, on)?;
        not_begun(registry, tray, on)?;
    }
    Ok(())
}

/// Refuses a tray that came to its end, but for a day before that.
///
/// # Errors
/// With what became of it.
pub fn not_gone(registry: &Registry, tray: SeedlingTray, on: &Dated) -> Result<(), Slip> {
    let fate = tray.fate(registry);
    match fate.filter(|fate| is_over(registry, fate, on.today)) {
        Some(fate) if !on.when.surely_before(registry.when(fate.on())) => Err(Slip::Gone {
            code: tray.code(registry),
            fate: fate_words(fate),
            absence: Absence::Ended,
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
    let began = format!("it {began} {}", at_date(on_record));
    Err(too_early(registry, tray, on, began))
}

/// The refusal of a day before that on which a tray began, by what is on record of it.
fn too_early(registry: &Registry, tray: SeedlingTray, on: &Dated, recorded: String) -> Slip {
    Slip::contradicts(
        format!("{} was entered for {}", tray.code(registry), on.text),
        recorded,
        words!("give a later date with {}, or name another"; day()),
    )
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
        Some(first) => {
            let first = at_date(first);
            let filled = format!("seedlings were first pricked out into it {first}");
            Err(too_early(registry, tray, on, filled))
        }
    }
}

/// The tray that moves when one is named: a count of what stands in a sowing moves with the sowing.
pub fn that_moves(registry: &Registry, tray: SeedlingTray) -> SeedlingTray {
    let SeedlingTray::Pot(row) = tray else {
        return tray;
    };
    let mut sowings = registry.sowings(row.cross).map(|(sowing, _)| sowing);
    let sowing = sowings.find(|&sowing| counts_of(registry, sowing).any(|of| of == row));
    sowing.map_or(tray, SeedlingTray::Sowing)
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
    let fate = |fate: &str| [FieldChange::Set("fate", fate.to_owned())];
    for &tray in trays {
        not_to_come(draft, &tray.code(registry), tray.fate(registry))?;
        draft.change_part(tray, &fate(whole))?;
        let SeedlingTray::Sowing(row) = tray else {
            continue;
        };
        let counts = counts_of(registry, row).map(SeedlingTray::Pot);
        let open = |tray: &SeedlingTray| tray.fate(registry).is_none() && !trays.contains(tray);
        for count in counts.filter(open) {
            draft.change_part(count, &fate(bare))?;
        }
    }
    Ok(())
}
