//! Differences of merit: their errors against the dense twin, their intervals and chances against simulation; effects
//! without variance.

use super::predicted::predict;
use super::{Chance, close, dense, inbred, nursery, with_pods, with_two_groups};
use podbook::planning::merit::{Design, Reading, Relatives, Solved, Variances};
use podbook::statistics::distribution::{t_lower, t_upper_quantile};

/// The covariance of all prediction errors, species' columns beside included: prior covariance less what the readings
/// explain of it, Cov(t, t) − Cov(t, y) P Cov(y, t).
fn error_covariances(
    relatives: &Relatives,
    design: &Design,
    variances: &Variances,
    beside: &[(u32, f64)],
) -> Vec<Vec<f64>> {
    let twin = dense(relatives, design, variances);
    let plants = relatives.mendelian_variance.len();
    let of_column =
        |column: u32| variances.groups[design.group_of[column as usize].expect("random")];
    let shared: f64 = beside.iter().map(|(c, x)| x * x * of_column(*c)).sum();
    let on_reading = |reading: &Reading| -> f64 {
        let of = reading.columns.iter().flat_map(|(c, x)| {
            let same = beside.iter().filter(move |(other, _)| other == c);
            same.map(move |(_, y)| x * y * of_column(*c))
        });
        of.sum()
    };
    let with: Vec<Vec<f64>> = (0..plants)
        .map(|plant| {
            let cov = |reading: &Reading| {
                variances.additive * twin.related[plant][reading.plant as usize]
                    + on_reading(reading)
            };
            design.readings.iter().map(cov).collect()
        })
        .collect();
    let explained = |i: usize, j: usize| -> f64 {
        let row = |at: usize| -> f64 {
            twin.projection[at]
                .iter()
                .zip(&with[j])
                .map(|(p, c)| p * c)
                .sum()
        };
        (0..with[i].len()).map(|at| with[i][at] * row(at)).sum()
    };
    (0..plants)
        .map(|i| {
            let prior = |j: usize| variances.additive * twin.related[i][j] + shared;
            (0..plants).map(|j| prior(j) - explained(i, j)).collect()
        })
        .collect()
}

#[test]
fn errors_of_differences_are_those_of_the_dense_twin() {
    for seed in 1..=8 {
        let (relatives, plain, together) = with_pods(seed);
        let variances = with_two_groups();
        let beside = [(6, 0.5), (2, 1.0)];
        let cov = error_covariances(&relatives, &plain, &variances, &beside);
        let mut solved = Solved::of(&relatives, &together, &variances).expect("solved");
        let some: Vec<u32> = vec![0, 3, 5, 9, 14, 20, 25];
        let told: Vec<(u32, Vec<(u32, f64)>)> =
            some.iter().map(|plant| (*plant, beside.to_vec())).collect();
        for inverted in [false, true] {
            if inverted {
                solved.invert();
            }
            let centre = solved.centre(&told);
            let mean: f64 = some.iter().map(|p| solved.merit(*p, &beside)).sum::<f64>() / 7.0;
            close(centre.merit, mean);
            let of_mean = |row: &dyn Fn(usize) -> f64| {
                some.iter().map(|p| row(*p as usize)).sum::<f64>() / 7.0
            };
            let mean_variance = of_mean(&|p| of_mean(&|q| cov[p][q]));
            // A sum of some of the plants and of others, as often as it counts from the mean.
            let sum = [(3, 0.5), (14, 1.0), (17, 2.5), (22, -0.75)];
            let parts: Vec<_> = sum.map(|(plant, part)| ((plant, &beside[..]), part)).into();
            let times: f64 = sum.iter().map(|(_, part)| part).sum();
            let mut whole = vec![0.0; 26];
            sum.iter()
                .for_each(|(plant, part)| whole[*plant as usize] += part);
            some.iter()
                .for_each(|plant| whole[*plant as usize] -= times / 7.0);
            let each = |p: usize| whole.iter().zip(&cov[p]).map(|(x, c)| x * c).sum::<f64>();
            let variance: f64 = (0..26).map(|p| whole[p] * each(p)).sum();
            let found = solved.error_of_sum(&centre, &parts);
            assert!(
                (found - variance.sqrt()).abs() < 1e-6,
                "seed {seed}: {found}"
            );
            for plant in 0..26 {
                let variance =
                    cov[plant][plant] - 2.0 * of_mean(&|q| cov[plant][q]) + mean_variance;
                let found = solved.error_from(&centre, (plant as u32, &beside));
                assert!(
                    (found - variance.max(0.0).sqrt()).abs() < 1e-6,
                    "seed {seed} plant {plant}: {found} against {}",
                    variance.sqrt()
                );
                for other in 0..26 {
                    let variance = cov[plant][plant] + cov[other][other] - 2.0 * cov[plant][other];
                    let other_alone = solved.centre(&[(other as u32, beside.to_vec())]);
                    let found = solved.error_from(&other_alone, (plant as u32, &beside));
                    assert!(
                        (found - variance.max(0.0).sqrt()).abs() < 1e-6,
                        "seed {seed}: {plant} and {other}"
                    );
                }
            }
        }
    }
}

