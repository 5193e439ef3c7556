//! Marking plants to keep, with the reason.

use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{present, whole_plants};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::written::RonRecord;
use crate::registry::PlantRow;

/// A decision to keep plants.
#[derive(Clone, Debug, Default)]
pub struct Keep {
    /// Lists of plants.
    pub plants: Vec<String>,
    /// Why.
    pub why: Option<String>,
    /// When it was decided; today if not given.
    pub on: Option<String>,
}

impl Keep {
    /// Marks the plants.
    ///
    /// # Errors
    /// If a plant is unknown or no longer here, or all of them bear a mark already.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let present = present(registry, &self.plants, (draft.today, &on))?;
        whole_plants(registry, &present)?;
        let wanted = present.plants();
        let why = self.why.clone();
        let marks = wanted.iter().map(|&plant| (plant, why.clone())).collect();
        let recorded = mark(draft, &on.text, marks)?;
        Ok(Recorded {
            remarks: present.remarks(),
            ..recorded
        })
    }
}

/// Marks plants, each with its reason; those marked already are left as they are.
///
/// # Errors
/// If all of them bear a mark, or a page cannot be changed.
pub fn mark(
    draft: &mut Draft,
    on: &str,
    marks: Vec<(PlantRow, Option<String>)>,
) -> Result<Recorded, Slip> {
    let registry = draft.registry;
    let all = marks.len();
    let new: Vec<_> = marks
        .into_iter()
        .filter(|(plant, _)| registry.kept(*plant).is_none())
        .collect();
    let codes: Vec<String> = new.iter().map(|(plant, _)| registry.code(*plant)).collect();
    if codes.is_empty() {
        return Err(Slip::NothingToChange(
            "every plant named is marked to keep already".to_owned(),
        ));
    }
    let changes = new.into_iter().map(|(plant, why)| {
        let mark = RonRecord::new().text("on", on).text_if("why", why);
        (plant, vec![FieldChange::Set("kept", mark.line())])
    });
    draft.change_plants(changes.collect())?;
    Ok(Recorded {
        about: codes.clone(),
        tags: Vec::new(),
        remarks: Vec::new(),
        what: What::Kept {
            before: all - codes.len(),
            plants: codes,
        },
    })
}
