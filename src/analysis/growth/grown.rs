//! One plant's comparable sizes, and its size at an age.
//!
//! A reading within half a month of the age stands as it was read; otherwise the size is interpolated, lengths on the
//! logarithm and counts as they stand, between the readings on either side. Before the first and after the last reading nothing is said. Where sowing or
//! reading dates are ranges, the size is the range of all sizes that fit.

use crate::lineage::PlantRow;
use crate::observation::moment::NEAR;
use crate::observation::months::MONTH;
use crate::observation::series::Comparable;
use crate::record::When;
use crate::registry::SittingRow;
use crate::statistics::growth::{RangedReading, Reading, size_at, size_at_ranged};
use crate::statistics::{Interval, Scale};

/// Ages are whole days over the length of a month: two that mean the same day may differ in the last bits.
const ROUNDING: f64 = 1e-9;

/// One reading of one plant.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Point {
    /// Index of the sitting.
    pub sitting: SittingRow,
    /// Index of the last sitting of those of the day of which it is made; `None` where it is of one.
    pub also_in: Option<SittingRow>,
    /// Its day, as a range.
    pub when: When,
    /// Age from sowing in months, least and greatest; `None` when it is not known.
    pub age: Option<(f64, f64)>,
    /// The size; a length above zero, a count or number as it is.
    pub size: f64,
}

impl Point {
    /// Whether a reading of a sitting of a day is in it.
    pub fn is_made_of(&self, sitting: SittingRow, when: When) -> bool {
        let last = self.also_in.unwrap_or(self.sitting);
        self.when == when && (self.sitting..=last).contains(&sitting)
    }

    /// The middle of the ages it may have.
    pub fn middle_age(&self) -> Option<f64> {
        self.age.map(|(least, most)| (least + most) / 2.0)
    }

    /// The middle of the days it may be of, counted in months; `None` when an end is open.
    pub fn month(&self) -> Option<f64> {
        let days = f64::from(self.when.first.0) + f64::from(self.when.last.0);
        self.when.is_bounded().then_some(days / 2.0 / MONTH)
    }
}

/// A plant with its sizes in order of time.
#[derive(Clone, PartialEq, Debug)]
pub struct Grown {
    /// The plant.
    pub plant: PlantRow,
    /// Its sizes.
    pub points: Vec<Point>,
    /// The scale they run straight on.
    pub scale: Scale,
}

/// The size of a plant at an age.
#[derive(Clone, PartialEq, Debug)]
pub struct AtAge {
    /// Least and greatest size that fit the dates; equal where the dates are exact.
    pub size: Interval,
    /// Age of the reading it stands on, or the age asked for when interpolated.
    pub age: f64,
    /// Whether it was read, not interpolated.
    pub as_read: bool,
    /// The sittings it rests on, two where it was interpolated.
    pub sittings: [Option<SittingRow>; 2],
}

impl Grown {
    /// Plants with their readings, by plant, every size multiplied by `shown`.
    pub fn all(readings: &[Comparable], shown: f64, scale: Scale) -> Vec<Grown> {
        let of_plant = |same: &[Comparable]| Grown {
            plant: same[0].plant,
            points: same
                .iter()
                .map(|reading| Point {
                    sitting: reading.sitting,
                    also_in: reading.also_in,
                    when: reading.when,
                    age: reading.age,
                    size: reading.value * shown,
                })
                .collect(),
            scale,
        };
        let plants = readings.chunk_by(|a, b| a.plant == b.plant).map(of_plant);
        plants.filter(|grown| !grown.points.is_empty()).collect()
    }

    fn aged(&self) -> impl DoubleEndedIterator<Item = (&Point, (f64, f64))> + Clone {
        self.points
            .iter()
            .filter_map(|point| Some((point, point.age?)))
    }

    /// First and last age at which the plant has a size; `None` without an age.
    pub fn known_ages(&self) -> Option<Interval> {
        let (_, first) = self.aged().next()?;
        let (_, last) = self.aged().next_back()?;
        let span = Interval {
            low: first.1 - NEAR,
            high: last.0 + NEAR,
        };
        (span.low <= span.high).then_some(span)
    }

    /// The size at an age in months, with the readings it rests on; `None` where it cannot be told.
    pub fn at(&self, age: f64) -> Option<AtAge> {
        self.read_near(age).or_else(|| self.interpolated(age))
    }

    /// The reading nearest to an age, if it surely lies within [`NEAR`].
    pub fn read_near(&self, age: f64) -> Option<AtAge> {
        let reach = NEAR + ROUNDING;
        let near = self
            .aged()
            .filter(|(_, (least, most))| *least >= age - reach && *most <= age + reach);
        let off = |(least, most): (f64, f64)| ((least + most) / 2.0 - age).abs();
        let (point, (least, most)) = near.min_by(|a, b| off(a.1).total_cmp(&off(b.1)))?;
        Some(AtAge {
            size: Interval::around(point.size, 0.0),
            age: (least + most) / 2.0,
            as_read: true,
            sittings: [Some(point.sitting), point.also_in],
        })
    }

    /// The size interpolated to exactly an age.
    pub fn interpolated(&self, age: f64) -> Option<AtAge> {
        let size = match self.common_width() {
            Some(width) => {
                let readings: Vec<Reading> = self
                    .aged()
                    .map(|(point, (least, _))| Reading {
                        age: least,
                        size: point.size,
                    })
                    .collect();
                // Only the sowing is vague: sown earlier by up to `width`, the age falls as much earlier on the calendar.
                let low = (age - width).min(age);
                size_at(&readings, Interval { low, high: age }, self.scale)
            }
            None => {
                let ranged: Vec<RangedReading> = self
                    .aged()
                    .map(|(point, (low, high))| RangedReading {
                        age: Interval { low, high },
                        size: point.size,
                    })
                    .collect();
                size_at_ranged(&ranged, age, self.scale)
            }
        };
        let before = self.aged().rfind(|(_, (least, _))| *least <= age);
        let after = self.aged().find(|(_, (_, most))| *most >= age);
        let sitting = |point: Option<(&Point, _)>| point.map(|(point, _)| point.sitting);
        let (before, after) = (sitting(before), sitting(after));
        Some(AtAge {
            size: size.ok()?,
            age,
            as_read: false,
            sittings: [before, after.filter(|_| after != before)],
        })
    }

    /// How much later the plant may have been sown than at the earliest, in months, when no reading is vaguer than that.
    fn common_width(&self) -> Option<f64> {
        let mut aged = self.aged();
        let (_, (least, most)) = aged.next()?;
        let width = most - least;
        let exact = self
            .points
            .iter()
            .all(|point| point.age.is_none() || point.when.is_exact());
        exact.then_some(width)
    }
}
