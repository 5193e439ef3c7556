//! The readings of one trait as the walk keeps them: short, by day, with what they have in common beside them.

use crate::lineage::PlantRow;
use crate::observation::series::left_out::LeftOut;
use crate::record::{PitcherType, When};
use crate::registry::{CrossRow, SittingRow, SowingRow};
use std::sync::Arc;

/// One comparable reading.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Comparable {
    /// The plant.
    pub plant: PlantRow,
    /// Index of the sitting.
    pub sitting: SittingRow,
    /// Index of the last sitting of those of the day of which it is made; `None` where it is of one.
    pub also_in: Option<SittingRow>,
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
    /// Whether the plant was smaller that day than the trait's `doubtful_under_span_cm`.
    pub doubtful: bool,
}

/// A reading in 16 bytes: what it shares with others stands in its [`Page`] and in the [`Tray`].
#[derive(Clone, Copy, Debug)]
pub(crate) struct Read {
    pub value: f64,
    /// Place of the plant among those asked for.
    pub plant: u32,
    pub pitcher: Option<PitcherType>,
    pub pest: bool,
    pub doubtful: bool,
}

const _: () = assert!(size_of::<Read>() == 16);

/// The readings of one trait in one sitting, as on the page.
#[derive(Clone, Default, Debug)]
pub(crate) struct Page {
    reads: Vec<Read>,
    /// Where each run of readings of one occasion begins, and the occasion.
    runs: Vec<(u32, usize)>,
    /// What was left out on each occasion.
    left_out: Vec<(u32, LeftOut)>,
}

impl Page {
    pub fn push(&mut self, occasion: u32, read: Read, rows: usize) {
        if self.runs.last().is_none_or(|(last, _)| *last != occasion) {
            self.runs.push((occasion, self.reads.len()));
            // Most rows of a sitting are of plants asked for and have a cell of the trait.
            self.reads.reserve(rows);
        }
        self.reads.push(read);
    }

    /// What was left out on an occasion, to be counted on.
    pub fn left_out_on(&mut self, occasion: u32) -> &mut LeftOut {
        // The rows of one sowing stand together: the last occasion is looked at first.
        let known = self.left_out.iter().rposition(|(of, _)| *of == occasion);
        let at = known.unwrap_or_else(|| {
            self.left_out.push((occasion, LeftOut::default()));
            self.left_out.len() - 1
        });
        &mut self.left_out[at].1
    }

    fn runs(&self) -> impl Iterator<Item = (u32, &[Read])> {
        let ends = self.runs.iter().skip(1).map(|run| run.1);
        let ends = ends.chain([self.reads.len()]);
        let runs = self.runs.iter().zip(ends);
        runs.map(|(&(occasion, start), end)| (occasion, &self.reads[start..end]))
    }
}

/// One sowing in one sitting: all its plants were as old that day.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Occasion {
    /// Index of the sitting.
    pub sitting: SittingRow,
    /// Its day, as a range.
    pub when: When,
    /// Cross and sowing.
    pub of: (Option<CrossRow>, Option<SowingRow>),
    /// Age from sowing in months, least and greatest; `None` when the sowing is not dated.
    pub age: Option<(f64, f64)>,
}

/// The plants asked for, and when they were read.
#[derive(Default, Debug)]
pub(crate) struct Tray {
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
    /// By day, each with its first occasion's place among all.
    pages: Vec<(u32, Page)>,
    /// What may not be compared, at whatever age.
    pub left_out: LeftOut,
    /// Whether a mean of readings is a value of the trait: not of steps and kinds.
    pub has_mean: bool,
    tray: Arc<Tray>,
}

impl TraitReadings {
    /// Pages by day, each with the place of its first occasion among all.
    pub(crate) fn of(pages: Vec<(u32, Page)>, has_mean: bool, tray: Arc<Tray>) -> TraitReadings {
        let mut left_out = LeftOut::default();
        for (_, on_occasion) in pages.iter().flat_map(|(_, page)| &page.left_out) {
            left_out.add(on_occasion);
        }
        TraitReadings {
            pages,
            left_out,
            has_mean,
            tray,
        }
    }

