//! Readings that can be true but look like a slip: asked about before they are written.

use super::cells::outside;
use crate::check::KEEPS;
use crate::observation::last_reading::LastReading;
use crate::record::{Reads, Trait, When};
use crate::statistics::outlier::{FEWEST, FOLD, Slip, outliers};

/// Days of a year.
const YEAR: f64 = 365.25;

/// A short time between two readings, days; within it a plant is about the size it was (common practice, no source).
const TWO_MONTHS: i32 = 60;
/// A time in which a healthy plant does not lose much of its span, days (common practice, no source).
const HALF_YEAR: i32 = 180;
/// Part of its last length below which a plant has lost more than old leaves in half a year: a judgement of ours.
const LOSES: f64 = 0.9;
/// Times its last length above which a plant has grown more than expected in two months: a judgement of ours.
const GAINS: f64 = 1.25;
/// Times its last length above which a reading is asked about however long ago that was: less than the tenfold of a lost
/// decimal point, a judgement of ours.
const GAINS_EVER: f64 = 8.0;
/// Centimetres that two readings of one length may differ by without anything to ask about: a judgement of ours.
const SURE: f64 = 0.5;

/// Why a reading is in doubt. Lengths are in centimetres.
#[derive(Clone, PartialEq, Debug)]
pub enum Doubt {
    /// Less than half of what the plant read last, or clearly less a short time ago.
    Shrinks {
        /// What it read last.
        before: f64,
        /// When.
        when: When,
    },
    /// Grown more than fivefold in a year, more than eightfold since, or by more than a quarter in two months.
    Grows {
        /// What it read last.
        before: f64,
        /// When.
        when: When,
    },
    /// Far from its siblings of this sitting.
    Far {
        /// Their median.
        typical: f64,
        /// How many of them.
        siblings: usize,
    },
    /// Like its siblings once inches are put right.
    Inches {
        /// What it would be then.
        converted: f64,
    },
    /// Outside what the trait declares believable, in its own unit.
    Unbelievable {
        /// Least believable.
        least: f64,
        /// Most believable.
        most: f64,
    },
}

/// What a reading is held against.
pub struct Judged<'a> {
    /// What is read.
    pub declared: &'a Trait<'a>,
    /// The value as the cell gives it.
    pub value: f64,
    /// What the plant read last.
    pub last: Option<&'a LastReading>,
    /// What its siblings read in this sitting.
    pub siblings: &'a [f64],
    /// The day of the sitting.
    pub on: When,
}

/// The first reason to ask about a reading; none when it is as expected.
///
/// Below half of the last length is the rule of `podbook check`; more than fivefold in a year, and more than eightfold
/// however long ago the last one was read, is a judgement of ours: seedlings grow fast, a slip of the decimal point is
/// tenfold (common practice, no source).
pub fn doubt(judged: &Judged) -> Option<Doubt> {
    let Judged {
        declared, value, ..
    } = *judged;
    if let Some((least, most)) = outside(declared, value) {
        return Some(Doubt::Unbelievable { least, most });
    }
    let is_length = matches!(declared.reads, Reads::Length(_));
    if !is_length || value <= 0.0 {
        return None;
    }
    let own = judged.last.filter(|_| !declared.of_pitcher);
    own.and_then(|last| against_own(last, value, judged.on))
        .or_else(|| against_siblings(judged))
}

fn against_own(last: &LastReading, value: f64, on: When) -> Option<Doubt> {
    let (before, when) = (last.value.filter(|before| *before > 0.0)?, last.when);
    // A second look on the same day sees a plant of the same size.
    let is_of_the_day = when == on && on.is_exact();
    if !when.surely_before(on) && !is_of_the_day {
        return None;
    }
    let (_, most) = when.days_until(on)?;
    let smaller = most <= HALF_YEAR && value < LOSES * before && before - value > SURE;
    if value < KEEPS * before || smaller {
        return Some(Doubt::Shrinks { before, when });
    }
    if most <= TWO_MONTHS && value > GAINS * before && value - before > 2.0 * SURE {
        return Some(Doubt::Grows { before, when });
    }
    let fold = match f64::from(most) <= YEAR {
        true => FOLD,
        false => GAINS_EVER,
    };
    (value > before * fold).then_some(Doubt::Grows { before, when })
}

fn against_siblings(judged: &Judged) -> Option<Doubt> {
    let mut sizes: Vec<f64> = judged
        .siblings
        .iter()
        .copied()
        .filter(|size| *size > 0.0)
        .collect();
    sizes.push(judged.value);
    if sizes.len() < FEWEST {
        return None;
    }
    let own = sizes.len() - 1;
    let far = outliers(&sizes)
        .ok()?
        .into_iter()
        .find(|far| far.place == own)?;
    match far.slip {
        Slip::Far => Some(Doubt::Far {
            typical: far.typical,
            siblings: own,
        }),
        Slip::Inches if !judged.declared.of_pitcher => Some(Doubt::Inches {
            converted: far.converted(),
        }),
        Slip::Inches => None,
    }
}
