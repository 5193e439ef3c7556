//! Who is fast, medium or slow among the siblings of one sowing, at one age?
//!
//! Thirds hold only within the sowing and at the age named. Plants that a second reading might swap across a boundary
//! are marked tied, plants not read stay unread, and a plant flagged for pests is classed but not to be let go for its
//! size. Whom to keep is the question of `keep`.

use super::common_age::{AtOneAge, Moment, age_words, at, latest_shared, shared};
use super::series::{Comparable, TraitReadings, with_pests};
use super::sheet::{Cell, Report, Sheet, Table};
use super::sibling_groups::{Measure, measure};
use super::siblings::known_trait;
use super::standing::{Presence, presence};
use super::trait_unit::TraitUnit;
use super::tray::Scope;
use super::words::{age, counted, days, listed, typed_date};
use crate::lineage::PlantRow;
use crate::record::Day;
use crate::registry::Registry;
use crate::statistics::classes::{
    FEWEST, READING_SD, Standing, Third, chance_right, reading_error, reliability, thirds,
};
use crate::statistics::growth::{Reading, growth_rate};
use serde::Serialize;
use std::collections::BTreeMap;

/// What is asked.
#[derive(Clone, Debug)]
pub struct SortWish {
    /// The measure, by code or name.
    pub of: String,
    /// Age from sowing, months; the latest most siblings share when not stated.
    pub at: Option<f64>,
    /// Plants no farther apart are tied, in the unit shown; the trait's own when not stated.
    pub tied_within: Option<f64>,
}

/// The siblings of one sowing sorted.
#[derive(Clone, Debug, Serialize)]
pub struct SortReport {
    /// Code asked for.
    pub id: String,
    /// The measure.
    pub of: String,
    /// Its unit.
    pub unit: String,
    /// The age and days in words.
    pub at: String,
    /// Figures of all plants read.
    pub measure: Option<Measure>,
    /// Largest over smallest.
    pub fold: Option<f64>,
    /// Plants no farther apart are tied, in the unit shown.
    pub tied_within: f64,
    /// Largest first, then the unread.
    pub plants: Vec<SortedPlant>,
    /// Chance that a plant stands in its true third, and that a truly fast one is called slow, from one reading.
    pub chance_right: Option<(f64, f64)>,
    /// Cautions.
    pub cautions: Vec<String>,
    #[serde(skip)]
    shown: TraitUnit,
}

/// One plant.
#[derive(Clone, Debug, Serialize)]
pub struct SortedPlant {
    /// Place from the largest, 1 first; `null` when not read.
    pub place: Option<usize>,
    /// Code.
    pub plant: String,
    /// Size in the unit shown; `null` when not read.
    pub size: Option<f64>,
    /// `fast`, `medium`, `slow`, `not classed` or `unread`.
    pub class: String,
    /// Plants across the boundary that a second reading might swap it with.
    pub tied_with: Vec<String>,
    /// Whether it stands within the reading error of a boundary.
    pub tied: bool,
    /// Growth since its reading before, part per month (difference of natural logarithms).
    pub growth_per_month: Option<f64>,
    /// Last move into a pot.
    pub potted: Option<String>,
    /// Whether pests were seen on it that day.
    pub pest: bool,
}

/// Sorts the siblings of a sowing.
///
/// # Errors
/// In words, when the code names no single sowing, the trait is no measure, or nobody was read at the age.
pub fn sort(
    registry: &Registry,
    id: &str,
    wish: &SortWish,
    today: Day,
) -> Result<SortReport, String> {
    let scope = one_sowing(registry, id)?;
    let index = known_trait(registry, &wish.of)?;
    let unit = TraitUnit::shown_in(registry, index);
    if !unit.is_measure() {
        return Err(format!(
            "{} is not a measure; fast and slow need one such as leaf span",
            unit.name
        ));
    }
    let (plants, _) = scope.seedlings(registry);
    let of = with_pests(registry, &plants, index);
    let here = readings_at(registry, &of, wish, &unit)?;
    let tied_within = wish
        .tied_within
        .or(unit.tied_within)
        .unwrap_or_else(|| unit.shown(reading_error(READING_SD)));
    let sorting = Sorting {
        registry,
        unit: &unit,
        before: &readings_before(&of, &here),
        here: &here,
        tied_within,
    };
    let rows = sorting.rows(&plants, today);
    let sizes: Vec<f64> = rows.iter().filter_map(|row| row.size).collect();
    let reading_sd = tied_within / reading_error(1.0);
    let measure = measure(&sizes);
    Ok(SortReport {
        id: scope.code(registry),
        of: unit.name.clone(),
        unit: unit.unit.to_owned(),
        at: age_words(&here.readings),
        fold: measure
            .as_ref()
            .filter(|m| m.smallest > 0.0)
            .map(|m| m.largest / m.smallest),
        measure,
        tied_within,
        chance_right: (sizes.len() >= FEWEST)
            .then(|| reliability(&sizes, reading_sd).and_then(chance_right).ok())
            .flatten(),
        cautions: cautions(&scope.code(registry), &rows, &here),
        plants: rows,
        shown: unit,
    })
}

