//! The goals as meant: what the file says, what flags say instead, and what stands where nothing is said.

use crate::analysis::expected_spread::BETWEEN_SPECIES;
use crate::analysis::plan::error::GoalsError;
use crate::lineage::PlantRow;
use crate::record::{GoalsPage, PollenLife, PollenPlace, goals_most};
use crate::registry::{Registry, Target};
use crate::wording::each_once;
use serde::Serialize;

/// What flags say; each outweighs the file.
#[derive(Clone, Debug, Default)]
pub struct GoalsGiven {
    /// Pots.
    pub pots: Option<u32>,
    /// Seedlings of a pod.
    pub seedlings_per_pod: Option<u32>,
    /// Pods of a female in flower.
    pub pods_per_spike: Option<u32>,
    /// Cap on inbreeding.
    pub most_inbreeding: Option<f64>,
    /// Cap on mean kinship with what is kept.
    pub most_kinship: Option<f64>,
    /// Traits with weights; replaces the file's when not empty.
    pub traits: Vec<(String, f64)>,
}

/// The goals a plan is made with. Defaults are our own judgement and printed with the plan.
#[derive(Clone, Debug, Serialize)]
pub struct Goals {
    /// Traits by code with their weights.
    pub traits: Vec<(String, f64)>,
    /// Pots for seedlings; `null` for no limit.
    pub pots: Option<u32>,
    /// Seedlings of a pod; 20 unless said otherwise.
    pub seedlings_per_pod: u32,
    /// Pods of a female in flower; 3 unless said otherwise.
    pub pods_per_spike: u32,
    /// Pods of an envelope or of a male in flower; 3 unless said otherwise.
    pub uses_per_pollen: u32,
    /// Pods of a pollen parent; `null` for as many as its pollen makes.
    pub uses_per_male: Option<u32>,
    /// Cap on inbreeding.
    pub most_inbreeding: Option<f64>,
    /// Cap on mean kinship with what is kept.
    pub most_kinship: Option<f64>,
    /// Cost of inbreeding of 1 in genetic standard deviations; 0 unless said otherwise.
    pub weight_on_inbreeding: f64,
    /// Heritability inside a species; 0.4 unless said otherwise.
    pub heritability: f64,
    /// S in units of V; 4 unless said otherwise, as middling for `variation`.
    pub species_differ: f64,
    /// Whether the goals say so.
    #[serde(skip)]
    pub(crate) species_differ_is_stated: bool,
    #[serde(skip)]
    pub(crate) must: Vec<(PlantRow, PlantRow)>,
    #[serde(skip)]
    pub(crate) never: Vec<(PlantRow, PlantRow)>,
    /// Species whose line is to go on.
    pub keep_lines: Vec<String>,
    #[serde(skip)]
    pub(crate) pollen_lasts: PollenLife,
}

/// Puts file, flags and defaults together.
///
/// # Errors
/// A number out of its range, an unknown plant, a pair both demanded and forbidden.
pub fn goals(
    registry: &Registry,
    page: &GoalsPage,
    given: &GoalsGiven,
) -> Result<Goals, GoalsError> {
    let of_page = page
        .traits
        .iter()
        .map(|of| (of.code.to_owned(), of.weight))
        .collect();
    let pairs = |pairs: &[crate::record::WantedPair]| {
        let pair = |pair: &crate::record::WantedPair| {
            Ok((plant(registry, pair.seed)?, plant(registry, pair.pollen)?))
        };
        pairs
            .iter()
            .map(pair)
            .collect::<Result<Vec<_>, GoalsError>>()
    };
    let goals = Goals {
        traits: if given.traits.is_empty() {
            of_page
        } else {
            given.traits.clone()
        },
        pots: given.pots.or(page.pots),
        seedlings_per_pod: given
            .seedlings_per_pod
            .or(page.seedlings_per_pod)
            .unwrap_or(20),
        pods_per_spike: given.pods_per_spike.or(page.pods_per_spike).unwrap_or(3),
        uses_per_pollen: page.uses_per_pollen.unwrap_or(3),
        uses_per_male: page.uses_per_male,
        most_inbreeding: given.most_inbreeding.or(page.most_inbreeding),
        most_kinship: given.most_kinship.or(page.most_kinship),
        weight_on_inbreeding: page.weight_on_inbreeding.unwrap_or(0.0),
        heritability: page.heritability.unwrap_or(0.4),
        species_differ: page.species_differ.unwrap_or(BETWEEN_SPECIES[1]),
        species_differ_is_stated: page.species_differ.is_some(),
        must: each_once(pairs(&page.must)?),
        never: pairs(&page.never)?,
        keep_lines: page.keep_lines.iter().map(|s| (*s).to_owned()).collect(),
        pollen_lasts: page.pollen_lasts,
    };
    check(&goals)?;
    refuse_contradicted(registry, &goals)?;
    Ok(goals)
}

