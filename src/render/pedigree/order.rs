//! In which order spots stand within their layers, so that few lines cross.
//!
//! Layered drawing after Sugiyama, Tagawa & Toda (1981): layers are sorted by the mean place of their neighbours, sweep
//! by sweep in both directions, then neighbours are swapped wherever that saves a crossing (Gansner et al. 1993). The
//! best order met is kept. Crossings are counted in O(n log n) after Barth, Jünger & Mutzel (2002).

use super::grid::Grid;

/// Sweeps without improvement after which the search ends.
const PATIENCE: usize = 6;
/// Most sweeps made.
const SWEEPS: usize = 40;

/// Orders all layers.
pub fn arrange(grid: &mut Grid) {
    let mut best: Option<(usize, Vec<Vec<usize>>)> = None;
    for start in [from_the_right(grid), from_the_left(grid)] {
        grid.layers = start;
        let found = improve(grid);
        if best.as_ref().is_none_or(|(least, _)| found.0 < *least) {
            best = Some(found);
        }
    }
    if let Some((_, layers)) = best {
        grid.layers = layers;
    }
}

/// How many pairs of lines cross.
pub fn crossings(grid: &Grid) -> usize {
    let place = places(grid);
    (1..grid.layers.len())
        .map(|layer| crossings_before(grid, layer, &place))
        .sum()
}

fn improve(grid: &mut Grid) -> (usize, Vec<Vec<usize>>) {
    swap_neighbours(grid);
    let mut best = (crossings(grid), grid.layers.clone());
    let mut idle = 0;
    for sweep in 0..SWEEPS {
        if best.0 == 0 || idle == PATIENCE {
            break;
        }
        sort_by_neighbours(grid, sweep);
        swap_neighbours(grid);
        let count = crossings(grid);
        idle += 1;
        if count < best.0 {
            best = (count, grid.layers.clone());
            idle = 0;
        }
    }
    best
}

/// The place of every spot within its layer.
pub fn places(grid: &Grid) -> Vec<usize> {
    let mut place = vec![0; grid.spots.len()];
    for layer in &grid.layers {
        layer
            .iter()
            .enumerate()
            .for_each(|(at, &spot)| place[spot] = at);
    }
    place
}

/// Lines that cross between a layer and the one before it: inversions, counted in a tree of sums.
fn crossings_before(grid: &Grid, layer: usize, place: &[usize]) -> usize {
    let mut ends = Vec::new();
    for &spot in &grid.layers[layer - 1] {
        let mut row: Vec<usize> = grid.right[spot].iter().map(|&next| place[next]).collect();
        row.sort_unstable();
        ends.extend(row);
    }
    let mut tree = vec![0usize; grid.layers[layer].len() + 1];
    let mut count = 0;
    for (before, &end) in ends.iter().enumerate() {
        count += before - sum_up_to(&tree, end + 1);
        let mut at = end + 1;
        while at < tree.len() {
            tree[at] += 1;
            at += at & at.wrapping_neg();
        }
    }
    count
}

fn sum_up_to(tree: &[usize], mut at: usize) -> usize {
    let mut sum = 0;
    while at > 0 {
        sum += tree[at];
        at -= at & at.wrapping_neg();
    }
    sum
}

/// One sweep: every layer sorted by the mean place of its neighbours on the side the sweep comes from.
fn sort_by_neighbours(grid: &mut Grid, sweep: usize) {
    let rightward = sweep.is_multiple_of(2);
    let count = grid.layers.len();
    let mut place = places(grid);
    for step in 1..count {
        let layer = if rightward { step } else { count - 1 - step };
        let near = if rightward { &grid.left } else { &grid.right };
        let keys: Vec<f64> = grid.layers[layer]
            .iter()
            .map(|&spot| mean_place(&near[spot], &place, spot))
            .collect();
        let mut rows: Vec<usize> = (0..keys.len()).collect();
        if (sweep / 2).is_multiple_of(2) {
            rows.sort_by(|&a, &b| keys[a].total_cmp(&keys[b]));
        } else {
            rows.sort_by(|&a, &b| keys[a].total_cmp(&keys[b]).then(b.cmp(&a)));
        }
        grid.layers[layer] = rows.iter().map(|&row| grid.layers[layer][row]).collect();
        grid.layers[layer]
            .iter()
            .enumerate()
            .for_each(|(at, &spot)| place[spot] = at);
    }
}

fn mean_place(near: &[usize], place: &[usize], spot: usize) -> f64 {
    match near.len() {
        0 => place[spot] as f64,
        count => near.iter().map(|&other| place[other]).sum::<usize>() as f64 / count as f64,
    }
}

/// Swaps adjacent spots as long as that saves crossings.
fn swap_neighbours(grid: &mut Grid) {
    let mut place = places(grid);
    for _ in 0..20 {
        let mut saved = false;
        for layer in 0..grid.layers.len() {
            for at in 1..grid.layers[layer].len() {
                let (upper, lower) = (grid.layers[layer][at - 1], grid.layers[layer][at]);
                if crossed(grid, &place, upper, lower) > crossed(grid, &place, lower, upper) {
                    grid.layers[layer].swap(at - 1, at);
                    place.swap(upper, lower);
                    saved = true;
                }
            }
        }
        if !saved {
            return;
        }
    }
}

/// Crossings among the lines of two spots when `upper` stands above `lower`.
fn crossed(grid: &Grid, place: &[usize], upper: usize, lower: usize) -> usize {
    let among = |near: &[Vec<usize>]| -> usize {
        let below = |a: usize| near[lower].iter().filter(|&&b| place[b] < place[a]).count();
        near[upper].iter().map(|&a| below(a)).sum()
    };
    among(&grid.left) + among(&grid.right)
}

/// Order in which a walk from the last generation back to the founders meets the spots; no crossings in a plain tree.
fn from_the_right(grid: &Grid) -> Vec<Vec<usize>> {
    walk(grid, &grid.left, &grid.right)
}

fn from_the_left(grid: &Grid) -> Vec<Vec<usize>> {
    walk(grid, &grid.right, &grid.left)
}

fn walk(grid: &Grid, onward: &[Vec<usize>], back: &[Vec<usize>]) -> Vec<Vec<usize>> {
    let mut met = vec![false; grid.spots.len()];
    let mut layers = vec![Vec::new(); grid.layers.len()];
    for start in (0..met.len()).filter(|&spot| back[spot].is_empty()) {
        let mut stack = vec![start];
        while let Some(spot) = stack.pop() {
            if std::mem::replace(&mut met[spot], true) {
                continue;
            }
            layers[grid.spots[spot].layer].push(spot);
            stack.extend(onward[spot].iter().rev());
        }
    }
    layers
}
