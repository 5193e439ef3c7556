//! What goes out of the house with a plant says no more than the record of that plant: who raised it, what it was mixed up
//! with, what was read of it and beside which siblings.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, said};

const SETTINGS: &str = r#"(genus: "Nepenthes", hemisphere: north, registry: "shed", grower: "the grower", traits: [
    (code: "span", name: "leaf span", reads: length(cm), tied_within: 0.7),
    (code: "teeth", name: "teeth", reads: count, of_pitcher: true),
])"#;
const SPECIES: &str =
    r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata"), (epithet: "maxima")])"#;
const CLONES: &str = r#"(clones: [
    (code: "V", received: "N. ventricosa", confidence: tag),
    (code: "S", received: "N. spathulata", confidence: tag),
    (code: "M", received: "N. maxima", confidence: tag),
])"#;

/// A registry of three founders and the page of cross K with these fields.
fn of(fields: &str) -> BenchTop {
    let parents = match fields.contains("parents:") {
        true => "",
        false => "parents: known(seed: \"V\", pollen: \"S\"), confidence: witnessed, ",
    };
    let page = format!("(code: \"K\", {parents}{fields})");
    BenchTop::with([
        ("registry.ron", SETTINGS),
        ("species.ron", SPECIES),
        ("clones.ron", CLONES),
        ("crosses/K.ron", page.as_str()),
    ])
}

const UNKNOWN: &str = "who raised it is not recorded";

#[test]
fn a_seedling_that_came_as_one_was_raised_by_somebody_else() {
    let claimed = "parents: label_only(\"N. ventricosa x spathulata\"), confidence: claim, received: \"ventricosa x spathulata\", ";
    let tagged = "parents: direction_lost((\"V\", \"S\")), confidence: tag, from: \"a fair\", ";
    for page in [claimed, tagged] {
        let sown = "sowings: [(code: \"S1\", on: \"2024\")], seedlings: [(number: \"1\")]";
        let top = of(&format!("{page}{sown}"));
        holds(
            &said(&top, "card K-1"),
            &[UNKNOWN, "not: seed-grown", "not: unique"],
        );
        let form = said(&top, "registration K-1 --format markdown");
        let who = "## 3. Who raised it *To add:";
        holds(&form, &[who]);
        let answer = said(&top, "registration K-1");
        holds(&answer, &["it is not recorded who raised K-1"]);
        assert_eq!(top.run(&["handover", "K-1", "-o", "handed"]).exit, Some(0));
        for line in [
            &["new", "mine"][..],
            &["merge", "handed", "--registry", "mine"],
        ] {
            assert_eq!(top.run(line).exit, Some(0), "{line:?}");
        }
        let taken_in = said(&top, "card K-1 --registry mine");
        holds(&taken_in, &[UNKNOWN, "not: seed-grown"]);
        let form = said(&top, "registration K-1 --registry mine --format markdown");
        holds(&form, &[who]);
    }
}

#[test]
fn bought_seed_that_was_sown_here_was_raised_here() {
    let top = of(
        "parents: label_only(\"N. ventricosa x spathulata\"), confidence: claim, received: \"ventricosa x spathulata\", \
         from: \"a fair\", pods: [(code: \"P1\")], seed_lots: [(code: \"L1\", pod: \"P1\", seeds: 20)], \
         sowings: [(code: \"S1\", lot: \"L1\", on: \"2024\")], seedlings: [(number: \"1\")]",
    );
    holds(
        &said(&top, "card K-1"),
        &["seed-grown here", "not: who raised it"],
    );
    let form = said(&top, "registration K-1 --format markdown");
    holds(&form, &["## 3. Who raised it - the grower"]);
}

const MIXED_UP: &str = r#"pods: [(code: "P1")], sowings: [(code: "S1", pod: "P1", on: "2024-01-01")],
    seedlings: [(number: "1", muddled: [(on: "2026-03-01", with: ["K-2"])]), (number: "2"), (number: "3")],
    sittings: [(on: "2026-01-10", columns: ["span cm"], rows: [["1", "4"], ["2", "5"], ["3", "6"]])]"#;

