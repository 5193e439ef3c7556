//! The tabular method (Emik & Terrill 1949; Henderson 1976) over only those stems that are still in use.
//!
//! A stem leaves the table after the last stem that draws from it. A line of a million generations is narrow: its
//! table never holds more than a few rows, where walks up would cost a million steps for every generation. Broad
//! pedigrees are left to the walks of [`super::walk_up`].

use super::identity::Identity;
use super::stems::Stems;
use super::walk_up::Relation;

/// The largest number of stems in use at once for which a table is kept (32 MB).
const WIDTH_LIMIT: usize = 2048;

/// Steps a table would take, or `None` if it would be too wide.
pub(super) fn cost(stems: &Stems) -> Option<u64> {
    let last_use = last_uses(stems);
    let mut leaving = vec![0u32; stems.len() as usize];
    let (mut width, mut steps) = (0usize, 0u64);
    for stem in 0..stems.len() {
        width += 1;
        if width > WIDTH_LIMIT {
            return None;
        }
        steps += (width * (stems.sources(stem).len() + 1)) as u64;
        leaving[last_use[stem as usize] as usize] += 1;
        width -= leaving[stem as usize] as usize;
    }
    Some(steps)
}

/// For each stem the last one that draws from it or asks for it, itself if none does.
fn last_uses(stems: &Stems) -> Vec<u32> {
    let mut last: Vec<u32> = (0..stems.len()).collect();
    for stem in 0..stems.len() {
        for (source, _) in stems.sources(stem) {
            last[source as usize] = stem;
        }
    }
    last
}

/// Relationships among the stems still in use.
pub(super) struct LiveTable {
    last_use: Vec<u32>,
    /// The slot of each stem while it is in use.
    slot: Vec<u32>,
    in_use: Vec<u32>,
    free: Vec<u32>,
    width: usize,
    cells: Vec<f64>,
}

impl LiveTable {
    pub(super) fn new(stems: &Stems) -> Self {
        let last_use = last_uses(stems);
        Self {
            slot: vec![u32::MAX; last_use.len()],
            last_use,
            in_use: Vec::new(),
            free: Vec::new(),
            width: 0,
            cells: Vec::new(),
        }
    }

    fn cell(&self, one: u32, other: u32) -> f64 {
        self.cells
            [self.slot[one as usize] as usize * self.width + self.slot[other as usize] as usize]
    }

    fn set(&mut self, one: u32, other: u32, value: f64) {
        let (a, b) = (
            self.slot[one as usize] as usize,
            self.slot[other as usize] as usize,
        );
        self.cells[a * self.width + b] = value;
        self.cells[b * self.width + a] = value;
    }

    fn take_slot(&mut self) -> u32 {
        if self.free.is_empty() {
            let wider = (2 * self.width).max(8);
            let mut cells = vec![0.0; wider * wider];
            for row in 0..self.width {
                cells[row * wider..row * wider + self.width]
                    .copy_from_slice(&self.cells[row * self.width..(row + 1) * self.width]);
            }
            self.free.extend((self.width as u32..wider as u32).rev());
            (self.cells, self.width) = (cells, wider);
        }
        self.free.pop().expect("slots were just added")
    }

    fn retire(&mut self, now: u32) {
        let (last_use, slot, free) = (&self.last_use, &self.slot, &mut self.free);
        self.in_use.retain(|&stem| {
            let stays = last_use[stem as usize] > now;
            if !stays {
                free.push(slot[stem as usize]);
            }
            stays
        });
    }
}

impl Relation for LiveTable {
    fn between(&mut self, _solved: &Identity, one: u32, other: u32) -> Option<f64> {
        Some(self.cell(one, other))
    }

    fn square(&mut self, solved: &Identity, stem: u32) -> Option<f64> {
        let sources: Vec<(u32, f64)> = solved.stems().sources(stem).collect();
        let terms = sources
            .iter()
            .flat_map(|one| sources.iter().map(move |other| (one, other)));
        Some(
            terms
                .map(|(one, other)| one.1 * other.1 * self.cell(one.0, other.0))
                .sum(),
        )
    }

    fn settle(&mut self, solved: &Identity, stem: u32) {
        let sources: Vec<(u32, f64)> = solved.stems().sources(stem).collect();
        self.slot[stem as usize] = self.take_slot();
        for at in 0..self.in_use.len() {
            let other = self.in_use[at];
            let value = sources
                .iter()
                .map(|&(source, fraction)| fraction * self.cell(source, other))
                .sum();
            self.set(stem, other, value);
        }
        self.set(stem, stem, solved.self_relationship(stem));
        self.in_use.push(stem);
        self.retire(stem);
    }
}
