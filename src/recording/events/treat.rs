//! A treatment of plants or of a place: what, where, when and against what; never how much.

use crate::recording::at_place::{near, plants_at};
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{present, whole_plants};
use crate::recording::recorded::{Recorded, Remark, What};
use crate::recording::slip::Slip;
use crate::recording::written::RonRecord;

/// A treatment.
#[derive(Clone, Debug, Default)]
pub struct Treat {
    /// Lists of plants; none for a whole place.
    pub plants: Vec<String>,
    /// The place whose plants were treated.
    pub place: Option<String>,
    /// The product and its registration number.
    pub product: String,
    /// Against what.
    pub against: Option<String>,
    /// By whom: "me" or a role.
    pub by: Option<String>,
    /// When; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl Treat {
    /// Writes the treatment on the plants, or in `registry.ron` for a place.
    ///
    /// # Errors
    /// If it is not said what was treated, or a dose is given.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        for words in [
            Some(&self.product),
            self.against.as_ref(),
            self.note.as_ref(),
        ]
        .into_iter()
        .flatten()
        {
            if names_a_dose(words) {
                return Err(Slip::Contradicts {
                    asked: format!("`{words}` names an amount"),
                    recorded: "podbook keeps no doses".to_owned(),
                    help: "name the product and its registration number only; follow the product's label".to_owned(),
                });
            }
        }
        if self.product.trim().is_empty() {
            return Err(Slip::Missing {
                what: "the product",
                option: "it in quotes, with its registration number",
            });
        }
        let record = RonRecord::new()
            .text("on", &on.text)
            .text_if(
                "place",
                self.place.as_ref().filter(|_| self.plants.is_empty()),
            )
            .text("product", self.product.trim())
            .text_if("against", self.against.as_ref())
            .text_if("by", self.by.as_ref())
            .text_if("note", self.note.as_ref());
        let mut remarks = Vec::new();
        let mut plants = None;
        let (about, treated) = match (&self.place, self.plants.is_empty()) {
            (Some(place), true) => {
                draft.settings()?.append("treatments", &[record.line()])?;
                let there = plants_at(registry, place, draft.today);
                plants = Some(there.map_or(0, |there| there.len()));
                if plants == Some(0) {
                    let near = near(registry, place, draft.today);
                    let place = place.clone();
                    remarks.push(Remark::NoPlantThere { place, near });
                }
                (Vec::new(), vec![place.clone()])
            }
            (None, false) => {
                let present = present(registry, &self.plants, (draft.today, &on))?;
                whole_plants(registry, &present)?;
                let wanted = present.plants();
                remarks = present.remarks();
                let push =
                    |&plant: &_| (plant, vec![FieldChange::Push("treatments", record.line())]);
                draft.change_plants(wanted.iter().map(push).collect())?;
                let codes: Vec<String> = wanted.iter().map(|&plant| registry.code(plant)).collect();
                (codes.clone(), codes)
            }
            _ => {
                return Err(Slip::Missing {
                    what: "what was treated",
                    option: "either plants or --place, such as --place \"shelf 1\"",
                });
            }
        };
        draft.second_form()?;
        Ok(Recorded {
            about,
            tags: Vec::new(),
            remarks,
            what: What::Treated {
                treated,
                plants,
                product: self.product.trim().to_owned(),
                on: on.text,
            },
        })
    }
}

/// Whether words hold a number with a unit of volume, weight or share right after it.
fn names_a_dose(words: &str) -> bool {
    const UNITS: [&str; 14] = [
        "%", "‰", "ml", "l", "cl", "g", "mg", "kg", "ppm", "oz", "tsp", "tbsp", "drop", "drops",
    ];
    let lower = words.to_lowercase();
    let mut rest = lower.as_str();
    while let Some(at) = rest.find(|c: char| c.is_ascii_digit()) {
        rest = &rest[at..];
        let end = rest
            .find(|c: char| !(c.is_ascii_digit() || ".,/".contains(c)))
            .unwrap_or(rest.len());
        rest = &rest[end..];
        let after = rest.trim_start();
        let unit = after
            .find(|c: char| !(c.is_alphabetic() || "%‰".contains(c)))
            .unwrap_or(after.len());
        if UNITS.contains(&&after[..unit]) {
            return true;
        }
    }
    false
}
