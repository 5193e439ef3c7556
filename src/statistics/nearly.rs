//! When is one number of plants as good as the largest that can be had?
//!
//! Nine tenths of it, or of five or more one fewer, count as equal: one death should not drive a comparison back to the
//! first sitting. A rule of this program, written out in `docs/numbers.md`.

/// Part of the largest number that counts as equal to it.
const NEARLY_ALL: f64 = 0.9;

/// Number from which on one fewer counts as equal too: nine tenths of fewer than ten would be all of them.
const ONE_FEWER_FROM: usize = 5;

/// Whether a number counts as equal to the largest.
pub fn nearly_all(n: usize, of: usize) -> bool {
    n as f64 >= NEARLY_ALL * of as f64 || (of >= ONE_FEWER_FROM && n + 1 >= of)
}
