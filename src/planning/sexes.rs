//! Which sexes will plants be that have not flowered, and when will they show it?
//!
//! The share of females in a line is not known; what is known of it are the sexes its plants have shown and a stated
//! belief that sexes come one to one. The two make a beta distribution, from which every chance here follows exactly: two
//! plants of one line are not independent, since what one shows says something of the other. When a plant flowers first
//! is spread evenly from the shortest to the longest age known. Whose ages those are is the caller's business.

/// Plants, half of them female, that the belief in one to one weighs as much as. A judgement: three males in a row are
/// no reason yet to expect a fourth.
pub const BELIEF: f64 = 20.0;

/// What is known of the share of females in a line: a beta distribution.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ShareOfFemales {
    females: f64,
    males: f64,
}

/// Which sexes are still wanted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Wanted {
    /// A female.
    pub female: bool,
    /// A male.
    pub male: bool,
}

impl ShareOfFemales {
    /// After so many females and males of the line were seen.
    pub fn seen(females: u64, males: u64) -> Self {
        Self {
            females: 0.5 * BELIEF + females as f64,
            males: 0.5 * BELIEF + males as f64,
        }
    }

    /// The chance that the next plant is female, 0 to 1.
    pub fn female(self) -> f64 {
        self.females / (self.females + self.males)
    }

    /// The chance that of two plants of the line one is female and the other male: 2ab / ((a + b)(a + b + 1)).
    pub fn unlike(self) -> f64 {
        let sum = self.females + self.males;
        2.0 * self.females * self.males / (sum * (sum + 1.0))
    }

    /// The chance that none of `plants` is female: E(1 − p)ⁿ.
    fn none_female(self, plants: usize) -> f64 {
        let sum = self.females + self.males;
        (0..plants)
            .map(|n| (self.males + n as f64) / (sum + n as f64))
            .product()
    }

    fn none_male(self, plants: usize) -> f64 {
        let turned = Self {
            females: self.males,
            males: self.females,
        };
        turned.none_female(plants)
    }

    /// The chance that `plants` of the line hold every sex wanted; 1 if none is.
    pub fn holds(self, plants: usize, wanted: Wanted) -> f64 {
        let none_female = if wanted.female {
            self.none_female(plants)
        } else {
            0.0
        };
        let none_male = if wanted.male {
            self.none_male(plants)
        } else {
            0.0
        };
        // No plant at all lacks both sexes at once.
        let neither = f64::from(u8::from(plants == 0 && wanted.female && wanted.male));
        1.0 - none_female - none_male + neither
    }

    /// The chance that plants of the line, each of which will have flowered with a chance of its own, have shown every
    /// sex wanted.
    pub fn shown(self, flowered: &[f64], wanted: Wanted) -> f64 {
        let numbers = how_many(flowered);
        let each = numbers.iter().enumerate();
        each.map(|(n, chance)| chance * self.holds(n, wanted)).sum()
    }
}

/// The chances that 0, 1, 2, … of some independent things happen.
fn how_many(chances: &[f64]) -> Vec<f64> {
    let mut numbers = vec![1.0];
    for &chance in chances {
        numbers.push(0.0);
        for n in (0..numbers.len()).rev() {
            let one_less = if n == 0 { 0.0 } else { numbers[n - 1] };
            numbers[n] = numbers[n] * (1.0 - chance) + one_less * chance;
        }
    }
    numbers
}

/// The chance that a plant which has not flowered at one age will have by a later one, when first flowers come at any age
/// from `shortest` to `longest` alike (all in one unit). Of a plant older than the longest age nothing is known; whatever
/// time passes, the answer is 1.
pub fn flowered_by((now, then): (f64, f64), (shortest, longest): (f64, f64)) -> f64 {
    if then < shortest || then <= now {
        return 0.0;
    }
    if then >= longest {
        return 1.0;
    }
    let begun = now.max(shortest);
    (then - begun) / (longest - begun)
}
