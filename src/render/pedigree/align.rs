//! At which height each spot stands, so that lines run straight and parents flank their cross.
//!
//! After Brandes & Köpf (2002): four extreme alignments, each joining spots to a middle neighbour into straight blocks
//! and packing the blocks, are averaged by their two middle values. Long lines are kept straight first. Packing walks a
//! sorted graph of blocks instead of calling itself, so any number of generations is laid out.

use super::grid::{Grid, Role};
use super::order::places;

/// The height of every spot, in points; the topmost need not be 0. `air` is left between two plants of one column.
pub fn heights(grid: &Grid, air: f64) -> Vec<f64> {
    let taken = conflicts(grid);
    let mut four = Vec::new();
    for from_right in [false, true] {
        for from_below in [false, true] {
            four.push(packed(grid, &taken, air, (from_right, from_below)));
        }
    }
    middle(four)
}

/// Room between two spots of one layer, the first above the second.
pub fn separation(grid: &Grid, upper: usize, lower: usize, air: f64) -> f64 {
    let (above, below) = (&grid.spots[upper], &grid.spots[lower]);
    let lanes = above.role == Role::Lane && below.role == Role::Lane;
    above.down + below.up + if lanes { 0.0 } else { air }
}

/// Whether a joint should stay straight: inside a long line, or from a cross to its only offspring.
fn firm(grid: &Grid, from: usize, to: usize) -> bool {
    let roles = (grid.spots[from].role, grid.spots[to].role);
    match roles {
        (Role::Lane, Role::Lane) => true,
        (Role::Joint(_), _) => grid.right[from].len() == 1,
        _ => false,
    }
}

/// Pairs of joined spots whose line crosses a firm one and must not be made straight, sorted.
fn conflicts(grid: &Grid) -> Vec<(usize, usize)> {
    let place = places(grid);
    let mut taken = Vec::new();
    for layer in &grid.layers {
        let pairs = || {
            layer
                .iter()
                .flat_map(|&from| grid.right[from].iter().map(move |&to| (from, to)))
        };
        let straight: Vec<(usize, usize)> =
            pairs().filter(|&(from, to)| firm(grid, from, to)).collect();
        for (from, to) in pairs().filter(|&(from, to)| !firm(grid, from, to)) {
            let cut = |&(a, b): &(usize, usize)| {
                (place[a] < place[from]) != (place[b] < place[to]) && a != from && b != to
            };
            if straight.iter().any(cut) {
                taken.push((from, to));
            }
        }
    }
    taken.sort_unstable();
    taken
}

/// One of the four alignments, as heights.
fn packed(grid: &Grid, taken: &[(usize, usize)], air: f64, side: (bool, bool)) -> Vec<f64> {
    let layers = mirrored(&grid.layers, side.1);
    let root = blocks(grid, &layers, taken, side);
    let gap = |upper: usize, lower: usize| match side.1 {
        false => separation(grid, upper, lower, air),
        true => separation(grid, lower, upper, air),
    };
    let at = pack(&layers, &root, gap);
    let sign = if side.1 { -1.0 } else { 1.0 };
    (0..root.len()).map(|spot| sign * at[root[spot]]).collect()
}

fn mirrored(layers: &[Vec<usize>], upside_down: bool) -> Vec<Vec<usize>> {
    let mut layers = layers.to_vec();
    if upside_down {
        layers.iter_mut().for_each(|layer| layer.reverse());
    }
    layers
}

