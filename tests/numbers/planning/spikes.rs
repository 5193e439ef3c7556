//! Seed parents with several spikes, each pollen meeting some of them: every plan is one whose pods can be put on spikes, by trying
//! all ways.

use podbook::planning::price::{Limit, eased};
use podbook::planning::search::{Asked, search};
use podbook::planning::season::*;
use podbook::planning::shared_spikes::SharedSpikes;
use proptest::prelude::*;

use super::seasons::{best_value, every_plan};

/// A season, and for each pairing the spikes its pollen meets. Seed parents have one to three spikes.
#[derive(Clone, Debug)]
struct Spiked {
    season: Season,
    spikes: Vec<usize>,
    met: Vec<Vec<usize>>,
    pods_per_spike: u32,
}

fn spiked() -> impl Strategy<Value = Spiked> {
    let spikes = prop::collection::vec(1..4usize, 1..3);
    let of_pairing = (0..2usize, 0..3usize, 1..8u8, -2i32..12);
    let pairings = prop::collection::vec(of_pairing, 1..6);
    let demands = prop_oneof![2 => Just(None), 1 => (0..2usize, 0..3usize).prop_map(Some)];
    let pots = prop::option::of(1..6u64);
    (spikes, pairings, 1..3u32, demands, pots).prop_map(
        |(spikes, drawn, pods_per_spike, demand, pots)| {
            let mut met: Vec<Vec<usize>> = Vec::new();
            let mut pairings: Vec<Pairing> = Vec::new();
            for (seed, lot, mask, value) in drawn {
                let seed = seed % spikes.len();
                let of: Vec<usize> = (0..spikes[seed])
                    .filter(|at| mask & (1 << at) != 0)
                    .collect();
                let known = pairings.iter().any(|of| (of.seed, of.lot) == (seed, lot));
                if !of.is_empty() && !known {
                    // Now and then pods of unlike size, which are packed into the pots.
                    let pots = 1 + u32::from(mask == 7);
                    pairings.push(Pairing {
                        most: pods_per_spike * of.len() as u32,
                        ..Pairing::new(seed, lot, f64::from(value) / 4.0, pots)
                    });
                    met.push(of);
                }
            }
            let of_seed = |seed: usize| -> Vec<(usize, Vec<usize>)> {
                let own = (0..pairings.len()).filter(|at| pairings[*at].seed == seed);
                own.map(|at| (at, met[at].clone())).collect()
            };
            let shared = spikes.iter().enumerate().flat_map(|(seed, all)| {
                SharedSpikes::of_parent(&of_seed(seed), &vec![pods_per_spike; *all])
            });
            let demand = demand.map(|(seed, donor)| Demand {
                seed: seed % spikes.len(),
                donor,
                least: 1,
            });
            let seed_parent = |all: &usize| SeedParent {
                pods: pods_per_spike * *all as u32,
                line: None,
            };
            let season = Season {
                seed_parents: spikes.iter().map(seed_parent).collect(),
                donors: vec![
                    Donor {
                        uses: 9,
                        line: None
                    };
                    3
                ],
                lots: (0..3).map(|donor| Lot { donor, uses: 4 }).collect(),
                shared_spikes: shared.collect(),
                demands: demand.into_iter().collect(),
                limits: Limits {
                    pots,
                    ..Limits::default()
                },
                pairings,
                ..Season::default()
            };
            Spiked {
                season,
                spikes,
                met,
                pods_per_spike,
            }
        },
    )
}

impl Spiked {
    /// Whether the pods of a plan can be put on spikes: one after the other, on every spike in turn.
    fn can_be_put(&self, plan: &Plan) -> bool {
        let pods = plan.pods.iter();
        let pods: Vec<usize> = pods.flat_map(|(at, n)| vec![*at; *n as usize]).collect();
        let mut left: Vec<Vec<u32>> = self
            .spikes
            .iter()
            .map(|all| vec![self.pods_per_spike; *all])
            .collect();
        self.put(&pods, &mut left)
    }

    fn put(&self, pods: &[usize], left: &mut [Vec<u32>]) -> bool {
        let Some((&pod, rest)) = pods.split_first() else {
            return true;
        };
        let seed = self.season.pairings[pod].seed;
        self.met[pod].iter().any(|&spike| {
            if left[seed][spike] == 0 {
                return false;
            }
            left[seed][spike] -= 1;
            let can = self.put(rest, left);
            left[seed][spike] += 1;
            can
        })
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn the_best_plan_can_be_put_on_spikes(of in spiked()) {
        let without = Season { shared_spikes: Vec::new(), ..of.season.clone() };
        let mut plans = every_plan(&without);
        plans.retain(|plan| of.can_be_put(plan));
        let allowed = every_plan(&of.season);
        prop_assert_eq!(&allowed, &plans);
        let asked = Asked { plans: 4, ties: 100, ..Asked::default() };
        let found = search(&of.season, asked, &mut |_| true);
        prop_assert!(found.proved && found.all_proved, "{found:?}");
        prop_assert!(found.plans.iter().all(|plan| of.can_be_put(plan)), "{found:?}");
        prop_assert_eq!(found.plans.first().map(|plan| plan.value), best_value(&plans));
        let mut values: Vec<f64> = plans.iter().map(|plan| plan.value).collect();
        values.sort_by(|a, b| b.total_cmp(a));
        let got: Vec<f64> = found.plans.iter().map(|plan| plan.value).collect();
        let tied = values.iter().filter(|value| **value == values[0]).count();
        prop_assert_eq!(found.ties, tied);
        prop_assert_eq!(&got[..], &values[..got.len()]);
        prop_assert!(got.len() >= values.len().min(4));
        for seed in 0..of.spikes.len() {
            let more = search(&eased(&of.season, Limit::SeedParent(seed)), asked, &mut |_| true);
            let more = more.plans.first().map_or(f64::MIN, |plan| plan.value);
            prop_assert!(more >= values.first().copied().unwrap_or(f64::MIN));
        }
    }
}