/// What both plants share cancels: with the level of all nearly unknown, a plant's own error is huge and the error of a
/// difference is not.
#[test]
fn what_two_plants_share_is_no_error_of_their_difference() {
    let (relatives, mut design) = nursery(4);
    design.group_of.push(Some(1));
    for reading in &mut design.readings {
        reading.columns.push((5, 1.0));
    }
    let variances = Variances {
        additive: 4.0,
        permanent: 1.5,
        residual: 3.0,
        groups: vec![0.8, 1e6],
    };
    let solved = Solved::of(&relatives, &design, &variances).expect("solved");
    let beside = [(5, 1.0)];
    let alone = solved.prediction_error(20, &beside).error;
    let other = solved.centre(&[(21, beside.to_vec())]);
    let apart = solved.error_from(&other, (20, &beside));
    assert!(alone > 100.0 && apart < 4.0, "{alone} and {apart}");
    assert_eq!(solved.error_from(&other, (21, &beside)), 0.0);
}

/// An effect of variance 0 is no effect: as though its columns had never been stated, not as though it were fixed.
#[test]
fn an_effect_without_variance_is_absent() {
    for seed in 1..=6 {
        let (relatives, plain, together) = with_pods(seed);
        let bare = nursery(seed).1;
        let wanted: Vec<(u32, Vec<(u32, f64)>)> = (0..26).map(|row| (row, vec![])).collect();
        let without = Variances {
            groups: vec![0.8],
            ..with_two_groups()
        };
        let nothing = Variances {
            groups: vec![0.8, 0.0],
            ..with_two_groups()
        };
        let wanted_answer = predict(&relatives, &bare, &without, &wanted).expect("solved");
        for design in [&plain, &together] {
            let found = predict(&relatives, design, &nothing, &wanted).expect("solved");
            for row in 0..26 {
                close(found.merit[row], wanted_answer.merit[row]);
                close(
                    found.prediction_error[row].error,
                    wanted_answer.prediction_error[row].error,
                );
            }
            let pods = bare.group_of.len()..design.group_of.len();
            assert!(pods.clone().all(|at| found.columns[at] == 0.0));
            assert!(pods.clone().all(|at| found.column_errors[at] == 0.0));
        }
    }
    let (relatives, plain, _) = with_pods(1);
    let below = Variances {
        groups: vec![0.8, -0.1],
        ..with_two_groups()
    };
    assert!(predict(&relatives, &plain, &below, &[]).is_err());
}

/// Standard normal values by sums of twelve uniform ones would have no tails: Box and Muller.
fn normal(chance: &mut Chance) -> f64 {
    let (u, v) = (chance.next().max(1e-300), chance.next());
    (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * v).cos()
}

