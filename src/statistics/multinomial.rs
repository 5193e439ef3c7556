//! How probable is an outcome no more probable than the one counted?
//!
//! The exact multinomial probability behind `segregation`: every outcome is listed while there are few enough; beyond
//! that outcomes are drawn with a fixed seed if an expected count is small, else chi-square has to do.

use super::distribution::ln_factorials;
use super::random::SplitMix64;

/// Outcomes listed one by one at most where an expected count is below 5; beyond, they are drawn.
pub const LARGEST_LIST: f64 = 2.0e6;
/// The same where all expected counts are 5 or more; beyond, chi-square is as good and much faster.
pub const LIST_OF_LARGE: f64 = 1.0e5;
/// Draws of a sampled probability: standard error at most 0.0036.
pub const DRAWS: u64 = 20_000;
/// Outcomes whose probabilities differ by less than this share count as equally probable.
const TIE: f64 = 1e-7;
const SEED: u64 = 0x005E_6E6A_7E00;

/// How an exact probability was found.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Found {
    /// Every outcome was listed; how many there are.
    Listed(u64),
    /// A seeded sample; how many draws, the counted outcome included among them.
    Sampled(u64),
    /// Too much to list, and no expected count below 5: the probability of chi-square stands in.
    ByChiSquare,
}

/// The probability of an outcome no more probable than `counts`, `shares` adding to 1, and how it was found; `None` if
/// chi-square is to stand in.
pub(crate) fn exact(counts: &[u64], shares: &[f64], plants: u64) -> Option<(f64, Found)> {
    // Kinds of outcome: (plants + kinds - 1) choose (kinds - 1).
    let outcomes: f64 = (1..shares.len() as u64)
        .map(|i| (plants + i) as f64 / i as f64)
        .product();
    let large = shares.iter().all(|share| share * plants as f64 >= 5.0);
    if large && outcomes > LIST_OF_LARGE {
        return None;
    }
    let chances = Multinomial::new(shares, plants);
    let seen = chances.ln_chance(counts);
    Some(if outcomes <= LARGEST_LIST {
        listed(&chances, plants, seen)
    } else {
        sampled(&chances, plants, seen)
    })
}

struct Multinomial {
    shares: Vec<f64>,
    ln_shares: Vec<f64>,
    ln_factorial: Vec<f64>,
}

impl Multinomial {
    fn new(shares: &[f64], plants: u64) -> Self {
        let ln_shares = shares.iter().map(|&share| libm::log(share)).collect();
        Self {
            shares: shares.to_vec(),
            ln_shares,
            ln_factorial: ln_factorials(plants),
        }
    }

    fn ln_chance(&self, counts: &[u64]) -> f64 {
        let all = self.ln_factorial[self.ln_factorial.len() - 1];
        let kind =
            |(&k, ln_share): (&u64, &f64)| k as f64 * ln_share - self.ln_factorial[k as usize];
        all + counts.iter().zip(&self.ln_shares).map(kind).sum::<f64>()
    }
}

/// Visits every way to spread the plants over the kinds, counting up from "all in the last kind".
fn listed(chances: &Multinomial, plants: u64, seen: f64) -> (f64, Found) {
    let last = chances.shares.len() - 1;
    let mut counts = vec![0; last + 1];
    counts[last] = plants;
    let (mut sum, mut outcomes) = (0.0, 0);
    loop {
        let ln_chance = chances.ln_chance(&counts);
        if ln_chance <= seen + TIE {
            sum += libm::exp(ln_chance);
        }
        outcomes += 1;
        if !next_outcome(&mut counts) {
            return (sum.min(1.0), Found::Listed(outcomes));
        }
    }
}

/// Steps to the next way of spreading the same total; false after the last.
fn next_outcome(counts: &mut [u64]) -> bool {
    let last = counts.len() - 1;
    let Some(from) = (1..=last).rev().find(|&i| counts[i] > 0) else {
        return false;
    };
    let carried = counts[from] - 1;
    counts[from] = 0;
    counts[from - 1] += 1;
    counts[last] = carried;
    true
}

/// The counted outcome is one of the draws, so the probability is never 0 and the test keeps its stated rate.
fn sampled(chances: &Multinomial, plants: u64, seen: f64) -> (f64, Found) {
    let mut random = SplitMix64::new(SEED);
    let mut counts = vec![0; chances.shares.len()];
    let mut as_rare = 1;
    for _ in 1..DRAWS {
        draw(&mut random, &chances.shares, plants, &mut counts);
        as_rare += u64::from(chances.ln_chance(&counts) <= seen + TIE);
    }
    (as_rare as f64 / DRAWS as f64, Found::Sampled(DRAWS))
}

fn draw(random: &mut SplitMix64, shares: &[f64], plants: u64, counts: &mut [u64]) {
    let (mut left, mut share_left) = (plants, 1.0);
    let last = shares.len() - 1;
    for (count, share) in counts[..last].iter_mut().zip(shares) {
        *count = random.binomial(left, (share / share_left).min(1.0));
        left -= *count;
        share_left -= share;
    }
    counts[last] = left;
}
