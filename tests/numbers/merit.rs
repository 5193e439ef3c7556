//! Predicted merit against a textbook example, a dense twin and a balanced design.

// The dense twins below follow the formulas, indices and all.
#![allow(clippy::needless_range_loop)]

#[path = "merit/contrasts.rs"]
mod contrasts;
#[path = "merit/likelihood.rs"]
mod likelihood;
#[path = "../support/predicted.rs"]
mod predicted;

use predicted::predict;

use podbook::planning::merit::{
    Design, Factor, Fractions, Products, Reading, Relatives, Solved, Variances, estimate,
};

/// The eight-animal calf example of Mrode's textbook on linear models (from memory; recomputed and found consistent in
/// `05_selection.json`): pre-weaning gain, sex fixed, σ²_a = 20, σ²_e = 40.
#[test]
fn the_calf_example() {
    let file: serde_json::Value =
        serde_json::from_str(include_str!("data/05_selection.json")).expect("the table is JSON");
    let example = &file["calf_example"];
    let number = |value: &serde_json::Value| value.as_f64().expect("a number");
    let parents: Vec<Vec<usize>> = example["pedigree"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|pair| {
            let pair = pair.as_array().expect("a pair").iter();
            pair.map(|p| number(p) as usize)
                .filter(|p| *p > 0)
                .map(|p| p - 1)
                .collect()
        })
        .collect();
    let relatives = not_inbred(&parents);
    let readings = example["records"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|record| Reading {
            plant: number(&record[0]) as u32 - 1,
            value: number(&record[2]),
            columns: vec![(u32::from(record[1] == "F"), 1.0)],
        });
    let design = Design {
        readings: readings.collect(),
        group_of: vec![None, None],
        ..Design::default()
    };
    let variances = Variances {
        additive: 20.0,
        permanent: 0.0,
        residual: 40.0,
        groups: vec![],
    };
    let wanted: Vec<(u32, Vec<(u32, f64)>)> = (0..8).map(|row| (row, vec![])).collect();
    let found = predict(&relatives, &design, &variances, &wanted).expect("solved");
    close(found.columns[0], number(&example["fixed"]["M"]));
    close(found.columns[1], number(&example["fixed"]["F"]));
    for row in 0..8 {
        close(found.merit[row], number(&example["ebv"][row]));
        close(
            found.prediction_error[row].error,
            number(&example["se"][row]),
        );
        close(
            1.0 - found.prediction_error[row].error.powi(2) / 20.0,
            number(&example["reliability"][row]),
        );
    }
}

/// Own parts of plants none of which is inbred: 1, ¾ or ½.
fn not_inbred(parents: &[Vec<usize>]) -> Relatives {
    Relatives {
        sources: parents
            .iter()
            .map(|known| known.iter().map(|p| (*p as u32, 0.5)).collect())
            .collect(),
        mendelian_variance: parents
            .iter()
            .map(|known| 1.0 - 0.25 * known.len() as f64)
            .collect(),
    }
}

fn close(found: f64, wanted: f64) {
    assert!(
        (found - wanted).abs() <= 1e-9 * (1.0 + wanted.abs()),
        "{found} instead of {wanted}"
    );
}

/// A seeded source of chance (SplitMix64, Steele, Lea & Flood 2014).
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() * n as f64) as usize
    }
}

/// The slow, obvious way: V = Z A Zᵀ σ²_a + ... as one matrix, generalised least squares, u = Cov V⁻¹ (y − X b), and the
/// error variance from the joint covariance.
struct Dense {
    fixed: Vec<f64>,
    merit: Vec<f64>,
    error: Vec<f64>,
    deviance_at_whole_one: f64,
    /// Relationships A.
    related: Vec<Vec<f64>>,
    /// P = V⁻¹ − V⁻¹ X (Xᵀ V⁻¹ X)⁻¹ Xᵀ V⁻¹.
    projection: Vec<Vec<f64>>,
}

