//! Does one cross vary more than another, and is that what the parents' ancestry predicts?
//!
//! Measured: spread in proportion to size at a common age, Brown & Forsythe's test on logarithms and the ratio of
//! coefficients of variation with limits; counts and plain numbers, which may be zero, on the scale of
//! `statistics::spread_scale`. Expected: the ratio from the exact segregation variance of the parents and what
//! is not inherited, at a stated heritability, beside it on one line. Which cross is larger is the question of growth.

use crate::analysis::evidence::parents_taken_as_right;
use crate::analysis::names_taken::names_taken;
use crate::analysis::siblings::known_trait;
use crate::analysis::siblings::{Measure, measure};
use crate::analysis::title::titled;
use crate::analysis::variation::expected::{Expected, expected_of};
use crate::analysis::variation::scale::{scale_caution, scale_of};
use crate::analysis::variation::told::{Caution, NotCompared, VariationError};
use crate::context::Context;
use crate::evidence::Unit;
use crate::naming::recorded::TopOf;
use crate::observation::circumstances::{ReadIn, read_in, unlike_among};
use crate::observation::common_age::{
    AtOneAge, age_words, ages, at, days_words, latest_shared, shared_moment,
};
use crate::observation::far_readings::{Sized, far_readings};
use crate::observation::mixed_up::mix_ups;
use crate::observation::not_here::NotHere;
use crate::observation::scope::{Scope, no_plant_twice};
use crate::observation::series::{Comparable, LeftOut, TraitReadings, readings_of};
use crate::observation::trait_unit::TraitUnit;
use crate::registry::Registry;
use crate::statistics::Confidence;
use crate::statistics::sample_size::plants_needed;
use crate::statistics::spread_scale::SpreadScale;
use crate::wording::Name;
use serde::Serialize;

/// What is asked.
#[derive(Clone, Debug)]
pub struct VariationOptions {
    /// The measure, by code or name.
    pub of: String,
    /// Heritability inside a species, above 0 and up to 1.
    pub heritability: f64,
}

/// Chance wanted of seeing a ratio that is there.
pub const POWER: f64 = 0.8;

/// Several crosses side by side.
#[derive(Clone, Debug, Serialize)]
pub struct VariationReport {
    /// The trait.
    pub of: String,
    /// Unit shown.
    pub unit: String,
    /// Heritability inside a species that expected ratios assume.
    pub heritability: f64,
    /// Whether there is an age at which all were read.
    pub comparable: bool,
    /// The crosses, in the order asked.
    pub crosses: Vec<CrossSpread>,
    /// Every later cross against the first.
    pub against_first: Vec<SpreadRatio>,
    /// What spread is compared on.
    pub scale: SpreadScale,
    /// Probability of a difference at least as large if all vary alike (Brown & Forsythe on that scale).
    pub p: Option<f64>,
    /// Why it cannot be tested.
    pub why_not: Option<NotCompared>,
    /// Cautions.
    pub cautions: Vec<Caution>,
    #[serde(skip)]
    pub(crate) shown: TraitUnit,
}

/// One cross.
#[derive(Clone, Debug, Serialize)]
pub struct CrossSpread {
    /// Code.
    pub id: String,
    /// Formula without its basis.
    pub formula: Option<String>,
    /// The age and days in words.
    pub at: String,
    /// Least and greatest age, months; `None` when the sowing is not dated.
    #[serde(skip)]
    pub(crate) months: Option<(f64, f64)>,
    /// The days alone.
    #[serde(skip)]
    pub(crate) read: String,
    /// Plants read.
    pub n: usize,
    /// Its figures.
    pub measure: Option<Measure>,
    /// What the parents' ancestry predicts.
    pub expected: Expected,
    /// Values in the unit shown.
    pub values: Vec<f64>,
    #[serde(skip)]
    pub(crate) label: Name,
}

/// A cross against the first.
#[derive(Clone, Debug, Serialize)]
pub struct SpreadRatio {
    /// Code of the cross.
    pub id: String,
    /// Code of the first.
    pub against: String,
    /// Its spread over that of the first, corrected for small numbers: of coefficients of variation for lengths, of
    /// standard deviations on the scale for counts and numbers.
    pub ratio: Option<f64>,
    /// 95 % limits.
    pub between: Option<(f64, f64)>,
    /// Why there is no ratio.
    pub why_not: Option<NotCompared>,
    /// The ratio of the standard deviations that are seen, as ancestry and heritability predict it, for the assumption in the
    /// middle.
    pub expected: Option<f64>,
    /// The same of the inherited part alone, as at heritability 1.
    pub expected_inherited: Option<f64>,
    /// The same for a small and a large difference between species.
    pub expected_between: Option<(f64, f64)>,
    /// The ratio for which plants are reckoned: the expected one, or 1.5 where none different from 1 is expected.
    pub to_see: f64,
    /// Plants of each cross with which it is seen four times in five; `null` beyond all reach.
    pub plants_needed: Option<usize>,
    /// How many more plants of this cross, and of the first, that is.
    pub more_needed: Option<(usize, usize)>,
}

