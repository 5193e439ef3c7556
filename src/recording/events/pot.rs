//! Plants potted on, with the place they stand at.

use super::place::{put_at, taken_along};
use crate::observation::pieces::{is_itself_gone, pieces_left};
use crate::observation::places::{is_original, place_of, places};
use crate::observation::pottings::pots_of;
use crate::record::{Length, Potting};
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{codes, present, which_piece};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, words};
use crate::recording::written::RonRecord;
use crate::registry::{PlantOrRamet, Registry};
use crate::wording::{at_date, several};
use std::collections::BTreeMap;

/// A potting on.
#[derive(Clone, Debug, Default)]
pub struct Pot {
    /// Lists of plants and pieces.
    pub plants: Vec<String>,
    /// Inside width with its unit.
    pub width: String,
    /// Where they stand now.
    pub place: Option<String>,
    /// When; today if not given.
    pub on: Option<String>,
}

impl Pot {
    /// Writes the potting on each plant, or piece of one.
    ///
    /// # Errors
    /// If the width has no unit, a plant is no longer here, or it is not said which of several pieces was potted.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        if self.plants.is_empty() {
            return Err(Slip::missing(
                "the width of the pot",
                Words::or(
                    "it behind the plants, such as X24-01-7 9cm; in quotes where it has a blank",
                    "the inside width with its unit, such as 9cm",
                ),
            ));
        }
        let width = pot_width(&self.width)?;
        let present = present(registry, &self.plants, (on.day(), &on))?;
        let wanted = present.named.iter().map(|one| potted(registry, *one));
        let wanted: Vec<PlantOrRamet> = wanted.collect::<Result<_, Slip>>()?;
        let same = |of: &Potting| {
            *of.pot == *width && of.on == on.text && of.place.as_deref() == self.place.as_deref()
        };
        let twice = wanted
            .iter()
            .find(|&&one| pots(registry, one).into_iter().any(same));
        if let Some(&one) = twice {
            return Err(Slip::on_record(
                format!(
                    "{} is already on record as potted into {width} {}",
                    registry.code_of(one),
                    at_date(&on.text)
                ),
                "if other plants were potted too, name only those",
            ));
        }
        let potting = RonRecord::new()
            .text("on", &on.text)
            .text("pot", &width)
            .text_if("place", self.place.as_ref())
            .line();
        let mut placed = Placed::default();
        let changes = wanted.iter().map(|&one| {
            let mut changes = vec![own_pot(registry, one, &potting)];
            if let Some(place) = &self.place {
                changes.extend(placed.change(draft, one, (place, &on))?);
            }
            Ok((one.plant, changes))
        });
        draft.change_plants(changes.collect::<Result<_, Slip>>()?)?;
        let others = wanted.iter().filter_map(|one| others(registry, *one));
        let plants = codes(registry, &wanted);
        let about = plants.clone();
        let what = What::Potted {
            plants,
            pot: width,
            place: self.place.clone().filter(|_| placed.stay.is_empty()),
        };
        Ok(Recorded::of(what, about, on.text)
            .remarks(present.remarks())
            .remarks(placed.remarks(self.place.as_deref()))
            .remarks(others))
    }
}

/// What is potted by a code: the piece that is named; by that of the plant the plant itself, or the one piece that is left of it.
///
/// # Errors
/// If the plant itself came to an end and several pieces are left.
fn potted(registry: &Registry, one: PlantOrRamet) -> Result<PlantOrRamet, Slip> {
    let left = pieces_left(registry, one.plant, None);
    match (one.ramet, left.as_slice()) {
        (None, [(only, _)]) if is_itself_gone(registry, one.plant) => Ok(*only),
        (None, _) if is_itself_gone(registry, one.plant) => Err(which_piece(
            registry,
            left,
            "name the piece that was potted",
        )),
        _ => Ok(one),
    }
}

/// The pots of a piece that was taken off its plant; else those of the plant itself.
fn pots<'r, 't>(registry: &'r Registry<'t>, one: PlantOrRamet) -> Vec<&'r Potting<'t>> {
    pots_of(registry, one.plant, registry.ramet(one))
}

/// The change that adds a pot to those.
fn own_pot(registry: &Registry, one: PlantOrRamet, potting: &str) -> FieldChange {
    let pot = FieldChange::Push("pots", potting.to_owned());
    match registry.ramet(one).filter(|piece| !is_original(piece)) {
        Some(piece) => FieldChange::of_piece(piece.code, pot),
        None => pot,
    }
}

