//! Axes: from values to places on the paper, with ticks at round numbers.

use crate::wording::number;

/// An axis from `first` to `last` of the paper, in points.
#[derive(Clone, Debug, PartialEq)]
pub struct Scale {
    /// Values at the ends; log10 of them if logarithmic.
    ends: (f64, f64),
    /// Places of the ends on the paper.
    paper: (f64, f64),
    /// Values of the ticks.
    pub ticks: Vec<f64>,
    logarithmic: bool,
    /// From one step of a scale to the next on the paper; `None` for a measure.
    pub pitch: Option<f64>,
}

impl Scale {
    /// A linear axis that holds all values, ending at round numbers, with about `count` ticks.
    pub fn linear(values: impl Iterator<Item = f64>, paper: (f64, f64), count: usize) -> Scale {
        let (low, high) = span(values);
        let step = round_step((high - low) / count.max(1) as f64);
        let (first, last) = (
            libm::floor(low / step + 1e-9),
            libm::ceil(high / step - 1e-9),
        );
        let steps = (last - first).clamp(1.0, 1000.0) as usize;
        let ticks = (0..=steps)
            .map(|rank| (first + rank as f64) * step)
            .collect();
        Scale {
            ends: (first * step, (first + steps as f64) * step),
            paper,
            ticks,
            logarithmic: false,
            pitch: None,
        }
    }

    /// A linear axis from the least to the greatest value, without ticks.
    pub fn fitting(values: impl Iterator<Item = f64>, paper: (f64, f64)) -> Scale {
        Scale {
            ends: span(values),
            paper,
            ticks: Vec::new(),
            logarithmic: false,
            pitch: None,
        }
    }

    /// Places of the ends on the paper.
    pub fn paper(&self) -> (f64, f64) {
        self.paper
    }

    /// The steps of a scale from 1, each in the middle of a stretch of its own.
    pub fn steps(count: usize, paper: (f64, f64)) -> Scale {
        let pitch = (paper.1 - paper.0) / count.max(1) as f64;
        Scale {
            // One step alone has an axis too.
            ends: (1.0, count.max(2) as f64),
            paper: (
                paper.0 + pitch / 2.0,
                paper.0 + pitch * (count.max(2) as f64 - 0.5),
            ),
            ticks: (1..=count).map(|step| step as f64).collect(),
            logarithmic: false,
            pitch: Some(pitch),
        }
    }

    /// A logarithmic axis that holds all values above zero, with ticks at 1, 2 and 5 times powers of ten.
    pub fn logarithmic(values: impl Iterator<Item = f64>, paper: (f64, f64)) -> Scale {
        let (low, high) = span(values.filter(|value| *value > 0.0));
        let low = if low > 0.0 { low } else { high / 10.0 };
        let ticks: Vec<f64> = (-12..=12)
            .flat_map(|power| {
                [1.0, 2.0, 5.0].map(|digit| digit * libm::pow(10.0, f64::from(power)))
            })
            .collect();
        let from = ticks
            .partition_point(|tick| *tick <= low * 1.000_001)
            .saturating_sub(1);
        let to = ticks
            .partition_point(|tick| *tick < high * 0.999_999)
            .clamp(from + 1, ticks.len() - 1);
        let ends = (libm::log10(ticks[from]), libm::log10(ticks[to]));
        Scale {
            ends,
            paper,
            ticks: ticks[from..=to].to_vec(),
            logarithmic: true,
            pitch: None,
        }
    }

    /// Where a value stands on the paper.
    pub fn at(&self, value: f64) -> f64 {
        let value = if self.logarithmic {
            libm::log10(value.max(1e-300))
        } else {
            value
        };
        let part = (value - self.ends.0) / (self.ends.1 - self.ends.0);
        self.paper.0 + part * (self.paper.1 - self.paper.0)
    }

    /// Whether the axis can show a value.
    pub fn shows(&self, value: f64) -> bool {
        value.is_finite() && (!self.logarithmic || value > 0.0)
    }

    /// The ticks with their labels, all with the same number of decimals.
    pub fn labels(&self) -> Vec<(f64, String)> {
        let places = |tick: &f64| (0..9).find(|places| whole(*tick, *places)).unwrap_or(9);
        let most = self.ticks.iter().map(places).max().unwrap_or(0);
        let label = |tick: f64| {
            if self.logarithmic {
                number(tick, places(&tick))
            } else {
                number(tick, most)
            }
        };
        self.ticks.iter().map(|&tick| (tick, label(tick))).collect()
    }
}

fn whole(value: f64, places: usize) -> bool {
    let scaled = value * libm::pow(10.0, places as f64);
    (scaled - libm::round(scaled)).abs() < 1e-6
}

/// Smallest and largest finite value, never the same; 0 to 1 where there is none.
fn span(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let none = (f64::INFINITY, f64::NEG_INFINITY);
    let widen = |(low, high): (f64, f64), value: f64| (low.min(value), high.max(value));
    let (low, high) = values.filter(|value| value.is_finite()).fold(none, widen);
    if low > high {
        return (0.0, 1.0);
    }
    let least = f64::max(low.abs(), high.abs()).max(1e-9) * 1e-6;
    if high - low > least {
        (low, high)
    } else {
        (
            low - low.abs().max(1.0) * 0.1,
            high + high.abs().max(1.0) * 0.1,
        )
    }
}

/// The smallest of 1, 2 and 5 times a power of ten that is not below `rough`.
fn round_step(rough: f64) -> f64 {
    let power = libm::pow(10.0, libm::floor(libm::log10(rough)));
    let digit = [1.0, 2.0, 5.0]
        .into_iter()
        .find(|digit| digit * power >= rough * 0.999_999);
    digit.unwrap_or(10.0) * power
}
