//! The lines of descent behind a pair, and the parents uncertain plants may have been drawn from.

use crate::analysis::kinship::kindred::{Kindred, Source};
use crate::context::Context;
use crate::kinship::{Draw, Meeting, Path, Possible, Taken, Way};
use crate::lineage::{Pair, Pedigree, PlantRow};
use crate::registry::OriginRow;
use serde::Serialize;

/// The kinship of a pair if uncertain parents were these.
#[derive(Serialize)]
pub struct WayRow {
    /// The parents.
    pub parents: DrawnParents,
    /// Their chance, 0 to 1.
    pub chance: f64,
    /// Kinship, at least.
    pub kinship: f64,
}

/// One pair of lines up to where they meet.
#[derive(Serialize)]
pub struct PathRow {
    /// The lines, from one plant to the other.
    pub path: DescentPath,
    /// What it adds to the kinship.
    pub kinship: f64,
}

/// A seed and a pollen parent by code; `None` where one is not known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ParentPair {
    /// Seed parent.
    pub seed: Option<String>,
    /// Pollen parent.
    pub pollen: Option<String>,
}

/// A plant or a cross with one of its possible pairs of parents, or a plant with the cross it is taken to be of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Drawn {
    /// Code of the plant, or of the cross.
    pub plant: String,
    /// Whether its pod-mates have the same parents.
    pub with_pod_mates: bool,
    /// The parents.
    pub of: DrawnOf,
}

/// What a plant is taken to be of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DrawnOf {
    /// A pair of parents.
    Parents(ParentPair),
    /// A cross, or several, with a pair of its parents.
    CrossWith(String, ParentPair),
    /// A cross, whose parents stand apart.
    Cross(String),
}

/// Plants that are one of several kinds, each with the parents it is taken to have.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawnParents(pub Vec<Drawn>);

/// Two lines up to where they meet, from one plant to the other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DescentPath {
    /// The steps in order.
    pub steps: Vec<PathStep>,
    /// The parents it takes, where other lines of the same plants take others.
    pub taking: Vec<DrawnOf>,
}

/// A step of two lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PathStep {
    /// A plant on the way.
    Plant(String),
    /// The plant in which the lines meet.
    Meeting(String),
    /// They meet in an unknown parent.
    UnknownParent,
    /// They meet in the background of their species.
    Background,
    /// They meet in an unseen parent of a batch.
    Batch {
        /// First plant of the batch.
        first: String,
        /// Whether it is the other of the two parents, the one having been listed.
        other: bool,
    },
}

/// What a plant of an origin is taken to be of with one of its pairs of parents, for every answer that goes through them.
pub fn drawn_of(context: &Context, origin: OriginRow, pair: &Pair) -> DrawnOf {
    let source = Source::Registry(context.evidence());
    source.of_pair(&context.lineage().pedigree, origin, pair)
}

impl Source<'_, '_, '_> {
    /// A pair; of a mixed-up plant with the cross or crosses it may be of that have this pair on record.
    fn of_pair(&self, pedigree: &Pedigree, origin: OriginRow, pair: &Pair) -> DrawnOf {
        let has_pair = |of: &OriginRow| {
            let mut pairs = pedigree[*of].pairs.iter();
            pairs.any(|own| (own.seed, own.pollen) == (pair.seed, pair.pollen))
        };
        let may_be_of = pedigree[origin].may_be_of.iter().map(|of| of.0);
        let crosses = may_be_of.filter(has_pair).map(|of| self.code_of_cross(of));
        let crosses: Vec<String> = crosses.collect();
        match crosses.is_empty() {
            true => DrawnOf::Parents(self.pair(pair)),
            false => DrawnOf::CrossWith(crosses.join(" or "), self.pair(pair)),
        }
    }

    fn pair(&self, pair: &Pair) -> ParentPair {
        let code = |plant: Option<PlantRow>| plant.map(|plant| self.code(plant));
        ParentPair {
            seed: code(pair.seed),
            pollen: code(pair.pollen),
        }
    }
}

