//! Pollen arrives from another grower: an envelope, and the plant it is of, which stays where it is.

use crate::observation::presence::{Presence, presence};
use crate::record::Day;
use crate::recording::codes::{free_founder_code, given_or, next_envelope, reads_as_another};
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::names::names_taken_in;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::written::{RonRecord, text};
use crate::registry::{PlantRow, Registry};

/// Pollen that came.
#[derive(Clone, Debug, Default)]
pub struct AddPollen {
    /// The code of the plant it is of: one on record, or a new one; the next free one of its species if not given.
    pub plant: Option<String>,
    /// The name the pollen came under, letter by letter; none for that of a plant on record.
    pub name: Option<String>,
    /// The envelope's code; made of the plant's and the month if not given.
    pub code: Option<String>,
    /// Whom it came from; private.
    pub from: Option<String>,
    /// When it was collected, if that is known.
    pub collected: Option<String>,
    /// How it was dried.
    pub dried: Option<String>,
    /// Where it is kept: a word of the files; not recorded if not given.
    pub stored: Option<&'static str>,
    /// When it came; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl AddPollen {
    /// Writes the envelope, and of a new plant the record of one that stands with another grower.
    ///
    /// # Errors
    /// If the plant is here, a code is taken, there is no name, or the pollen came before it was collected.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let collected = self.collected(draft, &on)?;
        let known = self.plant.as_deref().and_then(|code| registry.plant(code));
        let (plant, name, mut remarks) = match known {
            Some(plant) => (self.known(registry, plant, draft)?, None, Vec::new()),
            None => self.begin(draft)?,
        };
        let next = || next_envelope(registry, &plant, on.day());
        let envelope = given_or(registry, ("pollen lot", self.code.as_deref()), next)?;
        let mut note = format!("came {}", on.text);
        note.extend(self.from.iter().map(|from| format!(" from {from}")));
        note.extend(self.note.iter().map(|more| format!("; {more}")));
        let record = RonRecord::new()
            .text("code", &envelope)
            .value("from", format!("plant({})", text(&plant)))
            .text_if("collected", collected)
            .text_if("dried", self.dried.as_ref())
            .value_if("stored", self.stored)
            .text("note", &note);
        draft.pollen()?.append("lots", &[record.line()])?;
        if known.is_none() {
            remarks.push(format!(
                "{plant} is on record as a plant that never stood here; what it is comes from the label of its pollen, a claim"
            ));
        }
        let about = vec![envelope.clone(), plant.clone()];
        let what = What::PollenArrived {
            envelope: envelope.clone(),
            plant,
            name,
        };
        let recorded = Recorded::of(what, about, on.text).tag(envelope, "envelope");
        Ok(recorded.remarks(remarks))
    }

    /// When it was collected: the day, if that is known, else up to the day it came; not after it.
    fn collected(&self, draft: &Draft, on: &Dated) -> Result<Option<String>, Slip> {
        let Some(day) = self.collected.as_deref() else {
            let came = on.when.last;
            return Ok((came != Day::LAST).then(|| format!("by {came}")));
        };
        let collected = dated(draft.registry, "--collected", Some(day), draft.today)?;
        match on.when.surely_before(collected.when) {
            false => Ok(Some(collected.text)),
            true => Err(Slip::contradicts(
                format!("pollen came on {}", on.text),
                format!("it is to have been collected on {}", collected.text),
                "give the day it came with --on, or another one with --collected",
            )),
        }
    }

    /// The code of a plant on record of which more pollen came.
    fn known(&self, registry: &Registry, plant: PlantRow, draft: &Draft) -> Result<String, Slip> {
        let code = registry.code(plant);
        if self.name.is_some() {
            return Err(Slip::taken("plant", &code));
        }
        match presence(registry, plant, draft.today) {
            Presence::Here => Err(Slip::contradicts(
                format!("pollen of {code} came"),
                format!("{code} stands here"),
                format!(
                    "if it was taken here: podbook collect {code}; else give the plant it is of a code of its own, with its name"
                ),
            )),
            _ => Ok(code),
        }
    }

    /// Writes the record of a plant that is not on record: one that stands with another grower, by the label of its pollen.
    fn begin(&self, draft: &mut Draft) -> Result<(String, Option<String>, Vec<String>), Slip> {
        let registry = draft.registry;
        // One word is a name where it is no code on record.
        let (code, name) = match (&self.plant, &self.name) {
            (code, Some(name)) => (code.as_deref(), name.trim()),
            (Some(name), None) => (None, name.trim()),
            (None, None) => (None, ""),
        };
        if name.is_empty() {
            return Err(Slip::missing(
                "the name the pollen came under",
                "it in quotes, such as \"N. ventricosa\"; write \"?\" when there was no label",
            ));
        }
        let code = given_or(registry, ("plant", code), || {
            free_founder_code(registry, name)
        })?;
        let record = RonRecord::new()
            .text("code", &code)
            .text("received", name)
            .text_if("from", self.from.as_ref())
            .value("confidence", "claim")
            // Only a male gives pollen; its flowers were seen by others.
            .value("flowerings", "[(sex: male, seen_by: unsaid)]")
            .value("fate", "elsewhere");
        let mut remarks = names_taken_in(draft, name)?;
        remarks.extend(reads_as_another(registry, &code));
        draft.clones()?.append("clones", &[record.line()])?;
        Ok((code, Some(name.to_owned()), remarks))
    }
}
