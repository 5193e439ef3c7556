//! The picture of who is the better parent: plants in order, each a mark on the line of its error.

use crate::analysis::merit::{
    Caution, MeritOfTrait, MeritReport, MeritRow, MeritSource, MeritUnit,
};
use crate::report::chart::{ChartInterval, MeritChart, MeritChartRow, MeritKnown};
use crate::report::merit::sheet::NO_LIMIT;
use crate::report::sheet::Report;
use crate::wording::{chance, counted, joined, upright};

/// Plants drawn; of more the best, and with them all that may well be the best.
const DRAWN: usize = 40;
/// Most plants drawn.
const MOST_DRAWN: usize = 100;

/// The chart of predicted merit.
pub fn merit_chart(report: &MeritReport) -> MeritChart {
    let rows = rows(report);
    MeritChart {
        title: upright(report.sheet().answer),
        under: Vec::new(),
        heading: heading(report),
        figure: match rows.len() {
            0 | 1 => String::new(),
            _ => "may beat the first".to_owned(),
        },
        notes: notes(report, &rows),
        rows,
    }
}

fn heading(report: &MeritReport) -> String {
    match &report.traits[..] {
        [of] => match of.unit {
            MeritUnit::Percent => format!("{}, % above the mean of the plants here", of.name),
            MeritUnit::Steps => format!("{}, steps above the mean of the plants here", of.name),
            MeritUnit::AsRead => format!("{}, above the mean of the plants here", of.name),
        },
        _ => "index, genetic standard deviations above the mean of the plants here".to_owned(),
    }
}

fn rows(report: &MeritReport) -> Vec<MeritChartRow> {
    let may_be_best = |of: &MeritRow| report.not_clearly_worse.contains(&of.id);
    let last = report.rows.iter().rposition(may_be_best);
    let drawn = last.map_or(DRAWN, |at| (at + 1).clamp(DRAWN, MOST_DRAWN));
    let mut rows: Vec<MeritChartRow> = Vec::new();
    for (at, of) in report.rows.iter().take(drawn).enumerate() {
        let mut drawn = row(report, of);
        // What prints alike shares a place.
        drawn.place = match rows.last() {
            Some(above) if at > 1 && alike(report, &report.rows[at - 1], of) => above.place,
            _ => at + 1,
        };
        rows.push(drawn);
    }
    rows
}

fn alike(report: &MeritReport, one: &MeritRow, other: &MeritRow) -> bool {
    let shown = |row: &MeritRow| match &report.traits[..] {
        [of] if of.unit == MeritUnit::Percent => format!("{:.0}", row.of_traits[0].merit),
        [_] => format!("{:.2}", row.of_traits[0].merit),
        _ => format!("{:.2}", row.index),
    };
    let better = |row: &MeritRow| row.chance_better_than_first.map(chance);
    shown(one) == shown(other) && better(one) == better(other)
}

fn row(report: &MeritReport, of: &MeritRow) -> MeritChartRow {
    let (interval, is_open) = match &of.of_traits[..] {
        [only] => of_one(only),
        _ => (
            ChartInterval {
                low: of.index - of.index_error,
                middle: of.index,
                high: of.index + of.index_error,
            },
            false,
        ),
    };
    let is_first = report.rows.first().is_some_and(|first| first.id == of.id);
    MeritChartRow {
        place: 0,
        plant: of.id.clone(),
        may_be_best: is_first || report.not_clearly_worse.contains(&of.id),
        interval,
        is_open,
        known: known(&of.of_traits),
        figure: of.chance_better_than_first.map_or(String::new(), chance),
    }
}

fn of_one(of: &MeritOfTrait) -> (ChartInterval, bool) {
    let is_open = of.high > NO_LIMIT;
    let interval = ChartInterval {
        low: of.low,
        middle: of.merit,
        high: if is_open { of.merit } else { of.high },
    };
    (interval, is_open)
}

/// The best of what its traits are known by.
fn known(of: &[MeritOfTrait]) -> MeritKnown {
    let by = |source: MeritSource| of.iter().any(|of| of.known_by == source);
    match (by(MeritSource::Readings), by(MeritSource::Offspring)) {
        (true, _) => MeritKnown::Itself,
        (false, true) => MeritKnown::Offspring,
        (false, false) => MeritKnown::Mean,
    }
}

fn notes(report: &MeritReport, rows: &[MeritChartRow]) -> Vec<String> {
    let mut notes = vec!["The line is one standard error either way, of the difference from the mean of the plants here. Two plants are compared by the chance at the right, not by their lines: what they share cancels.".to_owned()];
    let marks = [
        (MeritKnown::Itself, "Full dot: read itself."),
        (
            MeritKnown::Offspring,
            "Full square: known by its offspring.",
        ),
        (
            MeritKnown::Mean,
            "Hollow dot: no better known than by the mean of its pod or species; choose among these by reading them.",
        ),
    ];
    let used = marks
        .iter()
        .filter(|(known, _)| rows.iter().any(|row| row.known == *known));
    let used = used.map(|(_, words)| *words);
    notes.push(joined(used, " "));
    if rows.iter().filter(|row| row.may_be_best).count() > 1 {
        notes.push(
            "Bold: may well be the best, with a chance of at least 1 in 20 of being better than the first."
                .to_owned(),
        );
    }
    if rows.iter().any(|row| row.is_open) {
        notes.push("Arrow: too little is known for an upper limit.".to_owned());
    }
    if let Some(more @ 1..) = report.rows.len().checked_sub(rows.len()) {
        let plants = counted(more, "plant is", "plants are");
        notes.push(format!(
            "{plants} lower and not drawn; a .csv file holds all."
        ));
    }
    if report.traits.len() > 1 {
        let weights = report
            .traits
            .iter()
            .map(|of| format!("{} {}", of.name, of.weight));
        notes.push(format!(
            "Weights: {}. Ask for one trait to see it by itself.",
            joined(weights, ", ")
        ));
    }
    let others = report.cautions.iter().filter_map(|caution| match caution {
        // Told above in the words of the picture.
        Caution::ByTheMean(_) | Caution::Chances | Caution::Error { log_scale: false } => None,
        Caution::Error { log_scale: true } => Some(
            "A length is compared on the log scale, so the two ends of a line are not equally far from its mark."
                .to_owned(),
        ),
        other => Some(other.to_string()),
    });
    notes.extend(others);
    notes
}
