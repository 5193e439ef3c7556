//! What takes room in the picture, column by column, and which spots a line of descent passes.
//!
//! Layers alternate: even ones are columns of plants, odd ones the gaps in which cross marks stand. A line that skips
//! layers gets a lane in each of them; lines of one kind from one plant share their lanes until they part, but a sure line
//! never shares one with a doubtful line: drawn over each other the doubt would not be seen.

use std::collections::BTreeMap;

use super::block::Block;
use super::columns::Columns;
use super::manner::Manner;
use crate::report::pedigree::{DrawnCross, DrawnParent, PedigreeDrawing};

/// What stands on a spot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// The plant of that row.
    Plant(usize),
    /// An unknown parent of the cross of that row.
    Unknown(usize),
    /// "n more siblings" of the cross of that row.
    More(usize),
    /// The mark of the cross of that row.
    Joint(usize),
    /// Nothing: a line passes.
    Lane,
}

/// Room taken in one layer, above and below the height at which lines arrive.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spot {
    /// What stands there.
    pub role: Role,
    /// Its layer.
    pub layer: usize,
    /// Room needed above, in points.
    pub up: f64,
    /// Room needed below, in points.
    pub down: f64,
}

/// What a line says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Bond {
    /// From the seed parent to the cross.
    Seed,
    /// From the pollen parent to the cross.
    Pollen,
    /// From a parent whose side is not known.
    Either,
    /// From the cross to what was raised from it.
    Raised,
}

/// One line of descent, from its first spot to its last, through lanes.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it says.
    pub bond: Bond,
    /// Whether it is as sure as a tag that the plant at its start (or end, if raised) is the one.
    pub sure: bool,
    /// Row of the cross it belongs to.
    pub cross: usize,
    /// The spots it passes, layer by layer.
    pub stops: Vec<usize>,
}

/// "n more siblings" under a sibling that is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tail {
    /// Row of the cross.
    pub cross: usize,
    /// The spot of its mark.
    pub joint: usize,
    /// The spot of the sibling.
    pub child: usize,
    /// How far below the middle of the sibling's box the words stand, in points.
    pub drop: f64,
    /// Whether they are surely of this cross.
    pub sure: bool,
}

/// All spots, lines, and the neighbours they make.
#[derive(Clone, Debug, Default)]
pub struct Grid {
    /// All spots.
    pub spots: Vec<Spot>,
    /// All lines.
    pub lines: Vec<Line>,
    /// Spots of each layer, top to bottom.
    pub layers: Vec<Vec<usize>>,
    /// For each spot, those it is joined to in the layer to the left.
    pub left: Vec<Vec<usize>>,
    /// For each spot, those it is joined to in the layer to the right.
    pub right: Vec<Vec<usize>>,
    /// For each of those, at which port the line arrives: 0, or 1 for a pollen parent, which arrives below the seed parent.
    pub port: Vec<Vec<usize>>,
    /// Mentions of siblings that are not drawn, each under a sibling that is.
    pub tails: Vec<Tail>,
    lanes: BTreeMap<(usize, Bond, bool, usize), usize>,
}

/// Height of a lane, above and below its line.
const LANE: f64 = 3.0;
/// Distance between two lines arriving at one cross mark.
pub const PORT: f64 = 10.5;

impl Grid {
    /// The grid of a drawing whose plants take the room of `blocks`.
    pub fn of(
        drawing: &PedigreeDrawing,
        columns: &Columns,
        blocks: &[Block],
        manner: &Manner,
    ) -> Grid {
        let mut grid = Grid {
            layers: vec![Vec::new(); (2 * columns.count).max(1)],
            ..Grid::default()
        };
        for (row, block) in blocks.iter().enumerate() {
            grid.spot(
                Role::Plant(row),
                2 * columns.plants[row],
                (block.half, block.half),
            );
        }
        let uncertain = times_raised(drawing);
        for (row, cross) in drawing.crosses.iter().enumerate() {
            let joint = grid.cross(row, cross, columns.crosses[row], manner);
            if cross.more_siblings > 0 {
                // Of the siblings no more is known than of those drawn.
                let sure = cross.children.iter().all(|&child| uncertain[child] < 2);
                grid.more((row, sure), cross, joint, manner);
            }
            for &child in &cross.children {
                grid.run(row, Bond::Raised, uncertain[child] < 2, (joint, child));
            }
        }
        grid
    }

