//! The slow, obvious twin: every way an uncertain pedigree can have been, each solved by dense exact tables, and the
//! mean of the answers by probability.

use podbook::lineage::{Donor, Origin, OriginRow, Pair, Pedigree, PlantRow};

use crate::rational::{Rational, one, ratio, zero};
use crate::tables::SplitMix64;

/// One certain pedigree: parents by index, smaller than the plant's own; `plants` says where each plant of the
/// uncertain pedigree stands, since unknown parents are plants here too.
#[derive(Clone)]
pub struct World {
    pub parents: Vec<Option<(usize, usize)>>,
    pub plants: Vec<usize>,
    /// Marks stand-ins for unknown parents.
    pub unknown: Vec<bool>,
    pub probability: Rational,
}

/// Parents drawn for the plants of an origin so far: the pair that all have, or the mother alone.
#[derive(Clone, Copy)]
enum Drawn {
    Nothing,
    Mother(usize),
    Pair((usize, usize)),
}

/// A world under construction, with what was drawn for each origin.
type Branch = (World, Vec<Drawn>);

/// All worlds of a pedigree. Every plant's parents are made explicit; an unknown parent is a founder of its own, for
/// the whole pod or for each seed. A mixed-up plant is a plant of one of the origins it may be of.
pub fn worlds(pedigree: &Pedigree) -> Vec<World> {
    let start = World {
        parents: Vec::new(),
        plants: Vec::new(),
        unknown: Vec::new(),
        probability: one(),
    };
    let mut open: Vec<Branch> = vec![(start, vec![Drawn::Nothing; pedigree.origins().len()])];
    for plant in pedigree.plants() {
        let mut next = Vec::new();
        for (mut world, drawn) in open {
            let Some(row) = pedigree.origin_row(plant) else {
                world.add(None);
                next.push((world, drawn));
                continue;
            };
            let may_be_of = &pedigree[row].may_be_of;
            if may_be_of.is_empty() {
                next.extend(offspring(&world, &drawn, pedigree, row));
            }
            let pods: u32 = may_be_of.iter().map(|of| of.1).sum();
            for &(of, each) in may_be_of {
                let mut world = world.clone();
                world.probability *= ratio(i64::from(each), i64::from(pods));
                next.extend(offspring(&world, &drawn, pedigree, of));
            }
        }
        open = next;
    }
    open.into_iter().map(|(world, _)| world).collect()
}

/// One more plant of an origin, in every way.
fn offspring(world: &World, drawn: &[Drawn], pedigree: &Pedigree, row: OriginRow) -> Vec<Branch> {
    let origin = &pedigree[row];
    if let Drawn::Pair(pair) = drawn[row.index()] {
        let mut world = world.clone();
        world.add(Some(pair));
        return vec![(world, drawn.to_vec())];
    }
    let stated = origin.pairs.iter().all(|pair| pair.weight > 0);
    let weight = |pair: &Pair| if stated { i64::from(pair.weight) } else { 1 };
    let total: i64 = origin.pairs.iter().map(weight).sum();
    let draws = origin.pairs.iter().map(|pair| {
        let (mut world, mut drawn) = (world.clone(), drawn.to_vec());
        world.probability *= ratio(weight(pair), total);
        let stand = |world: &mut World, parent: Option<PlantRow>| match parent {
            Some(parent) => world.plants[parent.index()],
            None => world.stand_in(),
        };
        let seed = match drawn[row.index()] {
            Drawn::Mother(known) => known,
            _ => stand(&mut world, pair.seed),
        };
        let pair = (seed, stand(&mut world, pair.pollen));
        drawn[row.index()] = match origin.donor {
            Donor::WholePod => Drawn::Pair(pair),
            Donor::OneMother => Drawn::Mother(seed),
            Donor::EachSeed => Drawn::Nothing,
        };
        world.add(Some(pair));
        (world, drawn)
    });
    draws.collect()
}

impl World {
    fn add(&mut self, parents: Option<(usize, usize)>) {
        self.plants.push(self.parents.len());
        self.parents.push(parents);
        self.unknown.push(false);
    }

    fn stand_in(&mut self) -> usize {
        self.parents.push(None);
        self.unknown.push(true);
        self.parents.len() - 1
    }

