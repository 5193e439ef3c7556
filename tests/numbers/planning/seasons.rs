//! Seasons to plan: the worked one of the table, and small ones drawn by lot.

use podbook::planning::season::*;
use proptest::prelude::*;
use serde_json::Value;

pub fn table() -> Value {
    serde_json::from_str(include_str!("../data/06_planning.json")).unwrap()
}

/// `a/b` as a number.
pub fn fraction(text: &Value) -> f64 {
    let (a, b) = text.as_str().unwrap().split_once('/').unwrap();
    a.parse::<f64>().unwrap() / b.parse::<f64>().unwrap()
}

pub const FEMALES: [&str; 4] = ["F_a", "F_b", "F_c", "F_d"];
pub const MALES: [&str; 4] = ["M_a", "M_b", "M_c", "M_d"];

pub fn merit(table: &Value, plant: &str) -> f64 {
    table["optimal_contributions"]["instance"]["index"][plant]
        .as_f64()
        .unwrap()
}

/// The four by four season of the table: four pods, values divided by them, `weight` on inbreeding.
pub fn worked(table: &Value, weight: f64) -> Season {
    let plan = &table["integer_pod_plan"];
    let count = |of: &str, plant: &str| plan[of][plant].as_u64().unwrap() as u32;
    let mut season = Season {
        seed_parents: FEMALES
            .map(|f| SeedParent {
                pods: count("female_caps", f),
                line: None,
            })
            .to_vec(),
        donors: MALES
            .map(|m| Donor {
                uses: count("male_caps", m),
                line: None,
            })
            .to_vec(),
        lots: (0..4).map(|donor| Lot { donor, uses: 100 }).collect(),
        ..Season::default()
    };
    (season.limits.fewest_pods, season.limits.most_pods) = (4, Some(4));
    for (f, female) in FEMALES.iter().enumerate() {
        for (m, male) in MALES.iter().enumerate() {
            let inbreeding = fraction(&plan["pair_F"][f][m]);
            let mean = 0.5 * (merit(table, female) + merit(table, male));
            let mut pairing = Pairing::new(f, m, (mean - weight * inbreeding) / 4.0, 1);
            pairing.inbreeding = inbreeding;
            season.pairings.push(pairing);
        }
    }
    season
}

/// A plan as the table writes it.
pub fn written(season: &Season, plan: &Plan) -> Vec<String> {
    let pods = plan.pods.iter().flat_map(|&(at, n)| {
        let pairing = &season.pairings[at];
        let name = format!("{}x{}", FEMALES[pairing.seed], MALES[pairing.lot]);
        std::iter::repeat_n(name, n as usize)
    });
    pods.collect()
}

/// Every plan a season allows, by counting through them all: the slow and obvious twin.
pub fn every_plan(season: &Season) -> Vec<Plan> {
    let n = season.pairings.len();
    let most = |at: usize| {
        let pairing = &season.pairings[at];
        pairing.most.min(season.seed_parents[pairing.seed].pods)
    };
    let mut pods = vec![0u32; n];
    let mut plans = Vec::new();
    loop {
        let given = (0..n)
            .filter(|&at| pods[at] > 0)
            .map(|at| (at, pods[at]))
            .collect();
        let plan = season.plan(given);
        if season.allows(&plan) {
            plans.push(plan);
        }
        let Some(at) = (0..n).find(|&at| pods[at] < most(at)) else {
            return plans;
        };
        pods[..at].fill(0);
        pods[at] += 1;
    }
}

/// The best value over a list of plans.
pub fn best_value(plans: &[Plan]) -> Option<f64> {
    plans.iter().map(|plan| plan.value).max_by(f64::total_cmp)
}

fn pairing(seeds: usize, lots: usize) -> impl Strategy<Value = Pairing> {
    let who = (0..seeds, 0..lots, -4i32..24, 0..5u32);
    let limits = (1..6u32, 0..8u32, 0..10u32, 1..3u32);
    (who, limits).prop_map(
        |((seed, lot, value, kin), (pots, kept, ruled_out, most))| Pairing {
            inbreeding: f64::from(kin) / 16.0,
            kinship: f64::from(kept) / 32.0,
            most,
            forbidden: ruled_out == 0,
            ..Pairing::new(seed, lot, f64::from(value) / 4.0, pots)
        },
    )
}