fn dense(relatives: &Relatives, design: &Design, v: &Variances) -> Dense {
    let plants = relatives.mendelian_variance.len();
    let mut a = vec![vec![0.0; plants]; plants];
    for i in 0..plants {
        for j in 0..i {
            a[i][j] = relatives.sources[i]
                .iter()
                .map(|(p, part)| part * a[*p as usize][j])
                .sum();
            a[j][i] = a[i][j];
        }
        let from: f64 = relatives.sources[i]
            .iter()
            .flat_map(|(p, x)| {
                relatives.sources[i]
                    .iter()
                    .map(move |(q, y)| (*p as usize, *q as usize, x * y))
            })
            .map(|(p, q, weight)| weight * a[p][q])
            .sum();
        a[i][i] = from + relatives.mendelian_variance[i];
    }
    let n = design.readings.len();
    let fixed: Vec<u32> = (0..design.group_of.len() as u32)
        .filter(|c| design.group_of[*c as usize].is_none())
        .collect();
    let value = |r: &Reading, column: u32| {
        r.columns
            .iter()
            .filter(|(c, _)| *c == column)
            .map(|(_, x)| x)
            .sum::<f64>()
    };
    let cov = |r: &Reading, s: &Reading| -> f64 {
        let (p, q) = (r.plant as usize, s.plant as usize);
        let random: f64 = (0..design.group_of.len())
            .filter_map(|c| {
                Some(v.groups[design.group_of[c]?] * value(r, c as u32) * value(s, c as u32))
            })
            .sum();
        v.additive * a[p][q] + if p == q { v.permanent } else { 0.0 } + random
    };
    let mut big = vec![vec![0.0; n]; n];
    for i in 0..n {
        for j in 0..n {
            big[i][j] = cov(&design.readings[i], &design.readings[j])
                + if i == j { v.residual } else { 0.0 };
        }
    }
    let (inverse, log_v) = invert(big);
    let x: Vec<Vec<f64>> = design
        .readings
        .iter()
        .map(|r| fixed.iter().map(|c| value(r, *c)).collect())
        .collect();
    let y: Vec<f64> = design.readings.iter().map(|r| r.value).collect();
    let times =
        |left: &[f64], right: &[f64]| left.iter().zip(right).map(|(a, b)| a * b).sum::<f64>();
    let vy: Vec<f64> = inverse.iter().map(|row| times(row, &y)).collect();
    let vx: Vec<Vec<f64>> = (0..fixed.len())
        .map(|c| {
            inverse
                .iter()
                .map(|row| (0..n).map(|j| row[j] * x[j][c]).sum())
                .collect()
        })
        .collect();
    let xvx: Vec<Vec<f64>> = (0..fixed.len())
        .map(|c| {
            (0..fixed.len())
                .map(|d| (0..n).map(|i| x[i][c] * vx[d][i]).sum())
                .collect()
        })
        .collect();
    let (xvx_inverse, log_x) = invert(xvx);
    let xvy: Vec<f64> = (0..fixed.len()).map(|c| times(&vx[c], &y)).collect();
    let b: Vec<f64> = xvx_inverse.iter().map(|row| times(row, &xvy)).collect();
    let p_y: Vec<f64> = (0..n)
        .map(|i| vy[i] - (0..b.len()).map(|c| vx[c][i] * b[c]).sum::<f64>())
        .collect();
    let (mut merit, mut error) = (vec![], vec![]);
    for plant in 0..plants {
        let with: Vec<f64> = design
            .readings
            .iter()
            .map(|r| v.additive * a[plant][r.plant as usize])
            .collect();
        merit.push(times(&with, &p_y));
        let pw = |i: usize| -> f64 {
            let plain = times(&inverse[i], &with);
            let xw: Vec<f64> = (0..b.len()).map(|c| times(&vx[c], &with)).collect();
            let half: Vec<f64> = xvx_inverse.iter().map(|row| times(row, &xw)).collect();
            plain - (0..b.len()).map(|c| vx[c][i] * half[c]).sum::<f64>()
        };
        let explained: f64 = (0..n).map(|i| with[i] * pw(i)).sum();
        error.push((v.additive * a[plant][plant] - explained).max(0.0).sqrt());
    }
    let ypy = times(&y, &p_y);
    let projected = |i: usize, j: usize| -> f64 {
        let half: Vec<f64> = xvx_inverse
            .iter()
            .map(|row| (0..b.len()).map(|c| row[c] * vx[c][j]).sum())
            .collect();
        inverse[i][j] - (0..b.len()).map(|c| vx[c][i] * half[c]).sum::<f64>()
    };
    let projection = (0..n)
        .map(|i| (0..n).map(|j| projected(i, j)).collect())
        .collect();
    Dense {
        related: a,
        projection,
        fixed: b,
        merit,
        error,
        deviance_at_whole_one: log_v + log_x + ypy,
    }
}

