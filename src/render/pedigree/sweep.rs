//! Layers sorted by where their neighbours stand, back and forth, the best order met being kept.

use super::crossings::{Layers, arrivals, cost, places};
use super::grid::Grid;

/// Sweeps without improvement after which it ends.
const PATIENCE: usize = 8;
/// Most sweeps made.
const SWEEPS: usize = 32;

/// The best order found from a start, and what it costs.
pub fn swept(grid: &Grid, start: Layers) -> (usize, Layers) {
    let mut layers = start;
    let mut best = (cost(grid, &layers), layers.clone());
    let mut idle = 0;
    for sweep in 0..SWEEPS {
        if best.0 == 0 || idle == PATIENCE {
            break;
        }
        sort_by_neighbours(grid, &mut layers, sweep);
        let count = cost(grid, &layers);
        idle += 1;
        if count < best.0 {
            best = (count, layers.clone());
            idle = 0;
        }
    }
    best
}

/// One sweep: every layer sorted by the middle place of its neighbours on the side the sweep comes from. Spots without
/// neighbours there keep their slots; ties are turned round in every second pair of sweeps.
fn sort_by_neighbours(grid: &Grid, layers: &mut Layers, sweep: usize) {
    let rightward = sweep.is_multiple_of(2);
    let count = layers.len();
    let mut place = places(grid, layers);
    for step in 1..count {
        let at = if rightward { step } else { count - 1 - step };
        let near = if rightward { &grid.left } else { &grid.right };
        let layer = &mut layers[at];
        let key = |spot: usize| {
            let near: Vec<f64> = match rightward {
                true => near[spot]
                    .iter()
                    .map(|&other| place[other] as f64)
                    .collect(),
                false => arrivals(grid, spot, &place).map(|at| at as f64).collect(),
            };
            match (sweep / 4).is_multiple_of(2) {
                true => mean_place(&near),
                false => median_place(near),
            }
        };
        let slots: Vec<usize> = (0..layer.len())
            .filter(|&at| !near[layer[at]].is_empty())
            .collect();
        let mut sorted: Vec<(f64, usize)> = slots
            .iter()
            .map(|&at| (key(layer[at]), layer[at]))
            .collect();
        if !(sweep / 2).is_multiple_of(2) {
            sorted.reverse();
        }
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
        slots
            .iter()
            .zip(&sorted)
            .for_each(|(&at, &(_, spot))| layer[at] = spot);
        layer
            .iter()
            .enumerate()
            .for_each(|(at, &spot)| place[spot] = at);
    }
}

fn mean_place(near: &[f64]) -> f64 {
    near.iter().sum::<f64>() / near.len().max(1) as f64
}

/// The middle neighbour's place; between two middle ones, nearer to the side on which neighbours stand closer
/// (Gansner et al. 1993).
fn median_place(near: Vec<f64>) -> f64 {
    let mut sorted = near;
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
