//! The lines of descent that make a kinship, shortest first, for explaining a figure.
//!
//! Φ = Σ (½)^(n₁+n₂+1) (1 + F) over pairs of upward lines from both plants that meet in one ancestor and share no one
//! else (Wright 1922). Found by always stepping up from the younger of the two, which visits each such pair of lines
//! once. Their number can grow with every generation, so the list is capped and says how much of Φ it covers.

use std::cmp::Ordering;
use std::collections::BinaryHeap;

use crate::lineage::{Donor, GeneticNode, OriginRow, PlantRow};

use super::relations::Kinship;

/// Where two lines meet.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Meeting {
    /// In this plant.
    Plant(PlantRow),
    /// In a parent of this origin that nobody recorded.
    UnknownParent(OriginRow),
    /// In the stated background of a stock of founders.
    Background(u32),
    /// In an unseen parent of a batch of founders, of which this is the first.
    Batch(PlantRow),
}

/// One pair of lines from both plants up to where they meet.
#[derive(Clone, PartialEq, Debug)]
pub struct Path {
    /// Plants from the first plant up, without the plant in which the lines meet; empty if it is the meeting plant.
    pub from_one: Vec<PlantRow>,
    /// The same from the other plant.
    pub from_other: Vec<PlantRow>,
    /// Where they meet.
    pub meeting: Meeting,
    /// What this pair of lines adds to the kinship.
    pub kinship: f64,
    /// Where parents are one of several pairs: the origin and the place of the pair these lines take.
    pub taking: Vec<(OriginRow, usize)>,
}

/// The paths behind a kinship, the largest steps first.
#[derive(Clone, PartialEq, Debug)]
pub struct Paths {
    /// Fewest steps first; equal ones in order of discovery, which is fixed.
    pub paths: Vec<Path>,
    /// The whole kinship Φ, of which the paths listed are a part or all.
    pub kinship: f64,
    /// Whether every path is listed.
    pub complete: bool,
}

/// Pairs of nodes looked at before the search gives up.
const SEARCH_LIMIT: usize = 1 << 18;

impl Kinship<'_> {
    /// At most `most` paths that make the kinship of two plants; for the inbreeding of a plant ask for its
    /// parents.
    pub fn paths(&self, one: PlantRow, other: PlantRow, most: usize) -> Paths {
        if one == other {
            let alone = Path {
                from_one: vec![],
                from_other: vec![],
                meeting: Meeting::Plant(one),
                kinship: self.pair(one, one),
                taking: vec![],
            };
            return Paths {
                kinship: alone.kinship,
                paths: vec![alone],
                complete: true,
            };
        }
        let mut search = Search {
            kinship: self,
            trail: Vec::new(),
            open: BinaryHeap::new(),
        };
        let nodes = [one, other].map(|plant| self.identity().stem_of(self.pedigree(), plant));
        let starts = [one, other].map(|plant| {
            self.identity()
                .nodes()
                .of_plant(plant)
                .is_none()
                .then_some(plant)
        });
        search.open_pair(None, nodes, 1.0, starts);
        let (mut paths, mut looked) = (Vec::new(), 0);
        while let Some(step) = search.open.pop() {
            if paths.len() == most || looked == SEARCH_LIMIT {
                search.open.push(step);
                break;
            }
            looked += 1;
            // A line into a background of 0 adds nothing and explains nothing.
            paths.extend(search.advance(step.at).filter(|path| path.kinship > 0.0));
        }
        Paths {
            paths,
            kinship: self.pair(one, other),
            complete: search.open.is_empty(),
        }
    }
}

/// A pair of nodes reached, with the way back.
struct Step {
    before: Option<usize>,
    nodes: [u32; 2],
    chance: f64,
    /// Plants passed in this step, by side.
    passed: [Option<PlantRow>; 2],
    /// The pair of parents taken in this step, where an origin has several.
    taken: Option<(OriginRow, usize)>,
    /// Set where the lines have met in something that is no node.
    met: Option<Meeting>,
}

/// A step still to be looked at: the likeliest first, then the earliest.
struct Open {
    chance: f64,
    at: usize,
}

impl Ord for Open {
    fn cmp(&self, other: &Self) -> Ordering {
        self.chance
            .total_cmp(&other.chance)
            .then(other.at.cmp(&self.at))
    }
}
impl PartialOrd for Open {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl PartialEq for Open {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for Open {}

struct Search<'k> {
    kinship: &'k Kinship<'k>,
    trail: Vec<Step>,
    open: BinaryHeap<Open>,
}

impl Search<'_> {
    fn open_pair(
        &mut self,
        before: Option<usize>,
        nodes: [u32; 2],
        chance: f64,
        passed: [Option<PlantRow>; 2],
    ) {
        self.push(Step {
            before,
            nodes,
            chance,
            passed,
            taken: None,
            met: None,
        });
    }

