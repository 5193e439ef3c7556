//! `podbook show`, `list` and `pedigree` over the demo: what was not counted, muddled trays, plants that are gone.

use crate::demo::demo;
use insta::assert_snapshot;

#[test]
fn what_nobody_counted_is_not_zero() {
    let run = demo("list crosses --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let crosses = answer["crosses"].as_array().expect("a list");
    let of = |id: &str| {
        crosses
            .iter()
            .find(|row| row["id"] == id)
            .expect("it is there")
    };
    assert!(of("X19-02")["sown"].is_null() && of("X19-02")["germinated"].is_null());
    assert_eq!(of("X22-02")["sown"], 120);
}

#[test]
fn a_cross_lists_its_pods() {
    assert_snapshot!(demo("show X22-02"));
}

#[test]
fn a_community_pot_has_a_screen() {
    assert_snapshot!(demo("show X21-05.T1"));
}

#[test]
fn the_age_of_a_pollen_lot_ends_with_it() {
    assert_snapshot!(demo("show Spa1-1504"));
}

#[test]
fn a_muddled_seedling_keeps_its_pairs_together() {
    assert_snapshot!(demo("pedigree X20-01-5"));
}

#[test]
fn a_pod_has_its_own_seedlings() {
    assert_snapshot!(demo("pedigree X22-02.P1 --generations 1"));
}

#[test]
fn descendants_are_read_downward() {
    assert_snapshot!(demo("pedigree Spa1 --down"));
}

#[test]
fn a_plant_without_offspring_says_so() {
    assert_snapshot!(demo("pedigree X22-02-5 --down"));
}

#[test]
fn a_misspelt_species_is_answered_with_the_nearest() {
    assert_snapshot!(demo("show ventricossa"));
}
