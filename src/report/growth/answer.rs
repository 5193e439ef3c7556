//! The whole answer to "who grows": groups, comparisons, and what was left out.

use super::alone::{Alone, alone};
use super::compare::{Comparison, Measured, compare};
use super::germination::{GerminationRow, germination_of};
use super::group::{Group, GroupKind};
use super::grown::Grown;
use super::rates::{CurveRow, PlantRate, RateRow, curves, group_rate, plant_rate};
use super::sittings::{SittingRow, sitting_rows};
use super::survival::{Lives, SurvivalRow, alike};
use super::typed::{TypedRow, typed};
use super::unitless::{Unitless, unitless};
use crate::lineage::PlantRow;
use crate::record::{Day, Reads};
use crate::registry::Registry;
use crate::report::series::{LeftOut, comparable, span_trait, trait_named};
use crate::report::trait_unit::TraitUnit;
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
    /// The day that counts as today.
    pub today: Day,
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
    pub(super) cm_shown: f64,
    /// The age asked for, months.
    pub at: Option<f64>,
    /// The groups in the order asked for.
    pub groups: Vec<GroupGrowth>,
    /// Pairs of groups.
    pub comparisons: Vec<Comparison>,
    /// Chance that the groups die alike (log-rank); `null` under five deaths or for one group.
    pub alike_in_deaths: Option<f64>,
    /// Lengths without a unit.
    pub unitless: Vec<Unitless>,
    /// Sizes of a single group at the age asked for.
    pub alone_at: Option<Alone>,
}

/// The growth of one group.
#[derive(Serialize)]
pub struct GroupGrowth {
    /// Code asked for.
    pub id: String,
    /// What it is.
    pub kind: GroupKind,
    /// Plants on record, alive or not.
    pub plants: usize,
    /// Plants with a comparable size.
    pub measured: usize,
    /// Plants without a dated sowing: they have sizes but no age.
    pub without_age: usize,
    /// Readings left out, and why.
    pub left_out: LeftOut,
    /// Sizes as read, sitting by sitting.
    pub sittings: Vec<SittingRow>,
    /// Mean growth rate.
    pub rate: Option<RateRow>,
    /// Curves, the chosen one first.
    pub curves: Vec<CurveRow>,
    /// Every measured plant.
    pub each: Vec<PlantRate>,
    /// A single plant's readings as typed; empty for other groups.
    pub typed: Vec<TypedRow>,
    /// Survival of numbered plants.
    pub survival: Option<SurvivalRow>,
    /// Germination of its sowings.
    pub germination: Vec<GerminationRow>,
    /// Sizes over age, for drawing.
    #[serde(skip)]
    pub grown: Vec<Grown>,
    /// Siblings of a single plant, for drawing.
    #[serde(skip)]
    pub siblings: Vec<(String, Grown)>,
}

