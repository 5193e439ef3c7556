//! How do siblings differ? Counts from seed to shelf, and for each declared trait what was read at one age.
//!
//! Kinds and scales are counted, with Wilson's interval for each share; measures are described; pods of one cross stand
//! side by side with a test for difference. Only readings at one age are compared. Growth over time, and whether one
//! cross varies more than another, are other questions.

use crate::analysis::growth::{GerminationCompared, pods_came_up};
use crate::analysis::names_taken::names_taken;
use crate::analysis::siblings::apart::pods_compared;
use crate::analysis::siblings::groups::{groups, pods_apart, read_of_pods, test_pods};
use crate::analysis::siblings::parents::parents;
use crate::analysis::siblings::ratio::{RatioAnswer, RatioWish, ratio_answer};
use crate::analysis::siblings::summary::{PlantValue, TraitSummary};
use crate::analysis::siblings::together::{Together, together};
use crate::analysis::siblings::told::{Caution, SiblingsError, UnknownTrait};
use crate::analysis::title::titled;
use crate::context::Context;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::circumstances::unlike_among;
use crate::observation::common_age::{AtOneAge, age_words, ages, latest_shared};
use crate::observation::doubtful::doubtful_readings;
use crate::observation::far_readings::{Sized, far_readings};
use crate::observation::mixed_up::{mix_ups, readings_in_doubt};
use crate::observation::not_here::NotHere;
use crate::observation::presence::{Presence, fate_by, presence};
use crate::observation::scope::Scope;
use crate::observation::series::{LeftOut, readings_of_traits};
use crate::observation::trait_unit::TraitUnit;
use crate::observation::traits::{declared_codes, trait_named};
use crate::observation::tray::{Tray, tray};
use crate::record::Day;
use crate::registry::{CrossRow, Registry, TraitRow};
use crate::statistics::location::holm;
use crate::wording::Name;
use rayon::prelude::*;
use serde::Serialize;

/// What is asked.
#[derive(Clone, Debug, Default)]
pub struct SiblingsWish {
    /// Only these traits, by code or name; all when empty.
    pub traits: Vec<String>,
    /// A stated ratio to test one trait against.
    pub ratio: Option<RatioWish>,
}

/// How the siblings of a cross, pod or sowing differ.
#[derive(Clone, Debug, Serialize)]
pub struct SiblingsReport {
    /// Code asked for.
    pub id: String,
    /// Formula of the cross.
    pub formula: Option<String>,
    /// Numbered seedlings.
    pub numbered: usize,
    /// Of those here today.
    pub here: usize,
    /// From seed to shelf.
    pub counts: Tray,
    /// What came up of each pod, where the whole cross is asked for and no single trait.
    pub pods_germinated: Option<GerminationCompared>,
    /// Every declared trait that was read, in the order of declaration.
    pub traits: Vec<TraitSummary>,
    /// Pairs of measures and scales, rank by rank.
    pub together: Vec<Together>,
    /// Declared traits not read on these plants.
    pub never_read: Vec<String>,
    /// The stated ratio against the counts.
    pub ratio: Option<RatioAnswer>,
    /// Cautions.
    pub cautions: Vec<Caution>,
    #[serde(skip)]
    pub(crate) title: Name,
}

/// Works out how siblings differ.
///
/// # Errors
/// When a code or trait names nothing, or a ratio does not fit its trait.
pub fn siblings(
    context: &Context,
    id: &str,
    wish: &SiblingsWish,
) -> Result<SiblingsReport, SiblingsError> {
    let (registry, today, names) = (context.registry, context.today, context.names());
    let scope = Scope::named(registry, id).map_err(SiblingsError::Scope)?;
    let (plants, muddled) = scope.seedlings(registry);
    let wanted = wanted_traits(registry, &wish.traits)?;
    let muddled = (muddled > 0).then_some(Caution::Muddled(muddled));
    let mut cautions = Vec::from_iter(muddled);
    let (mut traits, mut never_read) = (Vec::new(), Vec::new());
    for (unit, left_out, summary) in described(registry, scope, (&plants, today), wanted) {
        match summary {
            Some(summary) => traits.push(summary),
            None if left_out.total() > 0 => cautions.push(Caution::NothingLeft {
                name: unit.name,
                left_out,
            }),
            None => never_read.push(unit.name),
        }
    }
    let ratio = wish.ratio.as_ref();
    let ratio = ratio.map(|wish| ratio_answer(&traits, wish)).transpose()?;
    adjust_for_number(&mut traits);
    cautions.extend(pods_unlike(&traits));
    cautions.extend(doubts(context, scope.cross, &plants));
    let parents = traits.iter().flat_map(|of| &of.parents);
    let parents = parents.filter_map(|of| registry.plant(&of.plant));
    cautions.extend(
        readings_in_doubt(registry, parents)
            .into_iter()
            .map(Caution::Doubt),
    );
    let here = |plant: &&PlantRow| presence(registry, **plant, today) == Presence::Here;
    let whole = wish.traits.is_empty() && scope.pod.is_none() && scope.sowing.is_none();
    Ok(SiblingsReport {
        title: titled(
            names,
            &scope.code(registry),
            TopOf::Cross(scope.cross),
            true,
        ),
        id: scope.code(registry),
        formula: names.in_full(TopOf::Cross(scope.cross)).ok(),
        numbered: plants.len(),
        here: plants.iter().filter(here).count(),
        counts: tray(registry, scope, &plants, today),
        pods_germinated: whole
            .then(|| pods_came_up(registry, scope.cross, today))
            .flatten(),
        together: together(&traits),
        traits,
        never_read,
        ratio,
        cautions,
    })
}

