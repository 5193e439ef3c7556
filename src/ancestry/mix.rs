//! Shares over one common denominator, in whole numbers of either width.
//!
//! A mix is a list of parts with whole-number counts that sum to a common whole. The same arithmetic runs on `u128`,
//! where it reports overflow, and on big integers, where it cannot overflow. What a part means, which width is used
//! and how far the numbers may grow is decided in [`super::composition`].

use num_integer::Integer;
use num_traits::{CheckedAdd, CheckedMul};

use super::part::Part;

/// Whole numbers wide enough for counts.
pub trait Whole: Integer + Clone + CheckedAdd + CheckedMul + From<u64> {}
impl<W: Integer + Clone + CheckedAdd + CheckedMul + From<u64>> Whole for W {}

/// Parts in ascending order, each once, with counts above zero that sum to `whole`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mix<W> {
    pub whole: W,
    pub parts: Vec<Part>,
    pub counts: Vec<W>,
}

/// A [`Mix`] lent from wherever it is stored.
#[derive(Debug)]
pub struct MixRef<'a, W> {
    pub whole: &'a W,
    pub parts: &'a [Part],
    pub counts: &'a [W],
}

impl<W> Copy for MixRef<'_, W> {}
impl<W> Clone for MixRef<'_, W> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<W: Whole> Mix<W> {
    pub fn pure(part: Part) -> Self {
        Self {
            whole: W::one(),
            parts: vec![part],
            counts: vec![W::one()],
        }
    }

    pub fn lend(&self) -> MixRef<'_, W> {
        MixRef {
            whole: &self.whole,
            parts: &self.parts,
            counts: &self.counts,
        }
    }

    /// Sorts, joins equal parts, drops empty ones and strips the common divisor. `None` on overflow.
    pub fn settle(whole: W, mut counted: Vec<(Part, W)>) -> Option<Self> {
        counted.sort_by_key(|&(part, _)| part);
        let mut mix = Self {
            whole,
            parts: Vec::new(),
            counts: Vec::new(),
        };
        for (part, count) in counted.into_iter().filter(|(_, count)| !count.is_zero()) {
            if mix.parts.last() == Some(&part) {
                let last = mix.counts.last_mut().expect("one count per part");
                *last = last.checked_add(&count)?;
            } else {
                mix.parts.push(part);
                mix.counts.push(count);
            }
        }
        mix.reduce();
        Some(mix)
    }

    fn reduce(&mut self) {
        let divisor = self
            .counts
            .iter()
            .fold(self.whole.clone(), |divisor, count| divisor.gcd(count));
        if !divisor.is_one() {
            self.whole = self.whole.clone() / divisor.clone();
            for count in &mut self.counts {
                *count = count.clone() / divisor.clone();
            }
        }
    }
}

/// The mean of several mixes by weight. `None` when the numbers outgrow their width.
pub fn weighted_mean<W: Whole>(terms: &[(u64, MixRef<'_, W>)]) -> Option<Mix<W>> {
    let shared = shared_whole(terms.iter().map(|(_, mix)| mix.whole))?;
    let mut total = W::zero();
    let mut counted = Vec::new();
    for &(weight, mix) in terms {
        let weight = W::from(weight);
        total = total.checked_add(&weight)?;
        let factor = (shared.clone() / mix.whole.clone()).checked_mul(&weight)?;
        for (&part, count) in mix.parts.iter().zip(mix.counts) {
            counted.push((part, count.checked_mul(&factor)?));
        }
    }
    Mix::settle(shared.checked_mul(&total)?, counted)
}

/// What several alternatives have in common, and the parts over which the rest is spread in one way or another.
pub struct Agreement<W> {
    pub whole: W,
    /// Part and the count it has in every alternative.
    pub sure: Vec<(Part, W)>,
    /// The parts of which some alternative holds more than that.
    pub open: Vec<Part>,
    /// The count left to the open parts together.
    pub rest: W,
}

/// Compares alternatives part by part. `None` when the numbers outgrow their width.
pub fn agreement<W: Whole>(alternatives: &[MixRef<'_, W>]) -> Option<Agreement<W>> {
    let whole = shared_whole(alternatives.iter().map(|mix| mix.whole))?;
    let mut every: Vec<Part> = alternatives
        .iter()
        .flat_map(|mix| mix.parts)
        .copied()
        .collect();
    every.sort();
    every.dedup();
    let mut agreed = Agreement {
        rest: whole.clone(),
        whole,
        sure: Vec::new(),
        open: Vec::new(),
    };
    for part in every {
        let mut least: Option<W> = None;
        let mut most = W::zero();
        for mix in alternatives {
            let factor = agreed.whole.clone() / mix.whole.clone();
            let count = mix
                .parts
                .binary_search(&part)
                .map_or(W::zero(), |at| mix.counts[at].clone() * factor);
            least = Some(least.map_or(count.clone(), |least| least.min(count.clone())));
            most = most.max(count);
        }
        let least = least.unwrap_or_else(W::zero);
        if most > least {
            agreed.open.push(part);
        }
        agreed.rest = agreed.rest - least.clone();
        agreed.sure.push((part, least));
    }
    Some(agreed)
}

fn shared_whole<'a, W: Whole + 'a>(mut wholes: impl Iterator<Item = &'a W>) -> Option<W> {
    wholes.try_fold(W::one(), |shared, whole| {
        let divisor = shared.gcd(whole);
        (shared / divisor).checked_mul(whole)
    })
}
