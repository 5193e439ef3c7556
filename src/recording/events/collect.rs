//! Pollen: taken into an envelope, thawed, finished.

use crate::observation::sex::{SexSeen, sex_seen};
use crate::record::{Day, PollenPlace, Sex};
use crate::recording::codes::{can_be_given, next_envelope};
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::in_flower::{InFlower, in_flower, no_spike};
use crate::recording::page::FieldChange;
use crate::recording::plants::{here, kind_words, not_before, single};
use crate::recording::recorded::{Recorded, Tag, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, day, flower, words};
use crate::recording::written::{RonRecord, text};
use crate::registry::ids::is_new_code;
use crate::registry::{PlantOrRamet, PollenRow, Registry, Target};
use crate::wording::at_date;

/// Pollen taken into an envelope.
#[derive(Clone, Debug, Default)]
pub struct Collect {
    /// The plant, or the piece that flowers.
    pub plant: String,
    /// The envelope's code; made of the plant's and the month if not given.
    pub code: Option<String>,
    /// Where it is kept: a word of the files; not recorded if not given.
    pub stored: Option<&'static str>,
    /// How it was dried.
    pub dried: Option<String>,
    /// When; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl Collect {
    /// Writes the envelope.
    ///
    /// # Errors
    /// If the plant is no longer here, its flowers were female or not open that day, or the code is taken.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let plant = single(registry, &self.plant)?;
        here(registry, plant, on.day(draft.today))?;
        not_before(registry, plant, &on)?;
        let from = registry.code_of(plant);
        if sex_seen(registry, plant.plant) == SexSeen::Certain(Sex::Female) {
            return Err(Slip::contradicts(
                format!("pollen of {from} was collected"),
                "its open flowers were female",
                "only a male gives pollen; look at the tag, or correct the record of its flowers",
            ));
        }
        let remark = in_flower_or_not(registry, plant, &on)?;
        let envelope = match &self.code {
            Some(code) if !is_new_code(code) => {
                return Err(Slip::BadCode("pollen lot", code.clone()));
            }
            Some(code) => can_be_given(registry, code).map(|()| code.clone())?,
            None => {
                let day = if on.when.is_bounded() {
                    on.when.last
                } else {
                    draft.today
                };
                next_envelope(registry, &registry.code(plant.plant), day)
            }
        };
        let record = RonRecord::new()
            .text("code", &envelope)
            .value("from", format!("plant({})", text(&from)))
            .text("collected", &on.text)
            .text_if("dried", self.dried.as_ref())
            .value_if("stored", self.stored)
            .text_if("note", self.note.as_ref());
        draft.pollen()?.append("lots", &[record.line()])?;
        Ok(Recorded {
            about: vec![envelope.clone(), from.clone()],
            tags: vec![Tag {
                code: envelope.clone(),
                on: "envelope",
            }],
            remarks: remark.into_iter().collect(),
            what: What::Collected {
                envelope,
                from,
                on: on.text,
            },
        })
    }
}

/// Refuses a day on which the flowers on record were not open; says so when none are on record for it.
fn in_flower_or_not(
    registry: &Registry,
    from: PlantOrRamet,
    on: &Dated,
) -> Result<Option<Words>, Slip> {
    let plant = registry.code_of(from);
    match in_flower(registry, from, None, on.when) {
        InFlower::Open => Ok(None),
        InFlower::NotOnRecord if registry.flowerings(from.plant).is_empty() => Ok(Some(words!(
            "No flowers of {plant} are on record, and only a male gives pollen; record them: {}";
            flower(&plant, " --sex male")
        ))),
        InFlower::NotOnRecord => Ok(Some(no_spike(&plant))),
        InFlower::Closed(recorded) => Err(Slip::contradicts(
            format!("pollen of {plant} was collected {}", at_date(&on.text)),
            recorded,
            words!(
                "give the day with {}, or record the flowers first: {}";
                day(),
                flower(&plant, " --opened DATE")
            ),
        )),
    }
}

/// What happens to an envelope after it was filled.
#[derive(Clone, Debug)]
pub struct Envelope {
    /// Its code.
    pub code: String,
    /// What happened.
    pub what: EnvelopeEvent,
    /// When; today if not given.
    pub on: Option<String>,
}

/// A thaw, or the end.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum EnvelopeEvent {
    /// Thawed.
    Thawed,
    /// Used up or thrown out.
    Finished,
}

impl Envelope {
    /// Writes it on the envelope's record.
    ///
    /// # Errors
    /// If the envelope is unknown or finished, or it happened before the pollen was collected.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let lot = envelope(registry, &self.code)?;
        let lot = &registry[lot];
        if let Some(finished) = lot.finished {
            return Err(Slip::contradicts(
                format!("{} was named", lot.code),
                format!("the envelope has been finished since {finished}"),
                "name another envelope, or correct its record",
            ));
        }
        if let Some(collected) = lot.collected
            && on.when.surely_before(registry.when(collected))
            && registry.when(collected).first != Day::FIRST
        {
            return Err(Slip::contradicts(
                format!("{} is dated {}", lot.code, on.text),
                format!("its pollen was collected {}", at_date(collected)),
                "give a later date with --on",
            ));
        }
        let is_same_day = |day: &&str| registry.when(day) == on.when;
        if self.what == EnvelopeEvent::Thawed && lot.thawed.iter().any(|day| is_same_day(&&**day)) {
            return Err(Slip::nothing(format!(
                "{} is on record as thawed {} already",
                lot.code,
                at_date(&on.text)
            )));
        }
        let stored = lot.stored.filter(|_| self.what == EnvelopeEvent::Thawed);
        if stored == Some(PollenPlace::Fridge) {
            return Err(Slip::contradicts(
                format!("{} was to be thawed", lot.code),
                "its record says it is kept in the fridge, not in the freezer",
                "name another envelope, or correct `stored` of this one in pollen.ron",
            ));
        }
        // Pollen that dried at room temperature may have gone into the freezer since.
        let not_frozen = stored.filter(|place| *place == PollenPlace::Room);
        let not_frozen = not_frozen.map(|_| {
            format!(
                "{} is on record as kept at room temperature; if it was frozen, correct `stored` in pollen.ron",
                lot.code
            )
        });
        let change = match self.what {
            EnvelopeEvent::Thawed => FieldChange::Push("thawed", text(&on.text)),
            EnvelopeEvent::Finished => FieldChange::Set("finished", text(&on.text)),
        };
        let code = lot.code.to_owned();
        draft
            .pollen()?
            .change("lots", "code", &[(code.clone(), vec![change])])?;
        Ok(Recorded {
            about: vec![code.clone()],
            tags: Vec::new(),
            remarks: Words::all(not_frozen),
            what: What::Envelope {
                envelope: code,
                finished: self.what == EnvelopeEvent::Finished,
                on: on.text,
            },
        })
    }
}

fn envelope(registry: &Registry, typed: &str) -> Result<PollenRow, Slip> {
    match registry.target(typed) {
        Some(Target::Pollen(lot)) => Ok(lot),
        Some(other) => Err(Slip::wrong_kind(
            typed,
            kind_words(other),
            "an envelope of pollen, such as Spa1-2404",
        )),
        None => {
            let codes = registry.pollen.iter().map(|lot| lot.code);
            let near = crate::text::nearest(typed, codes).into_iter();
            let near = near.map(str::to_owned).collect();
            Err(Slip::unknown(registry, "pollen lot", typed, near))
        }
    }
}