/// A mix-up is of both plants, on whichever of the two records it stands.
#[test]
fn a_mix_up_counts_for_both_plants() {
    let top = of(MIXED_UP);
    for question in ["show K-2", "card K-2", "registration K-2", "list"] {
        holds(&said(&top, question), &["mixed up"]);
    }
    holds(&said(&top, "show K-2"), &["mixed up with K-1"]);
    holds(&said(&top, "card K-3"), &["not: mixed up"]);
    holds(&said(&top, "show K-1"), &["mixed up with K-2"]);
    let check = said(&top, "check");
    holds(&check, &["mix-up-on-one-side", "K-1 was mixed up with K-2"]);
}

/// Once it is settled, both records say so; while only one of two does, `check` asks for the other.
#[test]
fn a_mix_up_on_one_record_is_settled_on_both() {
    let settled = |top: &BenchTop, line: &str| {
        holds(&said(top, line), &["not: no mix-up"]);
        holds(&said(top, "show K-2"), &[", settled "]);
        holds(&said(top, "card K-2"), &["not: mixed up"]);
    };
    let both = of(MIXED_UP);
    settled(&both, "muddle K-1 K-2 --settled");
    holds(&said(&both, "check"), &["not: mix-up-on-one-side"]);
    let one = of(MIXED_UP);
    settled(&one, "muddle K-2 --settled");
    holds(&said(&one, "check"), &["K-1 is still mixed up with K-2"]);
    settled(&one, "muddle K-1 --settled");
    holds(&said(&one, "check"), &["not: mix-up-on-one-side"]);
}

/// What was read after a piece was gone was read of another piece.
#[test]
fn a_piece_that_is_gone_was_not_read_later() {
    let top = of(
        r#"seedlings: [(number: "1", ramets: [(code: "a", made: original), (code: "b", from: "a", made: cutting),
            (code: "c", from: "a", made: cutting, fate: given(on: "2025-02-01"))])],
        sittings: [(on: "2024-05-01", columns: ["span cm"], rows: [["1", "4"]]),
            (on: "2025-05-01", columns: ["span cm"], rows: [["1", "9"]])]"#,
    );
    holds(
        &said(&top, "card K-1-c"),
        &["4 cm", "2024-05-01", "not: 2025-05-01"],
    );
    holds(&said(&top, "card K-1-b"), &["9 cm", "2025-05-01"]);
}

/// A leaf span has nothing to do with the kind of pitcher that was read beside it.
#[test]
fn siblings_are_those_read_alike() {
    let top = of(
        r#"sowings: [(code: "S1", on: "2024-01-01")], seedlings: [(number: "1"), (number: "2"), (number: "3"), (number: "4")],
        sittings: [(on: "2026-01-10", columns: ["span cm", "pitcher", "teeth"], rows: [
            ["1", "11", "lower", "5"], ["2", "3.6", "upper", "6"], ["3", "24", "", "7"], ["4", "8", "lower", "8"]])]"#,
    );
    let card = said(&top, "card K-1");
    holds(&card, &["3 siblings: 3.6 cm to 24 cm", "1 sibling: 8"]);
}

/// A piece that is asked for is told of first.
#[test]
fn a_piece_is_told_of_first() {
    let top = of(
        r#"seedlings: [(number: "1", ramets: [(code: "a", made: original),
            (code: "c", from: "a", made: cutting, fate: given(on: "2025-02-01"))])]"#,
    );
    let shown = top.run(&["show", "K-1-c", "--today", "2026-06-01"]).stdout;
    let first = shown.lines().nth(2).unwrap_or_default();
    assert!(
        first.contains("K-1-c") && first.contains("given away 2025-02-01"),
        "{shown}"
    );
    holds(
        &said(&top, "show K-1-c"),
        &["whole plant in the collection"],
    );
    holds(&said(&top, "show K-1"), &["status in the collection"]);
}

/// Nobody witnessed of which species a plant was that was never seen.
#[test]
fn a_parent_that_was_never_seen_is_claimed() {
    let top = of(
        r#"parents: pollen_mixed(seed: "V", pollen: ["S", "maxima"]), confidence: witnessed, seedlings: [(number: "1")]"#,
    );
    for question in ["show K-1", "name K-1", "card K-1"] {
        holds(&said(&top, question), &["the maxima of K claimed"]);
    }
    let drawn = said(&top, "pedigree K-1");
    holds(
        &drawn,
        &["♂ mixed pollen of a plant never seen · N. maxima"],
    );
}

