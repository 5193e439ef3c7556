//! A stock-take: which plants, or pieces of plants, of a place were found, and which were not.

use super::found::Found;
use super::note::write_notes;
use crate::observation::pieces::pieces_left;
use crate::observation::places::{place_of, places};
use crate::observation::stock_take::{NOT_FOUND, STOCK_TAKE, last_look};
use crate::record::Day;
use crate::recording::at_place::{is_whole, pieces_at};
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::plants::{codes, here, named, not_before};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::{Absence, Slip};
use crate::recording::voice::{Words, day, words};
use crate::recording::written::RonRecord;
use crate::registry::{PlantOrRamet, PlantRow, Registry};
use crate::wording::{at_date, listed, several};
use std::collections::BTreeSet;

/// Plants seen at a place.
#[derive(Clone, Debug, Default)]
pub struct Seen {
    /// Lists of plants; none for all of a place.
    pub plants: Vec<String>,
    /// The place.
    pub place: Option<String>,
    /// Those that were not found; of a plant with several pieces the piece.
    pub except: Vec<String>,
    /// When; today if not given.
    pub on: Option<String>,
}

impl Seen {
    /// Writes a sitting without readings on each page; a plant not found has a note. The loss of a plant that was lost before
    /// ends, and its row says when that was.
    ///
    /// # Errors
    /// If no plant stands at the place, one that was not found does not belong to it, or one that was seen is on record as
    /// dead, culled, sold or given away.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let by_itself = self.by_itself(registry);
        let (mut wanted, mut too_early) = (Vec::new(), Vec::new());
        for one in self.looked_at(registry, draft.today)? {
            match not_before(registry, one, &on) {
                Ok(()) => wanted.push(one),
                Err(slip) if by_itself.contains(&one) => return Err(slip),
                Err(_) => too_early.push(registry.code_of(one)),
            }
        }
        if wanted.is_empty() {
            return Err(Slip::nothing("all of them came after that day"));
        }
        let missing = self.missing(registry, &wanted, draft.today)?;
        not_found_that_day(registry, &missing, &on)?;
        let there = wanted.iter().filter(|one| !missing.contains(one));
        let lost_before = Found::of(registry, there.copied(), &by_itself, &on)?;
        wanted.retain(|one| !lost_before.left_out.contains(one));
        let mut written = BTreeSet::new();
        let each = wanted.iter().filter(|one| written.insert(one.plant));
        let notes = each.map(|one| {
            let lost = lost_before.notes.get(&one.plant).cloned();
            let note = lost.unwrap_or_else(|| note(registry, one.plant, &missing));
            (one.plant, note)
        });
        write_notes(draft, notes, || {
            RonRecord::new()
                .text("on", &on.text)
                .text_if("place", self.place.as_ref())
                .text("method", STOCK_TAKE)
        })?;
        draft.change_plants(lost_before.changes.into_iter().collect())?;
        let found = wanted.iter().filter(|one| !missing.contains(one));
        let found: BTreeSet<PlantRow> = found.map(|one| one.plant).collect();
        let what = What::Seen {
            seen: found.len(),
            place: self.place.clone(),
            missing: codes(registry, &missing),
        };
        Ok(Recorded::of(what, codes(registry, &wanted), on.text)
            .remarks(lost_before.remarks)
            .remarks(not_yet_there(&too_early)))
    }

    /// What was named, or all that stands at the place.
    fn looked_at(&self, registry: &Registry, today: Day) -> Result<Vec<PlantOrRamet>, Slip> {
        match (&self.place, self.plants.is_empty()) {
            (Some(place), true) => {
                is_whole(registry, place)?;
                pieces_at(registry, place, today)
            }
            (_, false) => Ok(without_own_pieces(named(registry, &self.plants)?)),
            (None, true) => Err(Slip::wanted(
                "say what you looked at",
                "plants, or --place, such as --place \"shelf 1\"",
            )),
        }
    }

    /// Those that were named one by one, not as part of a range or a cross.
    fn by_itself(&self, registry: &Registry) -> BTreeSet<PlantOrRamet> {
        let named =
            (self.plants.iter()).filter_map(|one| named(registry, std::slice::from_ref(one)).ok());
        named.filter(|of| of.len() == 1).flatten().collect()
    }

    /// Those not found, each once: the piece of a plant that was looked at, where that is one.
    fn missing(
        &self,
        registry: &Registry,
        wanted: &[PlantOrRamet],
        today: Day,
    ) -> Result<BTreeSet<PlantOrRamet>, Slip> {
        let typed = match self.except.is_empty() {
            true => Vec::new(),
            false => named(registry, &self.except)?,
        };
        let mut missing = BTreeSet::new();
        for one in typed {
            let of_plant = wanted.iter().filter(|of| of.plant == one.plant);
            let fits = |of: &&PlantOrRamet| one.covers(**of) || of.covers(one);
            let fitting: Vec<PlantOrRamet> = of_plant.filter(fits).copied().collect();
            match fitting.as_slice() {
                [] => return Err(self.not_there(registry, one, today)),
                [of] => missing.insert(if one.ramet.is_some() { one } else { *of }),
                several => {
                    let pieces = codes(registry, several);
                    let help = "name the piece that was not found";
                    return Err(Slip::ambiguous("piece", pieces, help));
                }
            };
        }
        Ok(missing)
    }

    /// The refusal of a plant that was missed where it does not stand.
    fn not_there(&self, registry: &Registry, one: PlantOrRamet, today: Day) -> Slip {
        let code = registry.code_of(one);
        if let Err(Slip::Gone { fate, absence, .. }) = here(registry, one, today) {
            let recorded = match absence {
                Absence::NeverHere => {
                    "it is another grower's plant and never stood here".to_owned()
                }
                Absence::Ended | Absence::Lost => format!("it is no longer here: {fate}"),
            };
            return Slip::contradicts(
                format!("{code} was not found"),
                recorded,
                "leave it out: a stock-take looks for what is in the collection",
            );
        }
        let there = match &self.place {
            Some(place) => format!("it is not on record on {place}"),
            None => "it is not among the plants named".to_owned(),
        };
        let places = match registry.ramet(one) {
            Some(piece) => Vec::from_iter(place_of(registry, one.plant, Some(piece), today)),
            None => places(registry, one.plant, today),
        };
        let stands = match places.as_slice() {
            [] => "its place is not recorded".to_owned(),
            places => format!("its place is {}", places.join(", ")),
        };
        Slip::contradicts(
            format!("{code} was not found"),
            format!("{there} ({stands})"),
            words!(
                "leave it out, or record where it stands{}";
                Words::or(format!(": podbook move {code} PLACE"), " under “Moved”")
            ),
        )
    }
}

