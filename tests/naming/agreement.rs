//! Labels held against records.

use super::reading;
use podbook::naming::{Agreement, Formula, agreement};

fn formula(label: &str) -> Formula {
    reading(label).formula.unwrap_or_else(|| panic!("{label}"))
}

fn held(label: &str, recorded: &str) -> Agreement {
    agreement(&formula(label), &formula(recorded)).unwrap()
}

#[test]
fn a_label_that_says_less_or_the_same_agrees() {
    for (label, recorded) in [
        ("lowii x ventricosa", "lowii x ventricosa"),
        ("x ventrata", "ventricosa x alata"),
        ("lowii x ?", "lowii x ventricosa"),
        ("lowii x ventricosa", "lowii OP"),
        ("lowii x ventricosa", "lowii x (ventricosa or hamata)"),
        ("cf. lowii", "lowii"),
        ("N. 'Harbour Mist'", "lowii x ventricosa"),
        ("(maxima x veitchii) F2", "maxima x veitchii"),
        ("lowii-ventricosa", "ventricosa x lowii"),
    ] {
        assert_eq!(
            held(label, recorded),
            Agreement::Agrees,
            "{label} | {recorded}"
        );
    }
}

#[test]
fn the_other_seed_parent_is_told() {
    assert_eq!(
        held("lowii x ventricosa", "ventricosa x lowii"),
        Agreement::TurnedRound
    );
    assert_eq!(
        held("(lowii x maxima) x hamata", "hamata x (maxima x lowii)"),
        Agreement::TurnedRound
    );
    assert_eq!(
        held(
            "rajah clone A x rajah clone B",
            "rajah clone B x rajah clone A"
        ),
        Agreement::Agrees
    );
}

#[test]
fn other_species_or_other_shares_contradict() {
    let contradicts =
        |names: &[&str]| Agreement::Contradicts(names.iter().map(ToString::to_string).collect());
    assert_eq!(
        held("lowii x maxima", "lowii x ventricosa"),
        contradicts(&["maxima", "ventricosa"])
    );
    assert_eq!(
        held("lowii", "lowii x ventricosa"),
        contradicts(&["lowii", "ventricosa"])
    );
    assert_eq!(
        held("(lowii x ventricosa) x lowii", "lowii x ventricosa"),
        contradicts(&["lowii", "ventricosa"])
    );
    assert_eq!(
        held("lowii x hamata", "lowii x (ventricosa or maxima)"),
        contradicts(&["hamata"])
    );
    assert_eq!(
        held("maxima", "lowii x ?"),
        contradicts(&["lowii", "maxima"])
    );
}
