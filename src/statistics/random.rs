//! Repeatable chance: the same seed gives the same draws on any machine.
//!
//! SplitMix64 (Steele, Lea & Flood 2014, public domain). Only integers, sums and `libm` are used, so results do not
//! depend on platform or thread. Not for secrets.

use super::distribution::ln_factorial;

/// A stream of draws.
#[derive(Clone, Debug)]
pub struct SplitMix64(u64);

impl SplitMix64 {
    /// A stream that starts at `seed`.
    pub fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number from 0 up to, not including, 1, in steps of 2⁻⁵³.
    pub fn uniform(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / 9_007_199_254_740_992.0
    }

    /// A whole number from 0 up to, not including, `n`; 0 if `n` is 0. Bias below `n`/2⁶⁴.
    pub fn below(&mut self, n: usize) -> usize {
        ((u128::from(self.bits()) * n as u128) >> 64) as usize
    }

    /// A standard normal draw (Box & Muller 1958, the cosine half).
    pub fn normal(&mut self) -> f64 {
        let radius = libm::sqrt(-2.0 * libm::log(1.0 - self.uniform()));
        radius * libm::cos(std::f64::consts::TAU * self.uniform())
    }

    /// Puts the list in random order (Fisher–Yates).
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            let other = self.below(last + 1);
            list.swap(last, other);
        }
    }

    /// How many of `n` tries succeed when each does with probability `p` (0 to 1).
    ///
    /// Inversion outward from the most likely count, so the cost grows with the standard deviation, not with `n`.
    pub fn binomial(&mut self, n: u64, p: f64) -> u64 {
        if n == 0 || p <= 0.0 {
            return 0;
        }
        if p >= 1.0 {
            return n;
        }
        let mode = (((n + 1) as f64 * p) as u64).min(n);
        let ln_mode = ln_factorial(n) - ln_factorial(mode) - ln_factorial(n - mode)
            + mode as f64 * libm::log(p)
            + (n - mode) as f64 * libm::log1p(-p);
        self.outward(n, p / (1.0 - p), mode, libm::exp(ln_mode))
    }

    fn outward(&mut self, n: u64, odds: f64, mode: u64, at_mode: f64) -> u64 {
        let mut left = self.uniform() - at_mode;
        let (mut down, mut p_down) = (mode, at_mode);
        let (mut up, mut p_up) = (mode, at_mode);
        while left > 0.0 && (down > 0 || up < n) {
            if up < n {
                p_up *= (n - up) as f64 / (up + 1) as f64 * odds;
                up += 1;
                left -= p_up;
                if left <= 0.0 {
                    return up;
                }
            }
            if down > 0 {
                p_down *= down as f64 / ((n - down + 1) as f64 * odds);
                down -= 1;
                left -= p_down;
                if left <= 0.0 {
                    return down;
                }
            }
        }
        mode
    }
}