/// What was named, without the pieces of plants that are named as a whole.
fn without_own_pieces(named: Vec<PlantOrRamet>) -> Vec<PlantOrRamet> {
    let whole: BTreeSet<PlantRow> = named
        .iter()
        .filter(|one| one.ramet.is_none())
        .map(|one| one.plant)
        .collect();
    let own = |one: &PlantOrRamet| one.ramet.is_some() && whole.contains(&one.plant);
    named.into_iter().filter(|one| !own(one)).collect()
}

/// Refuses a plant that was not found on the day of a stock-take that found it: of two looks of a day the one that found it
/// counts, so that nothing would come of it. Pieces may stand apart and be looked for one after the other.
fn not_found_that_day(
    registry: &Registry,
    missing: &BTreeSet<PlantOrRamet>,
    on: &Dated,
) -> Result<(), Slip> {
    let found = missing.iter().find(|one| {
        let look = last_look(registry, one.plant, on.when.last);
        let is_one = pieces_left(registry, one.plant, None).len() < 2;
        is_one && on.when.is_exact() && look == Some((on.when, true))
    });
    found.map_or(Ok(()), |one| {
        let code = registry.code_of(*one);
        Err(Slip::contradicts(
            format!("{code} was not found {}", at_date(&on.text)),
            "a stock-take of that day found it",
            words!(
                "leave it out, or give the day of this one with {}; if it is lost{}; if the other was a slip, take it back{}";
                day(),
                Words::or(format!(": podbook gone {code} --lost"), ", record that under “Gone”"),
                Words::or(": podbook undo", "")
            ),
        ))
    })
}

/// That plants came only after the day of the stock-take, which does not speak of them.
fn not_yet_there(codes: &[String]) -> Option<String> {
    match codes {
        [] => None,
        [one] => Some(format!("Left out {one}: it came after that day")),
        many => Some(format!(
            "Left out {}: they came after that day",
            several(many)
        )),
    }
}

/// What the row of a plant says: nothing, or that it or which pieces of it were not found.
fn note(registry: &Registry, plant: PlantRow, missing: &BTreeSet<PlantOrRamet>) -> String {
    let of_plant = missing.iter().filter(|one| one.plant == plant);
    let left = pieces_left(registry, plant, None);
    if !left.is_empty() && left.iter().all(|(of, _)| missing.contains(of)) {
        return NOT_FOUND.to_owned();
    }
    let pieces: Option<Vec<&str>> = of_plant
        .clone()
        .map(|one| Some(registry.ramet(*one)?.code))
        .collect();
    match (of_plant.count(), pieces) {
        (0, _) => String::new(),
        (1, Some(pieces)) => format!("piece {} not found", pieces[0]),
        (_, Some(pieces)) => format!("pieces {} not found", listed(&pieces)),
        (_, None) => NOT_FOUND.to_owned(),
    }
}
