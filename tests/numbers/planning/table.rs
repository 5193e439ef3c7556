//! `06_planning.json`: the four by four season counted through by an independent program, and the assignment.

use podbook::planning::budget::Budget;
use podbook::planning::frontier::{Point, Relations, all_plans, undominated, weighed};
use podbook::planning::search::{Asked, Found, search};
use podbook::planning::season::*;
use serde_json::Value;

use super::seasons::*;

fn solved(season: &Season, plans: usize, ties: usize) -> Found {
    let asked = Asked {
        plans,
        ties,
        ..Asked::default()
    };
    let found = search(season, asked, &mut |_| true);
    assert!(found.proved && found.all_proved, "{found:?}");
    found
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

#[test]
fn plans_with_a_weight_on_inbreeding() {
    let table = table();
    let plan = &table["integer_pod_plan"];
    assert_eq!(
        every_plan(&worked(&table, 0.0)).len() as u64,
        plan["feasible_plans"].as_u64().unwrap()
    );
    for row in plan["linear"].as_array().unwrap() {
        let season = worked(&table, number(&row["lambda_F"]));
        let found = solved(&season, 1, 100);
        let best = &found.plans[0];
        assert_eq!(best.value, number(&row["objective"]), "{row}");
        assert_eq!(found.bound, best.value);
        assert_eq!(
            found.ties as u64,
            row["n_optimal"].as_u64().unwrap(),
            "{row}"
        );
        if found.ties == 1 {
            let a_plan: Vec<&str> = row["a_plan"]
                .as_array()
                .unwrap()
                .iter()
                .map(|p| p.as_str().unwrap())
                .collect();
            assert_eq!(written(&season, best), a_plan);
            assert_eq!(best.mean_inbreeding, number(&row["mean_F"]));
        }
    }
}

#[test]
fn of_plans_worth_the_same_the_least_inbred() {
    // The four best plans at weight 0 differ in inbreeding only; the table's list of three objectives names the least.
    let table = table();
    let season = worked(&table, 0.0);
    let found = solved(&season, 4, 100);
    assert_eq!(
        written(&season, &found.plans[0]),
        ["F_axM_b", "F_bxM_b", "F_cxM_a", "F_cxM_a"]
    );
    assert_eq!(found.plans[0].mean_inbreeding, 0.15625);
    // Without counting ties the same plan comes first.
    assert_eq!(solved(&season, 1, 0).plans[0], found.plans[0]);
    assert!(found.plans.iter().all(|plan| plan.value == 9.1875));
    assert!(
        found
            .plans
            .windows(2)
            .all(|pair| pair[0].mean_inbreeding <= pair[1].mean_inbreeding)
    );
}

#[test]
fn a_hard_cap_on_inbreeding() {
    let table = table();
    let mut season = worked(&table, 0.0);
    season.limits.inbreeding = Some(0.125);
    let hard = &table["integer_pod_plan"]["hard_cap_F_le_1_8"];
    let plans = every_plan(&season);
    assert_eq!(plans.len() as u64, hard["feasible"].as_u64().unwrap());
    let found = solved(&season, 10, 10);
    assert_eq!(
        found.plans.len(),
        plans.len(),
        "all of them are found, no more"
    );
    assert_eq!(found.plans[0].value, number(&hard["best_gain"]));
    let least = season
        .pairings
        .iter()
        .map(|p| p.inbreeding)
        .fold(1.0, f64::min);
    assert_eq!(least, number(&hard["min_pair_F"]));
}

fn kinship(table: &Value) -> Vec<f64> {
    let rows = table["optimal_contributions"]["instance"]["kinship_exact"]
        .as_array()
        .unwrap();
    rows.iter()
        .flat_map(|row| row.as_array().unwrap())
        .map(fraction)
        .collect()
}

fn points(table: &Value, season: &Season) -> Vec<Point> {
    let kinship = kinship(table);
    let relations = Relations { kinship: &kinship };
    let plans = all_plans(season, 10_000, &mut || true).unwrap();
    plans
        .into_iter()
        .map(|plan| {
            let mut point = relations.point(season, plan);
            // The table's values are divided by the pods already.
            point.gain = point.plan.value;
            point
        })
        .collect()
}

#[test]
fn plans_with_a_weight_on_group_coancestry() {
    let table = table();
    let season = worked(&table, 0.0);
    let points = points(&table, &season);
    for row in table["integer_pod_plan"]["quadratic"].as_array().unwrap() {
        let weight = number(&row["lambda_coancestry"]);
        let objective = |point: &&Point| point.gain - weight * point.coancestry;
        let best = points.iter().map(|point| objective(&point));
        let best = best.fold(f64::NEG_INFINITY, f64::max);
        assert!((best - number(&row["objective"])).abs() < 1e-12, "{row}");
        let tied: Vec<&Point> = points
            .iter()
            .filter(|point| objective(point) >= best - 1e-9)
            .collect();
        assert_eq!(tied.len() as u64, row["n_optimal"].as_u64().unwrap());
        let of_table = |point: &&&Point| {
            point.gain == number(&row["gain"])
                && (point.coancestry - number(&row["group_coancestry"])).abs() < 1e-12
        };
        assert!(tied.iter().any(|point| of_table(&point)), "{row}");
    }
}

#[test]
fn without_listing_all_plans_the_weighed_one_is_as_good() {
    let table = table();
    let mut season = worked(&table, 0.0);
    season
        .pairings
        .iter_mut()
        .for_each(|pairing| pairing.value *= 4.0);
    let kinship = kinship(&table);
    let relations = Relations { kinship: &kinship };
    for row in table["integer_pod_plan"]["quadratic"].as_array().unwrap() {
        let exact = number(&row["objective"]);
        let (weight, mut on) = (number(&row["lambda_coancestry"]), |_| true);
        let mut budget = Budget::new(u64::MAX, &mut on);
        let found = weighed(&season, &relations, (4, weight), &mut budget).unwrap();
        assert!(
            found.bound >= exact - 1e-9,
            "the bound holds: {found:?} {row}"
        );
        assert!((found.objective - exact).abs() < 1e-9, "{found:?} {row}");
    }
}

#[test]
fn the_frontier_of_gain_and_coancestry() {
    let table = table();
    let season = worked(&table, 0.0);
    let found = undominated(points(&table, &season));
    let expected = table["integer_pod_plan"]["pareto_gain_vs_coancestry"]
        .as_array()
        .unwrap();
    assert_eq!(found.len(), expected.len());
    for (point, row) in found.iter().zip(expected) {
        assert_eq!(
            (point.gain, point.coancestry),
            (number(&row["gain"]), number(&row["coancestry"]))
        );
    }
}

#[test]
fn plans_no_other_beats_in_three_respects() {
    // Gain, group coancestry and mean inbreeding: no plan of the list beats a listed one in all three.
    let table = table();
    let season = worked(&table, 0.0);
    let points = points(&table, &season);
    let three = |p: &Point| [-p.gain, p.coancestry, p.plan.mean_inbreeding];
    let beaten = |p: &Point| {
        let of = three(p);
        points.iter().any(|q| {
            let other = three(q);
            other != of && other.iter().zip(&of).all(|(a, b)| a <= b)
        })
    };
    let mut left: Vec<[f64; 3]> = points.iter().filter(|p| !beaten(p)).map(three).collect();
    left.sort_by(|a, b| a.partial_cmp(b).unwrap());
    left.dedup();
    let mut expected: Vec<[f64; 3]> = table["integer_pod_plan"]["pareto_three_objectives"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| {
            [
                -number(&row["gain"]),
                number(&row["coancestry"]),
                number(&row["mean_F"]),
            ]
        })
        .collect();
    expected.sort_by(|a, b| a.partial_cmp(b).unwrap());
    assert_eq!(left, expected);
}

fn assignment(table: &Value) -> Season {
    let mut season = Season {
        seed_parents: vec![
            SeedParent {
                pods: 1,
                line: None
            };
            6
        ],
        donors: vec![
            Donor {
                uses: 1,
                line: None
            };
            6
        ],
        lots: (0..6).map(|donor| Lot { donor, uses: 1 }).collect(),
        ..Season::default()
    };
    season.limits.fewest_pods = 6;
    for seed in 0..6 {
        for lot in 0..6 {
            let cost = fraction(&table["assignment_6x6"]["cost"][seed][lot]);
            season.pairings.push(Pairing {
                inbreeding: cost,
                ..Pairing::new(seed, lot, -cost, 1)
            });
        }
    }
    season
}

#[test]
fn the_assignment_of_six_to_six() {
    let table = table();
    let wanted = &table["assignment_6x6"];
    let season = assignment(&table);
    let found = solved(&season, 1, 50);
    assert_eq!(found.plans[0].value, -fraction(&wanted["min_total"]));
    assert_eq!(
        found.ties as u64,
        wanted["optimal_permutations"].as_u64().unwrap()
    );
    let males: Vec<u64> = found.plans[0]
        .pods
        .iter()
        .map(|&(at, _)| season.pairings[at].lot as u64)
        .collect();
    let expected: Vec<u64> = wanted["an_optimum"]
        .as_array()
        .unwrap()
        .iter()
        .map(|m| m.as_u64().unwrap())
        .collect();
    assert_eq!(males, expected);
}

#[test]
fn the_least_highest_inbreeding_of_six_pairs() {
    let table = table();
    let mut season = assignment(&table);
    let mut caps: Vec<f64> = season.pairings.iter().map(|p| p.inbreeding).collect();
    caps.sort_by(f64::total_cmp);
    let least = caps.into_iter().find(|&cap| {
        season.limits.inbreeding = Some(cap);
        !solved(&season, 1, 0).plans.is_empty()
    });
    assert_eq!(
        least,
        Some(fraction(&table["assignment_6x6"]["bottleneck_min_max"]))
    );
}
