//! Seed lots named among plants: seed that is left unsown and came to an end, or left, as a whole.

use super::draft::Draft;
use super::page::FieldChange;
use super::slip::Slip;
use super::written::text;
use crate::record::{CrossPage, NONE_LEFT, SeedLot};
use crate::registry::{LotRow, Registry, Target};
use crate::wording::{at_date, counted};

/// The seed lots that lists of plants name, and the lists without them.
pub fn lots_apart(registry: &Registry, lists: &[String]) -> (Vec<String>, Vec<LotRow>) {
    let lot = |item: &str| match registry.target(item)? {
        Target::SeedLot(row) => Some(row),
        _ => None,
    };
    let (mut rest, mut lots) = (Vec::new(), Vec::new());
    for list in lists {
        let items = list.split(',').map(str::trim);
        let (of_lots, others): (Vec<&str>, Vec<&str>) = items.partition(|item| lot(item).is_some());
        lots.extend(of_lots.iter().filter_map(|item| lot(item)));
        match of_lots.is_empty() {
            true => rest.push(list.clone()),
            false if others.is_empty() => {}
            false => rest.push(others.join(",")),
        }
    }
    (rest, lots)
}

/// The code of a seed lot, such as `X24-01.L1`.
pub fn lot_code(registry: &Registry, row: LotRow) -> String {
    format!("{}.{}", registry[row.cross].page.code, registry[row].code)
}

/// Writes that nothing is left of seed lots, and in their notes what became of the rest.
///
/// # Errors
/// If nothing was left of one, or another grower's registry told of it.
pub fn end_lots(
    draft: &mut Draft,
    lots: &[LotRow],
    (word, after, on): (&str, &str, &str),
) -> Result<(), Slip> {
    let registry = draft.registry;
    for (at, &row) in lots.iter().enumerate() {
        if lots[..at].contains(&row) {
            return Err(Slip::nothing(format!(
                "{} is named twice\nname it once",
                lot_code(registry, row)
            )));
        }
        can_leave(registry, row)?;
        let rest = format!("the rest {word} {}{after}", at_date(on));
        let left = FieldChange::Set("left", text(NONE_LEFT[0]));
        noted(draft, row, rest, left)?;
    }
    Ok(())
}

/// Writes that so many seeds of a lot left, and in its note what became of them.
///
/// # Errors
/// As [`end_lots`], or if that is more than are left of a counted lot, or none.
pub fn hand_on(
    draft: &mut Draft,
    row: LotRow,
    seeds: u32,
    (word, after, on): (&str, String, &str),
) -> Result<(), Slip> {
    let registry = draft.registry;
    can_leave(registry, row)?;
    if seeds == 0 {
        return Err(Slip::BadNumber(
            "--seeds",
            "0".to_owned(),
            "at least one seed",
        ));
    }
    let (page, lot) = (&registry[row.cross].page, &registry[row]);
    enough_seed(page, lot, seeds)?;
    let part = format!(
        "{} {word} {}{after}",
        counted(seeds as usize, "seed", "seeds"),
        at_date(on)
    );
    let given = lot.given_away.unwrap_or(0);
    let sum = given.saturating_add(seeds).to_string();
    noted(draft, row, part, FieldChange::Set("given_away", sum))
}

/// Refuses more seeds than are left of a counted lot.
///
/// # Errors
/// If so many are not left.
pub fn enough_seed(page: &CrossPage, lot: &SeedLot, seeds: u32) -> Result<(), Slip> {
    let sown = page.sowings.iter().filter(|of| of.lot == Some(lot.code));
    let uncounted = sown.clone().find(|sowing| sowing.seeds.is_none());
    let counted = sown.filter_map(|sowing| sowing.seeds).map(u64::from);
    let used = counted.sum::<u64>() + u64::from(lot.given_away.unwrap_or(0));
    let all = lot.seeds.filter(|_| !lot.estimated).map(u64::from);
    let left = all.map(|all| all.saturating_sub(used));
    let Some(left) = left.filter(|left| u64::from(seeds) > *left) else {
        return Ok(());
    };
    let what = match uncounted {
        Some(of) => format!(
            "seeds left in {0}.{1} at most; how many {0}.{2} took is not on record",
            page.code, lot.code, of.code
        ),
        None => format!("seeds left in {}.{}", page.code, lot.code),
    };
    Err(Slip::too_many(
        what,
        (seeds, left),
        "count the seeds again, or mark the lot's number as estimated on its page",
    ))
}

/// Refuses seed that another grower's registry told of, and a lot of which nothing is left.
fn can_leave(registry: &Registry, row: LotRow) -> Result<(), Slip> {
    let (page, code) = (&registry[row.cross].page, lot_code(registry, row));
    if let Some(by) = &page.told_by {
        return Err(Slip::contradicts(
            format!("{code} was named"),
            format!("{} is as told by the registry {}", page.code, by.registry),
            "what became of it there is not yours to record",
        ));
    }
    let left = registry[row].left.as_deref();
    match left.is_some_and(|left| NONE_LEFT.contains(&left)) {
        true => Err(Slip::nothing(format!(
            "nothing is left of {code} on record already"
        ))),
        false => Ok(()),
    }
}

/// Changes a lot, and adds words to its note.
fn noted(draft: &mut Draft, row: LotRow, words: String, change: FieldChange) -> Result<(), Slip> {
    let note = match draft.registry[row].note.as_deref() {
        Some(note) => format!("{note}; {words}"),
        None => words,
    };
    let note = FieldChange::Set("note", text(&note));
    let page = draft.cross(row.cross);
    page.change_at("seed_lots", row.at, &[change, note])?;
    Ok(())
}
