//! The whole answer to "who grows": groups, comparisons, and what was left out.

use crate::analysis::growth::alone::{Alone, alone};
use crate::analysis::growth::came_up::{GerminationCompared, compared};
use crate::analysis::growth::compare::{Comparison, Measured, compare};
use crate::analysis::growth::germination::GerminationRow;
use crate::analysis::growth::group::Group;
use crate::analysis::growth::grown::Grown;
use crate::analysis::growth::one_group::{GroupGrowth, Shown, far_words, group_growth, scale_of};
use crate::analysis::growth::survival::{Lives, alike};
use crate::analysis::growth::told::GrowthError;
use crate::analysis::growth::unitless::{Unitless, unitless};
use crate::analysis::growth::window::{SharedWindow, shared_window};
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::mixed_up::mix_ups;
use crate::observation::trait_unit::TraitUnit;
use crate::observation::traits::{declared_codes, span_trait, trait_named};
use crate::record::Reads;
use crate::registry::{Registry, SowingRow, TraitRow};
use crate::statistics::Scale;
use crate::statistics::location::holm;
use rayon::prelude::*;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Groups beyond which each is compared with the first only.
const ALL_PAIRS: usize = 5;

/// What is wished for.
#[derive(Clone, Debug)]
pub struct GrowthWishes {
    /// Age in months to compare at; the best common age when `None`.
    pub at: Option<f64>,
    /// Code or name of the trait; the leaf span when `None`.
    pub of_trait: Option<String>,
    /// Whether crosses are taken apart into their pods.
    pub by_pod: bool,
}

/// Who grows.
#[derive(Serialize)]
pub struct GrowthReport {
    /// Name of the trait.
    pub of_trait: String,
    /// Its unit: `cm`, `mm` or `in` as the registry shows it; empty for a plain number.
    pub unit: &'static str,
    /// What a centimetre is multiplied by to be shown.
    #[serde(skip)]
    pub(crate) cm_shown: f64,
    /// Lengths grow on the logarithm, counts and numbers as they stand.
    #[serde(skip)]
    pub(crate) scale: Scale,
    /// The age asked for, months.
    pub at: Option<f64>,
    /// The groups in the order asked for.
    pub groups: Vec<GroupGrowth>,
    /// Pairs of groups.
    pub comparisons: Vec<Comparison>,
    /// Growth of all groups between the same two ages; `null` for one group, or where they share none.
    pub shared_rates: Option<SharedWindow>,
    /// What came up, group against group; `null` for one group, or without counts of two.
    pub germination_compared: Option<GerminationCompared>,
    /// Chance that the groups die alike (log-rank); `null` under five deaths or for one group.
    pub alike_in_deaths: Option<f64>,
    /// Lengths without a unit.
    pub unitless: Vec<Unitless>,
    /// Readings so far from their siblings' that a slip is likelier.
    pub far_readings: Vec<String>,
    /// Sizes of a single group at the age asked for.
    pub alone_at: Option<Alone>,
    /// Plants that were mixed up, then species behind the plants whose names are in doubt, one line each.
    pub doubts: Vec<String>,
}

/// Works out who grows.
///
/// # Errors
/// A code that names nothing that grows, a trait that is not declared or not measured, an age not above zero.
pub fn growth(
    context: &Context,
    ids: &[String],
    wishes: &GrowthWishes,
) -> Result<GrowthReport, GrowthError> {
    let (registry, today) = (context.registry, context.today);
    if let Some(at) = wishes.at
        && !(at.is_finite() && at > 0.0)
    {
        return Err(GrowthError::AgeNotAboveZero(at));
    }
    let index = measured_trait(registry, wishes.of_trait.as_deref())?;
    let groups = groups(context, ids, wishes.by_pod)?;
    no_plant_in_two(registry, &groups)?;
    let unit = TraitUnit::shown_in(registry, index);
    let scale = scale_of(&registry[index].reads);
    let (lives, told): (Vec<Lives>, Vec<GroupGrowth>) = groups
        .par_iter()
        .map(|group| {
            let lives = Lives::of(registry, group, today);
            let told = group_growth(
                registry,
                group,
                Shown {
                    index,
                    factor: unit.factor,
                    scale,
                },
                (&lives, today),
            );
            (lives, told)
        })
        .unzip();
    let several = told.len() > 1;
    let grown: Vec<(&str, &[Grown])> = told.iter().map(|of| (&*of.id, &of.grown[..])).collect();
    let counts: Vec<(&str, &[GerminationRow])> = told
        .iter()
        .map(|of| (&*of.id, &of.germination[..]))
        .collect();
    let plants = groups.iter().flat_map(|group| group.plants.iter().copied());
    Ok(GrowthReport {
        doubts: mix_ups(registry, plants.clone())
            .into_iter()
            .chain(context.names().doubts(plants.map(TopOf::Plant)))
            .collect(),
        far_readings: told
            .iter()
            .flat_map(|of| far_words(registry, &unit, of))
            .collect(),
        shared_rates: if several {
            shared_window(registry, &grown, scale)
        } else {
            None
        },
        germination_compared: compared(&counts),
        scale,
        of_trait: unit.name.clone(),
        unit: unit.unit,
        cm_shown: unit.factor,
        at: wishes.at,
        comparisons: comparisons(registry, &groups, &told, wishes.at),
        alike_in_deaths: if groups.len() > 1 {
            alike(&lives)
        } else {
            None
        },
        unitless: all_unitless(registry, &groups, &told, (index, unit.factor)),
        alone_at: match (&groups[..], &told[..], wishes.at) {
            ([group], [of], Some(at)) => Some(alone(registry, group, &of.grown, at)?),
            _ => None,
        },
        groups: told,
    })
}