    fn spot(&mut self, role: Role, layer: usize, room: (f64, f64)) -> usize {
        let spot = self.spots.len();
        self.spots.push(Spot {
            role,
            layer,
            up: room.0,
            down: room.1,
        });
        self.layers[layer].push(spot);
        self.left.push(Vec::new());
        self.right.push(Vec::new());
        self.port.push(Vec::new());
        spot
    }

    fn cross(&mut self, row: usize, cross: &DrawnCross, column: usize, manner: &Manner) -> usize {
        let layer = 2 * column - 1;
        let ports = cross.seed.rows().len().max(1) + cross.pollen.rows().len().max(1);
        let half = (ports - 1) as f64 * PORT / 2.0 + manner.small * 0.75;
        let joint = self.spot(Role::Joint(row), layer, (half, half));
        let sides = [
            (&cross.seed, Bond::Seed, cross.seed_doubtful),
            (&cross.pollen, Bond::Pollen, cross.pollen_doubtful),
        ];
        for (parent, bond, doubtful) in sides {
            let bond = if cross.direction_known {
                bond
            } else {
                Bond::Either
            };
            let sure = matches!(parent, DrawnParent::Known(_)) && !doubtful;
            self.parent(row, parent, (bond, sure), (joint, manner));
        }
        joint
    }

    /// Room for "n more siblings": under the last sibling drawn, or a spot of its own.
    fn more(
        &mut self,
        (row, sure): (usize, bool),
        cross: &DrawnCross,
        joint: usize,
        manner: &Manner,
    ) {
        let layer = self.spots[joint].layer + 1;
        let last = cross
            .children
            .iter()
            .rev()
            .find(|&&child| self.spots[child].layer == layer);
        match last {
            Some(&child) => {
                let drop = self.spots[child].down + manner.small * 0.8;
                self.spots[child].down += manner.small * 1.3;
                self.tails.push(Tail {
                    cross: row,
                    joint,
                    child,
                    drop,
                    sure,
                });
            }
            None => {
                let more = self.spot(Role::More(row), layer, (manner.small, manner.small * 0.5));
                self.run(row, Bond::Raised, sure, (joint, more));
            }
        }
    }

    fn parent(
        &mut self,
        row: usize,
        parent: &DrawnParent,
        (bond, sure): (Bond, bool),
        (joint, manner): (usize, &Manner),
    ) {
        if parent.rows().is_empty() {
            let room = manner.name * 0.9;
            let unknown = self.spot(
                Role::Unknown(row),
                self.spots[joint].layer - 1,
                (room, room),
            );
            self.run(row, bond, false, (unknown, joint));
        }
        for &plant in parent.rows() {
            self.run(row, bond, sure, (plant, joint));
        }
    }

    /// Joins two spots by lanes; a line that would run backwards is left out.
    fn run(&mut self, cross: usize, bond: Bond, sure: bool, ends: (usize, usize)) {
        let (from, to) = ends;
        if self.spots[from].layer >= self.spots[to].layer {
            return;
        }
        let mut stops = vec![from];
        for layer in self.spots[from].layer + 1..self.spots[to].layer {
            let lane = match self.lanes.get(&(from, bond, sure, layer)) {
                Some(&lane) => lane,
                None => self.spot(Role::Lane, layer, (LANE, LANE)),
            };
            self.lanes.insert((from, bond, sure, layer), lane);
            stops.push(lane);
        }
        stops.push(to);
        for pair in stops.windows(2) {
            let below = bond == Bond::Pollen && pair[1] == to;
            self.join((pair[0], pair[1]), usize::from(below));
        }
        self.lines.push(Line {
            bond,
            sure,
            cross,
            stops,
        });
    }

    /// Whether the spot is a cross mark from which several lines leave.
    pub fn has_siblings(&self, spot: usize) -> bool {
        matches!(self.spots[spot].role, Role::Joint(_)) && self.right[spot].len() > 1
    }

    fn join(&mut self, (from, to): (usize, usize), port: usize) {
        if !self.right[from].contains(&to) {
            self.right[from].push(to);
            self.port[from].push(port);
            self.left[to].push(from);
        }
    }
}

/// How many crosses each plant may have been raised from, by its row.
pub fn times_raised(drawing: &PedigreeDrawing) -> Vec<usize> {
    let mut times = vec![0; drawing.plants.len()];
    drawing
        .crosses
        .iter()
        .flat_map(|cross| &cross.children)
        .for_each(|&child| times[child] += 1);
    times
}
