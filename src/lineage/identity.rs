//! How alike two gene copies are by descent: solved once for every pod, founders first.
//!
//! Relationship A is twice kinship; A = T D Tᵀ (Henderson 1976), where row i of T holds the expected part of each
//! node in node i and D the variance each adds of its own. D and the inbreeding F of each pod follow from walks up the
//! pedigree of its parents (Meuwissen & Luo 1992), once per pod. Uncertain parents: pod-mates of one unknown pair
//! share a node with variance of its own; seeds that each drew their own pair do not (the average relationship of
//! Henderson 1988). Both equal the mixture of the exact matrices.
//! A line too long for walks but narrow is solved by [`super::live_table`] instead; both give the same numbers.

use std::collections::HashMap;

use super::founding::Founding;
use super::live_table;
use super::nodes::{GeneticNode, GeneticNodes};
use super::pedigree::{Donor, Origin, Pair, Pedigree, PlantRow};
use super::walk_up::{Relation, Walk};

/// Steps of walking up after which a pedigree is refused, about a minute of work.
const STEP_LIMIT: u64 = 1 << 32;

/// Table cells filled in the time of one step, about.
const CELLS_PER_STEP: u64 = 4;

/// Steps always allowed: below this a table gains nothing.
const LEAST_BUDGET: u64 = 1 << 16;

/// The pedigree is both too deep for walks and too broad for a table of what is still in use.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PedigreeTooComplex;

impl std::fmt::Display for PedigreeTooComplex {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            out,
            "the pedigree is too deep and too broad at once for kinship of all plants; ask for fewer plants"
        )
    }
}

impl std::error::Error for PedigreeTooComplex {}

/// What an origin adds.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct PodIdentity {
    /// Inbreeding F of its plants, 0 to 1: the kinship of their parents, averaged over alternatives.
    pub inbreeding: f64,
    /// Variance each plant adds of its own, in units of A.
    pub mendelian_variance: f64,
}

/// Everything needed to answer questions about identity by descent.
#[derive(Clone, Debug)]
pub struct IbdSolution {
    nodes: GeneticNodes,
    mendelian_variance: Vec<f64>,
    selves: Vec<f64>,
    pods: Vec<PodIdentity>,
    /// The node of the stock that unknown parents belong to.
    unknown: Option<u32>,
}

impl IbdSolution {
    /// Solves a pedigree under assumptions about its founders.
    ///
    /// # Errors
    /// [`PedigreeTooComplex`] for a pedigree of very many generations and very many parents alive at once.
    pub fn solve(pedigree: &Pedigree, founding: &Founding) -> Result<Self, PedigreeTooComplex> {
        Self::solve_within(pedigree, founding, STEP_LIMIT)
    }

    /// The same with a stated limit on the steps of walking up, where no table can stand in for them.
    ///
    /// # Errors
    /// [`PedigreeTooComplex`] when the limit is reached.
    pub fn solve_within(
        pedigree: &Pedigree,
        founding: &Founding,
        steps: u64,
    ) -> Result<Self, PedigreeTooComplex> {
        let nodes = GeneticNodes::of(pedigree, founding);
        let table_cost = live_table::cost(&nodes);
        let budget = table_cost.map_or(steps, |cells| (cells / CELLS_PER_STEP).max(LEAST_BUDGET));
        let walk = Walk::new(nodes.len(), budget);
        if let Some(solved) = Self::solve_with(nodes, pedigree, founding, walk) {
            return Ok(solved);
        }
        table_cost.ok_or(PedigreeTooComplex)?;
        let nodes = GeneticNodes::of(pedigree, founding);
        let table = live_table::LiveTable::new(&nodes);
        Ok(Self::solve_with(nodes, pedigree, founding, table).expect("a table needs no walks"))
    }

