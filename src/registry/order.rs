//! Numbering things after all they come from, and breaking the loops that make it impossible.
//!
//! Takes those whose sources are all taken, the smallest first. When none is ready, what is left over holds a loop: it
//! is reported, and its first member taken without its sources. No recursion, so a line of a million generations is as safe
//! as one of three.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// Orders `0..sources.len()` so that each comes after its `sources`; among those ready the smallest number first.
///
/// Each loop is given to `on_loop`: every member is followed by one of its sources, the last by the first. The first is
/// then taken as if it had no sources. Cost: links + things × log(things) + the lengths of the loops.
///
/// # Panics
/// If a source is out of range.
pub fn founders_first(sources: &[Vec<u32>], mut on_loop: impl FnMut(&[u32])) -> Vec<u32> {
    let mut taking = Taking::new(sources);
    let mut walk = Walk::new(sources.len());
    loop {
        taking.take_ready();
        if taking.order.len() == sources.len() {
            return taking.order;
        }
        let in_loop = walk.next_loop(&taking);
        on_loop(&in_loop);
        taking.release(in_loop[0]);
    }
}

/// What is taken and what still waits.
struct Taking<'s> {
    sources: &'s [Vec<u32>],
    /// How many sources a thing still waits for; 0 once it is ready or taken.
    waiting_for: Vec<u32>,
    first_use: Vec<u32>,
    /// Things that come from each thing, in one block.
    used_by: Vec<u32>,
    ready: BinaryHeap<Reverse<u32>>,
    order: Vec<u32>,
}

impl<'s> Taking<'s> {
    fn new(sources: &'s [Vec<u32>]) -> Self {
        let count = sources.len();
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
            for source in from {
                let slot = &mut next_free[*source as usize];
                used_by[*slot as usize] = thing as u32;
                *slot += 1;
            }
        }
        let waiting_for: Vec<u32> = sources.iter().map(|from| from.len() as u32).collect();
        let ready = (0..count as u32)
            .filter(|&thing| waiting_for[thing as usize] == 0)
            .map(Reverse)
            .collect();
        Self {
            sources,
            waiting_for,
            first_use,
            used_by,
            ready,
            order: Vec::with_capacity(count),
        }
    }

    fn take_ready(&mut self) {
        while let Some(Reverse(thing)) = self.ready.pop() {
            self.order.push(thing);
            let thing = thing as usize;
            for at in self.first_use[thing]..self.first_use[thing + 1] {
                let user = self.used_by[at as usize];
                let waits = &mut self.waiting_for[user as usize];
                // One released from a loop no longer waits when its sources come at last.
                if *waits > 0 {
                    *waits -= 1;
                    if *waits == 0 {
                        self.ready.push(Reverse(user));
                    }
                }
            }
        }
    }

    /// Takes a thing as if it had no sources.
    fn release(&mut self, thing: u32) {
        self.waiting_for[thing as usize] = 0;
        self.ready.push(Reverse(thing));
    }

    fn waits(&self, thing: u32) -> bool {
        self.waiting_for[thing as usize] > 0
    }
}

/// A walk from thing to source among those that wait, until one comes round again. It is kept from loop to loop, so
/// that a long way to many loops is walked once.
struct Walk {
    path: Vec<u32>,
    /// Where on the path a thing is, or [`Walk::OFF`].
    place: Vec<u32>,
    /// No thing below waits.
    start: u32,
}

impl Walk {
    const OFF: u32 = u32::MAX;

    fn new(count: usize) -> Self {
        Self {
            path: Vec::new(),
            place: vec![Self::OFF; count],
            start: 0,
        }
    }

    /// The next loop; some thing must wait, and none be ready.
    fn next_loop(&mut self, taking: &Taking) -> Vec<u32> {
        // What was taken has all its sources taken, so it is the end of the path.
        while let Some(&last) = self.path.last().filter(|&&last| !taking.waits(last)) {
            self.place[last as usize] = Self::OFF;
            self.path.pop();
        }
        let mut here = match self.path.pop() {
            Some(last) => last,
            None => {
                while !taking.waits(self.start) {
                    self.start += 1;
                }
                self.start
            }
        };
        loop {
            self.place[here as usize] = self.path.len() as u32;
            self.path.push(here);
            let sources = taking.sources[here as usize].iter().copied();
            let waiting = sources.filter(|&source| taking.waits(source));
            here = waiting
                .min()
                .expect("what waits, while none is ready, waits for one that waits");
            let place = self.place[here as usize];
            if place != Self::OFF {
                let in_loop = self.path.split_off(place as usize);
                in_loop
                    .iter()
                    .for_each(|&thing| self.place[thing as usize] = Self::OFF);
                return in_loop;
            }
        }
    }
}