/// A seedling of one pod or another has one father; its tag never says that pollen was mixed that was not.
#[test]
fn a_tag_of_one_of_two_pods_does_not_mix_their_fathers() {
    let other = r#"(code: "L", parents: pollen_mixed(seed: "V", pollen: ["S", "M"]), pods: [(code: "P1")])"#;
    let top = of(
        r#"parents: pollen_one_of(seed: "V", pollen: ["S", "V2"]), pods: [(code: "P1")],
        seedlings: [(number: "1", one_of: ["P1", "L.P1"]), (number: "2")]"#,
    )
    .change(
        "clones.ron",
        "(clones: [",
        "(clones: [(code: \"V2\", received: \"N. ventricosa\"),",
    )
    .file("crosses/L.ron", other);
    let tag = said(&top, "tags K-1 --format csv");
    holds(&tag, &["V × (S or V2 or M)", "not: mixed"]);
}

/// Of one thing words are singular.
#[test]
fn one_is_singular() {
    let top = of(
        r#"pollinations: [(zone: "A", plant: "V", on: ["2026-05-20"], flowers: 1, set: 1, control_flowers: 1, control_set: 0)],
        sowings: [(code: "S1", on: "2026-05-25", seeds: 1)], seedlings: [(number: "1")]"#,
    );
    holds(
        &said(&top, "show K"),
        &[
            "1 seed sown",
            "not: 1 seeds",
            "not: of 1 controls",
            "not: of 1 flowers",
        ],
    );
    holds(&said(&top, "due"), &["not: 1 seeds", "not: of 1 flowers"]);
    holds(
        &said(&top, "name K"),
        &["the control flower did not set", "not: of 1 control"],
    );
    holds(&said(&top, "list --cross K"), &["1 of 4 plants"]);
    holds(&said(&top, "list crosses"), &["not: 1 of them"]);
}

/// A plant that moves takes along that its old place was treated: whether it stood there then is as unknown as before.
#[test]
fn a_treatment_of_the_old_place_moves_with_the_plant() {
    let treated = "grower: \"the grower\", treatments: [(on: \"2025-03-02\", place: \"shelf 1\", product: \"mites\")],";
    for line in ["move K-1 windowsill", "pot K-1 5cm --place windowsill"] {
        let top = of(r#"sowings: [(code: "S1", on: "2024-01-01")], seedlings: [(number: "1", place: "shelf 1, front")]"#)
            .change("registry.ron", "grower: \"the grower\",", treated);
        let asked = ["card K-1", "show K-1"];
        let words = "2025-03-02";
        for question in asked {
            holds(
                &said(&top, question),
                &[words, "whether it stood there then is not on record"],
            );
        }
        said(&top, line);
        for question in asked {
            holds(
                &said(&top, question),
                &[
                    "windowsill",
                    words,
                    "whether it stood there then is not on record",
                ][usize::from(question == "card K-1")..],
            );
        }
        // Back and away again, it is there once.
        assert_eq!(top.run(&["move", "K-1", "shelf 1"]).exit, Some(0));
        said(&top, line);
        let page = top.text("crosses/K.ron");
        assert_eq!(page.matches("perhaps: true").count(), 1, "{page}");
        holds(&said(&top, "check"), &["No faults"]);
    }
}

/// A picture says its evidence to the end: the weakest link stands there.
#[test]
fn a_picture_does_not_cut_the_evidence() {
    let clones: String = (1..=40)
        .map(|n| format!("(code: \"Seed-parent-of-old-{n}\", received: \"N. maxima\"), "))
        .collect();
    let names: String = (1..=40)
        .map(|n| format!("\"Seed-parent-of-old-{n}\", "))
        .collect();
    let top = of(&format!(
        "parents: pollen_mixed(seed: \"V\", pollen: [{names}]), confidence: witnessed, seedlings: [(number: \"1\")]"
    ))
    .change("clones.ron", "(clones: [", &format!("(clones: [{clones}"));
    said(&top, "show K-1 -o x.svg");
    let drawn = top.text("x.svg");
    assert!(!drawn.contains("see code"), "{drawn}");
    assert!(drawn.contains("recorded"), "{drawn}");
}
