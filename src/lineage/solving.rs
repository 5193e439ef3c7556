//! IbdSolution by descent solved once for every pod, founders first.
//!
//! Relationship A is twice kinship; A = T D Tᵀ (Henderson 1976), where row i of T holds the expected part of each
//! node in node i and D the variance each adds of its own. D and the inbreeding F of each pod follow from walks up the
//! pedigree of its parents (Meuwissen & Luo 1992), once per pod. Uncertain parents: pod-mates of one unknown pair
//! share a node with variance of its own; seeds that each drew their own pair do not (the average relationship of
//! Henderson 1988). Both equal the mixture of the exact matrices.
//! A line too long for walks but narrow is solved by [`super::live_table`] instead; both give the same numbers.

use std::collections::HashMap;

use super::founding::Founding;
use super::identity::{IbdSolution, PedigreeTooComplex, PodIdentity};
use super::live_table;
use super::nodes::{GeneticNode, GeneticNodes};
use super::pedigree::{Donor, Origin, OriginRow, Pair, Pedigree, PlantRow};
use super::walk_up::{Relation, Walk};

/// Steps of walking up after which a pedigree is refused, about a minute of work.
const STEP_LIMIT: u64 = 1 << 32;

/// Table cells filled in the time of one step, about.
const CELLS_PER_STEP: u64 = 4;

/// Steps always allowed: below this a table gains nothing.
const LEAST_BUDGET: u64 = 1 << 16;

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
                GeneticNode::Pod(row) => {
                    solved.pod(row, &pedigree[row], &mut relation, &mut met)?
                }
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
            .origin_row(plant)
            .expect("a parent that is no founder has an origin");
        let pod = self.nodes.of_pod(origin);
        if self.mendelian_variance[pod as usize] == 0.0 {
            self.nodes.shorten(number, pod);
        }
        (
            self.pods[origin.index()].mendelian_variance,
            1.0 + self.pods[origin.index()].inbreeding,
        )
    }

    /// Solves an origin; returns the variance and the self-relationship of what its plants have in common.
    ///
    /// A plant varies by 1 + F in all. Of that the parents' mean, whichever pair it was, accounts for `shared`; the
    /// known expectation of that mean for `shared - unknown`. What is unknown is one draw for a whole pod, or one for
    /// each seed.
    fn pod(
        &mut self,
        row: OriginRow,
        origin: &Origin,
        relation: &mut impl Relation,
        met: &mut HashMap<(u32, u32), f64>,
    ) -> Option<(f64, f64)> {
        if !origin.may_be_of.is_empty() {
            return self.mixed_up(row, origin, relation);
        }
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
        // Unknown for the whole pod, and for each seed apart.
        let [pod, seed] = match (&origin.pairs[..], origin.donor) {
            ([pair], donor) => {
                let [of_one, of_each] = unknown_sides(pair, donor);
                let each = 0.25 * (1.0 - self.background_of_unknown());
                [each * of_one, each * of_each]
            }
            (_, donor) => {
                let unknown = shared - relation.square(self, self.nodes.of_pod(row))?;
                match donor {
                    Donor::WholePod => [unknown, 0.0],
                    Donor::EachSeed | Donor::OneMother => [0.0, unknown],
                }
            }
        };
        self.pods[row.index()] = PodIdentity {
            inbreeding,
            mendelian_variance: 1.0 - 0.25 * selves + seed,
        };
        Some((pod, shared - seed))
    }

    /// Solves the origin of a mixed-up plant. It varies by 1 + F like the plants of the origin it is of; the mean of what
    /// those origins have in common is known of it, and all else is its own.
    fn mixed_up(
        &mut self,
        row: OriginRow,
        origin: &Origin,
        relation: &mut impl Relation,
    ) -> Option<(f64, f64)> {
        let of = origin.chances_of_origins();
        let inbreeding = of
            .map(|(of, chance)| chance * self.pods[of.index()].inbreeding)
            .sum();
        let known = relation.square(self, self.nodes.of_pod(row))?;
        self.pods[row.index()] = PodIdentity {
            inbreeding,
            mendelian_variance: 1.0 + inbreeding - known,
        };
        Some((0.0, known))
    }

    /// The nodes that stand for both parents; none where an unknown parent is unrelated to everyone.
    fn couple(&self, pair: &Pair) -> Option<(u32, u32)> {
        let node = |parent: Option<PlantRow>| {
            parent.map_or(self.unknown, |plant| self.nodes.of_plant(plant))
        };
        let (seed, pollen) = (node(pair.seed)?, node(pair.pollen)?);
        Some((seed.min(pollen), seed.max(pollen)))
    }
}

/// How many parents of a pair are unknown: those that all its plants share, and those that each has for itself.
fn unknown_sides(pair: &Pair, donor: Donor) -> [f64; 2] {
    let sides = [pair.seed, pair.pollen].into_iter().zip(donor.shares());
    sides.fold([0.0; 2], |[of_one, of_each], (parent, shared)| {
        match (parent, shared) {
            (Some(_), _) => [of_one, of_each],
            (None, true) => [of_one + 1.0, of_each],
            (None, false) => [of_one, of_each + 1.0],
        }
    })
}
