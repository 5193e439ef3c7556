//! A plant or piece that is seen although it is on record as gone: the loss of one that was lost ends, and one that died, was
//! culled or left is refused.

use crate::observation::pieces::pieces_left;
use crate::observation::standing::fate_words;
use crate::record::{Day, Fate};
use crate::recording::dates::Dated;
use crate::recording::page::FieldChange;
use crate::recording::plants::which_piece;
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, by, words};
use crate::registry::{PlantOrRamet, PlantRow, Registry};
use std::collections::{BTreeMap, BTreeSet};

/// What ends of the losses on record, by plant.
#[derive(Default)]
pub(super) struct Found {
    /// What is changed on the record of each plant.
    pub changes: BTreeMap<PlantRow, Vec<FieldChange>>,
    /// What the row of each says of the loss, which leaves its record.
    pub notes: BTreeMap<PlantRow, String>,
    /// Those of a range that are gone: whoever names a range means those that are here.
    pub left_out: BTreeSet<PlantOrRamet>,
    /// What to look at, one sentence for each.
    pub remarks: Vec<Words>,
}

impl Found {
    /// Of those that were seen on a day, some of them named one by one.
    ///
    /// # Errors
    /// If one that was named died, was culled, sold or given away before, or every piece of it is gone and none is named.
    pub(super) fn of(
        registry: &Registry,
        seen: impl Iterator<Item = PlantOrRamet>,
        named: &BTreeSet<PlantOrRamet>,
        on: &Dated,
    ) -> Result<Self, Slip> {
        let mut found = Found::default();
        for one in seen {
            let piece = registry.ramet(one).and_then(|piece| piece.fate.as_ref());
            let fates = [piece, registry.fate(one.plant)].into_iter().flatten();
            let mut fates = fates.filter(|fate| is_past(registry, fate, on));
            if !named.contains(&one) {
                if let Some(fate) = fates.next_back() {
                    found.is_left_out(registry, one, fate);
                }
                continue;
            }
            for fate in fates.clone() {
                refused_unless_lost(registry, one, fate, on)?;
            }
            match fates.next_back() {
                Some(fate) => found.ends(registry, one, fate),
                None if found.ended_that_day(registry, one, on) => {}
                None if piece.is_none() && pieces_left(registry, one.plant, None).is_empty() => {
                    pieces_lost(registry, one, on)?;
                }
                None => {}
            }
        }
        Ok(found)
    }

    fn is_left_out(&mut self, registry: &Registry, one: PlantOrRamet, fate: &Fate) {
        let code = registry.code_of(one);
        let lost = match fate {
            Fate::Lost { .. } => "; if it was found, name it by itself",
            _ => "",
        };
        let fate = fate_words(fate);
        self.left_out.insert(one);
        self.remarks
            .push(format!("{code} is on record as {fate}: left out{lost}").into());
    }

    /// Says of one that came to its end on the very day on which it was seen that it stays so; false of any other.
    fn ended_that_day(&mut self, registry: &Registry, one: PlantOrRamet, on: &Dated) -> bool {
        let piece = registry.ramet(one).and_then(|piece| piece.fate.as_ref());
        let fates = [piece, registry.fate(one.plant)].into_iter().flatten();
        let mut fates = fates.filter(|fate| !matches!(fate, Fate::Lost { .. } | Fate::Elsewhere));
        let is_then = |fate: &&Fate| on.when.is_exact() && registry.when(fate.on()) == on.when;
        let Some(fate) = fates.find(is_then) else {
            return false;
        };
        self.remarks.push(
            format!(
                "{} is on record as {}, the same day, and stays so: if it is here, undo that entry",
                registry.code_of(one),
                fate_words(fate)
            )
            .into(),
        );
        true
    }

    /// Ends the loss of a plant with the pieces that were lost with it, or of a piece. The loss goes into the row of the
    /// stock-take, so that it stays on record.
    fn ends(&mut self, registry: &Registry, one: PlantOrRamet, loss: &Fate) {
        let with_it = |fate: &Fate| matches!(fate, Fate::Lost { on, .. } if *on == loss.on());
        let pieces = registry.each_ramet(one.plant).filter(|(of, piece)| {
            let lost = piece.fate.as_ref();
            match one.ramet {
                Some(_) => *of == one && lost.is_some(),
                None => lost.is_some_and(with_it),
            }
        });
        let mut changes: Vec<FieldChange> = pieces
            .map(|(_, piece)| FieldChange::of_piece(piece.code, FieldChange::Remove("fate")))
            .collect();
        let of_plant = self.changes.entry(one.plant).or_default();
        if registry.fate(one.plant).is_some() && of_plant.is_empty() {
            changes.push(FieldChange::Remove("fate"));
        }
        of_plant.extend(changes);
        let code = registry.code_of(one);
        let lost = fate_words(loss);
        let named = match one.ramet {
            Some(_) => format!("{code}: "),
            None => String::new(),
        };
        let note = self.notes.entry(one.plant).or_default();
        if !note.is_empty() {
            note.push_str("; ");
        }
        note.push_str(&format!("{named}{lost}, found again"));
        let again = format!("{code} was on record as {lost}; it is on record as here again");
        self.remarks.push(again.into());
    }
}

/// Whether a fate was past when the plant was seen: an entry for an earlier day says nothing against it.
fn is_past(registry: &Registry, fate: &Fate, on: &Dated) -> bool {
    let when = registry.when(fate.on());
    let seen = on.when.first;
    match fate {
        Fate::Elsewhere => true,
        // Missed some time in a month and seen in it counts as found; missed by a day, only from that day on.
        Fate::Lost { .. } if when.first != Day::FIRST => when.first <= seen,
        Fate::Lost { .. } => when.last == Day::LAST || when.last <= seen,
        _ => when.last == Day::LAST || when.last < seen,
    }
}

/// Refuses a plant that ended in another way than being lost.
fn refused_unless_lost(
    registry: &Registry,
    one: PlantOrRamet,
    fate: &Fate,
    on: &Dated,
) -> Result<(), Slip> {
    if matches!(fate, Fate::Lost { .. }) {
        return Ok(());
    }
    let code = registry.code_of(one);
    let page = match registry.cross_of(one.plant) {
        Some(cross) => format!("crosses/{}.ron", registry[cross].page.code),
        None => "clones.ron".to_owned(),
    };
    let if_it_is = match fate {
        Fate::Sold { .. } | Fate::Given { .. } => {
            words!("and it came back{}"; by(&format!("back {code}")))
        }
        Fate::Elsewhere => {
            words!("came to you, take its lineage in{}"; by("merge FOLDER"))
        }
        _ => Words::or(
            format!("correct `fate` in its record in {page}"),
            "undo its end under Record, or correct its record at the computer",
        ),
    };
    Err(Slip::contradicts(
        format!("{code} was seen on {}", on.text),
        format!("it is on record as {}", fate_words(fate)),
        words!(
            "look at its tag: is it another plant? Name those that you saw. If it is {code}, {}";
            if_it_is
        ),
    ))
}

/// Refuses a plant of which every piece is gone: which of them was seen?
fn pieces_lost(registry: &Registry, one: PlantOrRamet, on: &Dated) -> Result<(), Slip> {
    let gone = registry.each_ramet(one.plant).filter(|(_, piece)| {
        let fate = piece.fate.as_ref();
        fate.is_some_and(|fate| is_past(registry, fate, on))
    });
    let mut gone = gone.peekable();
    match gone.peek() {
        None => Ok(()),
        Some(_) => Err(which_piece(
            registry,
            gone,
            "every piece of it is on record as gone: name the one that was seen",
        )),
    }
}
