//! One group by itself: sizes, rates, curves, survival, germination, and what was left out.

use crate::analysis::growth::germination::{GerminationRow, germination_of};
use crate::analysis::growth::group::{Group, GroupKind};
use crate::analysis::growth::grown::Grown;
use crate::analysis::growth::rates::{
    CurveRow, PlantRate, RateRow, curves, group_rate, plant_rate,
};
use crate::analysis::growth::sittings::{SittingLine, sitting_rows};
use crate::analysis::growth::survival::{Lives, SurvivalRow};
use crate::analysis::growth::typed::{TypedRow, typed};
use crate::lineage::PlantRow;
use crate::observation::far_readings::{Sized, far_of};
use crate::observation::no_age::Undated;
use crate::observation::provenance::sure_sowing;
use crate::observation::scope::{Scope, with_siblings};
use crate::observation::series::{LeftOut, comparable_by_day, comparable_of_one, method_of};
use crate::observation::trait_unit::TraitUnit;
use crate::record::{Day, Reads};
use crate::registry::{Registry, SittingRow, TraitRow};
use crate::statistics::Scale;
use rayon::prelude::*;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

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
    /// Plants with sizes but no age at any of them.
    pub without_age: usize,
    /// Those of them whose sowing is not known because they were mixed up with a plant of another pod.
    pub of_several_pods: usize,
    /// Which day the others of them lack.
    #[serde(skip)]
    pub undated: Option<Undated>,
    /// Numbered seedlings that may come from another sowing, pod or cross and are not counted.
    pub may_be_elsewhere: usize,
    /// Readings left out, and why.
    pub left_out: LeftOut,
    /// Sizes as read, sitting by sitting.
    pub sittings: Vec<SittingLine>,
    /// Mean growth rate.
    pub rate: Option<RateRow>,
    /// By which methods the plants followed were read, where that were several.
    pub methods: Vec<String>,
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

/// On which scale readings of a trait are interpolated: lengths grow in proportion, counts and numbers may be zero.
pub(crate) fn scale_of(reads: &Reads) -> Scale {
    match reads {
        Reads::Length(_) => Scale::Log,
        _ => Scale::Plain,
    }
}

/// How the trait asked for is read and shown.
#[derive(Clone, Copy)]
pub(crate) struct Shown {
    pub index: TraitRow,
    /// What a size as read is multiplied by.
    pub factor: f64,
    pub scale: Scale,
}

/// Readings of a group far from those of the same sowing at the same sitting; a single plant is set among its siblings.
pub(crate) fn far_words(registry: &Registry, unit: &TraitUnit, of: &GroupGrowth) -> Vec<String> {
    let siblings = of.siblings.iter().map(|(_, grown)| grown);
    let sized = |grown: &Grown| {
        let plant = grown.plant;
        let points = grown.points.clone().into_iter();
        points.map(move |point| Sized {
            plant,
            when: point.when,
            size: point.size,
        })
    };
    let sizes = of.grown.iter().chain(siblings).flat_map(sized).collect();
    let mine = |plant: PlantRow| {
        let found = of.grown.binary_search_by_key(&plant, |grown| grown.plant);
        found.is_ok()
    };
    let told = far_of(registry, unit, sizes).into_iter();
    told.filter(|(plant, _)| mine(*plant))
        .map(|(_, words)| words)
        .collect()
}

/// One group.
pub(crate) fn group_growth(
    registry: &Registry,
    group: &Group,
    of: Shown,
    (lives, today): (&Lives, Day),
) -> GroupGrowth {
    let (index, shown) = (of.index, of.factor);
    let (readings, left_out) = match (group.kind, &group.plants[..]) {
        (GroupKind::Plant, &[plant]) => {
            comparable_of_one(registry, plant, &with_siblings(registry, plant), index)
        }
        (_, plants) => comparable_by_day(registry, plants, index),
    };
    let grown = Grown::all(&readings, shown, of.scale);
    let ageless = |g: &&Grown| g.points.iter().all(|point| point.age.is_none());
    let (several, undated): (Vec<&Grown>, Vec<&Grown>) =
        (grown.iter().filter(ageless)).partition(|grown| is_of_several_pods(registry, grown));
    let undated_points = undated.iter().flat_map(|grown| &grown.points);
    let days_undated = Undated::of(undated_points.map(|point| point.when));
    let rates = || grown.par_iter().map(|g| plant_rate(registry, g)).collect();
    let (each, (sittings, curves)): (Vec<PlantRate>, _) =
        rayon::join(rates, || (sitting_rows(&grown), curves(&grown)));
    GroupGrowth {
        id: group.id.clone(),
        kind: group.kind,
        plants: group.plants.len(),
        measured: grown.len(),
        without_age: several.len() + undated.len(),
        of_several_pods: several.len(),
        undated: (!undated.is_empty()).then_some(days_undated),
        may_be_elsewhere: group.may_be_elsewhere,
        left_out,
        sittings,
        rate: group_rate(&each),
        methods: several_methods(registry, &grown),
        curves,
        each,
        survival: match group.kind {
            GroupKind::Plant => None,
            _ => lives.row(),
        },
        germination: germination_of(registry, group, today),
        typed: match (group.kind, &group.plants[..]) {
            (GroupKind::Plant, &[plant]) => typed(registry, plant, (index, shown), &grown),
            _ => Vec::new(),
        },
        siblings: siblings(registry, group, of),
        grown,
    }
}

/// The methods of plants read more than once, however they are spelt; empty where it was one.
fn several_methods(registry: &Registry, grown: &[Grown]) -> Vec<String> {
    let followed = grown.iter().filter(|of| of.points.len() > 1);
    let points = followed.flat_map(|of| &of.points);
    let sittings: BTreeSet<SittingRow> = points.map(|point| point.sitting).collect();
    let mut methods: BTreeMap<String, &str> = BTreeMap::new();
    for sitting in sittings {
        let typed = registry[sitting].sitting.method.as_deref();
        if let Some((method, typed)) = method_of(registry, sitting).zip(typed) {
            methods.entry(method).or_insert(typed);
        }
    }
    match methods.len() {
        0 | 1 => Vec::new(),
        _ => methods.into_values().map(str::to_owned).collect(),
    }
}

/// Whether it is not known from which of several pods a plant came, so that none of its readings has an age.
pub(crate) fn is_of_several_pods(registry: &Registry, grown: &Grown) -> bool {
    !registry.pods_it_may_be_of(grown.plant).is_empty()
}

/// The other plants of a single plant's sowing, or of its cross where no sowing is known.
fn siblings(registry: &Registry, group: &Group, of: Shown) -> Vec<(String, Grown)> {
    let [plant] = group.plants[..] else {
        return Vec::new();
    };
    let (GroupKind::Plant, Some(cross)) = (group.kind, registry.cross_of(plant)) else {
        return Vec::new();
    };
    let sowing = registry.road(plant).0;
    // One that may be of several pods or sowings has no siblings for sure.
    if !registry.pods_it_may_be_of(plant).is_empty() || sure_sowing(registry, plant) != sowing {
        return Vec::new();
    }
    let scope = Scope {
        cross,
        pod: None,
        sowing,
    };
    let (mut plants, _) = scope.seedlings(registry);
    plants.retain(|&other| other != plant && registry.road(other).0 == scope.sowing);
    let (readings, _) = comparable_by_day(registry, &plants, of.index);
    Grown::all(&readings, of.factor, of.scale)
        .into_iter()
        .map(|grown| (registry.code(grown.plant), grown))
        .collect()
}
