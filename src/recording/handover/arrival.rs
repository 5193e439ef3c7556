//! How the plant that was handed over stands here once its lineage is taken in, and in which words that is answered.

use super::records::ramet;
use super::take_in::{Keep, TakeIn, Taken};
use crate::observation::presence::{Presence, presence};
use crate::observation::standing::departed;
use crate::record::Fate;
use crate::recording::codes::is_free;
use crate::recording::draft::Draft;
use crate::recording::recorded::{Recorded, Tag, What, new_records};
use crate::recording::voice::Words;
use crate::recording::written::RonRecord;
use crate::registry::{PlantOrRamet, PlantRow, Registry};

/// How it stands here.
#[derive(Clone, Copy)]
enum Came<'w> {
    /// It does not, for this reason.
    Not(&'w str),
    /// A piece of it comes to the grower's own plant.
    Home,
    /// It is the grower's own plant, which stood here before.
    Own,
    /// In the collection, as told.
    Told,
}

impl TakeIn<'_, '_> {
    /// What is on record of the plant or piece that comes, where that says it is not here and this stays so: the fate of a plant
    /// that was here, and the pieces of a plant of one's own, are not changed by what another grower tells.
    pub(super) fn stays_gone(&self, draft: &Draft, code: &str) -> Option<String> {
        let ours = draft.registry;
        let plant = ours.plant(code)?;
        let came = self.theirs.ramet(PlantOrRamet {
            plant: self.plant,
            ramet: self.piece,
        });
        let Some(came) = came else {
            let left = presence(ours, plant, draft.today);
            let left = matches!(left, Presence::Gone | Presence::LetGo);
            let status = || departed(ours, plant, None, draft.today);
            let status = left.then(status).flatten();
            return status.map(|status| format!("{code} is on record here as {status}"));
        };
        let piece = format!("{code}-{}", came.code);
        let known = ours.ramets(plant).iter().find(|of| of.code == came.code);
        match known {
            Some(known) if !matches!(ours.fate(plant), Some(Fate::Elsewhere)) => {
                departed(ours, plant, Some(known), draft.today)
                    .map(|status| format!("{piece} is on record here as {status}"))
            }
            None if is_own(ours, plant) && self.comes_home(ours, code).is_none() => Some(format!(
                "{code} is your own plant, and no piece {} of it is on record here",
                came.code
            )),
            _ => None,
        }
    }

    /// The record of a piece that comes to the grower's own plant: it was cut from one that was handed on, whose new owner
    /// says so.
    pub(super) fn comes_home(&self, ours: &Registry, code: &str) -> Option<RonRecord> {
        let plant = ours.plant(code).filter(|of| is_own(ours, *of))?;
        let came = self.theirs.ramet(PlantOrRamet {
            plant: self.plant,
            ramet: self.piece,
        })?;
        let pieces = ours.ramets(plant);
        let source = pieces.iter().find(|of| Some(of.code) == came.from)?;
        let was_handed_on = matches!(source.fate, Some(Fate::Sold { .. } | Fate::Given { .. }));
        let is_new = is_free(ours, &format!("{code}-{}", came.code)).is_ok();
        let comes = was_handed_on && is_new && ours.fate(plant).is_none();
        let by = format!("as told by the registry {}", self.by);
        comes.then(|| ramet(came).text("note", &by))
    }

    /// The answer.
    pub(super) fn recorded(
        &self,
        ours: &Registry,
        (here, gone): (String, Option<String>),
        taken: Taken,
    ) -> Recorded {
        let came = PlantOrRamet {
            plant: self.plant,
            ramet: self.piece,
        };
        let piece = self.theirs.ramet(came).map(|piece| piece.code);
        let tag = piece.map_or_else(|| here.clone(), |piece| format!("{here}-{piece}"));
        let own = ours.plant(&here).filter(|of| is_own(ours, *of));
        let how = match (&gone, own, self.comes_home(ours, &here)) {
            (Some(gone), ..) => Came::Not(gone),
            (None, _, Some(_)) => Came::Home,
            (None, Some(_), None) => Came::Own,
            (None, None, None) => Came::Told,
        };
        let stays = match self.keep {
            Keep::Theirs => "in the lineage",
            _ => "here",
        };
        let settled = taken.settled.iter();
        let mut remarks: Vec<String> = settled
            .map(|what| format!("What is {stays} stays: {what}"))
            .collect();
        remarks.extend(gone.is_some().then(|| Self::how_back(&here)));
        Recorded {
            what: What::InWords(self.in_words((&here, &tag), how, &taken)),
            on: String::new(),
            about: vec![here],
            tags: match how {
                Came::Not(_) | Came::Own => Vec::new(),
                Came::Home | Came::Told => vec![Tag {
                    code: tag,
                    on: "tag",
                }],
            },
            remarks: Words::all(remarks),
        }
    }

    /// What came, in one sentence.
    fn in_words(&self, (here, tag): (&str, &str), came: Came, taken: &Taken) -> String {
        let there = self.theirs.code(self.plant);
        let same = match here == there {
            true => String::new(),
            false => format!(" ({there} there)"),
        };
        let new = new_records(taken.founders, taken.seedlings, taken.crosses);
        let new = new.unwrap_or_else(|| match taken.changed {
            true => "what its lineage says anew is on record now".to_owned(),
            false => "the rest of its lineage was on record already".to_owned(),
        });
        match came {
            Came::Not(gone) => format!(
                "{here}{same}: not taken into the collection, since {gone}; the rest of its lineage is on record as told by the registry {}; {new}",
                self.by
            ),
            Came::Home => format!(
                "{tag}: in the collection, a piece of your own plant, as told by the registry {}; {new}",
                self.by
            ),
            Came::Own => format!(
                "{here}{same}: your own plant stays as you recorded it; the rest of its lineage is on record as told by the registry {}; {new}",
                self.by
            ),
            Came::Told => format!(
                "{here}{same}: in the collection, with its lineage as told by the registry {}; {new}",
                self.by
            ),
        }
    }

    /// How a plant that came back is on record as here again.
    pub(super) fn how_back(code: &str) -> String {
        format!("If it is back: podbook back {code}; a new piece of it: podbook cutting")
    }
}

/// Whether a plant that is on record is the grower's own, and not as another one told of it.
fn is_own(ours: &Registry, plant: PlantRow) -> bool {
    ours.told_by(plant).is_none()
}
