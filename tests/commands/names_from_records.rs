//! Names from records of which something is not known: bought seed, open pods, plants of one cross.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, of, said};

const SPECIES: &str = r#"(
    species: [(epithet: "ventricosa"), (epithet: "spathulata"), (epithet: "alata")],
    named_hybrids: [(epithet: "ventrispa", parents: ["ventricosa", "spathulata"], status: "published", expand: true, may_be_used: true)],
)"#;

/// Cross K with these parents and two seedlings, and L of the two.
fn sibs_of(parents: &str) -> BenchTop {
    of(&format!(
        r#"parents: {parents}, confidence: witnessed, seedlings: [(number: "1"), (number: "2")]"#
    ))
    .file("species.ron", SPECIES)
    .file("crosses/L.ron", &crossed("L", "K-1", "K-2"))
}

fn crossed(code: &str, seed: &str, pollen: &str) -> String {
    format!(
        r#"(code: "{code}", parents: known(seed: "{seed}", pollen: "{pollen}"), confidence: witnessed, seedlings: [(number: "1")])"#
    )
}

#[test]
fn seed_under_a_hybrid_name_alone_is_of_no_known_generation() {
    let top = sibs_of(r#"label_only("N. x ventrispa")"#);
    holds(
        &said(&top, "parentage K-1"),
        &[
            "hybrid by its name alone: parents if the name is right, generation unknown",
            "if the name is right, share of",
            "0.0 % to 100.0 %",
            "not: F1",
            "not: expected share of",
        ],
    );
    holds(
        &said(&top, "parentage L-1"),
        &[
            "if the name is right, share of",
            "a plant further back is known by a hybrid name alone",
            "not: F2",
        ],
    );
    holds(&said(&top, "name L-1"), &["sib cross", "not: F2"]);
}

#[test]
fn a_hybrid_name_for_one_parent_is_said_of_seed_and_of_a_plant() {
    let caution = "a plant further back is known by a hybrid name alone";
    let top = sibs_of(r#"label_only("N. x ventrispa x alata")"#).file(
        "clones.ron",
        r#"(clones: [
            (code: "V", received: "N. x ventrispa x alata", confidence: tag),
            (code: "S", received: "N. x ventrispa x spathulata", confidence: tag),
        ])"#,
    );
    for plant in ["K-1", "L-1", "V"] {
        let answer = said(&top, &format!("parentage {plant}"));
        holds(
            &answer,
            &[
                caution,
                "if the name is right, share of",
                "not: by its name alone",
            ],
        );
    }
    // A plant of the name may be nearly pure of either of its species.
    holds(
        &said(&top, "parentage V"),
        &["copies from two species 100.0 %"],
    );
    holds(
        &said(&top, "parentage S"),
        &["copies from two species 0.0 % to 100.0 %"],
    );
}

#[test]
fn plants_of_the_same_two_parents_give_f2_however_it_is_written() {
    let top = sibs_of(r#"known(seed: "V", pollen: "S")"#)
        .file("crosses/R.ron", &crossed("R", "S", "V"))
        .file("crosses/M.ron", &crossed("M", "K-1", "R-1"));
    let botanical = "N. spathulata × N. ventricosa (F2)";
    let written_out = "(N. ventricosa × N. spathulata) × (N. spathulata × N. ventricosa)";
    let not_noted = "not: is not called F2";
    holds(
        &said(&top, "name L-1"),
        &[
            "(N. ventricosa × N. spathulata) F2 (seed",
            botanical,
            not_noted,
        ],
    );
    holds(
        &said(&top, "name L-1 --codes"),
        &["[K-1] × (", botanical, "(seed parent first)", not_noted],
    );
    holds(
        &said(&top, "name M-1"),
        &[written_out, botanical, not_noted],
    );
    for plant in ["L-1", "M-1"] {
        let answer = said(&top, &format!("parentage {plant}"));
        holds(&answer, &["kind of cross F2 of spathulata and ventricosa"]);
    }
    let published = sibs_of(r#"known(seed: "V", pollen: "S")"#).file(
        "crosses/K.ron",
        r#"(code: "K", parents: known(seed: "V", pollen: "S"), confidence: witnessed, seedlings: [
            (number: "1", cultivar: (epithet: "Red Night", published: "a journal, 2024")), (number: "2"),
        ])"#,
    );
    holds(
        &said(&published, "name L-1"),
        &["'Red Night'", botanical, not_noted],
    );
}

