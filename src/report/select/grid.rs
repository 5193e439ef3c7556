//! A proposal as a picture: every sibling a row, best first, every trait that counts a column of marks.

use crate::analysis::select::{
    Proposal, ReadAt, SelectCross, SelectGone, SelectReport, SelectRow, SelectTrait, equal, unsure,
};
use crate::report::chart::{
    ChartInterval, GridCell, GridColumn, GridCross, GridGroup, GridRow, SelectGrid,
};
use crate::report::sheet::Report;
use crate::wording::{counted, joined, signed, upright};

/// The groups of rows, from the top.
const ORDER: [Proposal; 5] = [
    Proposal::Keep,
    Proposal::Undecided,
    Proposal::Sell,
    Proposal::LetGo,
    Proposal::ReadFirst,
];

/// The grid of a proposal.
pub fn select_grid(report: &SelectReport) -> SelectGrid {
    let mut plants = &report.plants[..];
    let mut crosses = Vec::new();
    for cross in &report.crosses {
        let (mine, others) = plants.split_at(cross.here.min(plants.len()));
        plants = others;
        crosses.push(grid_cross(report, cross, mine));
    }
    SelectGrid {
        title: upright(report.sheet().answer),
        under: report.crosses.iter().flat_map(read_at).collect(),
        columns: columns(report),
        has_index: report.plants.iter().any(|row| row.index.is_some()),
        notes: notes(report, &crosses),
        crosses,
    }
}

/// At what age a cross was read, a line for traits that were read together.
pub(super) fn read_at(cross: &SelectCross) -> Vec<String> {
    let same = |one: &ReadAt, other: &ReadAt| one.at == other.at && one.sowings == other.sowings;
    let together = cross.read_at.chunk_by(same).map(|of| {
        let names = of.iter().map(|one| one.of.as_str());
        let all = ReadAt {
            of: joined(names, ", "),
            ..of[0].clone()
        };
        format!("{}, {}", cross.id, all)
    });
    together.collect()
}

/// Traits that count, then those shown beside them.
fn columns(report: &SelectReport) -> Vec<GridColumn> {
    let column = |of: &SelectTrait, counts: String| GridColumn {
        heading: of.heading.clone(),
        counts,
        steps: of.unit.steps(),
    };
    let weight = |of: &SelectTrait| match of.weight {
        0.0 => "level only".to_owned(),
        weight => format!("weight {weight}"),
    };
    let counted = report.traits.iter().map(|of| column(of, weight(of)));
    let beside = report
        .beside
        .iter()
        .map(|of| column(of, "shown only".to_owned()));
    counted.chain(beside).collect()
}

fn grid_cross(report: &SelectReport, cross: &SelectCross, plants: &[SelectRow]) -> GridCross {
    let mut groups = Vec::new();
    let mut shown: Vec<&SelectRow> = Vec::new();
    for proposal in ORDER {
        let rows: Vec<&SelectRow> = plants
            .iter()
            .filter(|row| row.proposal == proposal)
            .collect();
        if rows.is_empty() {
            continue;
        }
        groups.push(GridGroup {
            heading: format!("{} {}", capital(proposal.word()), rows.len()),
            is_kept: proposal == Proposal::Keep,
            is_gone: false,
            rows: rows.iter().map(|row| here(report, row)).collect(),
        });
        shown.extend(rows);
    }
    let gone: Vec<&SelectGone> = gone_shown(report, cross).collect();
    if !gone.is_empty() {
        groups.push(GridGroup {
            heading: format!("No longer here {}", gone.len()),
            is_kept: false,
            is_gone: true,
            rows: gone.iter().map(|row| left(report, row)).collect(),
        });
    }
    GridCross {
        id: cross.id.clone(),
        groups,
        equal: equal(&shown),
        unsure: unsure(&shown),
    }
}

/// Those gone that were read beside the others.
fn gone_shown<'r>(
    report: &'r SelectReport,
    cross: &'r SelectCross,
) -> impl Iterator<Item = &'r SelectGone> {
    let mine = report.gone.iter().filter(|row| row.cross == cross.id);
    mine.filter(|row| row.readings.iter().any(Option::is_some))
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    let first = letters.next().map(|letter| letter.to_uppercase());
    first.into_iter().flatten().chain(letters).collect()
}

fn here(report: &SelectReport, row: &SelectRow) -> GridRow {
    GridRow {
        number: row.number.clone(),
        cells: cells(report, &row.readings, &row.beside),
        index: row.index.map(|middle| {
            let (low, high) = row.index_between.unwrap_or((middle, middle));
            ChartInterval { low, middle, high }
        }),
        remark: row.index.map_or(String::new(), |index| signed(index, 1)),
    }
}

fn left(report: &SelectReport, row: &SelectGone) -> GridRow {
    GridRow {
        number: row.number.clone(),
        cells: cells(report, &row.readings, &row.beside),
        index: None,
        // Why it went would not fit beside the marks; `show` says it.
        remark: row.fate_and_day.clone().unwrap_or("gone".to_owned()),
    }
}

fn cells(
    report: &SelectReport,
    readings: &[Option<f64>],
    beside: &[Option<f64>],
) -> Vec<Option<GridCell>> {
    let cell = |(value, of): (&Option<f64>, &SelectTrait)| {
        let decimals = usize::from(of.unit.decimals);
        value.map(|value| GridCell {
            value,
            words: format!("{value:.decimals$}"),
        })
    };
    let counted = readings.iter().zip(&report.traits);
    counted
        .chain(beside.iter().zip(&report.beside))
        .map(cell)
        .collect()
}

fn notes(report: &SelectReport, crosses: &[GridCross]) -> Vec<String> {
    let mut notes = Vec::new();
    if report.plants.iter().any(|row| row.index.is_some()) {
        notes.push("Index: weighted traits in standard deviations among siblings; its line is the 95 % interval.".to_owned());
    }
    if crosses.iter().any(|cross| !cross.unsure.is_empty()) {
        notes.push("Bracket at the right: not clearly worse than the last one kept.".to_owned());
    }
    if crosses.iter().any(|cross| !cross.equal.is_empty()) {
        notes.push("Bracket at the left: the same index.".to_owned());
    }
    let unread = report.gone.iter();
    let unread = unread.filter(|row| row.readings.iter().all(Option::is_none));
    match unread.count() {
        0 => {}
        n => notes.push(format!(
            "{} no longer here and not read at this age: not shown.",
            counted(n, "sibling is", "siblings are")
        )),
    }
    notes.push("One reading is weak grounds for culling.".to_owned());
    notes.extend(report.cautions.iter().map(|caution| caution.to_string()));
    notes
}
