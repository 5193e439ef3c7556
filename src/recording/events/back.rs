//! Plants and pieces that were sold or given away and are here again. How they left stays on record.

use crate::observation::places::places;
use crate::observation::standing::fate_words;
use crate::record::{Day, Fate};
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::ending::{ended_with, fate_record};
use crate::recording::page::{At, FieldChange, Within};
use crate::recording::plants::named;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, day, words};
use crate::recording::written::RonRecord;
use crate::registry::{PlantOrRamet, PlantRow, Registry};
use crate::wording::at_date;

/// Plants that came back.
#[derive(Clone, Debug, Default)]
pub struct Back {
    /// Lists of plants and pieces.
    pub plants: Vec<String>,
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
    /// and only a piece is named.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let wanted = named(registry, &self.plants)?;
        let mut changes: Vec<(PlantRow, Vec<FieldChange>)> = Vec::new();
        let mut left = Vec::new();
        for one in &wanted {
            let fate = left_by(registry, *one, &on)?;
            changes.push((one.plant, self.changes(registry, *one, fate, &on)));
            let code = registry.code_of(*one);
            left.push(format!("{code} had been {}", fate_words(fate)).into());
        }
        draft.change_plants(changes)?;
        draft.second_form()?;
        let codes: Vec<String> = wanted.iter().map(|one| registry.code_of(*one)).collect();
        Ok(Recorded {
            about: codes.clone(),
            tags: Vec::new(),
            remarks: [left, stands(registry, &wanted, draft.today)].concat(),
            what: What::CameBack {
                plants: codes,
                on: on.text,
            },
        })
    }

    /// Takes the fate off a piece, or off a plant and the pieces that left with it.
    fn changes(
        &self,
        registry: &Registry,
        one: PlantOrRamet,
        fate: &Fate,
        on: &Dated,
    ) -> Vec<FieldChange> {
        let back = RonRecord::new()
            .value("left", fate_record(fate))
            .text("on", &on.text)
            .text_if("note", self.note.as_ref());
        let own = vec![
            FieldChange::Push("came_back", back.line()),
            FieldChange::Remove("fate"),
        ];
        let within = |code: &str, changes| {
            FieldChange::Within(Within {
                list: "ramets",
                at: At::Key("code", code.to_owned()),
                changes,
            })
        };
        if let Some(piece) = registry.ramet(one) {
            return vec![within(piece.code, own)];
        }
        let with_it = ended_with(registry, one.plant, fate);
        let pieces = with_it.map(|piece| within(piece.code, vec![FieldChange::Remove("fate")]));
        own.into_iter().chain(pieces).collect()
    }
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
            "{code} is on record as here\nof a plant whose pieces left, name the piece that came back"
        )));
    };
    let contradicts = |recorded: String, help: Words| {
        Slip::contradicts(
            format!("{code} came back {}", at_date(&on.text)),
            recorded,
            help,
        )
    };
    match fate {
        Fate::Sold { .. } | Fate::Given { .. } => {}
        Fate::Lost { .. } => {
            let help = Words::or(
                format!("if it was found, record that you saw it: podbook seen {code}"),
                "if it was found, record at the computer that you saw it",
            );
            return Err(contradicts(
                format!("it is on record as {}", fate_words(fate)),
                help,
            ));
        }
        _ => {
            let help = words!(
                "look at its tag: is it another plant? If it is {code}, correct {}its record";
                Words::or("`fate` in ", "")
            );
            return Err(contradicts(
                format!("it is on record as {}", fate_words(fate)),
                help,
            ));
        }
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
        return Err(contradicts(
            format!("it is on record as {}", fate_words(fate)),
            words!(
                "give a later day with {}, or correct {}";
                day(), Words::or("`fate` in its record", "its record")
            ),
        ));
    }
    Ok(fate)
}

/// Where the record puts each that came back: it was written before it left.
fn stands(registry: &Registry, wanted: &[PlantOrRamet], today: Day) -> Vec<Words> {
    let of = |one: &PlantOrRamet| {
        let piece = registry
            .ramet(*one)
            .and_then(|piece| piece.place.as_deref());
        let place = match piece {
            Some(place) => place,
            None => places(registry, one.plant, today).first().copied()?,
        };
        let code = registry.code_of(*one);
        Some(Words::or(
            format!(
                "Its place on record is {place}; if it stands elsewhere now: podbook move {code} PLACE"
            ),
            format!(
                "Its place on record is {place}; if it stands elsewhere now, record that at the computer"
            ),
        ))
    };
    wanted.iter().filter_map(of).collect()
}
