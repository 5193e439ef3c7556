//! How a part of all plans is split into smaller ones that share no plan.

use super::dual::Judged;
use super::relax::{Domain, Priced};
use super::units::Question;

/// All plans of a domain but the best one, each part with a bound; parts that cannot reach `needed` are left out.
pub(super) fn around(
    question: &Question,
    domain: &Domain,
    best: &Priced,
    needed: i64,
) -> Vec<(Domain, i64)> {
    let free = |at: &usize| domain.least[*at] < domain.most[*at];
    let mut order: Vec<usize> = (0..question.choices.len()).filter(free).collect();
    order.sort_by_key(|&at| (best.sent[at] == 0, at));
    let mut parts = Vec::new();
    let mut rest = domain.clone();
    for at in order {
        let sent = best.sent[at];
        if sent > domain.least[at] {
            let mut fewer = rest.clone();
            fewer.most[at] = sent - 1;
            parts.push((fewer, best.bound));
        }
        let loss = if sent == domain.least[at] {
            best.loss[at]
        } else {
            0
        };
        let bound = best.bound.saturating_sub(loss);
        if sent < domain.most[at] && bound >= needed {
            let mut more = rest.clone();
            more.least[at] = sent + 1;
            parts.push((more, bound));
        }
        (rest.least[at], rest.most[at]) = (sent, sent);
    }
    parts
}

/// A domain cut in two at a choice on which two good plans differ, or that makes the plan break a limit.
pub(super) fn halves(question: &Question, domain: &Domain, judged: &Judged) -> Vec<(Domain, i64)> {
    let best = &judged.best.sent;
    let Some((at, low)) = differing(question, best, judged.other.as_deref())
        .filter(|&(at, low)| domain.least[at] <= low && low < domain.most[at])
        .or_else(|| breaking(question, domain, best))
    else {
        return Vec::new();
    };
    let (mut lower, mut upper) = (domain.clone(), domain.clone());
    lower.most[at] = low;
    upper.least[at] = low + 1;
    let more = if low + 1 > best[at] && best[at] == domain.least[at] {
        judged.best.loss[at]
    } else {
        0
    };
    let bound = judged.best.bound;
    vec![(lower, bound), (upper, bound.saturating_sub(more))]
}

/// The choice with the greatest difference in value, and the smaller of its two numbers of pods.
fn differing(question: &Question, best: &[u32], other: Option<&[u32]>) -> Option<(usize, u32)> {
    let other = other?;
    let apart = |at: usize| {
        i64::from(best[at].abs_diff(other[at])) * question.choices[at].value.abs().max(1)
    };
    let widest = (0..best.len()).max_by_key(|&at| (apart(at), std::cmp::Reverse(at)))?;
    (apart(widest) > 0).then(|| (widest, best[widest].min(other[widest])))
}

/// The choice that weighs most on a limit that is broken; else any that is still free.
fn breaking(question: &Question, domain: &Domain, best: &[u32]) -> Option<(usize, u32)> {
    let broken = (0..question.capacities.len()).find(|&load| question.room(load, best) < 0);
    let weight = |at: usize| broken.map_or(0, |load| question.choices[at].loads[load]);
    let fewer = (0..best.len()).filter(|&at| best[at] > domain.least[at]);
    let fewer = fewer.max_by_key(|&at| (weight(at), std::cmp::Reverse(at)));
    let more = || (0..best.len()).find(|&at| best[at] < domain.most[at]);
    fewer
        .map(|at| (at, best[at] - 1))
        .or_else(|| more().map(|at| (at, best[at])))
}
