//! Dots that do not hide each other, and bars where there are too many for dots.

/// How far each dot stands from the middle line so that none overlap: nearest free place first, above and below in turn.
/// `places` are along the line and `wide` is a dot's width, in points; the answer is in points, upward positive.
pub fn swarm(places: &[f64], wide: f64) -> Vec<f64> {
    let mut sorted: Vec<usize> = (0..places.len()).collect();
    sorted.sort_by(|&a, &b| places[a].total_cmp(&places[b]).then(a.cmp(&b)));
    let mut offset = vec![0.0; places.len()];
    for (rank, &dot) in sorted.iter().enumerate() {
        let near: Vec<(f64, f64)> = sorted[..rank]
            .iter()
            .rev()
            .take_while(|&&other| places[dot] - places[other] < wide)
            .map(|&other| (places[dot] - places[other], offset[other]))
            .collect();
        offset[dot] = free(&near, wide);
    }
    offset
}

/// The offset nearest to 0 at which a dot touches none of those near: each forbids an open stretch around itself.
fn free(near: &[(f64, f64)], wide: f64) -> f64 {
    let mut tries = vec![0.0];
    for &(along, offset) in near {
        let clear = libm::sqrt(f64::max(wide * wide - along * along, 0.0));
        tries.extend([offset + clear, offset - clear]);
    }
    tries.sort_by(|a, b| a.abs().total_cmp(&b.abs()).then(b.total_cmp(a)));
    let touches = |at: f64| {
        near.iter().any(|&(along, offset)| {
            let across = at - offset;
            along * along + across * across < wide * wide - 1e-6
        })
    };
    tries.into_iter().find(|&at| !touches(at)).unwrap_or(0.0)
}

/// Counts of values in `count` equal bins from `low` to `high`; the last bin holds its upper end.
pub fn bins(values: &[f64], low: f64, high: f64, count: usize) -> Vec<usize> {
    let mut bins = vec![0; count.max(1)];
    let wide = (high - low) / bins.len() as f64;
    for &value in values.iter().filter(|value| (low..=high).contains(*value)) {
        let bin = if wide > 0.0 {
            libm::floor((value - low) / wide) as usize
        } else {
            0
        };
        let last = bins.len() - 1;
        bins[bin.min(last)] += 1;
    }
    bins
}

/// Bars of equal width side by side, each over the same number of values that can be read.
pub struct Bars {
    /// The value in the middle of the first bar.
    pub first: f64,
    /// From the middle of a bar to that of the next.
    pub apart: f64,
    /// How many values each holds.
    pub counts: Vec<usize>,
}

/// Bars of values read in steps of `step`, each over as few steps as make it at least `least` wide.
pub fn bars(values: &[f64], step: f64, least: f64) -> Bars {
    let low = values.iter().copied().fold(f64::INFINITY, f64::min);
    let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let apart = step * libm::ceil(least / step - 1e-9).max(1.0);
    // Borders stand between two values that can be read, so that no rounding decides.
    let border = low - step / 2.0;
    let count = libm::floor((high - border) / apart) as usize + 1;
    Bars {
        first: border + apart / 2.0,
        apart,
        counts: bins(values, border, border + count as f64 * apart, count),
    }
}

/// The step in which values were read, to a thousandth: the largest of which all their differences are multiples; `None`
/// where all are equal.
pub fn step_of(values: &[f64]) -> Option<f64> {
    let thousandths = |value: f64| libm::round(value * 1000.0) as i64;
    let first = thousandths(*values.first()?);
    let apart = values
        .iter()
        .map(|value| thousandths(*value).abs_diff(first));
    let step = apart.fold(0, gcd);
    (step > 0).then_some(step as f64 / 1000.0)
}

fn gcd(mut a: u64, mut b: u64) -> u64 {
    while b > 0 {
        (a, b) = (b, a % b);
    }
    a
}
