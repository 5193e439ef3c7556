//! Expected shares, made ready to be compared although part of the descent is open.

use crate::naming::{ShareOf, Shares};
use crate::numeric::nearest;
use std::collections::BTreeMap;

/// Shares that can be compared, and how much is open.
#[derive(Clone, PartialEq)]
pub(super) struct Sides {
    species: BTreeMap<String, f64>,
    open: f64,
}

impl Sides {
    pub fn of(shares: &Shares) -> Sides {
        let mut sides = Sides {
            species: BTreeMap::new(),
            open: 0.0,
        };
        for (of, share) in shares {
            match of {
                // What is only claimed is still what the label says.
                ShareOf::Species(name) | ShareOf::Claimed(name) => {
                    *sides.species.entry(name.clone()).or_default() += nearest(share);
                }
                _ => sides.open += nearest(share),
            }
        }
        sides
    }

    /// Of which nothing is known.
    pub fn open() -> Sides {
        Sides {
            species: BTreeMap::new(),
            open: 1.0,
        }
    }

    /// Half of what each of two parents has.
    pub fn half_of_each(seed: &Sides, pollen: &Sides) -> Sides {
        let mut species: BTreeMap<String, f64> = BTreeMap::new();
        for (name, share) in seed.species.iter().chain(&pollen.species) {
            *species.entry(name.clone()).or_default() += share / 2.0;
        }
        Sides {
            species,
            open: (seed.open + pollen.open) / 2.0,
        }
    }

    /// Whether a species must have more on this side than it can have on the other.
    fn exceeds(&self, other: &Sides) -> bool {
        self.species.iter().any(|(name, share)| {
            let there = other.species.get(name).copied().unwrap_or(0.0);
            *share > there + other.open + 1e-9
        })
    }

    /// Whether one species must have more on one side than it can have on the other.
    pub fn contradicts(&self, other: &Sides) -> bool {
        self.exceeds(other) || other.exceeds(self)
    }

    /// In words: `ventricosa 50 %, not known 50 %`.
    pub fn words(&self) -> String {
        let mut parts: Vec<String> = self
            .species
            .iter()
            .map(|(name, share)| format!("{name} {}", percent(*share)))
            .collect();
        if self.open > 0.0 {
            parts.push(format!("not known {}", percent(self.open)));
        }
        parts.join(", ")
    }
}

fn percent(share: f64) -> String {
    let tenths = (share * 1000.0).round() / 10.0;
    format!("{tenths} %")
}
