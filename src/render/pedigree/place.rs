//! The layout of a pedigree: where every spot stands, and which way every line runs.

use super::align::heights;
use super::block::Block;
use super::columns::Columns;
use super::crossings::{crossings, turned};
use super::grid::{Grid, Role};
use super::manner::Manner;
use super::order;
use super::parts::Signs;
use crate::render::outline::{more_text, of_plants};
use crate::report::pedigree::PedigreeDrawing;

/// Where everything stands, in points, y downward.
#[derive(Clone, Debug)]
pub struct Layout {
    pub(super) grid: Grid,
    pub(super) blocks: Vec<Block>,
    pub(super) manner: Manner,
    /// Left end and width of every column of plants.
    pub(super) columns: Vec<(f64, f64)>,
    /// Where the marks stand in the gap before each column.
    pub(super) marks: Vec<f64>,
    /// Height of every spot.
    pub(super) height: Vec<f64>,
    /// Width and height of all.
    pub(super) size: (f64, f64),
}

/// Air around the picture.
pub(super) const MARGIN: f64 = 15.0;

/// Lays a pedigree out.
pub fn layout(drawing: &PedigreeDrawing) -> Layout {
    let manner = Manner::for_plants(drawing.plants.len());
    let signs = Signs::of(drawing);
    let blocks: Vec<Block> = drawing
        .plants
        .iter()
        .zip(of_plants(drawing))
        .map(|(plant, note)| Block::of(plant, &note, &signs, &manner))
        .collect();
    let columns = Columns::of(drawing);
    let mut grid = Grid::of(drawing, &columns, &blocks, &manner);
    order::arrange(&mut grid);
    let mut height = heights(&grid, manner.air);
    let bottom = settle(&grid, &mut height);
    let (columns, marks, right) = widths(&grid, drawing, &blocks, (&height, &manner));
    Layout {
        grid,
        blocks,
        manner,
        columns,
        marks,
        height,
        size: (right + MARGIN, bottom + MARGIN),
    }
}

impl Layout {
    /// How many pairs of lines cross; lines of one kind from one plant count as one until they part.
    pub fn crossings(&self) -> usize {
        crossings(&self.grid, &self.grid.layers)
    }

    /// How many of these are of the two parents of one cross, just before it, because the pollen parent stands above.
    pub fn turned(&self) -> usize {
        turned(&self.grid, &self.grid.layers)
    }

    /// Every two spots joined by a line: the layer of the first, and the heights of both in points; at a cross the pollen
    /// parent's line arrives below the seed parent's.
    pub fn joints(&self) -> Vec<(usize, f64, f64)> {
        let ends = |spot: usize| self.grid.right[spot].iter().zip(&self.grid.port[spot]);
        let joined = |spot: usize| {
            let from = (self.grid.spots[spot].layer, self.height[spot]);
            ends(spot).map(move |(&to, &port)| (from.0, from.1, self.height[to] + port as f64))
        };
        (0..self.grid.spots.len()).flat_map(joined).collect()
    }

    /// Width and height in points.
    pub fn size(&self) -> (f64, f64) {
        self.size
    }

    /// The corner and size of the room each plant takes, by its row.
    pub fn plant_boxes(&self) -> Vec<[f64; 4]> {
        let mut boxes = vec![[0.0; 4]; self.blocks.len()];
        for (spot, found) in self.grid.spots.iter().enumerate() {
            if let Role::Plant(row) = found.role {
                let (x, width) = self.columns[found.layer / 2];
                boxes[row] = [
                    x,
                    self.height[spot] - found.up,
                    width,
                    found.up + found.down,
                ];
            }
        }
        boxes
    }

    /// Where a spot stands across: left and right end.
    pub(super) fn span(&self, spot: usize) -> (f64, f64) {
        let found = &self.grid.spots[spot];
        let column = found.layer.div_ceil(2);
        if !found.layer.is_multiple_of(2) {
            return (self.marks[column], self.marks[column]);
        }
        let (left, width) = self.columns[column];
        match found.role {
            Role::Unknown(_) => (left + width - 2.0 * self.manner.name, left + width),
            _ => (left, left + width),
        }
    }
}

/// Shifts all heights so that the topmost room begins at the margin; returns the bottom.
fn settle(grid: &Grid, height: &mut [f64]) -> f64 {
    let tops = grid
        .spots
        .iter()
        .zip(height.iter())
        .map(|(spot, height)| height - spot.up);
    let top = tops.fold(f64::INFINITY, f64::min);
    let mut bottom: f64 = MARGIN;
    for (spot, height) in grid.spots.iter().zip(height.iter_mut()) {
        *height += MARGIN - top;
        bottom = bottom.max(*height + spot.down);
    }
    bottom
}

type Across = (Vec<(f64, f64)>, Vec<f64>, f64);

/// Left end and width of each column, the place of the marks before it, and the right end of all.
fn widths(
    grid: &Grid,
    drawing: &PedigreeDrawing,
    blocks: &[Block],
    with: (&[f64], &Manner),
) -> Across {
    let (height, manner) = with;
    let (mut columns, mut marks, mut x) = (Vec::new(), Vec::new(), MARGIN);
    for layer in (0..grid.layers.len()).step_by(2) {
        let mut wide: f64 = 2.0 * manner.name;
        for &spot in &grid.layers[layer] {
            match grid.spots[spot].role {
                Role::Plant(row) => wide = wide.max(blocks[row].width),
                Role::More(row) => {
                    wide = wide.max(more_width(drawing.crosses[row].more_siblings, manner))
                }
                _ => {}
            }
        }
        for tail in grid
            .tails
            .iter()
            .filter(|tail| grid.spots[tail.child].layer == layer)
        {
            wide = wide.max(more_width(
                drawing.crosses[tail.cross].more_siblings,
                manner,
            ));
        }
        let gap = if layer == 0 {
            0.0
        } else {
            gap_before(grid, layer, height, manner)
        };
        marks.push(x + gap * 0.6);
        columns.push((x + gap, wide));
        x += gap + wide;
    }
    (columns, marks, x)
}

fn more_width(count: u64, manner: &Manner) -> f64 {
    use crate::render::scene::{Face, width};
    width(&more_text(count), Face::Roman, manner.small) + 4.0
}

/// A gap widens where lines climb far, so that none becomes a wall.
fn gap_before(grid: &Grid, layer: usize, height: &[f64], manner: &Manner) -> f64 {
    let mut climb: f64 = 0.0;
    for &spot in &grid.layers[layer - 1] {
        for &other in grid.left[spot].iter().chain(&grid.right[spot]) {
            climb = climb.max((height[spot] - height[other]).abs());
        }
    }
    manner.gap + (climb * 0.14).min(70.0)
}
