//! Tails and quantiles against values of an independent library (SciPy 1.17.1) and against slow integration.

use super::tables::close;
use podbook::statistics::distribution::*;
use podbook::statistics::noncentral::{noncentral_t_lower, noncentrality};

#[test]
fn quantiles_as_computed_by_an_independent_library() {
    for (tail, df, expected) in [
        (0.025, 1.0, 12.706204736174694),
        (0.025, 3.0, 3.1824463052837078),
        (0.025, 11.0, 2.200985160091639),
        (0.025, 58.609, 2.001274727867569),
        (0.0001, 4.0, 13.033671720896821),
    ] {
        close(t_upper_quantile(tail, df), expected, 1e-11);
    }
    close(t_upper_quantile(0.025, 1e5), 1.9599877075346095, 1e-9);
    close(normal_quantile(0.975), 1.959963984540054, 1e-14);
    close(beta_quantile(0.025, 1.0, 3.0), 0.008403758659612636, 1e-12);
    close(
        beta_quantile(0.975, 30000.0, 30001.0),
        0.5039923460936774,
        1e-10,
    );
    close(
        chi_square_upper_quantile(0.975, 4.0),
        0.4844185570879299,
        1e-12,
    );
    close(
        chi_square_upper_quantile(0.025, 39.0),
        58.12005973468633,
        1e-12,
    );
}

/// Integrates the density by the midpoint rule: slow and plain.
fn integral(from: f64, to: f64, density: impl Fn(f64) -> f64) -> f64 {
    let steps = 200_000;
    let step = (to - from) / steps as f64;
    (0..steps)
        .map(|i| density(from + (i as f64 + 0.5) * step))
        .sum::<f64>()
        * step
}

#[test]
fn tails_equal_the_integral_of_the_density() {
    close(normal_upper(1.3), integral(1.3, 12.0, normal_density), 1e-9);
    let t = |x: f64| {
        let gamma = libm::lgamma(3.5) - libm::lgamma(3.0);
        libm::exp(gamma - 3.5 * libm::log1p(x * x / 6.0)) / (6.0 * std::f64::consts::PI).sqrt()
    };
    close(
        t_two_sided(2.1, 6.0),
        1.0 - 2.0 * integral(0.0, 2.1, t),
        1e-8,
    );
    let chi_square = |x: f64| x * libm::exp(-0.5 * x) / 4.0;
    close(
        chi_square_upper(5.5, 4.0),
        integral(5.5, 120.0, chi_square),
        1e-7,
    );
    // With two degrees of freedom above, the tail is (1 + 2f/m)^(-m/2).
    close(
        f_upper(1.7, 2.0, 9.0),
        (1.0_f64 + 3.4 / 9.0).powf(-4.5),
        1e-12,
    );
}

#[test]
fn noncentral_t_without_difference_is_students_t() {
    for (t, df) in [(0.3, 1.0), (-1.2, 4.0), (2.4, 22.0), (1.1, 300.0)] {
        close(noncentral_t_lower(t, df, 0.0), t_lower(t, df), 1e-9);
    }
}

/// SciPy 1.17.1 `nct.cdf`.
#[test]
fn noncentral_t_as_computed_by_an_independent_library() {
    for (t, df, delta, expected) in NONCENTRAL {
        close(noncentral_t_lower(t, df, delta), expected, 1e-9);
    }
}

#[test]
fn noncentrality_turns_the_probability_round() {
    for (t, df, p) in [
        (1.74, 20.0, 0.025),
        (50.0, 98.0, 0.975),
        (-3.0, 2.0, 0.5),
        (400.0, 98.0, 0.025),
    ] {
        close(noncentral_t_lower(t, df, noncentrality(t, df, p)), p, 1e-9);
    }
}

const NONCENTRAL: [(f64, f64, f64, f64); 7] = [
    (1.7424274969165099, 20.0, 0.5, 0.8805356257316439),
    (2.0, 3.0, 1.0, 0.7436298684076654),
    (0.0, 8.0, -1.5, 0.9331927987311419),
    (49.98618625709594, 98.0, 44.0, 0.9450539044636813),
    (-1.0, 2.0, 1.0, 0.042056263743704816),
    (12.0, 5.0, 30.0, 1.2654851198473668e-05),
    (1.0, 1.0, 0.7, 0.5243262875775561),
];

/// Systems differ in the last bits of a logarithm; what is left of them here is rounded away.
#[test]
fn the_last_bits_are_the_same_everywhere() {
    let last = |figure: f64| figure.to_bits().trailing_zeros();
    for step in 1..100 {
        let (p, df) = (f64::from(step) / 200.0, f64::from(step) * 0.7 + 1.0);
        let x = f64::from(step) / 11.0;
        for (name, figure) in [
            ("t", t_two_sided(x, df)),
            ("t quantile", t_upper_quantile(p, df)),
            ("chi-square", chi_square_upper(x, df)),
            ("chi-square quantile", chi_square_upper_quantile(p, df)),
            ("F", f_upper(x, df, 7.0)),
            ("beta quantile", beta_quantile(p, df, 3.0)),
        ] {
            assert!(last(figure) >= 10, "{name}, step {step}: {figure:?}");
        }
        assert!(last(normal_quantile(p)) >= 6, "step {step}");
    }
}
