//! At which height each spot stands, so that lines run straight, parents flank their cross and siblings stay together.
//!
//! Long lines and only children are joined with their cross into straight blocks. Every block then goes, round by
//! round, to the mean height of what it is joined to; where blocks would overlap, the mean of pushing all of them down
//! and pushing all of them up keeps them apart and in order. At the end lanes are drawn level with the plant they come
//! from where there is room. All steps walk sorted lists, so any number of generations is laid out.

use super::grid::{Grid, Role};
use super::order::{families, places};

/// Rounds in which blocks seek their height.
const ROUNDS: usize = 400;

/// Blocks and what keeps them apart.
struct Stack {
    /// The block of every spot, named by its first spot.
    root: Vec<usize>,
    /// Blocks in an order in which each comes after those above it.
    sorted: Vec<usize>,
    /// For each block, those that stand directly below it somewhere, and how far below at least.
    below: Vec<Vec<(usize, f64)>>,
    /// For each block, the blocks it is joined to.
    joined: Vec<Vec<usize>>,
}

/// The height of every spot, in points; the topmost need not be 0. `air` is left between two plants of one column, and
/// twice as much between families that share no line.
pub fn heights(grid: &Grid, air: f64) -> Vec<f64> {
    let mut height = vec![0.0; grid.spots.len()];
    let mut bottom = vec![f64::NEG_INFINITY; grid.layers.len()];
    for family in families(grid) {
        let stack = Stack::of(grid, &family, air);
        let at = stack.settled(grid);
        let alone = family.iter().map(Vec::len).sum::<usize>() == 1;
        let spots = || {
            family
                .iter()
                .flatten()
                .map(|&spot| (spot, at[stack.root[spot]]))
        };
        let clear = |layer: usize| match alone {
            true => bottom[layer] + air,
            false => bottom.iter().copied().fold(f64::NEG_INFINITY, f64::max) + 2.0 * air,
        };
        let shift = spots()
            .map(|(spot, at)| clear(grid.spots[spot].layer) + grid.spots[spot].up - at)
            .fold(f64::NEG_INFINITY, f64::max);
        let shift = if shift.is_finite() { shift } else { 0.0 };
        for (spot, at) in spots() {
            height[spot] = at + shift;
            let layer = grid.spots[spot].layer;
            bottom[layer] = f64::max(bottom[layer], at + shift + grid.spots[spot].down);
        }
    }
    height
}

/// Room between two spots of one layer, the first above the second.
fn separation(grid: &Grid, upper: usize, lower: usize, air: f64) -> f64 {
    let (above, below) = (&grid.spots[upper], &grid.spots[lower]);
    let lane = above.role == Role::Lane || below.role == Role::Lane;
    above.down + below.up + if lane { air * 0.35 } else { air }
}

/// Whether two joined spots should stand level: inside a long line, or a cross and its only offspring.
fn firm(grid: &Grid, from: usize, to: usize) -> bool {
    match (grid.spots[from].role, grid.spots[to].role) {
        (Role::Lane, Role::Lane) => true,
        (Role::Joint(_), Role::Plant(_) | Role::Lane) => {
            let raised = grid.right[from]
                .iter()
                .filter(|&&next| !matches!(grid.spots[next].role, Role::More(_)));
            raised.count() == 1 && grid.left[to].len() == 1
        }
        _ => false,
    }
}

/// The block of every spot: firm pairs joined, but of two that cross only the upper one.
fn blocks(grid: &Grid, family: &[Vec<usize>]) -> Vec<usize> {
    let place = places(grid);
    let mut root: Vec<usize> = (0..grid.spots.len()).collect();
    for layer in family {
        let mut free = 0;
        for &from in layer {
            let level = grid.right[from].iter().find(|&&to| firm(grid, from, to));
            if let Some(&to) = level.filter(|&&to| place[to] >= free) {
                root[to] = root[from];
                free = place[to] + 1;
            }
        }
    }
    root
}