/// Joins every spot to a middle neighbour of the layer before it where no line stands between; returns each spot's root.
fn blocks(
    grid: &Grid,
    layers: &[Vec<usize>],
    taken: &[(usize, usize)],
    side: (bool, bool),
) -> Vec<usize> {
    let mut place = vec![0; grid.spots.len()];
    for layer in layers {
        layer
            .iter()
            .enumerate()
            .for_each(|(at, &spot)| place[spot] = at);
    }
    let near = if side.0 { &grid.right } else { &grid.left };
    let mut root: Vec<usize> = (0..grid.spots.len()).collect();
    let mut held = vec![false; grid.spots.len()];
    let forward: Vec<usize> = (0..layers.len()).collect();
    let walk: Vec<usize> = if side.0 {
        forward.into_iter().rev().collect()
    } else {
        forward
    };
    for layer in walk {
        let mut free = 0;
        for &spot in &layers[layer] {
            for other in middles(&near[spot], &place) {
                let pair = if side.0 { (spot, other) } else { (other, spot) };
                if place[other] >= free && !held[other] && taken.binary_search(&pair).is_err() {
                    root[spot] = root[other];
                    held[other] = true;
                    free = place[other] + 1;
                    break;
                }
            }
        }
    }
    root
}

/// The one or two middle neighbours, upper first.
fn middles(near: &[usize], place: &[usize]) -> Vec<usize> {
    let mut sorted = near.to_vec();
    sorted.sort_unstable_by_key(|&spot| place[spot]);
    match sorted.len() {
        0 => sorted,
        count => sorted[(count - 1) / 2..=count / 2].to_vec(),
    }
}

/// Packs blocks upward as far as they go, then lets each hang as low as the blocks below it allow.
fn pack(layers: &[Vec<usize>], root: &[usize], gap: impl Fn(usize, usize) -> f64) -> Vec<f64> {
    let mut below: Vec<Vec<(usize, f64)>> = vec![Vec::new(); root.len()];
    let mut waiting = vec![0usize; root.len()];
    for pair in layers.iter().flat_map(|layer| layer.windows(2)) {
        below[root[pair[0]]].push((root[pair[1]], gap(pair[0], pair[1])));
        waiting[root[pair[1]]] += 1;
    }
    let mut sorted: Vec<usize> = (0..root.len())
        .filter(|&spot| root[spot] == spot && waiting[spot] == 0)
        .collect();
    let mut at = vec![0.0f64; root.len()];
    let mut next = 0;
    while next < sorted.len() {
        let block = sorted[next];
        next += 1;
        for &(lower, room) in &below[block] {
            at[lower] = at[lower].max(at[block] + room);
            waiting[lower] -= 1;
            if waiting[lower] == 0 {
                sorted.push(lower);
            }
        }
    }
    for &block in sorted.iter().rev() {
        let lowest = below[block]
            .iter()
            .map(|&(lower, room)| at[lower] - room)
            .fold(f64::INFINITY, f64::min);
        if lowest.is_finite() {
            at[block] = at[block].max(lowest);
        }
    }
    at
}

/// Shifts the four onto the narrowest of them and takes, for each spot, the mean of the two middle heights.
fn middle(mut four: Vec<Vec<f64>>) -> Vec<f64> {
    let ends = |heights: &[f64]| {
        let top = heights.iter().copied().fold(f64::INFINITY, f64::min);
        let bottom = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        (top, bottom)
    };
    let spans: Vec<(f64, f64)> = four.iter().map(|heights| ends(heights)).collect();
    let narrow = (0..4)
        .min_by(|&a, &b| (spans[a].1 - spans[a].0).total_cmp(&(spans[b].1 - spans[b].0)))
        .unwrap_or(0);
    for (rank, heights) in four.iter_mut().enumerate() {
        // The second and fourth were packed from below: they share the bottom line, the others the top.
        let shift = match rank % 2 {
            0 => spans[narrow].0 - spans[rank].0,
            _ => spans[narrow].1 - spans[rank].1,
        };
        heights.iter_mut().for_each(|height| *height += shift);
    }
    let spots = four[0].len();
    (0..spots)
        .map(|spot| {
            let mut values: Vec<f64> = four.iter().map(|heights| heights[spot]).collect();
            values.sort_by(f64::total_cmp);
            (values[1] + values[2]) / 2.0
        })
        .collect()
}