fn limits() -> impl Strategy<Value = Limits> {
    let lines = || prop_oneof![3 => Just(vec![]), 1 => Just(vec![0]), 1 => Just(vec![0, 1])];
    let numbers = (
        prop::option::of(2..14u64),
        0..3u32,
        prop::option::of(2..6u32),
    );
    let caps = (prop::option::of(0..4u32), prop::option::of(0..8u32));
    (numbers, caps, lines(), lines()).prop_map(
        |((pots, fewest_pods, most_pods), (inbred, kin), seed, pollen)| Limits {
            pots,
            fewest_pods,
            most_pods,
            inbreeding: inbred.map(|f| f64::from(f) / 16.0),
            mean_kinship: kin.map(|k| f64::from(k) / 32.0),
            lines_through_seed: seed,
            lines_through_pollen: pollen,
        },
    )
}

fn demand(seeds: usize, donors: usize) -> impl Strategy<Value = Demand> {
    (0..seeds, 0..donors, 0..3u32).prop_map(|(seed, donor, least)| Demand { seed, donor, least })
}

/// Seasons in which every female meets every envelope, each male has several, and some pairs must be made: up to eight
/// pairings.
pub fn season_of_envelopes() -> impl Strategy<Value = Season> {
    let shape = prop_oneof![
        Just((2usize, 4usize)),
        Just((2, 3)),
        Just((1, 4)),
        Just((3, 2))
    ];
    shape
        .prop_flat_map(|(seeds, lots)| {
            let pairs = prop::collection::vec((-4i32..24, 0..5u32, 1..6u32), seeds * lots);
            let envelopes = prop::collection::vec((0..2usize, 1..3u32), lots);
            let demands = prop::collection::vec(demand(seeds, 2), 1..4);
            let bounds = (1..4u32, 1..5u32, limits());
            (Just((seeds, lots)), pairs, envelopes, demands, bounds)
        })
        .prop_map(
            |((seeds, lots), pairs, envelopes, demands, (pods, uses, limits))| Season {
                chosen_at: Vec::new(),
                shared_spikes: Vec::new(),
                seed_parents: vec![SeedParent { pods, line: None }; seeds],
                donors: vec![
                    Donor {
                        uses,
                        line: Some(0)
                    };
                    2
                ],
                lots: envelopes
                    .into_iter()
                    .map(|(donor, uses)| Lot { donor, uses })
                    .collect(),
                pairings: pairs
                    .into_iter()
                    .enumerate()
                    .map(|(at, (value, kin, pots))| Pairing {
                        inbreeding: f64::from(kin) / 16.0,
                        most: 2,
                        ..Pairing::new(at / lots, at % lots, f64::from(value) / 4.0, pots)
                    })
                    .collect(),
                demands,
                limits: Limits {
                    lines_through_seed: Vec::new(),
                    ..limits
                },
            },
        )
}

/// Seasons small enough to count through: up to three by three parents, seven pairings.
pub fn small_season() -> impl Strategy<Value = Season> {
    let line = || prop::option::of(0..2u32);
    let seeds = prop::collection::vec((0..4u32, line()), 1..4);
    let donors = prop::collection::vec((0..4u32, line()), 1..4);
    (seeds, donors)
        .prop_flat_map(|(seeds, donors)| {
            let lots = prop::collection::vec((0..donors.len(), 0..4u32), 1..4);
            (Just(seeds), Just(donors), lots).prop_flat_map(|(seeds, donors, lots)| {
                let pairings = prop::collection::vec(pairing(seeds.len(), lots.len()), 0..8);
                let demands = prop_oneof![
                    3 => Just(Vec::new()),
                    1 => prop::collection::vec(demand(seeds.len(), donors.len()), 1..3)
                ];
                let parents = (Just(seeds), Just(donors), Just(lots));
                (parents, pairings, demands, limits())
            })
        })
        .prop_map(
            |((seeds, donors, lots), pairings, demands, limits)| Season {
                chosen_at: Vec::new(),
                shared_spikes: Vec::new(),
                seed_parents: seeds
                    .into_iter()
                    .map(|(pods, line)| SeedParent { pods, line })
                    .collect(),
                donors: donors
                    .into_iter()
                    .map(|(uses, line)| Donor { uses, line })
                    .collect(),
                lots: lots
                    .into_iter()
                    .map(|(donor, uses)| Lot { donor, uses })
                    .collect(),
                pairings,
                demands,
                limits,
            },
        )
}