/// Compares the spread of crosses, pods or sowings.
///
/// # Errors
/// When a code or the trait names nothing, or the trait is not a measure.
pub fn spread(
    context: &Context,
    ids: &[String],
    wish: &VariationOptions,
) -> Result<VariationReport, VariationError> {
    let registry = context.registry;
    let index = known_trait(registry, &wish.of)?;
    let unit = TraitUnit::shown_in(registry, index);
    if !unit.is_measure() {
        return Err(VariationError::NotAMeasure(unit.name));
    }
    let scopes = scopes_of(registry, ids).map_err(VariationError::Scope)?;
    let readings = |scope: &Scope| readings_of(registry, &scope.seedlings(registry).0, index);
    let read: Vec<TraitReadings> = scopes.iter().map(readings).collect();
    let mixed_up = scopes.iter().filter_map(|&scope| mixed_up(registry, scope));
    let mut cautions: Vec<Caution> = mixed_up.collect();
    let moment = shared_moment(&read);
    if moment.is_none() {
        cautions.push(apart(registry, &scopes, &read));
    }
    let mut crosses = Vec::new();
    let mut sides: Vec<Vec<ReadIn>> = Vec::new();
    for (&scope, of) in scopes.iter().zip(&read) {
        let here = match moment {
            Some(moment) => Some(at(registry, of, moment, unit.of_pitcher)),
            // Each by itself: nothing is set side by side.
            None => latest_shared(registry, of, unit.of_pitcher),
        };
        about_readings(registry, scope, &unit, (of, here.as_ref()), &mut cautions);
        let of_here = here.iter().flat_map(|here| &here.readings);
        sides.push(of_here.map(read_in).collect());
        crosses.push(one_cross(context, scope, &unit, here));
    }
    let comparable = moment.is_some();
    let circumstances = unlike_among(registry, &sides);
    if comparable && !circumstances.is_empty() {
        cautions.push(Caution::Unlike {
            of: crosses.iter().map(|cross| cross.id.clone()).collect(),
            circumstances,
        });
    }
    let values: Vec<Vec<f64>> = crosses.iter().map(|cross| cross.values.clone()).collect();
    let scale = scale_of(registry, index);
    let test = scale.equal_spread(&values).map(|test| test.p);
    let of_ratio = (comparable.then_some(scale), wish.heritability);
    let later = crosses.iter().skip(1);
    let against_first = later.map(|cross| ratio(cross, &crosses[0], of_ratio));
    cautions.extend(scale_caution(scale, &unit.name));
    let all = scopes.iter().flat_map(|scope| scope.seedlings(registry).0);
    cautions.extend(mix_ups(registry, all).into_iter().map(Caution::Reading));
    cautions.extend(about_parents(context, &scopes));
    cautions.push(Caution::OneCrossEach);
    Ok(VariationReport {
        of: unit.name.clone(),
        unit: unit.unit.to_owned(),
        heritability: wish.heritability,
        against_first: against_first.collect(),
        p: test.as_ref().ok().copied().filter(|_| comparable),
        why_not: match comparable {
            false => Some(NotCompared::NoSharedAge),
            true => test.err().map(NotCompared::NoFigure),
        },
        comparable,
        crosses,
        cautions,
        scale,
        shown: unit,
    })
}

/// The crosses, pods or sowings that codes name, no plant in two of them.
fn scopes_of(registry: &Registry, ids: &[String]) -> Result<Vec<Scope>, String> {
    let scopes = ids.iter().map(|id| Scope::named(registry, id));
    let scopes = scopes.collect::<Result<Vec<_>, _>>()?;
    no_plant_twice(registry, &scopes)?;
    Ok(scopes)
}

