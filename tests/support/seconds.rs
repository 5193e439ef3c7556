//! How long some work takes: the median of several rounds.

use std::hint::black_box;
use std::time::Instant;

/// Seconds a round takes, the median of `rounds` rounds.
pub fn seconds<T>(rounds: usize, mut work: impl FnMut() -> T) -> f64 {
    let mut times: Vec<f64> = (0..rounds)
        .map(|_| {
            let start = Instant::now();
            black_box(work());
            start.elapsed().as_secs_f64()
        })
        .collect();
    times.sort_by(f64::total_cmp);
    times[rounds / 2]
}