    /// Kinship of all pairs by the tabular method (Emik & Terrill 1949), founders unrelated.
    pub fn kinship(&self) -> Vec<Vec<Rational>> {
        self.kinship_through(&vec![true; self.parents.len()])
    }

    /// For each plant the chance that its two copies are one copy of one of these founders.
    pub fn identical_of(&self, founders: &[bool]) -> Vec<Rational> {
        let table = self.kinship_through(founders);
        let own = |parents: &Option<(usize, usize)>| {
            parents.map_or(zero(), |(seed, pollen)| table[seed][pollen].clone())
        };
        self.parents.iter().map(own).collect()
    }

    /// The chance that copies drawn from each of two plants are one copy of one of these founders. Drawn twice from one
    /// plant, it is the same copy half of the time, which came from them by their share, and else its two copies.
    fn kinship_through(&self, founders: &[bool]) -> Vec<Vec<Rational>> {
        let n = self.parents.len();
        let half = |sum: Rational| sum / ratio(2, 1);
        let mut table = vec![vec![zero(); n]; n];
        let mut share: Vec<Rational> = Vec::with_capacity(n);
        for x in 0..n {
            for y in 0..x {
                let value = match self.parents[x] {
                    None => zero(),
                    Some((s, d)) => half(table[s][y].clone() + table[d][y].clone()),
                };
                table[y][x] = value.clone();
                table[x][y] = value;
            }
            let (from, inbreeding) = match self.parents[x] {
                None if founders[x] => (one(), zero()),
                None => (zero(), zero()),
                Some((s, d)) => (
                    half(share[s].clone() + share[d].clone()),
                    table[s][d].clone(),
                ),
            };
            table[x][x] = half(from.clone() + inbreeding);
            share.push(from);
        }
        table
    }

    /// For each plant the chances that its seed-side copy is of species a and its pollen-side copy of b, by the full
    /// recursion over pairs of gene copies of all pairs of plants. `species` gives founders' species.
    pub fn two_copies(&self, species: &[usize], kinds: usize) -> Vec<Vec<Vec<Rational>>> {
        let n = self.parents.len();
        let nothing = vec![vec![zero(); kinds]; kinds];
        let mut pair = vec![vec![nothing.clone(); n]; n];
        let mut own = Vec::with_capacity(n);
        for x in 0..n {
            for y in 0..x {
                for a in 0..kinds {
                    for b in 0..kinds {
                        let value = match self.parents[x] {
                            Some((s, d)) => {
                                (pair[s][y][a][b].clone() + pair[d][y][a][b].clone()) / ratio(2, 1)
                            }
                            None => {
                                // A founder is pure: the other's share of b where the founder is a.
                                if species[x] == a {
                                    share(&pair[y][y], b)
                                } else {
                                    zero()
                                }
                            }
                        };
                        pair[x][y][a][b] = value.clone();
                        pair[y][x][b][a] = value;
                    }
                }
            }
            let j = match self.parents[x] {
                Some((s, d)) => pair[s][d].clone(),
                None => {
                    let mut j = nothing.clone();
                    j[species[x]][species[x]] = one();
                    j
                }
            };
            for a in 0..kinds {
                for b in 0..kinds {
                    // Two draws with replacement: the same copy twice, or one of each.
                    let same = if a == b {
                        (share(&j, a) + share_other(&j, a)) / ratio(2, 1)
                    } else {
                        zero()
                    };
                    let each = (j[a][b].clone() + j[b][a].clone()) / ratio(2, 1);
                    pair[x][x][a][b] = (same + each) / ratio(2, 1);
                }
            }
            own.push(j);
        }
        own
    }
}

/// Marginal over the second copy.
fn share(j: &[Vec<Rational>], a: usize) -> Rational {
    j[a].iter().fold(zero(), |sum, value| sum + value)
}

fn share_other(j: &[Vec<Rational>], a: usize) -> Rational {
    j.iter().fold(zero(), |sum, row| sum + &row[a])
}

