//! Brute force on small seasons: every answer against a count through all plans.

use podbook::planning::frontier::all_plans;
use podbook::planning::search::{Asked, SAME_WORTH, search};
use podbook::planning::season::*;
use proptest::prelude::*;

use super::seasons::*;

fn asked(plans: usize, ties: usize) -> Asked {
    Asked {
        plans,
        ties,
        ..Asked::default()
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn the_best_plan_is_the_best(season in small_season()) {
        let plans = every_plan(&season);
        let found = search(&season, asked(1, 0), &mut |_| true);
        prop_assert!(found.proved);
        match best_value(&plans) {
            None => prop_assert!(found.plans.is_empty()),
            Some(best) => {
                prop_assert!((found.plans[0].value - best).abs() < 1e-9, "{:?} against {}", found, best);
                prop_assert!(season.allows(&found.plans[0]));
                let least = plans.iter().filter(|p| p.value > best - 1e-9).map(|p| p.mean_inbreeding * f64::from(p.total));
                let least = least.fold(f64::INFINITY, f64::min);
                let own = found.plans[0].mean_inbreeding * f64::from(found.plans[0].total);
                prop_assert!(own <= least + 1e-9, "least inbred of the best");
            }
        }
    }

    #[test]
    fn what_must_be_made_may_come_from_any_envelope(season in season_of_envelopes()) {
        let plans = every_plan(&season);
        let found = search(&season, asked(4, 0), &mut |_| true);
        prop_assert!(found.proved && found.all_proved);
        let mut values: Vec<f64> = plans.iter().map(|plan| plan.value).collect();
        values.sort_by(|a, b| b.total_cmp(a));
        let mut got: Vec<f64> = found.plans.iter().map(|plan| plan.value).collect();
        got.sort_by(|a, b| b.total_cmp(a));
        prop_assert_eq!(got.len(), values.len().min(4));
        for (value, got) in values.iter().zip(&got) {
            prop_assert!((value - got).abs() < 1e-9, "{:?} against {:?}", values, found);
        }
        for plan in &found.plans {
            prop_assert!(season.allows(plan));
        }
    }

    #[test]
    fn runners_up_and_ties_are_all_there(season in small_season()) {
        let plans = every_plan(&season);
        let found = search(&season, asked(6, 10_000), &mut |_| true);
        prop_assert!(found.proved && found.all_proved);
        prop_assert_eq!(found.plans.len(), plans.len().min(6));
        let mut values: Vec<f64> = plans.iter().map(|plan| plan.value).collect();
        values.sort_by(|a, b| b.total_cmp(a));
        let mut got: Vec<f64> = found.plans.iter().map(|plan| plan.value).collect();
        got.sort_by(|a, b| b.total_cmp(a));
        for (value, got) in values.iter().zip(&got) {
            prop_assert!((value - got).abs() < 1e-9);
        }
        let largest = season.pairings.iter().filter(|p| season.open(p)).map(|p| p.value.abs()).fold(0.0, f64::max);
        let largest = if largest > 0.0 { largest } else { 1.0 };
        let tied = values.iter().filter(|value| **value >= values[0] - SAME_WORTH * largest).count();
        prop_assert_eq!(found.ties, tied);
        let distinct: std::collections::BTreeSet<_> = found.plans.iter().map(|p| p.pods.clone()).collect();
        prop_assert_eq!(distinct.len(), found.plans.len());
    }

    #[test]
    fn all_plans_are_listed(season in small_season()) {
        let mut slow: Vec<Vec<(usize, u32)>> = every_plan(&season).into_iter().map(|p| p.pods).collect();
        let listed = all_plans(&season, 1_000_000, &mut || true).unwrap();
        let mut listed: Vec<Vec<(usize, u32)>> = listed.into_iter().map(|p| p.pods).collect();
        slow.sort();
        listed.sort();
        prop_assert_eq!(slow, listed);
    }

    #[test]
    fn stopped_early_the_bound_still_holds(season in small_season(), after in 0..6u32) {
        let mut left = after;
        let found = search(&season, asked(3, 0), &mut |_| { left = left.saturating_sub(1); left > 0 });
        let best = best_value(&every_plan(&season));
        if let (Some(best), false) = (best, found.proved) {
            prop_assert!(found.bound >= best - 1e-9, "{:?} against {}", found, best);
        }
        if let (Some(plan), Some(best)) = (found.plans.first(), best) {
            prop_assert!(season.allows(plan) && plan.value <= best + 1e-9);
        }
    }
}

/// One male with two envelopes, each enough for one pod; two females must both be made with him.
#[test]
fn two_demands_on_one_male_use_both_his_envelopes() {
    let mut season = Season {
        seed_parents: vec![
            SeedParent {
                pods: 1,
                line: None
            };
            2
        ],
        donors: vec![Donor {
            uses: 9,
            line: None,
        }],
        lots: vec![Lot { donor: 0, uses: 1 }; 2],
        ..Season::default()
    };
    for seed in 0..2 {
        season
            .pairings
            .extend((0..2).map(|lot| Pairing::new(seed, lot, 1.0, 1)));
        season.demands.push(Demand {
            seed,
            donor: 0,
            least: 1,
        });
    }
    let found = search(&season, Asked::default(), &mut |_| true);
    assert!(found.proved);
    assert_eq!(found.plans[0].total, 2);
    // With one envelope it cannot be, and that is proved.
    season.lots[1].uses = 0;
    let found = search(&season, Asked::default(), &mut |_| true);
    assert!(found.proved && found.plans.is_empty());
}

#[test]
fn nothing_to_plan() {
    let found = search(&Season::default(), Asked::default(), &mut |_| true);
    assert!(found.proved);
    assert_eq!(found.plans.len(), 1, "to do nothing is a plan");
    assert_eq!(found.plans[0].total, 0);
    assert!(
        found.plans[0].value.is_sign_positive(),
        "nothing is worth 0, not −0"
    );
}

#[test]
fn what_cannot_be_is_said_to_be_impossible() {
    let mut season = Season {
        seed_parents: vec![SeedParent {
            pods: 1,
            line: None,
        }],
        donors: vec![Donor {
            uses: 1,
            line: None,
        }],
        lots: vec![Lot { donor: 0, uses: 1 }],
        pairings: vec![Pairing::new(0, 0, 1.0, 3)],
        ..Season::default()
    };
    season.limits.fewest_pods = 2;
    let found = search(&season, Asked::default(), &mut |_| true);
    assert!(found.proved && found.plans.is_empty());
}

/// A line to keep makes a pod of a loss; only one of it is wanted beside the pod that is worth something.
#[test]
fn no_more_is_made_at_a_loss_than_a_line_needs() {
    let parent = |pods, line| SeedParent { pods, line };
    let donor = |uses, line| Donor { uses, line };
    let lot = |donor, uses| Lot { donor, uses };
    let mut season = Season {
        seed_parents: vec![parent(2, None), parent(0, Some(0)), parent(3, Some(0))],
        donors: vec![donor(2, Some(1)), donor(2, Some(0)), donor(3, None)],
        lots: vec![lot(0, 1), lot(0, 1), lot(1, 3)],
        pairings: vec![
            Pairing::new(0, 2, -0.25, 1),
            Pairing::new(2, 0, 0.75, 3),
            Pairing::new(0, 0, -0.25, 1),
        ],
        ..Season::default()
    };
    for (pairing, most) in season.pairings.iter_mut().zip([2, 1, 1]) {
        pairing.most = most;
    }
    season.limits.pots = Some(5);
    season.limits.fewest_pods = 2;
    season.limits.lines_through_pollen = vec![0];
    let found = search(&season, asked(1, 0), &mut |_| true);
    assert_eq!(
        Some(found.plans[0].value),
        best_value(&every_plan(&season)),
        "{found:?}"
    );
}
