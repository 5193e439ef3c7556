//! The readings of one trait as the walk keeps them: short, by day, with what they have in common beside them.

use super::LeftOut;
use crate::lineage::PlantRow;
use crate::record::{PitcherType, When};
use std::rc::Rc;

/// One comparable reading.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Comparable {
    /// The plant.
    pub plant: PlantRow,
    /// Index of the sitting.
    pub sitting: u32,
    /// The day of the sitting, as a range.
    pub when: When,
    /// Age from sowing in months, least and greatest; `None` when the sowing is not dated.
    pub age: Option<(f64, f64)>,
    /// Centimetres, a count, a plain number, a step from 1, or the index of a kind.
    pub value: f64,
    /// Which pitcher was read, for traits of the pitcher.
    pub pitcher: Option<PitcherType>,
    /// Whether pests or damage were seen on the plant that day; such readings are left out unless asked for.
    pub pest: bool,
}

/// A reading in 24 bytes: what it shares with others stands in the [`Tray`].
#[derive(Clone, Copy, Debug)]
pub(super) struct Read {
    /// Place of the plant among those asked for.
    pub plant: u32,
    /// Index of the occasion.
    pub occasion: u32,
    pub value: f64,
    pub pitcher: Option<PitcherType>,
    pub pest: bool,
}

/// One sowing in one sitting: all its plants were as old that day.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Occasion {
    /// Index of the sitting.
    pub sitting: u32,
    /// Its day, as a range.
    pub when: When,
    /// Cross and sowing.
    pub of: (Option<u32>, Option<usize>),
    /// Age from sowing in months, least and greatest; `None` when the sowing is not dated.
    pub age: Option<(f64, f64)>,
}

/// The plants asked for, and when they were read.
#[derive(Default, Debug)]
pub(super) struct Tray {
    /// In the order of the registry, each once.
    plants: Vec<PlantRow>,
    /// By day.
    occasions: Vec<Occasion>,
}

impl Tray {
    pub fn new(plants: Vec<PlantRow>, occasions: Vec<Occasion>) -> Tray {
        Tray { plants, occasions }
    }
}

/// Readings of one trait that may be compared, and what was left out.
#[derive(Clone, Default, Debug)]
pub struct TraitReadings {
    /// By day, and then as on the page.
    readings: Vec<Read>,
    /// Where each run of readings of one occasion begins.
    runs: Vec<(u32, usize)>,
    /// What may not be compared.
    pub left_out: LeftOut,
    pub(super) tray: Rc<Tray>,
}

impl TraitReadings {
    pub(super) fn push(&mut self, read: Read) {
        if self
            .runs
            .last()
            .is_none_or(|(last, _)| *last != read.occasion)
        {
            self.runs.push((read.occasion, self.readings.len()));
        }
        self.readings.push(read);
    }

    /// Number of readings.
    pub fn len(&self) -> usize {
        self.readings.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.readings.is_empty()
    }

    /// How many plants were asked for, read or not.
    pub fn asked(&self) -> usize {
        self.tray.plants.len()
    }

    /// Readings by occasion, first day first; an occasion may come in several runs.
    pub fn runs(&self) -> impl Iterator<Item = (&Occasion, Run<'_>)> {
        let ends = self.runs.iter().skip(1).map(|run| run.1);
        let ends = ends.chain([self.readings.len()]);
        self.runs.iter().zip(ends).map(|(&(occasion, start), end)| {
            let reads = &self.readings[start..end];
            (
                &self.tray.occasions[occasion as usize],
                Run { of: self, reads },
            )
        })
    }

    /// All readings, by day.
    pub fn by_day(&self) -> impl Iterator<Item = Comparable> {
        self.readings.iter().map(|read| self.whole(read))
    }

    /// All readings, by plant and then by day.
    pub fn by_plant(&self) -> Vec<Comparable> {
        let mut next = vec![0u32; self.tray.plants.len() + 1];
        for read in &self.readings {
            next[read.plant as usize + 1] += 1;
        }
        for plant in 1..next.len() {
            next[plant] += next[plant - 1];
        }
        let mut order = vec![0u32; self.readings.len()];
        for (at, read) in self.readings.iter().enumerate() {
            let place = &mut next[read.plant as usize];
            order[*place as usize] = at as u32;
            *place += 1;
        }
        let in_order = order.iter().map(|&at| &self.readings[at as usize]);
        in_order.map(|read| self.whole(read)).collect()
    }

    /// How many plants have a reading.
    pub fn plants_read(&self) -> usize {
        let mut seen = vec![false; self.tray.plants.len()];
        for read in &self.readings {
            seen[read.plant as usize] = true;
        }
        seen.into_iter().filter(|seen| *seen).count()
    }

    fn whole(&self, read: &Read) -> Comparable {
        let occasion = &self.tray.occasions[read.occasion as usize];
        Comparable {
            plant: self.tray.plants[read.plant as usize],
            sitting: occasion.sitting,
            when: occasion.when,
            age: occasion.age,
            value: read.value,
            pitcher: read.pitcher,
            pest: read.pest,
        }
    }
}

/// Readings of one occasion.
#[derive(Clone, Copy)]
pub struct Run<'r> {
    of: &'r TraitReadings,
    reads: &'r [Read],
}

impl<'r> Run<'r> {
    /// Number of readings.
    pub fn len(&self) -> usize {
        self.reads.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.reads.is_empty()
    }

    /// Places of the plants among those asked for.
    pub fn places(self) -> impl Iterator<Item = usize> + 'r {
        self.reads.iter().map(|read| read.plant as usize)
    }

    /// The readings.
    pub fn readings(self) -> impl Iterator<Item = Comparable> + 'r {
        self.reads.iter().map(move |read| self.of.whole(read))
    }
}
