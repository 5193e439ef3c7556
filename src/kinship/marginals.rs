//! What each ancestor adds to those already chosen, kept up to date while they are chosen one by one.
//!
//! What a row adds is the genes of the set that come through it and not through a chosen row above or below: its count of
//! descendants' genes, times the share of its own genes that no chosen ancestor explains. Both only ever fall, so an old
//! value is a limit from above, and a row is worked out anew only when its old value is the largest of all.

use std::collections::BinaryHeap;

use super::complete::Complete;

/// What a row was last known to add, at most; the largest first, of equals the oldest row.
#[derive(PartialEq)]
struct AtMost {
    adds: f64,
    row: usize,
}

impl Eq for AtMost {}

impl Ord for AtMost {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        let by_value = self.adds.total_cmp(&other.adds);
        by_value.then(other.row.cmp(&self.row))
    }
}

impl PartialOrd for AtMost {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

/// The state of a choice of ancestors.
pub(super) struct Marginals<'c> {
    complete: &'c Complete,
    /// How often each row is in the set.
    own: Vec<f64>,
    chosen: Vec<bool>,
    /// Genes of the set that come through each row and no chosen row below it.
    counts: Vec<f64>,
    /// The share of each row's genes that chosen ancestors explain; kept only for rows with offspring.
    explained: Vec<f64>,
    /// Where the offspring of each row begin in `offspring`.
    starts: Vec<usize>,
    /// Offspring, the youngest first, each with the chance of the alternative; twice where it is both parents.
    offspring: Vec<(u32, f64)>,
    heap: BinaryHeap<AtMost>,
}

impl<'c> Marginals<'c> {
    /// No ancestor chosen yet.
    pub(super) fn of(complete: &'c Complete, set: &[u32]) -> Self {
        let mut own = vec![0.0; complete.len()];
        set.iter().for_each(|&row| own[row as usize] += 1.0);
        let chosen = vec![false; complete.len()];
        let mut counts = own.clone();
        complete.collect(&mut counts, &chosen);
        let (starts, offspring) = offspring_of(complete);
        let heap = counts.iter().enumerate();
        Self {
            heap: heap.map(|(row, &adds)| AtMost { adds, row }).collect(),
            explained: vec![0.0; complete.len()],
            complete,
            own,
            chosen,
            counts,
            starts,
            offspring,
        }
    }

    /// The row that adds most, taken out of the search, and what it adds; `None` when none adds anything.
    pub(super) fn largest(&mut self) -> Option<(usize, f64)> {
        while let Some(AtMost { adds, row }) = self.heap.pop() {
            if adds <= 0.0 {
                return None;
            }
            let now = self.adds(row);
            if now == adds {
                return Some((row, now));
            }
            self.heap.push(AtMost { adds: now, row });
        }
        None
    }

    /// Whether a further row adds exactly `adds`.
    pub(super) fn another_is(&mut self, adds: f64) -> bool {
        match self.largest() {
            Some((row, next)) => {
                self.heap.push(AtMost { adds: next, row });
                next == adds
            }
            None => false,
        }
    }

    /// Counts a row as chosen.
    pub(super) fn choose(&mut self, row: usize) {
        self.chosen[row] = true;
        self.lower_counts_above(row);
        self.explained[row] = 1.0;
        self.raise_explained_below(row);
    }

    fn adds(&self, row: usize) -> f64 {
        match self.chosen[row] {
            true => 0.0,
            false if self.offspring(row).is_empty() => {
                self.counts[row] * (1.0 - self.inherited(row))
            }
            false => self.counts[row] * (1.0 - self.explained[row]),
        }
    }

    fn offspring(&self, row: usize) -> &[(u32, f64)] {
        &self.offspring[self.starts[row]..self.starts[row + 1]]
    }

    /// The share of a row's genes that its parents have from chosen ancestors.
    fn inherited(&self, row: usize) -> f64 {
        let alternatives = self.complete.alternatives(row).iter();
        let from_parents = alternatives.map(|alternative| {
            let [seed, pollen] = alternative
                .parents
                .map(|parent| self.explained[parent as usize]);
            0.5 * alternative.chance * (seed + pollen)
        });
        from_parents.sum()
    }

    /// Nothing goes up through the chosen row any more. Added up anew in the order of the first count, so that the
    /// figures are those of a count from the start.
    fn lower_counts_above(&mut self, row: usize) {
        let mut waiting = BinaryHeap::new();
        self.parents_into(row, &mut waiting);
        while let Some(row) = next(&mut waiting) {
            let of = self.offspring(row).iter();
            let from = of.filter(|(child, _)| !self.chosen[*child as usize]);
            let sum = from.fold(self.own[row], |sum, &(child, chance)| {
                sum + 0.5 * chance * self.counts[child as usize]
            });
            if sum != self.counts[row] {
                self.counts[row] = sum;
                if !self.chosen[row] {
                    self.parents_into(row, &mut waiting);
                }
            }
        }
    }

    fn parents_into(&self, row: usize, waiting: &mut BinaryHeap<usize>) {
        for alternative in self.complete.alternatives(row) {
            waiting.extend(alternative.parents.map(|parent| parent as usize));
        }
    }

    fn raise_explained_below(&mut self, row: usize) {
        let mut waiting = BinaryHeap::new();
        self.offspring_into(row, &mut waiting);
        while let Some(std::cmp::Reverse(row)) = next(&mut waiting) {
            let explained = self.inherited(row);
            if !self.chosen[row] && explained != self.explained[row] {
                self.explained[row] = explained;
                self.offspring_into(row, &mut waiting);
            }
        }
    }

    /// Offspring that have offspring themselves; of the others the share is worked out when it is asked for.
    fn offspring_into(&self, row: usize, waiting: &mut BinaryHeap<std::cmp::Reverse<usize>>) {
        let rows = self.offspring(row).iter().map(|&(child, _)| child as usize);
        let parents = rows.filter(|&child| !self.offspring(child).is_empty());
        waiting.extend(parents.map(std::cmp::Reverse));
    }
}

/// The greatest waiting row, once however often it waits.
fn next<T: Ord + Copy>(waiting: &mut BinaryHeap<T>) -> Option<T> {
    let row = waiting.pop()?;
    while waiting.peek() == Some(&row) {
        waiting.pop();
    }
    Some(row)
}

/// Offspring of all rows one after the other, and where those of each row begin.
fn offspring_of(complete: &Complete) -> (Vec<usize>, Vec<(u32, f64)>) {
    let links = |row: usize| {
        let of = complete.alternatives(row).iter();
        of.flat_map(|alternative| {
            alternative
                .parents
                .map(|parent| (parent, alternative.chance))
        })
    };
    let mut starts = vec![0; complete.len() + 1];
    for row in 0..complete.len() {
        links(row).for_each(|(parent, _)| starts[parent as usize + 1] += 1);
    }
    for row in 0..complete.len() {
        starts[row + 1] += starts[row];
    }
    let mut free = starts.clone();
    let mut offspring = vec![(0, 0.0); starts[complete.len()]];
    for row in (0..complete.len()).rev() {
        for (parent, chance) in links(row) {
            offspring[free[parent as usize]] = (row as u32, chance);
            free[parent as usize] += 1;
        }
    }
    (starts, offspring)
}
