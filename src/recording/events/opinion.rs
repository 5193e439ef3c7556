//! An opinion on what a plant is, beside the name it came under.

use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::plants;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::written::RonRecord;

/// An opinion.
#[derive(Clone, Debug, Default)]
pub struct Opinion {
    /// The plant.
    pub plant: String,
    /// The name, as on a label.
    pub name: String,
    /// By whom: "me" or a role.
    pub by: Option<String>,
    /// What it is based on, in words.
    pub basis: Option<String>,
    /// How it is known: a word of the files.
    pub known_by: Option<&'static str>,
    /// Whether it is the name shown from now on.
    pub accept: bool,
    /// When; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl Opinion {
    /// Writes the opinion.
    ///
    /// # Errors
    /// If the plant is unknown, or there is no name.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let name = self.name.trim();
        if name.is_empty() {
            return Err(Slip::Missing {
                what: "the name",
                option: "it in quotes, such as \"N. ventricosa\"",
            });
        }
        let plant = plants(registry, std::slice::from_ref(&self.plant))?;
        let record = RonRecord::new()
            .text("on", &on.text)
            .text("name", name)
            .text_if("by", self.by.as_ref())
            .text_if("basis", self.basis.as_ref())
            .value_if("confidence", self.known_by)
            .value_if("accepted", self.accept.then_some("true"))
            .text_if("note", self.note.as_ref());
        if self.basis.is_some() {
            draft.second_form()?;
        }
        let changes = plant
            .iter()
            .map(|&plant| (plant, vec![FieldChange::Push("identified", record.line())]));
        draft.change_plants(changes.collect())?;
        let codes: Vec<String> = plant.iter().map(|&plant| registry.code(plant)).collect();
        Ok(Recorded {
            remarks: Vec::new(),
            what: What::Opinion {
                plant: codes.join(", "),
                name: name.to_owned(),
                accepted: self.accept,
            },
            about: codes,
            tags: Vec::new(),
        })
    }
}
