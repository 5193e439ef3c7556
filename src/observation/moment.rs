//! When in the life of its sowing a plant was read, and which moments may stand side by side.
//!
//! Plants of one sowing are of one age whatever the day of sowing was: readings not more than half a month apart stand
//! together. Plants of different sowings stand together only where both ages are known and surely lie within half a
//! month of each other, the rule `growth` has for its common age. A sowing dated by the year only is compared with
//! nothing but itself.

use crate::observation::months::MONTH;
use crate::observation::series::{Occasion, Run, TraitReadings};
use crate::record::{Day, When};
use crate::registry::{CrossRow, SowingRow};
use std::cmp::Ordering;

/// Months on either side of an age within which a reading stands as it is.
pub const NEAR: f64 = 0.5;

/// Ages are whole days over the length of a month: two that mean the same day may differ in the last bits.
const ROUNDING: f64 = 1e-9;

/// Whether a range is no longer than a month, so that its middle may stand for it.
pub fn is_within_a_month(months: f64) -> bool {
    months <= 2.0 * NEAR + ROUNDING
}

/// One sowing in one sitting.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Moment {
    /// Cross and sowing.
    pub of: (Option<CrossRow>, Option<SowingRow>),
    /// The day, as a range.
    pub on: When,
    /// Age from sowing in months, least and greatest; `None` when the sowing is not dated.
    pub age: Option<(f64, f64)>,
}

impl Moment {
    /// The moment of an occasion.
    pub fn of(occasion: &Occasion) -> Moment {
        Moment {
            of: occasion.of,
            on: occasion.when,
            age: occasion.age,
        }
    }

    /// The middle of the ages it may be of, months.
    pub fn middle(&self) -> Option<f64> {
        self.age.map(|(least, most)| (least + most) / 2.0)
    }

    /// The age in months where it is known to half a month either way, so that it can be compared with other sowings.
    pub fn sure_age(&self) -> Option<f64> {
        let (least, most) = self.age?;
        is_within_a_month(most - least).then_some((least + most) / 2.0)
    }

    /// Whether readings of another moment may stand beside those of this one.
    pub fn matches(&self, other: &Moment) -> bool {
        if self.of == other.of && self.of.1.is_some() {
            return self
                .months_to(other)
                .is_some_and(|apart| apart <= NEAR + ROUNDING);
        }
        match (self.sure_age(), other.sure_age()) {
            (Some(_), Some(_)) => self.holds(other) && other.holds(self),
            _ => self == other,
        }
    }

    /// Whether the other surely lies within half a month of the middle of this one.
    fn holds(&self, other: &Moment) -> bool {
        let of = self.middle().zip(other.age);
        of.is_some_and(|(age, (least, most))| {
            least >= age - NEAR - ROUNDING && most <= age + NEAR + ROUNDING
        })
    }

    /// Months between the middles of the days; `None` where an end is open.
    pub fn months_to(&self, other: &Moment) -> Option<f64> {
        let middle = |when: When| (f64::from(when.first.0) + f64::from(when.last.0)) / 2.0;
        let bounded = |when: When| when.first != Day::FIRST && when.last != Day::LAST;
        if self.on == other.on {
            return Some(0.0);
        }
        (bounded(self.on) && bounded(other.on))
            .then(|| (middle(self.on) - middle(other.on)).abs() / MONTH)
    }

    /// Those without an age first, by day and sowing; then by age.
    pub fn order(&self, other: &Moment) -> Ordering {
        let days = |of: &Moment| (of.on.first, of.on.last, of.of);
        match (self.middle(), other.middle()) {
            (Some(a), Some(b)) => a.total_cmp(&b).then(days(self).cmp(&days(other))),
            (Some(_), None) => Ordering::Greater,
            (None, Some(_)) => Ordering::Less,
            (None, None) => days(self).cmp(&days(other)),
        }
    }
}

/// A moment and the plants that have a reading there.
pub struct Present {
    /// The moment.
    pub moment: Moment,
    /// All of them.
    pub plants: usize,
    /// Those of each sowing of each group, in the order of [`Moments::ever`].
    pub of_sowings: Vec<usize>,
}

