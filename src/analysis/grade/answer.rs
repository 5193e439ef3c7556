//! Who is fast, medium or slow among the siblings of one sowing, at one age?
//!
//! Thirds hold only within the sowing and at the age named. Plants that a second reading might swap across a boundary
//! are marked tied, plants not read stay unread, and a plant flagged for pests is listed by its size, counts in no figure
//! and is not to be let go for it. Whom to keep is the question of `select`.

use crate::analysis::grade::rows::{GradedPlant, Sorting, readings_before};
use crate::analysis::grade::told::{Caution, GradeError};
use crate::analysis::siblings::known_trait;
use crate::analysis::siblings::{Measure, measure};
use crate::observation::common_age::{AtOneAge, age_words, at, latest_shared, shared};
use crate::observation::far_readings::{Sized, far_readings};
use crate::observation::mixed_up::mix_ups;
use crate::observation::moment::Moment;
use crate::observation::moment::NEAR;
use crate::observation::scope::Scope;
use crate::observation::series::{Comparable, TraitReadings, readings_of, with_pests};
use crate::observation::trait_unit::TraitUnit;
use crate::record::Day;
use crate::registry::Registry;
use crate::statistics::classes::{FEWEST, chance_right, reading_error, reliability};
use serde::Serialize;

/// An age asked for finds readings this part of it away: an old tray is seldom read to the month. Which age it was is said.
const ASKED_PART: f64 = 0.05;

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
pub struct GradeReport {
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
    /// Plants no farther apart are tied, in the unit shown; `null` where it is not stated how well the trait is read.
    pub tied_within: Option<f64>,
    /// Largest first, then the unread.
    pub plants: Vec<GradedPlant>,
    /// Chance that a plant is in its true third, and that a truly fast one is called slow, from one reading.
    pub chance_right: Option<(f64, f64)>,
    /// Cautions.
    pub cautions: Vec<Caution>,
    #[serde(skip)]
    pub(crate) shown: TraitUnit,
}

/// Sorts the siblings of a sowing.
///
/// # Errors
/// When the code names no single sowing, the trait is no measure, or no plant was read at the age.
pub fn sort(
    registry: &Registry,
    id: &str,
    wish: &SortWish,
    today: Day,
) -> Result<GradeReport, GradeError> {
    let scope = one_sowing(registry, id)?;
    let index = known_trait(registry, &wish.of)?;
    let unit = TraitUnit::shown_in(registry, index).with_own_readings(registry, index);
    if !unit.is_measure() {
        return Err(GradeError::NotAMeasure(unit.name));
    }
    let (plants, mixed_up) = scope.seedlings(registry);
    let of = readings_of(registry, &plants, index);
    let mut here = readings_at(registry, &of, wish, &unit)?;
    let all = with_pests(registry, &plants, index);
    let all = at(registry, &all, here.moment, unit.of_pitcher);
    add_flagged(&mut here, all);
    let tied_within = wish.tied_within.or_else(|| unit.tie());
    let sorting = Sorting {
        registry,
        unit: &unit,
        before: &readings_before(&of, &here),
        here: &here,
        tied_within: tied_within.unwrap_or(0.0),
    };
    let rows = sorting.rows(&plants, today);
    let before = sorting.before_by_other_method();
    let counted = rows.iter().filter(|row| row.counts());
    let sizes: Vec<f64> = counted.filter_map(|row| row.size).collect();
    let reading_sd = tied_within.map(|tied| tied / reading_error(1.0));
    let measure = measure(&sizes);
    Ok(GradeReport {
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
        chance_right: reading_sd
            .filter(|_| sizes.len() >= FEWEST)
            .and_then(|sd| reliability(&sizes, sd).and_then(chance_right).ok()),
        cautions: far_readings(registry, &unit, sized(&here, &unit))
            .into_iter()
            .chain(mix_ups(registry, plants.iter().copied()))
            .map(Caution::Reading)
            .chain((mixed_up > 0).then_some(Caution::MixedUp(mixed_up)))
            .chain(cautions(scope.code(registry), &rows, &here))
            .chain((before > 0).then_some(Caution::OtherMethodBefore { n: before }))
            .chain(tied_within.is_none().then(|| Caution::NoTies {
                name: unit.name.clone(),
                code: unit.code.clone(),
            }))
            .chain(
                unit.error_words()
                    .filter(|_| wish.tied_within.is_none())
                    .map(Caution::Reading),
            )
            .collect(),
        plants: rows,
        shown: unit,
    })
}

