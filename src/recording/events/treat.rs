//! A treatment of plants, or of those that stand at a place: what, where, when and against what; never how much.

use crate::observation::places::{has_lost_piece, is_in, places};
use crate::observation::seedling_trays::{SeedlingTray, trays_at};
use crate::observation::treated::may_stand_there;
use crate::record::{Treatment, When};
use crate::recording::at_place::{is_whole, near, plants_at};
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::parts::apart;
use crate::recording::plants::{plants, present_plants};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, field, words};
use crate::recording::written::RonRecord;
use crate::registry::{PlantRow, Registry};
use crate::wording::{at_date, counted, listed};

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
    /// Writes the treatment on the plants, or on those that stand at the place.
    ///
    /// # Errors
    /// If it is not said what was treated, or a dose is given.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        self.names_a_product(registry)?;
        let treated = match (&self.place, self.plants.is_empty()) {
            (Some(place), true) => self.place(draft, place, &on)?,
            (None, false) => self.plants(draft, &on)?,
            _ => {
                return Err(Slip::wanted(
                    "say what was treated",
                    "either plants or --place, such as --place \"shelf 1\"",
                ));
            }
        };
        draft.second_form()?;
        let about = treated.plants.clone();
        let what = What::Treated {
            plants: treated.plants,
            place: self.place.clone(),
            at_place: treated.at_place,
            product: self.product.trim().to_owned(),
        };
        Ok(Recorded::of(what, about, on.text).remarks(treated.remarks))
    }

    /// Refuses a dose, and no product: the last word is taken for it, also where it is what was treated.
    fn names_a_product(&self, registry: &Registry) -> Result<(), Slip> {
        let words = [&self.against, &self.note].into_iter().flatten();
        let mut words = std::iter::once(&self.product).chain(words);
        if let Some(words) = words.find(|words| names_a_dose(words)) {
            return Err(Slip::contradicts(
                format!("`{words}` names an amount"),
                "no amounts are kept",
                "name the product and its registration number only; follow the product's label",
            ));
        }
        let product = self.product.trim();
        let is_on_record = || {
            registry.target(product).is_some()
                || plants(registry, std::slice::from_ref(&self.product)).is_ok()
        };
        let help = match product.is_empty() {
            true => "it in quotes, with its registration number",
            false if is_on_record() => {
                "it in quotes after the plants, with its registration number"
            }
            false => return Ok(()),
        };
        Err(Slip::missing("the product", help))
    }

    /// The record, with the place where a whole place was treated.
    fn line(&self, on: &Dated) -> String {
        let place = self.place.as_ref();
        RonRecord::new()
            .text("on", &on.text)
            .text_if("place", place.filter(|_| self.plants.is_empty()))
            .text("product", self.product.trim())
            .text_if("against", self.against.as_ref())
            .text_if("by", self.by.as_ref())
            .text_if("note", self.note.as_ref())
            .line()
    }

    fn plants(&self, draft: &mut Draft, on: &Dated) -> Result<Treated, Slip> {
        let registry = draft.registry;
        if let [tray, ..] = apart::<SeedlingTray>(registry, &self.plants).1.as_slice() {
            return Err(Slip::contradicts(
                format!("{} was named", tray.code(registry)),
                "a treatment is kept on the record of a plant, or for a place",
                "name the place where the tray stands: podbook treat --place \"shelf 1\" …",
            ));
        }
        let (plants, remarks) = present_plants(registry, &self.plants, on)?;
        Ok(Treated {
            plants: self.write(draft, &plants, on)?,
            at_place: false,
            remarks,
        })
    }

    /// Writes on every plant that stands there, since a plant that comes later was not treated and one that leaves was.
    /// What has no record of its own for it stays with the place: pieces of plants that stand elsewhere too, or nothing.
    fn place(&self, draft: &mut Draft, place: &str, on: &Dated) -> Result<Treated, Slip> {
        let (registry, today) = (draft.registry, draft.today);
        is_whole(registry, place)?;
        let mut there = plants_at(registry, place, today).unwrap_or_default();
        let all = there.len();
        there.retain(|&plant| may_stand_there(registry, (plant, None), Some(place), on.when));
        let later = all - there.len();
        let whole = |plant: &PlantRow| {
            let mut places = places(registry, *plant, today).into_iter();
            places.all(|of| is_in(of, place)) && !has_lost_piece(registry, *plant)
        };
        let (whole, partly): (Vec<PlantRow>, Vec<PlantRow>) = there.into_iter().partition(whole);
        let mut remarks = Vec::new();
        let mut trays = trays_at(registry, place, today);
        trays.retain(|tray| !on.when.surely_before(tray.since(registry)));
        if all == 0 && trays.is_empty() {
            remarks.push(no_plant_there(place, &near(registry, place, today)));
        }
        if !partly.is_empty() {
            let plants: Vec<String> = partly.iter().map(|&plant| registry.code(plant)).collect();
            remarks.push(format!(
                "Only some pieces of {} are on record there, so the treatment is recorded for the place, in registry.ron",
                listed(&plants)
            ));
        }
        if all > 0 && (later > 0 || on.when != When::on(today)) {
            remarks.push(there_today(later));
        }
        if !trays.is_empty() && !whole.is_empty() {
            let codes: Vec<String> = trays.iter().map(|tray| tray.code(registry)).collect();
            remarks.push(format!(
                "For {}, which {} there too, it is written for the place, in registry.ron",
                listed(&codes),
                if codes.len() == 1 { "stands" } else { "stand" }
            ));
        }
        let at_place = whole.is_empty() || !partly.is_empty() || !trays.is_empty();
        if at_place {
            let known = &registry.settings.treatments;
            if known.iter().any(|of| self.is_same(of, on)) {
                return Err(self.twice(place, on));
            }
            draft.settings()?.append("treatments", &[self.line(on)])?;
        }
        Ok(Treated {
            plants: self.write(draft, &whole, on)?,
            at_place,
            remarks: Words::all(remarks),
        })
    }

    /// Whether a treatment on record says the same.
    fn is_same(&self, of: &Treatment, on: &Dated) -> bool {
        let place = self.place.as_deref().filter(|_| self.plants.is_empty());
        of.on == on.text
            && of.place.as_deref() == place
            && &*of.product == self.product.trim()
            && of.against.as_deref() == self.against.as_deref()
    }

    /// Refuses plants of which one has the same treatment on record.
    fn not_twice(&self, registry: &Registry, plants: &[PlantRow], on: &Dated) -> Result<(), Slip> {
        let has = |plant: &&PlantRow| {
            let mut known = registry.treatments(**plant).iter();
            known.any(|of| self.is_same(of, on))
        };
        let twice = plants.iter().find(has);
        twice.map_or(Ok(()), |&plant| Err(self.twice(&registry.code(plant), on)))
    }

    fn twice(&self, what: &str, on: &Dated) -> Slip {
        Slip::on_record(
            format!(
                "{what} is already on record as treated with {} {}",
                self.product.trim(),
                at_date(&on.text)
            ),
            words!(
                "if other plants were treated too, name only those; a second treatment that day needs another {} or another product name";
                field("--against")
            ),
        )
    }

    /// Writes the treatment on plants; their codes.
    fn write(
        &self,
        draft: &mut Draft,
        plants: &[PlantRow],
        on: &Dated,
    ) -> Result<Vec<String>, Slip> {
        self.not_twice(draft.registry, plants, on)?;
        let line = self.line(on);
        let push = |&plant: &_| (plant, vec![FieldChange::Push("treatments", line.clone())]);
        draft.change_plants(plants.iter().map(push).collect())?;
        let registry = draft.registry;
        Ok(plants.iter().map(|&plant| registry.code(plant)).collect())
    }
}

/// What a treatment was written on.
struct Treated {
    /// Codes of the plants whose records have it.
    plants: Vec<String>,
    /// Whether `registry.ron` has it for the place.
    at_place: bool,
    remarks: Vec<Words>,
}

/// That a treated place is empty, and which places may have been meant.
fn no_plant_there(place: &str, near: &[String]) -> String {
    let meant = match near {
        [] => String::new(),
        near => format!("; did you mean {}?", near.join(" or ")),
    };
    format!("No plant in the collection stands at {place}{meant}")
}

/// That a place was treated on an earlier day and which plants stood there then is not on record; so many came later.
fn there_today(later: usize) -> String {
    let plants = counted(later, "plant", "plants");
    let left_out = match later {
        0 => String::new(),
        1 => format!("; {plants} came there later and is left out"),
        _ => format!("; {plants} came there later and are left out"),
    };
    format!(
        "Written on the plants that stand there today{left_out}. If others stood there on that day, undo this and name the plants"
    )
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
