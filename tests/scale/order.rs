//! Numbering against its slow twin, and the order of codes as an order.

use super::nursery::Chance;
use podbook::registry::founders_first;
use podbook::registry::ids::natural_order;
use proptest::prelude::*;
use std::cmp::Ordering;

/// The obvious way: look through all for the smallest whose sources are taken.
fn slowly(sources: &[Vec<u32>]) -> Option<Vec<u32>> {
    let mut taken: Vec<u32> = Vec::new();
    while taken.len() < sources.len() {
        let ready = |thing: &u32| {
            let from = &sources[*thing as usize];
            !taken.contains(thing) && from.iter().all(|source| taken.contains(source))
        };
        taken.push((0..sources.len() as u32).find(ready)?);
    }
    Some(taken)
}

/// Numbers with their loops.
fn numbered(sources: &[Vec<u32>]) -> (Vec<u32>, Vec<Vec<u32>>) {
    let mut loops = Vec::new();
    let order = founders_first(sources, |in_loop| loops.push(in_loop.to_vec()));
    (order, loops)
}

fn any_sources() -> impl Strategy<Value = Vec<Vec<u32>>> {
    (1usize..24).prop_flat_map(|count| {
        let some = proptest::collection::vec(0..count as u32, 0..3);
        proptest::collection::vec(some, count)
    })
}

proptest! {
    #[test]
    fn agrees_with_the_slow_twin(sources in any_sources()) {
        let (order, loops) = numbered(&sources);
        match slowly(&sources) {
            Some(slow) => {
                prop_assert_eq!(order, slow);
                prop_assert!(loops.is_empty());
            }
            None => prop_assert!(!loops.is_empty()),
        }
    }

    #[test]
    fn every_loop_told_is_one(sources in any_sources()) {
        let (order, loops) = numbered(&sources);
        let mut without = sources.clone();
        for in_loop in &loops {
            for (at, &thing) in in_loop.iter().enumerate() {
                let next = in_loop[(at + 1) % in_loop.len()];
                prop_assert!(sources[thing as usize].contains(&next));
            }
            // Each loop goes through none that was released before.
            prop_assert!(in_loop.iter().all(|&thing| sources[thing as usize].is_empty() || !without[thing as usize].is_empty()));
            without[in_loop[0] as usize].clear();
        }
        // Without the parents that were taken away, what comes out is an order of all.
        let mut place = vec![usize::MAX; sources.len()];
        order.iter().enumerate().for_each(|(at, &thing)| place[thing as usize] = at);
        for (thing, from) in without.iter().enumerate() {
            prop_assert!(place[thing] != usize::MAX);
            prop_assert!(from.iter().all(|&source| place[source as usize] < place[thing]));
        }
    }

    #[test]
    fn codes_have_one_order(a in "[0-9ab\u{e9}-]{0,5}", b in "[0-9ab\u{e9}-]{0,5}", c in "[0-9ab\u{e9}-]{0,5}") {
        prop_assert_eq!(natural_order(&a, &b), natural_order(&b, &a).reverse());
        prop_assert_eq!(natural_order(&a, &b) == Ordering::Equal, a == b);
        if natural_order(&a, &b).is_le() && natural_order(&b, &c).is_le() {
            prop_assert!(natural_order(&a, &c).is_le());
        }
    }
}

#[test]
fn numbers_within_codes_count_by_value() {
    let mut codes = ["X22-10", "X22-9", "X22-09", "X3", "X22-9b", "V1", "X22"];
    codes.sort_by(|a, b| natural_order(a, b));
    assert_eq!(
        codes,
        ["V1", "X3", "X22", "X22-09", "X22-9", "X22-9b", "X22-10"]
    );
}

/// A million generations in a line, written youngest first.
#[test]
fn a_line_of_a_million() {
    const COUNT: u32 = 1_000_000;
    let sources: Vec<Vec<u32>> = (1..=COUNT)
        .map(|next| if next < COUNT { vec![next] } else { vec![] })
        .collect();
    let (order, loops) = numbered(&sources);
    assert!(loops.is_empty());
    assert!(order.iter().copied().eq((0..COUNT).rev()));
}

#[test]
fn a_loop_of_a_million() {
    const COUNT: u32 = 1_000_000;
    let sources: Vec<Vec<u32>> = (0..COUNT).map(|at| vec![(at + 1) % COUNT]).collect();
    let (order, loops) = numbered(&sources);
    assert_eq!(order.len(), COUNT as usize);
    assert_eq!(loops.len(), 1);
    assert_eq!(loops[0].len(), COUNT as usize);
}

/// Half a million loops of two behind one another: each is told once, in one run through.
#[test]
fn many_loops_behind_one_another() {
    const LOOPS: u32 = 200_000;
    let sources: Vec<Vec<u32>> = (0..2 * LOOPS)
        .map(|at| match (at % 2, at + 2 < 2 * LOOPS) {
            (0, true) => vec![at + 1, at + 2],
            (0, false) => vec![at + 1],
            _ => vec![at - 1],
        })
        .collect();
    let (order, loops) = numbered(&sources);
    assert_eq!(order.len(), 2 * LOOPS as usize);
    assert_eq!(loops.len(), LOOPS as usize);
}

/// Thousands of loops that share members.
#[test]
fn tangled_loops_end() {
    let mut chance = Chance(3);
    const COUNT: usize = 30_000;
    let sources: Vec<Vec<u32>> = (0..COUNT)
        .map(|_| (0..2).map(|_| chance.below(COUNT) as u32).collect())
        .collect();
    let (order, loops) = numbered(&sources);
    assert_eq!(order.len(), COUNT);
    assert!(loops.len() > 100);
}