#[test]
fn f2_is_not_said_where_each_seed_may_have_its_own_father() {
    let open = sibs_of(r#"open(seed: "V")"#);
    let twice = "(N. ventricosa × ? (open pollinated)) × (N. ventricosa × ? (open pollinated))";
    holds(&said(&open, "name L-1"), &[twice, "not: F2 ("]);
    let mixed = sibs_of(r#"label_only("ventricosa x mixed pollen (spathulata, alata)")"#);
    holds(
        &said(&mixed, "name L-1"),
        &[
            "not: F2 (",
            "mixed pollen (N. spathulata, N. alata)) (claimed) × ♂ (",
        ],
    );
    let unknown = sibs_of("unknown");
    holds(&said(&unknown, "name L-1"), &["? × ?", "not: F2"]);
    let one_father = sibs_of(r#"pollen_unknown(seed: "V")"#);
    holds(&said(&one_father, "name L-1"), &["(N. ventricosa × ?) F2"]);
}

#[test]
fn one_name_on_a_packet_of_seed_is_no_cross_of_it_with_itself() {
    for (label, name) in [
        (r#"N. 'Ruby Queen'"#, "N. \"Ruby Queen\" (claimed)"),
        (r#"N. \"Big Boy\""#, "N. \"Big Boy\" (claimed)"),
        ("N. ventricosa", "N. ventricosa (claimed)"),
    ] {
        let top = sibs_of(&format!(r#"label_only("{label}")"#));
        holds(
            &said(&top, "name K-1"),
            &[
                name,
                "not: ×",
                "not: assumed first",
                "not: as is the custom",
            ],
        );
        holds(&said(&top, "name L-1"), &[" sib cross", "not: F2"]);
    }
    let species = sibs_of(r#"label_only("N. ventricosa")"#);
    holds(&said(&species, "parentage K-1"), &["species: ventricosa"]);
    let exported = said(&species, "export passport K-1");
    holds(
        &exported,
        &["Nepenthes,ventricosa", "not: sp.", "not: assumed first"],
    );
    let nickname = sibs_of(r#"label_only("N. \"Big Boy\"")"#);
    holds(&said(&nickname, "parentage K-1"), &["unknown 1 "]);
}

#[test]
fn several_plants_of_one_species_make_one_kind_of_cross() {
    for parents in [
        r#"pollen_one_of(seed: "V", pollen: ["S", "T"])"#,
        r#"pollen_mixed(seed: "V", pollen: ["S", "T"])"#,
        r#"one_of_pairs([(seed: "V", pollen: "S"), (seed: "S", pollen: "V")])"#,
    ] {
        let top = sibs_of(parents).file(
            "clones.ron",
            r#"(clones: [
                (code: "V", received: "N. ventricosa", confidence: tag),
                (code: "S", received: "N. spathulata", confidence: tag),
                (code: "T", received: "N. spathulata", confidence: tag),
            ])"#,
        );
        holds(
            &said(&top, "parentage K-1"),
            &["kind of cross primary hybrid (F1) of spathulata and ventricosa"],
        );
        if parents.contains("mixed") {
            holds(
                &said(&top, "name K-1"),
                &["N. ventricosa × N. spathulata (seed"],
            );
            holds(
                &said(&top, "parentage L-1"),
                &["F2 only if both have the same parents, which is not recorded"],
            );
        }
    }
}

#[test]
fn a_plant_bought_as_f2_is_f2_by_its_label() {
    let top = of("seedlings: []").file(
        "clones.ron",
        r#"(clones: [
            (code: "V", received: "ventricosa x spathulata F2", confidence: tag),
            (code: "S", received: "(ventricosa x spathulata) x spathulata BC1", confidence: tag),
        ])"#,
    );
    holds(
        &said(&top, "parentage V"),
        &["F2 of spathulata and ventricosa by the label, a claim"],
    );
    holds(
        &said(&top, "name V"),
        &["it is true only if both parents are of one cross"],
    );
    holds(
        &said(&top, "name K"),
        &["it is true only if both parents are of one cross"],
    );
    holds(
        &said(&top, "parentage S"),
        &["backcross to spathulata (BC1)"],
    );
}

#[test]
fn a_hybrid_name_is_suggested_for_what_is_claimed_only_if_the_claim_is_true() {
    let top = sibs_of(r#"label_only("ventricosa x spathulata")"#);
    holds(
        &said(&top, "name K-1"),
        &["published; may be used as a name if the claim is true"],
    );
    let claimed = said(&top, "read ventricosa×spathulata(claimed)");
    holds(&claimed, &["(claimed)", "not: ventrispa"]);
}

#[test]
fn a_tag_says_that_a_father_is_probable_where_more_is_open_too() {
    let top = of(r#"parents: pollen_one_of(seed: "V", pollen: ["S", "T"]), confidence: witnessed,
        pollinations: [(zone: "A", plant: "V", on: ["2025-06-01"], flowers: 10, set: 5, control_set: 2)],
        seedlings: [(number: "1")]"#)
    .file(
        "clones.ron",
        r#"(clones: [
            (code: "V", received: "N. ventricosa", confidence: tag),
            (code: "S", received: "N. spathulata", confidence: tag),
            (code: "T", received: "N. spathulata", confidence: tag),
        ])"#,
    );
    holds(
        &said(&top, "tags K-1 --json"),
        &["\"V × (S or T) (father probable)\""],
    );
}

/// The generation that a label states is a kind of cross only where the label says what was crossed and how.
#[test]
fn a_generation_by_label_needs_sure_names() {
    let founder = |(code, label): (&str, &str)| {
        format!(r#"(code: "{code}", received: "{label}", confidence: tag)"#)
    };
    let founders = [
        ("F", "(N. ventricosa x spathulata) F2"),
        (
            "B",
            "N. ventricosa x spathulata (backcross to N. spathulata)",
        ),
        ("N", "N. ventrispa x ventricosa"),
        ("O", "(N. ventricosa x spathulata) self"),
        ("I", "((N. ventricosa x spathulata) x spathulata) sib cross"),
    ];
    let founders = founders.map(founder).join(", ");
    let top = of("")
        .file("species.ron", SPECIES)
        .file("clones.ron", &format!("(clones: [{founders}])"));
    for (code, kind) in [
        ("F", "F2 of spathulata and ventricosa by the label, a claim"),
        ("B", "backcross to spathulata (BC1)"),
        ("N", "complex hybrid of 2 species"),
        ("O", "complex hybrid of 2 species"),
        ("I", "complex hybrid of 2 species"),
    ] {
        let answer = said(&top, &format!("parentage {code}"));
        holds(&answer, &[&format!("kind of cross {kind}")]);
    }
}

/// Of two plants whose parents are not known nothing says that they are sibs, and an unknown plant is not claimed to be one.
#[test]
fn nothing_is_made_of_a_label_that_says_nothing() {
    let top = sibs_of(r#"label_only("??")"#);
    holds(
        &said(&top, "name L"),
        &["L: ? (?) × (? (?))", "not: sib cross"],
    );
    let bare = sibs_of(r#"label_only("?")"#);
    holds(&said(&bare, "name K"), &["K: ? ", "not: ? (claimed)"]);
    let doubted = sibs_of(r#"label_only("N. ventricosa ?")"#);
    holds(
        &said(&doubted, "name K"),
        &["K: N. ventricosa (?)", "not: ventricosa (claimed)"],
    );
    let epithet = sibs_of(r#"label_only("N. 'Big Red'")"#);
    holds(
        &said(&epithet, "pedigree K-1"),
        &["by label only · ?", "not: by label only · N."],
    );
}

/// F1 and F2 of a pair have the same shares and make crosses of two kinds.
#[test]
fn a_father_that_is_one_of_two_generations_leaves_the_kind_open() {
    let top = sibs_of(r#"known(seed: "V", pollen: "S")"#).file(
        "crosses/M.ron",
        r#"(code: "M", parents: pollen_one_of(seed: "K-1", pollen: ["K-2", "L-1"]), confidence: witnessed)"#,
    );
    holds(
        &said(&top, "parentage L"),
        &["kind of cross F2 of spathulata and ventricosa"],
    );
    holds(
        &said(&top, "parentage M"),
        &["kind of cross open:", "not: kind of cross F2"],
    );
}

/// A backcross that a label names: whose, by any name of the species, and no surer than the cross it stands behind.
#[test]
fn a_backcross_on_a_label_is_to_the_species_it_names() {
    let spelt = SPECIES.replacen(
        "named_hybrids",
        r#"synonyms: [(name: "dubia", now: "alata")], named_hybrids"#,
        1,
    );
    let top = of("").file("species.ron", &spelt);
    let read = |label: &str| {
        let run = top.run(&["read", label]);
        let words: Vec<&str> = run.stdout.split_whitespace().collect();
        words.join(" ")
    };
    let formula = "(N. alata × N. spathulata) × N. alata (direction unknown; seed parent assumed first in brackets)";
    for recurrent in ["N. dubia", "Nepenthes alata", "alata"] {
        let answer = read(&format!("N. alata x spathulata (backcross to {recurrent})"));
        holds(&answer, &[formula]);
    }
    holds(
        &read("(N. alata x spathulata) (claimed) (backcross to N. alata)"),
        &["N. spathulata) (claimed) × N. alata (claimed)"],
    );
    holds(
        &read("N. (alata x spathulata) x alata (backcross to N. spathulata)"),
        &["Not read: the formula is BC1 to alata, not BC1 to spathulata"],
    );
}

/// A table is read without the record beside it: a founder that is claimed is of no species there, and a name says what its
/// order rests on.
#[test]
fn a_table_says_of_names_what_the_record_says() {
    let top = of("").file(
        "clones.ron",
        r#"(clones: [
            (code: "V", received: "N. ventricosa (claimed)", confidence: tag),
            (code: "S", received: "N. ventricosa x spathulata", confidence: tag),
        ])"#,
    );
    holds(
        &said(&top, "export passport V"),
        &["Nepenthes,sp.,", "N. ventricosa (claimed)"],
    );
    holds(
        &said(&top, "export plants"),
        &["N. ventricosa × N. spathulata (seed parent assumed first)"],
    );
}
