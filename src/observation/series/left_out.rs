//! How many readings were left out of a comparison, and why; in words for people.

use serde::Serialize;

/// How many readings were left out, and why.
#[derive(Clone, Copy, Default, PartialEq, Eq, Debug, Serialize)]
pub struct LeftOut {
    /// No unit, neither in the cell nor in the heading.
    pub unit_unknown: usize,
    /// Pests or damage were seen on the plant that day.
    pub pest: usize,
    /// Surely younger than the trait can be judged at.
    pub too_young: usize,
    /// Smaller, by the same day's leaf span, than the trait can be judged at.
    pub too_small: usize,
    /// A juvenile pitcher among adult ones, or the other way round.
    pub other_pitcher: usize,
    /// Read by another method.
    pub other_method: usize,
    /// A step or kind of a plant that another sitting of the same day contradicts.
    pub unlike_that_day: usize,
    /// Text that is no value of the trait.
    pub no_value: usize,
    /// An age not known to a month, where ages are compared.
    pub age_unknown: usize,
}

impl LeftOut {
    /// All together.
    pub fn total(&self) -> usize {
        self.reasons().iter().map(|(n, _)| n).sum()
    }

    /// In words: `2 without a unit, 1 flagged for pests`; empty when nothing was left out.
    pub fn words(&self) -> String {
        let told: Vec<String> = self
            .reasons()
            .iter()
            .filter(|(n, _)| *n > 0)
            .map(|(n, why)| format!("{n} {why}"))
            .collect();
        told.join(", ")
    }

    /// In words, those at other ages apart: `1 reading flagged for pests; at other ages 2 readings without a unit`; `None` when
    /// nothing was left out.
    pub fn words_beside(&self, elsewhere: &LeftOut) -> Option<String> {
        let other = || format!("at other ages {}", elsewhere.of_readings());
        match (self.total(), elsewhere.total()) {
            (0, 0) => None,
            (_, 0) => Some(self.of_readings()),
            (0, _) => Some(other()),
            _ => Some(format!("{}; {}", self.of_readings(), other())),
        }
    }

    /// What is said of a plant whose readings of a trait are all left out: that it was read, and what mends it; `None` where
    /// none are left out.
    pub fn instead(&self, name: &str) -> Option<String> {
        let unit = match self.unit_unknown {
            0 => "",
            _ => "; write the unit down",
        };
        let words = || format!("{name} read, but left out: {}{unit}", self.words());
        (self.total() > 0).then(words)
    }

    /// As [`LeftOut::words`], with what is counted: plants read several times have several readings.
    fn of_readings(&self) -> String {
        let words = self.words();
        match words.split_once(' ') {
            Some((n @ "1", why)) => format!("{n} reading {why}"),
            Some((n, why)) => format!("{n} readings {why}"),
            None => words,
        }
    }

    /// Adds another count.
    pub fn add(&mut self, other: &LeftOut) {
        self.unit_unknown += other.unit_unknown;
        self.pest += other.pest;
        self.too_young += other.too_young;
        self.too_small += other.too_small;
        self.other_pitcher += other.other_pitcher;
        self.other_method += other.other_method;
        self.unlike_that_day += other.unlike_that_day;
        self.no_value += other.no_value;
        self.age_unknown += other.age_unknown;
    }

    fn reasons(&self) -> [(usize, &'static str); 9] {
        [
            (self.unit_unknown, "without a unit"),
            (self.pest, "flagged for pests"),
            (self.too_young, "too young for the trait"),
            (self.too_small, "too small for the trait"),
            (self.other_pitcher, "on a pitcher of the other age class"),
            (self.other_method, "by another method"),
            (
                self.unlike_that_day,
                "contradicted by another sitting of the day",
            ),
            (self.no_value, "with no value of the trait"),
            (self.age_unknown, "of unknown age"),
        ]
    }
}
