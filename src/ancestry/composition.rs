//! The exact composition of one plant: which fraction of its descent belongs to which species.
//!
//! Counts stand over one common whole and are `u128` while they fit; beyond that they are big integers up to
//! [`LIMIT_BITS`] bits, and deeper descent is refused, so that a very long line costs bounded memory. Shares always
//! sum to one; the unknown part is a share of its own and nothing is renormalised.
//! Whose composition it is and how parents combine stands in [`super::shares`].

use num_bigint::BigUint;
use num_traits::ToPrimitive;

use crate::numeric::{Agreement, Fraction, Mix, MixRef, agreement, weighted_mean};

use super::part::Part;

/// The longest denominator kept, in bits: about as many generations of backcrossing, none of which can be told from
/// the recurrent species by any measurement.
pub const LIMIT_BITS: u64 = 1000;

/// Exact shares can no longer be told: the descent needs denominators above [`LIMIT_BITS`] bits.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TooDeep;

impl std::fmt::Display for TooDeep {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(
            out,
            "exact shares would need a denominator above 2^{LIMIT_BITS}: the line of unequal crosses is too long"
        )
    }
}

impl std::error::Error for TooDeep {}

/// Exact shares that sum to one.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Composition(pub(super) Width);

/// The narrowest width that holds the counts, so that equal compositions are equal values.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) enum Width {
    Narrow(Mix<Part, u128>),
    Wide(Mix<Part, BigUint>),
}

/// A composition lent from wherever it is stored.
#[derive(Clone, Copy)]
pub(super) enum WidthRef<'a> {
    Narrow(MixRef<'a, Part, u128>),
    Wide(MixRef<'a, Part, BigUint>),
}

impl Composition {
    /// All descent from one part.
    pub fn pure(part: Part) -> Self {
        Self(Width::Narrow(Mix::pure(part)))
    }

    /// Shares stated as counts of a whole, as `[(Species(0), 3), (Unknown, 1)]` for ¾ and ¼.
    /// `None` if all counts are zero or their sum overflows 64 bits.
    pub fn from_counts(counts: &[(Part, u64)]) -> Option<Self> {
        let whole = counts
            .iter()
            .try_fold(0u64, |sum, &(_, count)| sum.checked_add(count))?;
        let counted = counts
            .iter()
            .map(|&(part, count)| (part, u128::from(count)))
            .collect();
        if whole == 0 {
            None
        } else {
            Mix::settle(u128::from(whole), counted).map(|mix| Self(Width::Narrow(mix)))
        }
    }

    /// Half of each parent.
    ///
    /// # Errors
    /// [`TooDeep`] when the denominator would pass [`LIMIT_BITS`] bits.
    pub fn offspring(seed: &Self, pollen: &Self) -> Result<Self, TooDeep> {
        mean(&[(1, seed.0.lend()), (1, pollen.0.lend())]).map(Self)
    }

    /// Every part with its share, species first by number, then "one of" sets, then unknown; shares sum to one.
    pub fn shares(&self) -> Vec<(Part, Fraction)> {
        match &self.0 {
            Width::Narrow(mix) => mix.shares().collect(),
            Width::Wide(mix) => mix.shares().collect(),
        }
    }

    /// Every part with its share as the nearest number; exact at registry depth.
    pub fn approximate(&self) -> Vec<(Part, f64)> {
        match &self.0 {
            Width::Narrow(mix) => mix
                .parts
                .iter()
                .zip(&mix.counts)
                .map(|(&part, &n)| (part, n as f64 / mix.whole as f64))
                .collect(),
            Width::Wide(mix) => {
                let float = |count: &BigUint| {
                    count
                        .to_f64()
                        .expect("a big integer converts to some float")
                };
                let whole = float(&mix.whole);
                mix.parts
                    .iter()
                    .zip(&mix.counts)
                    .map(|(&part, n)| (part, float(n) / whole))
                    .collect()
            }
        }
    }

    /// The one part all descent belongs to, if there is only one.
    pub fn sole_part(&self) -> Option<Part> {
        match self.parts() {
            [part] => Some(*part),
            _ => None,
        }
    }

    /// Number of species with a share of their own.
    pub fn species_count(&self) -> usize {
        self.parts()
            .iter()
            .filter(|part| matches!(part, Part::Species(_)))
            .count()
    }

    pub(super) fn parts(&self) -> &[Part] {
        match &self.0 {
            Width::Narrow(mix) => &mix.parts,
            Width::Wide(mix) => &mix.parts,
        }
    }
}

impl Width {
    pub(super) fn lend(&self) -> WidthRef<'_> {
        match self {
            Self::Narrow(mix) => WidthRef::Narrow(mix.lend()),
            Self::Wide(mix) => WidthRef::Wide(mix.lend()),
        }
    }

    /// Back to `u128` where it fits.
    fn narrowest(mix: Mix<Part, BigUint>) -> Result<Self, TooDeep> {
        if mix.whole.bits() > LIMIT_BITS {
            return Err(TooDeep);
        }
        let Some(whole) = mix.whole.to_u128() else {
            return Ok(Self::Wide(mix));
        };
        let counts = mix
            .counts
            .iter()
            .map(|count| count.to_u128().expect("no part exceeds the whole"))
            .collect();
        Ok(Self::Narrow(Mix {
            whole,
            parts: mix.parts,
            counts,
        }))
    }
}

