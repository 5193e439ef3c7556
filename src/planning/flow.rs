//! The best way to send units through channels of limited capacity.
//!
//! Successive best paths with potentials (Busacker & Gowen 1960; Edmonds & Karp 1972) on whole-number worths, so that no
//! rounding creeps in. As much is sent as adds worth, no more. The potentials left at the end price every channel.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

const NONE: u32 = u32::MAX;
const FAR: i64 = i64::MAX;
const UNREACHED: i64 = 1 << 61;

#[derive(Clone, Copy, Debug)]
struct Channel {
    to: u32,
    /// The next channel that leaves the same place.
    next: u32,
    left: u32,
    worth: i64,
}

/// A network; places are numbered from 0. Channels must be laid in an order in which every channel comes after those
/// that lead to its beginning, and no way may lead back.
#[derive(Clone, Debug)]
pub(super) struct Flow {
    channels: Vec<Channel>,
    leaving: Vec<u32>,
    /// Cost of the best path from the source to each place.
    price: Vec<i64>,
    /// Scratch of the path search.
    distance: Vec<i64>,
    came_by: Vec<u32>,
    /// Channels looked at so far: the measure of the work done.
    pub looks: u64,
}

impl Flow {
    pub fn new(places: usize, channels: usize) -> Self {
        Self {
            channels: Vec::with_capacity(2 * channels),
            leaving: vec![NONE; places],
            price: vec![0; places],
            distance: vec![FAR; places],
            came_by: vec![NONE; places],
            looks: 0,
        }
    }

    /// Lays a channel and gives its index.
    pub fn channel(&mut self, from: usize, to: usize, capacity: u32, worth: i64) -> usize {
        let at = self.channels.len();
        for (from, to, left, worth) in [(from, to, capacity, worth), (to, from, 0, -worth)] {
            let next = std::mem::replace(&mut self.leaving[from], self.channels.len() as u32);
            self.channels.push(Channel {
                to: to as u32,
                next,
                left,
                worth,
            });
        }
        at
    }

    /// Units sent through a channel.
    pub fn sent(&self, channel: usize) -> u32 {
        self.channels[channel ^ 1].left
    }

    /// What one more unit forced through the channel would cost at least; negative for a channel that is used up.
    pub fn reduced_cost(&self, channel: usize) -> i64 {
        let (there, back) = (self.channels[channel], self.channels[channel ^ 1]);
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

    /// Best paths before anything is sent: one pass in the order the channels were laid.
    fn first_prices(&mut self, source: usize) {
        self.price.fill(FAR);
        self.price[source] = 0;
        self.looks += self.channels.len() as u64 / 2;
        for at in (0..self.channels.len()).step_by(2) {
            let (there, from) = (self.channels[at], self.channels[at + 1].to as usize);
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
        while let Some(Reverse((distance, place))) = next.pop() {
            if place as usize == sink {
                break;
            }
            if distance > self.distance[place as usize] {
                continue;
            }
            let mut at = self.leaving[place as usize];
            while at != NONE {
                let channel = self.channels[at as usize];
                self.looks += 1;
                if channel.left > 0 {
                    let reduced = self.price[place as usize]
                        - channel.worth
                        - self.price[channel.to as usize];
                    let reached = distance + reduced;
                    if reached < self.distance[channel.to as usize] {
                        self.distance[channel.to as usize] = reached;
                        self.came_by[channel.to as usize] = at;
                        next.push(Reverse((reached, channel.to)));
                    }
                }
                at = channel.next;
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
        let mut place = sink;
        while place != source {
            let at = self.came_by[place] as usize;
            most = most.min(self.channels[at].left);
            place = self.channels[at ^ 1].to as usize;
        }
        place = sink;
        while place != source {
            let at = self.came_by[place] as usize;
            self.channels[at].left -= most;
            self.channels[at ^ 1].left += most;
            place = self.channels[at ^ 1].to as usize;
        }
    }
}
