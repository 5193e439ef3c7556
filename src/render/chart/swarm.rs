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