/// Gauss and Jordan, with the logarithm of the determinant.
fn invert(mut m: Vec<Vec<f64>>) -> (Vec<Vec<f64>>, f64) {
    let n = m.len();
    let mut inverse: Vec<Vec<f64>> = (0..n)
        .map(|i| (0..n).map(|j| f64::from(i == j)).collect())
        .collect();
    let mut log = 0.0;
    for at in 0..n {
        let pivot = (at..n)
            .max_by(|&i, &j| m[i][at].abs().total_cmp(&m[j][at].abs()))
            .expect("rows left");
        m.swap(at, pivot);
        inverse.swap(at, pivot);
        let by = m[at][at];
        log += by.abs().ln();
        m[at]
            .iter_mut()
            .chain(inverse[at].iter_mut())
            .for_each(|x| *x /= by);
        for row in (0..n).filter(|row| *row != at) {
            let factor = m[row][at];
            for column in 0..n {
                let (x, y) = (m[at][column], inverse[at][column]);
                m[row][column] -= factor * x;
                inverse[row][column] -= factor * y;
            }
        }
    }
    (inverse, log)
}

/// A small nursery: founders, crosses, sibs mated, repeated readings in sittings, some plants unread, some readings on
/// parents.
fn nursery(seed: u64) -> (Relatives, Design) {
    let mut chance = Chance(seed);
    let mut parents: Vec<Vec<usize>> = vec![vec![]; 4];
    for plant in 4..26 {
        let pool = if plant < 14 { 4 } else { 14 };
        let (a, b) = (chance.below(pool), chance.below(pool));
        parents.push(if a == b { vec![a] } else { vec![a, b] });
    }
    let relatives = inbred(&parents);
    let mut readings = Vec::new();
    for plant in 2..26u32 {
        for _ in 0..chance.below(4) {
            let sitting = chance.below(3) as u32;
            readings.push(Reading {
                plant,
                value: 10.0 * chance.next(),
                columns: vec![(0, 1.0), (1, chance.next()), (2 + sitting, 1.0)],
            });
        }
    }
    (
        relatives,
        Design {
            readings,
            group_of: vec![None, None, Some(0), Some(0), Some(0)],
            ..Design::default()
        },
    )
}

/// Own parts by the table of relationships, plant by plant.
fn inbred(parents: &[Vec<usize>]) -> Relatives {
    let n = parents.len();
    let mut a = vec![vec![0.0; n]; n];
    let mut mendelian_variance = vec![];
    for i in 0..n {
        for j in 0..i {
            a[i][j] = parents[i].iter().map(|p| 0.5 * a[*p][j]).sum();
            a[j][i] = a[i][j];
        }
        let both = if parents[i].len() == 2 {
            a[parents[i][0]][parents[i][1]]
        } else {
            0.0
        };
        a[i][i] = 1.0 + 0.5 * both;
        let from: f64 = parents[i]
            .iter()
            .flat_map(|p| parents[i].iter().map(move |q| (*p, *q)))
            .map(|(p, q)| 0.25 * a[p][q])
            .sum();
        mendelian_variance.push(a[i][i] - from);
    }
    Relatives {
        sources: parents
            .iter()
            .map(|known| known.iter().map(|p| (*p as u32, 0.5)).collect())
            .collect(),
        mendelian_variance,
    }
}

