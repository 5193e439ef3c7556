//! A slip of an earlier day put right: one reading of one plant in one sitting.

use crate::observation::cell::{value, with_unit};
use crate::observation::traits::trait_named;
use crate::record::{ClonesPage, CrossPage, LengthUnit, Reads, Sitting, When, read_page};
use crate::recording::draft::Draft;
use crate::recording::events::sitting_page::first_cell;
use crate::recording::plants::one_plant;
use crate::recording::recorded::{Recorded, What};
use crate::recording::rows_asked::unknown_trait;
use crate::recording::slip::Slip;
use crate::recording::written::text;
use crate::registry::{PlantRow, Registry, TraitRow};
use crate::text::one_line;

/// A correction.
#[derive(Clone, Debug, Default)]
pub struct Correct {
    /// The plant.
    pub plant: String,
    /// The trait, or a column such as `note`.
    pub column: String,
    /// The cell as it should read; empty for not read.
    pub value: String,
    /// The day of the sitting; the last one with that column if not given.
    pub on: Option<String>,
}

/// Where a cell stands.
struct Place {
    /// The place of the sitting in the list of its page.
    on_page: usize,
    row: usize,
    cell: usize,
    was: String,
    /// The heading of its column, such as `span cm`.
    heading: String,
    on: String,
    /// Who read it, if that is on record.
    by: Option<String>,
}

impl Correct {
    /// Replaces the cell.
    ///
    /// # Errors
    /// If the plant was not read that day, the trait is unknown, or the value cannot be read.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let day = self.on.as_ref().map(|_| draft.day(&self.on)).transpose()?;
        let day = day.map(|day| day.when);
        let plant = one_plant(registry, &self.plant)?;
        let code = registry.code(plant);
        let declared = trait_named(registry, &self.column);
        let words = ["note", "pest", "pitcher"].contains(&self.column.as_str());
        if declared.is_none() && !words {
            return Err(unknown_trait(registry, &self.column));
        }
        let own = self.find(registry, plant, day);
        let unit = own.as_ref().ok().and_then(|own| heading_unit(&own.heading));
        self.fits(registry, declared, unit)?;
        // Without a day the last reading is meant, which may be the one that was left out.
        if (own.is_err() || day.is_none())
            && let Some(slip) = left_out(draft, plant)
        {
            return Err(slip);
        }
        let own = own?;
        self.is_not_of_another(registry, &code, &own)?;
        if own.was == self.value {
            return Err(Slip::nothing(format!(
                "{code} has {} for {} on {} already",
                self.value, self.column, own.on
            )));
        }
        let path = format!("sittings[{}].rows[{}][{}]", own.on_page, own.row, own.cell);
        let page = draft.plants_of(registry.cross_of(plant))?;
        page.replace_at(&path, &text(&self.value))?;
        let about = vec![code.clone()];
        let what = What::Corrected {
            plant: code,
            column: self.column.clone(),
            was: with_unit(&own.was, unit),
            now: with_unit(&self.value, unit),
        };
        Ok(Recorded::of(what, about, own.on))
    }

    /// Refuses a reading that another grower told of: its words are theirs.
    fn is_not_of_another(&self, registry: &Registry, code: &str, of: &Place) -> Result<(), Slip> {
        let by = of.by.as_deref().unwrap_or_default();
        let grower = by.split_once(", ").map_or(by, |(grower, _)| grower);
        match registry.tellers().contains(grower) {
            false => Ok(()),
            true => Err(Slip::contradicts(
                format!("{code} had another reading of {} on {}", self.column, of.on),
                format!("that reading came from the registry {grower}, by {by}"),
                format!(
                    "ask {grower} to correct it: the next merge takes it over; to add a reading of your own: podbook measure {code}"
                ),
            )),
        }
    }

    /// Refuses a value that is no reading of the trait; a number alone has the unit of its column.
    fn fits(
        &self,
        registry: &Registry,
        declared: Option<TraitRow>,
        unit: Option<LengthUnit>,
    ) -> Result<(), Slip> {
        let Some(at) = declared.filter(|_| !self.value.trim().is_empty()) else {
            return Ok(());
        };
        let declared = &registry[at];
        match value(declared, &self.value, unit) {
            Ok(_) => Ok(()),
            Err(_) => Err(Slip::nothing(format!(
                "{} is {}; found `{}`\ncorrect it with such a reading, or with \"\" for not read",
                declared.code,
                needed(&declared.reads),
                one_line(&self.value)
            ))),
        }
    }

    /// The cell that is meant: the last one with that column, or that of the day.
    fn find(&self, registry: &Registry, plant: PlantRow, day: Option<When>) -> Result<Place, Slip> {
        let (code, column) = (registry.code(plant), &self.column);
        let mut found = self.cells(registry, plant)?;
        let days: Vec<String> = found.iter().map(|place| place.on.clone()).collect();
        found.retain(|place| day.is_none_or(|day| day == registry.when(&place.on)));
        let latest = |place: &Place| registry.when(&place.on).last;
        let last = found.iter().map(latest).max();
        found.retain(|place| Some(latest(place)) == last);
        if let [place, _, ..] = found.as_slice() {
            return Err(Slip::nothing(format!(
                "{code} was read more than once on {}\ncorrect the page by hand: {} sittings hold it",
                place.on,
                found.len()
            )));
        }
        found.pop().ok_or_else(|| {
            Slip::nothing(match day.is_some() && !days.is_empty() {
                true => format!(
                    "{code} has no reading of {column} on that day\ngive a day on which it was read with --on: {}",
                    days.join(", ")
                ),
                false => format!("{code} has no reading of {column} on its page"),
            })
        })
    }

    /// The cells of the plant in sittings of its own page that have the column.
    fn cells(&self, registry: &Registry, plant: PlantRow) -> Result<Vec<Place>, Slip> {
        let code = registry.code(plant);
        let (sittings, key) = own_sittings(registry, plant)?;
        let asked = trait_named(registry, &self.column);
        let heads = |column: &str| {
            let head = column.split_whitespace().next().unwrap_or("");
            let named = trait_named(registry, head);
            head == self.column || (named.is_some() && named == asked)
        };
        let mut found = Vec::new();
        for (on_page, sitting) in sittings.iter().enumerate() {
            let Some(column) = sitting.columns.iter().position(|column| heads(column)) else {
                continue;
            };
            for (row, cells) in sitting.rows.iter().enumerate() {
                let first = cells.first().map(|first| &**first);
                let is = first.is_some_and(|first| first == key || first == code);
                if let Some(was) = cells.get(column + 1).filter(|_| is) {
                    found.push(Place {
                        on_page,
                        row,
                        cell: column + 1,
                        was: (**was).to_owned(),
                        heading: sitting.columns[column].to_string(),
                        on: sitting.on.to_owned(),
                        by: sitting.by.as_deref().map(str::to_owned),
                    });
                }
            }
        }
        Ok(found)
    }
}

