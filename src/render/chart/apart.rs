//! Labels that keep apart, from each other and from lines: each as near as can be to where it wants to stand.

/// Places along a line, in the order of the wishes, each with a room of its own after it and as near to the wishes as
/// least squares allows (pool adjacent violators: runs that would overlap share the mean of what they wish for).
fn side_by_side(wishes: &[f64], rooms: &[f64]) -> Vec<f64> {
    let mut sorted: Vec<usize> = (0..wishes.len()).collect();
    sorted.sort_by(|&a, &b| wishes[a].total_cmp(&wishes[b]).then(a.cmp(&b)));
    let mut pools: Vec<(f64, usize)> = Vec::new();
    let (mut before, mut taken) = (Vec::new(), 0.0);
    for &label in &sorted {
        let mut pool = (wishes[label] - taken, 1);
        before.push(taken);
        taken += rooms[label];
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
            places[sorted[rank]] = sum / count as f64 + before[rank];
            rank += 1;
        }
    }
    places
}

/// Where labels in the order of their wishes begin so that none covers another or leaves the paper from `room.0` to
/// `room.1`; their widths hold the air between them, and together they are no wider than the paper.
pub fn within(wishes: &[f64], wides: &[f64], room: (f64, f64)) -> Vec<f64> {
    let mut places = side_by_side(wishes, wides);
    let mut end = room.1;
    for (place, wide) in places.iter_mut().zip(wides).rev() {
        *place = place.min(end - wide);
        end = *place;
    }
    let mut free = room.0;
    for (place, wide) in places.iter_mut().zip(wides) {
        *place = place.max(free);
        free = *place + wide;
    }
    places
}

/// Air between a text and a line beside it.
const AIR: f64 = 3.0;

/// Where a text so wide may begin between the ends of `room` so that none of the upright `lines` runs through it: the
/// place nearest to `wish`, or `None` where there is none.
pub fn clear(wish: f64, wide: f64, room: (f64, f64), lines: &[f64]) -> Option<f64> {
    let last = room.1 - wide;
    if last < room.0 {
        return None;
    }
    let beside = lines.iter().flat_map(|x| [x + AIR, x - AIR - wide]);
    let free = |left: &f64| {
        let through = |x: &f64| left - AIR + 1e-9 < *x && *x < left + wide + AIR - 1e-9;
        (room.0..=last).contains(left) && !lines.iter().any(through)
    };
    [wish.clamp(room.0, last)]
        .into_iter()
        .chain(beside)
        .filter(free)
        .min_by(|a, b| (a - wish).abs().total_cmp(&(b - wish).abs()))
}