fn one_sowing(registry: &Registry, id: &str) -> Result<Scope, String> {
    let scope = Scope::named(registry, id)?;
    let sowings = scope.sowings(registry);
    match &sowings[..] {
        [(at, _)] => Ok(Scope {
            sowing: Some(*at),
            pod: None,
            ..scope
        }),
        [] => Err(format!(
            "{id} has no sowing on record; fast and slow hold within one sowing only"
        )),
        many => {
            let page = registry.crosses[scope.cross as usize].page.code;
            let codes: Vec<String> = many
                .iter()
                .map(|(_, s)| format!("{page}.{}", s.code))
                .collect();
            Err(format!(
                "{id} was sown {} times; fast and slow hold within one sowing only\nname one of {}",
                many.len(),
                listed(&codes)
            ))
        }
    }
}

fn readings_at(
    registry: &Registry,
    of: &TraitReadings,
    wish: &SortWish,
    unit: &TraitUnit,
) -> Result<AtOneAge, String> {
    let none = || format!("no sibling has a reading of {} that can be used", unit.name);
    let Some(months) = wish.at else {
        return latest_shared(registry, of, unit.of_pitcher).ok_or_else(none);
    };
    let moments = shared(of);
    let mut ages: Vec<f64> = moments
        .iter()
        .filter_map(|(moment, _)| match moment {
            Moment::Age(months) => Some(*months),
            Moment::Day { .. } => None,
        })
        .collect();
    ages.sort_by(f64::total_cmp);
    let nearest = ages
        .iter()
        .copied()
        .filter(|age| Moment::Age(months).matches(Moment::Age(*age)))
        .min_by(|a, b| (a - months).abs().total_cmp(&(b - months).abs()));
    match nearest {
        Some(nearest) => Ok(at(registry, of, Moment::Age(nearest), unit.of_pitcher)),
        None if ages.is_empty() => Err(none()),
        None => {
            let told: Vec<String> = ages.iter().map(|&months| age((months, months))).collect();
            Err(format!(
                "nobody was read at {}; sizes are not stretched to an age nobody read\nread at {}",
                age((months, months)),
                listed(&told)
            ))
        }
    }
}

/// For each reading here the last sound one of the same plant surely before it.
fn readings_before(of: &TraitReadings, here: &AtOneAge) -> Vec<Option<Comparable>> {
    let mut before = vec![None; here.readings.len()];
    let mut at = 0;
    for reading in of.by_day().filter(|reading| !reading.pest) {
        // The rows of one sitting mostly stand in the order of the plants: the next one is looked at first.
        at += 1;
        if here
            .readings
            .get(at)
            .is_none_or(|r| r.plant != reading.plant)
        {
            let found = here
                .readings
                .binary_search_by_key(&reading.plant, |r| r.plant);
            let Ok(found) = found else { continue };
            at = found;
        }
        if reading.when.surely_before(here.readings[at].when) {
            before[at] = Some(reading);
        }
    }
    before
}

/// What rows are made from.
struct Sorting<'a, 't> {
    registry: &'a Registry<'t>,
    unit: &'a TraitUnit,
    /// For each reading here the one before it.
    before: &'a [Option<Comparable>],
    here: &'a AtOneAge,
    tied_within: f64,
}

