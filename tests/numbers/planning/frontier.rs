//! The frontier on small seasons against all plans, and its bound where they are not listed.

use podbook::planning::budget::Budget;
use podbook::planning::frontier::{FrontierAsked, Relations, frontier, weighed};
use podbook::planning::season::*;
use proptest::prelude::*;

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
    }
}
