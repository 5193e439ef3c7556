//! At which height each spot stands, so that lines run straight, parents flank their cross and siblings stay together.
//!
//! Long lines and only children are joined with their cross into straight blocks. Every block then goes, round by
//! round, to the mean height of what it is joined to; where blocks would overlap, the mean of pushing all of them down
//! and pushing all of them up keeps them apart and in order. At last, from left to right and where there is room, each
//! is centred on its parents, and a cross with several offspring between parents and offspring. All steps walk sorted lists, so any number of generations is laid out.

use super::crossings::{Layers, places};
use super::grid::{Grid, Role};
use super::order::families;

/// Rounds in which blocks seek their height.
const ROUNDS: usize = 200;

/// Sweeps in which blocks are then centred where there is room.
const CENTRINGS: usize = 3;

/// Blocks and what keeps them apart.
struct Stack {
    /// All its spots.
    spots: Vec<usize>,
    /// The block of every spot, named by its first spot.
    root: Vec<usize>,
    /// Blocks in an order in which each comes after those above it.
    sorted: Vec<usize>,
    /// For each block, those that stand directly below it somewhere, and how far below at least.
    below: Vec<Vec<(usize, f64)>>,
    /// For each block, the blocks it is joined to, and whether those are its parents.
    joined: Vec<Vec<(usize, bool)>>,
}

/// The height of every spot, in points; the topmost need not be 0. `air` is left between two plants of one column, and
/// twice as much between families that share no line.
pub fn heights(grid: &Grid, air: f64) -> Vec<f64> {
    let mut height = vec![0.0; grid.spots.len()];
    let mut bottom = vec![0.0; grid.layers.len()];
    let mut last_alone = false;
    for family in families(grid) {
        let alone = family.iter().map(Vec::len).sum::<usize>() == 1;
        if !(alone && last_alone) {
            let lowest = bottom.iter().copied().fold(0.0, f64::max) + air;
            bottom.fill(lowest);
        }
        last_alone = alone;
        place_family(
            grid,
            &Stack::of(grid, &family, air),
            (&mut height, &mut bottom),
            air,
        );
    }
    height
}

/// Places a family below what is there, and lowers the bottoms of its layers.
fn place_family(grid: &Grid, stack: &Stack, so_far: (&mut [f64], &mut [f64]), air: f64) {
    let (height, bottom) = so_far;
    let at = stack.settled(grid);
    let room = |&spot: &usize| {
        let found = &grid.spots[spot];
        bottom[found.layer] + air + found.up - at[stack.root[spot]]
    };
    let shift = stack
        .spots
        .iter()
        .map(room)
        .fold(f64::NEG_INFINITY, f64::max);
    for &spot in &stack.spots {
        let found = &grid.spots[spot];
        height[spot] = at[stack.root[spot]] + shift;
        bottom[found.layer] = f64::max(bottom[found.layer], height[spot] + found.down);
    }
}

/// Room between two spots of one layer, the first above the second: little beside a lane, less between siblings than
/// between strangers.
fn separation(grid: &Grid, upper: usize, lower: usize, air: f64) -> f64 {
    let (above, below) = (&grid.spots[upper], &grid.spots[lower]);
    let lane = above.role == Role::Lane || below.role == Role::Lane;
    let siblings = !grid.left[upper].is_empty() && grid.left[upper] == grid.left[lower];
    let part = match (lane, siblings) {
        (true, _) => 0.35,
        (_, true) => 0.75,
        (_, false) => 1.15,
    };
    above.down + below.up + part * air
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
fn blocks(grid: &Grid, family: &Layers) -> Vec<usize> {
    let place = places(grid, family);
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
    fn of(grid: &Grid, family: &Layers, air: f64) -> Stack {
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
                joined[root[from]].push((root[to], false));
                joined[root[to]].push((root[from], true));
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
            spots: family.iter().flatten().copied().collect(),
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
            if self.step(&mut at) < 0.01 {
                break;
            }
        }
        self.centre(grid, &mut at);
        at
    }

    /// One round; returns how far the block that moved most has moved.
    fn step(&self, at: &mut [f64]) -> f64 {
        let wish = self.wishes(at);
        let (down, up) = (self.pushed_down(&wish), self.pushed_up(&wish));
        let mut moved: f64 = 0.0;
        for &block in &self.sorted {
            let height = (down[block] + up[block]) / 2.0;
            moved = moved.max((height - at[block]).abs());
            at[block] = height;
        }
        moved
    }

    /// Where each block would stand if it were alone: at the mean height of what it is joined to.
    fn wishes(&self, at: &[f64]) -> Vec<f64> {
        let mut wish = at.to_vec();
        for &block in &self.sorted {
            if let Some(mean) = mean(at, &self.joined[block], |_| true) {
                wish[block] = 0.25 * at[block] + 0.75 * mean;
            }
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

    /// From left to right and as far as there is room: each block between its parents, founders before their crosses,
    /// and lanes level with the plant they come from.
    fn centre(&self, grid: &Grid, at: &mut [f64]) {
        let mut above = vec![Vec::new(); at.len()];
        for &block in &self.sorted {
            self.below[block]
                .iter()
                .for_each(|&(lower, room)| above[lower].push((block, room)));
        }
        let mut walk = self.sorted.clone();
        walk.sort_by_key(|&block| grid.spots[block].layer);
        for _ in 0..CENTRINGS {
            for &block in &walk {
                let parents = mean(at, &self.joined[block], |parent| parent);
                let offspring = mean(at, &self.joined[block], |parent| !parent);
                let wish = match (parents, offspring) {
                    (Some(parents), Some(offspring)) if grid.has_siblings(block) => {
                        Some((parents + offspring) / 2.0)
                    }
                    (parents, offspring) => parents.or(offspring),
                };
                let top = above[block]
                    .iter()
                    .map(|&(upper, room)| at[upper] + room)
                    .fold(f64::NEG_INFINITY, f64::max);
                let bottom = self.below[block]
                    .iter()
                    .map(|&(lower, room)| at[lower] - room)
                    .fold(f64::INFINITY, f64::min);
                if let Some(wish) = wish.filter(|_| top <= bottom) {
                    at[block] = wish.clamp(top, bottom);
                }
            }
        }
    }
}

/// The mean height of those joined, where the flag of the joint is wanted.
fn mean(at: &[f64], joined: &[(usize, bool)], wanted: impl Fn(bool) -> bool) -> Option<f64> {
    let heights = joined
        .iter()
        .filter(|(_, parent)| wanted(*parent))
        .map(|&(other, _)| at[other]);
    let (sum, count) = heights.fold((0.0, 0usize), |(sum, count), height| {
        (sum + height, count + 1)
    });
    (count > 0).then(|| sum / count as f64)
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