    /// Number of readings.
    pub fn len(&self) -> usize {
        self.pages.iter().map(|(_, page)| page.reads.len()).sum()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// How many plants were asked for, read or not.
    pub fn asked(&self) -> usize {
        self.tray.plants.len()
    }

    /// Readings by occasion, first day first; an occasion may come in several runs.
    pub fn runs(&self) -> impl Iterator<Item = (&Occasion, Run<'_>)> {
        self.pages.iter().flat_map(move |(first, page)| {
            page.runs().map(move |(occasion, reads)| {
                let occasion = &self.tray.occasions[(first + occasion) as usize];
                let plants = &self.tray.plants;
                let run = Run {
                    plants,
                    occasion,
                    reads,
                };
                (occasion, run)
            })
        })
    }

    /// What was left out, occasion by occasion; occasions on which nothing was are not among them.
    pub fn left_out_by_occasion(&self) -> impl Iterator<Item = (&Occasion, &LeftOut)> {
        self.pages.iter().flat_map(move |(first, page)| {
            let counted = page.left_out.iter();
            counted.map(move |(occasion, left_out)| {
                (&self.tray.occasions[(first + occasion) as usize], left_out)
            })
        })
    }

    /// All readings, by day.
    pub fn by_day(&self) -> impl Iterator<Item = Comparable> {
        self.runs().flat_map(|(_, run)| run.readings())
    }

    /// All readings, by plant and then by day.
    pub fn by_plant(&self) -> Vec<Comparable> {
        let mut next = vec![0u32; self.tray.plants.len() + 1];
        for read in self.reads() {
            next[read.plant as usize + 1] += 1;
        }
        for plant in 1..next.len() {
            next[plant] += next[plant - 1];
        }
        let mut order = vec![(0u32, 0u32); self.len()];
        let runs: Vec<Run> = self.runs().map(|(_, run)| run).collect();
        for (at, run) in runs.iter().enumerate() {
            for (within, read) in run.reads.iter().enumerate() {
                let place = &mut next[read.plant as usize];
                order[*place as usize] = (at as u32, within as u32);
                *place += 1;
            }
        }
        let in_order = order.into_iter();
        in_order
            .map(|(at, within)| {
                let run = &runs[at as usize];
                run.whole(&run.reads[within as usize])
            })
            .collect()
    }

    /// How many plants have a reading.
    pub fn plants_read(&self) -> usize {
        let mut seen = vec![false; self.tray.plants.len()];
        for read in self.reads() {
            seen[read.plant as usize] = true;
        }
        seen.into_iter().filter(|seen| *seen).count()
    }

    fn reads(&self) -> impl Iterator<Item = &Read> {
        self.pages.iter().flat_map(|(_, page)| &page.reads)
    }
}

/// Readings of one occasion.
#[derive(Clone, Copy)]
pub struct Run<'r> {
    plants: &'r [PlantRow],
    occasion: &'r Occasion,
    reads: &'r [Read],
}

impl<'r> Run<'r> {
    /// Places of the plants among those asked for.
    pub fn places(self) -> impl Iterator<Item = usize> + 'r {
        self.reads.iter().map(|read| read.plant as usize)
    }

    /// The readings.
    pub fn readings(self) -> impl Iterator<Item = Comparable> + 'r {
        self.reads.iter().map(move |read| self.whole(read))
    }

    fn whole(&self, read: &Read) -> Comparable {
        Comparable {
            plant: self.plants[read.plant as usize],
            sitting: self.occasion.sitting,
            also_in: None,
            when: self.occasion.when,
            age: self.occasion.age,
            value: read.value,
            pitcher: read.pitcher,
            pest: read.pest,
            doubtful: read.doubtful,
        }
    }
}
