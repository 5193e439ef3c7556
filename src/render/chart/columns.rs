//! Where the columns of the trait grid stand, and the axis of each.

use super::look::Look;
use super::scale::Scale;
use crate::render::scene::{Face, width};
use crate::report::chart::{GridColumn, GridRow, SelectGrid};

/// A column.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Its left end.
    pub left: f64,
    /// Its width, with the air to the next.
    pub width: f64,
}

/// How the marks of a trait are drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Axis {
    /// So many dots, those of the step filled.
    Steps(usize),
    /// A dot on a line, and room for the figure after it; 0 where there is too little.
    Measure(Scale, f64),
}

/// All columns.
#[derive(Clone, Debug, PartialEq)]
pub struct Columns {
    /// The plant's number.
    pub number: Column,
    /// The traits that fit.
    pub traits: Vec<Column>,
    /// The axis of each.
    pub axes: Vec<Axis>,
    /// The index, where there is one.
    pub index: Option<Column>,
    /// Its axis, and where its words begin.
    pub index_axis: Option<Scale>,
    edges: (f64, f64),
}

/// Room for brackets at the left and at the right, the least and the greatest width of a trait, and the part of the room
/// for the index; the first three in sizes of small letters.
const BRACKET: f64 = 0.9;
const LEAST: f64 = 4.6;
const MOST: f64 = 13.0;
const INDEX: f64 = 0.3;
/// The most room for numbers, a part of all.
const NUMBERS: f64 = 0.24;

/// Shares the room out.
pub fn columns(grid: &SelectGrid, look: Look) -> Columns {
    let bracket = BRACKET * look.small;
    let (left, right) = (look.margin + bracket, look.right() - bracket);
    let number = Column {
        left,
        width: numbers(grid, look),
    };
    let room = right - left - number.width;
    let index = if grid.has_index { room * INDEX } else { 0.0 };
    let remark = if grid.has_index {
        0.0
    } else {
        remarks(grid, look).min(room * 0.4)
    };
    let room = room - index - remark;
    let fitting = (room / (LEAST * look.small)) as usize;
    let count = grid.columns.len().min(fitting.max(1));
    let each = (room / count.max(1) as f64).min(MOST * look.small);
    let from = left + number.width;
    let traits: Vec<Column> = (0..count)
        .map(|at| Column {
            left: from + each * at as f64,
            width: each,
        })
        .collect();
    let axes = traits.iter().enumerate();
    let axes = axes
        .map(|(at, column)| axis(grid, at, *column, look))
        .collect();
    let index = grid.has_index.then_some(Column {
        left: from + each * count as f64,
        width: right - from - each * count as f64,
    });
    Columns {
        number,
        axes,
        index_axis: index.map(|at| index_axis(grid, at, look)),
        index,
        traits,
        edges: (look.margin, look.right()),
    }
}

fn rows(grid: &SelectGrid) -> impl Iterator<Item = &GridRow> {
    let groups = grid.crosses.iter().flat_map(|cross| &cross.groups);
    groups.flat_map(|group| &group.rows)
}

/// Room for the longest number.
fn numbers(grid: &SelectGrid, look: Look) -> f64 {
    let wide = rows(grid).map(|row| width(&row.number, Face::Bold, look.label));
    let ids = grid
        .crosses
        .iter()
        .map(|cross| width(&cross.id, Face::Roman, look.small));
    let most = wide
        .chain(ids)
        .fold(width("number", Face::Roman, look.small), f64::max);
    (most + look.small * 1.4).min(look.room() * NUMBERS)
}

/// Room for the longest remark of rows without an index.
fn remarks(grid: &SelectGrid, look: Look) -> f64 {
    let wide = rows(grid).filter(|row| row.index.is_none());
    let wide = wide.map(|row| width(&row.remark, Face::Roman, look.small));
    wide.fold(0.0, f64::max)
}

fn axis(grid: &SelectGrid, at: usize, column: Column, look: Look) -> Axis {
    let GridColumn { steps, .. } = grid.columns[at];
    if let Some(steps) = steps {
        return Axis::Steps(steps);
    }
    let cells = || rows(grid).filter_map(|row| row.cells.get(at)?.as_ref());
    let words = cells().map(|cell| width(&cell.words, Face::Roman, look.small));
    let words = words.fold(0.0, f64::max) + look.small * 0.5;
    let line = column.width - look.small * 1.2;
    let words = if line - words >= look.small * 1.6 {
        words
    } else {
        0.0
    };
    let paper = (column.left + 2.5, column.left + line - words);
    Axis::Measure(Scale::fitting(cells().map(|cell| cell.value), paper), words)
}

fn index_axis(grid: &SelectGrid, at: Column, look: Look) -> Scale {
    let all = rows(grid).filter_map(|row| row.index);
    let all = all.flat_map(|of| [of.low, of.middle, of.high]).chain([0.0]);
    Scale::fitting(
        all,
        (at.left + index_words(grid, look), at.left + at.width - 3.0),
    )
}

/// Room for the figure of the index.
fn index_words(grid: &SelectGrid, look: Look) -> f64 {
    let words = rows(grid).filter(|row| row.index.is_some());
    let words = words.map(|row| width(&row.remark, Face::Roman, look.small));
    words.fold(0.0, f64::max) + look.small * 0.7
}

impl Columns {
    /// Where a bracket at the left stands, and to which side its ends turn.
    pub fn left_bracket(&self) -> (f64, f64) {
        (self.edges.0 + 1.0, 1.0)
    }

    /// The same at the right.
    pub fn right_bracket(&self) -> (f64, f64) {
        (self.edges.1 - 1.0, -1.0)
    }

    /// Where the remark of a row without an index begins, and its room.
    pub fn remark(&self, look: Look) -> (f64, f64) {
        let end = self
            .traits
            .last()
            .map_or(self.number.left + self.number.width, |at| {
                at.left + at.width
            });
        let right = self.edges.1 - BRACKET * look.small;
        (end, right - end)
    }
}
