//! The curve of age: as many terms as the ages read can tell.
//!
//! Age enters as itself and its square. Readings of one age tell neither, of two ages only a straight line; a term the
//! ages cannot tell is no term, instead of one that rounding decides. Ages are taken from their middle and over half
//! their span, so that the equations stay well apart from singular; merit does not depend on that.

/// The terms of age for some readings.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct AgeCurve {
    /// Ages that are apart.
    pub distinct: usize,
    middle: f64,
    reach: f64,
}

/// Whether two ages in months count as one: within half a month or a twentieth.
pub fn one_age(one: f64, other: f64) -> bool {
    (one - other).abs() <= f64::max(0.5, 0.05 * f64::max(one, other))
}

impl AgeCurve {
    /// The curve for readings of some ages in months; without any it has no terms.
    pub fn of(ages: impl Iterator<Item = f64>) -> AgeCurve {
        let mut ages: Vec<f64> = ages.collect();
        ages.sort_by(f64::total_cmp);
        let (mut distinct, mut last) = (0, f64::NEG_INFINITY);
        for age in &ages {
            if distinct == 0 || !one_age(last, *age) {
                (distinct, last) = (distinct + 1, *age);
            }
        }
        let (least, most) = (ages.first().copied(), ages.last().copied());
        let (least, most) = (least.unwrap_or(0.0), most.unwrap_or(0.0));
        AgeCurve {
            distinct,
            middle: 0.5 * (least + most),
            reach: (0.5 * (most - least)).max(f64::MIN_POSITIVE),
        }
    }

    /// Number of terms: none for one age, 1 for two, else 2.
    pub fn terms(&self) -> usize {
        self.distinct.saturating_sub(1).min(2)
    }

    /// The values of the terms at an age in months.
    pub fn at(&self, age: f64) -> impl Iterator<Item = f64> {
        let x = (age - self.middle) / self.reach;
        [x, x * x].into_iter().take(self.terms())
    }
}
