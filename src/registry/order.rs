//! Numbering things after all they come from, and finding the loop when that cannot be done.
//!
//! Takes those whose sources are all taken, the smallest first, until none is left; what remains holds a loop. No
//! recursion, so a line of a million generations is as safe as one of three.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// The outcome of [`founders_first`].
#[derive(Debug, PartialEq, Eq)]
pub struct Numbering {
    /// Things in an order in which everything comes after its sources; things on or behind a loop are missing.
    pub order: Vec<u32>,
    /// One loop, each member followed by one of its sources and the last by the first; empty when there is none.
    pub in_loop: Vec<u32>,
}

/// Orders `0..sources.len()` so that each comes after its `sources`; among those ready the smallest number first.
/// Cost: links + things × log(things).
pub fn founders_first(sources: &[Vec<u32>]) -> Numbering {
    let count = sources.len();
    let mut waiting_for = vec![0u32; count];
    let mut first_use = vec![0u32; count + 1];
    for source in sources.iter().flatten() {
        first_use[*source as usize + 1] += 1;
    }
    for at in 0..count {
        first_use[at + 1] += first_use[at];
    }
    let mut used_by = vec![0u32; first_use[count] as usize];
    let mut next_free = first_use.clone();
    for (thing, from) in sources.iter().enumerate() {
        waiting_for[thing] = from.len() as u32;
        for source in from {
            let slot = &mut next_free[*source as usize];
            used_by[*slot as usize] = thing as u32;
            *slot += 1;
        }
    }
    let mut ready: BinaryHeap<Reverse<u32>> = (0..count as u32)
        .filter(|&thing| waiting_for[thing as usize] == 0)
        .map(Reverse)
        .collect();
    let mut order = Vec::with_capacity(count);
    while let Some(Reverse(thing)) = ready.pop() {
        order.push(thing);
        let uses = first_use[thing as usize] as usize..first_use[thing as usize + 1] as usize;
        for &user in &used_by[uses] {
            waiting_for[user as usize] -= 1;
            if waiting_for[user as usize] == 0 {
                ready.push(Reverse(user));
            }
        }
    }
    let in_loop = if order.len() == count {
        Vec::new()
    } else {
        one_loop(sources, &waiting_for)
    };
    Numbering { order, in_loop }
}

/// Walks from the smallest thing left over to a source left over, until a thing comes round again.
fn one_loop(sources: &[Vec<u32>], waiting_for: &[u32]) -> Vec<u32> {
    let left_over = |thing: u32| waiting_for[thing as usize] > 0;
    let Some(start) = (0..sources.len() as u32).find(|&thing| left_over(thing)) else {
        return Vec::new();
    };
    let mut seen_at = vec![u32::MAX; sources.len()];
    let mut walk = vec![];
    let mut here = start;
    while seen_at[here as usize] == u32::MAX {
        seen_at[here as usize] = walk.len() as u32;
        walk.push(here);
        match sources[here as usize]
            .iter()
            .copied()
            .filter(|&source| left_over(source))
            .min()
        {
            Some(source) => here = source,
            None => return Vec::new(),
        }
    }
    walk.split_off(seen_at[here as usize] as usize)
}
