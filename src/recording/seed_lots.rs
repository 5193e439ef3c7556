//! Seed lots named among plants: seed that is left unsown and came to an end, or left, as a whole.

use super::draft::Draft;
use super::page::FieldChange;
use super::slip::Slip;
use super::written::text;
use crate::record::NONE_LEFT;
use crate::registry::{LotRow, Registry, Target};
use crate::wording::at_date;

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
    (word, why, on): (&str, Option<&str>, &str),
) -> Result<(), Slip> {
    let registry = draft.registry;
    for (at, &row) in lots.iter().enumerate() {
        let (page, lot) = (&registry[row.cross].page, &registry[row]);
        let code = lot_code(registry, row);
        if lots[..at].contains(&row) {
            return Err(Slip::NothingToChange(format!(
                "{code} is named twice\nname it once"
            )));
        }
        if let Some(by) = &page.told_by {
            return Err(Slip::Contradicts {
                asked: format!("{code} was named"),
                recorded: format!("{} is as told by the registry {}", page.code, by.registry),
                help: "what became of it there is not yours to record".to_owned(),
            });
        }
        if lot
            .left
            .as_deref()
            .is_some_and(|left| NONE_LEFT.contains(&left))
        {
            return Err(Slip::NothingToChange(format!(
                "nothing is left of {code} on record already"
            )));
        }
        let why = why.map(|why| format!(" ({why})")).unwrap_or_default();
        let rest = format!("the rest {word} {}{why}", at_date(on));
        let note = match lot.note.as_deref() {
            Some(note) => format!("{note}; {rest}"),
            None => rest,
        };
        draft.cross(row.cross).change_at(
            "seed_lots",
            row.at,
            &[
                FieldChange::Set("left", text(NONE_LEFT[0])),
                FieldChange::Set("note", text(&note)),
            ],
        )?;
    }
    Ok(())
}
