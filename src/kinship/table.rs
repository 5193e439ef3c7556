//! Kinship tables of chosen plants out of any number.
//!
//! The pedigree is cut down to what lies above the plants; then each column of the table is one product with a unit
//! vector, eight at a time. Columns do not depend on each other, so they are computed in parallel with the same bits.

use rayon::prelude::*;

use crate::lineage::{Agenda, PlantRow};

use super::relations::Kinship;

/// Kinship of every row plant with every column plant.
#[derive(Clone, PartialEq, Debug)]
pub struct KinshipTable {
    columns: usize,
    cells: Vec<f64>,
}

impl KinshipTable {
    /// The kinship in a cell, 0 to 1.
    pub fn get(&self, row: usize, column: usize) -> f64 {
        self.cells[row * self.columns + column]
    }

    /// One row.
    pub fn row(&self, row: usize) -> &[f64] {
        &self.cells[row * self.columns..(row + 1) * self.columns]
    }
}

const LANES: usize = 8;
/// Columns worked out at a time where they are not kept.
const AT_A_TIME: usize = 256;

impl Kinship<'_> {
    /// Kinship of every row plant with one column plant after the other, without a table of all: memory grows with the
    /// rows alone. `each` is given the place of the column and its kinship by row, and ends the work by giving `false`.
    pub fn for_each_column(
        &self,
        rows: &[PlantRow],
        columns: &[PlantRow],
        mut each: impl FnMut(usize, &[f64]) -> bool,
    ) {
        let (above, row_at, column_nodes) = self.above_both(rows, columns);
        let mut kinship = vec![0.0; rows.len()];
        for start in (0..columns.len()).step_by(AT_A_TIME) {
            let end = columns.len().min(start + AT_A_TIME);
            // Siblings without offspring share a node, and so a column.
            let mut nodes = column_nodes[start..end].to_vec();
            nodes.sort_unstable();
            nodes.dedup();
            let at: Vec<usize> = nodes.iter().map(|&node| above.position(node)).collect();
            let blocks: Vec<Vec<[f64; LANES]>> = at
                .par_chunks(LANES)
                .map(|block| above.columns(block, &row_at))
                .collect();
            for column in start..end {
                let known = nodes.binary_search(&column_nodes[column]);
                let known = known.expect("every node of the columns was gathered");
                let (block, lane) = (&blocks[known / LANES], known % LANES);
                for (row, cell) in kinship.iter_mut().enumerate() {
                    *cell = if rows[row] == columns[column] {
                        0.5 * (1.0 + self.inbreeding(rows[row]))
                    } else {
                        0.5 * block[row][lane]
                    };
                }
                if !each(column, &kinship) {
                    return;
                }
            }
        }
    }

    /// The nodes above rows and columns, the place of each row among them, and the node of each column.
    fn above_both(&self, rows: &[PlantRow], columns: &[PlantRow]) -> (Above, Vec<usize>, Vec<u32>) {
        let node = |&plant: &PlantRow| self.identity().stem_of(self.pedigree(), plant);
        let row_nodes: Vec<u32> = rows.iter().map(node).collect();
        let column_nodes: Vec<u32> = columns.iter().map(node).collect();
        let above = Above::of(self, row_nodes.iter().chain(&column_nodes).copied());
        let row_at = row_nodes.iter().map(|&node| above.position(node)).collect();
        (above, row_at, column_nodes)
    }

    /// Kinship of all pairs of some plants; the diagonal is ½ (1 + F).
    pub fn table(&self, plants: &[PlantRow]) -> KinshipTable {
        self.table_between(plants, plants)
    }

    /// Kinship of every row plant with every column plant, say of females with males.
    pub fn table_between(&self, rows: &[PlantRow], columns: &[PlantRow]) -> KinshipTable {
        let (above, row_at, column_nodes) = self.above_both(rows, columns);
        let column_at: Vec<usize> = column_nodes
            .iter()
            .map(|&node| above.position(node))
            .collect();
        let blocks: Vec<Vec<[f64; LANES]>> = column_at
            .par_chunks(LANES)
            .map(|block| above.columns(block, &row_at))
            .collect();
        let mut cells = Vec::with_capacity(rows.len() * columns.len());
        for (row, plant) in rows.iter().enumerate() {
            for (column, other) in columns.iter().enumerate() {
                let same = plant == other;
                cells.push(if same {
                    0.5 * (1.0 + self.inbreeding(*plant))
                } else {
                    0.5 * blocks[column / LANES][row][column % LANES]
                });
            }
        }
        KinshipTable {
            columns: columns.len(),
            cells,
        }
    }
}

/// The nodes above some others, numbered anew in the same order.
struct Above {
    nodes: Vec<u32>,
    ends: Vec<usize>,
    sources: Vec<(usize, f64)>,
    mendelian_variance: Vec<f64>,
}

impl Above {
    fn of(kinship: &Kinship<'_>, wanted: impl Iterator<Item = u32>) -> Self {
        let all = kinship.identity().nodes();
        let mut agenda = Agenda::new(all.len() as usize);
        wanted.for_each(|node| agenda.insert(node));
        let mut nodes = Vec::new();
        while let Some(node) = agenda.take_last() {
            nodes.push(node);
            all.reach(node)
                .for_each(|(source, _)| agenda.insert(source));
        }
        nodes.reverse();
        let mut above = Self {
            ends: Vec::new(),
            sources: Vec::new(),
            mendelian_variance: Vec::new(),
            nodes,
        };
        for at in 0..above.nodes.len() {
            let node = above.nodes[at];
            let sources = all
                .reach(node)
                .map(|(source, fraction)| (above.position(source), fraction));
            let sources: Vec<(usize, f64)> = sources.collect();
            above.sources.extend(sources);
            above.ends.push(above.sources.len());
            above
                .mendelian_variance
                .push(kinship.identity().mendelian_variance(node));
        }
        above
    }

    fn position(&self, node: u32) -> usize {
        self.nodes
            .binary_search(&node)
            .expect("everything above was gathered")
    }

    fn sources(&self, at: usize) -> &[(usize, f64)] {
        let start = if at == 0 { 0 } else { self.ends[at - 1] };
        &self.sources[start..self.ends[at]]
    }

    /// Relationships A of the wanted rows with up to eight columns.
    fn columns(&self, block: &[usize], rows: &[usize]) -> Vec<[f64; LANES]> {
        let mut sums = vec![[0.0; LANES]; self.nodes.len()];
        for (lane, &at) in block.iter().enumerate() {
            sums[at][lane] += 1.0;
        }
        for at in (0..self.nodes.len()).rev() {
            let below = sums[at];
            for &(source, fraction) in self.sources(at) {
                (0..LANES).for_each(|lane| sums[source][lane] += fraction * below[lane]);
            }
        }
        for at in 0..self.nodes.len() {
            let mut sum = sums[at].map(|value| value * self.mendelian_variance[at]);
            for &(source, fraction) in self.sources(at) {
                (0..LANES).for_each(|lane| sum[lane] += fraction * sums[source][lane]);
            }
            sums[at] = sum;
        }
        rows.iter().map(|&row| sums[row]).collect()
    }
}