impl Sorting<'_, '_> {
    fn rows(&self, plants: &[PlantRow], today: Day) -> Vec<SortedPlant> {
        let read: BTreeMap<PlantRow, &Comparable> =
            self.here.readings.iter().map(|r| (r.plant, r)).collect();
        let mut order: Vec<PlantRow> = plants
            .iter()
            .copied()
            .filter(|plant| {
                read.contains_key(plant) || presence(self.registry, *plant, today) == Presence::Here
            })
            .collect();
        let size = |plant: &PlantRow| read.get(plant).map(|r| self.unit.shown(r.value));
        order.sort_by(|a, b| {
            let key = |plant: &PlantRow| size(plant).unwrap_or(f64::NEG_INFINITY);
            key(b).total_cmp(&key(a)).then(a.cmp(b))
        });
        let sizes: Vec<Option<f64>> = order.iter().map(size).collect();
        // Readings are finite and the tie zone is checked by the caller, so classing cannot fail.
        let classes = thirds(&sizes, self.tied_within).unwrap_or_default();
        let codes: Vec<String> = order
            .iter()
            .map(|&plant| self.registry.code(plant))
            .collect();
        let partners = partners(&sizes, &classes, self.tied_within);
        let rows = order.iter().zip(classes).enumerate();
        rows.map(|(place, (&plant, standing))| SortedPlant {
            place: sizes[place].map(|_| place + 1),
            plant: codes[place].clone(),
            size: sizes[place],
            class: class_word(standing).to_owned(),
            tied: matches!(standing, Standing::Classed { tied: true, .. }),
            tied_with: partners[place]
                .iter()
                .map(|&other| codes[other].clone())
                .collect(),
            growth_per_month: read.get(&plant).and_then(|reading| self.growth(reading)),
            potted: self.potted(plant, read.get(&plant).copied()),
            pest: read.get(&plant).is_some_and(|reading| reading.pest),
        })
        .collect()
    }

    /// Growth from the plant's reading before to this one.
    fn growth(&self, to: &Comparable) -> Option<f64> {
        let at = self
            .here
            .readings
            .binary_search_by_key(&to.plant, |r| r.plant);
        let before = self.before[at.ok()?].as_ref()?;
        let middle = |(least, most): (f64, f64)| (least + most) / 2.0;
        let reading = |r: &Comparable| {
            Some(Reading {
                age: middle(r.age?),
                size: r.value,
            })
        };
        growth_rate(reading(before)?, reading(to)?).ok()
    }

    /// The last move into a pot that was not after the reading.
    fn potted(&self, plant: PlantRow, read: Option<&Comparable>) -> Option<String> {
        let pots = self.registry.pots(plant).iter();
        let by_then = pots.filter(|pot| {
            let on = self.registry.when(pot.on);
            read.is_none_or(|read| on.first <= read.when.last)
        });
        let last = by_then.max_by_key(|pot| self.registry.when(pot.on).first)?;
        let on = typed_date(last.on, self.registry.when(last.on));
        Some(format!("{} {on}", &*last.pot))
    }
}

fn class_word(standing: Standing) -> &'static str {
    match standing {
        Standing::Unread => "unread",
        Standing::Unclassed => "not classed",
        Standing::Classed {
            third: Third::Fast, ..
        } => "fast",
        Standing::Classed {
            third: Third::Medium,
            ..
        } => "medium",
        Standing::Classed {
            third: Third::Slow, ..
        } => "slow",
    }
}

/// How many plants on each side of a boundary are told of each other by name.
const NAMED: usize = 3;

/// For each place the places across a boundary that lie within the reading error; of a long row of equal plants only
/// those next to the boundary are named.
fn partners(sizes: &[Option<f64>], classes: &[Standing], error: f64) -> Vec<Vec<usize>> {
    let third = |at: usize| match classes.get(at) {
        Some(Standing::Classed { third, tied: true }) => Some(*third),
        _ => None,
    };
    let close = |a: usize, b: usize| match (sizes[a], sizes[b]) {
        (Some(a), Some(b)) => (a - b).abs() <= error + 1e-9,
        _ => false,
    };
    let tied: Vec<usize> = (0..sizes.len()).filter(|&at| third(at).is_some()).collect();
    let sides: Vec<&[usize]> = tied.chunk_by(|&a, &b| third(a) == third(b)).collect();
    let mut partners = vec![Vec::new(); sizes.len()];
    for boundary in sides.windows(2) {
        let (above, below) = (boundary[0], boundary[1]);
        for &a in above.iter().rev().take(NAMED).rev() {
            for &b in below.iter().take(NAMED).filter(|&&b| close(a, b)) {
                partners[a].push(b);
                partners[b].push(a);
            }
        }
    }
    partners
}

