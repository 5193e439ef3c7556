//! Ratios: Mendel's counts (1866), small exact examples, and a listing of every string of seedlings.

use super::tables::{close, counts, number, table};
use podbook::statistics::StatisticsError;
use podbook::statistics::distribution::ln_factorial;
use podbook::statistics::multinomial::{DRAWS, Found};
use podbook::statistics::random::SplitMix64;
use podbook::statistics::ratios::ratios_not_rejected;
use podbook::statistics::segregation::ratio_test;

/// Mendel 1866, counts from memory; the group sums reproduce Fisher's table (1936, from memory) to four decimals.
#[test]
fn mendel_1866() {
    let file = table!("04_segregation.json");
    let mut sums = std::collections::BTreeMap::<&str, (f64, usize)>::new();
    for row in file["mendel_1866"].as_array().unwrap() {
        let test = ratio_test(&counts(&row["obs"]), &counts(&row["ratio"])).unwrap();
        close(test.chi_square.0, number(&row["chi2"]), 1e-12);
        close(test.chi_square.1, number(&row["p_chi2"]), 1e-11);
        close(test.g.0, number(&row["G"]), 1e-9);
        close(test.g.1, number(&row["p_G"]), 1e-9);
        assert_eq!(test.df as u64, row["df"].as_u64().unwrap());
        if let Some(expected) = row["binom_p"].as_f64() {
            close(test.p_exact, expected, 1e-8);
        }
        let group = sums.entry(row["group"].as_str().unwrap()).or_default();
        *group = (group.0 + test.chi_square.0, group.1 + test.df);
    }
    for (group, expected) in file["sums"].as_object().unwrap() {
        let (chi_square, df) = sums[group.as_str()];
        close(chi_square, number(&expected["chi2"]), 1e-12);
        assert_eq!(df as u64, expected["df"].as_u64().unwrap());
        if let Some(fisher) = expected["fisher_1936_from_memory"].as_f64() {
            assert!((chi_square - fisher).abs() < 6e-5, "{group}");
        }
    }
}

/// Exact probabilities computed by listing in an independent program; two-kind rows equal SciPy's binomial test.
#[test]
fn exact_examples() {
    for row in table!("04_segregation.json")["exact_examples"]
        .as_array()
        .unwrap()
    {
        let test = ratio_test(&counts(&row["obs"]), &counts(&row["ratio"])).unwrap();
        close(
            test.p_exact,
            number(&row["p_exact_probability_order"]),
            1e-10,
        );
        assert_eq!(test.found, Found::Listed(row["outcomes"].as_u64().unwrap()));
        close(test.chi_square.1, number(&row["p_chi2"]), 1e-11);
        close(test.g.0, number(&row["G"]), 1e-11);
    }
}

/// Wine cultivars (UCI, Forina et al. 1991): class counts against 1:1:1.
#[test]
fn wine_classes() {
    let row = &table!("04_open_data_extras.json")["wine_class_counts_vs_1_1_1"];
    let test = ratio_test(&counts(&row["obs"]), &[1, 1, 1]).unwrap();
    close(test.chi_square.1, number(&row["p_chi2"]), 1e-11);
    close(test.g.1, number(&row["p_G"]), 1e-11);
    close(
        test.p_exact,
        number(&row["p_exact_probability_order"]),
        1e-9,
    );
}

/// Twin: every string of kinds of eight seedlings, each with its own probability.
#[test]
fn equals_the_listing_of_every_string_of_seedlings() {
    let ratio = [9_u64, 3, 4];
    let seen = [3_u64, 4, 1];
    let chance = |string: usize| {
        let mut kinds = [0_u64; 3];
        (0..8).for_each(|i| kinds[string / 3_usize.pow(i) % 3] += 1);
        kinds
    };
    let of_kinds = |kinds: [u64; 3]| -> f64 {
        (0..3)
            .map(|i| (ratio[i] as f64 / 16.0).powi(kinds[i] as i32))
            .product::<f64>()
    };
    let mut by_kinds = std::collections::BTreeMap::<[u64; 3], f64>::new();
    (0..3_usize.pow(8))
        .map(chance)
        .for_each(|kinds| *by_kinds.entry(kinds).or_default() += of_kinds(kinds));
    let p: f64 = by_kinds
        .values()
        .filter(|&&p| p <= by_kinds[&seen] * (1.0 + 1e-7))
        .sum();
    close(ratio_test(&seen, &ratio).unwrap().p_exact, p, 1e-11);
}

