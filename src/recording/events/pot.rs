//! Plants potted on, with the place they stand at.

use super::place::{put_at, taken_along};
use crate::observation::places::places;
use crate::record::{Length, Potting};
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{present, whole_plants};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, words};
use crate::recording::written::RonRecord;
use crate::registry::{PlantOrRamet, PlantRow};
use crate::wording::{at_date, several};
use std::collections::BTreeMap;

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
            return Err(Slip::contradicts(
                format!("{} was potted {}", registry.code(plant), at_date(&on.text)),
                format!("a pot of {width} is on record for it on that day"),
                "nothing is to be entered again; if others were potted too, name only those",
            ));
        }
        let potting = RonRecord::new()
            .text("on", &on.text)
            .text("pot", &width)
            .text_if("place", self.place.as_ref())
            .line();
        let mut placed = Placed::default();
        let changes = wanted.iter().map(|&plant| {
            let mut changes = vec![FieldChange::Push("pots", potting.clone())];
            if let Some(place) = &self.place {
                changes.extend(placed.change(draft, plant, (place, &on))?);
            }
            Ok((plant, changes))
        });
        draft.change_plants(changes.collect::<Result<_, Slip>>()?)?;
        let plants: Vec<String> = wanted.iter().map(|&plant| registry.code(plant)).collect();
        Ok(Recorded {
            about: plants.clone(),
            tags: Vec::new(),
            remarks: [present.remarks(), placed.remarks(self.place.as_deref())].concat(),
            what: What::Potted {
                plants,
                pot: width,
                place: self.place.clone().filter(|_| placed.stay.is_empty()),
                on: on.text,
            },
        })
    }
}

/// What becomes of the places noted beside plants that were potted with a place. A place has no day, so a late entry may
/// change one that is newer.
#[derive(Default)]
struct Placed {
    /// Those that stay where they are, because a later pot with a place is on record.
    stay: Vec<String>,
    /// Those whose place a late entry changes, under the place before.
    changed: BTreeMap<String, Vec<String>>,
}

impl Placed {
    /// The changes of the place noted beside a seedling or a founder's piece, which would contradict that of its pot.
    ///
    /// # Errors
    /// If it is a founder of several pieces, which stand apart.
    fn change(
        &mut self,
        draft: &Draft,
        plant: PlantRow,
        (place, on): (&str, &Dated),
    ) -> Result<Vec<FieldChange>, Slip> {
        let registry = draft.registry;
        let code = registry.code(plant);
        let has_later = registry
            .pots(plant)
            .iter()
            .any(|pot| pot.place.is_some() && on.when.surely_before(registry.when(pot.on)));
        if has_later {
            self.stay.push(code);
            return Ok(Vec::new());
        }
        if registry.cross_of(plant).is_none() && registry.ramets(plant).is_empty() {
            return Ok(Vec::new());
        }
        let noted = places(registry, plant, draft.today);
        if let Some(other) = noted.iter().find(|of| **of != place)
            && on.when.first < draft.today
        {
            let same = self.changed.entry((*other).to_owned()).or_default();
            same.push(code);
        }
        let whole = PlantOrRamet { plant, ramet: None };
        let help = Words::or(
            "leave out --place, then say which piece stands there: podbook move PIECE PLACE",
            "fill in “Piece”, or leave “Place” empty",
        );
        let mut changes = taken_along(registry, whole, (place, draft.today));
        changes.push(put_at(registry, whole, (place, help))?);
        Ok(changes)
    }

    /// What to say of them.
    fn remarks(&self, place: Option<&str>) -> Vec<Words> {
        let place = place.unwrap_or_default();
        let stay = (!self.stay.is_empty()).then(|| {
            let were = if self.stay.len() == 1 { "was" } else { "were" };
            format!(
                "{} {were} potted again later: the place on record stays as it is",
                several(&self.stay)
            )
            .into()
        });
        let changed = self.changed.iter().map(|(before, codes)| {
            let plants = if codes.len() < 7 {
                codes.join(",")
            } else {
                "PLANTS".to_owned()
            };
            words!(
                "{}: the place was {before} and is {place} now; if moved back since{}";
                Words::from(several(codes)), Words::or(format!(": podbook move {plants} \"{before}\""), ", record that at the computer")
            )
        });
        stay.into_iter().chain(changed).collect()
    }
}

/// The width of a pot with a blank before its unit: `7cm` is `7 cm`.
///
/// # Errors
/// If it is no length above zero, or has no unit.
pub fn pot_width(typed: &str) -> Result<String, Slip> {
    let needed = || {
        Slip::BadNumber(
            "the pot",
            typed.to_owned(),
            "its inside width with a unit, such as 7cm, 2.5 cm or 3in",
        )
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
