//! How many lines cross between layers, counted in O(n log n) after Barth, Jünger & Mutzel (2002).

use super::grid::Grid;

/// The spots of each layer, top to bottom.
pub type Layers = Vec<Vec<usize>>;

/// How many pairs of lines cross.
pub fn crossings(grid: &Grid, layers: &Layers) -> usize {
    let place = places(grid, layers);
    (1..layers.len())
        .map(|layer| crossings_before(grid, layers, layer, &place))
        .sum()
}

/// What an order costs: its crossings, those of the two parents of one cross twice, since a seed parent should stand
/// above.
pub fn cost(grid: &Grid, layers: &Layers) -> usize {
    crossings(grid, layers) + turned(grid, layers)
}

/// How many of the crossings are of the seed parent and the pollen parent of one cross, just before it.
pub fn turned(grid: &Grid, layers: &Layers) -> usize {
    let mut above = vec![0usize; grid.spots.len()];
    let mut turned = 0;
    for &spot in layers.iter().flatten() {
        for (&next, &port) in grid.right[spot].iter().zip(&grid.port[spot]) {
            match port {
                0 => turned += above[next],
                _ => above[next] += 1,
            }
        }
    }
    turned
}

/// Where the lines of a spot arrive in the layer to the right: twice the place of what they arrive at, and the port.
pub fn arrivals<'g>(
    grid: &'g Grid,
    spot: usize,
    place: &'g [usize],
) -> impl Iterator<Item = usize> + 'g {
    let ends = grid.right[spot].iter().zip(&grid.port[spot]);
    ends.map(|(&next, &port)| 2 * place[next] + port)
}

/// The place of every spot within its layer.
pub fn places(grid: &Grid, layers: &Layers) -> Vec<usize> {
    let mut place = vec![0; grid.spots.len()];
    for layer in layers {
        layer
            .iter()
            .enumerate()
            .for_each(|(at, &spot)| place[spot] = at);
    }
    place
}

/// Lines that cross between a layer and the one before it: inversions, counted in a tree of sums.
fn crossings_before(grid: &Grid, layers: &Layers, layer: usize, place: &[usize]) -> usize {
    let mut ends = Vec::new();
    for &spot in &layers[layer - 1] {
        let first = ends.len();
        ends.extend(arrivals(grid, spot, place));
        ends[first..].sort_unstable();
    }
    let mut tree = vec![0usize; 2 * layers[layer].len() + 1];
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