    fn solve_with(
        nodes: GeneticNodes,
        pedigree: &Pedigree,
        founding: &Founding,
        mut relation: impl Relation,
    ) -> Option<Self> {
        let count = nodes.len() as usize;
        let pods = vec![PodIdentity::default(); pedigree.origins().len()];
        let unknown = founding.unknown_parents();
        let mut solved = Self {
            nodes,
            mendelian_variance: Vec::with_capacity(count),
            selves: Vec::with_capacity(count),
            pods,
            unknown,
        };
        let mut met = HashMap::new();
        for number in 0..solved.nodes.len() {
            let (mendelian_variance, total) = match solved.nodes.node(number) {
                GeneticNode::Stock(stock) => (
                    2.0 * founding.background()[stock as usize],
                    2.0 * founding.background()[stock as usize],
                ),
                GeneticNode::BatchParent(plant, side) => {
                    let mixture = founding
                        .stock(plant)
                        .map_or(&[][..], |stock| &stock.sides[side]);
                    solved.founder(founding, [mixture, mixture])
                }
                GeneticNode::Founder(plant) => match founding.stock(plant) {
                    Some(stock) if stock.batch.is_some() => {
                        solved.sibling_founder(number, &mut relation)?
                    }
                    Some(stock) => solved.founder(founding, [&stock.sides[0], &stock.sides[1]]),
                    None => (1.0, 1.0),
                },
                GeneticNode::Pod(origin) => solved.pod(
                    origin as usize,
                    &pedigree.origins()[origin as usize],
                    &mut relation,
                    &mut met,
                )?,
                GeneticNode::Parent(plant) => solved.parent(pedigree, plant, number),
            };
            solved.mendelian_variance.push(mendelian_variance);
            solved.selves.push(total);
            relation.settle(&solved, number);
        }
        Some(solved)
    }

    /// A founder of stocks: its copies are alike when both come from one stock and are alike there.
    fn founder(&self, founding: &Founding, sides: [&[(u32, f64)]; 2]) -> (f64, f64) {
        let alike = |one: &[(u32, f64)], other: &[(u32, f64)]| -> f64 {
            let pairs = one.iter().flat_map(|p| other.iter().map(move |q| (p, q)));
            pairs
                .filter(|(p, q)| p.0 == q.0)
                .map(|(p, q)| founding.background()[p.0 as usize] * p.1 * q.1)
                .sum()
        };
        let [seed, pollen] = sides;
        let (shared, squares) = (
            alike(seed, pollen),
            alike(seed, seed) + alike(pollen, pollen),
        );
        (1.0 - 0.5 * squares, 1.0 + shared)
    }

    fn sibling_founder(&self, number: u32, relation: &mut impl Relation) -> Option<(f64, f64)> {
        let parents: Vec<u32> = self.nodes.sources(number).map(|source| source.0).collect();
        let [seed, pollen] = parents[..] else {
            unreachable!("a batch has two unseen parents")
        };
        let between = relation.between(self, seed, pollen)?;
        let selves = self.selves[seed as usize] + self.selves[pollen as usize];
        Some((1.0 - 0.25 * selves, 1.0 + 0.5 * between))
    }

    fn parent(&mut self, pedigree: &Pedigree, plant: PlantRow, number: u32) -> (f64, f64) {
        let origin = pedigree
            .origin_index(plant)
            .expect("a parent that is no founder has an origin");
        let pod = self.nodes.of_pod(origin);
        if self.mendelian_variance[pod as usize] == 0.0 {
            self.nodes.shorten(number, pod);
        }
        (
            self.pods[origin].mendelian_variance,
            1.0 + self.pods[origin].inbreeding,
        )
    }

