//! How alike the gene copies of founders are taken to be, before any recorded cross.
//!
//! By default founders are unrelated. A founder may belong to a *stock* (a species, say) whose members share a stated
//! background kinship θ; a received hybrid belongs to several stocks in proportion, apart for its two sides; and
//! founders raised from one batch of seed are full siblings through unseen parents. With θ = 1 "alike" means "of
//! the same species", so the same arithmetic gives identity by descent and descent from one species alike.

use std::collections::BTreeMap;

use super::pedigree::PlantRow;

/// Stocks with the chance that a gene copy comes from them; chances below 1 in sum leave the rest unrelated.
pub type Mixture = Vec<(u32, f64)>;

/// What is assumed of one founder.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct FounderStock {
    /// The stocks of the copy received through its seed parent and of the one through its pollen parent.
    pub sides: [Mixture; 2],
    /// Founders of equal batch are full siblings.
    pub batch: Option<u32>,
}

/// What is assumed of all founders. Founders not listed are unrelated to everyone.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Founding {
    background: Vec<f64>,
    unknown: Option<u32>,
    founders: BTreeMap<PlantRow, FounderStock>,
}

impl Founding {
    /// All founders unrelated and not inbred.
    pub fn unrelated() -> Self {
        Self::default()
    }

    /// Stocks with their background kinship θ, 0 to 1, by number.
    ///
    /// # Panics
    /// If a kinship lies outside 0 to 1.
    pub fn with_background(background: Vec<f64>) -> Self {
        assert!(
            background.iter().all(|theta| (0.0..=1.0).contains(theta)),
            "a background kinship lies within 0 to 1"
        );
        Self {
            background,
            ..Self::default()
        }
    }

    /// States what is assumed of a founder; the last statement holds.
    ///
    /// # Panics
    /// If a side names a stock without background kinship.
    pub fn declare(&mut self, founder: PlantRow, stock: FounderStock) {
        let known = |&(number, _): &(u32, f64)| (number as usize) < self.background.len();
        assert!(
            stock.sides.iter().flatten().all(known),
            "every stock has a background kinship"
        );
        self.founders.insert(founder, stock);
    }

    /// States that unknown parents are of a stock; without it each is unrelated to everyone.
    ///
    /// # Panics
    /// If the stock has no background kinship.
    pub fn declare_unknown_parents(&mut self, stock: u32) {
        assert!(
            (stock as usize) < self.background.len(),
            "every stock has a background kinship"
        );
        self.unknown = Some(stock);
    }

    /// The stock of unknown parents, if one is stated.
    pub fn unknown_parents(&self) -> Option<u32> {
        self.unknown
    }

    /// Background kinship by stock.
    pub fn background(&self) -> &[f64] {
        &self.background
    }

    /// What is assumed of a founder, if anything.
    pub fn stock(&self, founder: PlantRow) -> Option<&FounderStock> {
        self.founders.get(&founder)
    }
}
