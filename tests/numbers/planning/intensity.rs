//! The best of so many: `06_selection_intensity_finite.csv` (numerical integration in SciPy), the usefulness rows of
//! `06_planning.json`, the counts growers quote.

use podbook::planning::intensity::*;
use podbook::statistics::distribution::normal_quantile;
use podbook::statistics::heritability::heritability_within;
use podbook::statistics::proportion::both_sexes;

use super::seasons::table;

fn close(found: f64, expected: f64, within: f64) {
    assert!(
        (found - expected).abs() <= within,
        "found {found}, expected {expected}"
    );
}

#[test]
fn every_row_of_the_table() {
    let text = include_str!("../data/06_selection_intensity_finite.csv");
    let mut rows = 0;
    for line in text.lines().skip(1) {
        let cells: Vec<Option<f64>> = line.split(',').map(|cell| cell.parse().ok()).collect();
        let n = cells[0].unwrap() as u32;
        close(expected_best(n), cells[1].unwrap(), 1e-10);
        for (column, kept) in [(3, 2), (4, 3), (5, 5)] {
            if let Some(mean) = cells[column] {
                let best = (1..=kept).map(|rank| expected_rank(n, rank));
                close(best.sum::<f64>() / f64::from(kept), mean, 1e-10);
            }
        }
        // Blom's approximation (1958) is only near; the exact value must lie beside it, not on it.
        let blom = normal_quantile((f64::from(n) - 0.375) / (f64::from(n) + 0.25));
        close(blom, cells[6].unwrap(), 1e-9);
        close(expected_best(n), blom, 0.03);
        rows += 1;
    }
    assert!(rows >= 36, "{rows} rows");
}

#[test]
fn closed_forms() {
    // Order statistics of two, three and four to five normal values in closed form (textbook; Godwin 1949 for five).
    let pi = std::f64::consts::PI;
    close(expected_best(2), 1.0 / pi.sqrt(), 1e-13);
    close(expected_best(3), 1.5 / pi.sqrt(), 1e-13);
    close(
        expected_best(4),
        3.0 / pi.sqrt() * (0.5 + (1.0_f64 / 3.0).asin() / pi),
        1e-12,
    );
    close(
        expected_best(5),
        2.5 / pi.sqrt() * (0.5 + 3.0 * (1.0_f64 / 3.0).asin() / pi),
        1e-12,
    );
    assert_eq!(expected_rank(3, 0), 0.0);
    assert_eq!(expected_rank(3, 4), 0.0);
}

#[test]
fn large_numbers_stay_sound() {
    // Cramér's asymptote (1946) for the mean of the largest of very many.
    let n = 1_000_000_u32;
    let best = expected_best(n);
    assert!(best > 4.86 && best < 4.87, "{best}");
    assert!(expected_best(u32::MAX) > 6.2 && expected_best(u32::MAX) < 6.4);
}

#[test]
fn usefulness_rows() {
    let table = table();
    for row in table["usefulness"].as_array().unwrap() {
        let number = |name: &str| row[name].as_f64().unwrap();
        let genetic = number("Vg_within");
        // Of any variance inside a species, here 81, and its heritability in those units.
        let inside = 81.0 / (81.0 + number("Ve"));
        let accuracy = heritability_within(genetic / 81.0, inside).sqrt();
        close(accuracy, number("h"), 1e-12);
        let n = row["n"].as_u64().unwrap() as u32;
        close(expected_best(n), number("i"), 1e-10);
        close(
            usefulness(number("mean"), n, accuracy, genetic.sqrt()),
            number("UC"),
            1e-9,
        );
        let perfect = usefulness(number("mean"), n, 1.0, genetic.sqrt());
        close(perfect, number("superior_progeny_perfect"), 1e-9);
    }
}

#[test]
fn both_sexes_among_few() {
    // 94, 97 and 99 % of five, six and eight: arithmetic on 1 : 1.
    for (n, percent) in [(5, 93.8), (6, 96.9), (8, 99.2)] {
        close(100.0 * chance_of_both_sexes(n), percent, 0.05);
    }
    for n in 0..40 {
        let slow = both_sexes(u64::from(n), 1, 0.5).unwrap();
        close(chance_of_both_sexes(n), slow, 1e-12);
    }
    close(chance_of_a_sex(4), 15.0 / 16.0, 0.0);
}

#[test]
fn plants_for_a_rare_outcome() {
    for (share, plants) in [(0.25, 11), (1.0 / 16.0, 47), (1.0 / 64.0, 191)] {
        assert_eq!(plants_for_one(share, 0.95), Some(plants));
        let missed = |n: u32| (1.0 - share).powi(n as i32);
        assert!(missed(plants) <= 0.05 && missed(plants - 1) > 0.05);
    }
    assert_eq!(plants_for_one(0.5, 0.75), Some(2), "exactly two halvings");
    assert_eq!(plants_for_one(1.0, 0.95), Some(1));
    for (share, wanted) in [
        (0.0, 0.5),
        (-0.1, 0.5),
        (0.5, 1.0),
        (f64::NAN, 0.5),
        (1e-300, 0.9),
    ] {
        assert_eq!(plants_for_one(share, wanted), None);
    }
}
