//! Labels that keep apart: each as near as can be to where it wants to stand.

/// Places along a line, in the order of the wishes, at least `room` apart and as near to the wishes as least squares
/// allows (pool adjacent violators: runs that would overlap share the mean of what they wish for).
pub fn apart(wishes: &[f64], room: f64) -> Vec<f64> {
    let mut sorted: Vec<usize> = (0..wishes.len()).collect();
    sorted.sort_by(|&a, &b| wishes[a].total_cmp(&wishes[b]).then(a.cmp(&b)));
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (rank, &label) in sorted.iter().enumerate() {
        let mut pool = (wishes[label] - rank as f64 * room, 1);
        while let Some(&last) = pools.last() {
            if last.0 / last.1 as f64 <= pool.0 / pool.1 as f64 {
                break;
            }
            pools.pop();
            pool = (pool.0 + last.0, pool.1 + last.1);
        }
        pools.push(pool);
    }
    let (mut places, mut rank) = (vec![0.0; wishes.len()], 0);
    for (sum, count) in pools {
        for _ in 0..count {
            places[sorted[rank]] = sum / count as f64 + rank as f64 * room;
            rank += 1;
        }
    }
    places
}
