//! Plants, pieces, sowings and community pots moved to another place.

use super::seen::Seen;
use crate::observation::last_entry::not_found_since;
use crate::observation::pieces::{is_itself_gone, pieces_left};
use crate::observation::places::{has_lost_piece, is_in, place_of};
use crate::observation::seedling_trays::SeedlingTray;
use crate::observation::standing::last_read;
use crate::observation::treated::{treated, treated_there};
use crate::record::{Day, Treatment};
use crate::recording::at_place::{is_whole, standing, standing_at};
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{codes, plants, which_piece};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::trays::that_moves;
use crate::recording::voice::{Words, words};
use crate::recording::written::{RonRecord, text};
use crate::registry::{PlantOrRamet, Registry};
use crate::wording::listed;
use std::collections::BTreeSet;

/// A move.
#[derive(Clone, Debug, Default)]
pub struct Move {
    /// Lists of plants, pieces, sowings and community pots; none for all that stand at a place.
    pub plants: Vec<String>,
    /// The place they stood at.
    pub place: Option<String>,
    /// Where they stand now.
    pub to: String,
}

impl Move {
    /// Writes the place of each.
    ///
    /// # Errors
    /// If a plant is no longer here, or a founder's pieces stand apart.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let now = dated(registry, "--on", None, draft.today)?;
        self.to_a_place(registry, draft.today)?;
        let standing = match &self.place {
            Some(place) => {
                self.is_elsewhere(place)?;
                is_whole(registry, place)?;
                standing_at(registry, place, draft.today)?
            }
            None => {
                self.no_place(registry, draft.today)?;
                standing(registry, &self.plants, &now)?
            }
        };
        let wanted = &standing.plants.named;
        let (mut changes, mut moved) = (Vec::new(), BTreeSet::new());
        // A founder and its only piece are one place, named twice; so is a seedling that left and the piece that is left.
        let only_piece = |one: &PlantOrRamet| match pieces_left(registry, one.plant, None).len() {
            1 if registry.founder(one.plant).is_some() => None,
            1 if is_itself_gone(registry, one.plant) => None,
            _ => one.ramet,
        };
        let help = "name the piece that was moved";
        for &one in wanted {
            if moved.insert((one.plant, only_piece(&one))) {
                let mut of_plant = taken_along(registry, one, (&self.to, draft.today));
                of_plant.extend(put_at(registry, one, (&self.to, help))?);
                changes.push((one.plant, of_plant));
            }
        }
        draft.change_plants(changes)?;
        let with = self.move_trays(draft, &standing.trays)?;
        let stay = wanted.iter().filter_map(|one| stays(registry, *one));
        let found = self.found_again(draft, wanted)?;
        let plants = codes(registry, wanted);
        let trays = standing.tray_codes(registry);
        let about = [plants.clone(), trays.clone()].concat();
        let what = What::Moved {
            plants,
            trays,
            to: self.to.clone(),
        };
        Ok(Recorded::of(what, about, "")
            .remarks(standing.plants.remarks())
            .remarks(with)
            .remarks(stay)
            .remarks(found))
    }

    /// Writes the place of trays; of a count that of its sowing, and says so.
    fn move_trays(&self, draft: &mut Draft, trays: &[SeedlingTray]) -> Result<Vec<String>, Slip> {
        let registry = draft.registry;
        let mut remarks = Vec::new();
        for &named in trays {
            let tray = that_moves(registry, named);
            if tray != named {
                remarks.push(format!(
                    "{} is the count of what stands in {}, whose place was changed",
                    named.code(registry),
                    tray.code(registry)
                ));
            }
            let left = not_at(treated_there(registry, tray), &self.to);
            let mut changes: Vec<FieldChange> = left.collect();
            changes.push(FieldChange::Set("place", text(&self.to)));
            draft.change_part(tray, &changes)?;
        }
        Ok(remarks)
    }

    /// A plant that is moved by its code was seen: where the last stock-take did not find it, that is written, since a place
    /// has no day.
    fn found_again(
        &self,
        draft: &mut Draft,
        moved: &[PlantOrRamet],
    ) -> Result<Option<String>, Slip> {
        let (registry, today) = (draft.registry, draft.today);
        let missed = |one: &&PlantOrRamet| {
            let read = last_read(registry, one.plant);
            not_found_since(registry, one.plant, read, today).is_some()
        };
        let found = moved.iter().filter(|_| self.place.is_none()).filter(missed);
        let plants: Vec<String> = found.map(|one| registry.code_of(*one)).collect();
        if plants.is_empty() {
            return Ok(None);
        }
        let words = format!(
            "The last stock-take did not find {}; recorded as seen today",
            listed(&plants)
        );
        let seen = Seen {
            plants,
            ..Seen::default()
        };
        seen.record(draft)?;
        Ok(Some(words))
    }

    /// Refuses a code where the new place belongs, unless a place is called so: the word behind `--place` is the old place.
    fn to_a_place(&self, registry: &Registry, today: Day) -> Result<(), Slip> {
        let to = self.to.trim();
        if to.is_empty() {
            return Err(Slip::missing(
                "the place they were moved to",
                "it in quotes where it has a blank, such as \"shelf 1\"",
            ));
        }
        let named = plants(registry, std::slice::from_ref(&self.to));
        if registry.target(to).is_none() && named.is_err()
            || standing_at(registry, to, today).is_ok()
        {
            return Ok(());
        }
        let help = match &self.place {
            Some(place) => format!(
                ": to put it there, podbook move {to} \"{place}\"; to move all that stands at {place}, name that place last"
            ),
            None => format!(" last: podbook move {to} \"shelf 2\""),
        };
        Err(Slip::nothing(words!(
            "{to} is a code on record, not a place\nname the new place{}";
            Words::or(&*help, ", such as shelf 2")
        )))
    }

    /// Refuses a move to the place itself, which would lose the parts of it, such as `shelf 1, front`.
    fn is_elsewhere(&self, place: &str) -> Result<(), Slip> {
        match place.trim().eq_ignore_ascii_case(self.to.trim()) {
            true => Err(Slip::nothing(format!(
                "all of it stands on {} already\nname another place",
                self.to.trim()
            ))),
            false => Ok(()),
        }
    }

    /// Refuses a place where a plant is to be named, and says how all that stands there is moved.
    fn no_place(&self, registry: &Registry, today: Day) -> Result<(), Slip> {
        let is_place = |typed: &&String| {
            registry.target(typed).is_none() && standing_at(registry, typed, today).is_ok()
        };
        match self.plants.iter().find(is_place) {
            Some(place) => Err(Slip::nothing(format!(
                "`{place}` is a place, not a plant or tray\nto move all that stands there: podbook move --place \"{place}\" \"{}\"",
                self.to
            ))),
            None => Ok(()),
        }
    }
}

