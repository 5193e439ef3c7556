//! Traits shown beside those that count: they change no index, no level and no front.
//!
//! Each is read at the latest age it shares among its sowing, whatever the age of the traits that count.

use crate::analysis::select::answer::{SelectReport, SelectTrait};
use crate::analysis::select::error::SelectError;
use crate::analysis::select::known::{Known, known_of};
use crate::analysis::select::rules::Counted;
use crate::analysis::siblings::known_trait;
use crate::observation::scope::Scope;
use crate::observation::trait_unit::TraitUnit;
use crate::record::Day;
use crate::registry::{Registry, TraitRow};
use std::sync::Arc;

/// The word for every trait that was read.
const ALL: &str = "all";

/// Adds traits to a proposal for the crosses of `ids`, by code or name, or `all` for every measure and scale that was read.
///
/// # Errors
/// When a trait is not declared, or its kinds have no order.
pub fn show_beside(
    registry: &Registry,
    ids: &[String],
    (named, today): (&[String], Day),
    report: &mut SelectReport,
) -> Result<(), SelectError> {
    let mut shown = Vec::new();
    for name in named {
        let counts = |of: &Counted| report.traits.iter().any(|known| known.code == of.unit.code);
        let new = match name == ALL {
            true => every(registry),
            false => vec![one(registry, name)?],
        };
        for of in new {
            let again = shown.iter().any(|known: &Counted| known.row == of.row);
            if !again && !counts(&of) {
                shown.push(of);
            }
        }
    }
    let scope = |id: &String| Scope::named(registry, id).map_err(SelectError::Scope);
    let scopes = ids.iter().map(scope).collect::<Result<Vec<_>, _>>()?;
    let known = |scope| known_of(registry, scope, &shown, today);
    let mut known: Vec<Known> = scopes.into_iter().map(known).collect();
    if named.iter().any(|name| name == ALL) {
        keep_read(&mut shown, &mut known);
    }
    add(report, &shown, &known);
    Ok(())
}

fn every(registry: &Registry) -> Vec<Counted> {
    let declared = registry.trait_rows();
    let all = declared.map(|index| counted(registry, index));
    all.filter(|of| of.unit.is_measure() || of.unit.is_scale)
        .collect()
}

fn one(registry: &Registry, name: &str) -> Result<Counted, SelectError> {
    let of = counted(registry, known_trait(registry, name)?);
    match of.unit.is_measure() || of.unit.is_scale {
        true => Ok(of),
        false => Err(SelectError::NoOrder(of.unit.name.clone())),
    }
}

fn counted(registry: &Registry, index: TraitRow) -> Counted {
    Counted {
        row: index,
        unit: Arc::new(TraitUnit::shown_in(registry, index).with_own_readings(registry, index)),
        weight: 0.0,
        level: None,
    }
}

/// Leaves out traits of which no plant has a reading.
fn keep_read(shown: &mut Vec<Counted>, known: &mut [Known]) {
    for at in (0..shown.len()).rev() {
        let is_read = |of: &Known| of.readings[at].iter().any(Option::is_some);
        if known.iter().any(is_read) {
            continue;
        }
        shown.remove(at);
        for of in known.iter_mut() {
            of.readings.remove(at);
            for gone in &mut of.gone {
                gone.readings.remove(at);
            }
        }
    }
}

fn add(report: &mut SelectReport, shown: &[Counted], known: &[Known]) {
    let column = |of: &Counted| SelectTrait {
        code: of.unit.code.clone(),
        heading: of.unit.heading(),
        weight: 0.0,
        less_is_better: false,
        unit: of.unit.clone(),
    };
    report.beside = shown.iter().map(column).collect();
    for row in &mut report.plants {
        let mut found = known.iter().filter_map(|of| {
            let at = of.plants.binary_search(&row.row).ok()?;
            Some(of.readings.iter().map(|readings| readings[at]).collect())
        });
        row.beside = found.next().unwrap_or_default();
    }
    for gone in &mut report.gone {
        let mut found = known.iter().flat_map(|of| &of.gone);
        let same = found.find(|of| of.plant == gone.plant && of.cross == gone.cross);
        gone.beside = same.map_or(Vec::new(), |of| of.readings.clone());
    }
    for (cross, of) in report.crosses.iter_mut().zip(known) {
        cross.read_at.extend(of.read_at.iter().cloned());
    }
}
