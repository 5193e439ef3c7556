//! Pedigrees from plain tables, and numbering with loops.

use podbook::ancestry::{FounderDescent, Founders, Generations, Heterozygosities, Shares};
use podbook::kinship::{Kinship, NamedPedigree, TableFault, TableRow, pedigree_of_table};
use podbook::lineage::Founding;
use proptest::prelude::*;

use crate::tables::SplitMix64;

fn row<'t>(line: u64, [id, seed, pollen]: [&'t str; 3]) -> TableRow<'t> {
    TableRow {
        line,
        id,
        seed,
        pollen,
    }
}

fn table(rows: &[[&'static str; 3]]) -> Result<NamedPedigree, Vec<TableFault>> {
    pedigree_of_table(
        rows.iter()
            .enumerate()
            .map(|(at, &fields)| row(at as u64 + 2, fields)),
    )
}

#[test]
fn rows_in_any_order_with_founders_named_only_as_parents() {
    let named = table(&[
        ["x", "a", "b"],
        ["a", "p", " q "],
        ["b", "p", "q"],
        ["y", "x", "?"],
        ["z", "", ""],
    ])
    .unwrap();
    let kinship = Kinship::of(&named.pedigree, &Founding::unrelated()).unwrap();
    let row = |id: &str| named.row(id).unwrap();
    assert_eq!(named.ids.len(), 7);
    assert_eq!(kinship.inbreeding(row("x")), 0.25);
    assert_eq!(kinship.pair(row("p"), row("x")), 0.25);
    assert_eq!(kinship.pair(row("z"), row("x")), 0.0);
    assert_eq!(kinship.inbreeding(row("y")), 0.0);
    assert_eq!(named.row("?"), None);
    assert!(named.pedigree.origin_row(row("p")).is_none());
    assert_eq!(
        named.pedigree.origin_row(row("a")),
        named.pedigree.origin_row(row("b"))
    );
}

#[test]
fn faults_are_all_told() {
    let faults = table(&[
        ["a", "", ""],
        ["?", "a", ""],
        ["a", "b", ""],
        ["c", "c", "a"],
        ["", "", ""],
    ])
    .unwrap_err();
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        [
            "line 3: found no id, needed one; give the plant an id",
            "line 4: a already stands in line 2; keep one row, or give this plant another id",
            "line 5: c is named as its own parent; correct that parent",
            "line 6: found no id, needed one; give the plant an id",
        ]
    );
}

#[test]
fn loops_are_named_whole() {
    let faults = table(&[
        ["below", "b", "f"],
        ["a", "b", "f"],
        ["b", "f", "c"],
        ["c", "a", ""],
        ["d", "e", "a"],
        ["e", "f", "d"],
        ["f", "", ""],
    ])
    .unwrap_err();
    let told: Vec<String> = faults.iter().map(ToString::to_string).collect();
    assert_eq!(
        told,
        [
            "line 3: a is its own ancestor: a (line 3) is from b (line 4) is from c (line 5) is from a; correct one of these parents",
            "line 6: d is its own ancestor: d (line 6) is from e (line 7) is from d; correct one of these parents",
        ]
    );
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Shuffling the rows of a table changes no kinship, share, heterozygosity or generation.
    #[test]
    fn the_order_of_rows_changes_nothing(seed in any::<u64>()) {
        let mut rng = SplitMix64(seed);
        let ids: Vec<String> = (0..24).map(|at| format!("plant-{at}")).collect();
        let mut rows: Vec<[&str; 3]> = Vec::new();
        for at in 0..ids.len() {
            let parent = |rng: &mut SplitMix64| if at < 4 || rng.below(8) == 0 { "?" } else { ids[rng.below(at)].as_str() };
            rows.push([&ids[at], parent(&mut rng), parent(&mut rng)]);
        }
        let build = |rows: &[[&str; 3]]| {
            let named = pedigree_of_table(rows.iter().map(|&fields| row(1, fields))).unwrap();
            let kinship = Kinship::of(&named.pedigree, &Founding::unrelated()).unwrap();
            let plants: Vec<_> = ids.iter().map(|id| named.row(id).unwrap()).collect();
            let founders: Founders = plants
                .iter()
                .enumerate()
                .filter(|(_, plant)| named.pedigree.origin_row(**plant).is_none())
                .map(|(at, &plant)| (plant, FounderDescent::Species(at as u32 % 3)))
                .collect();
            let shares = Shares::of(&named.pedigree, &founders);
            let mixed = Heterozygosities::of(&named.pedigree, &founders).unwrap();
            let generations = Generations::of(&named.pedigree);
            let of_each: Vec<_> = plants
                .iter()
                .map(|&plant| {
                    let composition = shares.composition(&named.pedigree, plant).unwrap();
                    let mixed = mixed.heterozygosity(&named.pedigree, &founders, plant);
                    (composition, mixed, generations.generation(&named.pedigree, plant))
                })
                .collect();
            (kinship.table(&plants), of_each)
        };
        let before = build(&rows);
        for at in (1..rows.len()).rev() {
            rows.swap(at, rng.below(at + 1));
        }
        prop_assert_eq!(build(&rows), before);
    }
}
