//! What a limit costs is the gain of the season without it.

use podbook::planning::budget::Budget;
use podbook::planning::price::{Limit, eased, prices, reached};
use podbook::planning::search::{Asked, search};
use proptest::prelude::*;

use super::nursery::nursery;
use super::seasons::*;

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn prices_are_the_gain_of_the_eased_season(season in small_season()) {
        let found = search(&season, Asked::default(), &mut |_| true);
        if let Some(best) = found.plans.first() {
            let mut on = |_| true;
            let told = prices(&season, best, 1_000_000, &mut Budget::new(u64::MAX, &mut on));
            prop_assert!(told.unreached.is_empty());
            for price in told.priced {
                let counted = best_value(&every_plan(&eased(&season, price.limit))).unwrap();
                prop_assert!((best.value + price.gain - counted).abs() < 1e-9, "{:?}", price);
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, ..ProptestConfig::default() })]

    #[test]
    fn every_demand_that_costs_something_is_told(season in season_of_envelopes()) {
        let found = search(&season, Asked::default(), &mut |_| true);
        if let Some(best) = found.plans.first() {
            let list = reached(&season, best);
            for at in 0..season.demands.len() {
                let without = best_value(&every_plan(&eased(&season, Limit::Must(at)))).unwrap();
                prop_assert!(without <= best.value + 1e-9 || list.contains(&Limit::Must(at)));
            }
        }
    }
}

/// A wish to stop ends the search under way and all that would follow, also when it is not told again.
#[test]
fn a_wish_to_stop_is_kept() {
    let season = nursery((20, 20), 150, 1);
    let mut looks = 0;
    let mut once = |_| {
        looks += 1;
        looks != 1
    };
    let mut budget = Budget::new(u64::MAX, &mut once);
    let found = budget.search(&season, Asked::default());
    assert!(!found.proved);
    assert!(!budget.goes_on());
    assert!(!budget.search(&season, Asked::default()).proved);
}

#[test]
fn what_the_budget_does_not_reach_is_named() {
    let table = table();
    let mut season = worked(&table, 0.0);
    season.limits.inbreeding = Some(0.125);
    let found = search(&season, Asked::default(), &mut |_| true);
    let list = reached(&season, &found.plans[0]);
    let mut stop = |_| false;
    let none = prices(
        &season,
        &found.plans[0],
        100,
        &mut Budget::new(u64::MAX, &mut stop),
    );
    assert_eq!((none.priced.len(), none.unreached), (0, list.clone()));
    let mut on = |_| true;
    let some = prices(&season, &found.plans[0], 100, &mut Budget::new(3, &mut on));
    assert!(!some.priced.is_empty() && !some.unreached.is_empty());
    assert_eq!(some.priced.len() + some.unreached.len(), list.len());
}

/// A price cut short lies between what was found and what could be.
#[test]
fn a_price_cut_short_is_a_range_that_holds() {
    for seed in 0..6 {
        let season = nursery((10, 10), 120, seed);
        let best = search(&season, Asked::default(), &mut |_| true)
            .plans
            .remove(0);
        let mut on = |_| true;
        let short = prices(&season, &best, 4, &mut Budget::new(u64::MAX, &mut on));
        let full = prices(
            &season,
            &best,
            1_000_000,
            &mut Budget::new(u64::MAX, &mut on),
        );
        for price in &short.priced {
            let true_price = full
                .priced
                .iter()
                .find(|full| full.limit == price.limit)
                .unwrap();
            assert!(true_price.proved && true_price.most == true_price.gain);
            assert!(
                price.gain <= true_price.gain + 1e-9 && true_price.gain <= price.most + 1e-9,
                "{price:?}"
            );
        }
        assert!(
            short.priced.iter().any(|price| !price.proved),
            "some are cut short"
        );
    }
}

#[test]
fn the_cap_of_the_table_costs_its_gain() {
    // 9.1875 without the cap of 1/8 on inbreeding, 6.6875 with it.
    let table = table();
    let mut season = worked(&table, 0.0);
    season.limits.inbreeding = Some(0.125);
    let found = search(&season, Asked::default(), &mut |_| true);
    let list = reached(&season, &found.plans[0]);
    let mut on = |_| true;
    let prices = prices(
        &season,
        &found.plans[0],
        100_000,
        &mut Budget::new(u64::MAX, &mut on),
    );
    let prices = prices.priced;
    assert_eq!(list.len(), prices.len());
    let cap = prices
        .iter()
        .find(|p| p.limit == podbook::planning::price::Limit::Inbreeding)
        .unwrap();
    assert_eq!(cap.gain, 2.5);
}
