//! The tables under `data/`, and pedigrees read from them.

use std::collections::HashMap;
use std::path::PathBuf;

use podbook::lineage::{Origin, Pedigree, PlantRow};
use serde_json::Value;

pub fn text(name: &str) -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("tests/numbers/data")
        .join(name);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

pub fn json(name: &str) -> Value {
    serde_json::from_str(&text(name)).unwrap()
}

/// A pedigree whose plants have names.
#[derive(Default)]
pub struct Named {
    pub pedigree: Pedigree,
    pub rows: HashMap<String, PlantRow>,
}

impl Named {
    /// Adds a plant; siblings of one pair of known parents share an origin when `pods` is set.
    pub fn add(&mut self, name: &str, seed: Option<&str>, pollen: Option<&str>) -> PlantRow {
        let row = |name: &str| self.rows[name];
        let plant = match (seed.map(row), pollen.map(row)) {
            (None, None) => self.pedigree.add_founder(),
            (seed, pollen) => {
                let origin = Origin::certain(seed, pollen);
                let known = self
                    .pedigree
                    .origin_rows()
                    .find(|&other| self.pedigree[other] == origin);
                let row = match known {
                    Some(row) if seed.is_some() && pollen.is_some() => row,
                    _ => self.pedigree.add_origin(origin),
                };
                self.pedigree.add_offspring(row)
            }
        };
        self.rows.insert(name.to_owned(), plant);
        plant
    }

    pub fn of(rows: &Value, [id, seed, pollen]: [&str; 3]) -> Self {
        let mut named = Self::default();
        for row in rows.as_array().unwrap() {
            named.add(
                row[id].as_str().unwrap(),
                row[seed].as_str(),
                row[pollen].as_str(),
            );
        }
        named
    }

    pub fn row(&self, name: &str) -> PlantRow {
        self.rows[name]
    }
}

/// The portable generator of Steele, Lea & Flood (2014).
pub struct SplitMix64(pub u64);

impl SplitMix64 {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    pub fn below(&mut self, bound: usize) -> usize {
        ((u128::from(self.next()) * bound as u128) >> 64) as usize
    }

    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }
}