/// The refusal where a row of the plant, or the sitting around it, was left out: what was to be corrected may be in it.
fn left_out(draft: &mut Draft, plant: PlantRow) -> Option<Slip> {
    let registry = draft.registry;
    let page = draft.plants_of(registry.cross_of(plant)).ok()?;
    let fault = page.not_read("sittings", &text(&first_cell(registry, plant)))?;
    Some(draft.placed(fault.into()))
}

/// What a reading of a trait is.
fn needed(reads: &Reads) -> String {
    match reads {
        Reads::Scale(anchors) => format!("a step from 1 to {}", anchors.len()),
        Reads::Kinds(kinds) => format!("one of {}", kinds.join(", ")),
        Reads::Length(_) => "a length with its unit, such as \"12.5 cm\"".to_owned(),
        Reads::Count => "a count, such as 12".to_owned(),
        Reads::Number => "a number, such as 1.6".to_owned(),
    }
}

/// The unit that the heading of a column states.
fn heading_unit(heading: &str) -> Option<LengthUnit> {
    let (_, unit) = heading.split_once(' ')?;
    LengthUnit::read(unit.trim())
}

/// The sittings on a plant's own page, and how rows there name it.
fn own_sittings<'t>(
    registry: &Registry<'t>,
    plant: PlantRow,
) -> Result<(Vec<Sitting<'t>>, String), Slip> {
    match (registry.cross_of(plant), registry.number(plant)) {
        (Some(cross), Some(number)) => {
            let file = registry[cross].file;
            let (page, _) = read_page::<CrossPage>(registry.sources, file);
            let unread = || Slip::page_unread(&registry.sources.get(file).path);
            let page = page.ok_or_else(unread)?;
            Ok((page.sittings, number.to_owned()))
        }
        _ => {
            let unread = || Slip::page_unread("clones.ron");
            let file = registry.clones_file.ok_or_else(unread)?;
            let (page, _) = read_page::<ClonesPage>(registry.sources, file);
            let page = page.ok_or_else(unread)?;
            Ok((page.sittings, registry.code(plant)))
        }
    }
}
