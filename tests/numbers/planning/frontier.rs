//! The frontier on small seasons against all plans, and its bound where they are not listed.

use podbook::planning::budget::Budget;
use podbook::planning::frontier::{FrontierAsked, Relations, all_plans, frontier, weighed};
use podbook::planning::season::*;
use proptest::prelude::*;

use super::nursery::nursery;
use super::seasons::*;

/// A kinship with ½ on the diagonal and little beside it, which is one whatever is drawn.
fn kinship(parents: usize, drawn: &[u32]) -> Vec<f64> {
    let mut table = vec![0.0; parents * parents];
    for i in 0..parents {
        for j in 0..parents {
            let near = f64::from(drawn[(i.min(j) * 7 + i.max(j)) % drawn.len()]) / 64.0;
            table[i * parents + j] = if i == j { 0.5 } else { near };
        }
    }
    table
}

fn fixed(season: &Season, pods: u32) -> Season {
    let mut fixed = season.clone();
    (fixed.limits.fewest_pods, fixed.limits.most_pods) = (pods, Some(pods));
    fixed
}

/// Steps used up, or a wish to stop: what was not reached is named, and nothing is claimed of it.
#[test]
fn what_the_budget_does_not_reach_is_named() {
    let season = nursery((12, 12), 150, 5);
    let parents = 24;
    let kinship: Vec<f64> = (0..parents * parents)
        .map(|at| {
            if at % (parents + 1) == 0 {
                0.5
            } else {
                0.01 * (at % 7) as f64
            }
        })
        .collect();
    let relations = Relations { kinship: &kinship };
    let weights = [0.0, 200.0, 2_000.0];
    let asked = FrontierAsked {
        pods: 8,
        weights: &weights,
        listed: 100,
    };
    let told = |steps: u64, looks: u32| {
        let mut left = looks;
        let mut on = |_| {
            left = left.saturating_sub(1);
            left > 0
        };
        frontier(&season, &relations, asked, &mut Budget::new(steps, &mut on))
    };
    let full = told(u64::MAX, u32::MAX);
    assert!(full.unreached.is_empty() && !full.exact && full.points.len() > 1);
    for cut in [told(u64::MAX, 1), told(0, u32::MAX)] {
        assert_eq!(cut.unreached, weights);
        assert!(cut.points.is_empty());
    }
    // Somewhere between nothing and everything the steps suffice for some weights.
    let some = |steps: u64| (1..3).contains(&told(steps, u32::MAX).unreached.len());
    let steps = (6..40).map(|bits| 1 << bits).find(|&steps| some(steps));
    let steps = steps.expect("a number of steps that reaches some weights");
    let some = told(steps, u32::MAX);
    assert_eq!(
        some,
        told(steps, u32::MAX),
        "the same steps, the same answer"
    );
    assert!(!some.points.is_empty());
}

/// A plan found by weighing is one no single move betters, and its bound holds, against all plans counted through.
#[test]
fn weighed_plans_against_all_plans() {
    for seed in 0..8 {
        let mut season = nursery((4, 4), 90, seed);
        if seed % 2 == 1 {
            // Only kinship tells plans apart: very many lie under one tangent.
            season
                .pairings
                .iter_mut()
                .for_each(|pairing| pairing.value = 1.0);
        }
        let kin =
            |a: usize, b: usize| 0.04 * ((a.min(b) * 5 + a.max(b) * 3 + seed as usize) % 6) as f64;
        let kinship: Vec<f64> = (0..64)
            .map(|at| {
                if at / 8 == at % 8 {
                    0.5
                } else {
                    kin(at / 8, at % 8)
                }
            })
            .collect();
        let relations = Relations { kinship: &kinship };
        let plans = all_plans(&fixed(&season, 5), 100_000, &mut || true).unwrap();
        for weight in [0.0, 60.0, 600.0] {
            let mut on = |_| true;
            let mut budget = Budget::new(u64::MAX, &mut on);
            let Some(found) = weighed(&season, &relations, (5, weight), &mut budget) else {
                assert!(plans.is_empty());
                continue;
            };
            let objective = |plan: &Plan| {
                let point = relations.point(&season, plan.clone());
                point.gain - weight * point.coancestry
            };
            let best = plans
                .iter()
                .map(objective)
                .fold(f64::NEG_INFINITY, f64::max);
            assert!(
                found.objective <= best + 1e-9 && found.bound >= best - 1e-9,
                "{seed} {weight}"
            );
            let pods = dense(&season, &found.point.plan);
            for plan in plans
                .iter()
                .filter(|plan| apart(&pods, &dense(&season, plan)) == 2)
            {
                assert!(
                    objective(plan) <= found.objective + 1e-9,
                    "{seed} {weight}: {plan:?}"
                );
            }
        }
    }
}

fn dense(season: &Season, plan: &Plan) -> Vec<u32> {
    let mut pods = vec![0; season.pairings.len()];
    plan.pods.iter().for_each(|&(at, n)| pods[at] = n);
    pods
}

fn apart(one: &[u32], other: &[u32]) -> u32 {
    one.iter().zip(other).map(|(a, b)| a.abs_diff(*b)).sum()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, ..ProptestConfig::default() })]

    #[test]
    fn no_plan_beats_the_frontier_or_the_bound(
        season in small_season(), pods in 1..4u32, drawn in prop::collection::vec(0..5u32, 21), weight in 0..60u32,
    ) {
        let kinship = kinship(season.seed_parents.len() + season.donors.len(), &drawn);
        let relations = Relations { kinship: &kinship };
        let plans = every_plan(&fixed(&season, pods));
        let points: Vec<_> = plans.into_iter().map(|plan| relations.point(&season, plan)).collect();
        let asked = FrontierAsked { pods, weights: &[], listed: 100_000 };
        let mut on = |_| true;
        let mut budget = Budget::new(u64::MAX, &mut on);
        let found = frontier(&season, &relations, asked, &mut budget);
        prop_assert!(found.exact);
        prop_assert_eq!(found.points.is_empty(), points.is_empty());
        for point in &points {
            let matched = found.points.iter().any(|p| p.gain >= point.gain && p.coancestry <= point.coancestry + 1e-12);
            prop_assert!(matched, "{:?}", point);
        }
        let weight = f64::from(weight);
        let best = points.iter().map(|p| p.gain - weight * p.coancestry).max_by(f64::total_cmp);
        let found = weighed(&season, &relations, (pods, weight), &mut budget);
        prop_assert_eq!(found.is_some(), best.is_some());
        if let (Some(found), Some(best)) = (found, best) {
            prop_assert!(found.bound >= best - 1e-9 && found.objective <= best + 1e-9);
        }
        let asked = FrontierAsked { pods, weights: &[0.0, weight, 60.0], listed: 0 };
        let found = frontier(&season, &relations, asked, &mut budget);
        prop_assert!(!found.exact);
        for listed in &found.points {
            for point in &points {
                let gain = point.coancestry > listed.coancestry + 1e-12 || point.gain <= listed.gain + found.gap + 1e-9;
                let kin = point.gain < listed.gain - 1e-12 || point.coancestry >= listed.coancestry - found.kinship_gap - 1e-9;
                prop_assert!(gain && kin, "{:?} against {:?}", point, listed);
            }
        }
    }
}
