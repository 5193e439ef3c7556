//! How a part of all plans is split into smaller ones that share no plan.

use super::super::domain::Domain;
use super::super::lagrangian_bound::Relaxation;
use super::super::relax::Priced;
use super::super::units::IntegerModel;
use super::part::{Changes, Part};

/// All plans of a part but the best one, each smaller part with a bound; parts that cannot reach `needed` are left out.
///
/// Murty's partition (1968), over those choices alone in which a plan worth at least `needed` can differ from the best.
pub(super) fn around(
    (part, domain): (&Part, &Domain),
    best: &Priced,
    needed: i64,
    changes: &mut Changes,
) -> Vec<Part> {
    let more_bound = |at: usize| {
        let sent = best.sent[at];
        let loss = if sent == domain.least[at] {
            best.loss[at]
        } else {
            0
        };
        best.bound.saturating_sub(loss)
    };
    let fewer = |at: usize| best.sent[at] > domain.least[at];
    let more = |at: usize| best.sent[at] < domain.most[at] && more_bound(at) >= needed;
    let differs = |at: &usize| fewer(*at) || more(*at);
    let mut order: Vec<usize> = (0..best.sent.len()).filter(differs).collect();
    order.sort_by_key(|&at| (best.sent[at] == 0, at));
    let mut parts = Vec::new();
    let mut rest = part.changes;
    for at in order {
        let (sent, range) = (best.sent[at], (domain.least[at], domain.most[at]));
        if fewer(at) {
            let fewer = changes.with(rest, at, (range.0, sent - 1));
            parts.push(part.smaller(fewer, best.bound));
        }
        if more(at) {
            let more = changes.with(rest, at, (sent + 1, range.1));
            parts.push(part.smaller(more, more_bound(at)));
        }
        rest = changes.with(rest, at, (sent, sent));
    }
    parts
}

/// A part cut in two at a choice on which two good plans differ, or that makes the plan break a limit.
pub(super) fn halves(
    model: &IntegerModel,
    (part, domain): (&Part, &Domain),
    relaxation: &Relaxation,
    changes: &mut Changes,
) -> Vec<Part> {
    let best = &relaxation.best.sent;
    let cuts = |&(at, low): &(usize, u32)| domain.least[at] <= low && low < domain.most[at];
    let Some((at, low)) = (relaxation.branch.filter(cuts))
        .or_else(|| differing(model, best, relaxation.others.last()).filter(cuts))
        .or_else(|| breaking(model, domain, best))
    else {
        return Vec::new();
    };
    let range = (domain.least[at], domain.most[at]);
    let more = if low + 1 > best[at] && best[at] == domain.least[at] {
        relaxation.best.loss[at]
    } else {
        0
    };
    let bound = relaxation.best.bound;
    let mut half = |range, bound| Part {
        prices: relaxation.prices.clone(),
        ..part.smaller(changes.with(part.changes, at, range), bound)
    };
    vec![
        half((range.0, low), bound),
        half((low + 1, range.1), bound.saturating_sub(more)),
    ]
}

/// The choice with the greatest difference in value, and the smaller of its two numbers of pods.
fn differing(model: &IntegerModel, best: &[u32], other: Option<&Vec<u32>>) -> Option<(usize, u32)> {
    let other = other?;
    let apart =
        |at: usize| i64::from(best[at].abs_diff(other[at])) * model.choices[at].value.abs().max(1);
    let widest = (0..best.len()).max_by_key(|&at| (apart(at), std::cmp::Reverse(at)))?;
    (apart(widest) > 0).then(|| (widest, best[widest].min(other[widest])))
}

/// The choice that weighs most on a limit that is broken; else any that is still free.
fn breaking(model: &IntegerModel, domain: &Domain, best: &[u32]) -> Option<(usize, u32)> {
    let broken = (0..model.capacities.len()).find(|&load| model.room(load, best) < 0);
    let crowded = model.crowded_spikes(best);
    let weight = |at: usize| match (broken, crowded) {
        (Some(load), _) => model.choices[at].loads[load],
        (None, Some(set)) => i64::from(model.choices[at].spikes.contains(&set)),
        (None, None) => 0,
    };
    let fewer = (0..best.len()).filter(|&at| best[at] > domain.least[at]);
    let fewer = fewer.max_by_key(|&at| (weight(at), std::cmp::Reverse(at)));
    let more = || (0..best.len()).find(|&at| best[at] < domain.most[at]);
    fewer
        .map(|at| (at, best[at] - 1))
        .or_else(|| more().map(|at| (at, best[at])))
}