#[test]
fn absorbing_changes_nothing() {
    for seed in 1..=12 {
        let (relatives, design) = nursery(seed);
        let variances = Variances {
            additive: 4.0,
            permanent: 1.5,
            residual: 3.0,
            groups: vec![0.8],
        };
        let wanted: Vec<(u32, Vec<(u32, f64)>)> = (0..26).map(|row| (row, vec![])).collect();
        let found = predict(&relatives, &design, &variances, &wanted).expect("solved");
        let twin = dense(&relatives, &design, &variances);
        for (column, fixed) in twin.fixed.iter().enumerate() {
            assert!(
                (found.columns[column] - fixed).abs() < 1e-8,
                "seed {seed} column {column}"
            );
        }
        for row in 0..26 {
            assert!(
                (found.merit[row] - twin.merit[row]).abs() < 1e-8,
                "seed {seed} row {row}"
            );
            assert!(
                (found.prediction_error[row].error - twin.error[row]).abs() < 1e-7,
                "seed {seed} row {row}"
            );
        }
    }
}

/// Ten pods of eight, balanced: REML and the analysis of variance agree, h² = 2t (table `05_selection.json`, computed
/// with an independent program).
#[test]
fn a_balanced_design_gives_twice_the_intraclass_correlation() {
    let file: serde_json::Value =
        serde_json::from_str(include_str!("data/05_selection.json")).expect("the table is JSON");
    let example = &file["balanced_full_sib"];
    let pods = example["y"].as_array().expect("a list");
    let mut parents: Vec<Vec<usize>> = vec![vec![]; 2 * pods.len()];
    let mut readings = Vec::new();
    for (pod, values) in pods.iter().enumerate() {
        for value in values.as_array().expect("a list") {
            readings.push(Reading {
                plant: parents.len() as u32,
                value: value.as_f64().expect("a number"),
                columns: vec![(0, 1.0)],
            });
            parents.push(vec![2 * pod, 2 * pod + 1]);
        }
    }
    let design = Design {
        readings,
        group_of: vec![None],
        ..Design::default()
    };
    let found = estimate(&not_inbred(&parents), &design, 0, &[]).expect("estimated");
    let wanted = example["h2_equals_2t"].as_f64().expect("a number");
    assert!(
        (found.fractions.additive - wanted).abs() < 2e-3,
        "{found:?} instead of {wanted}"
    );
    assert!(found.limits.0 < wanted && wanted < found.limits.1);
    let whole = example["sigma2_family"].as_f64().expect("a number")
        + example["sigma2_within"].as_f64().expect("a number");
    assert!(
        (found.whole - whole).abs() < 2e-2 * whole,
        "{} instead of {whole}",
        found.whole
    );
}

/// At its own estimate the likelihood equals the dense one, and nearby fractions are not more likely.
#[test]
fn the_estimate_is_the_most_likely() {
    let (relatives, design) = nursery(5);
    let found = estimate(&relatives, &design, 1, &[]).expect("estimated");
    let deviance = |parts: &Fractions, whole: f64| {
        let variances = parts.of_whole(whole).expect("sound");
        dense(&relatives, &design, &variances).deviance_at_whole_one
    };
    let best = deviance(&found.fractions, found.whole);
    assert!(
        (best - found.deviance).abs() < 1e-6,
        "{best} against {}",
        found.deviance
    );
    for (part, by) in [(0, 0.03), (0, -0.03), (1, 0.03), (2, 0.03)] {
        let mut other = found.fractions.clone();
        match part {
            0 => other.additive += by,
            1 => other.permanent += by,
            _ => other.groups[0] += by,
        }
        if other.of_whole(1.0).is_some() && other.additive > 1e-6 {
            assert!(deviance(&other, found.whole) >= best - 1e-6, "{other:?}");
        }
    }
}

