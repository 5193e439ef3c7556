//! Plants and pieces that were sold or given away and are here again. How they left stays on record.

use super::place::{original_at, taken_along};
use crate::observation::places::{is_original, place_of};
use crate::observation::standing::fate_words;
use crate::record::{Day, Fate, Ramet};
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::ending::{ended_with, fate_record};
use crate::recording::page::FieldChange;
use crate::recording::plants::{codes, named, which_piece};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, by, day, words};
use crate::recording::written::{RonRecord, text};
use crate::registry::{PlantOrRamet, PlantRow, Registry};
use crate::wording::at_date;
use std::collections::BTreeSet;

/// Plants that came back.
#[derive(Clone, Debug, Default)]
pub struct Back {
    /// Lists of plants and pieces.
    pub plants: Vec<String>,
    /// Where they stand now.
    pub place: Option<String>,
    /// Remarks.
    pub note: Option<String>,
    /// When; today if not given.
    pub on: Option<String>,
}

impl Back {
    /// Puts how each left beside the day it came back, so that it is here again.
    ///
    /// # Errors
    /// If a plant is unknown, is here, ended in another way than being sold or given away, left after that day, or left whole
    /// and only a piece is named; or if it is not said which of several pieces stands at the place.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let wanted = named(registry, &self.plants)?;
        let mut changes: Vec<(PlantRow, Vec<FieldChange>)> = Vec::new();
        let mut left = Vec::new();
        for one in &wanted {
            let fate = left_by(registry, *one, &on)?;
            changes.push((one.plant, self.changes(draft, *one, fate, &on)?));
            let code = registry.code_of(*one);
            left.push(format!("{code} had been {}", fate_words(fate)));
        }
        draft.change_plants(changes)?;
        draft.second_form()?;
        let plants = codes(registry, &wanted);
        let about = plants.clone();
        let what = What::CameBack { plants };
        let stand = self.stands(registry, &wanted, draft.today);
        Ok(Recorded::of(what, about, on.text)
            .remarks(left)
            .remarks(stand))
    }

    /// Takes the fate off a piece, or off a plant and the pieces that left with it, and the places where they stood before.
    fn changes(
        &self,
        draft: &Draft,
        one: PlantOrRamet,
        fate: &Fate,
        on: &Dated,
    ) -> Result<Vec<FieldChange>, Slip> {
        let (registry, today) = (draft.registry, draft.today);
        let back = RonRecord::new()
            .value("left", fate_record(fate))
            .text("on", &on.text)
            .text_if("note", self.note.as_ref());
        let mut changes = vec![FieldChange::Push("came_back", back.line())];
        changes.push(FieldChange::Remove("fate"));
        let to = self.place.as_deref().unwrap_or_default();
        if let Some(piece) = registry.ramet(one) {
            changes.push(self.placed());
            let mut all = taken_along(registry, one, (to, today));
            all.extend(within(piece.code, changes));
            // The place of a seedling is that of the plant itself.
            all.extend(is_original(piece).then_some(FieldChange::Remove("place")));
            return Ok(all);
        }
        let pieces = came_with(registry, one.plant, fate);
        let stood = [one].into_iter().chain(pieces.iter().map(|(of, _)| *of));
        let mut places = BTreeSet::new();
        for of in stood {
            if places.insert(place_of(registry, of.plant, registry.ramet(of), today)) {
                changes.extend(taken_along(registry, of, (to, today)));
            }
        }
        let is_seedling = registry.cross_of(one.plant).is_some();
        changes.extend(is_seedling.then(|| self.placed()));
        let is_of_piece = self.place.is_some() && !is_seedling;
        match (pieces.as_slice(), &self.place) {
            ([], Some(place)) if is_of_piece && registry.ramets(one.plant).is_empty() => {
                changes.push(FieldChange::Push("ramets", original_at(place)));
            }
            ([_], _) => {}
            _ if is_of_piece => {
                return Err(which_piece(
                    registry,
                    registry.each_ramet(one.plant),
                    Words::or(
                        "leave out --place, then say which piece stands there: podbook move PIECE PLACE",
                        "leave “Where it stands now” empty, then record under “Moved” which piece stands there",
                    ),
                ));
            }
            _ => {}
        }
        let place = match is_of_piece {
            true => self.placed(),
            false => FieldChange::Remove("place"),
        };
        let pieces = pieces.iter().flat_map(|(_, piece)| {
            within(piece.code, vec![FieldChange::Remove("fate"), place.clone()])
        });
        Ok(changes.into_iter().chain(pieces).collect())
    }

    /// The change of the place: where it stood before it left is not where it stands.
    fn placed(&self) -> FieldChange {
        match &self.place {
            Some(place) => FieldChange::Set("place", text(place)),
            None => FieldChange::Remove("place"),
        }
    }

    /// That it is not on record where each stands that came back, and where it stood before.
    fn stands(&self, registry: &Registry, wanted: &[PlantOrRamet], today: Day) -> Vec<Words> {
        let of = |one: &PlantOrRamet| {
            let code = registry.code_of(*one);
            let own = place_of(registry, one.plant, registry.ramet(*one), today);
            let pieces = registry.ramets(one.plant).iter();
            let mut of_pieces = pieces.filter_map(|piece| piece.place.as_deref());
            let before = own.or_else(|| of_pieces.next().filter(|_| one.ramet.is_none()));
            let before =
                before.map_or(String::new(), |place| format!(" (before it left: {place})"));
            words!(
                "Where {code} stands now is not on record{before}; record it{}";
                Words::or(format!(": podbook move {code} PLACE"), " under “Moved”")
            )
        };
        match self.place {
            Some(_) => Vec::new(),
            None => wanted.iter().map(of).collect(),
        }
    }
}

