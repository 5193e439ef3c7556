//! Shares over one common denominator, in whole numbers of either width.
//!
//! A mix is a list of parts with whole-number counts that sum to a common whole. The same arithmetic runs on `u128`,
//! where it reports overflow, and on big integers, where it cannot overflow. What a part means, which width is used
//! and how far the numbers may grow is for those who ask: `ancestry::composition` of plants, `naming::shares` of labels.

use num_integer::Integer;
use num_traits::{CheckedAdd, CheckedMul};

use super::fraction::Fraction;

/// Whole numbers wide enough for counts.
pub trait Whole: Integer + Clone + CheckedAdd + CheckedMul + From<u64> {}
impl<W: Integer + Clone + CheckedAdd + CheckedMul + From<u64>> Whole for W {}

/// Parts in ascending order, each once, with counts above zero that sum to `whole`.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Mix<P, W> {
    /// What the counts sum to.
    pub whole: W,
    /// What there is a share of.
    pub parts: Vec<P>,
    /// One count a part.
    pub counts: Vec<W>,
}

/// A [`Mix`] lent from wherever it is stored.
#[derive(Debug)]
pub struct MixRef<'a, P, W> {
    /// What the counts sum to.
    pub whole: &'a W,
    /// What there is a share of.
    pub parts: &'a [P],
    /// One count a part.
    pub counts: &'a [W],
}

impl<P, W> Copy for MixRef<'_, P, W> {}
impl<P, W> Clone for MixRef<'_, P, W> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<P: Ord + Clone, W: Whole> Mix<P, W> {
    /// All of one part.
    pub fn pure(part: P) -> Self {
        Self {
            whole: W::one(),
            parts: vec![part],
            counts: vec![W::one()],
        }
    }

    /// The same, lent.
    pub fn lend(&self) -> MixRef<'_, P, W> {
        MixRef {
            whole: &self.whole,
            parts: &self.parts,
            counts: &self.counts,
        }
    }

    /// Sorts, joins equal parts, drops empty ones and strips the common divisor. `None` on overflow.
    pub fn settle(whole: W, mut counted: Vec<(P, W)>) -> Option<Self> {
        counted.sort_by(|a, b| a.0.cmp(&b.0));
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

    /// Every part with its share, in the order of the parts.
    pub fn shares<V: Integer + Clone + From<W>>(&self) -> impl Iterator<Item = (P, Fraction<V>)> {
        let whole = V::from(self.whole.clone());
        let counts = self.counts.iter().map(|count| V::from(count.clone()));
        let shares = counts.map(move |count| Fraction::new(count, whole.clone()));
        self.parts.iter().cloned().zip(shares)
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
pub fn weighted_mean<P: Ord + Clone, W: Whole>(
    terms: &[(u64, MixRef<'_, P, W>)],
) -> Option<Mix<P, W>> {
    let shared = shared_whole(terms.iter().map(|(_, mix)| mix.whole))?;
    let mut total = W::zero();
    let mut counted = Vec::new();
    for &(weight, mix) in terms {
        let weight = W::from(weight);
        total = total.checked_add(&weight)?;
        let factor = (shared.clone() / mix.whole.clone()).checked_mul(&weight)?;
        for (part, count) in mix.parts.iter().zip(mix.counts) {
            counted.push((part.clone(), count.checked_mul(&factor)?));
        }
    }
    Mix::settle(shared.checked_mul(&total)?, counted)
}

/// What several alternatives have in common, and the parts over which the rest is spread in one way or another.
pub struct Agreement<P, W> {
    /// What the counts sum to.
    pub whole: W,
    /// Part and the count it has in every alternative.
    pub sure: Vec<(P, W)>,
    /// The parts of which some alternative holds more than that.
    pub open: Vec<P>,
    /// The count left to the open parts together.
    pub rest: W,
}

/// Compares alternatives part by part. `None` when the numbers outgrow their width.
pub fn agreement<P: Ord + Clone, W: Whole>(
    alternatives: &[MixRef<'_, P, W>],
) -> Option<Agreement<P, W>> {
    let whole = shared_whole(alternatives.iter().map(|mix| mix.whole))?;
    let mut every: Vec<P> = alternatives
        .iter()
        .flat_map(|mix| mix.parts)
        .cloned()
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
            agreed.open.push(part.clone());
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
