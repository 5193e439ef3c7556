//! Sizes of one group at an age asked for, and who could not be placed at it.
//!
//! Sizes are read or interpolated as in a comparison, never stretched before a plant's first or after its last reading.

use crate::analysis::growth::compare::{Measured, Side, side_at};
use crate::analysis::growth::group::Group;
use crate::analysis::growth::grown::Grown;
use crate::registry::Registry;
use crate::wording::{age, listed};
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
    pub why: &'static str,
    /// Their codes.
    pub plants: Vec<String>,
}

/// Sizes of a group at an age.
///
/// # Errors
/// In words, when no plant has a size at it.
pub fn alone(
    registry: &Registry,
    group: &Group,
    grown: &[Grown],
    at: f64,
) -> Result<Alone, String> {
    let Some(sizes) = side_at(registry, Measured { group, grown }, at) else {
        return Err(nobody(group, grown, at));
    };
    let mut not_placed: Vec<NotPlaced> = Vec::new();
    for &plant in &group.plants {
        // Readings come by plant, so the plants stand in order.
        let found = grown.binary_search_by_key(&plant, |grown| grown.plant);
        let Some(why) = why_not(found.ok().map(|found| &grown[found]), at) else {
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
    Ok(Alone {
        at,
        sizes,
        not_placed,
    })
}

/// Why a plant has no size at an age; `None` when it has one.
fn why_not(grown: Option<&Grown>, at: f64) -> Option<&'static str> {
    let Some(grown) = grown else {
        return Some("no comparable reading");
    };
    if grown.at(at).is_some() {
        return None;
    }
    let aged = grown.points.iter().filter_map(|point| point.age);
    let ends = aged.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)));
    Some(match ends {
        None => "no dated sowing",
        Some((_, last)) if at > last => "last read before",
        Some((first, _)) if at < first => "first read after",
        Some(_) => "dates too vague",
    })
}

fn nobody(group: &Group, grown: &[Grown], at: f64) -> String {
    let points = grown.iter().flat_map(|grown| &grown.points);
    let read = points.filter_map(|point| point.middle_age());
    let ages = read.fold(None, |ends: Option<(f64, f64)>, age| {
        Some(ends.map_or((age, age), |(least, most)| (least.min(age), most.max(age))))
    });
    let read = match ages {
        Some(ages) => format!("{} was read at {}", group.id, age(ages)),
        None => format!("{} has no reading at a known age", group.id),
    };
    format!(
        "no plant of {} has a size at {}; sizes are not stretched before the first or after the last reading\n{read}",
        group.id,
        age((at, at))
    )
}

impl Alone {
    /// Who could not be placed, one line for each reason.
    pub fn not_placed_lines(&self) -> Vec<String> {
        let told = self.not_placed.iter();
        told.map(|of| format!("not placed, {}: {}", of.why, listed(&of.plants)))
            .collect()
    }
}
