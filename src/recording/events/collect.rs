//! Pollen: taken into an envelope, thawed, finished.

use crate::observation::sex::{SexSeen, sex_seen};
use crate::record::{Day, PollenLot, PollenPlace, Sex};
use crate::recording::codes::{given_or, next_envelope};
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::in_flower::open_then;
use crate::recording::page::FieldChange;
use crate::recording::plants::{here_then, kind_words, single};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, flower, words};
use crate::recording::written::{RonRecord, text};
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
        let on = draft.day(&self.on)?;
        let plant = single(registry, &self.plant)?;
        here_then(registry, plant, &on)?;
        let from = registry.code_of(plant);
        if sex_seen(registry, plant.plant) == SexSeen::Certain(Sex::Female) {
            return Err(Slip::contradicts(
                format!("pollen of {from} was collected"),
                "its open flowers were female",
                "only a male gives pollen; look at the tag, or correct the record of its flowers",
            ));
        }
        let remark = in_flower_or_not(registry, plant, &on)?;
        let last = Some(on.when.last).filter(|_| on.when.is_bounded());
        let day = last.unwrap_or(draft.today);
        let next = || next_envelope(registry, &registry.code(plant.plant), day);
        let envelope = given_or(registry, ("pollen lot", self.code.as_deref()), next)?;
        let record = RonRecord::new()
            .text("code", &envelope)
            .value("from", format!("plant({})", text(&from)))
            .text("collected", &on.text)
            .text_if("dried", self.dried.as_ref())
            .value_if("stored", self.stored)
            .text_if("note", self.note.as_ref());
        draft.pollen()?.append("lots", &[record.line()])?;
        let about = vec![envelope.clone(), from.clone()];
        let what = What::Collected {
            envelope: envelope.clone(),
            from,
        };
        let recorded = Recorded::of(what, about, on.text).tag(envelope, "envelope");
        Ok(recorded.remarks(remark))
    }
}

/// Refuses a day on which the flowers on record were not open; says so when none are on record for it.
fn in_flower_or_not(
    registry: &Registry,
    from: PlantOrRamet,
    on: &Dated,
) -> Result<Option<Words>, Slip> {
    let plant = registry.code_of(from);
    let done = format!("pollen of {plant} was collected {}", at_date(&on.text));
    let remark = open_then(registry, from, (None, on.when), done, false)?;
    Ok(match registry.flowerings(from.plant).is_empty() {
        true => Some(words!(
            "No flowers of {plant} are on record, and only a male gives pollen; record them: {}";
            flower(&plant, " --sex male")
        )),
        false => remark,
    })
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
        let on = draft.day(&self.on)?;
        let lot = &registry[envelope(registry, &self.code)?];
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
        let (change, not_frozen) = match self.what {
            EnvelopeEvent::Thawed => (
                FieldChange::Push("thawed", text(&on.text)),
                thawed(registry, lot, &on)?,
            ),
            EnvelopeEvent::Finished => (FieldChange::Set("finished", text(&on.text)), None),
        };
        let code = lot.code.to_owned();
        draft
            .pollen()?
            .change("lots", "code", &[(code.clone(), vec![change])])?;
        let about = vec![code.clone()];
        let what = What::Envelope {
            envelope: code,
            finished: self.what == EnvelopeEvent::Finished,
        };
        Ok(Recorded::of(what, about, on.text).remarks(not_frozen))
    }
}

/// Refuses a second thaw of a day, and of what is kept in the fridge; what to say of what is not on record as frozen.
fn thawed(registry: &Registry, lot: &PollenLot, on: &Dated) -> Result<Option<String>, Slip> {
    let code = lot.code;
    let mut days = lot.thawed.iter().map(|day| registry.when(day));
    if days.any(|day| day == on.when) {
        let day = at_date(&on.text);
        return Err(Slip::nothing(format!(
            "{code} is on record as thawed {day} already"
        )));
    }
    match lot.stored {
        Some(PollenPlace::Fridge) => Err(Slip::contradicts(
            format!("{code} was to be thawed"),
            "its record says it is kept in the fridge, not in the freezer",
            "name another envelope, or correct `stored` of this one in pollen.ron",
        )),
        // Pollen that dried at room temperature may have gone into the freezer since.
        Some(PollenPlace::Room) => Ok(Some(format!(
            "{code} is on record as kept at room temperature; if it was frozen, correct `stored` in pollen.ron"
        ))),
        _ => Ok(None),
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
