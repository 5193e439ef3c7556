//! In which order spots stand within their layers, so that few lines cross.
//!
//! Layered drawing after Sugiyama, Tagawa & Toda (1981): layers are sorted by the mean place of their neighbours, sweep
//! by sweep in both directions, then neighbours are swapped wherever that saves a crossing (Gansner et al. 1993). The
//! best order met is kept. Crossings are counted in O(n log n) after Barth, Jünger & Mutzel (2002).

use std::collections::BTreeMap;

use super::grid::Grid;

/// Sweeps without improvement after which the search ends.
const PATIENCE: usize = 8;
/// Most sweeps made.
const SWEEPS: usize = 40;
/// Comparisons of spots that one picture may cost; larger pictures get fewer fresh starts.
const EFFORT: usize = 40_000_000;

/// Orders all layers; families that share no line are laid one below the other.
pub fn arrange(grid: &mut Grid) {
    let mut ordered = vec![Vec::new(); grid.layers.len()];
    for family in families(grid) {
        grid.layers = family;
        arrange_family(grid);
        sort_childless(grid);
        for (all, layer) in ordered.iter_mut().zip(&grid.layers) {
            all.extend(layer);
        }
    }
    grid.layers = ordered;
}

/// The layers of each family, in the order they have; families with more spots first.
pub fn families(grid: &Grid) -> Vec<Vec<Vec<usize>>> {
    let mut family = vec![usize::MAX; grid.spots.len()];
    let mut sizes = Vec::new();
    for start in 0..family.len() {
        let (mut stack, mut size) = (vec![start], 0);
        while let Some(spot) = stack.pop() {
            if family[spot] == usize::MAX {
                family[spot] = sizes.len();
                size += 1;
                stack.extend(grid.left[spot].iter().chain(&grid.right[spot]));
            }
        }
        if size > 0 {
            sizes.push((std::cmp::Reverse(size), sizes.len()));
        }
    }
    let mut layers = vec![vec![Vec::new(); grid.layers.len()]; sizes.len()];
    for &spot in grid.layers.iter().flatten() {
        layers[family[spot]][grid.spots[spot].layer].push(spot);
    }
    sizes.sort_unstable();
    sizes
        .into_iter()
        .map(|(_, rank)| std::mem::take(&mut layers[rank]))
        .collect()
}

/// Siblings without offspring change slots among themselves until they stand in the order of the report.
fn sort_childless(grid: &mut Grid) {
    for layer in 0..grid.layers.len() {
        let mut slots: BTreeMap<&[usize], Vec<usize>> = BTreeMap::new();
        for (at, &spot) in grid.layers[layer].iter().enumerate() {
            if grid.right[spot].is_empty() && !grid.left[spot].is_empty() {
                slots.entry(&grid.left[spot]).or_default().push(at);
            }
        }
        for slots in slots.into_values() {
            let mut spots: Vec<usize> = slots.iter().map(|&at| grid.layers[layer][at]).collect();
            spots.sort_unstable();
            slots
                .iter()
                .zip(spots)
                .for_each(|(&at, spot)| grid.layers[layer][at] = spot);
        }
    }
}

fn arrange_family(grid: &mut Grid) {
    let mut best = (usize::MAX, grid.layers.clone());
    let mut starts = vec![from_the_right(grid), from_the_left(grid)];
    let mut dice = Dice(1);
    let round: usize = grid
        .layers
        .iter()
        .map(|layer| layer.len() * layer.len())
        .sum::<usize>()
        * 12;
    let fresh = (EFFORT / round.max(1)).min(24);
    while let Some(start) = starts.pop() {
        grid.layers = start;
        let found = improve(grid);
        if found.0 < best.0 {
            best = found;
        }
        if best.0 > 0 && starts.is_empty() && dice.0 <= fresh as u64 {
            starts.push(dice.shaken(&best.1));
        }
    }
    grid.layers = best.1;
}

/// Fresh starts that are the same every time.
struct Dice(u64);

impl Dice {
    /// The layers with stretches of neighbours turned round.
    fn shaken(&mut self, layers: &[Vec<usize>]) -> Vec<Vec<usize>> {
        self.0 += 1;
        let mut state = self.0.wrapping_mul(0x9e37_79b9_7f4a_7c15);
        let mut layers = layers.to_vec();
        for layer in &mut layers {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let count = layer.len();
            let (from, long) = (
                (state >> 33) as usize % count.max(1),
                2 + (state >> 50) as usize % (count / 2 + 1),
            );
            layer[from.min(count)..(from + long).min(count)].reverse();
        }
        layers
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
        sift(grid);
        let count = crossings(grid);
        idle += 1;
        if count < best.0 {
            best = (count, grid.layers.clone());
            idle = 0;
        }
    }
    grid.layers = best.1;
    sift(grid);
    (crossings(grid), grid.layers.clone())
}