    /// Solves an origin; returns the variance and the self-relationship of what its plants have in common.
    ///
    /// A plant varies by 1 + F in all. Of that the parents' mean, whichever pair it was, accounts for `shared`; the
    /// known expectation of that mean for `shared - unknown`. What is unknown is one draw for a whole pod, or one for
    /// each seed.
    fn pod(
        &mut self,
        index: usize,
        origin: &Origin,
        relation: &mut impl Relation,
        met: &mut HashMap<(u32, u32), f64>,
    ) -> Option<(f64, f64)> {
        let (mut inbreeding, mut selves, mut shared) = (0.0, 0.0, 0.0);
        for (pair, chance) in origin.pairs.iter().zip(origin.chances()) {
            let [seed, pollen] = [pair.seed, pair.pollen].map(|parent| self.self_of(parent));
            let between = match self.couple(pair) {
                Some(key) => match met.get(&key) {
                    Some(&known) => known,
                    None => *met
                        .entry(key)
                        .or_insert(relation.between(self, key.0, key.1)?),
                },
                None => 0.0,
            };
            inbreeding += chance * 0.5 * between;
            selves += chance * (seed + pollen);
            shared += chance * 0.25 * (seed + pollen + 2.0 * between);
        }
        let unknown = match &origin.pairs[..] {
            [pair] => {
                let unknown = [pair.seed, pair.pollen]
                    .iter()
                    .filter(|parent| parent.is_none())
                    .count();
                0.25 * (1.0 - self.background_of_unknown()) * unknown as f64
            }
            _ => shared - relation.square(self, self.nodes.of_pod(index))?,
        };
        let (pod, plant) = match origin.donor {
            Donor::WholePod => (unknown, 1.0 - 0.25 * selves),
            Donor::EachSeed => (0.0, 1.0 - 0.25 * selves + unknown),
        };
        self.pods[index] = PodIdentity {
            inbreeding,
            mendelian_variance: plant,
        };
        Some((pod, shared - unknown + pod))
    }

    /// The nodes that stand for both parents; none where an unknown parent is unrelated to everyone.
    fn couple(&self, pair: &Pair) -> Option<(u32, u32)> {
        let node = |parent: Option<PlantRow>| {
            parent.map_or(self.unknown, |plant| self.nodes.of_plant(plant))
        };
        let (seed, pollen) = (node(pair.seed)?, node(pair.pollen)?);
        Some((seed.min(pollen), seed.max(pollen)))
    }

    /// Self-relationship of a parent; an unknown one counts as a founder that is not inbred beyond its stock.
    fn self_of(&self, parent: Option<PlantRow>) -> f64 {
        match parent.and_then(|plant| self.nodes.of_plant(plant)) {
            Some(node) => self.selves[node as usize],
            None => 1.0 + self.background_of_unknown(),
        }
    }

    /// The node of the stock that unknown parents are stated to belong to.
    pub fn unknown_parents(&self) -> Option<u32> {
        self.unknown
    }

    /// Background kinship among unknown parents, 0 to 1.
    pub fn background_of_unknown(&self) -> f64 {
        self.unknown
            .map_or(0.0, |stock| 0.5 * self.selves[stock as usize])
    }

    /// The layout of nodes.
    pub fn nodes(&self) -> &GeneticNodes {
        &self.nodes
    }

    /// Variance a node adds of its own (the diagonal of D), in units of A.
    pub fn mendelian_variance(&self, node: u32) -> f64 {
        self.mendelian_variance[node as usize]
    }

    /// Relationship of a node with itself (the diagonal of A).
    pub fn self_relationship(&self, node: u32) -> f64 {
        self.selves[node as usize]
    }

    /// The node that stands for a plant among others: its own, or its pod's if it has no offspring.
    pub fn stem_of(&self, pedigree: &Pedigree, plant: PlantRow) -> u32 {
        let pod = || {
            pedigree
                .origin_index(plant)
                .map(|origin| self.nodes.of_pod(origin))
        };
        self.nodes
            .of_plant(plant)
            .or_else(pod)
            .expect("a plant without origin is a founder and has a node")
    }

    /// What the plants of an origin have: inbreeding and own variance.
    pub fn pod_identity(&self, origin: usize) -> PodIdentity {
        self.pods[origin]
    }

    /// Inbreeding F of a plant, 0 to 1; for a founder what its stock implies.
    pub fn inbreeding(&self, pedigree: &Pedigree, plant: PlantRow) -> f64 {
        match pedigree.origin_index(plant) {
            Some(origin) => self.pods[origin].inbreeding,
            None => self.self_of(Some(plant)) - 1.0,
        }
    }
}