fn cautions(id: &str, rows: &[SortedPlant], here: &AtOneAge) -> Vec<String> {
    let read = rows.iter().filter(|row| row.size.is_some()).count();
    let mut cautions = vec![format!(
        "fast, medium and slow hold within {id} at this age only"
    )];
    if read < FEWEST {
        cautions.push(format!(
            "{} read: too few to class, {FEWEST} needed",
            counted(read, "plant", "plants")
        ));
    }
    for row in rows.iter().filter(|row| row.pest) {
        cautions.push(format!(
            "{}: pests seen that day; not to be let go for its size",
            row.plant
        ));
    }
    if rows.iter().all(|row| row.potted.is_none()) {
        cautions.push(
            "no potting on record: siblings potted on at different times are not alike in age only"
                .to_owned(),
        );
    }
    if here.left_out.total() > 0 {
        cautions.push(format!("left out: {}", here.left_out.words()));
    }
    if here.other_ages > 0 {
        cautions.push(format!(
            "read at {} too",
            counted(here.other_ages, "other age", "other ages")
        ));
    }
    let dated: Vec<_> = here
        .readings
        .iter()
        .map(|r| r.when)
        .filter(|w| !w.is_exact())
        .collect();
    if let Some(when) = dated.first() {
        cautions.push(format!("the sitting's day is a range: {}", days(*when)));
    }
    cautions
}

impl Report for SortReport {
    fn sheet(&self) -> Sheet {
        let mut sheet = Sheet::new(self.answer());
        let decimals = self.shown.decimals.max(1);
        let mut table = Table::new(&[
            "",
            "plant",
            &format!(">{}", self.shown.heading()),
            "class",
            ">growth a month",
            "pot",
            "",
        ]);
        for row in &self.plants {
            let tied = match (&row.tied_with[..], row.tied) {
                ([], true) => Some("tied: within the reading error of the boundary".to_owned()),
                ([], false) => None,
                (with, _) => Some(format!("tied with {}", listed(with))),
            };
            let pest = row
                .pest
                .then(|| "pests seen: not to be let go for size".to_owned());
            let notes: Vec<String> = [tied, pest].into_iter().flatten().collect();
            table.row(vec![
                Cell::from(
                    row.place
                        .map(|place| format!("#{place}"))
                        .unwrap_or_default(),
                ),
                Cell::from(row.plant.as_str()),
                row.size
                    .map_or(Cell::Missing, |size| Cell::Number(size, decimals)),
                Cell::from(row.class.as_str()),
                Cell::from(
                    row.growth_per_month
                        .map(|rate| format!("{:+.1} %", 100.0 * libm::expm1(rate))),
                ),
                Cell::from(row.potted.clone()),
                Cell::from(notes.join("; ")),
            ]);
        }
        sheet.table(table);
        if let Some((right, wrong)) = self.chance_right {
            sheet.lines(None, vec![format!(
                "from one reading a plant stands in its true third {:.0} times in 100 and a truly fast one is called slow {} in 100; read again before letting go",
                right * 100.0,
                if wrong < 0.005 { "less than once".to_owned() } else { format!("{:.0} times", wrong * 100.0) }
            )]);
        }
        for caution in &self.cautions {
            sheet.caution(caution.clone());
        }
        sheet
    }
}

impl SortReport {
    fn answer(&self) -> String {
        let decimals = usize::from(self.shown.decimals.max(1));
        let read = self.plants.iter().filter(|row| row.size.is_some()).count();
        let unread = self.plants.len() - read;
        let Some(measure) = &self.measure else {
            return format!("{}: nobody read", self.id);
        };
        let sd = measure
            .sd
            .map_or(String::new(), |sd| format!(", SD {sd:.decimals$}"));
        let fold = self.fold.map_or(String::new(), |fold| {
            format!(", largest {fold:.1} times the smallest")
        });
        let unread = if unread == 0 {
            String::new()
        } else {
            format!(", {unread} unread")
        };
        format!(
            "{}, {} at {}: n {read}{unread}, median {:.decimals$}, mean {:.decimals$}{sd}{fold}; plants within {:.1} {} are tied",
            self.id,
            self.shown.heading(),
            self.at,
            measure.median,
            measure.mean,
            self.tied_within,
            self.unit
        )
    }
}
