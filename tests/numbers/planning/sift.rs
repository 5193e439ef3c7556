//! What is sifted out of a season never mattered: the best plans without it are the best plans with it.

use podbook::planning::search::{Asked, Found, search};
use podbook::planning::season::*;
use podbook::planning::sift::{Pair, Sift, Wanted};
use proptest::prelude::*;

const PLANS: usize = 4;

/// Seven by seven plants in three lines, each donor with one or two lots, values in a few steps so that there are ties,
/// some of them below 0, which only a line that must be kept calls for.
fn season() -> impl Strategy<Value = Season> {
    let plant = (
        0..2u32,
        prop_oneof![Just(None), Just(Some(0)), Just(Some(1))],
    );
    let plants = || prop::collection::vec(plant.clone(), 7);
    let pairs = prop::collection::vec((-20..40i32, 0..4u32), 49);
    let lots = prop::collection::vec(1..3usize, 7);
    let lines = prop_oneof![Just(vec![]), Just(vec![0]), Just(vec![1, 0])];
    let limits = (1..4u32, lines.clone(), lines);
    (plants(), plants(), lots, pairs, limits).prop_map(|(seeds, donors, lots, pairs, limits)| {
        let lot = |(donor, count): (usize, usize)| std::iter::repeat_n(donor, count);
        let lots = lots.into_iter().enumerate().flat_map(lot);
        let lots: Vec<Lot> = lots.map(|donor| Lot { donor, uses: 2 }).collect();
        let pairings = (0..7).flat_map(|seed| (0..lots.len()).map(move |lot| (seed, lot)));
        let pairing = |(seed, lot): (usize, usize)| {
            let (value, inbreeding) = pairs[7 * seed + lots[lot].donor];
            Pairing {
                inbreeding: f64::from(inbreeding) / 16.0,
                ..Pairing::new(seed, lot, f64::from(value) / 4.0, 10)
            }
        };
        let (pods, seed_lines, donor_lines) = limits;
        Season {
            pairings: pairings.map(pairing).collect(),
            seed_parents: (seeds.into_iter())
                .map(|(pods, line)| SeedParent {
                    pods: pods + 1,
                    line,
                })
                .collect(),
            donors: (donors.into_iter())
                .map(|(uses, line)| Donor {
                    uses: uses + 1,
                    line,
                })
                .collect(),
            lots,
            limits: Limits {
                pots: Some(u64::from(pods) * 10 + 5),
                lines_through_seed: seed_lines,
                lines_through_pollen: donor_lines,
                ..Limits::default()
            },
            ..Season::default()
        }
    })
}

/// The season with the pairings the sift keeps; pairs are offered from the last to the first.
fn sifted(season: &Season, wanted: Wanted) -> Season {
    let (seed_line, donor_line) = season.places_of_lines();
    let lines = season.limits.lines_through_pollen.len();
    let mut sift = Sift::new(wanted, lines, &seed_line, &donor_line);
    let donor = |pairing: &Pairing| season.lots[pairing.lot].donor;
    let mut offered = Vec::new();
    for pairing in season.pairings.iter().rev() {
        let pair = Pair {
            seed: pairing.seed as u32,
            donor: donor(pairing) as u32,
            value: pairing.value,
            inbreeding: pairing.inbreeding,
            may_not_meet: pairing.may_not_meet,
        };
        if !offered.contains(&(pair.seed, pair.donor)) {
            offered.push((pair.seed, pair.donor));
            sift.offer(pair, 0.0);
        }
    }
    let kept: Vec<(usize, usize)> = (sift.kept().iter())
        .map(|pair| (pair.seed as usize, pair.donor as usize))
        .collect();
    let mut few = season.clone();
    few.pairings
        .retain(|pairing| kept.contains(&(pairing.seed, donor(pairing))));
    few
}

fn best(season: &Season) -> Found {
    let asked = Asked {
        plans: PLANS,
        ..Asked::default()
    };
    search(season, asked, &mut |_| true)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn the_best_plans_are_still_there(season in season()) {
        let pods = season.most_pods(10) as usize;
        let few = sifted(&season, Wanted { pods: pods.max(1), plans: PLANS });
        let (all, found) = (best(&season), best(&few));
        prop_assert!(all.all_proved && found.all_proved);
        let values = |found: &Found| -> Vec<f64> {
            found.plans.iter().map(|plan| plan.value).collect()
        };
        prop_assert_eq!(values(&all), values(&found), "{} of {}", few.pairings.len(), season.pairings.len());
    }
}

/// Of pairs worth the same and as inbred those that surely meet are kept, also where they come last.
#[test]
fn of_equals_those_that_surely_meet_are_kept() {
    let wanted = Wanted { pods: 1, plans: 2 };
    let (seeds, donors) = (vec![None; 1], vec![None; 100]);
    let mut sift = Sift::new(wanted, 0, &seeds, &donors);
    for donor in 0..100 {
        let pair = Pair {
            seed: 0,
            donor,
            value: 1.0,
            inbreeding: 0.0,
            may_not_meet: donor < 98,
        };
        sift.offer(pair, 0.0);
    }
    let kept: Vec<u32> = sift.kept().iter().map(|pair| pair.donor).collect();
    assert_eq!(kept, [98, 99]);
}

/// A season in which one pod fits: of a thousand donors as many as plans are wanted can matter, of equals the first.
#[test]
fn of_many_donors_few_are_kept() {
    let wanted = Wanted { pods: 1, plans: 3 };
    let (seeds, donors) = (vec![None; 50], vec![None; 1_000]);
    let mut sift = Sift::new(wanted, 0, &seeds, &donors);
    for seed in 0..50 {
        for donor in 0..1_000 {
            let value = if seed == 7 { 2.0 } else { 1.0 };
            sift.offer(
                Pair {
                    seed,
                    donor,
                    value,
                    inbreeding: 0.0,
                    may_not_meet: false,
                },
                0.0,
            );
        }
    }
    let kept = sift.kept();
    assert!(kept.iter().all(|pair| pair.donor < 3), "{kept:?}");
    assert!(kept.iter().filter(|pair| pair.seed == 7).count() == 3);
    assert!(kept.len() <= 3 * 3, "{}", kept.len());
}