/// Six kinds, expected counts from 2.5 to 60: 8 million outcomes, so the probability is drawn. It must agree with
/// drawing every plant's kind by itself, another way and another seed.
#[test]
fn sampling_agrees_with_drawing_plant_by_plant() {
    let (counts, ratio) = ([50_u64, 12, 14, 6, 4, 4], [24_u64, 4, 4, 2, 1, 1]);
    let test = ratio_test(&counts, &ratio).unwrap();
    assert_eq!(test.found, Found::Sampled(DRAWS));
    assert_eq!(
        ratio_test(&counts, &ratio).unwrap(),
        test,
        "the same every time"
    );
    let ln_chance = |counts: &[u64]| -> f64 {
        counts
            .iter()
            .zip(ratio)
            .map(|(&k, part)| k as f64 * (part as f64).ln() - ln_factorial(k))
            .sum()
    };
    let (mut random, mut as_rare) = (SplitMix64::new(62), 0);
    for _ in 0..20_000 {
        let mut drawn = [0_u64; 6];
        for _ in 0..90 {
            let mut at = random.below(36) as u64;
            let kind = ratio
                .iter()
                .position(|&part| {
                    if at < part {
                        true
                    } else {
                        at -= part;
                        false
                    }
                })
                .unwrap();
            drawn[kind] += 1;
        }
        as_rare += i32::from(ln_chance(&drawn) <= ln_chance(&counts) + 1e-7);
    }
    assert!(
        (test.p_exact - f64::from(as_rare) / 20_000.0).abs() < 0.012,
        "{test:?} {as_rare}"
    );
}

#[test]
fn many_plants_are_left_to_chi_square() {
    let test = ratio_test(&[300, 120, 95, 41], &[9, 3, 3, 1]).unwrap();
    assert_eq!(
        (test.found, test.p()),
        (Found::ByChiSquare, test.chi_square.1)
    );
    assert!(matches!(
        ratio_test(&[u64::MAX, 1], &[1, 1]),
        Err(StatisticsError::OutOfRange { .. })
    ));
    assert!(matches!(
        ratio_test(&[5, 1], &[u64::MAX, 1]),
        Err(StatisticsError::OutOfRange { .. })
    ));
}

#[test]
fn a_dozen_seedlings_fit_many_ratios() {
    // SciPy's binomial test: 13:3 p = 0.057, 15:1 p = 0.0005, 1:3 p = 0.014.
    let kept = ratios_not_rejected(&[7, 5], 0.05).unwrap();
    let ratios: Vec<&[u64]> = kept.iter().map(|(ratio, _)| ratio.as_slice()).collect();
    assert_eq!(
        ratios,
        [
            &[1, 1][..],
            &[2, 1],
            &[1, 2],
            &[3, 1],
            &[9, 7],
            &[7, 9],
            &[13, 3]
        ]
    );
    let three = ratios_not_rejected(&[6, 9, 5], 0.05).unwrap();
    assert!(three.iter().any(|(ratio, _)| ratio == &[1, 2, 1]));
    assert!(
        ratios_not_rejected(&[1, 2, 3, 4, 5], 0.05)
            .unwrap()
            .is_empty()
    );
}

#[test]
fn awkward_counts() {
    assert_eq!(
        ratio_test(&[0, 0], &[3, 1]),
        Err(StatisticsError::TooFew {
            found: 0,
            needed: 1
        })
    );
    assert_eq!(
        ratio_test(&[5], &[1]),
        Err(StatisticsError::TooFew {
            found: 1,
            needed: 2
        })
    );
    assert_eq!(
        ratio_test(&[5, 1], &[1, 1, 1]),
        Err(StatisticsError::Unpaired { left: 2, right: 3 })
    );
    assert!(ratio_test(&[5, 1], &[1, 0]).is_err());
    assert_eq!(ratio_test(&[1, 0], &[1, 1]).unwrap().p(), 1.0);
    assert!(ratio_test(&[1_000_000, 1_000_000], &[1, 1]).unwrap().p() > 0.99);
}
