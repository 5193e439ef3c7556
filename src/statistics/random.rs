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

    /// Puts the list in random order (Fisher–Yates).
    pub fn shuffle<T>(&mut self, list: &mut [T]) {
        for last in (1..list.len()).rev() {
            let other = self.below(last + 1);
            list.swap(last, other);
        }
    }

    /// How many of `n` tries succeed when each does with probability `p` (0 to 1).
    pub fn binomial(&mut self, n: u64, p: f64) -> u64 {
        if n == 0 || p <= 0.0 {
            return 0;
        }
        if p >= 1.0 {
            return n;
        }
        let mode = (((n + 1) as f64 * p) as u64).min(n);
        let ln_mode =
            ln_choose(n, mode) + mode as f64 * libm::log(p) + (n - mode) as f64 * libm::log1p(-p);
        let odds = p / (1.0 - p);
        let step = |k: u64| (n - k) as f64 / (k + 1) as f64 * odds;
        self.outward((0, n), (mode, libm::exp(ln_mode)), step)
    }

    /// How many of `drawn` plants out of `all` belong to a kind of `of_kind` plants; neither may exceed `all`.
    /// `ln_factorial` holds `ln 0!` to `ln all!` at least: whoever draws tables asks for the same ones again and again.
    pub fn hypergeometric(
        &mut self,
        drawn: u64,
        of_kind: u64,
        all: u64,
        ln_factorial: &[f64],
    ) -> u64 {
        let ln_choose = |n: u64, k: u64| {
            ln_factorial[n as usize] - ln_factorial[k as usize] - ln_factorial[(n - k) as usize]
        };
        let (least, most) = ((drawn + of_kind).saturating_sub(all), drawn.min(of_kind));
        let middle = (drawn + 1) as f64 * (of_kind + 1) as f64 / (all + 2) as f64;
        let mode = (middle as u64).clamp(least, most);
        let ln_mode = ln_choose(of_kind, mode) + ln_choose(all - of_kind, drawn - mode)
            - ln_choose(all, drawn);
        let step = |k: u64| {
            let (up, down) = ((of_kind - k) as f64 * (drawn - k) as f64, (k + 1) as f64);
            up / (down * ((all + k + 1) - of_kind - drawn) as f64)
        };
        self.outward((least, most), (mode, libm::exp(ln_mode)), step)
    }

    /// A count from `range`, drawn by inversion outward from the most likely one, so that the cost grows with the
    /// standard deviation and not with the range. `step(k)` is the chance of `k + 1` over that of `k`.
    fn outward(&mut self, range: (u64, u64), mode: (u64, f64), step: impl Fn(u64) -> f64) -> u64 {
        let mut left = self.uniform() - mode.1;
        let (mut down, mut up) = (mode, mode);
        while left > 0.0 && (down.0 > range.0 || up.0 < range.1) {
            if up.0 < range.1 {
                up = (up.0 + 1, up.1 * step(up.0));
                left -= up.1;
                if left <= 0.0 {
                    return up.0;
                }
            }
            if down.0 > range.0 {
                down = (down.0 - 1, down.1 / step(down.0 - 1));
                left -= down.1;
                if left <= 0.0 {
                    return down.0;
                }
            }
        }
        mode.0
    }
}

fn ln_choose(n: u64, k: u64) -> f64 {
    ln_factorial(n) - ln_factorial(k) - ln_factorial(n - k)
}
