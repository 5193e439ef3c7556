//! An opinion on what a plant is, beside the name it came under.

use crate::naming::recorded::{later, unreadable};
use crate::record::{NameAs, When};
use crate::recording::draft::Draft;
use crate::recording::names::names_taken_in;
use crate::recording::page::FieldChange;
use crate::recording::plants::one_plant;
use crate::recording::recorded::{Recorded, Shown, What};
use crate::recording::slip::Slip;
use crate::recording::written::RonRecord;
use crate::registry::{PlantRow, Registry};
use crate::text::one_line;

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
        let on = draft.day(&self.on)?;
        let name = self.name.trim();
        if name.is_empty() {
            return Err(Slip::missing(
                "the name",
                "it in quotes, such as \"N. ventricosa\"",
            ));
        }
        let plant = one_plant(registry, &self.plant)?;
        let shown = self.shown(registry, plant, on.when);
        let remarks = match shown {
            Shown::AsTheOpinion => readable(draft, name)?,
            _ => Vec::new(),
        };
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
        let change = FieldChange::Push("identified", record.line());
        draft.change_plants(vec![(plant, vec![change])])?;
        let code = registry.code(plant);
        let what = What::Opinion {
            plant: code.clone(),
            name: name.to_owned(),
            accepted: self.accept,
            shown,
        };
        Ok(Recorded::of(what, vec![code], on.text).remarks(remarks))
    }

    /// Which name of the plant is shown once the opinion is on record.
    fn shown(&self, registry: &Registry, plant: PlantRow, on: When) -> Shown {
        match (self.accept, registry.founder(plant)) {
            (_, None) => Shown::ByParents,
            (true, Some(founder)) if founder.name_as == NameAs::Received => Shown::AsReceived,
            (true, Some(founder)) => match later(registry, founder, on) {
                Some(_) => Shown::AsALaterOne,
                None => Shown::AsTheOpinion,
            },
            (false, Some(_)) => Shown::AsBefore,
        }
    }
}

/// Takes in the names that the starter list knows, and refuses a name that would be shown as `?`.
fn readable(draft: &mut Draft, name: &str) -> Result<Vec<String>, Slip> {
    let remarks = names_taken_in(draft, name)?;
    match unreadable(draft.registry, name).filter(|_| remarks.is_empty()) {
        Some(refusal) => Err(Slip::contradicts(
            format!("`{}` was to be the name that is shown", one_line(name)),
            format!("it cannot be read: {}", refusal.text),
            "add the species to species.ron first, write the name another way, or leave out --accept",
        )),
        None => Ok(remarks),
    }
}
