//! How siblings differ, as a picture: one strip of dots for each trait, pods apart, the parents marked.

use super::chart::{ChartDot, ChartInterval, DotRow, ParentReading, SiblingsChart, TraitStrip};
use super::pedigree::{Name, NameRun, Sex};
use super::sibling_groups::Group;
use super::siblings::{SiblingsReport, TraitSummary};
use crate::naming::recorded::{Names, TopOf};
use crate::naming::{Style, Writing, breeder, formula_only, runs};

/// A name set upright.
pub(super) fn upright(text: impl Into<String>) -> Name {
    vec![NameRun {
        text: text.into(),
        italic: false,
    }]
}

/// A code and the formula behind it, Latin in italics; the basis, such as "seed parent first", where asked for.
pub(super) fn titled(names: &Names, code: &str, top: TopOf, with_basis: bool) -> Name {
    let writing = Writing {
        style: Style::Runs,
        ..Writing::plain(names.vocabulary())
    };
    let formula = names.formula(top, false);
    let text = if with_basis {
        breeder(&formula, &writing)
    } else {
        formula_only(&formula, &writing)
    };
    let mut name = upright(code);
    if let Ok(text) = text {
        name.extend(upright("  "));
        let parts = runs(&text).into_iter();
        name.extend(parts.map(|(text, italic)| NameRun { text, italic }));
    }
    name
}

/// The chart of a report; kinds without order have no axis and are left to the table.
pub fn siblings_chart(report: &SiblingsReport) -> SiblingsChart {
    let drawn = |of: &&TraitSummary| of.shown.is_measure() || of.shown.is_scale;
    let mut notes = report.cautions.clone();
    for of in report.traits.iter().filter(drawn) {
        if of.left_out.total() > 0 {
            notes.push(format!("{}: left out {}", of.name, of.left_out.words()));
        }
    }
    SiblingsChart {
        title: report.title.clone(),
        strips: report.traits.iter().filter(drawn).map(strip).collect(),
        notes,
    }
}

fn strip(of: &TraitSummary) -> TraitStrip {
    let rows = if of.groups.len() > 1 {
        &of.groups[1..]
    } else {
        &of.groups[..]
    };
    TraitStrip {
        heading: format!("{}, {}", of.shown.heading(), of.at),
        rows: rows.iter().map(|group| row(of, group)).collect(),
        parents: of
            .parents
            .iter()
            .map(|parent| ParentReading {
                value: parent.value,
                label: parent.plant.clone(),
                sex: parent
                    .bore_the_seed
                    .map(|bore| if bore { Sex::Female } else { Sex::Male }),
            })
            .collect(),
    }
}

fn row(of: &TraitSummary, group: &Group) -> DotRow {
    let whole = group.of == "all";
    let inside = of
        .values
        .iter()
        .filter(|value| whole || value.pod.as_deref() == Some(group.of.as_str()));
    let dots: Vec<ChartDot> = inside
        .map(|value| ChartDot {
            value: value.value,
            label: None,
            doubtful: false,
        })
        .collect();
    let name = if whole {
        "all siblings"
    } else {
        group.of.as_str()
    };
    let measure = group.measure.as_ref();
    let decimals = usize::from(of.shown.decimals.max(1));
    DotRow {
        label: upright(format!("{name}, n {}", group.n)),
        dots,
        interval: measure.and_then(|measure| {
            let (low, high) = measure.mean_between?;
            Some(ChartInterval {
                low,
                middle: measure.mean,
                high,
            })
        }),
        expected: None,
        remark: measure.map_or(String::new(), |measure| match measure.mean_between {
            Some((low, high)) => format!(
                "mean {:.decimals$} ({low:.decimals$}–{high:.decimals$}, 95 %)",
                measure.mean
            ),
            None => format!("mean {:.decimals$}", measure.mean),
        }),
    }
}
