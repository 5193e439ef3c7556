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

fn said(question: &str) -> String {
    let run = crate::demo::demo(question);
    let all = format!("{} {}", run.stdout, run.stderr);
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn words_that_were_unclear_to_a_stranger() {
    let told = said("name X22-02-5 --fit 40");
    assert!(
        told.contains(
            "none of 6 control flowers set, so stray pollen may have set as many as 39 % of flowers (95 % limit)"
        ),
        "{told}"
    );
    assert!(
        told.contains("that a parent further back is one of several"),
        "{told}"
    );
    let told = said("list --gone");
    assert!(
        told.starts_with("20 of 78 plants on record (no longer in the collection) "),
        "{told}"
    );
    let told = said("pedigree X22-02-5");
    assert!(told.contains("♂ perhaps X13-01-2 (2 in 3) ·"), "{told}");
    assert!(told.contains("♂ perhaps X13-01-5 (1 in 3) ·"), "{told}");
    let told = said("pedigree Ven1 --down");
    assert_eq!(
        told.matches("X20-02, as seed parent, with ♂ unknown:")
            .count(),
        1,
        "{told}"
    );
    let told = said("parentage X20-01-5");
    assert!(told.contains("nothing is common to the 3 cases"), "{told}");
    assert!(!told.contains("whichever it is"), "{told}");
    let told = said("show X20-01");
    assert!(
        told.contains("6 numbered, 2 of them perhaps of X20-02, 6 here"),
        "{told}"
    );
    let told = said("show Ven1");
    assert!(
        told.contains("received as N. ventricosa \"red\" received"),
        "{told}"
    );
    let told = said("variation X22-02");
    assert!(
        told.starts_with("podbook: variation compares two crosses or more"),
        "{told}"
    );
    let told = said("read X22-02-5");
    assert!(told.contains("its name: `podbook name X22-02-5`"), "{told}");
    let told = said("select X22-02 --weigh banding=1 --keep 4");
    assert!(told.contains("tied for places 1 to 4 of 15"), "{told}");
    let told = said("grade X22-02.S1");
    assert!(
        told.contains("worked out from the spread of 10 plants"),
        "{told}"
    );
}

#[test]
fn no_plant_is_crowned_where_none_stands_out() {
    let told = said("merit --trait banding");
    assert!(
        told.starts_with(
            "No plant stands out in merit in rim banding: the 23 plants cannot be told apart, reliability 0.12 to 0.15"
        ),
        "{told}"
    );
    let told = said("merit --trait span");
    assert!(told.contains("above mean"), "{told}");
}

#[test]
fn what_may_be_no_ancestor_is_called_so() {
    let told = said("diversity");
    assert!(
        told.contains(
            "come through Spa1, Ven1 and perhaps X13-01-2 (one of several possible parents)"
        ),
        "{told}"
    );
    assert!(!told.contains("−2.35"), "{told}");
    assert!(told.contains("`podbook due` asks for cuttings"), "{told}");
}
