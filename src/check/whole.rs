//! All checks of a registry in one run.

use super::context::CheckContext;
use super::{
    backups, counts, cultivars, dates, goals, labels, last_of_sex, lives, long_flowering, lots,
    mothers, numbered_when_sown, odd_codes, one_plant, one_sided, pieces, pots, readings,
    references, sexes, shared_codes, shrinking, suppliers, taken_out, taxa, threads, timeline,
    traits, undated_sex, years,
};
use crate::diagnostic::{Finding, Findings, Severity};
use crate::record::Day;
use crate::registry::{CrossRow, PlantRow, Registry, SittingRow};
use crate::text::on_cores;

/// Plants from which on they are asked on all cores.
const MANY: usize = 5_000;

/// A question to one thing, and whether its answer can be a fault: advice need not be sought where only faults count.
type Question<T> = (Gravity, fn(&CheckContext, T) -> Vec<Finding>);

/// A question to the registry as a whole.
type OfWhole = (Gravity, fn(&CheckContext) -> Vec<Finding>);

#[derive(Clone, Copy, PartialEq, Eq)]
enum Gravity {
    /// Warnings and notes only.
    Advice,
    /// Faults, beside other findings.
    Fault,
}

use Gravity::{Advice, Fault};

/// What is asked of the registry as a whole.
const OF_WHOLE: [OfWhole; 14] = [
    (Fault, dates::of_pollen),
    (Fault, lots::of_pollen),
    (Fault, sexes::of_pollen),
    (Advice, backups::all),
    (Advice, shrinking::of_founders),
    (Advice, suppliers::all),
    (Advice, threads::all),
    (Fault, traits::all),
    (Fault, goals::all),
    (Fault, shared_codes::all),
    (Fault, taxa::all),
    (Fault, cultivars::all),
    (Advice, labels::all),
    (Advice, odd_codes::all),
];

/// What is asked of a cross.
const OF_CROSS: [Question<CrossRow>; 13] = [
    (Fault, dates::of_cross),
    (Fault, references::of_cross),
    (Fault, timeline::of_cross),
    (Fault, counts::of_cross),
    (Fault, taken_out::of_cross),
    (Fault, sexes::of_cross),
    (Fault, one_plant::of_cross),
    (Fault, mothers::of_cross),
    (Advice, last_of_sex::of_cross),
    (Advice, shrinking::of_cross),
    (Fault, lots::of_cross),
    (Advice, years::of_cross),
    (Advice, one_sided::of_cross),
];

/// What is asked of a cross about its parents.
const OF_PARENTS: [fn(&CheckContext, CrossRow) -> Vec<Finding>; 4] = [
    sexes::of_cross,
    mothers::of_cross,
    lots::of_cross,
    timeline::parents_in_time,
];

/// What is asked of a founder or seedling.
const OF_PLANT: [Question<PlantRow>; 10] = [
    (Fault, dates::of_plant),
    (Fault, references::of_plant),
    (Fault, lives::of_plant),
    (Fault, sexes::of_plant),
    (Advice, undated_sex::of_plant),
    (Advice, numbered_when_sown::of_plant),
    (Advice, long_flowering::of_plant),
    (Fault, pots::of_plant),
    (Advice, pieces::of_plant),
    (Advice, one_sided::of_plant),
];

/// What is asked of a sitting.
const OF_SITTING: [Question<SittingRow>; 2] = [
    (Fault, readings::of_sitting),
    (Advice, readings::advice_on_sitting),
];

/// Every finding that needs the whole registry, on the day that counts as today. The order of findings does not depend
/// on how many cores work.
pub fn all(registry: &Registry, today: Day) -> Findings {
    asked(&CheckContext::new(registry, today), Advice)
}

/// What [`all`] finds but of the labels that founders came with: enough where neither they nor the names on them have
/// changed, and they are most of the work on a small registry.
pub fn all_but_founders_labels(registry: &Registry, today: Day) -> Findings {
    asked(
        &CheckContext::new(registry, today).without_founders_labels(),
        Advice,
    )
}

/// The faults that [`all`] would find in what is on record of the parents of a cross, pollen and ends of plants among it.
pub fn against_parents(registry: &Registry, cross: CrossRow, today: Day) -> Vec<Finding> {
    let context = CheckContext::new(registry, today);
    let found = OF_PARENTS
        .iter()
        .flat_map(|question| question(&context, cross));
    found.filter(|of| of.severity == Severity::Fault).collect()
}

/// How many faults [`all`] would find, without the work for warnings and notes.
pub fn faults(registry: &Registry, today: Day) -> usize {
    asked(&CheckContext::new(registry, today), Fault).count(Severity::Fault)
}

fn asked(context: &CheckContext, least: Gravity) -> Findings {
    let registry = context.registry;
    let crosses: Vec<CrossRow> = registry.cross_rows().collect();
    let founders: Vec<PlantRow> = PlantRow::all(registry.founders().len()).collect();
    let sittings: Vec<SittingRow> = registry.sitting_rows().collect();
    let wanted = |(gravity, _): &&OfWhole| counts(*gravity, least);
    let of_whole: Vec<&OfWhole> = OF_WHOLE.iter().filter(wanted).collect();
    let much = registry.plants().count() >= MANY;
    let of_crosses = on_cores(&crosses, much, |&cross| of_cross(context, cross, least));
    let of_founders = on_cores(&founders, much, |&founder| {
        answers(&OF_PLANT, context, founder, least)
    });
    let of_sittings = on_cores(&sittings, much, |&sitting| {
        answers(&OF_SITTING, context, sitting, least)
    });
    let of_whole = on_cores(&of_whole, much, |(_, all)| all(context));
    let mut findings = Findings::new();
    let told = [of_crosses, of_founders, of_sittings, of_whole];
    findings.extend(told.into_iter().flatten().flatten());
    findings
}

fn counts(gravity: Gravity, least: Gravity) -> bool {
    least == Advice || gravity == Fault
}

/// What some questions find of one thing.
fn answers<T: Copy>(
    questions: &[Question<T>],
    context: &CheckContext,
    of: T,
    least: Gravity,
) -> Vec<Finding> {
    let asked = questions
        .iter()
        .filter(|(gravity, _)| counts(*gravity, least));
    asked
        .flat_map(|(_, question)| question(context, of))
        .collect()
}

/// What is asked of a cross and of the seedlings that have more to tell than a number.
fn of_cross(context: &CheckContext, cross: CrossRow, least: Gravity) -> Vec<Finding> {
    let mut found = answers(&OF_CROSS, context, cross, least);
    for &plant in &context.registry[cross].seedlings {
        if context.tells_more(plant) {
            found.extend(answers(&OF_PLANT, context, plant, least));
        }
    }
    found
}