fn plant(registry: &Registry, code: &str) -> Result<PlantRow, GoalsError> {
    let plant = registry.target(code).and_then(Target::plant);
    plant.ok_or_else(|| GoalsError::NoPlant {
        code: code.to_owned(),
        near: registry.near(code),
    })
}

/// Pairs that must be made and must not.
fn refuse_contradicted(registry: &Registry, goals: &Goals) -> Result<(), GoalsError> {
    match goals.must.iter().find(|pair| goals.never.contains(pair)) {
        Some(&(seed, pollen)) => Err(GoalsError::Contradicted(
            [seed, pollen].map(|plant| registry.code(plant)),
        )),
        None => Ok(()),
    }
}

fn check(goals: &Goals) -> Result<(), GoalsError> {
    let within = |field, found: f64| {
        let most = goals_most(field);
        match (0.0..=most).contains(&found) {
            true => Ok(()),
            false => Err(GoalsError::OutOfRange { field, most, found }),
        }
    };
    within("heritability", goals.heritability)?;
    within("most_inbreeding", goals.most_inbreeding.unwrap_or(0.0))?;
    within("most_kinship", goals.most_kinship.unwrap_or(0.0))?;
    within("species_differ", goals.species_differ)?;
    within("weight_on_inbreeding", goals.weight_on_inbreeding)?;
    let counts = [
        ("seedlings_per_pod", goals.seedlings_per_pod),
        ("pods_per_spike", goals.pods_per_spike),
        ("uses_per_pollen", goals.uses_per_pollen),
        ("uses_per_male", goals.uses_per_male.unwrap_or(1)),
    ];
    if let Some((field, _)) = counts.into_iter().find(|(_, n)| *n == 0) {
        return Err(GoalsError::Zero(field));
    }
    match goals.traits.iter().find(|(_, weight)| !weight.is_finite()) {
        Some((code, _)) => Err(GoalsError::Weight(code.clone())),
        None => Ok(()),
    }
}

impl Goals {
    /// The shortest and the longest life that pollen kept somewhere is planned with, days; no longest where a place it may be in
    /// has no limit, and `None` where none has one. Without a place it may be in any.
    pub(crate) fn lives(&self, place: Option<PollenPlace>) -> Option<(u32, Option<u32>)> {
        use PollenPlace::{Freezer, Fresh, Fridge, Room};
        let places = match place {
            Some(place) => vec![place],
            None => vec![Fresh, Room, Fridge, Freezer],
        };
        let lives: Vec<Option<u32>> = places.into_iter().map(|at| self.lasts(Some(at))).collect();
        let shortest = lives.iter().flatten().min()?;
        let all: Option<Vec<u32>> = lives.iter().copied().collect();
        Some((*shortest, all.and_then(|all| all.into_iter().max())))
    }

    /// Days a grower believes pollen lasts in a place.
    pub(crate) fn lasts(&self, place: Option<PollenPlace>) -> Option<u32> {
        match place? {
            PollenPlace::Fresh => self.pollen_lasts.fresh,
            PollenPlace::Room => self.pollen_lasts.room,
            PollenPlace::Fridge => self.pollen_lasts.fridge,
            PollenPlace::Freezer => self.pollen_lasts.freezer,
        }
    }
}
