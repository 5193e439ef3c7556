//! Numbering plants so that parents come before offspring, and finding the loop where that is impossible.
//!
//! Those whose parents are all numbered are taken again and again; what is left over holds every loop. Works on bare
//! indices, so that a registry's records and the rows of a table are numbered alike. No recursion.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Indices each of which names the next as its parent, the last naming the first; it starts with the smallest.
pub type Loop = Vec<usize>;

/// Puts parents before offspring, otherwise in ascending order: what is in order already stays as it is.
///
/// `parents` lists for each index the indices of its parents; repeats are allowed.
///
/// # Errors
/// If some index is its own ancestor: one loop through every part of the pedigree that has one, each index in at most
/// one loop.
///
/// # Panics
/// If a parent's index is out of range.
pub fn parents_first(parents: &[Vec<usize>]) -> Result<Vec<usize>, Vec<Loop>> {
    let mut waiting: Vec<usize> = parents.iter().map(Vec::len).collect();
    let offspring = offspring_of(parents);
    let mut ready: BinaryHeap<Reverse<usize>> = (0..parents.len())
        .filter(|&at| waiting[at] == 0)
        .map(Reverse)
        .collect();
    let mut order = Vec::with_capacity(parents.len());
    while let Some(Reverse(next)) = ready.pop() {
        order.push(next);
        for &child in offspring.of(next) {
            waiting[child] -= 1;
            if waiting[child] == 0 {
                ready.push(Reverse(child));
            }
        }
    }
    if order.len() == parents.len() {
        Ok(order)
    } else {
        Err(loops(parents, &waiting))
    }
}

/// Offspring lists in one block.
struct Offspring {
    ends: Vec<usize>,
    children: Vec<usize>,
}

impl Offspring {
    fn of(&self, parent: usize) -> &[usize] {
        let start = if parent == 0 {
            0
        } else {
            self.ends[parent - 1]
        };
        &self.children[start..self.ends[parent]]
    }
}

fn offspring_of(parents: &[Vec<usize>]) -> Offspring {
    let mut ends = vec![0; parents.len()];
    parents
        .iter()
        .flatten()
        .for_each(|&parent| ends[parent] += 1);
    let mut sum = 0;
    for end in &mut ends {
        (*end, sum) = (sum, sum + *end);
    }
    let mut children = vec![0; sum];
    for (child, named) in parents.iter().enumerate() {
        for &parent in named {
            children[ends[parent]] = child;
            ends[parent] += 1;
        }
    }
    Offspring { ends, children }
}

/// Follows first remaining parents; among what is left everyone has one, so every walk ends in a loop.
fn loops(parents: &[Vec<usize>], waiting: &[usize]) -> Vec<Loop> {
    const UNSEEN: usize = usize::MAX;
    let mut seen_from = vec![UNSEEN; parents.len()];
    let mut found = Vec::new();
    for start in (0..parents.len()).filter(|&at| waiting[at] > 0) {
        let mut walked = Vec::new();
        let mut at = start;
        while seen_from[at] == UNSEEN {
            seen_from[at] = start;
            walked.push(at);
            at = *parents[at]
                .iter()
                .find(|&&parent| waiting[parent] > 0)
                .expect("what is left has a parent left");
        }
        if seen_from[at] == start {
            let mut closed = walked.split_off(
                walked
                    .iter()
                    .position(|&step| step == at)
                    .expect("just walked"),
            );
            let smallest = (0..closed.len())
                .min_by_key(|&step| closed[step])
                .expect("a loop is not empty");
            closed.rotate_left(smallest);
            found.push(closed);
        }
    }
    found
}
