//! The kind of cross a plant is, in the breeder's words: species, primary hybrid, F2, BC1, complex.
//!
//! Derived from recorded parents only and never stored. The word F2 is used only where it is true: both parents are
//! primary hybrids of the same two species; whether they also come from the same two plants is told beside it, since
//! careful labels keep the word for that case (common practice). What is unsure stays [`CrossKind::Uncertain`].

use crate::lineage::{Donor, OriginRow, Pair, Pedigree, PlantRow};

use super::composition::Composition;
use super::founders::{FounderDescent, Founders, LabelGeneration};
use super::part::Part;
use super::reserve::Reserves;
use super::shares::Shares;

/// What kind of cross a plant is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum CrossKind {
    /// All known descent from one species, given by its number.
    Species(u32),
    /// Two different species crossed (F1), numbers ascending.
    Primary([u32; 2]),
    /// Two plants of the same generation after the same primary hybrid crossed: F2, F3 and so on.
    Filial {
        /// The two species, ascending.
        species: [u32; 2],
        /// 2 for F2.
        generation: u32,
        /// Whether the parents come from one parent pair, and theirs did, back to the primary hybrid; none where the parents
        /// of one of them are not on record.
        one_family: Option<bool>,
    },
    /// A hybrid of two species crossed to a plant of one of them.
    Backcross {
        /// The recurrent species.
        to: u32,
        /// Backcrosses to that species in a row, 1 for BC1. None where the line of the hybrid is no plain one of F1, F2 or
        /// backcrosses to that species: it may have been crossed back before.
        times: Option<u32>,
    },
    /// Any other hybrid, with its number of species.
    Complex {
        /// Species with a share of their own.
        species: u32,
    },
    /// An unknown or one-of parent, also further back, or an unknown or provisional founder leaves the kind open.
    Uncertain,
}

/// The kind of cross of every plant, computed per origin.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CrossKinds {
    origins: Vec<Traced>,
}

/// A kind with what is needed to judge the next cross.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Traced {
    kind: CrossKind,
    crossed_back: Option<CrossedBack>,
}

/// The two plants of a backcross.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct CrossedBack {
    /// The plant of the recurrent species.
    plant: PlantRow,
    /// The origin of the hybrid, where that is itself a backcross to this species.
    before: Option<OriginRow>,
}

impl Traced {
    fn plain(kind: CrossKind) -> Self {
        Self {
            kind,
            crossed_back: None,
        }
    }
}

impl CrossKinds {
    /// Judges every origin of a pedigree from its shares.
    pub fn of(pedigree: &Pedigree, founders: &Founders, shares: &Shares) -> Self {
        let mut kinds = Self {
            origins: Vec::with_capacity(pedigree.origins().len()),
        };
        let reserves = Reserves::of(pedigree, founders, shares);
        for (row, origin) in pedigree.origin_rows().zip(pedigree.origins()) {
            let composition = shares.composition_of_origin(row).ok();
            let traced = match (&origin.pairs[..], composition) {
                // Of a mean over pairs further back no one plant is.
                ([pair], Some(composition)) if !reserves.of_origin(row).mean => {
                    kinds.judge(pedigree, founders, *pair, &composition)
                }
                // Several plants of one species make one kind of cross, whichever of them it was.
                (pairs, Some(composition))
                    if !reserves.of_origin(row).mean && !shares.pairs_differ(pedigree, origin) =>
                {
                    let each = pairs.iter().map(|pair| {
                        let traced = kinds.judge(pedigree, founders, *pair, &composition);
                        traced.kind
                    });
                    Traced::plain(kind_of_all(each))
                }
                (_, Some(composition)) => Traced::plain(sole_species(founders, &composition)),
                _ => Traced::plain(CrossKind::Uncertain),
            };
            kinds.origins.push(traced);
        }
        kinds
    }

    /// The kind of a plant.
    pub fn kind(&self, pedigree: &Pedigree, founders: &Founders, plant: PlantRow) -> CrossKind {
        match pedigree.origin_row(plant) {
            Some(origin) => self.origins[origin.index()].kind,
            None => of_founder(founders, plant),
        }
    }

    /// The kind of the plants of an origin.
    pub fn kind_of_origin(&self, origin: OriginRow) -> CrossKind {
        self.origins[origin.index()].kind
    }

    /// The plants of the recurrent species to which the line of a backcross was crossed back in a row, the last first.
    pub fn crossed_back_to(&self, origin: OriginRow) -> Vec<PlantRow> {
        let back = |origin: OriginRow| self.origins[origin.index()].crossed_back;
        let each = std::iter::successors(back(origin), |last| last.before.and_then(back));
        each.map(|back| back.plant).collect()
    }

    fn judge(
        &self,
        pedigree: &Pedigree,
        founders: &Founders,
        pair: Pair,
        composition: &Composition,
    ) -> Traced {
        let plain = Traced::plain;
        let (Some(seed), Some(pollen)) = (pair.seed, pair.pollen) else {
            return plain(sole_species(founders, composition));
        };
        if !all_sure(founders, composition) {
            return plain(CrossKind::Uncertain);
        }
        let species = composition.species_count() as u32;
        let kinds = [seed, pollen].map(|plant| self.kind(pedigree, founders, plant));
        match kinds {
            [CrossKind::Species(a), CrossKind::Species(b)] if a == b => {
                plain(CrossKind::Species(a))
            }
            [CrossKind::Species(a), CrossKind::Species(b)] => {
                plain(CrossKind::Primary([a.min(b), a.max(b)]))
            }
            [CrossKind::Species(pure), _] => {
                self.backcross(pedigree, [pollen, seed], kinds[1], [pure, species])
            }
            [_, CrossKind::Species(pure)] => {
                self.backcross(pedigree, [seed, pollen], kinds[0], [pure, species])
            }
            _ => plain(
                filial(pedigree, [seed, pollen], kinds).unwrap_or(CrossKind::Complex { species }),
            ),
        }
    }

