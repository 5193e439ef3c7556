//! The points through which genes pass on: every pod, every founder and every plant that became a parent.
//!
//! A *node* draws its expected gene content from earlier nodes, each with a fraction. Pods stand between plants and
//! their parents, so siblings are joined in one place and seedlings without offspring need no node at all: a registry
//! of a million seedlings has a few thousand nodes. Stocks of founders and the unseen parents of a batch come first.
//! This is only the layout; [`super::solving`] solves how much each node adds of its own.

use std::collections::BTreeMap;

use super::founding::{Founding, Mixture};
use super::pedigree::{Origin, OriginRow, Pedigree, PlantRow};

/// What a node stands for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum GeneticNode {
    /// The shared background of a stock of founders.
    Stock(u32),
    /// One of the two unseen parents of a batch of founders; it takes the given side of that founder's stock.
    BatchParent(PlantRow, usize),
    /// A founder.
    Founder(PlantRow),
    /// What all plants of an origin have in common.
    Pod(OriginRow),
    /// A plant that is a parent.
    Parent(PlantRow),
}

/// All nodes, sources before what draws from them.
#[derive(Clone, Debug, Default)]
pub struct GeneticNodes {
    nodes: Vec<GeneticNode>,
    ranges: Vec<(u32, u32)>,
    shortened: Vec<(u32, u32)>,
    sources: Vec<u32>,
    fractions: Vec<f64>,
    of_plant: Vec<u32>,
    of_pod: Vec<u32>,
}

const NONE: u32 = u32::MAX;

impl GeneticNodes {
    /// Lays out the nodes of a pedigree.
    pub fn of(pedigree: &Pedigree, founding: &Founding) -> Self {
        let mut nodes = Self {
            of_plant: vec![NONE; pedigree.len()],
            of_pod: vec![NONE; pedigree.origins().len()],
            ..Self::default()
        };
        for stock in 0..founding.background().len() as u32 {
            nodes.add(GeneticNode::Stock(stock), &[]);
        }
        let is_parent = pedigree.parent_marks();
        let mut batches = BTreeMap::new();
        for plant in pedigree.plants() {
            match pedigree.origin_row(plant) {
                None => nodes.add_founder(plant, founding, &mut batches),
                Some(origin) => {
                    nodes.add_pod(pedigree, founding, origin);
                    if is_parent[plant.index()] {
                        nodes.of_plant[plant.index()] = nodes.len();
                        nodes.add(
                            GeneticNode::Parent(plant),
                            &[(nodes.of_pod[origin.index()], 1.0)],
                        );
                    }
                }
            }
        }
        for origin in pedigree.origin_rows() {
            nodes.add_pod(pedigree, founding, origin);
        }
        nodes
    }

    fn add(&mut self, node: GeneticNode, sources: &[(u32, f64)]) {
        let start = self.sources.len() as u32;
        self.sources.extend(sources.iter().map(|source| source.0));
        self.fractions.extend(sources.iter().map(|source| source.1));
        self.nodes.push(node);
        self.ranges.push((start, self.sources.len() as u32));
        self.shortened.push((start, self.sources.len() as u32));
    }

    fn add_founder(
        &mut self,
        plant: PlantRow,
        founding: &Founding,
        batches: &mut BTreeMap<u32, [u32; 2]>,
    ) {
        let nothing: [Mixture; 2] = Default::default();
        let stock = founding.stock(plant);
        let sides = stock.map_or(&nothing, |stock| &stock.sides);
        let sources = match stock.and_then(|stock| stock.batch) {
            None => average(sides),
            Some(batch) => {
                let parents = *batches.entry(batch).or_insert_with(|| {
                    [0, 1].map(|side| {
                        let number = self.len();
                        self.add(GeneticNode::BatchParent(plant, side), &sides[side]);
                        number
                    })
                });
                vec![(parents[0], 0.5), (parents[1], 0.5)]
            }
        };
        self.of_plant[plant.index()] = self.len();
        self.add(GeneticNode::Founder(plant), &sources);
    }

    fn add_pod(&mut self, pedigree: &Pedigree, founding: &Founding, origin: OriginRow) {
        if self.of_pod[origin.index()] == NONE {
            for &(of, _) in &pedigree[origin].may_be_of {
                self.add_pod(pedigree, founding, of);
            }
            let sources = self.mean_parents(&pedigree[origin], founding.unknown_parents());
            self.of_pod[origin.index()] = self.len();
            self.add(GeneticNode::Pod(origin), &sources);
        }
    }

    /// Half of each parent; an unknown one stands for its stock, or for nothing. Stocks are the first nodes. A mixed-up
    /// plant draws from what the plants of each origin it may be of have in common, so it shares their unknown parents.
    fn mean_parents(&self, origin: &Origin, unknown: Option<u32>) -> Vec<(u32, f64)> {
        if !origin.may_be_of.is_empty() {
            let pods = origin.chances_of_origins();
            return join(
                pods.map(|(of, chance)| (self.of_pod[of.index()], chance))
                    .collect(),
            );
        }
        let mut sources = Vec::with_capacity(2);
        for (pair, chance) in origin.pairs.iter().zip(origin.chances()) {
            for parent in [pair.seed, pair.pollen] {
                let node = parent.map_or(unknown, |plant| Some(self.of_plant[plant.index()]));
                sources.extend(node.map(|node| (node, 0.5 * chance)));
            }
        }
        join(sources)
    }

    /// Number of nodes.
    pub fn len(&self) -> u32 {
        self.nodes.len() as u32
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.nodes.is_empty()
    }

    /// What a node stands for.
    pub fn node(&self, number: u32) -> GeneticNode {
        self.nodes[number as usize]
    }

    /// The nodes a node draws from, with the expected fraction from each; all have smaller numbers.
    pub fn sources(&self, number: u32) -> impl ExactSizeIterator<Item = (u32, f64)> + '_ {
        self.slice(self.ranges[number as usize])
    }

    /// The same past pods that add nothing of their own: a parent then draws from its own parents.
    pub fn reach(&self, number: u32) -> impl ExactSizeIterator<Item = (u32, f64)> + '_ {
        self.slice(self.shortened[number as usize])
    }

    fn slice(&self, (start, end): (u32, u32)) -> impl ExactSizeIterator<Item = (u32, f64)> + '_ {
        let range = start as usize..end as usize;
        self.sources[range.clone()]
            .iter()
            .copied()
            .zip(self.fractions[range].iter().copied())
    }

    /// The node of a founder or a parent; `None` for a plant without offspring, which has only its pod's.
    pub fn of_plant(&self, plant: PlantRow) -> Option<u32> {
        let number = self.of_plant[plant.index()];
        (number != NONE).then_some(number)
    }

    /// The node of an origin.
    pub fn of_pod(&self, origin: OriginRow) -> u32 {
        self.of_pod[origin.index()]
    }

    /// Lets a parent reach past its pod, which adds nothing of its own.
    pub(super) fn shorten(&mut self, parent: u32, pod: u32) {
        self.shortened[parent as usize] = self.ranges[pod as usize];
    }
}

/// A founder's expected content: half of each side.
fn average(sides: &[Mixture; 2]) -> Mixture {
    join(
        sides
            .iter()
            .flatten()
            .map(|&(stock, chance)| (stock, 0.5 * chance))
            .collect(),
    )
}

fn join(mut sources: Vec<(u32, f64)>) -> Vec<(u32, f64)> {
    sources.sort_by_key(|source| source.0);
    sources.dedup_by(|next, kept| {
        let same = next.0 == kept.0;
        if same {
            kept.1 += next.1;
        }
        same
    });
    sources
}
