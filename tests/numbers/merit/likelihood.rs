//! Restricted maximum likelihood against figures of general libraries and against a grid; the curve of age.

use super::{Chance, dense, inbred, nursery, with_pods};
use podbook::planning::merit::{
    AgeCurve, Design, Fractions, Reading, Relatives, Solved, Unsolvable, estimate,
};
use serde_json::Value;

fn table() -> Value {
    serde_json::from_str(include_str!("../data/05_reml_figures.json")).expect("the table is JSON")
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn rows(value: &Value) -> impl Iterator<Item = &Vec<Value>> {
    value
        .as_array()
        .expect("a list")
        .iter()
        .map(|row| row.as_array().expect("a row"))
}

fn relatives(example: &Value) -> Relatives {
    let parents: Vec<Vec<usize>> = rows(&example["parents"])
        .map(|pair| {
            pair.iter()
                .filter_map(Value::as_u64)
                .map(|p| p as usize)
                .collect()
        })
        .collect();
    inbred(&parents)
}

/// Twenty-four pods of unequal size: statsmodels' MixedLM gives the variance between pods and within; of unrelated parents
/// heritability is twice the former over the whole.
#[test]
fn heritability_of_pods_is_that_of_a_general_mixed_model() {
    let table = table();
    let example = &table["unbalanced_pods"];
    let readings = rows(&example["records_plant_x_value"]).map(|row| Reading {
        plant: number(&row[0]) as u32,
        value: number(&row[2]),
        columns: vec![(0, 1.0), (1, number(&row[1]))],
    });
    let design = Design {
        readings: readings.collect(),
        group_of: vec![None, None],
        ..Design::default()
    };
    let found = estimate(&relatives(example), &design, 0, &[]).expect("estimated");
    let by_library = &example["statsmodels_MixedLM"];
    let wanted = number(&by_library["h2_twice_between_over_whole"]);
    assert!(
        (found.fractions.additive - wanted).abs() < 2e-4,
        "{found:?} instead of {wanted}"
    );
    let whole = number(&by_library["between_pods"]) + number(&by_library["within_pods"]);
    assert!(
        (found.whole - whole).abs() < 1e-4 * whole,
        "{} instead of {whole}",
        found.whole
    );
    assert!((found.deviance - number(&by_library["deviance_there"])).abs() < 1e-6);
}

/// Repeated readings of a small pedigree with inbreeding, in sittings: the maximum of a dense program. In one nothing is
/// inherited, in another hardly anything else counts: maxima on the edge of what there can be.
#[test]
fn maxima_are_those_of_a_dense_program_also_on_the_edge() {
    let table = table();
    for name in ["repeated_readings", "nothing_inherited", "mostly_inherited"] {
        let example = &table[name];
        let readings = rows(&example["records_plant_sitting_x_value"]).map(|row| {
            let x = number(&row[2]);
            Reading {
                plant: number(&row[0]) as u32,
                value: number(&row[3]),
                columns: vec![
                    (0, 1.0),
                    (1, x),
                    (2, x * x),
                    (3 + number(&row[1]) as u32, 1.0),
                ],
            }
        });
        let mut group_of = vec![None; 3];
        group_of.extend([Some(0); 5]);
        let design = Design {
            readings: readings.collect(),
            group_of,
            ..Design::default()
        };
        let found = estimate(&relatives(example), &design, 1, &[]).expect("estimated");
        let wanted = &example["dense"];
        let deviance = number(&wanted["deviance"]);
        assert!(
            (found.deviance - deviance).abs() < 1e-4,
            "{name}: {found:?} against {deviance}"
        );
        for (part, of) in [
            ("additive", found.fractions.additive),
            ("permanent", found.fractions.permanent),
            ("sitting", found.fractions.groups[0]),
        ] {
            let wanted = number(&wanted[part]);
            assert!(
                (of - wanted).abs() < 5e-3,
                "{name} {part}: {of} instead of {wanted}"
            );
        }
        let (low, high) = found.limits;
        assert!(low <= found.fractions.additive && found.fractions.additive <= high);
        assert!(
            high - low > 0.1,
            "{name}: fifty plants do not tell heritability so well: {low} to {high}"
        );
    }
}

/// No point of a grid over the variance ratios, each worked out densely, is more likely than the estimate.
#[test]
fn no_point_of_a_grid_is_more_likely() {
    for seed in [2, 5, 9] {
        let (relatives, design) = nursery(seed);
        let found = estimate(&relatives, &design, 1, &[]).expect("estimated");
        let shares = [1e-6, 0.1, 0.2, 0.35, 0.5, 0.7, 0.9];
        for additive in shares {
            for permanent in shares {
                for group in shares {
                    if additive + permanent + group > 0.99 {
                        continue;
                    }
                    let parts = Fractions {
                        additive,
                        permanent,
                        groups: vec![group],
                        apart: Vec::new(),
                    };
                    let Some(of_one) = parts.of_whole(1.0) else {
                        continue;
                    };
                    let solved = Solved::of(&relatives, &design, &of_one).expect("solved");
                    let variances = parts.of_whole(solved.whole_variance()).expect("sound");
                    let deviance = dense(&relatives, &design, &variances).deviance_at_whole_one;
                    assert!(
                        deviance >= found.deviance - 1e-5,
                        "seed {seed}: {parts:?} has {deviance}, the estimate {}",
                        found.deviance
                    );
                }
            }
        }
    }
}

/// A column stated twice tells nothing more: the estimate is that without it, and so are the degrees of freedom.
#[test]
fn a_column_that_tells_nothing_new_changes_nothing() {
    for seed in [1, 3] {
        let (relatives, design) = nursery(seed);
        let mut twice = design.clone();
        twice.group_of.push(None);
        let last = twice.group_of.len() as u32 - 1;
        for reading in &mut twice.readings {
            let of = reading.columns[1].1;
            reading.columns.push((last, 3.0 * of - 1.0));
        }
        let one = estimate(&relatives, &design, 1, &[]).expect("estimated");
        let other = estimate(&relatives, &twice, 1, &[]).expect("estimated");
        assert!(
            (one.fractions.additive - other.fractions.additive).abs() < 1e-3,
            "{one:?} {other:?}"
        );
        assert!((one.whole - other.whole).abs() < 1e-3 * one.whole);
        assert!(
            (one.limits.0 - other.limits.0).abs() < 2e-3,
            "{one:?} {other:?}"
        );
        let variances = one.fractions.of_whole(1.0).expect("sound");
        let of = |design: &Design| {
            Solved::of(&relatives, design, &variances)
                .expect("solved")
                .freedom()
        };
        assert_eq!(of(&design), of(&twice));
        assert_eq!(of(&design), design.readings.len() - 2);
    }
}

/// A reading is no estimate of anything but itself.
#[test]
fn one_reading_estimates_nothing() {
    let (relatives, design) = nursery(1);
    let one = Design {
        readings: design.readings[..1].to_vec(),
        ..design
    };
    assert_eq!(
        estimate(&relatives, &one, 1, &[]),
        Err(Unsolvable::NotDefinite)
    );
}

/// Siblings added up at once have the same maximum.
#[test]
fn the_maximum_does_not_hang_on_how_readings_are_added_up() {
    let mut chance = Chance(3);
    let (relatives, plain, together) = with_pods(1 + chance.below(9) as u64);
    let one = estimate(&relatives, &plain, 2, &[]).expect("estimated");
    let other = estimate(&relatives, &together, 2, &[]).expect("estimated");
    assert!(
        (one.deviance - other.deviance).abs() < 1e-5,
        "{one:?} {other:?}"
    );
}

#[test]
fn age_has_as_many_terms_as_the_ages_can_tell() {
    let terms = |ages: &[f64]| {
        let curve = AgeCurve::of(ages.iter().copied());
        (curve.distinct, curve.terms())
    };
    assert_eq!(terms(&[]), (0, 0));
    assert_eq!(terms(&[12.0, 12.0, 12.3]), (1, 0));
    assert_eq!(terms(&[12.0, 30.0, 12.2, 30.4]), (2, 1));
    assert_eq!(terms(&[12.0, 30.0, 20.0]), (3, 2));
    // A twentieth of forty months is two.
    assert_eq!(terms(&[40.0, 41.5]), (1, 0));
    assert_eq!(terms(&[40.0, 42.5]), (2, 1));
    let curve = AgeCurve::of([10.0, 20.0, 40.0].into_iter());
    let at = |age: f64| curve.at(age).collect::<Vec<f64>>();
    assert_eq!(at(10.0), [-1.0, 1.0]);
    assert_eq!(at(25.0), [0.0, 0.0]);
    assert_eq!(at(40.0), [1.0, 1.0]);
}
