//! The best way to send units through arcs of limited capacity.
//!
//! Successive best paths with potentials (Busacker & Gowen 1960; Edmonds & Karp 1972) on whole-number worths, so that no
//! rounding creeps in. As much is sent as adds worth, no more. The potentials left at the end price every arc.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

const NONE: u32 = u32::MAX;
const FAR: i64 = i64::MAX;
const UNREACHED: i64 = 1 << 61;

#[derive(Clone, Copy, Debug)]
struct Arc {
    to: u32,
    /// The next arc that leaves the same node.
    next: u32,
    left: u32,
    worth: i64,
}

/// A network; nodes are numbered from 0. Arcs must be laid in an order in which every arc comes after those
/// that lead to its beginning, and no way may lead back.
#[derive(Clone, Debug)]
pub(super) struct Flow {
    arcs: Vec<Arc>,
    leaving: Vec<u32>,
    /// Cost of the best path from the source to each node.
    price: Vec<i64>,
    /// Scratch of the path search.
    distance: Vec<i64>,
    came_by: Vec<u32>,
    /// Arcs looked at so far: the measure of the work done.
    pub looks: u64,
}

impl Flow {
    pub fn new(nodes: usize, arcs: usize) -> Self {
        Self {
            arcs: Vec::with_capacity(2 * arcs),
            leaving: vec![NONE; nodes],
            price: vec![0; nodes],
            distance: vec![FAR; nodes],
            came_by: vec![NONE; nodes],
            looks: 0,
        }
    }

    /// Lays an arc and gives its index.
    pub fn arc(&mut self, from: usize, to: usize, capacity: u32, worth: i64) -> usize {
        let at = self.arcs.len();
        for (from, to, left, worth) in [(from, to, capacity, worth), (to, from, 0, -worth)] {
            let next = std::mem::replace(&mut self.leaving[from], self.arcs.len() as u32);
            self.arcs.push(Arc {
                to: to as u32,
                next,
                left,
                worth,
            });
        }
        at
    }

    /// Units sent through an arc.
    pub fn sent(&self, arc: usize) -> u32 {
        self.arcs[arc ^ 1].left
    }

    /// What one more unit forced through the arc would cost at least; negative for an arc that is used up.
    pub fn reduced_cost(&self, arc: usize) -> i64 {
        let (there, back) = (self.arcs[arc], self.arcs[arc ^ 1]);
        self.price[back.to as usize] - there.worth - self.price[there.to as usize]
    }

    /// Sends units from `source` to `sink` as long as that adds worth.
    pub fn send(&mut self, source: usize, sink: usize) {
        self.first_prices(source);
        loop {
            self.shortest(source, sink);
            let way = self.distance[sink];
            let now = self.price[sink] - self.price[source];
            // Prices move on by the length of the new path, but no further than where a unit is worth nothing.
            let step = if way == FAR {
                (-now).max(0)
            } else {
                way.min((-now).max(0))
            };
            for (price, &distance) in self.price.iter_mut().zip(&self.distance) {
                *price += distance.min(step);
            }
            if way == FAR || now + way >= 0 {
                return;
            }
            self.push(source, sink);
        }
    }

    /// Best paths before anything is sent: one pass in the order the arcs were laid.
    fn first_prices(&mut self, source: usize) {
        self.price.fill(FAR);
        self.price[source] = 0;
        self.looks += self.arcs.len() as u64 / 2;
        for at in (0..self.arcs.len()).step_by(2) {
            let (there, from) = (self.arcs[at], self.arcs[at + 1].to as usize);
            if there.left > 0 && self.price[from] != FAR {
                let cost = self.price[from] - there.worth;
                self.price[there.to as usize] = self.price[there.to as usize].min(cost);
            }
        }
        // What nothing reaches now is never reached; a high price there lets what leaves it weigh nothing.
        self.price
            .iter_mut()
            .filter(|price| **price == FAR)
            .for_each(|price| *price = UNREACHED);
    }

    fn shortest(&mut self, source: usize, sink: usize) {
        self.distance.fill(FAR);
        self.distance[source] = 0;
        let mut next = BinaryHeap::from([Reverse((0i64, source as u32))]);
        while let Some(Reverse((distance, node))) = next.pop() {
            if node as usize == sink {
                break;
            }
            if distance > self.distance[node as usize] {
                continue;
            }
            let mut at = self.leaving[node as usize];
            while at != NONE {
                let arc = self.arcs[at as usize];
                self.looks += 1;
                if arc.left > 0 {
                    let reduced =
                        self.price[node as usize] - arc.worth - self.price[arc.to as usize];
                    let reached = distance + reduced;
                    if reached < self.distance[arc.to as usize] {
                        self.distance[arc.to as usize] = reached;
                        self.came_by[arc.to as usize] = at;
                        next.push(Reverse((reached, arc.to)));
                    }
                }
                at = arc.next;
            }
        }
        // Places beyond the sink are only known to be at least as far.
        let reached = self.distance[sink];
        self.distance
            .iter_mut()
            .for_each(|distance| *distance = (*distance).min(reached));
    }

    fn push(&mut self, source: usize, sink: usize) {
        let mut most = u32::MAX;
        let mut node = sink;
        while node != source {
            let at = self.came_by[node] as usize;
            most = most.min(self.arcs[at].left);
            node = self.arcs[at ^ 1].to as usize;
        }
        node = sink;
        while node != source {
            let at = self.came_by[node] as usize;
            self.arcs[at].left -= most;
            self.arcs[at ^ 1].left += most;
            node = self.arcs[at ^ 1].to as usize;
        }
    }
}
