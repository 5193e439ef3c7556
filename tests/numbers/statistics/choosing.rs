//! Levels, fronts and the next reading: `05_selection.json`, and slow twins.

use super::tables::{close, numbers, table};
use podbook::statistics::culling::{Level, Verdict, judge};
use podbook::statistics::distribution::normal_density;
use podbook::statistics::merit::{Trait, ranking, scores};
use podbook::statistics::next_reading::{Candidate, Stands, worth};
use podbook::statistics::pareto::layers;
use podbook::statistics::random::SplitMix64;
use podbook::statistics::{Confidence, StatisticsError};

#[test]
fn layers_of_the_table() {
    let row = &table!("05_selection.json")["pareto"];
    let plants: Vec<Vec<f64>> = row["points"]
        .as_array()
        .unwrap()
        .iter()
        .map(numbers)
        .collect();
    let found = layers(&plants).unwrap();
    for (number, layer) in row["layers"].as_array().unwrap().iter().enumerate() {
        let expected: Vec<usize> = numbers(layer).iter().map(|&p| p as usize).collect();
        let of_layer: Vec<usize> = (0..plants.len()).filter(|&p| found[p] == number).collect();
        assert_eq!(of_layer, expected);
    }
    assert_eq!(
        (found[3], found[5]),
        (0, 0),
        "two plants exactly alike share the front"
    );
}

/// Twin: peel the front of what is left, comparing everything with everything.
#[test]
fn layers_by_peeling() {
    let mut random = SplitMix64::new(52);
    let plants: Vec<Vec<f64>> = (0..120)
        .map(|_| (0..3).map(|_| random.below(6) as f64).collect())
        .collect();
    let beats = |a: &[f64], b: &[f64]| a.iter().zip(b).all(|(x, y)| x >= y) && a != b;
    let (mut left, mut number, mut expected): (Vec<usize>, usize, Vec<usize>) =
        ((0..120).collect(), 0, vec![0; 120]);
    while !left.is_empty() {
        let front: Vec<usize> = left
            .iter()
            .copied()
            .filter(|&p| !left.iter().any(|&q| beats(&plants[q], &plants[p])))
            .collect();
        front.iter().for_each(|&p| expected[p] = number);
        left.retain(|p| !front.contains(p));
        number += 1;
    }
    assert_eq!(layers(&plants).unwrap(), expected);
    assert_eq!(layers(&[]), Ok(vec![]));
    assert_eq!(layers(&[vec![1.0]]), Ok(vec![0]));
    assert!(layers(&[vec![1.0], vec![1.0, 2.0]]).is_err() && layers(&[vec![f64::NAN]]).is_err());
}

fn two_traits() -> [Trait; 2] {
    let size = Trait {
        weight: 2.0,
        reading_sd: 0.25,
        readings: vec![Some(4.0), Some(6.0), Some(8.0), None, None],
    };
    let bands = Trait {
        weight: -1.0,
        reading_sd: 0.0,
        readings: vec![Some(1.0), None, Some(3.0), Some(2.0), None],
    };
    [size, bands]
}

/// By hand: sizes have mean 6, SD 2; bands mean 2, SD 1.
#[test]
fn scores_by_hand() {
    let found = scores(&two_traits(), Confidence::P95).unwrap();
    let values: Vec<Option<f64>> = found
        .iter()
        .map(|score| score.as_ref().map(|s| s.value))
        .collect();
    assert_eq!(values, [Some(-1.0), Some(0.0), Some(1.0), Some(0.0), None]);
    let half = |plant: usize| {
        found[plant]
            .as_ref()
            .map(|s| s.interval.high - s.value)
            .unwrap()
    };
    let z = 1.959963984540054;
    close(half(0), z * 2.0 * 0.125, 1e-12);
    close(half(1), z * (0.0625_f64 + 1.0).sqrt(), 1e-12);
    close(half(3), z * 2.0, 1e-12);
    assert_eq!(
        ranking(&found),
        [2, 1, 3, 0],
        "equal scores in the order given, the unread plant not at all"
    );
}

#[test]
fn awkward_scores() {
    let [size, _] = two_traits();
    assert!(scores(&[], Confidence::P95).is_err());
    let short = Trait {
        readings: vec![Some(1.0)],
        ..size.clone()
    };
    assert_eq!(
        scores(&[size.clone(), short], Confidence::P95),
        Err(StatisticsError::Unpaired { left: 5, right: 1 })
    );
    let alike = Trait {
        readings: vec![Some(3.0); 5],
        ..size.clone()
    };
    let found = scores(&[alike], Confidence::P95).unwrap();
    assert!(found.iter().all(|s| {
        s.as_ref()
            .is_some_and(|s| s.value == 0.0 && s.interval.high == 0.0)
    }));
    let unread = Trait {
        readings: vec![None; 5],
        ..size.clone()
    };
    assert!(
        scores(std::slice::from_ref(&unread), Confidence::P95)
            .unwrap()
            .iter()
            .all(Option::is_none)
    );
    let both = scores(&[size.clone(), unread.clone()], Confidence::P95).unwrap();
    assert_eq!(both[0].as_ref().map(|s| s.unread), Some(1));
    // Of what was read on one plant, or on none, no spread is known: each plant may stand anywhere in it.
    let once = Trait {
        readings: vec![None, Some(3.0), None, None, None],
        ..unread.clone()
    };
    let read = Trait {
        reading_sd: 0.0,
        ..size
    };
    for trait_of_few in [unread, once] {
        let found = scores(&[read.clone(), trait_of_few], Confidence::P95).unwrap();
        let values: Vec<f64> = found[..3].iter().flatten().map(|s| s.value).collect();
        assert_eq!(values, [-2.0, 0.0, 2.0]);
        for score in found[..3].iter().flatten() {
            let half = score.interval.high - score.value;
            close(half, 1.959963984540054 * 2.0, 1e-12);
        }
    }
}

