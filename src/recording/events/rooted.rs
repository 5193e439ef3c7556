//! Pieces that have rooted since they were taken off their plant.

use crate::observation::pieces::{awaits_roots, pieces_left};
use crate::record::{Made, Ramet};
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{here_then, named, which_piece};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::{BadRange, Slip};
use crate::recording::voice::{Words, by, words};
use crate::recording::written::text;
use crate::registry::{PlantOrRamet, Registry};
use crate::wording::at_date;

/// Pieces seen to have rooted.
#[derive(Clone, Debug, Default)]
pub struct Rooted {
    /// Lists of pieces; the code of a plant means the one piece of it that is to root.
    pub pieces: Vec<String>,
    /// When it was seen; today if not given.
    pub on: Option<String>,
}

impl Rooted {
    /// Writes the day on each piece.
    ///
    /// # Errors
    /// If a piece is unknown, no longer here, the plant itself or on record as rooted, if it was cut after that day, or if a
    /// plant is named of which no piece is to root, or several are.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let mut changes = Vec::new();
        let mut codes = Vec::new();
        for of in named(registry, &self.pieces)? {
            let piece = the_piece(registry, of)?;
            let code = registry.code_of(piece);
            let Some(ramet) = registry.ramet(piece) else {
                continue;
            };
            here_then(registry, piece, &on)?;
            is_new(&code, ramet)?;
            if codes.contains(&code) {
                return Err(Slip::bad_range(&code, BadRange::Twice));
            }
            let rooted = FieldChange::Set("rooted", text(&on.text));
            let rooted = FieldChange::of_piece(ramet.code, rooted);
            let unnamed = of.ramet.is_none().then_some(FieldChange::Whole("ramets"));
            changes.push((piece.plant, unnamed.into_iter().chain([rooted]).collect()));
            codes.push(code);
        }
        draft.change_plants(changes)?;
        let what = What::Rooted {
            pieces: codes.clone(),
        };
        Ok(Recorded::of(what, codes, on.text))
    }
}

/// The piece itself, or the only one of a plant that is to root.
fn the_piece(registry: &Registry, named: PlantOrRamet) -> Result<PlantOrRamet, Slip> {
    if named.ramet.is_some() {
        return Ok(named);
    }
    let plant = registry.code(named.plant);
    let mut waiting = pieces_left(registry, named.plant, None);
    waiting.retain(|(_, piece)| awaits_roots(piece));
    match waiting.as_slice() {
        [(one, _)] => Ok(*one),
        [] => Err(Slip::nothing(words!(
            "{plant} has no piece on record that is to root\nrecord the piece first{}";
            by(&format!("cutting {plant}"))
        ))),
        _ => Err(which_piece(
            registry,
            waiting,
            "name those that have rooted",
        )),
    }
}

/// Refuses the plant itself, and a second day.
fn is_new(code: &str, piece: &Ramet) -> Result<(), Slip> {
    if matches!(piece.made, None | Some(Made::Original)) {
        return Err(Slip::wrong_kind(
            code,
            "the plant itself",
            "a piece that was taken off it",
        ));
    }
    match piece.rooted {
        None => Ok(()),
        Some(before) => Err(Slip::on_record(
            format!("{code} is already on record as rooted {}", at_date(before)),
            words!(
                "if that day is wrong, undo the change that recorded it, or correct {}its record";
                Words::or("`rooted` in ", "")
            ),
        )),
    }
}
