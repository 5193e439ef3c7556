//! What a search is asked, what it tells on the way and what it answers.

use super::super::season::Plan;
use super::super::units::TIE;

/// The part of the best pod's value within which plans count as worth the same.
pub const SAME_WORTH: f64 = TIE;

/// What is asked for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Asked {
    /// How many plans, best first; at least 1.
    pub plans: usize,
    /// Count plans worth as much as the best, up to this many; 0 to leave ties uncounted.
    pub ties: usize,
    /// Most networks to solve.
    pub steps: u64,
}

impl Default for Asked {
    fn default() -> Self {
        Self {
            plans: 1,
            ties: 0,
            steps: 1_000_000,
        }
    }
}

/// How far the search is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Progress {
    /// Networks solved.
    pub steps: u64,
    /// Value of the best plan so far.
    pub best: Option<f64>,
    /// No plan is worth more.
    pub bound: f64,
}

/// The answer.
#[derive(Clone, PartialEq, Debug)]
pub struct Found {
    /// Plans, best first: plans worth the same (to a millionth of the best pod's value) by mean inbreeding, then
    /// by pods that may not meet, then by guessed sexes, then by the age of their pollen, then by pairing numbers. Empty if no plan keeps every limit, or none was found before the search was stopped.
    pub plans: Vec<Plan>,
    /// No plan is worth more than this.
    pub bound: f64,
    /// Whether the first plan is proved to be the best (or, without plans, that there is none).
    pub proved: bool,
    /// Whether the other plans are proved to be the next best, and ties are counted in full.
    pub all_proved: bool,
    /// Plans worth as much as the first, itself included; at least so many when `all_proved` is false or the limit asked
    /// for is reached. 0 if ties were not asked for.
    pub ties: usize,
    /// Networks solved.
    pub steps: u64,
}
