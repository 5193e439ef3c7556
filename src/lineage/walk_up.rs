//! Relationships by walking up the pedigree from two nodes at once, each ancestor met once (Meuwissen & Luo 1992).
//!
//! What is solved so far is in [`IbdSolution`]; a line too long for walks has its own way in [`super::live_table`].

use super::agenda::Agenda;
use super::identity::IbdSolution;

/// A way to find relationships among nodes already solved; `None` when it costs too much.
pub(super) trait Relation {
    /// A between two nodes.
    fn between(&mut self, solved: &IbdSolution, one: u32, other: u32) -> Option<f64>;
    /// The variance of what a node draws from its sources: A of that expectation with itself.
    fn square(&mut self, solved: &IbdSolution, node: u32) -> Option<f64>;
    /// Takes note that a node is solved.
    fn settle(&mut self, _solved: &IbdSolution, _stem: u32) {}
}

/// Relationships by walking up from both sides at once, each ancestor once.
pub(super) struct Walk {
    agenda: Agenda,
    weights: Vec<[f64; 2]>,
    steps_left: u64,
}

impl Walk {
    pub fn new(nodes: u32, steps_left: u64) -> Self {
        Self {
            agenda: Agenda::new(nodes as usize),
            weights: vec![[0.0; 2]; nodes as usize],
            steps_left,
        }
    }

    fn put(&mut self, node: u32, weights: [f64; 2]) {
        let held = &mut self.weights[node as usize];
        held[0] += weights[0];
        held[1] += weights[1];
        self.agenda.insert(node);
    }

    /// Σ over common ancestors of both expected parts times what the ancestor adds of its own.
    fn product(&mut self, solved: &IbdSolution) -> Option<f64> {
        let mut sum = 0.0;
        while let Some(node) = self.agenda.take_last() {
            self.steps_left = self.steps_left.checked_sub(1)?;
            let [one, other] = std::mem::take(&mut self.weights[node as usize]);
            sum += one * other * solved.mendelian_variance(node);
            for (source, fraction) in solved.nodes().reach(node) {
                self.put(source, [fraction * one, fraction * other]);
            }
        }
        Some(sum)
    }
}

impl Relation for Walk {
    fn between(&mut self, solved: &IbdSolution, one: u32, other: u32) -> Option<f64> {
        if one == other {
            return Some(solved.self_relationship(one));
        }
        self.put(one, [1.0, 0.0]);
        self.put(other, [0.0, 1.0]);
        self.product(solved)
    }

    fn square(&mut self, solved: &IbdSolution, node: u32) -> Option<f64> {
        for (source, fraction) in solved.nodes().sources(node) {
            self.put(source, [fraction, fraction]);
        }
        self.product(solved)
    }
}
