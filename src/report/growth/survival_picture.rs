//! Who lives on, ready to be drawn: the steps of every group with enough deaths, the others told in the notes.

use super::picture::cautions;
use super::survival::Survival;
use crate::analysis::growth::{GroupGrowth, GrowthReport, SurvivalRow};
use crate::report::caution::Weight;
use crate::report::chart::{SurvivalChart, SurvivalCurve, SurvivalFall};
use crate::report::sheet::Report;
use crate::wording::upright;

/// Curves up to which limits are drawn around each; of more, they would hide each other.
const WITH_LIMITS: usize = 1;

/// How many live on, as steps.
pub fn survival_chart(report: &GrowthReport) -> SurvivalChart {
    let drawn = || rows(report).filter(|(_, row)| !row.steps.is_empty());
    let limits = drawn().count() <= WITH_LIMITS;
    let curves = drawn().map(|(group, row)| curve(&group.id, row, limits));
    SurvivalChart {
        title: upright(report.survival_answer()),
        across: "months from sowing".to_owned(),
        up: "alive, %".to_owned(),
        counted: "followed at that age".to_owned(),
        notes: notes(report, limits),
        curves: curves.collect(),
    }
}

fn rows(report: &GrowthReport) -> impl Iterator<Item = (&GroupGrowth, &SurvivalRow)> {
    let groups = report.groups.iter();
    groups.filter_map(|group| Some((group, group.survival.as_ref()?)))
}

/// What the signs mean, from when each group was followed, which groups have no curve, and the weightiest cautions.
fn notes(report: &GrowthReport, limits: bool) -> Vec<String> {
    let (drawn, bare): (Vec<_>, Vec<_>) = rows(report).partition(|(_, row)| !row.steps.is_empty());
    let shaded = if limits { " Shaded: 95 % limits." } else { "" };
    let signs = (!drawn.is_empty()).then(|| {
        format!(
            "Numbered plants by Kaplan and Meier. A dot: deaths found. A short stroke: a plant followed no longer \
             (sold, given away, culled, lost, or alive today).{shaded}"
        )
    });
    let numbered = drawn.iter().filter_map(|(group, row)| {
        let (first, last) = row.numbered_at?;
        let on = match last - first < 0.05 {
            true => format!("{first:.1}"),
            false => format!("{first:.1} to {last:.1}"),
        };
        let id = &group.id;
        Some(format!(
            "{id}: followed from the day they were numbered ({on} months)."
        ))
    });
    let bare = bare.iter().map(|(group, row)| match row.followed {
        0 => format!("{}: no plant has an age known to a month.", group.id),
        n => {
            let (id, deaths) = (&group.id, row.deaths);
            format!("{id}: {deaths} of {n} followed died, too few for a curve.")
        }
    });
    let sheet = Survival(report).sheet();
    let cautions = cautions(&sheet, Weight::Doubt);
    let notes = signs.into_iter().chain(numbered).chain(bare);
    notes.chain(cautions).collect()
}

fn curve(label: &str, row: &SurvivalRow, with_limits: bool) -> SurvivalCurve {
    let steps = row.steps.iter().map(|step| SurvivalFall {
        age: step.age,
        alive: 100.0 * step.survival,
        limits: step
            .interval
            .filter(|_| with_limits)
            .map(|(low, high)| (100.0 * low, 100.0 * high)),
    });
    SurvivalCurve {
        label: label.to_owned(),
        steps: steps.collect(),
        lives: row.lives.clone(),
    }
}
