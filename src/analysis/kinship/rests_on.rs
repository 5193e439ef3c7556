//! What figures of kinship rest on: founders nobody knows to be related, parents nobody recorded, fathers in doubt.
//!
//! Only what lies behind the plants asked for is counted. How the figures come about is the kinship floor's.

use crate::kinship::{Kinship, unknowns};
use crate::lineage::{Founding, Pedigree, PlantRow};
use crate::wording::counted;
use serde::Serialize;

/// What is unknown or assumed behind the figures.
#[derive(Serialize)]
pub struct RestsOn {
    /// Founders behind the plants, taken as unrelated unless said otherwise.
    pub founders: usize,
    /// Parents nobody recorded.
    pub unknown_parents: usize,
    /// Crosses with one of several possible pairs of parents.
    pub uncertain: usize,
    /// Founders counted as full siblings for their shared batch.
    pub founders_in_batches: usize,
    /// Species behind them with a stated background kinship.
    pub backgrounds: usize,
    /// Whether alternatives without stated chances were taken as equally likely.
    pub equal_chances: bool,
}

impl RestsOn {
    /// Counts what is unknown or assumed behind some plants.
    pub fn of(
        (pedigree, kinship): (&Pedigree, &Kinship),
        founding: &Founding,
        plants: &[PlantRow],
    ) -> RestsOn {
        let counted = unknowns(pedigree, plants);
        let above = pedigree.with_ancestors(plants);
        RestsOn {
            founders: counted.founders,
            unknown_parents: counted.parents,
            uncertain: counted.uncertain,
            founders_in_batches: in_shared_batches(founding, &above),
            backgrounds: backgrounds(founding, &above),
            equal_chances: above
                .iter()
                .any(|&plant| kinship.assumes_equal_chances(plant)),
        }
    }

    /// One line per assumption.
    pub fn cautions(&self) -> Vec<String> {
        let unknown = match self.unknown_parents {
            0 => String::new(),
            n => format!(" and {}", counted(n, "unknown parent", "unknown parents")),
        };
        let siblings = match self.founders_in_batches {
            0 => String::new(),
            n => format!(", but for {n} of a shared batch, counted as full siblings"),
        };
        let founders = counted(self.founders, "founder", "founders");
        let mut lines = vec![format!(
            "a minimum: {founders}{unknown} assumed unrelated{siblings}"
        )];
        if self.uncertain > 0 {
            let chances = if self.equal_chances {
                ", their chances taken as equal where not stated"
            } else {
                ""
            };
            lines.push(format!(
                "{} one of several possible pairs of parents{chances}; a mean over them is called expected",
                counted(self.uncertain, "cross has", "crosses have")
            ));
        }
        if self.backgrounds > 0 {
            lines.push(format!(
                "a background kinship is stated for {} of these species",
                self.backgrounds
            ));
        }
        lines
    }
}

/// Founders among some plants that share a batch of seed with another of them.
pub fn in_shared_batches(founding: &Founding, plants: &[PlantRow]) -> usize {
    let batch = |plant: &PlantRow| founding.stock(*plant)?.batch;
    let mut batches: Vec<u32> = plants.iter().filter_map(batch).collect();
    batches.sort_unstable();
    let runs = batches.chunk_by(|a, b| a == b).map(<[u32]>::len);
    runs.filter(|&founders| founders > 1).sum()
}

/// Species behind some founders with a stated background kinship.
fn backgrounds(founding: &Founding, plants: &[PlantRow]) -> usize {
    let stocks = plants.iter().filter_map(|&plant| founding.stock(plant));
    let mut species: Vec<u32> = stocks
        .flat_map(|stock| stock.sides.iter().flatten().map(|(species, _)| *species))
        .filter(|&species| founding.background()[species as usize] > 0.0)
        .collect();
    species.sort_unstable();
    species.dedup();
    species.len()
}

/// A probability for people: four decimals, and the fraction when it is a plain one.
pub fn probability(value: f64) -> String {
    for bits in 0..=6 {
        let whole = f64::from(1u32 << bits);
        let above = value * whole;
        if above.fract() == 0.0 {
            let decimal = format!("{value:.4}");
            let decimal = decimal.trim_end_matches('0').trim_end_matches('.');
            return if bits == 0 {
                decimal.to_owned()
            } else {
                format!("{decimal} ({above}/{whole})")
            };
        }
    }
    format!("{value:.4}")
}