impl Kindred<'_, '_, '_> {
    /// The ways that make a difference; none when there is one only.
    pub(crate) fn with_each(&self, possible: Option<Possible>) -> Vec<WayRow> {
        let ways = possible.map_or(Vec::new(), |possible| possible.ways);
        let several = ways.len() > 1;
        let row = |way: &Way| WayRow {
            parents: DrawnParents(way.drawn.iter().map(|of| self.drawn(of)).collect()),
            chance: way.chance,
            kinship: way.value,
        };
        ways.iter().filter(|_| several).map(row).collect()
    }

    fn drawn(&self, &(draw, taken): &(Draw, Taken)) -> Drawn {
        let own = |plant: PlantRow| {
            let origin = self.pedigree.origin_row(plant);
            origin.expect("only parents of a plant that has an origin are drawn")
        };
        let (with_pod_mates, plant, origin) = match draw {
            // Only mixed-up plants may be of it.
            Draw::Pod(origin, plant) if own(plant) != origin => {
                (false, self.source.code_of_cross(origin), origin)
            }
            Draw::Pod(origin, plant) => (true, self.code(plant), origin),
            Draw::Seed(plant) => (false, self.code(plant), own(plant)),
        };
        Drawn {
            plant,
            with_pod_mates,
            of: match taken {
                Taken::Pair(place) => self.of_pair(origin, place),
                Taken::PairOf(of, place) => {
                    let pair = &self.pedigree[of].pairs[place];
                    DrawnOf::CrossWith(self.source.code_of_cross(of), self.source.pair(pair))
                }
                Taken::ParentsOf(origin) => DrawnOf::Cross(self.source.code_of_cross(origin)),
            },
        }
    }

    /// One of several possible pairs of parents.
    fn of_pair(&self, origin: OriginRow, place: usize) -> DrawnOf {
        let pair = &self.pedigree[origin].pairs[place];
        self.source.of_pair(self.pedigree, origin, pair)
    }

    /// Lines as rows; lines through the same plants differ in the parents they take.
    pub(crate) fn told_apart(&self, paths: &[Path], ends: (PlantRow, PlantRow)) -> Vec<PathRow> {
        let plants: Vec<Vec<PathStep>> = paths.iter().map(|path| self.steps(ends, path)).collect();
        let row = |(at, path): (usize, &Path)| {
            let mut steps = plants[at].clone();
            let listed = plants[..at].contains(&steps);
            let is_batch = matches!(path.meeting, Meeting::Batch(_));
            let alike = listed || plants[at + 1..].contains(&steps);
            if listed {
                steps.iter_mut().for_each(|step| {
                    if let PathStep::Batch { other, .. } = step {
                        *other = true;
                    }
                });
            }
            let taking = path.taking.iter();
            let taking = taking.filter(|_| alike && !(listed && is_batch));
            let taking = taking.map(|&(origin, place)| self.of_pair(origin, place));
            PathRow {
                path: DescentPath {
                    taking: taking.collect(),
                    steps,
                },
                kinship: path.kinship,
            }
        };
        paths.iter().enumerate().map(row).collect()
    }

    fn steps(&self, (one, other): (PlantRow, PlantRow), path: &Path) -> Vec<PathStep> {
        let side = |line: &[PlantRow], end: PlantRow| -> Vec<PathStep> {
            let line = match line.is_empty() && path.meeting != Meeting::Plant(end) {
                true => std::slice::from_ref(&end),
                false => line,
            };
            let steps = line.iter().map(|&plant| PathStep::Plant(self.code(plant)));
            steps.collect()
        };
        let mut steps = side(&path.from_one, one);
        steps.push(match path.meeting {
            Meeting::Plant(plant) => PathStep::Meeting(self.code(plant)),
            Meeting::UnknownParent(_) => PathStep::UnknownParent,
            Meeting::Background(_) => PathStep::Background,
            Meeting::Batch(first) => PathStep::Batch {
                first: self.code(first),
                other: false,
            },
        });
        steps.extend(side(&path.from_other, other).into_iter().rev());
        steps
    }
}