impl Stack {
    fn of(grid: &Grid, family: &[Vec<usize>], air: f64) -> Stack {
        let root = blocks(grid, family);
        let mut below = vec![Vec::new(); root.len()];
        let mut joined = vec![Vec::new(); root.len()];
        let mut waiting = vec![0usize; root.len()];
        for pair in family.iter().flat_map(|layer| layer.windows(2)) {
            below[root[pair[0]]].push((root[pair[1]], separation(grid, pair[0], pair[1], air)));
            waiting[root[pair[1]]] += 1;
        }
        for &from in family.iter().flatten() {
            for &to in grid.right[from]
                .iter()
                .filter(|&&to| root[to] != root[from])
            {
                joined[root[from]].push(root[to]);
                joined[root[to]].push(root[from]);
            }
        }
        let first = family
            .iter()
            .flatten()
            .copied()
            .filter(|&spot| root[spot] == spot && waiting[spot] == 0)
            .collect();
        let sorted = sorted(first, &below, waiting);
        Stack {
            root,
            sorted,
            below,
            joined,
        }
    }

    /// The height of every block once the rounds are over.
    fn settled(&self, grid: &Grid) -> Vec<f64> {
        let mut at = self.pushed_down(&vec![0.0; self.root.len()]);
        for _ in 0..ROUNDS {
            let wish = self.wishes(&at);
            let (down, up) = (self.pushed_down(&wish), self.pushed_up(&wish));
            let mut moved: f64 = 0.0;
            for &block in &self.sorted {
                let height = (down[block] + up[block]) / 2.0;
                moved = moved.max((height - at[block]).abs());
                at[block] = height;
            }
            if moved < 0.01 {
                break;
            }
        }
        self.level(grid, &mut at);
        at
    }

    /// Where each block would stand if it were alone: at the mean height of what it is joined to.
    fn wishes(&self, at: &[f64]) -> Vec<f64> {
        let mean = |block: usize| match self.joined[block].len() {
            0 => at[block],
            count => {
                self.joined[block]
                    .iter()
                    .map(|&other| at[other])
                    .sum::<f64>()
                    / count as f64
            }
        };
        let mut wish = at.to_vec();
        for &block in &self.sorted {
            wish[block] = 0.25 * at[block] + 0.75 * mean(block);
        }
        wish
    }

    /// The wishes with every block pushed down below those above it.
    fn pushed_down(&self, wish: &[f64]) -> Vec<f64> {
        let mut at = wish.to_vec();
        for &block in &self.sorted {
            for &(lower, room) in &self.below[block] {
                at[lower] = f64::max(at[lower], at[block] + room);
            }
        }
        at
    }

    /// The wishes with every block pushed up above those below it.
    fn pushed_up(&self, wish: &[f64]) -> Vec<f64> {
        let mut at = wish.to_vec();
        for &block in self.sorted.iter().rev() {
            for &(lower, room) in &self.below[block] {
                at[block] = f64::min(at[block], at[lower] - room);
            }
        }
        at
    }

    /// Moves lanes, and plants after them, level with the one thing they come from or lead to, where there is room.
    fn level(&self, grid: &Grid, at: &mut [f64]) {
        let mut above = vec![Vec::new(); at.len()];
        for &block in &self.sorted {
            self.below[block]
                .iter()
                .for_each(|&(lower, room)| above[lower].push((block, room)));
        }
        for &block in &self.sorted {
            if grid.spots[block].role != Role::Lane {
                continue;
            }
            let top = above[block]
                .iter()
                .map(|&(upper, room)| at[upper] + room)
                .fold(f64::NEG_INFINITY, f64::max);
            let bottom = self.below[block]
                .iter()
                .map(|&(lower, room)| at[lower] - room)
                .fold(f64::INFINITY, f64::min);
            let level = self.joined[block]
                .iter()
                .map(|&other| at[other])
                .find(|height| (top..=bottom).contains(height));
            if let Some(height) = level {
                at[block] = height;
            }
        }
    }
}

/// Blocks sorted so that each comes after those above it, beginning with those that have none.
fn sorted(first: Vec<usize>, below: &[Vec<(usize, f64)>], mut waiting: Vec<usize>) -> Vec<usize> {
    let mut sorted = first;
    let mut next = 0;
    while next < sorted.len() {
        for &(lower, _) in &below[sorted[next]] {
            waiting[lower] -= 1;
            if waiting[lower] == 0 {
                sorted.push(lower);
            }
        }
        next += 1;
    }
    sorted
}