/// Works out who grows.
///
/// # Errors
/// In words: a code that names nothing that grows, a trait that is not declared or not measured, an age not above zero.
pub fn growth(
    registry: &Registry,
    ids: &[String],
    wishes: &GrowthWishes,
) -> Result<GrowthReport, String> {
    if let Some(at) = wishes.at
        && !(at.is_finite() && at > 0.0)
    {
        return Err(format!(
            "--at needs an age in months above zero; found {at}"
        ));
    }
    let index = measured_trait(registry, wishes.of_trait.as_deref())?;
    let groups = groups(registry, ids, wishes.by_pod)?;
    no_plant_in_two(registry, &groups)?;
    let unit = TraitUnit::shown_in(registry, index);
    let (lives, told): (Vec<Lives>, Vec<GroupGrowth>) = groups
        .par_iter()
        .map(|group| {
            let lives = Lives::of(registry, group, wishes.today);
            let told = group_growth(registry, group, (index, unit.factor), &lives);
            (lives, told)
        })
        .unzip();
    Ok(GrowthReport {
        of_trait: unit.name,
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
fn measured_trait(registry: &Registry, name: Option<&str>) -> Result<u16, String> {
    let traits = &registry.settings.traits;
    let codes = || traits.iter().map(|t| t.code).collect::<Vec<_>>().join(", ");
    let found = match name {
        Some(name) => trait_named(registry, name)
            .ok_or_else(|| format!("no trait is called `{name}`\ndeclared are {}", codes()))?,
        None => span_trait(registry).ok_or_else(|| {
            format!(
                "no trait is called span\nname one with --trait; declared are {}",
                codes()
            )
        })?,
    };
    let declared = &traits[usize::from(found)];
    match declared.reads {
        Reads::Length(_) | Reads::Count | Reads::Number => Ok(found),
        Reads::Scale(_) | Reads::Kinds(_) => Err(format!(
            "`{}` is not measured but judged, so it does not grow\nname a length, a count or a number with --trait",
            declared.code
        )),
    }
}

fn groups(registry: &Registry, ids: &[String], by_pod: bool) -> Result<Vec<Group>, String> {
    let mut groups: Vec<Group> = Vec::new();
    for id in ids {
        let group = Group::of(registry, id)?;
        let parts = if by_pod {
            group.by_pod(registry)
        } else {
            vec![group]
        };
        for part in parts {
            groups.push(part);
        }
    }
    Ok(groups)
}

/// One group; `shown` is what a size as read is multiplied by.
fn group_growth(
    registry: &Registry,
    group: &Group,
    (index, shown): (u16, f64),
    lives: &Lives,
) -> GroupGrowth {
    let (readings, left_out) = comparable(registry, &group.plants, index);
    let grown = Grown::all(&readings, shown);
    let rates = || grown.par_iter().map(|g| plant_rate(registry, g)).collect();
    let (each, (sittings, curves)): (Vec<PlantRate>, _) =
        rayon::join(rates, || (sitting_rows(&grown), curves(&grown)));
    GroupGrowth {
        id: group.id.clone(),
        kind: group.kind,
        plants: group.plants.len(),
        measured: grown.len(),
        without_age: grown
            .iter()
            .filter(|g| g.points.iter().all(|point| point.age.is_none()))
            .count(),
        left_out,
        sittings,
        rate: group_rate(&each),
        curves,
        each,
        survival: match group.kind {
            GroupKind::Plant => None,
            _ => lives.row(),
        },
        germination: germination_of(registry, group),
        typed: match (group.kind, &group.plants[..]) {
            (GroupKind::Plant, &[plant]) => typed(registry, plant, (index, shown), &grown),
            _ => Vec::new(),
        },
        siblings: siblings(registry, group, (index, shown)),
        grown,
    }
}

/// The other plants of a single plant's sowing, or of its cross where no sowing is known.
fn siblings(
    registry: &Registry,
    group: &Group,
    (index, shown): (u16, f64),
) -> Vec<(String, Grown)> {
    let [plant] = group.plants[..] else {
        return Vec::new();
    };
    let (GroupKind::Plant, Some(cross)) = (group.kind, registry.cross_of(plant)) else {
        return Vec::new();
    };
    let sowing = registry.road(plant).0;
    let all = registry.crosses[cross as usize].seedlings.iter().copied();
    let plants: Vec<PlantRow> = all
        .filter(|&other| other != plant && registry.road(other).0 == sowing)
        .collect();
    let (readings, _) = comparable(registry, &plants, index);
    Grown::all(&readings, shown)
        .into_iter()
        .map(|grown| (registry.code(grown.plant), grown))
        .collect()
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
    let mut adjusted = holm(&p).into_iter();
    for comparison in &mut found {
        comparison.p = comparison.p.and_then(|_| adjusted.next());
    }
    found
}

fn all_unitless(
    registry: &Registry,
    groups: &[Group],
    told: &[GroupGrowth],
    (index, shown): (u16, f64),
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

/// Refuses groups that share a plant: their difference would be tested as if they were independent.
fn no_plant_in_two(registry: &Registry, groups: &[Group]) -> Result<(), String> {
    let mut ids: BTreeSet<&str> = BTreeSet::new();
    let mut group_of: BTreeMap<PlantRow, &Group> = BTreeMap::new();
    for group in groups {
        if !ids.insert(&group.id) {
            return Err(format!("{} is named twice; name it once", group.id));
        }
        for &plant in &group.plants {
            if let Some(other) = group_of.insert(plant, group) {
                return Err(format!(
                    "{} and {} share plants ({} among them), so they cannot be set against each other\nname groups that share none, such as two pods",
                    other.id,
                    group.id,
                    registry.code(plant)
                ));
            }
        }
    }
    Ok(())
}