/// The readings of a trait by their moments, of one group of plants or of several that have none in common.
pub struct Moments<'r> {
    asked: usize,
    /// From the earliest on.
    all: Vec<Placed<'r>>,
    /// Plants of each sowing of each group ever read.
    pub ever: Vec<usize>,
    /// The group that each of [`Moments::ever`] is of.
    pub groups: Vec<usize>,
}

/// One sowing of a group in one sitting.
struct Placed<'r> {
    moment: Moment,
    /// Place of the sowing among those of all groups.
    place: usize,
    /// Plants asked for in the groups before.
    before: usize,
    run: Run<'r>,
}

impl<'r> Moments<'r> {
    /// The moments of all readings of some groups.
    pub fn of(groups: &'r [TraitReadings]) -> Moments<'r> {
        let (mut asked, mut all, mut sowings) = (0, Vec::new(), Vec::new());
        for (group, readings) in groups.iter().enumerate() {
            for (occasion, run) in readings.runs() {
                let moment = Moment::of(occasion);
                sowings.push((group, moment.of));
                all.push((group, asked, moment, run));
            }
            asked += readings.asked();
        }
        all.sort_by(|a, b| a.2.order(&b.2));
        sowings.sort_unstable();
        sowings.dedup();
        let placed = |(group, before, moment, run): (usize, usize, Moment, Run<'r>)| Placed {
            place: sowings.partition_point(|of| *of < (group, moment.of)),
            moment,
            before,
            run,
        };
        let mut moments = Moments {
            asked,
            ever: vec![0; sowings.len()],
            all: all.into_iter().map(placed).collect(),
            groups: sowings.iter().map(|(group, _)| *group).collect(),
        };
        moments.ever = moments
            .count(0..moments.all.len(), |_| true, &mut moments.unseen())
            .1;
        moments
    }

    fn unseen(&self) -> Seen {
        Seen {
            stamps: vec![0; self.asked],
            stamp: 0,
        }
    }

    /// Distinct plants in some of the runs, all together and sowing by sowing.
    fn count(
        &self,
        range: std::ops::Range<usize>,
        wanted: impl Fn(&Moment) -> bool,
        seen: &mut Seen,
    ) -> (usize, Vec<usize>) {
        seen.stamp += 1;
        let (mut plants, mut of_sowings) = (0, vec![0; self.ever.len()]);
        for placed in self.all[range].iter().filter(|of| wanted(&of.moment)) {
            let mut new = 0;
            for place in placed.run.places().map(|place| placed.before + place) {
                new += usize::from(seen.stamps[place] != seen.stamp);
                seen.stamps[place] = seen.stamp;
            }
            plants += new;
            of_sowings[placed.place] += new;
        }
        (plants, of_sowings)
    }

    /// Each moment, from the latest down, and the plants with a reading that may stand there.
    pub fn latest_first(self) -> impl Iterator<Item = Present> + 'r {
        let mut seen = self.unseen();
        let mut last: Option<Moment> = None;
        (0..self.all.len()).rev().filter_map(move |at| {
            let moment = self.all[at].moment;
            // One of several runs of a sitting stands for all of them.
            if last.replace(moment) == Some(moment) {
                return None;
            }
            // Whatever may stand there is of an age not more than half a month off.
            let near = |other: &Moment| match (moment.middle(), other.middle()) {
                (Some(a), Some(b)) => (a - b).abs() <= NEAR + ROUNDING,
                (a, b) => a.is_none() && b.is_none(),
            };
            let from = (0..at).rev().find(|&other| !near(&self.all[other].moment));
            let until = (at..self.all.len()).find(|&other| !near(&self.all[other].moment));
            let range = from.map_or(0, |from| from + 1)..until.unwrap_or(self.all.len());
            let (plants, of_sowings) = self.count(range, |other| moment.matches(other), &mut seen);
            Some(Present {
                moment,
                plants,
                of_sowings,
            })
        })
    }
}

/// Which plants were met in a count.
struct Seen {
    stamps: Vec<u32>,
    stamp: u32,
}
