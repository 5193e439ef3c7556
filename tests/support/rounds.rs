//! What every bench of whole rounds needs: the sizes asked for, the seconds of one round, the middle of several.

// Some benches have sizes of their own.
#![allow(dead_code)]

use std::hint::black_box;
use std::time::Instant;

/// The numbers among the arguments; the usual ones when there are none.
pub fn sizes_asked(usual: &[usize]) -> Vec<usize> {
    let asked = std::env::args().filter_map(|word| word.parse().ok());
    let asked: Vec<usize> = asked.collect();
    match asked.is_empty() {
        true => usual.to_vec(),
        false => asked,
    }
}

/// Seconds that some work takes once.
pub fn seconds<T>(work: impl FnOnce() -> T) -> f64 {
    let start = Instant::now();
    black_box(work());
    start.elapsed().as_secs_f64()
}

/// The middle of several times.
pub fn median(mut times: Vec<f64>) -> f64 {
    times.sort_by(f64::total_cmp);
    times[times.len() / 2]
}