/// Merits and readings drawn from the model itself, over and over: the error of the difference from the mean of all covers
/// as often as it says, so does a 95 % interval of a difference of two, and of all pairs said to be the right way round
/// with some chance that many are.
#[test]
fn intervals_cover_and_chances_come_true_as_often_as_they_say() {
    let mut parents: Vec<Vec<usize>> = vec![vec![]; 6];
    parents.extend((0..6).map(|at| vec![at, (at + 1) % 6]));
    parents.extend((0..30).map(|at| vec![6 + at % 5, 7 + at % 5]));
    let relatives = inbred(&parents);
    let plants = parents.len();
    let parts = Variances {
        additive: 0.4,
        permanent: 0.2,
        residual: 0.3,
        groups: vec![0.1],
    };
    let mut chance = Chance(20_261_127);
    let (mut one_error, mut covered, mut pairs, mut told, mut right) = (0.0, 0.0, 0.0, 0.0, 0.0);
    let (mut bold, mut bold_right) = (0.0, 0.0);
    const ROUNDS: usize = 300;
    for _ in 0..ROUNDS {
        let scale: f64 = 2.0;
        let mut drawn = |variance: f64| (variance * scale).sqrt() * normal(&mut chance);
        let mut merit: Vec<f64> = Vec::new();
        for plant in 0..plants {
            let expected: f64 = relatives.sources[plant]
                .iter()
                .map(|(parent, part)| part * merit[*parent as usize])
                .sum();
            merit.push(expected + drawn(parts.additive * relatives.mendelian_variance[plant]));
        }
        let sittings: Vec<f64> = (0..3).map(|_| drawn(parts.groups[0])).collect();
        let mut readings = Vec::new();
        for plant in 6..plants {
            let permanent = drawn(parts.permanent);
            for sitting in 0..1 + plant % 3 {
                readings.push(Reading {
                    plant: plant as u32,
                    value: 7.0
                        + merit[plant]
                        + permanent
                        + sittings[sitting]
                        + drawn(parts.residual),
                    columns: vec![(0, 1.0), (1 + sitting as u32, 1.0)],
                });
            }
        }
        let design = Design {
            readings,
            group_of: vec![None, Some(0), Some(0), Some(0)],
            ..Design::default()
        };
        let solved = Solved::of(&relatives, &design, &parts).expect("solved");
        let whole = solved.whole_variance().sqrt();
        let freedom = solved.freedom() as f64;
        let t = t_upper_quantile(0.025, freedom);
        let all: Vec<(u32, Vec<(u32, f64)>)> = (0..plants as u32).map(|p| (p, vec![])).collect();
        let centre = solved.centre(&all);
        let mean = merit.iter().sum::<f64>() / plants as f64;
        for plant in 0..plants {
            let at = plant as u32;
            let error = whole * solved.error_from(&centre, (at, &[]));
            let off = (merit[plant] - mean) - (solved.merit(at, &[]) - centre.merit);
            one_error += f64::from(u8::from(off.abs() <= error));
            let other = (plant + 7) % plants;
            let difference = solved.merit(at, &[]) - solved.merit(other as u32, &[]);
            let other_alone = solved.centre(&[(other as u32, vec![])]);
            let error = whole * solved.error_from(&other_alone, (at, &[]));
            let truly = merit[plant] - merit[other];
            covered += f64::from(u8::from((truly - difference).abs() <= t * error));
            let better = t_lower(difference.abs() / error, freedom);
            let came_true = f64::from(u8::from(truly * difference > 0.0));
            told += better;
            right += came_true;
            if better > 0.8 {
                bold += better;
                bold_right += came_true;
            }
            pairs += 1.0;
        }
    }
    let (one_error, covered) = (one_error / pairs, covered / pairs);
    assert!(
        (one_error - 0.683).abs() < 0.02,
        "one error covers {one_error}"
    );
    assert!((covered - 0.95).abs() < 0.012, "95 % covers {covered}");
    let (told, right) = (told / pairs, right / pairs);
    assert!(
        (told - right).abs() < 0.02,
        "told {told}, came true {right}"
    );
    let bold = bold_right / bold;
    assert!(
        (bold - 1.0).abs() < 0.03,
        "of bold chances {bold} came true"
    );
}
