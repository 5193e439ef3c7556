//! The typical size of a group, age by age: means of the plants read at its last age, so that deaths do not bend a line.

use crate::analysis::growth::grown::{Grown, Point};
use crate::observation::moment::{NEAR, is_within_a_month};
use crate::statistics::Scale;

/// What a group measured at one age.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct TypicalSize {
    /// Mean age of the plants read, months.
    pub age: f64,
    /// Their mean size: geometric for a length, plain for a count or number.
    pub size: f64,
    /// Least and greatest age that the dates allow; `None` where they are known to a month.
    pub between: Option<(f64, f64)>,
}

/// Means of the plants read at the last age, age by age. Readings within half a month of the first are of one age, and
/// of a plant the first of them counts: means of a few days apart would run through other plants each time.
pub fn typical(grown: &[Grown]) -> Vec<TypicalSize> {
    let aged = |grown: &Grown| grown.points.iter().rev().find_map(Point::middle_age);
    let Some(last) = grown.iter().filter_map(aged).reduce(f64::max) else {
        return Vec::new();
    };
    let scale = grown.first().map_or(Scale::Log, |plant| plant.scale);
    let mut logs: Vec<(i64, SizeMean)> = Vec::new();
    // Half a month is one sitting of plants sown a few days apart.
    let lived = |grown: &&Grown| aged(grown).is_some_and(|age| last - age <= NEAR);
    for plant in grown.iter().filter(lived) {
        let (mut next, mut before) = (0, f64::NEG_INFINITY);
        for point in &plant.points {
            let Some((age, ages)) = point.middle_age().zip(point.age) else {
                continue;
            };
            if age - before <= NEAR {
                continue;
            }
            before = age;
            // Plants are mostly read together, so the age after the last one met is looked at first.
            let key = libm::round(age * 1000.0) as i64;
            if logs.get(next).is_none_or(|of| of.0 != key) {
                next = logs.partition_point(|of| of.0 < key);
                if logs.get(next).is_none_or(|of| of.0 != key) {
                    logs.insert(next, (key, SizeMean::default()));
                }
            }
            logs[next].1.add((age, ages), point.size, scale);
            next += 1;
        }
    }
    let mut joined: Vec<(f64, SizeMean)> = Vec::new();
    for (key, of) in logs {
        let age = key as f64 / 1000.0;
        match joined.last_mut() {
            Some((first, before)) if age - *first <= NEAR => before.join(of),
            _ => joined.push((age, of)),
        }
    }
    joined.iter().map(|(_, of)| of.typical(scale)).collect()
}

/// Sizes of one age; those on the logarithm multiplied up, so that one logarithm does for many.
#[derive(Default)]
struct SizeMean {
    n: usize,
    ages: f64,
    /// Sum of the values on the scale.
    sum: f64,
    product: f64,
    between: Option<(f64, f64)>,
}

impl SizeMean {
    fn add(&mut self, (age, ages): (f64, (f64, f64)), size: f64, scale: Scale) {
        if !is_within_a_month(ages.1 - ages.0) {
            self.widen(ages);
        }
        if scale == Scale::Plain {
            (self.n, self.ages, self.sum) = (self.n + 1, self.ages + age, self.sum + size);
            return;
        }
        if self.n.is_multiple_of(Self::AT_ONCE) {
            self.fold();
            self.product = 1.0;
        }
        (self.n, self.ages) = (self.n + 1, self.ages + age);
        self.product *= size;
    }

    /// Sizes multiplied before a logarithm is taken: none is above 1e5 cm or below 1e-14, so no product leaves the floats.
    const AT_ONCE: usize = 16;

    fn fold(&mut self) {
        if self.product > 0.0 {
            self.sum += libm::log(self.product);
        }
    }

    fn widen(&mut self, ages: (f64, f64)) {
        let (least, most) = self.between.unwrap_or(ages);
        self.between = Some((least.min(ages.0), most.max(ages.1)));
    }

    /// Takes in the sizes of an age that is the same.
    fn join(&mut self, mut other: SizeMean) {
        self.fold();
        other.fold();
        (self.n, self.product) = (self.n + other.n, 1.0);
        (self.ages, self.sum) = (self.ages + other.ages, self.sum + other.sum);
        if let Some(ages) = other.between {
            self.widen(ages);
        }
    }

    fn typical(&self, scale: Scale) -> TypicalSize {
        let n = self.n as f64;
        let rest = match scale {
            Scale::Log => libm::log(self.product),
            Scale::Plain => 0.0,
        };
        TypicalSize {
            age: self.ages / n,
            size: scale.size((self.sum + rest) / n),
            between: self.between,
        }
    }
}