/// What besides the pods differed where they differ: once for traits that were read together.
fn pods_unlike(traits: &[TraitSummary]) -> Vec<Caution> {
    let apart = pods_compared(traits).apart.into_iter();
    let mut unlike: Vec<Caution> = Vec::new();
    for of in apart.filter_map(|of| of.pods.as_ref()) {
        let caution = Caution::PodsUnlike(of.unlike.clone());
        if !of.unlike.is_empty() && !unlike.contains(&caution) {
            unlike.push(caution);
        }
    }
    unlike
}

/// What is in doubt of the plants and of the names of their cross.
fn doubts(context: &Context, cross: CrossRow, plants: &[PlantRow]) -> Vec<Caution> {
    let mixed_up = mix_ups(context.registry, plants.iter().copied());
    let doubts = context.names().doubts([TopOf::Cross(cross)]);
    let doubts = mixed_up.into_iter().chain(doubts).map(Caution::Doubt);
    let taken = names_taken(context.evidence(), &[Unit::Cross(cross)]);
    doubts.chain(taken.map(Caution::Names)).collect()
}

/// What was read of each trait that is asked for, at the latest age that they share; readings that were left out.
fn described(
    registry: &Registry,
    scope: Scope,
    (plants, today): (&[PlantRow], Day),
    wanted: Vec<bool>,
) -> Vec<(TraitUnit, LeftOut, Option<TraitSummary>)> {
    let all = readings_of_traits(registry, plants, wanted.clone());
    let all = all.into_par_iter().enumerate();
    let all = all.filter(|(at, _)| wanted[*at]).map(|(at, of)| {
        let index = TraitRow::new(at);
        let unit = TraitUnit::shown_in(registry, index);
        let unit = match of.is_empty() {
            true => unit,
            false => unit.with_own_readings(registry, index),
        };
        let at = latest_shared(registry, &of, unit.of_pitcher);
        let of_trait = (index, unit.clone());
        let summary = at.map(|at| TraitSummary {
            pods_apart: pods_apart(registry, scope, &at),
            ..summary(registry, scope, (plants, today), of_trait, at)
        });
        (unit, of.left_out, summary)
    });
    all.collect()
}

/// Which declared traits are asked for.
fn wanted_traits(registry: &Registry, named: &[String]) -> Result<Vec<bool>, UnknownTrait> {
    let traits = &registry.settings.traits;
    let mut wanted = vec![named.is_empty(); traits.len()];
    for name in named {
        wanted[known_trait(registry, name)?.index()] = true;
    }
    Ok(wanted)
}

/// A declared trait by code or name.
///
/// # Errors
/// When no declared trait has that name.
pub fn known_trait(registry: &Registry, name: &str) -> Result<TraitRow, UnknownTrait> {
    trait_named(registry, name).ok_or_else(|| UnknownTrait {
        name: name.to_owned(),
        declared: declared_codes(registry),
    })
}

fn summary(
    registry: &Registry,
    scope: Scope,
    (plants, today): (&[PlantRow], Day),
    (index, unit): (TraitRow, TraitUnit),
    at: AtOneAge,
) -> TraitSummary {
    let first = at.readings.iter().map(|reading| reading.when.first).min();
    let is_read = |plant: PlantRow| {
        at.readings
            .binary_search_by_key(&plant, |r| r.plant)
            .is_ok()
    };
    let alive_unread = |plant: &&PlantRow| {
        let ended = fate_by(registry, **plant, today).map(|fate| registry.when(fate.on()));
        let gone = ended.is_some_and(|ended| first.is_some_and(|first| ended.last < first));
        !gone && !is_read(**plant)
    };
    let unread = || plants.iter().filter(alive_unread);
    let groups = groups(registry, scope, &unit, &at.readings);
    let mut pods = test_pods(&unit, &groups[1..]);
    if let Some(test) = pods.as_mut().filter(|test| test.may_be_clear()) {
        test.unlike = unlike_among(registry, &read_of_pods(registry, &at.readings));
    }
    let values = at.readings.iter().map(|reading| PlantValue {
        plant: registry.code(reading.plant),
        pod: registry
            .road(reading.plant)
            .1
            .map(|pod| registry[pod].code.to_owned()),
        value: unit.shown(reading.value),
    });
    let (parents, other_parents) = parents(registry, scope, index, &unit);
    TraitSummary {
        code: unit.code.clone(),
        name: unit.name.clone(),
        unit: unit.unit.to_owned(),
        age_months: ages(&at.readings),
        at: age_words(&at.readings),
        other_ages: at.other_ages,
        readings_elsewhere: at.elsewhere,
        unread: unread().count(),
        unread_not_compared: NotHere::counted(unread().filter_map(|plant| at.why_not(*plant))),
        not_compared: NotHere::counted(at.not_here.iter().map(|(_, why)| *why)),
        values: values.collect(),
        groups,
        pods_apart: Vec::new(),
        doubtful: doubtful_readings(&registry[index], &at.readings),
        far: far_readings(
            registry,
            &unit,
            at.readings
                .iter()
                .map(|reading| Sized::of(reading, &unit))
                .collect(),
        ),
        pods,
        left_out: at.left_out,
        left_out_elsewhere: at.left_out_elsewhere,
        parents,
        other_parents,
        shown: unit,
    }
}

/// Several traits are tested at once: Holm's adjustment keeps the chance of any false alarm at what is stated.
fn adjust_for_number(traits: &mut [TraitSummary]) {
    let raw: Vec<f64> = traits.iter().filter_map(|of| of.pods.as_ref()?.p).collect();
    let mut adjusted = holm(&raw).into_iter();
    let tests = raw.len();
    for of in traits.iter_mut() {
        if let Some(pods) = of.pods.as_mut().filter(|pods| pods.p.is_some()) {
            pods.p_adjusted = adjusted.next();
            pods.tests = tests;
        }
    }
}
