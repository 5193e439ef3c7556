//! What ends when a plant dies or leaves: the whole of it, or one of its pieces.

use super::draft::Draft;
use super::page::FieldChange;
use super::plants::which_piece;
use super::slip::Slip;
use super::voice::Words;
use super::written::RonRecord;
use crate::observation::left_by_itself::left_with_plant;
use crate::observation::pieces::pieces_left;
use crate::observation::presence::is_over;
use crate::observation::standing::fate_words;
use crate::record::{Fate, Ramet};
use crate::registry::{PlantOrRamet, PlantRow, Registry};

/// The piece meant by the code of a plant, or the whole plant where no more than one piece of it is left. At a place it is
/// the piece that stands there.
///
/// # Errors
/// If several pieces are left and the place does not settle which one is meant.
pub fn one_ending(
    registry: &Registry,
    named: PlantOrRamet,
    place: Option<&str>,
    help: impl Into<Words>,
) -> Result<PlantOrRamet, Slip> {
    let left = pieces_left(registry, named.plant, None);
    if named.ramet.is_some() || left.len() < 2 {
        return Ok(named);
    }
    let there = place.map(|place| pieces_left(registry, named.plant, Some(place)));
    if let Some([(of, _)]) = there.as_deref() {
        return Ok(*of);
    }
    let choices = there.filter(|there| !there.is_empty()).unwrap_or(left);
    Err(which_piece(registry, choices, help))
}

/// The piece meant by the code of a plant of which only one is left, where others were sold or given away: the plant as a whole
/// did not end, for what others have may live and come back.
pub fn last_piece(registry: &Registry, named: PlantOrRamet) -> PlantOrRamet {
    let let_go = |piece: &Ramet| piece.fate.as_ref().and_then(Fate::handed_on).is_some();
    let left = pieces_left(registry, named.plant, None);
    match left.as_slice() {
        [(of, _)] if registry.ramets(named.plant).iter().any(let_go) => *of,
        _ => named,
    }
}

/// Refuses an end of what has an end on record that lies after today: it would be overwritten.
///
/// # Errors
/// With what is on record.
pub fn not_to_come(draft: &Draft, code: &str, fate: Option<&Fate>) -> Result<(), Slip> {
    match fate.filter(|fate| !is_over(draft.registry, fate, draft.today)) {
        None => Ok(()),
        Some(fate) => Err(Slip::contradicts(
            format!("{code} was to be recorded as gone"),
            format!(
                "its record says {}, which lies after today",
                fate_words(fate)
            ),
            "correct that date on its page first, or delete it there",
        )),
    }
}

/// The changes that end a piece, or a plant with every piece of it that is left. The pieces get the bare fate; `whole` may
/// say more.
///
/// # Errors
/// As [`not_to_come`].
pub fn ended(
    draft: &Draft,
    named: PlantOrRamet,
    whole: &str,
    bare: &str,
) -> Result<Vec<FieldChange>, Slip> {
    let registry = draft.registry;
    let own = match registry.ramet(named) {
        Some(ramet) => ramet.fate.as_ref(),
        None => registry.fate(named.plant),
    };
    not_to_come(draft, &registry.code_of(named), own)?;
    let piece = |code: &str, fate: &str| {
        FieldChange::of_piece(code, FieldChange::Set("fate", fate.to_owned()))
    };
    if let Some(ramet) = registry.ramet(named) {
        return Ok(vec![piece(ramet.code, whole)]);
    }
    let left = pieces_left(registry, named.plant, None);
    let pieces = left.iter().map(|(_, ramet)| piece(ramet.code, bare));
    let whole = FieldChange::Set("fate", whole.to_owned());
    let all = [FieldChange::Whole("ramets"), whole];
    Ok(all.into_iter().chain(pieces).collect())
}

/// The pieces that ended with their plant: they have its fate without more words, or none of their own.
pub fn ended_with<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    fate: &Fate,
) -> impl Iterator<Item = &'r Ramet<'t>> {
    registry.ramets(plant).iter().filter(move |piece| {
        let own = piece.fate.as_ref();
        own.is_none_or(|own| left_with_plant(own, fate))
    })
}

/// A fate as it is written.
pub fn fate_record(fate: &Fate) -> String {
    let on = RonRecord::new().text("on", fate.on());
    let (name, field, words) = match fate {
        Fate::Died { cause, .. } => ("died", "cause", cause),
        Fate::Culled { reason, .. } => ("culled", "reason", reason),
        Fate::Lost { note, .. } => ("lost", "note", note),
        Fate::Sold { label, .. } => ("sold", "label", label),
        Fate::Given { label, .. } => ("given", "label", label),
        Fate::Elsewhere => return "elsewhere".to_owned(),
    };
    let record = on.text_if(field, words.as_deref());
    let record = match fate.handed_on() {
        Some(with) => record
            .text_if("to", with.to)
            .text_if("price", with.price)
            .text_if("said", with.said),
        None => record,
    };
    record.named(name)
}
