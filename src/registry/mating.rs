//! The possible pairs of parents of every cross, before rows are given.

use super::cross::Cross;
use super::lookup::Lookup;
use super::origin::Donor;
use super::parents::{Codes, Named};
use super::plants::{KnownBy, Unseen};
use super::row_types::{CrossRow, PlantRow};
use crate::diagnostic::{Code, Finding, Findings};
use crate::record::{Parents, parents};
use std::collections::BTreeSet;

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

/// Seed parent, pollen parent, and how likely they are by a weight; 0 where none is stated.
type Pair<'t> = (Side<'t>, Side<'t>, u32);

/// The possible pairs of one cross.
#[derive(Clone, Debug)]
pub(super) struct Mating<'t> {
    pub pairs: Vec<Pair<'t>>,
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
        let donor = match &page.parents {
            Parents::PollenMixed { .. } | Parents::Open { .. } => Donor::EachSeed,
            _ => Donor::WholePod,
        };
        let pairs = self.pairs(cross, &page.parents);
        Mating { pairs, donor }.or_unknown(page.pods.len() == 1)
    }

    fn pairs(&mut self, cross: CrossRow, of: &Parents<'t>) -> Vec<Pair<'t>> {
        match of {
            Parents::Known { seed, pollen } => {
                let seed = self.side(cross, seed, true);
                vec![(seed, self.side(cross, pollen, false), 0)]
            }
            Parents::PollenOneOf {
                seed,
                pollen,
                weights,
            }
            | Parents::PollenMixed {
                seed,
                pollen,
                weights,
            } => {
                self.check_weights(cross, seed, pollen.len(), weights);
                self.fathers(cross, seed, pollen, weights)
            }
            Parents::Open { seed, near: _ } | Parents::PollenUnknown { seed } => {
                vec![(self.side(cross, seed, true), Side::Unknown, 0)]
            }
            Parents::SeedOneOf { seed, pollen } => {
                let pollen = self.side(cross, pollen, false);
                let seeds = seed.iter();
                seeds
                    .map(|seed| (self.side(cross, seed, true), pollen, 0))
                    .collect()
            }
            Parents::SeedUnknown { pollen } => {
                vec![(Side::Unknown, self.side(cross, pollen, false), 0)]
            }
            Parents::OneOfPairs(pairs) => {
                let pairs = pairs.iter().map(|pair| {
                    let seed = self.side(cross, pair.seed, true);
                    (seed, self.side(cross, pair.pollen, false), pair.weight)
                });
                pairs.collect()
            }
            Parents::DirectionLost((a, b)) => {
                let a = self.side(cross, a, true);
                vec![(a, self.side(cross, b, false), 0)]
            }
            Parents::LabelOnly(_) => {
                let code = self.parts[cross.index()].page.code;
                let seed = self.unseen(cross, true, KnownBy::Label, code);
                vec![(seed, self.unseen(cross, false, KnownBy::Label, code), 0)]
            }
            Parents::Unknown => Vec::new(),
        }
    }

    fn fathers(
        &mut self,
        cross: CrossRow,
        seed: &'t str,
        pollen: &[&'t str],
        weights: &[u32],
    ) -> Vec<Pair<'t>> {
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

    /// Whether a code names what came of a cross, by the parents on the pages.
    fn is_raised_of(&self, code: &str, cross: CrossRow) -> bool {
        let of = |code: &str| match self.codes.named(self.parts, code)?.0 {
            Named::Cross(of) | Named::Seedling { cross: of, .. } => Some(of),
            _ => None,
        };
        let (mut seen, mut todo) = (BTreeSet::new(), Vec::from_iter(of(code)));
        while let Some(next) = todo.pop() {
            if seen.insert(next) {
                let written = parents(&self.parts[next.index()].page).into_iter();
                todo.extend(written.filter_map(|parent| of(parent.code.trim())));
            }
        }
        seen.contains(&cross)
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
            let near = near.iter().map(String::as_str);
            // What was raised of the cross is no parent of it.
            let near = near.filter(|near| !self.is_raised_of(near, cross)).collect();
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
