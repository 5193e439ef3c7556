//! Spots moved one by one to where they cross least, and stretches turned round to leave a dead end.
//!
//! Sifting (Matuszewski, Schönfeld & Molitor 1999): a spot is carried through its whole layer while the gain of every
//! step is summed up, and put down at the best place. When nothing is gained any more a stretch of one layer is turned
//! round, its neighbours settle first, and what crosses more than before is taken back. The search is the same every
//! time and stops after a fixed effort.

use std::collections::BTreeSet;

use super::crossings::{Layers, arrivals, cost, places};
use super::grid::Grid;

/// Comparisons of two spots any family may cost, and how many more for each of its spots.
const EFFORT: (usize, usize) = (4_000_000, 4_000);
/// Above this many spots a layer is left as the sweeps ordered it.
const WIDEST: usize = 3000;

/// A better order found from `layers`, which costs `count`.
pub fn search(grid: &Grid, layers: Layers, count: usize) -> Layers {
    let place = places(grid, &layers);
    let mut search = Search {
        grid,
        layers,
        place,
        spent: 0,
        state: 1,
    };
    let all = (0..search.layers.len()).collect();
    search.settle(all, None);
    let mut best = (cost(grid, &search.layers).min(count), search.layers.clone());
    let spots: usize = search.layers.iter().map(Vec::len).sum();
    let (steps, effort) = (40 * spots, EFFORT.0 + EFFORT.1 * spots);
    for _ in 0..steps {
        if best.0 == 0 || search.spent > effort {
            break;
        }
        let turned = search.turn();
        search.settle([turned.saturating_sub(1), turned + 1].into(), Some(turned));
        let now = cost(grid, &search.layers);
        if now <= best.0 {
            best = (now, search.layers.clone());
        } else {
            search.layers.clone_from(&best.1);
            search.place = places(grid, &search.layers);
        }
    }
    best.1
}

struct Search<'a> {
    grid: &'a Grid,
    layers: Layers,
    place: Vec<usize>,
    spent: usize,
    state: u64,
}

/// Twice the places of the neighbours of every spot of a layer on one side, with their ports, spot by spot, and where each
/// spot's begin.
struct Side {
    begin: Vec<usize>,
    places: Vec<u32>,
}

/// Both sides of a layer.
struct Near([Side; 2]);

impl Search<'_> {
    /// Sifts layers until none changes any more; `last` waits until the others have settled.
    fn settle(&mut self, mut waiting: BTreeSet<usize>, mut last: Option<usize>) {
        let mut rounds = 8 * self.layers.len();
        while let Some(layer) = waiting.pop_first().or_else(|| last.take()) {
            if layer >= self.layers.len() || rounds == 0 {
                continue;
            }
            rounds -= 1;
            if self.sift(layer) {
                waiting.extend([layer.saturating_sub(1), layer + 1]);
            }
        }
    }

    /// Sifts every spot of a layer; whether one moved.
    fn sift(&mut self, layer: usize) -> bool {
        let count = self.layers[layer].len();
        if !(2..=WIDEST).contains(&count) {
            return false;
        }
        let mut order: Vec<usize> = (0..count).collect();
        let near = self.near(layer);
        self.spent += count * count;
        let mut moved = false;
        for row in 0..count {
            let from = order.iter().position(|&other| other == row).unwrap_or(row);
            let to = near.best_place(&order, from);
            if to != from {
                order.remove(from);
                order.insert(to, row);
                moved = true;
            }
        }
        if moved {
            self.layers[layer] = order.iter().map(|&row| self.layers[layer][row]).collect();
            self.layers[layer]
                .iter()
                .enumerate()
                .for_each(|(at, &spot)| self.place[spot] = at);
        }
        moved
    }

    fn near(&self, layer: usize) -> Near {
        let before = |spot: usize| {
            let near = self.grid.left[spot].iter();
            near.map(|&other| 2 * self.place[other]).collect::<Vec<_>>()
        };
        let after = |spot: usize| arrivals(self.grid, spot, &self.place).collect::<Vec<_>>();
        let layer = &self.layers[layer];
        Near([
            Side::of_layer(layer.iter().map(|&spot| before(spot))),
            Side::of_layer(layer.iter().map(|&spot| after(spot))),
        ])
    }

    /// Turns a short stretch of one layer round; returns the layer.
    fn turn(&mut self) -> usize {
        let layer = self.below(self.layers.len());
        let count = self.layers[layer].len();
        if count > 1 {
            let from = self.below(count - 1);
            let to = (from + 2 + self.below(6)).min(count);
            self.layers[layer][from..to].reverse();
            self.layers[layer]
                .iter()
                .enumerate()
                .for_each(|(at, &spot)| self.place[spot] = at);
        }
        layer
    }

    /// A number below `count`, the same sequence every time.
    fn below(&mut self, count: usize) -> usize {
        self.state = self
            .state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.state >> 33) as usize % count.max(1)
    }
}

impl Near {
    /// Where the spot at `from` crosses least; where it is, unless another place is better.
    fn best_place(&self, order: &[usize], from: usize) -> usize {
        let (mut sum, mut best) = (0, (0, from));
        for at in (0..from).rev() {
            sum -= self.gain(order[at], order[from]);
            if sum < best.0 {
                best = (sum, at);
            }
        }
        sum = 0;
        for (at, &other) in order.iter().enumerate().skip(from + 1) {
            sum += self.gain(other, order[from]);
            if sum < best.0 {
                best = (sum, at);
            }
        }
        best.1
    }

    /// Crossings of the lines of two spots with the first above the second, less those with it below.
    fn gain(&self, upper: usize, lower: usize) -> i64 {
        self.0
            .iter()
            .map(|side| excess(side.of(upper), side.of(lower)))
            .sum()
    }
}

impl Side {
    fn of_layer(near: impl Iterator<Item = Vec<usize>>) -> Side {
        let mut side = Side {
            begin: vec![0],
            places: Vec::new(),
        };
        for near in near {
            side.places.extend(near.into_iter().map(|at| at as u32));
            side.begin.push(side.places.len());
        }
        side
    }

    fn of(&self, row: usize) -> &[u32] {
        &self.places[self.begin[row]..self.begin[row + 1]]
    }
}

/// Of all pairs, those in which the lower's neighbour stands above the upper's, less those in which it stands below; the
/// two parents of one cross count twice.
fn excess(upper: &[u32], lower: &[u32]) -> i64 {
    let compare = |a: &u32, b: &u32| {
        let weight = if a / 2 == b / 2 { 2 } else { 1 };
        weight * (i64::from(b < a) - i64::from(b > a))
    };
    upper
        .iter()
        .map(|a| lower.iter().map(|b| compare(a, b)).sum::<i64>())
        .sum()
}
