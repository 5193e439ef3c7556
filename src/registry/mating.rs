//! The possible pairs of parents of every cross, before rows are given.

use super::cross::Cross;
use super::lookup::Lookup;
use super::origin::Donor;
use super::parents::{Codes, Named};
use super::plants::{KnownBy, Unseen};
use super::row_types::{CrossRow, PlantRow};
use crate::diagnostic::{Code, Finding, Findings};
use crate::record::Parents;

/// One side of a pair.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Side<'t> {
    /// Nobody knows.
    Unknown,
    /// A founder or seedling on record; the text is the code as written.
    Plant(Named<'t>, &'t str),
    /// An unseen parent, by its index.
    Unseen(u32, &'t str),
}

/// The possible pairs of one cross.
#[derive(Clone, Debug)]
pub(super) struct Mating<'t> {
    pub pairs: Vec<(Side<'t>, Side<'t>, u32)>,
    pub donor: Donor,
}

/// Resolves the parents of every cross.
pub(super) struct Matings<'a, 't> {
    pub codes: &'a Codes<'t>,
    pub parts: &'a [Cross<'t>],
    pub unseen: Vec<Unseen<'t>>,
    pub findings: &'a mut Findings,
}

impl<'t> Matings<'_, 't> {
    /// The pairs of one cross.
    pub fn of(&mut self, cross: CrossRow) -> Mating<'t> {
        let parts = self.parts;
        let page = &parts[cross.index()].page;
        let one = |pairs| Mating {
            pairs,
            donor: Donor::WholePod,
        };
        match &page.parents {
            Parents::Known { seed, pollen } => {
                let (seed, pollen) = (
                    self.side(cross, seed, true),
                    self.side(cross, pollen, false),
                );
                one(vec![(seed, pollen, 0)])
            }
            Parents::PollenOneOf {
                seed,
                pollen,
                weights,
            } => {
                self.check_weights(cross, seed, pollen.len(), weights);
                one(self.fathers(cross, seed, pollen, weights))
            }
            Parents::PollenMixed {
                seed,
                pollen,
                weights,
            } => {
                self.check_weights(cross, seed, pollen.len(), weights);
                let pairs = self.fathers(cross, seed, pollen, weights);
                Mating {
                    pairs,
                    donor: Donor::EachSeed,
                }
            }
            Parents::Open { seed, near: _ } => {
                let seed = self.side(cross, seed, true);
                Mating {
                    pairs: vec![(seed, Side::Unknown, 0)],
                    donor: Donor::EachSeed,
                }
            }
            Parents::PollenUnknown { seed } => {
                one(vec![(self.side(cross, seed, true), Side::Unknown, 0)])
            }
            Parents::SeedOneOf { seed, pollen } => {
                let pollen = self.side(cross, pollen, false);
                one(seed
                    .iter()
                    .map(|seed| (self.side(cross, seed, true), pollen, 0))
                    .collect())
            }
            Parents::SeedUnknown { pollen } => {
                one(vec![(Side::Unknown, self.side(cross, pollen, false), 0)])
            }
            Parents::OneOfPairs(pairs) => one(pairs
                .iter()
                .map(|pair| {
                    let seed = self.side(cross, pair.seed, true);
                    (seed, self.side(cross, pair.pollen, false), pair.weight)
                })
                .collect()),
            Parents::DirectionLost((a, b)) => {
                let (a, b) = (self.side(cross, a, true), self.side(cross, b, false));
                one(vec![(a, b, 0)])
            }
            Parents::LabelOnly(_) => {
                let seed = self.unseen(cross, true, KnownBy::Label, page.code);
                let pollen = self.unseen(cross, false, KnownBy::Label, page.code);
                one(vec![(seed, pollen, 0)])
            }
            Parents::Unknown => one(vec![]),
        }
        .or_unknown(page.pods.len() == 1)
    }

    fn fathers(
        &mut self,
        cross: CrossRow,
        seed: &'t str,
        pollen: &[&'t str],
        weights: &[u32],
    ) -> Vec<(Side<'t>, Side<'t>, u32)> {
        let seed = self.side(cross, seed, true);
        let weight = |at: usize| {
            if weights.len() == pollen.len() {
                weights[at]
            } else {
                0
            }
        };
        let fathers = pollen.iter().enumerate();
        fathers
            .map(|(at, father)| (seed, self.side(cross, father, false), weight(at)))
            .collect()
    }

    fn check_weights(&mut self, cross: CrossRow, anchor: &'t str, fathers: usize, weights: &[u32]) {
        let bad = !weights.is_empty() && (weights.len() != fathers || weights.contains(&0));
        if bad || fathers == 0 {
            let file = self.parts[cross.index()].file;
            self.findings.push(
                Finding::fault(Code("bad-weights"), "fathers and weights do not match")
                    .at(self.codes.sources.span_of(file, anchor))
                    .found(format!(
                        "{fathers} {} and {} {}",
                        if fathers == 1 { "father" } else { "fathers" },
                        weights.len(),
                        if weights.len() == 1 {
                            "weight"
                        } else {
                            "weights"
                        }
                    ))
                    .needed("at least one father, and no weights or one above 0 for each")
                    .help("leave `weights` out when it is not known how likely each father is"),
            );
        }
    }

    fn unseen(
        &mut self,
        cross: CrossRow,
        bore_the_seed: bool,
        known_by: KnownBy<'t>,
        text: &'t str,
    ) -> Side<'t> {
        self.unseen.push(Unseen {
            cross,
            bore_the_seed,
            known_by,
            row: PlantRow(u32::MAX),
        });
        Side::Unseen(self.unseen.len() as u32 - 1, text)
    }

    fn side(&mut self, cross: CrossRow, code: &'t str, bore_the_seed: bool) -> Side<'t> {
        let code = code.trim();
        if code.is_empty() || code == "?" {
            return Side::Unknown;
        }
        match self.codes.named(self.parts, code) {
            Some((Named::Cross(of), _)) => {
                self.unseen(cross, bore_the_seed, KnownBy::SeedlingOf(of), code)
            }
            Some((Named::Species(epithet), _)) => {
                self.unseen(cross, bore_the_seed, KnownBy::Species(epithet), code)
            }
            Some((named, _)) => Side::Plant(named, code),
            None => {
                let finding = self.no_parent(cross, code);
                self.findings.push(finding);
                Side::Unknown
            }
        }
    }

    /// The finding for a parent that is not on record, or was left out because of a fault of its own.
    fn no_parent(&self, cross: CrossRow, code: &str) -> Finding {
        let lookup = Lookup {
            sources: self.codes.sources,
            file: self.parts[cross.index()].file,
        };
        let left_out = self.codes.left_out(self.parts, "parent", code, lookup);
        left_out.unwrap_or_else(|| {
            let near = self.codes.near_parents(self.parts, code);
            let near = near.iter().map(String::as_str).collect();
            lookup.unknown_near("parent", code, near).help(
                "until it is recorded this parent counts as unknown; write \"?\" if that is not known",
            )
        })
    }
}

impl<'t> Mating<'t> {
    /// A pair of unknown parents where none is recorded. Where neither side is known, one pod says that its seedlings
    /// share their mother; without one nothing says that any two of them share a parent.
    fn or_unknown(mut self, of_one_pod: bool) -> Self {
        if self.pairs.is_empty() {
            self.pairs.push((Side::Unknown, Side::Unknown, 0));
        }
        if matches!(self.pairs[..], [(Side::Unknown, Side::Unknown, _)]) {
            self.donor = match of_one_pod {
                true => Donor::OneMother,
                false => Donor::EachSeed,
            };
        }
        self
    }
}