    fn push(&mut self, step: Step) {
        if step.chance > 0.0 {
            self.open.push(Open {
                chance: step.chance,
                at: self.trail.len(),
            });
            self.trail.push(step);
        }
    }

    /// Looks at one pair: a meeting gives a path, anything else opens the pairs above it.
    fn advance(&mut self, at: usize) -> Option<Path> {
        let Step {
            nodes: [one, other],
            chance,
            met,
            ..
        } = self.trail[at];
        let identity = self.kinship.identity();
        if let Some(meeting) = met {
            return Some(self.path(at, meeting, chance));
        }
        if one == other {
            let meeting = match identity.nodes().node(one) {
                GeneticNode::Founder(plant) | GeneticNode::Parent(plant) => Meeting::Plant(plant),
                GeneticNode::Stock(stock) => Meeting::Background(stock),
                GeneticNode::BatchParent(plant, _) => Meeting::Batch(plant),
                GeneticNode::Pod(origin) => {
                    self.open_pod(at, origin, chance);
                    return None;
                }
            };
            return Some(self.path(at, meeting, chance * 0.5 * identity.self_relationship(one)));
        }
        let side = usize::from(other > one);
        let (younger, waiting) = (one.max(other), one.min(other));
        let mut passed = [None; 2];
        if let GeneticNode::Founder(plant) | GeneticNode::Parent(plant) =
            identity.nodes().node(younger)
        {
            passed[side] = Some(plant);
        }
        let sources: Vec<(u32, f64)> = identity.nodes().sources(younger).collect();
        for (source, fraction) in sources {
            let nodes = if side == 0 {
                [source, waiting]
            } else {
                [waiting, source]
            };
            self.open_pair(Some(at), nodes, chance * fraction, passed);
        }
        None
    }

    /// Two different plants of one origin: the pair of parents is one for both, or drawn for each.
    fn open_pod(&mut self, at: usize, row: OriginRow, chance: f64) {
        let identity = self.kinship.identity();
        let origin = &self.kinship.pedigree()[row];
        if origin.donor == Donor::EachSeed {
            let sources: Vec<(u32, f64)> = identity
                .nodes()
                .sources(identity.nodes().of_pod(row))
                .collect();
            for one in &sources {
                for other in &sources {
                    self.open_pair(
                        Some(at),
                        [one.0, other.0],
                        chance * one.1 * other.1,
                        [None; 2],
                    );
                }
            }
            return;
        }
        let several = origin.pairs.len() > 1;
        for (place, (pair, weight)) in origin.pairs.iter().zip(origin.chances()).enumerate() {
            let taken = several.then_some((row, place));
            let node = |parent: Option<PlantRow>| match parent {
                Some(plant) => identity.nodes().of_plant(plant),
                None => identity.unknown_parents(),
            };
            let sides = [pair.seed, pair.pollen];
            let chance = 0.25 * weight * chance;
            for (one, other) in [(0, 0), (0, 1), (1, 0), (1, 1)] {
                if one == other && sides[one].is_none() && origin.donor.shares()[one] {
                    self.meet_unknown(at, row, chance);
                } else if let (Some(one), Some(other)) = (node(sides[one]), node(sides[other])) {
                    self.push(Step {
                        before: Some(at),
                        nodes: [one, other],
                        chance,
                        passed: [None; 2],
                        taken,
                        met: None,
                    });
                }
            }
        }
    }

    /// The one unknown parent of a whole pod, seen from both sides.
    fn meet_unknown(&mut self, at: usize, row: OriginRow, chance: f64) {
        let chance = chance * 0.5 * (1.0 + self.kinship.identity().background_of_unknown());
        let met = Some(Meeting::UnknownParent(row));
        self.push(Step {
            before: Some(at),
            nodes: [0; 2],
            chance,
            passed: [None; 2],
            taken: None,
            met,
        });
    }

    fn path(&self, at: usize, meeting: Meeting, kinship: f64) -> Path {
        let mut sides = [Vec::new(), Vec::new()];
        let mut taking = Vec::new();
        let mut next = Some(at);
        while let Some(step) = next.map(|at| &self.trail[at]) {
            taking.extend(step.taken);
            for (side, passed) in sides.iter_mut().zip(step.passed) {
                side.extend(passed);
            }
            next = step.before;
        }
        let [mut from_one, mut from_other] = sides;
        from_one.reverse();
        from_other.reverse();
        Path {
            from_one,
            from_other,
            meeting,
            kinship,
            taking,
        }
    }
}
