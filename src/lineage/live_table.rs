//! The tabular method (Emik & Terrill 1949; Henderson 1976) over only those nodes that are still in use.
//!
//! A node leaves the table after the last node that draws from it. A line of a million generations is narrow: its
//! table never holds more than a few rows, where walks up would cost a million steps for every generation. Broad
//! pedigrees are left to the walks of [`super::walk_up`].

use super::identity::IbdSolution;
use super::nodes::GeneticNodes;
use super::walk_up::Relation;

/// The largest number of nodes in use at once for which a table is kept (32 MB).
const WIDTH_LIMIT: usize = 2048;

/// Steps a table would take, or `None` if it would be too wide.
pub(super) fn cost(nodes: &GeneticNodes) -> Option<u64> {
    let last_use = last_uses(nodes);
    let mut leaving = vec![0u32; nodes.len() as usize];
    let (mut width, mut steps) = (0usize, 0u64);
    for node in 0..nodes.len() {
        width += 1;
        if width > WIDTH_LIMIT {
            return None;
        }
        steps += (width * (nodes.sources(node).len() + 1)) as u64;
        leaving[last_use[node as usize] as usize] += 1;
        width -= leaving[node as usize] as usize;
    }
    Some(steps)
}

/// For each node the last one that draws from it or asks for it, itself if none does.
fn last_uses(nodes: &GeneticNodes) -> Vec<u32> {
    let mut last: Vec<u32> = (0..nodes.len()).collect();
    for node in 0..nodes.len() {
        for (source, _) in nodes.sources(node) {
            last[source as usize] = node;
        }
    }
    last
}

/// Relationships among the nodes still in use.
pub(super) struct LiveTable {
    last_use: Vec<u32>,
    /// The slot of each node while it is in use.
    slot: Vec<u32>,
    in_use: Vec<u32>,
    free: Vec<u32>,
    width: usize,
    cells: Vec<f64>,
}

impl LiveTable {
    pub(super) fn new(nodes: &GeneticNodes) -> Self {
        let last_use = last_uses(nodes);
        Self {
            slot: vec![u32::MAX; last_use.len()],
            last_use,
            in_use: Vec::new(),
            free: Vec::new(),
            width: 0,
            cells: Vec::new(),
        }
    }

    fn cell(&self, one: u32, other: u32) -> f64 {
        self.cells
            [self.slot[one as usize] as usize * self.width + self.slot[other as usize] as usize]
    }

    fn set(&mut self, one: u32, other: u32, value: f64) {
        let (a, b) = (
            self.slot[one as usize] as usize,
            self.slot[other as usize] as usize,
        );
        self.cells[a * self.width + b] = value;
        self.cells[b * self.width + a] = value;
    }

    fn take_slot(&mut self) -> u32 {
        if self.free.is_empty() {
            let wider = (2 * self.width).max(8);
            let mut cells = vec![0.0; wider * wider];
            for row in 0..self.width {
                cells[row * wider..row * wider + self.width]
                    .copy_from_slice(&self.cells[row * self.width..(row + 1) * self.width]);
            }
            self.free.extend((self.width as u32..wider as u32).rev());
            (self.cells, self.width) = (cells, wider);
        }
        self.free.pop().expect("slots were just added")
    }

    fn retire(&mut self, now: u32) {
        let (last_use, slot, free) = (&self.last_use, &self.slot, &mut self.free);
        self.in_use.retain(|&node| {
            let stays = last_use[node as usize] > now;
            if !stays {
                free.push(slot[node as usize]);
            }
            stays
        });
    }
}

impl Relation for LiveTable {
    fn between(&mut self, _solved: &IbdSolution, one: u32, other: u32) -> Option<f64> {
        Some(self.cell(one, other))
    }

    fn square(&mut self, solved: &IbdSolution, node: u32) -> Option<f64> {
        let sources: Vec<(u32, f64)> = solved.nodes().sources(node).collect();
        let terms = sources
            .iter()
            .flat_map(|one| sources.iter().map(move |other| (one, other)));
        Some(
            terms
                .map(|(one, other)| one.1 * other.1 * self.cell(one.0, other.0))
                .sum(),
        )
    }

    fn settle(&mut self, solved: &IbdSolution, node: u32) {
        let sources: Vec<(u32, f64)> = solved.nodes().sources(node).collect();
        self.slot[node as usize] = self.take_slot();
        for at in 0..self.in_use.len() {
            let other = self.in_use[at];
            let value = sources
                .iter()
                .map(|&(source, fraction)| fraction * self.cell(source, other))
                .sum();
            self.set(node, other, value);
        }
        self.set(node, node, solved.self_relationship(node));
        self.in_use.push(node);
        self.retire(node);
    }
}