#[test]
fn awkward_designs() {
    let variances = Variances {
        additive: 1.0,
        permanent: 0.0,
        residual: 1.0,
        groups: vec![],
    };
    let empty = Design {
        readings: vec![],
        group_of: vec![None],
        ..Design::default()
    };
    assert!(predict(&Relatives::default(), &empty, &variances, &[]).is_err());
    let one = Relatives {
        sources: vec![vec![]],
        mendelian_variance: vec![1.0],
    };
    let reading = Reading {
        plant: 0,
        value: 5.0,
        columns: vec![(0, 1.0)],
    };
    let single = Design {
        readings: vec![reading],
        group_of: vec![None, None],
        ..Design::default()
    };
    let found = predict(&one, &single, &variances, &[(0, vec![])]).expect("solved");
    assert!(
        found.merit[0].abs() < 1e-12,
        "nothing but the mean can be told from one reading"
    );
    assert_eq!(found.columns[1], 0.0);
    assert!(
        (found.columns[0] - 5.0).abs() < 1e-12
            && (found.prediction_error[0].error - 1.0).abs() < 1e-12
    );
    let none_left = Variances {
        residual: 0.0,
        ..variances
    };
    assert!(predict(&one, &single, &none_left, &[]).is_err());
}

/// A symmetric matrix with some products, as the factor takes it.
fn products(full: &[Vec<f64>], last: Vec<u32>, together: Vec<Vec<u32>>) -> Products {
    let row = |(at, row): (usize, &Vec<f64>)| {
        let entries = (0..).zip(&row[..=at]).filter(|(_, x)| **x != 0.0);
        entries.map(|(other, x)| (other, *x)).collect()
    };
    Products {
        rows: full.iter().enumerate().map(row).collect(),
        last,
        together,
    }
}

/// Random matrices, most of their products zero, against Gauss-Jordan: solution, determinant, and every entry of the
/// inverse that is known, among them all products and all that were asked for.
#[test]
fn the_factor_solves_and_inverts() {
    for seed in 1..=40_u64 {
        let mut chance = Chance(seed);
        let size = 1 + chance.below(30);
        let mut full = vec![vec![0.0; size]; size];
        for _ in 0..2 * size {
            let (a, b) = (chance.below(size), chance.below(size));
            let (x, y) = (chance.next() - 0.5, chance.next() - 0.5);
            full[a][a] += x * x;
            full[b][b] += y * y;
            full[a][b] += x * y;
            full[b][a] += x * y;
        }
        (0..size).for_each(|at| full[at][at] += 0.3);
        let last: Vec<u32> = (0..size as u32).filter(|at| at % 7 == 3).collect();
        let mut asked = vec![0, size as u32 / 2, size as u32 - 1];
        asked.dedup();
        let factor = Factor::of(&products(&full, last, vec![asked.clone()])).expect("definite");
        let right: Vec<f64> = (0..size).map(|_| chance.next()).collect();
        let x = factor.solve(&right);
        for (row, right) in full.iter().zip(&right) {
            let left: f64 = row.iter().zip(&x).map(|(a, b)| a * b).sum();
            assert!((left - right).abs() < 1e-9, "seed {seed}");
        }
        let (twin, log) = invert(full.clone());
        let known = factor.inverse();
        for a in 0..size {
            for b in 0..size {
                let found = known.of(a as u32, b as u32);
                let needed = full[a][b] != 0.0
                    || (asked.contains(&(a as u32)) && asked.contains(&(b as u32)));
                assert!(found.is_some() || !needed, "seed {seed}: {a} {b}");
                assert!(found.is_none_or(|found| (found - twin[a][b]).abs() < 1e-9));
            }
        }
        assert!((factor.log_determinant() - log).abs() < 1e-9);
        assert_eq!(factor.left_out(), 0);
    }
}

