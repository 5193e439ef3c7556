//! Why a plant that was read has no reading among those that are compared at an age.

use crate::lineage::PlantRow;
use crate::observation::series::Comparable;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Why a plant that was read is not among those of an age.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NotHere {
    /// Read at other ages only, or at one that is not known.
    OtherAge,
    /// Read at it on a pitcher of the other age class.
    OtherPitcher,
    /// Read at it by another method.
    OtherMethod,
    /// Its sittings of the day say unlike things.
    Contradicted,
}

/// How many plants there are for each reason.
pub type ByReason = BTreeMap<NotHere, usize>;

impl NotHere {
    /// How it was read, after "read".
    pub fn words(self) -> &'static str {
        match self {
            NotHere::OtherAge => "at other or unknown ages only",
            NotHere::OtherPitcher => "on a pitcher of the other age class",
            NotHere::OtherMethod => "by another method",
            NotHere::Contradicted => "differently in two sittings of the day",
        }
    }

    /// How many plants of some there are for each reason.
    pub fn counted(reasons: impl Iterator<Item = NotHere>) -> ByReason {
        let mut counts = ByReason::new();
        for why in reasons {
            *counts.entry(why).or_default() += 1;
        }
        counts
    }
}

/// The plants that lost their last reading on the way to those compared, and at which step.
#[derive(Default)]
pub(crate) struct Lost(BTreeMap<PlantRow, NotHere>);

impl Lost {
    /// Takes readings out; returns how many.
    pub fn step(
        &mut self,
        readings: &mut Vec<Comparable>,
        why: NotHere,
        take: impl FnOnce(&mut Vec<Comparable>) -> usize,
    ) -> usize {
        let before: Vec<PlantRow> = readings.iter().map(|of| of.plant).collect();
        let taken = take(readings);
        if taken > 0 {
            let left: BTreeSet<PlantRow> = readings.iter().map(|of| of.plant).collect();
            let lost = before.into_iter().filter(|plant| !left.contains(plant));
            self.0.extend(lost.map(|plant| (plant, why)));
        }
        taken
    }

    /// Why a plant has no reading at an age.
    pub fn why(&self, plant: PlantRow) -> NotHere {
        *self.0.get(&plant).unwrap_or(&NotHere::OtherAge)
    }
}