/// The trait to compare: the one asked for, else the leaf span.
fn measured_trait(registry: &Registry, name: Option<&str>) -> Result<TraitRow, GrowthError> {
    let found = match name {
        Some(name) => trait_named(registry, name).ok_or_else(|| GrowthError::UnknownTrait {
            name: name.to_owned(),
            declared: declared_codes(registry),
        })?,
        None => {
            span_trait(registry).ok_or_else(|| GrowthError::NoSpan(declared_codes(registry)))?
        }
    };
    let declared = &registry[found];
    match declared.reads {
        Reads::Length(_) | Reads::Count | Reads::Number => Ok(found),
        Reads::Scale(_) | Reads::Kinds(_) => {
            Err(GrowthError::NotMeasured(declared.code.to_owned()))
        }
    }
}

fn groups(context: &Context, ids: &[String], by_pod: bool) -> Result<Vec<Group>, GrowthError> {
    let mut groups: Vec<Group> = Vec::new();
    for id in ids {
        let group = Group::of(context, id)?;
        let parts = if by_pod {
            group.by_pod(context)
        } else {
            vec![group]
        };
        for part in parts {
            groups.push(part);
        }
    }
    Ok(groups)
}

/// All pairs of a few groups; of many, each with the first. Probabilities are adjusted for their number.
fn comparisons(
    registry: &Registry,
    groups: &[Group],
    told: &[GroupGrowth],
    at: Option<f64>,
) -> Vec<Comparison> {
    let side = |at: usize| Measured {
        group: &groups[at],
        grown: &told[at].grown,
    };
    let firsts = if groups.len() <= ALL_PAIRS {
        groups.len()
    } else {
        1
    };
    let pairs = (0..firsts).flat_map(|a| (a + 1..groups.len()).map(move |b| (a, b)));
    let mut found: Vec<Comparison> = pairs
        .map(|(a, b)| compare(registry, side(a), side(b), at))
        .collect();
    let p: Vec<f64> = found.iter().filter_map(|comparison| comparison.p).collect();
    // One pair is judged by its interval, which also allows for vague days.
    if p.len() > 1 {
        let tested = found.iter_mut().filter(|comparison| comparison.p.is_some());
        for (comparison, adjusted) in tested.zip(holm(&p)) {
            comparison.allow_for_pairs(adjusted);
        }
    }
    found
}

fn all_unitless(
    registry: &Registry,
    groups: &[Group],
    told: &[GroupGrowth],
    (index, shown): (TraitRow, f64),
) -> Vec<Unitless> {
    let of_group = |(group, told): (&Group, &GroupGrowth)| {
        if told.left_out.unit_unknown == 0 {
            return Vec::new();
        }
        // A single plant's siblings say how fast such plants grow.
        let mut grown = told.grown.clone();
        grown.extend(told.siblings.iter().map(|(_, grown)| grown.clone()));
        grown.sort_by_key(|grown| grown.plant);
        for point in grown.iter_mut().flat_map(|grown| &mut grown.points) {
            point.size /= shown;
        }
        unitless(registry, &group.plants, index, &grown)
    };
    groups.iter().zip(told).flat_map(of_group).collect()
}

/// Refuses groups that share a plant or a sowing: their difference would be tested as if they were independent.
fn no_plant_in_two(registry: &Registry, groups: &[Group]) -> Result<(), GrowthError> {
    let mut ids: BTreeSet<&str> = BTreeSet::new();
    let mut group_of: BTreeMap<PlantRow, &Group> = BTreeMap::new();
    let mut sown_in: BTreeMap<SowingRow, &Group> = BTreeMap::new();
    for group in groups {
        if !ids.insert(&group.id) {
            let id = group.id.clone();
            return Err(GrowthError::NamedTwice(id));
        }
        for &plant in &group.plants {
            if let Some(other) = group_of.insert(plant, group) {
                return Err(GrowthError::SharedPlant {
                    of: (other.id.clone(), group.id.clone()),
                    plant: registry.code(plant),
                });
            }
        }
        for &sowing in &group.sowings {
            if let Some(other) = sown_in.insert(sowing, group) {
                return Err(GrowthError::SharedSowing {
                    of: (other.id.clone(), group.id.clone()),
                    sowing: registry[sowing].code.to_owned(),
                });
            }
        }
    }
    Ok(())
}
