//! In which order spots stand within their layers, so that few lines cross.
//!
//! Families that share no line are ordered each for itself. Layered drawing after Sugiyama, Tagawa & Toda (1981): layers
//! are sorted sweep by sweep ([`sweep`](super::sweep)), then single spots and stretches are moved as long as that saves
//! crossings ([`sift`](super::sift)). Crossings are counted in [`crossings`](super::crossings).

use std::collections::BTreeMap;

use super::crossings::Layers;
use super::grid::Grid;
use super::sift::search;
use super::sweep::swept;

/// Orders all layers; families are laid one below the other.
pub fn arrange(grid: &mut Grid) {
    let mut ordered = vec![Vec::new(); grid.layers.len()];
    for family in families(grid) {
        let mut family = best_order(grid, family);
        sort_childless(grid, &mut family);
        for (all, layer) in ordered.iter_mut().zip(family) {
            all.extend(layer);
        }
    }
    grid.layers = ordered;
}

/// The layers of each family, in the order they have; families with more spots first.
pub fn families(grid: &Grid) -> Vec<Layers> {
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
    let taken = |(_, rank): (_, usize)| std::mem::take(&mut layers[rank]);
    sizes.into_iter().map(taken).collect()
}

/// The better of two starts, swept, then searched further.
fn best_order(grid: &Grid, family: Layers) -> Layers {
    let starts = [
        walk(grid, &family, &grid.left, &grid.right),
        walk(grid, &family, &grid.right, &grid.left),
    ];
    let swept = starts.map(|start| swept(grid, start));
    let best = swept.into_iter().min_by_key(|(count, _)| *count);
    match best {
        Some((0, layers)) => layers,
        Some((count, layers)) => search(grid, layers, count),
        None => family,
    }
}

/// Order in which a walk along the lines meets the spots; from the last generation back to the founders this gives a
/// plain tree without crossings.
fn walk(grid: &Grid, family: &Layers, onward: &[Vec<usize>], back: &[Vec<usize>]) -> Layers {
    let mut met = vec![false; grid.spots.len()];
    let mut layers = vec![Vec::new(); family.len()];
    let mut starts: Vec<usize> = family
        .iter()
        .flatten()
        .copied()
        .filter(|&spot| back[spot].is_empty())
        .collect();
    starts.sort_unstable();
    for start in starts {
        let mut stack = vec![start];
        while let Some(spot) = stack.pop() {
            if !std::mem::replace(&mut met[spot], true) {
                layers[grid.spots[spot].layer].push(spot);
                stack.extend(onward[spot].iter().rev());
            }
        }
    }
    layers
}

/// Siblings without offspring change slots among themselves until they stand in the order of the report.
fn sort_childless(grid: &Grid, layers: &mut Layers) {
    for layer in layers {
        let mut slots: BTreeMap<&[usize], Vec<usize>> = BTreeMap::new();
        for (at, &spot) in layer.iter().enumerate() {
            if grid.right[spot].is_empty() && !grid.left[spot].is_empty() {
                slots.entry(&grid.left[spot]).or_default().push(at);
            }
        }
        for slots in slots.into_values() {
            let mut spots: Vec<usize> = slots.iter().map(|&at| layer[at]).collect();
            spots.sort_unstable();
            slots
                .iter()
                .zip(spots)
                .for_each(|(&at, spot)| layer[at] = spot);
        }
    }
}