#[test]
fn levels() {
    let levels = [Some(Level::AtLeast(5.0)), None, Some(Level::AtMost(0.0))];
    assert_eq!(
        judge(&[Some(5.0), None, Some(0.0)], &levels),
        Verdict::Passes
    );
    assert_eq!(
        judge(&[Some(4.9), None, Some(1.0)], &levels),
        Verdict::Fails(vec![0, 2])
    );
    assert_eq!(
        judge(&[None, None, Some(1.0)], &levels),
        Verdict::Fails(vec![2])
    );
    assert_eq!(
        judge(&[Some(9.0), None, None], &levels),
        Verdict::Unread(vec![2])
    );
    assert_eq!(judge(&[], &levels), Verdict::Unread(vec![0, 2]));
    assert_eq!(
        judge(&[Some(f64::NAN)], &levels[..1]),
        Verdict::Fails(vec![0])
    );
    assert_eq!(judge(&[], &[]), Verdict::Passes);
}

fn candidates() -> Vec<Candidate> {
    let candidate = |(merit, variance): (f64, f64)| Candidate {
        stands: if merit > 0.8 {
            Stands::Kept
        } else {
            Stands::LeftOut
        },
        merit,
        variance,
        reading_variance: 0.2,
    };
    [
        (1.2, 0.3),
        (0.9, 0.5),
        (0.7, 0.1),
        (0.6, 0.8),
        (0.0, 1.0),
        (-2.0, 0.2),
    ]
    .map(candidate)
    .to_vec()
}

/// Twin: the summed merit of the two best, averaged over what the reading might say in fine steps.
#[test]
fn worth_of_a_reading_by_integration() {
    let all = candidates();
    let best_two = |merits: &[f64]| {
        let mut sorted = merits.to_vec();
        sorted.sort_by(|a, b| b.total_cmp(a));
        sorted[0] + sorted[1]
    };
    let merits: Vec<f64> = all.iter().map(|c| c.merit).collect();
    for worth in worth(&all).unwrap() {
        let candidate = all[worth.plant];
        let sd = candidate.variance / (candidate.variance + candidate.reading_variance).sqrt();
        let mut after = 0.0;
        for i in -80_000..80_000 {
            let z = (f64::from(i) + 0.5) / 10_000.0;
            let mut moved = merits.clone();
            moved[worth.plant] += sd * z;
            after += best_two(&moved) * normal_density(z) / 10_000.0;
        }
        assert!(
            (worth.gain - (after - best_two(&merits))).abs() < 1e-6,
            "{worth:?}"
        );
    }
}

/// Twin: a plant not read yet takes the place of the last one kept wherever its reading puts it above, though its expected
/// merit may stand above it before.
#[test]
fn a_plant_that_waits_may_stand_above_the_last_one_kept() {
    let all = candidates();
    let low = Candidate {
        merit: -0.5,
        ..all[1]
    };
    let waits = Candidate {
        stands: Stands::Waits,
        ..all[4]
    };
    let sd = 1.0 / 1.2_f64.sqrt();
    let above = |z: f64| (0.5 + sd * z).max(0.0) * normal_density(z) / 10_000.0;
    let expected: f64 = (-80_000..80_000)
        .map(|i| above((f64::from(i) + 0.5) / 10_000.0))
        .sum();
    let found = worth(&[all[0], low, waits]).unwrap();
    assert!((found[2].gain - expected).abs() < 1e-6, "{found:?}");
    assert!(found[..2].iter().all(|of| of.gain == 0.0), "{found:?}");
}

#[test]
fn awkward_candidates() {
    let all = candidates();
    assert_eq!(worth(&[]), Ok(vec![]));
    for stands in [Stands::Kept, Stands::LeftOut, Stands::Waits] {
        let alike: Vec<Candidate> = all.iter().map(|&of| Candidate { stands, ..of }).collect();
        let worths = worth(&alike).unwrap();
        assert!(worths.iter().all(|w| w.gain == 0.0), "{stands:?}");
    }
    let changed = |change: fn(&mut Candidate)| {
        let mut one = all[0];
        change(&mut one);
        let left = Candidate {
            stands: Stands::LeftOut,
            ..all[1]
        };
        worth(&[one, left])
    };
    let certain = changed(|c| (c.variance, c.reading_variance) = (0.0, 0.0));
    assert_eq!(certain.unwrap()[0].gain, 0.0);
    assert!(changed(|c| c.variance = -1.0).is_err());
}
