//! A pair of limits and the confidence they are stated with.

/// Lower and upper limit, `low <= high`, both finite.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Interval {
    /// Lower limit.
    pub low: f64,
    /// Upper limit.
    pub high: f64,
}

impl Interval {
    /// `centre` plus and minus `half`.
    pub fn around(centre: f64, half: f64) -> Self {
        Self {
            low: centre - half,
            high: centre + half,
        }
    }

    /// True if `value` lies between the limits, both included.
    pub fn holds(&self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }

    /// Both limits passed through an increasing function.
    pub fn map(self, increasing: impl Fn(f64) -> f64) -> Self {
        Self {
            low: increasing(self.low),
            high: increasing(self.high),
        }
    }
}

/// How often an interval made this way holds the truth, strictly between 0 and 1.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Confidence(f64);

impl Confidence {
    /// 95 %, the level every report uses unless told otherwise.
    pub const P95: Self = Self(0.95);

    /// A level strictly between 0 and 1, or `None`.
    pub fn new(level: f64) -> Option<Self> {
        (level > 0.0 && level < 1.0).then_some(Self(level))
    }

    /// The probability left above the upper limit, for instance 0.025.
    pub fn tail(self) -> f64 {
        0.5 * (1.0 - self.0)
    }
}
