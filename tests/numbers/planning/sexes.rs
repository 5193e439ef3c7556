//! Chances of sexes against counts through every outcome, with the unknown share of females summed over a fine grid.

use podbook::planning::sexes::{BELIEF, ShareOfFemales, Wanted, flowered_by};
use podbook::statistics::proportion::both_sexes;

const BOTH: Wanted = Wanted {
    female: true,
    male: true,
};

/// Weights of shares of females on a grid: the density pᵃ⁻¹(1 − p)ᵇ⁻¹, summed to 1.
fn grid(females: u64, males: u64) -> Vec<(f64, f64)> {
    let (a, b) = (0.5 * BELIEF + females as f64, 0.5 * BELIEF + males as f64);
    let points = (0..20_000).map(|at| (f64::from(at) + 0.5) / 20_000.0);
    let weights: Vec<(f64, f64)> = points
        .map(|p| (p, p.powf(a - 1.0) * (1.0 - p).powf(b - 1.0)))
        .collect();
    let sum: f64 = weights.iter().map(|(_, w)| w).sum();
    weights.into_iter().map(|(p, w)| (p, w / sum)).collect()
}

/// Every plant shows nothing, a female or a male: all 3ⁿ outcomes.
fn slow(flowered: &[f64], p: f64, wanted: Wanted) -> f64 {
    let outcomes = 3usize.pow(flowered.len() as u32);
    let mut sum = 0.0;
    for outcome in 0..outcomes {
        let (mut rest, mut chance) = (outcome, 1.0);
        let (mut female, mut male) = (false, false);
        for q in flowered {
            chance *= [1.0 - q, q * p, q * (1.0 - p)][rest % 3];
            (female, male) = (female || rest % 3 == 1, male || rest % 3 == 2);
            rest /= 3;
        }
        let enough = (female || !wanted.female) && (male || !wanted.male);
        sum += if enough { chance } else { 0.0 };
    }
    sum
}

#[test]
fn chances_are_those_of_every_outcome() {
    let chances = [0.25, 1.0, 0.6, 0.0, 0.9];
    for (females, males) in [(0, 0), (0, 3), (7, 2), (40, 0)] {
        let share = ShareOfFemales::seen(females, males);
        let grid = grid(females, males);
        let mean: f64 = grid.iter().map(|(p, w)| p * w).sum();
        assert!((share.female() - mean).abs() < 1e-9);
        let unlike: f64 = grid.iter().map(|(p, w)| 2.0 * p * (1.0 - p) * w).sum();
        assert!((share.unlike() - unlike).abs() < 1e-7);
        for n in 0..=chances.len() {
            for (female, male) in [(true, true), (true, false), (false, true), (false, false)] {
                let wanted = Wanted { female, male };
                let slow: f64 = grid
                    .iter()
                    .step_by(1)
                    .map(|(p, w)| w * slow(&chances[..n], *p, wanted))
                    .sum();
                let own = share.shown(&chances[..n], wanted);
                assert!(
                    (own - slow).abs() < 1e-7,
                    "{n} {wanted:?}: {own} against {slow}"
                );
            }
        }
    }
}

/// One of each among six at one to one is 97 %; not knowing the share, it is a little less.
#[test]
fn an_unknown_share_costs_a_little() {
    for plants in 2..12 {
        let sure = both_sexes(plants, 1, 0.5).unwrap();
        let own = ShareOfFemales::seen(0, 0).holds(plants as usize, BOTH);
        assert!(
            own < sure && own > sure - 0.04,
            "{plants}: {own} against {sure}"
        );
        let many = ShareOfFemales::seen(1_000_000, 1_000_000).holds(plants as usize, BOTH);
        assert!((many - sure).abs() < 1e-5);
    }
    assert_eq!(ShareOfFemales::seen(0, 0).holds(0, BOTH), 0.0);
    assert_eq!(ShareOfFemales::seen(0, 0).holds(1, BOTH), 0.0);
}

/// Three males seen and four plants left: 1 − (13·14·15·16)/(23·24·25·26), worked by hand.
#[test]
fn three_males_in_a_row_make_a_female_less_likely() {
    let share = ShareOfFemales::seen(0, 3);
    let own = share.holds(
        4,
        Wanted {
            female: true,
            male: false,
        },
    );
    assert!((own - (1.0 - 43_680.0 / 358_800.0)).abs() < 1e-12);
    assert!((share.female() - 10.0 / 23.0).abs() < 1e-15);
}

#[test]
fn first_flowers_come_evenly_between_the_ages_known() {
    let ages = (3.0, 5.0);
    assert_eq!(flowered_by((1.0, 2.9), ages), 0.0);
    assert_eq!(flowered_by((1.0, 4.0), ages), 0.5);
    assert_eq!(flowered_by((1.0, 5.0), ages), 1.0);
    // Not in flower at four, so half of the time is gone.
    assert_eq!(flowered_by((4.0, 4.5), ages), 0.5);
    assert_eq!(flowered_by((6.0, 6.5), ages), 1.0, "late already: at once");
    assert_eq!(flowered_by((6.0, 6.0), ages), 0.0, "no time passes");
    assert_eq!(flowered_by((2.0, 4.0), (4.0, 4.0)), 1.0, "one age known");
    assert_eq!(flowered_by((2.0, 3.9), (4.0, 4.0)), 0.0);
}
