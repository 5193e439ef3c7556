//! Which traits count for a proposal, with which weight and level, by the rules the grower states.
//!
//! Nothing counts by itself: without a rule the answer is a refusal that shows a command for this registry.

use crate::analysis::select::error::SelectError;
use crate::analysis::select::reason::{Missed, Needed};
use crate::analysis::siblings::known_trait;
use crate::observation::trait_unit::TraitUnit;
use crate::record::KeepRules;
use crate::registry::{Registry, TraitRow};
use crate::statistics::culling::Level;
use std::sync::Arc;

/// A trait that counts.
pub(crate) struct Counted {
    pub row: TraitRow,
    pub unit: Arc<TraitUnit>,
    pub weight: f64,
    pub level: Option<Level>,
}

impl Counted {
    /// Its level, as a rule.
    pub fn needed(&self) -> Option<Needed> {
        let unit = self.unit.clone();
        self.level.map(|level| Needed { unit, level })
    }

    /// How a reading that does not reach its level misses it.
    pub fn missed(&self, read: Option<f64>) -> Option<Missed> {
        let (level, read) = (self.level?, read?);
        let (Level::AtLeast(stated) | Level::AtMost(stated)) = level;
        let tie = self.unit.tie();
        Some(Missed {
            unit: self.unit.clone(),
            level,
            read,
            unsure: tie.is_some_and(|tie| (read - stated).abs() <= tie + 1e-9),
        })
    }
}

/// The traits the rules name, each once, in the order of the rules.
///
/// # Errors
/// When a trait is not declared or cannot be weighed, a level says nothing, or no rule is stated.
pub(crate) fn counted_traits(
    registry: &Registry,
    ids: &[String],
    rules: &KeepRules,
) -> Result<Vec<Counted>, SelectError> {
    let mut traits: Vec<Counted> = Vec::new();
    for weight in &rules.weigh {
        let index = known_trait(registry, &weight.of)?;
        if traits.iter().any(|of| of.row == index) {
            let of = weight.of.clone();
            return Err(SelectError::WeighedTwice(of));
        }
        if weight.weight == 0.0 {
            let of = weight.of.clone();
            return Err(SelectError::WeightZero(of));
        }
        add(registry, &mut traits, &weight.of, (weight.weight, None))?;
    }
    for need in &rules.need {
        if need.at_least.is_none() && need.at_most.is_none() {
            let of = need.of.clone();
            return Err(SelectError::LevelWithoutLimit(of));
        }
        for level in [
            need.at_least.map(Level::AtLeast),
            need.at_most.map(Level::AtMost),
        ] {
            if level.is_some() {
                add(registry, &mut traits, &need.of, (0.0, level))?;
            }
        }
    }
    if traits.is_empty() {
        return Err(no_rules(registry, ids));
    }
    for of in &traits {
        reachable(of)?;
    }
    for (at, one) in traits.iter().enumerate() {
        let of_the_same = |other: &&Counted| other.row == one.row;
        for other in traits[at + 1..].iter().filter(of_the_same) {
            agreeing(one, other)?;
        }
    }
    Ok(traits)
}

/// Places of the traits that count, each trait once, though it may have two levels.
pub(crate) fn distinct(traits: &[Counted]) -> impl Iterator<Item = usize> {
    let first = |at: &usize| {
        let mut before = traits[..*at].iter();
        !before.any(|known| known.row == traits[*at].row)
    };
    (0..traits.len()).filter(first)
}

/// Refuses a level that no step of a scale can reach.
fn reachable(of: &Counted) -> Result<(), SelectError> {
    let (Some(steps), Some(level)) = (of.unit.steps(), of.level) else {
        return Ok(());
    };
    let (Level::AtLeast(stated) | Level::AtMost(stated)) = level;
    if (1.0..=steps as f64).contains(&stated) {
        return Ok(());
    }
    Err(SelectError::NotAStep {
        name: of.unit.name.clone(),
        level,
        steps: of.unit.kinds.clone().unwrap_or_default(),
    })
}

/// Refuses two levels of one trait that say the same side twice, or leave nothing between them.
fn agreeing(one: &Counted, other: &Counted) -> Result<(), SelectError> {
    let name = one.unit.name.clone();
    match (one.level, other.level) {
        (Some(Level::AtLeast(least)), Some(Level::AtMost(most)))
        | (Some(Level::AtMost(most)), Some(Level::AtLeast(least))) => match least > most {
            true => Err(SelectError::NothingBetween {
                name,
                unit: one.unit.unit,
                least,
                most,
                steps: one.unit.steps(),
            }),
            false => Ok(()),
        },
        (Some(one), Some(other)) => Err(SelectError::TwoLevels {
            name,
            levels: (one, other),
        }),
        _ => Ok(()),
    }
}

/// Adds a weight or a level to the trait it names.
fn add(
    registry: &Registry,
    traits: &mut Vec<Counted>,
    name: &str,
    (weight, level): (f64, Option<Level>),
) -> Result<(), SelectError> {
    let index = known_trait(registry, name)?;
    let unit = TraitUnit::shown_in(registry, index).with_own_readings(registry, index);
    if !unit.is_measure() && !unit.is_scale {
        return Err(SelectError::NoOrder(unit.name));
    }
    if !weight.is_finite() {
        return Err(SelectError::WeightNotFinite(unit.name));
    }
    match traits
        .iter_mut()
        .find(|of| of.row == index && (level.is_none() || of.level.is_none()))
    {
        Some(of) => {
            of.weight += weight;
            of.level = of.level.or(level);
        }
        None => traits.push(Counted {
            row: index,
            unit: Arc::new(unit),
            weight,
            level,
        }),
    }
    Ok(())
}

/// The refusal without rules: an example of what could be weighed, from the traits of this registry.
fn no_rules(registry: &Registry, ids: &[String]) -> SelectError {
    let declared = registry.trait_rows();
    let units: Vec<TraitUnit> = declared
        .map(|index| TraitUnit::shown_in(registry, index))
        .collect();
    let measure = units.iter().find(|unit| unit.is_measure());
    let scale = units.iter().find(|unit| unit.is_scale);
    let weights = [(measure, 1), (scale, 2)].into_iter();
    SelectError::NoRules {
        ids: ids.to_vec(),
        example: weights
            .filter_map(|(unit, weight)| Some((unit?.code.clone(), weight)))
            .collect(),
    }
}