impl WidthRef<'_> {
    pub(super) fn to_owned(self) -> Width {
        fn own<W: Clone>(mix: MixRef<'_, Part, W>) -> Mix<Part, W> {
            Mix {
                whole: mix.whole.clone(),
                parts: mix.parts.to_vec(),
                counts: mix.counts.to_vec(),
            }
        }
        match self {
            Self::Narrow(mix) => Width::Narrow(own(mix)),
            Self::Wide(mix) => Width::Wide(own(mix)),
        }
    }

    fn widened(self) -> Mix<Part, BigUint> {
        match self {
            Self::Wide(mix) => Mix {
                whole: mix.whole.clone(),
                parts: mix.parts.to_vec(),
                counts: mix.counts.to_vec(),
            },
            Self::Narrow(mix) => Mix {
                whole: BigUint::from(*mix.whole),
                parts: mix.parts.to_vec(),
                counts: mix
                    .counts
                    .iter()
                    .map(|&count| BigUint::from(count))
                    .collect(),
            },
        }
    }

    fn narrow(&self) -> Option<MixRef<'_, Part, u128>> {
        match self {
            Self::Narrow(mix) => Some(*mix),
            Self::Wide(_) => None,
        }
    }
}

/// The weighted mean of compositions.
pub(super) fn mean(terms: &[(u64, WidthRef<'_>)]) -> Result<Width, TooDeep> {
    let narrow: Option<Vec<_>> = terms
        .iter()
        .map(|(weight, mix)| Some((*weight, mix.narrow()?)))
        .collect();
    if let Some(mix) = narrow.and_then(|terms| weighted_mean(&terms)) {
        return Ok(Width::Narrow(mix));
    }
    let wide: Vec<_> = terms
        .iter()
        .map(|(weight, mix)| (*weight, mix.widened()))
        .collect();
    let lent: Vec<_> = wide
        .iter()
        .map(|(weight, mix)| (*weight, mix.lend()))
        .collect();
    Width::narrowest(weighted_mean(&lent).expect("big integers do not overflow"))
}

/// What all alternatives agree on, the rest given to the part that `name` makes of the open ones.
pub(super) fn agreed(
    alternatives: &[Width],
    name: impl FnOnce(Vec<Part>) -> Part,
) -> Result<Width, TooDeep> {
    let narrow: Option<Vec<_>> = alternatives
        .iter()
        .map(|mix| match mix {
            Width::Narrow(mix) => Some(mix.lend()),
            Width::Wide(_) => None,
        })
        .collect();
    if let Some(agreed) = narrow.and_then(|mixes| agreement(&mixes)) {
        let (whole, counted) = name_rest(agreed, name);
        return Ok(Width::Narrow(
            Mix::settle(whole, counted).expect("counts do not exceed the whole"),
        ));
    }
    let wide: Vec<_> = alternatives
        .iter()
        .map(|mix| mix.lend().widened())
        .collect();
    let lent: Vec<_> = wide.iter().map(Mix::lend).collect();
    let (whole, counted) = name_rest(
        agreement(&lent).expect("big integers do not overflow"),
        name,
    );
    Width::narrowest(Mix::settle(whole, counted).expect("big integers do not overflow"))
}

fn name_rest<W>(
    agreed: Agreement<Part, W>,
    name: impl FnOnce(Vec<Part>) -> Part,
) -> (W, Vec<(Part, W)>) {
    let mut counted = agreed.sure;
    if !agreed.open.is_empty() {
        counted.push((name(agreed.open), agreed.rest));
    }
    (agreed.whole, counted)
}
