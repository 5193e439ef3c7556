//! What a choice is expected to pass on: how far those kept stand above their siblings, and how much of that their
//! seedlings inherit at a stated heritability.

use crate::analysis::select::answer::{Proposal, SelectResponse, SelectRow};
use crate::analysis::select::known::Known;
use crate::analysis::select::rules::Counted;
use crate::registry::Registry;
use crate::statistics::heritability::response;

/// Heritabilities shown in brackets beside the stated one (a judgement: low and high for sizes and colours of plants).
pub const LOW_AND_HIGH: (f64, f64) = (0.2, 0.6);

/// Every trait of every cross in which some of those read are kept and some are not.
pub(crate) fn responses(
    registry: &Registry,
    known: &[Known],
    traits: &[Counted],
    (rows, heritability): (&[SelectRow], f64),
) -> Vec<SelectResponse> {
    let mut told = Vec::new();
    for of in known {
        for (at, counted) in traits.iter().enumerate() {
            let again = traits[..at].iter().any(|before| before.row == counted.row);
            let differential = differential(of, at, rows).filter(|_| !again);
            let Some((read, kept, differential)) = differential else {
                continue;
            };
            let share = |heritability| response(differential, heritability).unwrap_or(0.0);
            let (a, b) = (share(LOW_AND_HIGH.0), share(LOW_AND_HIGH.1));
            told.push(SelectResponse {
                cross: of.scope.code(registry),
                of: counted.unit.heading(),
                read,
                kept,
                above_siblings: differential,
                in_seedlings: share(heritability),
                in_seedlings_between: (a.min(b), a.max(b)),
                decimals: counted.unit.decimals.max(1),
            });
        }
    }
    told
}

/// Plants read, those kept among them, and how far these stand above the mean of their age.
fn differential(of: &Known, at: usize, rows: &[SelectRow]) -> Option<(usize, usize, f64)> {
    let keeps = |plant: usize| {
        let mut mine = rows.iter().filter(|row| row.row == of.plants[plant]);
        mine.any(|row| row.proposal == Proposal::Keep)
    };
    let (mut read, mut above) = (0, Vec::new());
    for cohort in &of.cohorts {
        let values = cohort.plants.iter();
        let values: Vec<(usize, f64)> = values
            .filter_map(|&plant| Some((plant, of.readings[at][plant]?)))
            .collect();
        let mean = values.iter().map(|(_, value)| value).sum::<f64>() / values.len().max(1) as f64;
        read += values.len();
        let kept = values.iter().filter(|(plant, _)| keeps(*plant));
        above.extend(kept.map(|(_, value)| value - mean));
    }
    let kept = above.len();
    (kept > 0 && kept < read).then(|| (read, kept, above.iter().sum::<f64>() / kept as f64))
}
