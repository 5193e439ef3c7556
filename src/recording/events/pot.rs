//! Plants potted on, with the place they stand at.

use crate::record::{Length, Potting};
use crate::recording::dates::dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{present, whole_plants};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::written::{RonRecord, text};
use crate::wording::at_date;

/// A potting on.
#[derive(Clone, Debug, Default)]
pub struct Pot {
    /// Lists of plants.
    pub plants: Vec<String>,
    /// Inside width with its unit.
    pub width: String,
    /// Where they stand now.
    pub place: Option<String>,
    /// When; today if not given.
    pub on: Option<String>,
}

impl Pot {
    /// Writes the potting on each plant.
    ///
    /// # Errors
    /// If the width has no unit, or a plant is no longer here.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let width = pot_width(&self.width)?;
        let present = present(registry, &self.plants, (on.day(draft.today), &on))?;
        whole_plants(registry, &present)?;
        let wanted = present.plants();
        let same = |of: &Potting| {
            *of.pot == *width && of.on == on.text && of.place.as_deref() == self.place.as_deref()
        };
        let twice = wanted
            .iter()
            .find(|&&plant| registry.pots(plant).iter().any(same));
        if let Some(&plant) = twice {
            return Err(Slip::Contradicts {
                asked: format!("{} was potted {}", registry.code(plant), at_date(&on.text)),
                recorded: format!("a pot of {width} is on record for it on that day"),
                help: "nothing is to be entered again; if others were potted too, name only those"
                    .to_owned(),
            });
        }
        let potting = RonRecord::new()
            .text("on", &on.text)
            .text("pot", &width)
            .text_if("place", self.place.as_ref())
            .line();
        let changes = wanted.iter().map(|&plant| {
            let mut changes = vec![FieldChange::Push("pots", potting.clone())];
            // A seedling's own place would contradict the new one.
            let seedling = registry.cross_of(plant).is_some();
            if let Some(place) = self.place.as_ref().filter(|_| seedling) {
                changes.push(FieldChange::Set("place", text(place)));
            }
            (plant, changes)
        });
        draft.change_plants(changes.collect())?;
        let plants: Vec<String> = wanted.iter().map(|&plant| registry.code(plant)).collect();
        Ok(Recorded {
            about: plants.clone(),
            tags: Vec::new(),
            remarks: present.remarks(),
            what: What::Potted {
                plants,
                pot: width,
                place: self.place.clone(),
                on: on.text,
            },
        })
    }
}

/// The width of a pot with a blank before its unit: `7cm` is `7 cm`.
///
/// # Errors
/// If it is no length above zero, or has no unit.
pub fn pot_width(typed: &str) -> Result<String, Slip> {
    let needed = || Slip::BadNumber {
        option: "the pot",
        typed: typed.to_owned(),
        needed: "its inside width with a unit, such as 7cm, 2.5 cm or 3in",
    };
    let length = Length::read(typed).map_err(|_| needed())?;
    let cm = length.cm().ok_or_else(needed)?;
    if !(cm > 0.0 && cm < 500.0) {
        return Err(needed());
    }
    // In one line with single blanks, as it will stand on the page.
    let typed = typed.split_whitespace().collect::<Vec<_>>().join(" ");
    let digits = typed
        .find(|c: char| c.is_alphabetic())
        .unwrap_or(typed.len());
    let (number, unit) = typed.split_at(digits);
    Ok(match unit.is_empty() {
        true => typed,
        false => format!("{} {unit}", number.trim()),
    })
}
