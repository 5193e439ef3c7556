//! Pods whose spread is left out where it is scaled by what the parents' ancestry predicts, and why.

use crate::wording::{counted, listed};
use serde::Serialize;

/// Pods that were read and whose spread does not count, by the reason.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug, Serialize)]
pub struct SetAside {
    /// Pods of which only several possible pairs of parents are known.
    pub one_of_several: usize,
    /// Pods of which a parent is not known.
    pub parent_unknown: usize,
    /// Readings in all of them.
    pub readings: usize,
}

impl SetAside {
    /// How many pods.
    pub fn pods(self) -> usize {
        self.one_of_several + self.parent_unknown
    }

    /// Which pods were set aside and why; `None` without any.
    pub fn words(self) -> Option<String> {
        let pods = self.pods();
        let why = [
            (self.one_of_several, "parents one of several"),
            (self.parent_unknown, "a parent not known"),
        ];
        let why = why.iter().filter(|(n, _)| *n > 0);
        let why: Vec<String> = why.map(|(n, why)| format!("{why} in {n}")).collect();
        (pods > 0).then(|| {
            format!(
                "{} set aside ({}): {}",
                counted(pods, "pod", "pods"),
                counted(self.readings, "reading", "readings"),
                listed(&why)
            )
        })
    }
}