/// Of two unknowns that say the same the later one is left out and answers 0; what is not definite is refused.
#[test]
fn an_unknown_said_twice_is_left_out() {
    let full = vec![
        vec![2.0, 2.0, 1.0],
        vec![2.0, 2.0, 1.0],
        vec![1.0, 1.0, 3.0],
    ];
    let factor = Factor::of(&products(&full, vec![0, 1], vec![])).expect("solvable");
    assert_eq!(factor.left_out(), 1);
    let x = factor.solve(&[4.0, 4.0, 7.0]);
    assert!(
        (x[0] - 1.0).abs() < 1e-12 && x[1] == 0.0 && (x[2] - 2.0).abs() < 1e-12,
        "{x:?}"
    );
    let known = factor.inverse();
    assert_eq!(known.of(1, 1), Some(0.0));
    assert_eq!(known.of(0, 1), Some(0.0));
    assert!((known.of(0, 0).expect("known") - 3.0 / 5.0).abs() < 1e-12);
    assert!(Factor::of(&products(&[vec![-1.0]], vec![], vec![])).is_none());
}

/// The nursery with an effect of each pair of parents: once stated reading by reading, once for siblings together.
fn with_pods(seed: u64) -> (Relatives, Design, Design) {
    let (relatives, mut plain) = nursery(seed);
    let mut pairs = relatives.sources.clone();
    pairs.sort_by(|a, b| a.partial_cmp(b).expect("numbers"));
    pairs.dedup();
    let pod = |plant: u32| {
        let own = &relatives.sources[plant as usize];
        pairs.iter().position(|pair| pair == own).expect("listed") as u32
    };
    let first = plain.group_of.len() as u32;
    plain.group_of.extend(vec![Some(1); pairs.len()]);
    let mut together = plain.clone();
    for reading in &mut together.readings {
        reading.columns.remove(0);
    }
    for reading in &mut plain.readings {
        reading.columns.push((first + pod(reading.plant), 1.0));
    }
    let pods = 0..pairs.len() as u32;
    together.families = pods.map(|at| vec![(0, 1.0), (first + at, 1.0)]).collect();
    let plants = 0..relatives.mendelian_variance.len() as u32;
    together.family_of = plants.map(|plant| Some(pod(plant))).collect();
    (relatives, plain, together)
}

fn with_two_groups() -> Variances {
    Variances {
        additive: 4.0,
        permanent: 1.5,
        residual: 3.0,
        groups: vec![0.8, 0.6],
    }
}

/// Siblings added up at once and pods eliminated one by one, against readings one by one and against the dense twin.
#[test]
fn siblings_added_up_at_once_change_nothing() {
    for seed in 1..=12 {
        let (relatives, plain, together) = with_pods(seed);
        let variances = with_two_groups();
        let wanted: Vec<(u32, Vec<(u32, f64)>)> =
            (0..26).map(|row| (row, vec![(6, 0.5)])).collect();
        let one = predict(&relatives, &plain, &variances, &wanted).expect("solved");
        let other = predict(&relatives, &together, &variances, &wanted).expect("solved");
        let twin = dense(&relatives, &plain, &variances);
        for (a, b) in one.columns.iter().zip(&other.columns) {
            assert!((a - b).abs() < 1e-8, "seed {seed}: {a} against {b}");
        }
        for (a, b) in one.column_errors.iter().zip(&other.column_errors) {
            assert!((a - b).abs() < 1e-8, "seed {seed}: {a} against {b}");
        }
        let alone: Vec<(u32, Vec<(u32, f64)>)> = (0..26).map(|row| (row, vec![])).collect();
        let of_plants = predict(&relatives, &together, &variances, &alone).expect("solved");
        for row in 0..26 {
            assert!((one.merit[row] - other.merit[row]).abs() < 1e-8);
            assert!(
                (one.prediction_error[row].error - other.prediction_error[row].error).abs() < 1e-8
            );
            assert!(
                (of_plants.merit[row] - twin.merit[row]).abs() < 1e-8,
                "seed {seed}"
            );
            assert!((of_plants.prediction_error[row].error - twin.error[row]).abs() < 1e-7);
        }
    }
    let (relatives, plain, together) = with_pods(5);
    let one = estimate(&relatives, &plain, 2, &[]).expect("estimated");
    let other = estimate(&relatives, &together, 2, &[]).expect("estimated");
    assert!((one.deviance - other.deviance).abs() < 1e-6);
}