/// What stays where it is when a seedling of several pieces is moved as a whole: those that have a place of their own, and
/// those taken off it of which none is on record.
fn stays(registry: &Registry, one: PlantOrRamet) -> Option<String> {
    let is_whole = one.ramet.is_none() && registry.cross_of(one.plant).is_some();
    let left = pieces_left(registry, one.plant, None).into_iter();
    let own = left.filter(|(_, piece)| is_whole && piece.place.is_some());
    let own: Vec<String> = own.map(|(of, _)| registry.code_of(of)).collect();
    if is_whole && own.is_empty() && has_lost_piece(registry, one.plant) {
        let code = registry.code(one.plant);
        return Some(format!(
            "Where the pieces of {code} without a place stand is not on record: name the piece that was moved"
        ));
    }
    (!own.is_empty()).then(|| {
        let verb = if own.len() == 1 { "has" } else { "have" };
        format!(
            "{} {verb} a place on record and did not move: name the piece that was moved",
            listed(&own)
        )
    })
}

/// The plant itself as the first of its pieces, at a place: a founder's place is that of a piece.
pub(super) fn original_at(place: &str) -> String {
    let first = RonRecord::new().text("code", "a").value("made", "original");
    first.text("place", place).line()
}

/// The pieces of a founder that has just come, at a place.
pub(super) fn first_piece(place: &str) -> String {
    format!("[{}]", original_at(place))
}

/// The treatments of the place that a plant or piece leaves: that it stood there then is not known, and would be forgotten
/// with the place.
pub(super) fn taken_along(
    registry: &Registry,
    one: PlantOrRamet,
    (to, today): (&str, Day),
) -> Vec<FieldChange> {
    let piece = registry.ramet(one);
    let place = place_of(registry, one.plant, piece, today);
    let left = treated(registry, one.plant, piece, place).into_iter();
    let left = left.filter(|of| of.of_place && !of.treatment.perhaps);
    not_at(left.map(|of| of.treatment), to).collect()
}

/// The changes that write treatments of places on what leaves them; none of a place that the new one is a part of.
fn not_at<'r, 't: 'r>(
    left: impl Iterator<Item = &'r Treatment<'t>>,
    to: &str,
) -> impl Iterator<Item = FieldChange> {
    let stays = |of: &Treatment| of.place.as_deref().is_some_and(|of| is_in(to, of));
    left.filter(move |of| !stays(of))
        .map(|of| FieldChange::Push("treatments", perhaps(of)))
}

fn perhaps(of: &Treatment) -> String {
    RonRecord::new()
        .text("on", of.on)
        .text_if("place", of.place.as_deref())
        .text("product", &of.product)
        .text_if("against", of.against.as_deref())
        .value("perhaps", "true")
        .text_if("by", of.by.as_deref())
        .text_if("note", of.note.as_deref())
        .line()
}

/// The changes that give a plant or piece another place.
///
/// # Errors
/// If it is a founder of several pieces, which stand apart, or a seedling that left and of which several are here; `help` says how to name one.
pub(super) fn put_at(
    registry: &Registry,
    one: PlantOrRamet,
    (place, help): (&str, impl Into<Words>),
) -> Result<Vec<FieldChange>, Slip> {
    let set = FieldChange::Set("place", text(place));
    let ramets = registry.ramets(one.plant);
    let left = pieces_left(registry, one.plant, None);
    let piece = match (one.ramet, left.as_slice()) {
        (Some(ramet), _) => ramets[ramet.index()].code,
        (None, _)
            if registry.cross_of(one.plant).is_some() && !is_itself_gone(registry, one.plant) =>
        {
            return Ok(vec![set]);
        }
        (None, [(_, only)]) => {
            let only = FieldChange::of_piece(only.code, set);
            return Ok(vec![FieldChange::Whole("ramets"), only]);
        }
        (None, []) => {
            return Ok(vec![FieldChange::Push("ramets", original_at(place))]);
        }
        _ => {
            return Err(which_piece(registry, left, help));
        }
    };
    Ok(vec![FieldChange::of_piece(piece, set)])
}
