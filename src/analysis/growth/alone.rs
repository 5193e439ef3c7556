//! Sizes of one group at an age asked for, and who could not be placed at it.
//!
//! Sizes are read or interpolated as in a comparison, never stretched before a plant's first or after its last reading.

use crate::analysis::growth::compare::{Measured, Side, side_at};
use crate::analysis::growth::group::Group;
use crate::analysis::growth::grown::Grown;
use crate::analysis::growth::one_group::is_of_several_pods;
use crate::analysis::growth::told::GrowthError;
use crate::observation::moment::NEAR;
use crate::observation::no_age::Undated;
use crate::registry::Registry;
use serde::Serialize;

/// One group at one age.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Alone {
    /// The age asked for, months.
    pub at: f64,
    /// Its sizes.
    pub sizes: Side,
    /// Plants without a size at the age, by the reason.
    pub not_placed: Vec<NotPlaced>,
}

/// Plants that have no size at an age for one reason.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct NotPlaced {
    /// Why.
    pub why: NoSize,
    /// Their codes.
    pub plants: Vec<String>,
}

/// Why a plant has no size at an age.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoSize {
    /// It has no reading that can be compared.
    NoReading,
    /// It has no age: it may be of several pods.
    OfSeveralPods,
    /// It has no age: a day is missing.
    Undated(Undated),
    /// It was last read before.
    ReadBefore,
    /// It was first read after.
    ReadAfter,
    /// Its dates are too vague.
    VagueDates,
}

/// Sizes of a group at an age.
///
/// # Errors
/// When no plant has a size at it.
pub fn alone(
    registry: &Registry,
    group: &Group,
    grown: &[Grown],
    at: f64,
) -> Result<Alone, GrowthError> {
    let mut not_placed: Vec<NotPlaced> = Vec::new();
    for &plant in &group.plants {
        // Readings come by plant, so the plants stand in order.
        let found = grown.binary_search_by_key(&plant, |grown| grown.plant);
        let Some(why) = why_not(registry, found.ok().map(|found| &grown[found]), at) else {
            continue;
        };
        let code = registry.code(plant);
        match not_placed.iter_mut().find(|known| known.why == why) {
            Some(known) => known.plants.push(code),
            None => not_placed.push(NotPlaced {
                why,
                plants: vec![code],
            }),
        }
    }
    let Some(sizes) = side_at(registry, Measured { group, grown }, at) else {
        return Err(GrowthError::NoSizeAt {
            id: group.id.clone(),
            at,
            is_vague: not_placed.iter().any(|of| of.why == NoSize::VagueDates),
            read: ends_read(grown),
        });
    };
    Ok(Alone {
        at,
        sizes,
        not_placed,
    })
}

/// Why a plant has no size at an age; `None` when it has one.
fn why_not(registry: &Registry, grown: Option<&Grown>, at: f64) -> Option<NoSize> {
    let Some(grown) = grown else {
        return Some(NoSize::NoReading);
    };
    if grown.at(at).is_some() {
        return None;
    }
    let aged = grown.points.iter().filter_map(|point| point.age);
    let ends = aged.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
    Some(match ends {
        None if is_of_several_pods(registry, grown) => NoSize::OfSeveralPods,
        None => NoSize::Undated(Undated::of(grown.points.iter().map(|point| point.when))),
        Some((_, last)) if at > last + NEAR => NoSize::ReadBefore,
        Some((first, _)) if at < first - NEAR => NoSize::ReadAfter,
        Some(_) => NoSize::VagueDates,
    })
}

/// The ages, months, that the first and the last of some readings may have.
fn ends_read(grown: &[Grown]) -> Option<[(f64, f64); 2]> {
    let points = grown.iter().flat_map(|grown| &grown.points);
    let read = points.filter_map(|point| point.age);
    let first = read.clone().min_by(|a, b| a.0.total_cmp(&b.0))?;
    let last = read.max_by(|a, b| a.1.total_cmp(&b.1))?;
    Some([first, last])
}