/// Takes every spot out of its layer and puts it back where it crosses least, until nothing is gained.
fn sift(grid: &mut Grid) {
    let mut place = places(grid);
    for _ in 0..8 {
        let mut saved = false;
        for layer in 0..grid.layers.len() {
            for spot in grid.layers[layer].clone() {
                saved |= sift_one(grid, &mut place, (layer, spot));
            }
        }
        if !saved {
            return;
        }
    }
}

/// Moves one spot to its best place; whether that saved a crossing.
fn sift_one(grid: &mut Grid, place: &mut [usize], (layer, spot): (usize, usize)) -> bool {
    let from = place[spot];
    let others = grid.layers[layer]
        .iter()
        .copied()
        .filter(|&other| other != spot);
    let change = |other: usize| {
        crossed(grid, place, other, spot) as isize - crossed(grid, place, spot, other) as isize
    };
    let (mut sum, mut best, mut to, mut here) = (0, isize::MAX, from, 0);
    for (at, other) in others.enumerate() {
        if at == from {
            here = sum;
        }
        if sum < best {
            (best, to) = (sum, at);
        }
        sum += change(other);
    }
    if from + 1 == grid.layers[layer].len() {
        here = sum;
    }
    if sum < best {
        (best, to) = (sum, grid.layers[layer].len() - 1);
    }
    if best >= here {
        return false;
    }
    grid.layers[layer].remove(from);
    grid.layers[layer].insert(to, spot);
    grid.layers[layer]
        .iter()
        .enumerate()
        .for_each(|(at, &spot)| place[spot] = at);
    true
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

/// One sweep: every layer sorted by the middle place of its neighbours on the side the sweep comes from. Spots without
/// neighbours there keep their slots.
fn sort_by_neighbours(grid: &mut Grid, sweep: usize) {
    let rightward = sweep.is_multiple_of(2);
    let count = grid.layers.len();
    let mut place = places(grid);
    for step in 1..count {
        let layer = if rightward { step } else { count - 1 - step };
        let near = if rightward { &grid.left } else { &grid.right };
        let slots: Vec<usize> = (0..grid.layers[layer].len())
            .filter(|&at| !near[grid.layers[layer][at]].is_empty())
            .collect();
        let key = |spot: usize| match (sweep / 4).is_multiple_of(2) {
            true => mean_place(&near[spot], &place),
            false => median_place(&near[spot], &place),
        };
        let mut sorted: Vec<(f64, usize)> = slots
            .iter()
            .map(|&at| (key(grid.layers[layer][at]), grid.layers[layer][at]))
            .collect();
        if !(sweep / 2).is_multiple_of(2) {
            sorted.reverse();
        }
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (&at, &(_, spot)) in slots.iter().zip(&sorted) {
            grid.layers[layer][at] = spot;
        }
        grid.layers[layer]
            .iter()
            .enumerate()
            .for_each(|(at, &spot)| place[spot] = at);
    }
}

fn mean_place(near: &[usize], place: &[usize]) -> f64 {
    near.iter().map(|&other| place[other]).sum::<usize>() as f64 / near.len().max(1) as f64
}

/// The middle neighbour's place; between two middle ones, nearer to the side on which neighbours stand closer.
fn median_place(near: &[usize], place: &[usize]) -> f64 {
    let mut sorted: Vec<f64> = near.iter().map(|&other| place[other] as f64).collect();
    sorted.sort_by(f64::total_cmp);
    let (last, middle) = (sorted.len() - 1, sorted.len() / 2);
    if sorted.len() % 2 == 1 || sorted.len() == 2 {
        return (sorted[middle] + sorted[last - middle]) / 2.0;
    }
    let (above, below) = (
        sorted[middle - 1] - sorted[0],
        sorted[last] - sorted[middle],
    );
    match above + below == 0.0 {
        true => sorted[middle],
        false => (sorted[middle - 1] * below + sorted[middle] * above) / (above + below),
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
    let mut starts: Vec<usize> = grid
        .layers
        .iter()
        .flatten()
        .copied()
        .filter(|&spot| back[spot].is_empty())
        .collect();
    starts.sort_unstable();
    for start in starts {
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