/// Mean of A-like tables over worlds, for the plants of the uncertain pedigree.
pub fn mean_kinship(pedigree: &Pedigree) -> Vec<Vec<Rational>> {
    let n = pedigree.len();
    let mut mean = vec![vec![zero(); n]; n];
    for world in worlds(pedigree) {
        let table = world.kinship();
        for x in 0..n {
            for y in 0..n {
                mean[x][y] +=
                    table[world.plants[x]][world.plants[y]].clone() * world.probability.clone();
            }
        }
    }
    mean
}

/// A random pedigree: founders, then pods of one to three plants, some with unknown or uncertain parents.
pub fn random_pedigree(
    rng: &mut SplitMix64,
    founders: usize,
    pods: usize,
    uncertain: usize,
) -> Pedigree {
    let mut pedigree = Pedigree::default();
    (0..founders).for_each(|_| {
        pedigree.add_founder();
    });
    for pod in 0..pods {
        let any = |rng: &mut SplitMix64| Some(PlantRow(rng.below(pedigree.len()) as u32));
        let mut donor = match rng.below(2) {
            0 => Donor::WholePod,
            _ => Donor::EachSeed,
        };
        let mut pairs = vec![Pair {
            seed: any(rng),
            pollen: any(rng),
            weight: 0,
            cases: 1,
        }];
        if pod < uncertain {
            match rng.below(6) {
                0 => pairs[0].pollen = None,
                5 => {
                    (pairs[0].seed, pairs[0].pollen) = (None, None);
                    donor = Donor::OneMother;
                }
                1 => pairs.push(Pair {
                    seed: pairs[0].seed,
                    pollen: any(rng),
                    weight: 0,
                    cases: 1,
                }),
                2 => pairs.push(Pair {
                    seed: any(rng),
                    pollen: any(rng),
                    weight: 0,
                    cases: 1,
                }),
                3 => {
                    pairs[0].weight = 1;
                    pairs.push(Pair {
                        seed: any(rng),
                        pollen: None,
                        weight: 2,
                        cases: 1,
                    });
                }
                _ => {
                    pairs[0].weight = 3;
                    pairs.push(Pair {
                        seed: any(rng),
                        pollen: pairs[0].pollen,
                        weight: 1,
                        cases: 1,
                    });
                }
            }
        }
        let origin = pedigree.add_origin(Origin {
            pairs,
            donor,
            may_be_of: Vec::new(),
        });
        for _ in 0..=rng.below(2) {
            pedigree.add_offspring(origin);
        }
        if pod == 0 || pod >= uncertain || rng.below(2) > 0 {
            continue;
        }
        let mixed = mixed_up(rng, &pedigree);
        let origin = pedigree.add_origin(mixed);
        pedigree.add_offspring(origin);
    }
    pedigree
}

/// The origin of a plant that may be of the last origin or of another, with all pairs of both as the registry gives them.
fn mixed_up(rng: &mut SplitMix64, pedigree: &Pedigree) -> Origin {
    let plain: Vec<OriginRow> = pedigree
        .origin_rows()
        .filter(|&row| pedigree[row].may_be_of.is_empty())
        .collect();
    let (last, earlier) = plain.split_last().expect("there are origins");
    let other = earlier[rng.below(earlier.len())];
    let may_be_of = vec![(other, 1), (*last, 1 + rng.below(2) as u32)];
    let mut pairs: Vec<Pair> = Vec::new();
    for &(of, pods) in &may_be_of {
        let of = &pedigree[of];
        let stated = of.weights();
        let weights = stated.unwrap_or_else(|| vec![1; of.pairs.len()]);
        let all: u64 = weights.iter().sum();
        for (pair, weight) in of.pairs.iter().zip(weights) {
            // Weights here are 1 to 4 of a sum of at most 4, so twelfths are exact.
            let cases = pods * (12 * weight / all) as u32;
            let alike = |one: &&mut Pair| (one.seed, one.pollen) == (pair.seed, pair.pollen);
            match pairs.iter_mut().find(alike) {
                Some(known) => known.cases += cases,
                None => pairs.push(Pair {
                    weight: 0,
                    cases,
                    ..*pair
                }),
            }
        }
    }
    Origin {
        pairs,
        donor: Donor::EachSeed,
        may_be_of,
    }
}