/// The pieces that left with their plant.
fn came_with<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    fate: &Fate,
) -> Vec<(PlantOrRamet, &'r Ramet<'t>)> {
    let with_it = ended_with(registry, plant, fate).map(|piece| piece.code);
    let with_it: Vec<&str> = with_it.collect();
    let all = registry.each_ramet(plant);
    all.filter(|(_, piece)| with_it.contains(&piece.code))
        .collect()
}

/// Changes of a piece, each by itself: those of fields beside each other touch the same bytes.
fn within(code: &str, changes: Vec<FieldChange>) -> Vec<FieldChange> {
    let each = changes.into_iter();
    each.map(|change| FieldChange::of_piece(code, change))
        .collect()
}

/// How a plant or piece that comes back had left.
fn left_by<'r, 't>(
    registry: &'r Registry<'t>,
    one: PlantOrRamet,
    on: &Dated,
) -> Result<&'r Fate<'t>, Slip> {
    let code = registry.code_of(one);
    let whole = registry.fate(one.plant);
    let fate = match registry.ramet(one) {
        Some(piece) => piece.fate.as_ref(),
        None => whole,
    };
    let Some(fate) = fate else {
        return Err(Slip::nothing(format!(
            "{code} is on record as here\nif a piece of it came back, name the piece"
        )));
    };
    let contradicts = |recorded: String, help: Words| {
        Slip::contradicts(
            format!("{code} came back {}", at_date(&on.text)),
            recorded,
            help,
        )
    };
    let on_record = format!("it is on record as {}", fate_words(fate));
    if let Fate::Lost { .. } = fate {
        let seen = by(&format!("seen {code}"));
        let help = words!("if it was found, record that you saw it{}"; seen);
        return Err(contradicts(on_record, help));
    }
    if fate.handed_on().is_none() {
        let help = words!(
            "look at its tag: is it another plant? If it is {code}, correct {}its record";
            Words::or("`fate` in ", "")
        );
        return Err(contradicts(on_record, help));
    }
    if one.ramet.is_some() && whole.is_some() {
        let plant = registry.code(one.plant);
        return Err(contradicts(
            format!("{plant} left with all its pieces"),
            words!(
                "record that {plant} came back, then what became of the other pieces{}";
                Words::or(": podbook gone", " under “Gone”")
            ),
        ));
    }
    if on.when.surely_before(registry.when(fate.on())) {
        let help = words!(
            "give a later day with {}, or correct {}";
            day(), Words::or("`fate` in its record", "its record")
        );
        return Err(contradicts(on_record, help));
    }
    Ok(fate)
}
