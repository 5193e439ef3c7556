//! The readings of one trait as a mixed model: which columns each reading has.
//!
//! Lengths are taken on the logarithm, so that effects are proportions. Columns: the mean; age and its square, as far as
//! the ages read can tell them; a sitting, that is one day, place and method, on whichever page it stands; a pod; the
//! shares of species. A length grows, so it is compared at an age or not at all: a reading is left out where its day or
//! that of sowing is not known to a month. Of other traits most readings must have an age, or age is no effect, which the
//! answer says.

use crate::analysis::merit::species::SpeciesColumns;
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::batch::{Batch, batch};
use crate::observation::doubtful::doubtful_readings;
use crate::observation::moment::is_within_a_month;
use crate::observation::months::MONTH;
use crate::observation::series::{Comparable, LeftOut, SittingKey, comparable, sitting_key};
use crate::planning::merit::{AgeCurve, Design, Reading};
use crate::record::Reads;
use crate::registry::{CrossRow, Registry, SittingRow, TraitRow};
use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

/// The model of one trait.
pub(crate) struct Model<'r, 't> {
    pub design: Design,
    pub left_out: LeftOut,
    /// How many readings are doubtful, in words.
    pub doubtful: Option<String>,
    pub plants: usize,
    pub pods: usize,
    pub crosses: usize,
    /// The terms of age; `None` where age is no effect.
    pub ages: Option<AgeCurve>,
    species: SpeciesColumns<'r, 't>,
}

impl Model<'_, '_> {
    /// The columns of a plant's species with its shares.
    pub fn species_of(&self, plant: PlantRow) -> &[(u32, f64)] {
        self.species.of(plant)
    }
}

/// Groups of columns of equal variance, in the order of the model's fractions.
const SITTING: usize = 0;
const POD: usize = 1;
const SPECIES: usize = 2;

pub(crate) fn model<'r, 't>(context: &Context<'r, 't>, index: TraitRow) -> Model<'r, 't> {
    let registry = context.registry;
    let plants: Vec<PlantRow> = registry.plants().collect();
    let (mut readings, mut left_out) = comparable(registry, &plants, index);
    let declared = &registry[index];
    let is_length = matches!(declared.reads, Reads::Length(_));
    let ages = ages(&mut readings, &mut left_out, is_length);
    let (sitting_of, sittings) = sittings(registry, &readings);
    let read = plants_read(&readings);
    let pod_of: Vec<PodKey> = read.iter().map(|plant| pod_key(registry, *plant)).collect();
    let pods: BTreeSet<PodKey> = pod_of.iter().copied().collect();
    let fixed = 1 + ages.map_or(0, |ages| ages.terms());
    let (first_sitting, first_pod) = (fixed, fixed + sittings);
    let first_species = first_pod + pods.len();
    let species = SpeciesColumns::of_all(context, first_species as u32);
    let mut group_of: Vec<Option<usize>> = vec![None; fixed];
    group_of.extend(vec![Some(SITTING); sittings]);
    group_of.extend(vec![Some(POD); pods.len()]);
    group_of.extend(vec![Some(SPECIES); context.descent().species.len()]);
    let rows = readings.iter().zip(sitting_of).map(|(reading, sitting)| {
        let mut columns: Vec<(u32, f64)> = Vec::new();
        if let (Some(ages), Some(age)) = (ages, age(reading)) {
            columns.extend((1..).zip(ages.at(age)));
        }
        columns.push(((first_sitting + sitting) as u32, 1.0));
        let value = if is_length {
            libm::log(reading.value)
        } else {
            reading.value
        };
        Reading {
            plant: reading.plant.0,
            value,
            columns,
        }
    });
    let pod_at: BTreeMap<PodKey, usize> = pods.iter().copied().zip(first_pod..).collect();
    let family = |plant: PlantRow, pod: PodKey| -> Vec<(u32, f64)> {
        let mut columns = vec![(0, 1.0), (pod_at[&pod] as u32, 1.0)];
        columns.extend(species.of(plant));
        columns
    };
    let of_plants = read.iter().copied().zip(pod_of);
    let (families, family_of) = families(of_plants, registry.plants().count(), family);
    let siblings = || {
        pods.iter().filter_map(|pod| match pod {
            PodKey::Siblings(cross, _) => Some(*cross),
            PodKey::Alone(_) => None,
        })
    };
    Model {
        design: Design {
            readings: rows.collect(),
            group_of,
            families,
            family_of,
        },
        left_out,
        doubtful: doubtful_readings(declared, &readings),
        ages,
        plants: read.len(),
        pods: siblings().count(),
        crosses: siblings().collect::<BTreeSet<_>>().len(),
        species,
    }
}