/// Adds what is to be known of the readings of one of them: first of all those far from the others, behind the rest which
/// plants are not compared, and why.
fn about_readings(
    registry: &Registry,
    scope: Scope,
    unit: &TraitUnit,
    (of, here): (&TraitReadings, Option<&AtOneAge>),
    cautions: &mut Vec<Caution>,
) {
    let id = || scope.code(registry);
    let not_here = here.iter().flat_map(|here| &here.not_here);
    let not_here = NotHere::counted(not_here.map(|(_, why)| *why)).into_iter();
    cautions.extend(not_here.map(|(why, n)| Caution::NotCompared { id: id(), n, why }));
    let sizes = here.iter().flat_map(|here| &here.readings);
    let sizes = sizes.map(|reading| Sized::of(reading, unit)).collect();
    let far = far_readings(registry, unit, sizes).into_iter();
    cautions.splice(0..0, far.map(Caution::Reading));
    let (here, elsewhere) = match here {
        Some(here) => (here.left_out, here.left_out_elsewhere),
        None => (of.left_out, LeftOut::default()),
    };
    if here.total() + elsewhere.total() > 0 {
        let id = id();
        cautions.push(Caution::LeftOut {
            id,
            here,
            elsewhere,
        });
    }
}

/// What is not sure of names and parents that the answer goes by.
fn about_parents(context: &Context, scopes: &[Scope]) -> Vec<Caution> {
    let (registry, evidence) = (context.registry, context.evidence());
    let of_names = scopes.iter().map(|scope| TopOf::Cross(scope.cross));
    let doubts = context.names().doubts(of_names);
    let units = scopes.iter().map(|scope| Unit::Cross(scope.cross));
    let units: Vec<Unit> = units.collect();
    let codes = scopes.iter().map(|scope| scope.code(registry));
    let by_code: Vec<_> = units.iter().copied().zip(codes).collect();
    let doubts = doubts.into_iter().map(Caution::Doubt);
    let names = names_taken(evidence, &units).map(Caution::Names);
    let parents = parents_taken_as_right(evidence, &by_code).map(Caution::ParentsAsRight);
    doubts.chain(names).chain(parents).collect()
}

/// That seedlings of a cross may be of another and are not counted, where some are.
fn mixed_up(registry: &Registry, scope: Scope) -> Option<Caution> {
    let (_, n) = scope.seedlings(registry);
    (n > 0).then(|| Caution::MixedUp {
        id: scope.code(registry),
        n,
    })
}

/// At which ages each was read, where none is shared.
fn apart(registry: &Registry, scopes: &[Scope], read: &[TraitReadings]) -> Caution {
    let told = scopes.iter().zip(read).map(|(scope, of)| {
        let readings: Vec<Comparable> = of.by_day().collect();
        (scope.code(registry), age_words(&readings))
    });
    Caution::NoSharedAge(told.collect())
}

fn one_cross(
    context: &Context,
    scope: Scope,
    unit: &TraitUnit,
    here: Option<AtOneAge>,
) -> CrossSpread {
    let (names, id) = (context.names(), scope.code(context.registry));
    let of = TopOf::Cross(scope.cross);
    let readings = here.map(|here| here.readings).unwrap_or_default();
    let values: Vec<f64> = readings.iter().map(|r| unit.shown(r.value)).collect();
    CrossSpread {
        formula: names.formula_alone(of).ok(),
        at: age_words(&readings),
        months: ages(&readings),
        read: days_words(&readings),
        n: values.len(),
        measure: measure(&values),
        expected: expected_of(context, scope.cross),
        label: titled(names, &id, of, false),
        id,
        values,
    }
}

fn ratio(
    cross: &CrossSpread,
    first: &CrossSpread,
    (scale, heritability): (Option<SpreadScale>, f64),
) -> SpreadRatio {
    let measured = match scale {
        Some(scale) => scale
            .ratio(&cross.values, &first.values, Confidence::P95)
            .map_err(NotCompared::NoFigure),
        None => Err(NotCompared::NoSharedAge),
    };
    let expected = cross.expected.ratio_to(&first.expected, heritability);
    let inherited = cross.expected.ratio_to(&first.expected, 1.0);
    let (low, middle, high) = match expected {
        Some([low, middle, high]) => (Some(low), Some(middle), Some(high)),
        None => (None, None, None),
    };
    let to_see = middle
        .filter(|ratio| (ratio - 1.0).abs() >= 0.1)
        .unwrap_or(1.5);
    let plants_needed = plants_needed(to_see, 0.05, POWER).ok();
    let limits = measured.as_ref().ok().map(|ratio| ratio.ratio_interval());
    SpreadRatio {
        id: cross.id.clone(),
        against: first.id.clone(),
        ratio: measured.as_ref().ok().map(|ratio| ratio.ratio()),
        between: limits.map(|limits| (limits.low, limits.high)),
        why_not: measured.err(),
        expected: middle,
        expected_inherited: inherited.map(|[_, middle, _]| middle),
        expected_between: low.zip(high).map(|(a, b)| (a.min(b), a.max(b))),
        to_see,
        plants_needed,
        more_needed: plants_needed.map(|needed| {
            (
                needed.saturating_sub(cross.n),
                needed.saturating_sub(first.n),
            )
        }),
    }
}
