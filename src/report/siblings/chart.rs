//! How siblings differ, as a picture: one strip of dots for each trait, pods apart, the parents marked.

use super::parents::sign;
use crate::analysis::siblings::{Caution, Group, ParentValue, SiblingsReport, TraitSummary, Which};
use crate::report::chart::{
    ChartDot, ChartInterval, DotRow, KindBar, KindGroup, ParentReading, RatioPart, RatioStrip,
    SiblingsChart, TraitStrip, plain_dots,
};
use crate::report::pedigree::Sex;
use crate::wording::{between, in_brackets, number, share_words, upright};

/// The chart of a report; kinds without order have no axis and are counted as bars.
pub fn siblings_chart(report: &SiblingsReport) -> SiblingsChart {
    // A picture goes about by itself, so what makes its figures less sure stands in it.
    let unsure = report.traits.iter();
    let mut notes: Vec<String> = unsure
        .flat_map(|of| of.doubtful.iter().chain(&of.far).cloned())
        .collect();
    notes.extend(report.cautions.iter().map(Caution::to_string));
    for of in &report.traits {
        if let Some(words) = of.left_out.words_beside(&of.left_out_elsewhere) {
            notes.push(format!("{}: left out {words}", of.name));
        }
    }
    SiblingsChart {
        verdict: match &report.ratio {
            Some(ratio) => ratio.answer(),
            None => report.answer(),
        },
        title: report.title.clone(),
        under: report.below_the_answer(),
        strips: report
            .traits
            .iter()
            .map(|of| TraitStrip {
                ratio: ratio(report, of),
                ..strip(of)
            })
            .collect(),
        notes,
    }
}

fn strip(of: &TraitSummary) -> TraitStrip {
    let rows = if of.groups.len() > 1 {
        &of.groups[1..]
    } else {
        &of.groups[..]
    };
    let heading = format!("{}, {}", of.shown.heading(), of.at);
    if !of.shown.is_measure() && !of.shown.is_scale {
        return TraitStrip {
            heading,
            kinds: rows.iter().map(|group| kinds(of, group)).collect(),
            ..TraitStrip::default()
        };
    }
    TraitStrip {
        heading,
        steps: of.shown.steps(),
        anchors: of.shown.anchors.clone(),
        ratio: None,
        kinds: Vec::new(),
        rows: rows.iter().map(|group| row(of, group)).collect(),
        parents: of.parents.iter().map(parent_reading).collect(),
    }
}

/// A plant that may be a parent has a dotted line, and says so.
fn parent_reading(parent: &ParentValue) -> ParentReading {
    let sex = |bore: bool| if bore { Sex::Female } else { Sex::Male };
    ParentReading {
        value: parent.value,
        label: match parent.certain {
            true => parent.plant.clone(),
            false => format!("{}{}, possible", sign(parent.bore_the_seed), parent.plant),
        },
        sex: parent.bore_the_seed.filter(|_| parent.certain).map(sex),
    }
}

/// The counts against a ratio that was stated for this trait.
fn ratio(report: &SiblingsReport, of: &TraitSummary) -> Option<RatioStrip> {
    let answer = report.ratio.as_ref()?;
    let parts = answer.classes.iter().enumerate();
    (answer.of == of.name).then(|| RatioStrip {
        verdict: format!("counted beside what {} expects", answer.ratio),
        parts: parts
            .map(|(at, class)| RatioPart {
                label: class.to_string(),
                n: answer.counts[at],
                expected: answer.expected[at],
            })
            .collect(),
    })
}

/// The readings, each with the number of its plant.
fn dots(group: &Group) -> Vec<ChartDot> {
    let mut dots = plain_dots(&group.values);
    for (dot, doubtful) in dots.iter_mut().zip(&group.doubtful) {
        dot.doubtful = *doubtful;
    }
    for (dot, number) in dots.iter_mut().zip(&group.numbers) {
        dot.number = number.clone();
    }
    dots
}

fn row(of: &TraitSummary, group: &Group) -> DotRow {
    let measure = group.measure.as_ref();
    let decimals = usize::from(of.shown.decimals.max(1));
    DotRow {
        label: upright(label(group)),
        dots: dots(group),
        interval: measure.and_then(ChartInterval::of_mean),
        expected: None,
        remark: measure.map_or(String::new(), |measure| {
            let limits = measure.mean_between.map(|of| between(of, decimals));
            let limits = in_brackets(limits.map(|of| format!("{of}, 95 %")));
            format!("mean {}{limits}", number(measure.mean, decimals))
        }),
    }
}

/// Whose dots or bars these are, and how many.
fn label(group: &Group) -> String {
    let name = match &group.of {
        Which::All => "all siblings",
        Which::Pod(code) => code,
    };
    format!("{name}, n {}", group.n)
}

/// The kinds somebody had, the same for every group; the parents of a kind are told beside it.
fn kinds(of: &TraitSummary, group: &Group) -> KindGroup {
    let everybody = of.groups[0].kinds.as_deref().unwrap_or_default();
    let all = group.kinds.as_deref().unwrap_or_default();
    let bars = all.iter().enumerate().filter_map(|(at, kind)| {
        let parents: Vec<String> = of
            .parents
            .iter()
            .filter(|parent| parent.value == at as f64)
            .map(|parent| match (parent.certain, parent.bore_the_seed) {
                (true, None) => format!("; parent {}", parent.plant),
                (true, side) => format!("; {}{}", sign(side), parent.plant),
                (false, side) => format!("; possible parent {}{}", sign(side), parent.plant),
            })
            .collect();
        let seen = everybody.get(at).is_some_and(|kind| kind.n > 0);
        (seen || !parents.is_empty()).then(|| KindBar {
            kind: kind.kind.clone(),
            n: kind.n,
            remark: format!(
                "{}{}",
                share_words(kind.n, group.n as u64, kind.share_between),
                parents.concat()
            ),
        })
    });
    KindGroup {
        label: label(group),
        bars: bars.collect(),
    }
}