/// Leaves out readings that cannot be compared for want of an age, and gives the terms of age for the others. What does not
/// need one may do without, when few have one.
fn ages(
    readings: &mut Vec<Comparable>,
    left_out: &mut LeftOut,
    needs_one: bool,
) -> Option<AgeCurve> {
    let aged = readings.iter().filter_map(age).count();
    if !needs_one && aged * 2 <= readings.len() {
        return None;
    }
    left_out.age_unknown += readings.len() - aged;
    readings.retain(|reading| age(reading).is_some());
    Some(AgeCurve::of(readings.iter().filter_map(age)))
}

/// The age at a reading in months, where both the day of sowing and that of reading are known to a month.
fn age(reading: &Comparable) -> Option<f64> {
    let (least, most) = reading.age?;
    let of_reading = f64::from(reading.when.last.0 - reading.when.first.0) / MONTH;
    let is_known = is_within_a_month(of_reading) && is_within_a_month(most - least - of_reading);
    is_known.then_some(0.5 * (least + most))
}

/// Columns with their values.
type Columns = Vec<(u32, f64)>;

/// The columns each plant's readings share, alike ones once, and for each row their place.
fn families(
    read: impl Iterator<Item = (PlantRow, PodKey)>,
    plants: usize,
    family: impl Fn(PlantRow, PodKey) -> Columns,
) -> (Vec<Columns>, Vec<Option<u32>>) {
    let mut families: Vec<Columns> = Vec::new();
    let mut family_of = vec![None; plants];
    for (plant, pod) in read {
        let columns = family(plant, pod);
        if families.last() != Some(&columns) {
            families.push(columns);
        }
        family_of[plant.index()] = Some(families.len() as u32 - 1);
    }
    (families, family_of)
}

/// The plants that were read, in the order of the registry, each once.
fn plants_read(readings: &[Comparable]) -> Vec<PlantRow> {
    let mut plants: Vec<PlantRow> = readings.iter().map(|reading| reading.plant).collect();
    plants.sort_unstable();
    plants.dedup();
    plants
}

/// The number of each reading's sitting in the order of their days, and how many there are.
fn sittings(registry: &Registry, readings: &[Comparable]) -> (Vec<usize>, usize) {
    // A page holds many readings: what makes it one sitting with others is compared once for each page.
    let pages: HashSet<SittingRow> = readings.iter().map(|reading| reading.sitting).collect();
    let key = |page: SittingRow| sitting_key(registry, page);
    let keys: BTreeSet<SittingKey> = pages.iter().copied().map(key).collect();
    let number: BTreeMap<SittingKey, usize> = keys.into_iter().zip(0..).collect();
    let at: HashMap<SittingRow, usize> = pages
        .into_iter()
        .map(|page| (page, number[&key(page)]))
        .collect();
    let of = readings.iter().map(|reading| at[&reading.sitting]);
    (of.collect(), number.len())
}

/// What plants of one pod share.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum PodKey {
    /// Cross and batch of a seedling.
    Siblings(CrossRow, Mates),
    /// A founder, or a seedling that may be of several pods.
    Alone(PlantRow),
}

/// The batch of a seedling; those without one count together, after the others of their cross.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Mates {
    Known(Batch),
    Unknown,
}

/// The pod of a plant.
fn pod_key(registry: &Registry, plant: PlantRow) -> PodKey {
    // One that may be of several pods shares what they share with none of them for sure.
    let is_of_several = !registry.pods_it_may_be_of(plant).is_empty();
    match registry.cross_of(plant).filter(|_| !is_of_several) {
        Some(cross) => {
            let batch = batch(registry, plant);
            PodKey::Siblings(cross, batch.map_or(Mates::Unknown, Mates::Known))
        }
        None => PodKey::Alone(plant),
    }
}
