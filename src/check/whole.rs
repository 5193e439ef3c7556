//! All checks of a registry in one run.

use super::context::CheckContext;
use super::{
    backups, counts, cultivars, dates, labels, last_of_sex, lives, lots, mothers, one_plant, pots,
    readings, references, sexes, shrinking, suppliers, taken_out, taxa, timeline, traits,
    undated_sex, years,
};
use crate::diagnostic::{Finding, Findings};
use crate::record::Day;
use crate::registry::{PlantRow, Registry};
use rayon::prelude::*;

/// What is asked of the registry as a whole.
const OF_WHOLE: [fn(&CheckContext) -> Vec<Finding>; 10] = [
    dates::of_pollen,
    lots::of_pollen,
    sexes::of_pollen,
    backups::all,
    shrinking::of_founders,
    suppliers::all,
    traits::all,
    taxa::all,
    cultivars::all,
    labels::all,
];

/// Every finding that needs the whole registry, on the day that counts as today. The order of findings does not depend
/// on how many cores work.
pub fn all(registry: &Registry, today: Day) -> Findings {
    let context = &CheckContext::new(registry, today);
    let of_crosses: Vec<Vec<Finding>> = (0..registry.crosses.len())
        .into_par_iter()
        .map(|cross| of_cross(context, cross))
        .collect();
    let of_founders: Vec<Vec<Finding>> = (0..registry.founders().len() as u32)
        .into_par_iter()
        .map(|row| of_plant(context, PlantRow(row)))
        .collect();
    let of_sittings: Vec<Vec<Finding>> = (0..registry.readings.sittings().len())
        .into_par_iter()
        .map(|sitting| readings::of_sitting(context, sitting))
        .collect();
    let of_whole: Vec<Vec<Finding>> = OF_WHOLE.par_iter().map(|all| all(context)).collect();
    let mut findings = Findings::new();
    let told = [of_crosses, of_founders, of_sittings, of_whole];
    findings.extend(told.into_iter().flatten().flatten());
    findings
}

/// What is asked of a cross and of the seedlings that have more to tell than a number.
fn of_cross(context: &CheckContext, cross: usize) -> Vec<Finding> {
    let mut found = Vec::new();
    for question in [
        dates::of_cross,
        references::of_cross,
        timeline::of_cross,
        counts::of_cross,
        taken_out::of_cross,
        sexes::of_cross,
        one_plant::of_cross,
        mothers::of_cross,
        last_of_sex::of_cross,
        shrinking::of_cross,
        lots::of_cross,
        years::of_cross,
    ] {
        found.extend(question(context, cross));
    }
    for &plant in &context.registry.crosses[cross].seedlings {
        if context.tells_more(plant) {
            found.extend(of_plant(context, plant));
        }
    }
    found
}

/// What is asked of a founder or seedling.
fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let mut found = Vec::new();
    for question in [
        dates::of_plant,
        references::of_plant,
        lives::of_plant,
        sexes::of_plant,
        undated_sex::of_plant,
        pots::of_plant,
    ] {
        found.extend(question(context, plant));
    }
    found
}
