//! Rows of a proposal that belong together in the order in which they are shown.

use super::answer::SelectRow;
use super::reason::{Behind, Quota, Reason, Standing};

/// Rows next to each other with the same index: the first and the last of each run.
pub fn equal(shown: &[&SelectRow]) -> Vec<(usize, usize)> {
    let tied = |row: &SelectRow| match &row.reason {
        Reason::Standing {
            standing:
                Standing::Place {
                    place,
                    tied,
                    within,
                    ..
                },
            ..
        } if *tied > 1 => Some((*place, within.clone())),
        _ => None,
    };
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for at in 1..shown.len() {
        let same = tied(shown[at]).is_some() && tied(shown[at]) == tied(shown[at - 1]);
        match runs.last_mut() {
            Some(last) if same && last.1 + 1 == at => last.1 = at,
            _ if same => runs.push((at - 1, at)),
            _ => {}
        }
    }
    runs
}

/// From the last one kept to the last of those that are not clearly worse.
pub fn unsure(shown: &[&SelectRow]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (at, row) in shown.iter().enumerate() {
        let Reason::Standing {
            quota: Quota::Full(_, Behind::Equal(last) | Behind::NotSurely(last)),
            ..
        } = &row.reason
        else {
            continue;
        };
        let Some(from) = shown.iter().position(|row| row.plant == *last) else {
            continue;
        };
        match runs.iter_mut().find(|run| run.0 == from) {
            Some(run) => run.1 = at,
            None => runs.push((from, at)),
        }
    }
    runs
}
