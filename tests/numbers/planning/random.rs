//! Seasons too large to count through, against a general integer solver.

use podbook::planning::search::{Asked, search};
use podbook::planning::season::{Demand, Lot, Pairing, Season};

use super::nursery::{Draw, nursery};
use super::solver::{General, Solver};

/// Whether there is a plan at all; both must say the same.
fn agree(season: &Season) -> bool {
    let found = search(season, Asked::default(), &mut |_| true);
    assert!(found.proved, "{} steps", found.steps);
    let general = General.best(season);
    match (found.plans.first(), general) {
        (None, None) => {}
        (Some(plan), Some(best)) => {
            assert!(season.allows(plan));
            assert!(
                (plan.value - best).abs() < 1e-5,
                "own {}, general {best}",
                plan.value
            );
        }
        both => panic!("{both:?}"),
    }
    !found.plans.is_empty()
}

#[test]
fn pots_alone() {
    for seed in 0..6 {
        agree(&nursery((8, 8), 90, seed));
    }
}

#[test]
fn pots_lines_and_a_cap_on_inbreeding() {
    for seed in 10..16 {
        let mut season = nursery((8, 7), 90, seed);
        season.limits.inbreeding = Some(0.125);
        (
            season.limits.lines_through_seed,
            season.limits.lines_through_pollen,
        ) = (vec![0, 1, 2], vec![0, 2]);
        agree(&season);
    }
}

/// A second envelope of every male, and some pairs that must be made of either.
fn with_envelopes(mut season: Season, seed: u64) -> Season {
    let males = season.lots.len();
    season
        .lots
        .extend((0..males).map(|donor| Lot { donor, uses: 1 }));
    let again = |pairing: &Pairing| Pairing {
        lot: pairing.lot + males,
        ..pairing.clone()
    };
    let second: Vec<Pairing> = season.pairings.iter().map(again).collect();
    season.pairings.extend(second);
    let mut draw = Draw(seed);
    let (females, males) = (season.seed_parents.len() as u32, males as u32);
    season.demands = (0..4)
        .map(|_| Demand {
            seed: draw.below(females) as usize,
            donor: draw.below(males.min(3)) as usize,
            least: 1,
        })
        .collect();
    season
}

#[test]
fn what_must_be_made_of_several_envelopes() {
    let mut possible = 0;
    for seed in 40..48 {
        let season = with_envelopes(nursery((6, 5), 75, seed), seed);
        possible += usize::from(agree(&season));
    }
    assert!(
        (3..8).contains(&possible),
        "some can be made, some cannot: {possible}"
    );
}

/// Prices alone would never tell: under a load that cannot be kept the bound falls without end.
#[test]
fn what_the_pots_forbid_is_proved_impossible_at_once() {
    let mut season = nursery((8, 8), 200, 3);
    season.limits.fewest_pods = 10;
    let sizes = |season: &Season| -> u64 {
        let mut sizes: Vec<u64> = Vec::new();
        for (seed, parent) in season.seed_parents.iter().enumerate() {
            let pots = season
                .pairings
                .iter()
                .find(|p| p.seed == seed)
                .map(|p| u64::from(p.pots));
            sizes.extend(std::iter::repeat_n(pots.unwrap(), parent.pods as usize));
        }
        sizes.sort_unstable();
        sizes[..10].iter().sum()
    };
    // The ten smallest pods there can be, and one pot less.
    season.limits.pots = Some(sizes(&season));
    let found = search(&season, Asked::default(), &mut |_| true);
    assert!(found.proved && found.plans[0].total == 10);
    season.limits.pots = Some(sizes(&season) - 1);
    let found = search(&season, Asked::default(), &mut |_| true);
    assert!(
        found.proved && found.plans.is_empty() && found.steps < 100,
        "{} steps",
        found.steps
    );
}

#[test]
fn pots_and_mean_kinship() {
    for seed in 20..26 {
        let mut season = nursery((7, 7), 80, seed);
        season.limits.mean_kinship = Some(0.08);
        season.limits.fewest_pods = 3;
        agree(&season);
    }
}

#[test]
fn many_pods_from_few_plants() {
    for seed in 30..34 {
        let mut season = nursery((5, 5), 400, seed);
        season
            .seed_parents
            .iter_mut()
            .for_each(|parent| parent.pods = 9);
        season.donors.iter_mut().for_each(|parent| parent.uses = 12);
        season.lots.iter_mut().for_each(|lot| lot.uses = 12);
        agree(&season);
    }
}

#[test]
fn the_same_season_gives_the_same_answer_in_any_order_of_asking() {
    let season = nursery((9, 9), 100, 77);
    let one = search(
        &season,
        Asked {
            plans: 5,
            ties: 20,
            ..Asked::default()
        },
        &mut |_| true,
    );
    let again = search(
        &season,
        Asked {
            plans: 5,
            ties: 20,
            ..Asked::default()
        },
        &mut |_| true,
    );
    assert_eq!(one, again);
    let alone = search(&season, Asked::default(), &mut |_| true);
    assert_eq!(alone.plans[0].value, one.plans[0].value);
    assert!(
        one.plans
            .windows(2)
            .all(|pair| pair[0].value >= pair[1].value - 1e-3)
    );
}

#[test]
fn a_budget_of_steps_stops_cleanly() {
    let season = nursery((12, 12), 150, 5);
    let full = search(&season, Asked::default(), &mut |_| true);
    let short = search(
        &season,
        Asked {
            steps: 3,
            ..Asked::default()
        },
        &mut |_| true,
    );
    assert!(full.proved && !short.proved);
    assert!(short.bound >= full.plans[0].value - 1e-9);
    let plan = short
        .plans
        .first()
        .expect("a plan made to fit is there from the start");
    assert!(season.allows(plan) && plan.value <= full.plans[0].value + 1e-9);
    assert!(!short.proved && short.bound > short.plans[0].value);
    assert!(full.proved && full.bound == full.plans[0].value);
}
