//! Kinds of cross.

use podbook::ancestry::{CrossKind, CrossKinds, FounderDescent, Founders, Shares};
use podbook::lineage::{Origin, Pedigree, PlantRow};

use crate::shares::worked;
use crate::tables::SplitMix64;

/// The worked pedigree, judged by hand from the rules: F1 and F2 as the trade uses the words (common practice).
#[test]
fn kinds_of_the_worked_pedigree() {
    let (named, founders, _) = worked();
    let shares = Shares::of(&named.pedigree, &founders);
    let kinds = CrossKinds::of(&named.pedigree, &founders, &shares);
    let filial = |generation| CrossKind::Filial {
        species: [0, 1],
        generation,
        one_family: Some(true),
    };
    let wanted = [
        ("spB", CrossKind::Species(1)),
        ("F1_AB", CrossKind::Primary([0, 1])),
        ("F1_CD", CrossKind::Primary([2, 3])),
        ("F2_1", filial(2)),
        ("F3_sib_1", filial(3)),
        ("F4_sib", filial(4)),
        (
            "BC1_A_1",
            CrossKind::Backcross {
                to: 0,
                times: Some(1),
            },
        ),
        (
            "BC2_A",
            CrossKind::Backcross {
                to: 0,
                times: Some(2),
            },
        ),
        ("BC1xBC1", CrossKind::Complex { species: 2 }),
        ("W4_1", CrossKind::Complex { species: 4 }),
        ("W4xF1AC", CrossKind::Complex { species: 4 }),
        ("F2xF1parent", CrossKind::Complex { species: 2 }),
        ("F5_mix", CrossKind::Complex { species: 2 }),
    ];
    for (name, kind) in wanted {
        assert_eq!(
            kinds.kind(&named.pedigree, &founders, named.row(name)),
            kind,
            "{name}"
        );
    }
}

/// What a plant is, and the plants of the species that its line was crossed back to, the last first.
type Twin = (CrossKind, Vec<PlantRow>);

/// The slow twin: each plant is judged by walking its whole pedigree anew.
fn walked(parents: &[Option<[usize; 2]>], plant: usize) -> Twin {
    let alone = |kind| (kind, Vec::new());
    let Some([seed, pollen]) = parents[plant] else {
        return alone(CrossKind::Species(plant as u32 / 2));
    };
    let (one, other) = (walked(parents, seed), walked(parents, pollen));
    let (to, pure, hybrid, line) = match (one.0, other.0) {
        (CrossKind::Species(a), CrossKind::Species(b)) if a == b => return alone(one.0),
        (CrossKind::Species(_), CrossKind::Species(_)) => {
            return alone(CrossKind::Primary([0, 1]));
        }
        (CrossKind::Species(to), hybrid) => (to, seed, hybrid, other.1),
        (hybrid, CrossKind::Species(to)) => (to, pollen, hybrid, one.1),
        (one, other) => return alone(mated(one, other, parents[seed] == parents[pollen])),
    };
    let (times, line) = match hybrid {
        CrossKind::Primary(_) | CrossKind::Filial { .. } => (Some(1), Vec::new()),
        CrossKind::Backcross { to: before, times } if before == to => {
            (times.map(|times| times + 1), line)
        }
        _ => (None, Vec::new()),
    };
    let pure = std::iter::once(PlantRow::new(pure));
    let line = pure.chain(line).collect();
    (CrossKind::Backcross { to, times }, line)
}

/// Two hybrids mated.
fn mated(one: CrossKind, other: CrossKind, of_one_pair: bool) -> CrossKind {
    let generation = |of| match of {
        CrossKind::Primary(_) => Some((1, true)),
        CrossKind::Filial {
            generation,
            one_family,
            ..
        } => Some((generation, one_family == Some(true))),
        _ => None,
    };
    match (generation(one), generation(other)) {
        (Some((number, one)), Some((same, other))) if number == same => CrossKind::Filial {
            species: [0, 1],
            generation: number + 1,
            one_family: Some(one && other && of_one_pair),
        },
        _ => CrossKind::Complex { species: 2 },
    }
}

/// Small pedigrees of two clones of each of two species, crossed at random.
#[test]
fn kinds_of_random_pedigrees_are_those_of_the_slow_twin() {
    let mut random = SplitMix64(46);
    for _ in 0..2_000 {
        let mut pedigree = Pedigree::default();
        let species = |row: u32| FounderDescent::Species(row / 2);
        let founders = (0..4).map(|row| (PlantRow::new(row as usize), species(row)));
        let founders: Founders = founders.collect();
        let mut parents: Vec<Option<[usize; 2]>> = vec![None; 4];
        for _ in 0..4 {
            pedigree.add_founder();
        }
        for _ in 0..3 + random.below(4) {
            // Each cross has two seedlings, so that sibs can be mated.
            let mut sides = [0, 1].map(|_| random.below(parents.len()));
            let [seed, pollen] = sides.map(|side| Some(PlantRow::new(side)));
            let origin = pedigree.add_origin(Origin::certain(seed, pollen));
            // Which of the two bore the seed makes no other pair.
            sides.sort_unstable();
            for _ in 0..2 {
                pedigree.add_offspring(origin);
                parents.push(Some(sides));
            }
        }
        let shares = Shares::of(&pedigree, &founders);
        let kinds = CrossKinds::of(&pedigree, &founders, &shares);
        for plant in 0..parents.len() {
            let row = PlantRow::new(plant);
            let (kind, line) = walked(&parents, plant);
            assert_eq!(kinds.kind(&pedigree, &founders, row), kind, "{parents:?}");
            let origin = pedigree.origin_row(row);
            let found = origin.map_or(Vec::new(), |origin| kinds.crossed_back_to(origin));
            assert_eq!(found, line, "{parents:?}");
        }
    }
}
