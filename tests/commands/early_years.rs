//! What a grower of a few years meets: seedlings counted twice and out of order, trays without a place for plants, pieces that
//! are given away and come home, dates in words.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, of, said};

#[test]
fn the_largest_of_running_totals_counts() {
    let top = of(
        r#"sowings: [(code: "S1", on: "2025-11-01", seeds: 40, place: "tent",
        germinated: [(on: "2026-02-20", count: 12), (on: "2026-02", count: 9)])]"#,
    );
    let due = said(&top, "due");
    holds(&due, &["prick out K.S1 12 seedlings", "not: 9 seedlings"]);
}

#[test]
fn seedlings_taken_out_before_any_comes_up_are_remarked_on_and_make_no_range() {
    let sowing =
        |code: &str, more: &str| format!(r#"(code: "{code}", on: "2026-05-30", seeds: 30{more}),"#);
    let top = of(&format!(
        "sowings: [{}{}]",
        sowing("S1", ""),
        sowing("S2", "")
    ));
    holds(
        &said(&top, "prick K.S1 5 --on 2026-05-30"),
        &[
            "K.S1 was pricked out 0 days after it was sown; 28 days or more are usual (common practice). Check both dates",
        ],
    );
    holds(
        &said(&top, "number K.S2 1-3"),
        &["K.S2 was numbered 2 days after it was sown; 28 days or more are usual"],
    );
    let slips: String = ["S1", "S2", "S3"]
        .iter()
        .map(|code| sowing(code, r#", pricked_out: [(on: "2026-05-31", moved: 3)]"#))
        .collect();
    let top = of(&format!(
        "sowings: [{slips}{}]",
        r#"(code: "S4", on: "2025-11-01", seeds: 30, germinated: [(on: "2026-01-20", count: 20)])"#
    ));
    let due = said(&top, "due");
    holds(&due, &["prick out K.S4", "not: records of yours"]);
}

fn with_pieces(fate_of_b: &str) -> BenchTop {
    let clones = format!(
        r#"(clones: [
            (code: "V", received: "N. ventricosa", confidence: tag, ramets: [
                (code: "a"), (code: "b", fate: {fate_of_b}), (code: "c", made: cutting, from: "b", cut: "2026-05-20")]),
            (code: "S", received: "N. spathulata", confidence: tag),
        ])"#
    );
    of("").file("clones.ron", &clones)
}

#[test]
fn a_piece_that_was_given_away_can_be_cut_there() {
    let out_of_order = "dates-out-of-order";
    let given = with_pieces(r#"given(on: "2026-05-01")"#);
    holds(&said(&given, "check"), &[&format!("not: {out_of_order}")]);
    let died = with_pieces(r#"died(on: "2026-05-01")"#);
    holds(&said(&died, "check"), &[out_of_order]);
    // The piece is what left, not the plant.
    holds(
        &said(&given, "handover V-b -o lineage"),
        &["V-b is no longer here", "not: V is no longer here"],
    );
}

#[test]
fn where_only_a_tray_stands_the_tray_is_named() {
    let top = of(r#"sowings: [(code: "S1", on: "2025-11-01", seeds: 40, place: "tent")]"#);
    holds(
        &said(&top, "list --place tent"),
        &["K.S1", "not: there is no place", "not: did you mean"],
    );
    for asked in [
        "seen --place tent",
        "diversity --place tent",
        "keep --place tent",
    ] {
        holds(
            &said(&top, asked),
            &[
                "no plant stands at tent, only one tray stands there: K.S1",
                "not: did you mean",
            ],
        );
    }
    holds(
        &said(&top, "list --place tnet"),
        &["there is no place with plants `tnet`", "did you mean tent?"],
    );
}

#[test]
fn the_last_of_a_mix_up_is_settled_by_the_line_that_is_printed() {
    let top = of(
        r#"pods: [(code: "P1")], sowings: [(code: "S1", pod: "P1", on: "2025-01-01")],
        seedlings: [(number: "1", sowing: "S1"), (number: "2", sowing: "S1"), (number: "3", sowing: "S1")]"#,
    );
    said(&top, "muddle K-1 K-2 K-3 --on 2026-05-01");
    said(&top, "pot K-1..3 7cm --on 2026-05-05");
    holds(
        &said(&top, "muddle K-1 K-2 --settled --tags-right"),
        &["to settle it: podbook muddle K-3 --settled --on \"2026-06-01\" --tags-right"],
    );
    holds(
        &said(&top, "muddle K-3 --settled --on 2026-06-01 --tags-right"),
        &[
            "not: add --tags-right",
            "Recorded in between, and kept as it stands",
        ],
    );
}

#[test]
fn a_plant_of_one_of_two_species_perhaps_descends_from_it() {
    holds(
        &said(&of(""), "list --species ventricosa"),
        &["surely or perhaps descended from ventricosa"],
    );
}

#[test]
fn a_photo_of_the_time_with_a_buyer_is_warned_of() {
    let top = of(
        r#"seedlings: [(number: "1", came_back: [(left: sold(on: "2026-03-01"), on: "2026-04-01")],
        photos: [(file: "photos/x.jpg", on: "2026-03-10")])]"#,
    );
    holds(
        &said(&top, "check"),
        &["while-away", "a photo of the seedling was taken"],
    );
}

#[test]
fn a_cross_that_set_nothing_is_told_apart() {
    let top = of(r#"pollinations: [(zone: "A", on: ["2026-04-25"], flowers: 5, set: 0)]"#);
    holds(&said(&top, "show V"), &["seed parent, no pod set"]);
    holds(&said(&top, "check --notes"), &["not: mother of K"]);
    let top = of(r#"pollinations: [(zone: "A", on: ["2026-04-25"], flowers: 5, set: 2)]"#);
    holds(&said(&top, "show V"), &["seed parent", "not: no pod set"]);
    holds(&said(&top, "check --notes"), &["mother of K"]);
}

#[test]
fn capsules_that_nobody_counted_are_at_least_one() {
    let top = of(
        r#"pollinations: [(zone: "A", on: ["2025-11-01"], flowers: 5, set: 5)],
        pods: [(code: "P1", zone: "A", harvested: "2026-03-01", seeds: 50)]"#,
    );
    holds(
        &said(&top, "harvest K.A --capsules 5"),
        &[
            "5 capsules of K.A would be at least 6 in all, but 5 flowers set, and at least 1 of them is harvested already (K.P1)",
            "if that is the same harvest",
        ],
    );
}

#[test]
fn more_capsules_than_flowers_are_refused_where_the_set_was_not_counted() {
    let top = of(r#"pollinations: [(zone: "A", on: ["2025-11-01"], flowers: 12)]"#);
    holds(
        &said(&top, "harvest K.A --capsules 13 --seeds 120"),
        &["13 is more than there are: 12 flowers treated on K.A"],
    );
    holds(
        &said(&top, "harvest K.A --capsules 0 --seeds 120"),
        &["--capsules needs at least one capsule"],
    );
    holds(
        &said(&top, "harvest K.A --capsules 12 --seeds 120"),
        &["K.P1"],
    );
}

#[test]
fn a_day_in_a_word_is_a_day_wherever_one_is_asked_for() {
    let top = of("");
    for asked in [
        "list --unread-since yesterday",
        "ready --on yesterday",
        "tags --since yesterday",
        "diversity --unread-since today",
        "list --unread-since today --today yesterday",
    ] {
        let words: Vec<&str> = asked.split(' ').collect();
        let fixed: &[&str] = if asked.contains("--today") {
            &[]
        } else {
            &["--today", "2026-06-01"]
        };
        let run = top.run(&[&words[..], fixed].concat());
        assert!(!run.stderr.contains("needs"), "{run}");
    }
}

#[test]
fn seed_of_a_lot_that_is_used_up_by_its_counts_is_remarked_on() {
    let top = of(
        r#"pods: [(code: "P1", harvested: "2026-05-01")], seed_lots: [(code: "L1", pod: "P1", seeds: 120)],
        sowings: [(code: "S1", lot: "L1", on: "2026-05-20", seeds: 120)]"#,
    );
    holds(
        &said(&top, "sow K.L1"),
        &["By the counts on record nothing was left of K.L1"],
    );
}

#[test]
fn a_plant_that_died_on_the_day_it_was_looked_for_stays_dead() {
    let top = of(r#"seedlings: [(number: "1", fate: died(on: "2026-06-01", cause: "rot"))]"#);
    holds(
        &said(&top, "seen K-1"),
        &[
            "K-1 is on record as died 2026-06-01",
            "the same day, and stays so",
        ],
    );
}

#[test]
fn a_count_above_what_was_put_into_a_pot_that_day_is_refused() {
    let top = of(
        r#"sowings: [(code: "S1", on: "2025-11-01", seeds: 60, germinated: [(on: "2026-03-01", count: 40)])]"#,
    );
    said(&top, "prick K.S1 5 --on 2026-05-01");
    holds(
        &said(&top, "count K.T1 --standing 30 --on 2026-05-01"),
        &["30 is more than there are: 5 seedlings in K.T1 by the record"],
    );
    let counted = of(r#"sowings: [(code: "S1", on: "2025-11-01", seeds: 60)],
        community_pots: [(code: "T1", sowing: "S1", alive: [(on: "2026-03-01", count: 16)])]"#);
    holds(
        &said(&counted, "count K.T1 --standing 4000"),
        &["4000 is more than there are: 60 seeds sown in K.S1"],
    );
}

#[test]
fn rows_of_a_table_take_the_place_of_those_that_are_there() {
    let top = of(
        r#"seedlings: [(number: "1"), (number: "2"), (number: "3")],
        sittings: [(on: "2026-05-01", columns: ["span cm"], rows: [["2", "2.2"], ["1", "1.1"], ["3", "3.3"]])]"#,
    )
    .file("s.csv", "plant,span cm\nK-1,1.5\nK-2,2.5\n");
    let again = "measure --from s.csv --on 2026-05-01";
    holds(
        &said(&top, again),
        &[
            "K-1: the plant has a row in that sitting",
            "K-2: the plant has a row",
        ],
    );
    holds(
        &said(&top, &format!("{again} --again")),
        &["2 readings on 2026-05-01"],
    );
    let page = top.text("crosses/K.ron");
    let rows = r#"rows: [["2", "2.5"], ["1", "1.5"], ["3", "3.3"]]"#;
    assert!(page.contains(rows), "{page}");
}
