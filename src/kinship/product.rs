//! The relationship matrix times a vector, without the matrix.
//!
//! A x = T D Tᵀ x in two sweeps (Colleau 2002): collect from offspring into parents, scale by what each adds of its
//! own, hand down from parents to offspring. Seedlings without offspring meet in their pod, so they are passed over
//! twice in a straight line and all else is per pod. Group means of kinship and optimum contributions rest on this.

use crate::lineage::GeneticNode;

use super::relations::Kinship;

impl Kinship<'_> {
    /// y = A x over all plants, where A is twice the kinship with diagonal 1 + F. Cost is proportional to plants.
    ///
    /// # Panics
    /// If `x` has not one value per plant.
    pub fn product(&self, x: &[f64]) -> Vec<f64> {
        assert_eq!(x.len(), self.pedigree().len(), "one value per plant");
        let collected = self.collect(x);
        let handed = self.hand_down(collected, x);
        let (pedigree, identity) = (self.pedigree(), self.identity());
        let mut y = Vec::with_capacity(x.len());
        for (rows, origin) in pedigree.stretches() {
            let (mendelian_variance, shared) = origin.map_or((0.0, 0.0), |origin| {
                (
                    identity.pod_identity(origin).mendelian_variance,
                    handed[identity.nodes().of_pod(origin) as usize],
                )
            });
            y.extend(
                x[rows]
                    .iter()
                    .map(|value| mendelian_variance * value + shared),
            );
        }
        for node in 0..identity.nodes().len() {
            if let GeneticNode::Founder(plant) | GeneticNode::Parent(plant) =
                identity.nodes().node(node)
            {
                y[plant.index()] = handed[node as usize];
            }
        }
        y
    }

    /// For each node the sum over all plants of value times the expected part from it.
    fn collect(&self, x: &[f64]) -> Vec<f64> {
        let (pedigree, nodes) = (self.pedigree(), self.identity().nodes());
        let mut pods = vec![0.0; pedigree.origins().len()];
        for (rows, origin) in pedigree.stretches() {
            if let Some(origin) = origin {
                pods[origin.index()] += sum(&x[rows]);
            }
        }
        let mut sums = vec![0.0; nodes.len() as usize];
        for node in (0..nodes.len()).rev() {
            match nodes.node(node) {
                // The plants' own values reach the pod in one go; a parent passes on only what its offspring brought.
                GeneticNode::Pod(origin) => sums[node as usize] += pods[origin.index()],
                GeneticNode::Founder(plant) => sums[node as usize] += x[plant.index()],
                _ => {}
            }
            for (source, fraction) in nodes.sources(node) {
                sums[source as usize] += fraction * sums[node as usize];
            }
        }
        sums
    }

    fn hand_down(&self, mut sums: Vec<f64>, x: &[f64]) -> Vec<f64> {
        let nodes = self.identity().nodes();
        for node in 0..nodes.len() {
            if let GeneticNode::Parent(plant) = nodes.node(node) {
                sums[node as usize] += x[plant.index()];
            }
            let mendelian_variance = self.identity().mendelian_variance(node) * sums[node as usize];
            sums[node as usize] = nodes
                .sources(node)
                .fold(mendelian_variance, |sum, (source, fraction)| {
                    sum + fraction * sums[source as usize]
                });
        }
        sums
    }
}

/// The sum in four interleaved parts, always the same four, so that additions need not wait for each other.
fn sum(values: &[f64]) -> f64 {
    let (fours, rest) = values.as_chunks::<4>();
    let lanes = fours.iter().fold([0.0; 4], |sum, four| {
        std::array::from_fn(|lane| sum[lane] + four[lane])
    });
    lanes.iter().chain(rest).sum()
}
