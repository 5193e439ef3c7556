//! Who lives on, ready to be drawn: the steps of every group with enough deaths, the others told in the notes.

use super::picture::{asked, cautions};
use crate::analysis::growth::GrowthReport;
use crate::analysis::growth::SurvivalRow;
use crate::report::caution::Weight;
use crate::report::chart::{SurvivalChart, SurvivalCurve, SurvivalFall};
use crate::report::sheet::Report;
use crate::wording::NameRun;
use crate::wording::p_words;

/// Curves up to which limits are drawn around each; of more, they would hide each other.
const WITH_LIMITS: usize = 1;

/// How many live on, as steps.
pub fn survival_chart(report: &GrowthReport) -> SurvivalChart {
    let rows = || {
        let groups = report.groups.iter();
        groups.filter_map(|group| Some((group, group.survival.as_ref()?)))
    };
    let drawn = || rows().filter(|(_, row)| !row.steps.is_empty());
    let limits = drawn().count() <= WITH_LIMITS;
    let curves: Vec<SurvivalCurve> = drawn()
        .map(|(group, row)| curve(&group.id, row, limits))
        .collect();
    let mut notes = Vec::new();
    if !curves.is_empty() {
        let shaded = if limits { " Shaded: 95 % limits." } else { "" };
        notes.push(format!(
            "Numbered plants by Kaplan and Meier. A dot: deaths found. A short stroke: a plant followed no longer \
             (sold, given away, culled, lost, or alive today).{shaded}"
        ));
    }
    let numbered = drawn().filter_map(|(group, row)| Some((group, row.numbered_at?)));
    notes.extend(numbered.map(|(group, (first, last))| {
        let on = if last - first < 0.05 {
            format!("{first:.1}")
        } else {
            format!("{first:.1} to {last:.1}")
        };
        format!(
            "{}: followed from the day they were numbered ({on} months).",
            group.id
        )
    }));
    notes.extend(
        rows()
            .filter(|(_, row)| row.steps.is_empty())
            .map(|(group, row)| match row.followed {
                0 => format!("{}: no plant has an age known to a month.", group.id),
                n => format!(
                    "{}: {} of {n} followed died, too few for a curve.",
                    group.id, row.deaths
                ),
            }),
    );
    notes.extend(report.alike_in_deaths.map(|p| {
        let found = if p < 0.05 {
            "They differ in survival"
        } else {
            "No clear difference in survival"
        };
        format!("{found} (log-rank test, {}).", p_words(p))
    }));
    notes.extend(cautions(&report.sheet(), Weight::Doubt));
    SurvivalChart {
        title: vec![NameRun {
            text: "Survival of ".to_owned() + &asked(report),
            italic: false,
        }],
        across: "months from sowing".to_owned(),
        up: "alive, %".to_owned(),
        counted: "followed at that age".to_owned(),
        notes,
        curves,
    }
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