/// That the pot of a plant which is named whole is that of the plant itself, where pieces were taken off it.
fn others(registry: &Registry, one: PlantOrRamet) -> Option<Words> {
    let left = pieces_left(registry, one.plant, None);
    let (other, _) = left.iter().find(|(_, piece)| !is_original(piece))?;
    one.ramet.is_none().then(|| {
        let (plant, piece) = (registry.code(one.plant), registry.code_of(*other));
        words!(
            "The pot is that of {plant} itself; {}";
            Words::or(
                format!("of a piece taken off it: podbook pot {piece} WIDTH"),
                "for a piece taken off it fill in “Piece”"
            )
        )
    })
}

/// What becomes of the places noted beside plants that were potted with a place. A place has no day, so a late entry may
/// change one that is newer.
#[derive(Default)]
struct Placed {
    /// Those that stay where they are, because a later pot with a place is on record.
    stay: Vec<String>,
    /// Those whose place a late entry changes, under the place before.
    changed: BTreeMap<String, Vec<String>>,
}

impl Placed {
    /// The changes of the place noted beside a seedling or a founder's piece, which would contradict that of its pot.
    ///
    /// # Errors
    /// If it is a founder of several pieces, which stand apart.
    fn change(
        &mut self,
        draft: &Draft,
        one: PlantOrRamet,
        (place, on): (&str, &Dated),
    ) -> Result<Vec<FieldChange>, Slip> {
        let (registry, plant) = (draft.registry, one.plant);
        let code = registry.code_of(one);
        let has_later = pots(registry, one)
            .into_iter()
            .any(|pot| pot.place.is_some() && on.when.surely_before(registry.when(pot.on)));
        if has_later {
            self.stay.push(code);
            return Ok(Vec::new());
        }
        if registry.cross_of(plant).is_none() && registry.ramets(plant).is_empty() {
            return Ok(Vec::new());
        }
        let noted = match registry.ramet(one) {
            Some(piece) => place_of(registry, plant, Some(piece), draft.today)
                .into_iter()
                .collect(),
            None => places(registry, plant, draft.today),
        };
        if let Some(other) = noted.iter().find(|of| **of != place)
            && on.when.first < draft.today
        {
            let same = self.changed.entry((*other).to_owned()).or_default();
            same.push(code);
        }
        let help = Words::or(
            "leave out --place, then say which piece stands there: podbook move PIECE PLACE",
            "fill in “Piece”, or leave “Place” empty",
        );
        let mut changes = taken_along(registry, one, (place, draft.today));
        changes.extend(put_at(registry, one, (place, help))?);
        Ok(changes)
    }

    /// What to say of them.
    fn remarks(&self, place: Option<&str>) -> Vec<Words> {
        let place = place.unwrap_or_default();
        let stay = (!self.stay.is_empty()).then(|| {
            let were = if self.stay.len() == 1 { "was" } else { "were" };
            format!(
                "{} {were} potted again later: the place on record stays as it is",
                several(&self.stay)
            )
            .into()
        });
        let changed = self.changed.iter().map(|(before, codes)| {
            let plants = if codes.len() < 7 {
                codes.join(",")
            } else {
                "PLANTS".to_owned()
            };
            words!(
                "{}: the place was {before} and is {place} now; if moved back since{}";
                Words::from(several(codes)), Words::or(format!(": podbook move {plants} \"{before}\""), ", record that under “Moved”")
            )
        });
        stay.into_iter().chain(changed).collect()
    }
}

/// The width of a pot with a blank before its unit: `7cm` is `7 cm`.
///
/// # Errors
/// If it is no length above zero, or has no unit.
pub fn pot_width(typed: &str) -> Result<String, Slip> {
    let needed = || {
        let needed = "its inside width with a unit, such as 7cm, 2.5 cm or 3in";
        Slip::bad_number("the pot", typed, needed)
    };
    let length = Length::read(typed).map_err(|_| needed())?;
    let cm = length.cm().ok_or_else(needed)?;
    if !(cm > 0.0 && cm < 500.0) {
        return Err(needed());
    }
    // In one line with single blanks, as it will stand on the page.
    let typed = typed.split_whitespace().collect::<Vec<_>>().join(" ");
    let digits = typed
        .find(|c: char| c.is_alphabetic())
        .unwrap_or(typed.len());
    let (number, unit) = typed.split_at(digits);
    Ok(match unit.is_empty() {
        true => typed,
        false => format!("{} {unit}", number.trim()),
    })
}