/// Sixty nurseries that know nothing of each other: each must come out as the one does by itself, and errors found by
/// solving as those of the inverse.
#[test]
fn many_herds_come_out_as_one() {
    const COPIES: u32 = 60;
    let (relatives, _, one) = with_pods(3);
    let (plants, columns) = (
        relatives.mendelian_variance.len() as u32,
        one.group_of.len() as u32,
    );
    let (mut herds, mut many) = (Relatives::default(), Design::default());
    for copy in 0..COPIES {
        let moved = |row: &[(u32, f64)], by: u32| -> Vec<(u32, f64)> {
            row.iter()
                .map(|(at, part)| (at + copy * by, *part))
                .collect()
        };
        let sources = relatives.sources.iter().map(|row| moved(row, plants));
        herds.sources.extend(sources);
        herds
            .mendelian_variance
            .extend(&relatives.mendelian_variance);
        many.group_of.extend(&one.group_of);
        many.readings
            .extend(one.readings.iter().map(|reading| Reading {
                plant: reading.plant + copy * plants,
                value: reading.value,
                columns: moved(&reading.columns, columns),
            }));
        let first = many.families.len() as u32;
        many.families
            .extend(one.families.iter().map(|row| moved(row, columns)));
        let family_of = one.family_of.iter().map(|at| at.map(|at| at + first));
        many.family_of.extend(family_of);
    }
    let variances = with_two_groups();
    let alone = Solved::of(&relatives, &one, &variances).expect("solved");
    let mut solved = Solved::of(&herds, &many, &variances).expect("solved");
    let sample = || (0..COPIES * plants).step_by(7);
    let by_solving: Vec<f64> = sample()
        .map(|row| solved.prediction_error(row, &[]).error)
        .collect();
    solved.invert();
    for (row, by_solving) in sample().zip(by_solving) {
        let of_one = alone.prediction_error(row % plants, &[]);
        let of_many = solved.prediction_error(row, &[]);
        assert!((of_many.error - of_one.error).abs() < 1e-8);
        assert!((by_solving - of_one.error).abs() < 1e-8, "row {row}");
        assert!((solved.merit(row, &[]) - alone.merit(row % plants, &[])).abs() < 1e-8);
    }
}

/// What would be known of a plant without readings or offspring is what is known of a pod-mate that has neither.
#[test]
fn unread_means_as_sure_as_an_unread_pod_mate() {
    let relatives = not_inbred(&[vec![], vec![], vec![0, 1], vec![0, 1], vec![2, 0]]);
    let reading = |plant, value| Reading {
        plant,
        value,
        columns: vec![(0, 1.0)],
    };
    let design = Design {
        readings: vec![
            reading(0, 3.0),
            reading(1, 5.0),
            reading(2, 4.0),
            reading(4, 7.0),
        ],
        group_of: vec![None],
        ..Design::default()
    };
    let variances = Variances {
        additive: 2.0,
        permanent: 0.5,
        residual: 1.0,
        groups: vec![],
    };
    let wanted: Vec<(u32, Vec<(u32, f64)>)> = (0..5).map(|row| (row, vec![])).collect();
    let found = predict(&relatives, &design, &variances, &wanted)
        .expect("solved")
        .prediction_error;
    close(found[3].error, found[3].error_unread);
    close(found[2].error_unread, found[3].error);
    assert!(found[2].error < found[2].error_unread);
    close(found[0].error_unread, 2f64.sqrt());
}
