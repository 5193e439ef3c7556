//! How good is the best of so many seedlings, and how many does it take?
//!
//! The expected best of *n* exactly (order statistics of the normal distribution, not the infinite population's
//! intensity), the usefulness of a pairing built on it (Schnell & Utz 1975), the chance of both sexes, and the number
//! of plants for a rare outcome. Where σ and heritability come from is the caller's business.

/// Spacing of the trapezoids. For a smooth integrand that dies away on both sides the rule is exact to rounding long
/// before this.
const SPACING: f64 = 1.0 / 32.0;
/// The integrands vanish beyond this many standard deviations.
const REACH: f64 = 13.0;

/// ∫ f over the real line for a smooth f that vanishes beyond [`REACH`].
fn over_the_line(f: impl Fn(f64) -> f64) -> f64 {
    let count = (REACH / SPACING) as i32;
    (-count..=count)
        .map(|at| f(f64::from(at) * SPACING))
        .sum::<f64>()
        * SPACING
}

/// Density of the `rank`-th best of `n` standard normal values at `x`; rank 1 is the best.
fn density(n: u32, rank: u32, x: f64) -> f64 {
    let above = 0.5 * libm::erfc(x * std::f64::consts::FRAC_1_SQRT_2);
    let below = 0.5 * libm::erfc(-x * std::f64::consts::FRAC_1_SQRT_2);
    if below <= 0.0 || above <= 0.0 {
        return 0.0;
    }
    let (n, rank) = (f64::from(n), f64::from(rank));
    let ways = libm::lgamma(n + 1.0) - libm::lgamma(rank) - libm::lgamma(n - rank + 1.0);
    let ln_below = if below > 0.5 {
        libm::log1p(-above)
    } else {
        libm::log(below)
    };
    let ln_above = if above > 0.5 {
        libm::log1p(-below)
    } else {
        libm::log(above)
    };
    let ln_shape = (n - rank) * ln_below + (rank - 1.0) * ln_above - 0.5 * x * x;
    libm::exp(ways + ln_shape) / libm::sqrt(std::f64::consts::TAU)
}

/// Expected value of the best of `n` plants in standard deviations above their mean: the intensity *i(n)*. 0 for fewer
/// than two plants.
pub fn expected_best(n: u32) -> f64 {
    expected_rank(n, 1)
}

/// Expected value of the `rank`-th best of `n` (1 is the best), in standard deviations; 0 if there is no such plant.
pub fn expected_rank(n: u32, rank: u32) -> f64 {
    if rank == 0 || rank > n {
        return 0.0;
    }
    over_the_line(|x| x * density(n, rank, x))
}

/// Usefulness of a pairing: `mean + i(n)·h·σ`, the expected genetic value of the plant that looks best among `n`.
///
/// `deviation` is the genetic standard deviation within the pod, `accuracy` (0 to 1) how well looks tell genes (*h*, the
/// square root of the heritability within the pod). Source: Schnell & Utz 1975.
pub fn usefulness(mean: f64, n: u32, accuracy: f64, deviation: f64) -> f64 {
    mean + expected_best(n) * accuracy * deviation
}

/// The chance that `n` unsexed plants hold both sexes, each plant female with chance ½: `1 − 2·½ⁿ`; 0 below two plants.
pub fn chance_of_both_sexes(n: u32) -> f64 {
    if n < 2 {
        return 0.0;
    }
    1.0 - 2.0 * libm::exp2(-f64::from(n))
}

/// The chance of at least one of a sex among `n` unsexed plants: `1 − ½ⁿ`.
pub fn chance_of_a_sex(n: u32) -> f64 {
    1.0 - libm::exp2(-f64::from(n))
}

/// Plants needed for a chance of at least `wanted` (below 1) of one plant with an outcome expected in `share` (above 0)
/// of them; `None` if either lies outside or the number exceeds `u32`.
pub fn plants_for_one(share: f64, wanted: f64) -> Option<u32> {
    if !(share > 0.0 && share <= 1.0 && (0.0..1.0).contains(&wanted)) {
        return None;
    }
    if share == 1.0 || wanted == 0.0 {
        return Some(1);
    }
    let exact = libm::log1p(-wanted) / libm::log1p(-share);
    // A whole number that rounding lifted a little stays that number.
    let needed = libm::ceil(exact - 1e-9).max(1.0);
    (needed <= f64::from(u32::MAX)).then_some(needed as u32)
}