/// Puts the readings flagged for pests, of plants without a sound one at that age, among those that count.
fn add_flagged(here: &mut AtOneAge, all: AtOneAge) {
    let sound = |plant| {
        let found = here.readings.binary_search_by_key(&plant, |r| r.plant);
        found.is_ok()
    };
    let flagged = all
        .readings
        .into_iter()
        .filter(|r| r.pest && !sound(r.plant));
    let flagged: Vec<Comparable> = flagged.collect();
    here.readings.extend(flagged);
    here.readings.sort_by_key(|reading| reading.plant);
}

fn sized(here: &AtOneAge, unit: &TraitUnit) -> Vec<Sized> {
    let sound = here.readings.iter().filter(|reading| !reading.pest);
    sound.map(|reading| Sized::of(reading, unit)).collect()
}

fn one_sowing(registry: &Registry, id: &str) -> Result<Scope, GradeError> {
    let scope = Scope::named(registry, id).map_err(GradeError::Scope)?;
    let sowings = scope.sowings(registry);
    match &sowings[..] {
        [(at, _)] => Ok(Scope {
            sowing: Some(*at),
            pod: None,
            ..scope
        }),
        [] => Err(GradeError::NotSown(id.to_owned())),
        many => {
            let page = registry[scope.cross].page.code;
            let codes = many.iter().map(|(_, s)| format!("{page}.{}", s.code));
            Err(GradeError::SownOften {
                id: id.to_owned(),
                sowings: codes.collect(),
            })
        }
    }
}

fn readings_at(
    registry: &Registry,
    of: &TraitReadings,
    wish: &SortWish,
    unit: &TraitUnit,
) -> Result<AtOneAge, GradeError> {
    let none = || GradeError::NeverRead(unit.name.clone());
    let Some(months) = wish.at else {
        return latest_shared(registry, of, unit.of_pitcher).ok_or_else(none);
    };
    let moments = shared(of);
    let mut ages: Vec<f64> = moments
        .iter()
        .filter_map(|(moment, _)| moment.middle())
        .collect();
    ages.sort_by(f64::total_cmp);
    let off = |moment: &Moment| moment.middle().map(|age| (age - months).abs());
    let near = (months * ASKED_PART).max(NEAR) + 1e-9;
    let nearest = moments
        .iter()
        .filter_map(|(moment, _)| Some((off(moment).filter(|off| *off <= near)?, *moment)))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    match nearest {
        Some((_, nearest)) => Ok(at(registry, of, nearest, unit.of_pitcher)),
        None if ages.is_empty() => Err(none()),
        None => Err(GradeError::NotReadAt {
            months,
            read_at: ages,
        }),
    }
}

fn cautions(id: String, rows: &[GradedPlant], here: &AtOneAge) -> Vec<Caution> {
    let read = rows.iter().filter(|row| row.counts()).count();
    let mut cautions = vec![Caution::WithinOneAge(id)];
    if read < FEWEST {
        cautions.push(Caution::TooFew(read));
    }
    let gone = rows.iter().filter(|row| row.gone.is_some() && row.counts());
    let gone = gone.count();
    if gone > 0 {
        cautions.push(Caution::GoneCounted(gone));
    }
    for row in rows.iter().filter(|row| row.pest && row.gone.is_none()) {
        let plant = row.plant.clone();
        cautions.push(Caution::Pests(plant));
    }
    if rows.iter().all(|row| row.potted.is_none()) {
        cautions.push(Caution::NoPotting);
    }
    if here.left_out.total() + here.left_out_elsewhere.total() > 0 {
        cautions.push(Caution::LeftOut {
            here: here.left_out,
            elsewhere: here.left_out_elsewhere,
        });
    }
    if here.other_ages > 0 {
        cautions.push(Caution::OtherAges(here.other_ages));
    }
    let mut days = here.readings.iter().map(|reading| reading.when);
    cautions.extend(days.find(|when| !when.is_exact()).map(Caution::VagueDay));
    cautions
}