    /// The kind of hybrid × pure plant. With two species in all, the pure one is one of the hybrid's own.
    fn backcross(
        &self,
        pedigree: &Pedigree,
        [hybrid, plant]: [PlantRow; 2],
        kind: CrossKind,
        [to, species]: [u32; 2],
    ) -> Traced {
        if species != 2 {
            return Traced::plain(CrossKind::Complex { species });
        }
        let (times, before) = match kind {
            // How often a hybrid of unknown generation was crossed back before is not known.
            CrossKind::Uncertain => return Traced::plain(CrossKind::Uncertain),
            CrossKind::Primary(_) | CrossKind::Filial { .. } => (Some(1), None),
            CrossKind::Backcross { to: same, times } if same == to => {
                (times.map(|times| times + 1), pedigree.origin_row(hybrid))
            }
            _ => (None, None),
        };
        Traced {
            kind: CrossKind::Backcross { to, times },
            crossed_back: Some(CrossedBack { plant, before }),
        }
    }
}

/// The kind that several possible crosses have in common.
fn kind_of_all(mut kinds: impl Iterator<Item = CrossKind>) -> CrossKind {
    let first = kinds.next().unwrap_or(CrossKind::Uncertain);
    match kinds.all(|kind| kind == first) {
        true => first,
        false => CrossKind::Uncertain,
    }
}

/// F2 and on: both parents of one generation after a primary hybrid of the same two species.
fn filial(pedigree: &Pedigree, parents: [PlantRow; 2], kinds: [CrossKind; 2]) -> Option<CrossKind> {
    let traced = |kind| match kind {
        CrossKind::Primary(species) => Some((species, 1, Some(true))),
        CrossKind::Filial {
            species,
            generation,
            one_family,
        } => Some((species, generation, one_family)),
        _ => None,
    };
    let (seed, pollen) = (traced(kinds[0])?, traced(kinds[1])?);
    if (seed.0, seed.1) != (pollen.0, pollen.1) {
        return None;
    }
    let [a, b] = parents.map(|plant| pedigree.origin_row(plant));
    let here = a.zip(b).and_then(|(a, b)| are_of_one_pair(pedigree, a, b));
    let each = [here, seed.2, pollen.2];
    let one_family = match each.contains(&Some(false)) {
        true => Some(false),
        false => each.into_iter().all(|of| of.is_some()).then_some(true),
    };
    Some(CrossKind::Filial {
        species: seed.0,
        generation: seed.1 + 1,
        one_family,
    })
}

/// Whether the plants of two origins have the same two parents; none where that is not known.
fn are_of_one_pair(pedigree: &Pedigree, one: OriginRow, other: OriginRow) -> Option<bool> {
    let [a, b] = [&pedigree[one], &pedigree[other]];
    match (&a.pairs[..], &b.pairs[..]) {
        ([_], [_]) => Some(a.parents() == b.parents()),
        _ => (one == other && a.donor == Donor::WholePod).then_some(true),
    }
}

fn of_founder(founders: &Founders, plant: PlantRow) -> CrossKind {
    let descent = founders.descent(plant);
    match descent {
        FounderDescent::Species(species) if founders.is_sure(Part::Species(*species)) => {
            CrossKind::Species(*species)
        }
        FounderDescent::Species(_) | FounderDescent::Unknown | FounderDescent::Named(_) => {
            CrossKind::Uncertain
        }
        FounderDescent::Sides(_) => descent.composition().map_or(CrossKind::Uncertain, |whole| {
            of_label(founders, plant, &whole)
        }),
    }
}

/// From a label's two sides.
fn of_label(founders: &Founders, founder: PlantRow, whole: &Composition) -> CrossKind {
    if !all_sure(founders, whole) {
        return CrossKind::Uncertain;
    }
    let sides = founders.descent(founder).sides();
    match sides.map(|side| side.sole_part()) {
        [Some(Part::Species(a)), Some(Part::Species(b))] if a == b => CrossKind::Species(a),
        [Some(Part::Species(a)), Some(Part::Species(b))] => {
            CrossKind::Primary([a.min(b), a.max(b)])
        }
        _ => later_by_label(founders, founder, whole).unwrap_or(CrossKind::Complex {
            species: whole.species_count() as u32,
        }),
    }
}

/// A later generation of two species, as a label says; nothing says that its parents are of one pair.
fn later_by_label(
    founders: &Founders,
    founder: PlantRow,
    whole: &Composition,
) -> Option<CrossKind> {
    match (founders.generation(founder)?, whole.parts()) {
        (LabelGeneration::Filial(generation), &[Part::Species(a), Part::Species(b)]) => {
            Some(CrossKind::Filial {
                species: [a.min(b), a.max(b)],
                generation,
                one_family: None,
            })
        }
        (LabelGeneration::Backcross { to, times }, _) => Some(CrossKind::Backcross {
            to,
            times: Some(times),
        }),
        _ => None,
    }
}

fn sole_species(founders: &Founders, composition: &Composition) -> CrossKind {
    match composition.sole_part() {
        Some(part @ Part::Species(species)) if founders.is_sure(part) => {
            CrossKind::Species(species)
        }
        _ => CrossKind::Uncertain,
    }
}

fn all_sure(founders: &Founders, composition: &Composition) -> bool {
    composition
        .parts()
        .iter()
        .all(|&part| founders.is_sure(part))
}
