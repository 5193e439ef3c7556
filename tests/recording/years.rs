//! A registry played from its first day, each line on a day of its own: what happened before and what after is kept apart.

use crate::played::said;

/// A day, a line typed on it, and words that its answer holds; words after `not:` it does not hold.
type Line = (&'static str, &'static str, &'static str);

/// Plays lines in a new registry; `check` names no fault after them.
fn play(lines: &[&[Line]]) {
    let folder = tempfile::tempdir().unwrap();
    let registry = folder.path().join("plants");
    let new = std::process::Command::new(env!("CARGO_BIN_EXE_podbook"))
        .arg("new")
        .arg(&registry)
        .output()
        .unwrap();
    assert!(new.status.success());
    let mut last = "2020-01-01";
    for (day, line, words) in lines.iter().copied().flatten() {
        let out = folder.path().join("out");
        let answer = said(&registry, &line.replace("OUT", out.to_str().unwrap()), day);
        last = day;
        match words.strip_prefix("not: ") {
            Some(not) => assert!(!answer.contains(not), "{line}: {answer}"),
            None => assert!(answer.contains(words), "{line}: {answer}"),
        }
    }
    let check = said(&registry, "check", last);
    assert!(check.starts_with("No "), "{check}");
}

const SOWN: &[Line] = &[
    (
        "2020-05-01",
        "add-seed \"N. ventricosa\" --code X20-01 --seeds 50",
        "X20-01",
    ),
    ("2020-06-01", "sow X20-01 --seeds 50", "X20-01.S1"),
];

const CLONE: &[Line] = &[
    ("2022-01-01", "add Ven1 \"N. ventricosa\" --on 2020", "Ven1"),
    ("2022-01-01", "cutting Ven1 --on 2021-05-01", "Ven1-b"),
];

#[test]
fn what_stood_where_a_dead_plant_stood_is_left_alone() {
    play(&[
        SOWN,
        &[
            (
                "2022-06-01",
                "number X20-01.S1 1-3 --pot 7cm --place \"shelf A\"",
                "X20-01-2",
            ),
            ("2024-03-01", "cutting X20-01-1 --place tent", "X20-01-1-b"),
            (
                "2024-03-01",
                "cutting X20-01-3 --place \"shelf A\"",
                "X20-01-3-b",
            ),
            ("2024-09-01", "gone X20-01-1-a --died", "X20-01-1-a"),
            ("2024-09-01", "list --place \"shelf A\"", "not: X20-01-1"),
            ("2024-09-01", "show X20-01-1", "place tent"),
            ("2024-09-01", "show X20-01-1", "not: 7 cm"),
            ("2024-09-01", "card X20-01-1", "a cutting of X20-01-1-a"),
            ("2024-09-01", "card X20-01-1", "not: 7 cm"),
            (
                "2024-09-01",
                "gone --place \"shelf A\" --died --why frost",
                "X20-01-2, X20-01-3-b, X20-01-3-a: died",
            ),
            ("2024-09-01", "show X20-01-1", "status in the collection"),
        ],
    ]);
}

#[test]
fn two_pieces_of_one_fair_stay_two_sales() {
    play(&[
        CLONE,
        &[
            (
                "2024-02-01",
                "gone Ven1-a --sold --to \"buyer b\" --price 40",
                "Ven1-a",
            ),
            (
                "2024-02-01",
                "gone Ven1 --sold --to \"buyer c\" --price 20",
                "Ven1-b: sold",
            ),
            ("2024-02-01", "list sold", "2 sold"),
            ("2024-07-01", "back Ven1-b", "Ven1-b is here again"),
            ("2024-07-01", "list sold", "buyer b"),
            (
                "2024-07-01",
                "show Ven1",
                "the plant itself sold 2024-02-01 to buyer b",
            ),
            ("2024-07-01", "promised", "not: without a text"),
        ],
    ]);
    // Written by hand on the whole plant, the sale of a piece is one of its own all the same.
    play(&[
        CLONE,
        &[
            (
                "2024-02-01",
                "gone Ven1 --sold --to \"buyer b\" --price 40 --all-pieces",
                "Ven1: sold",
            ),
            ("2024-02-01", "list sold", "1 sold, 0 given away"),
            ("2024-02-01", "promised", "not: without a text"),
            ("2024-07-01", "back Ven1", "Ven1 is here again"),
            ("2024-07-01", "list sold", "1 sold"),
        ],
    ]);
}

#[test]
fn the_last_piece_dies_and_the_sold_one_comes_back() {
    play(&[
        CLONE,
        &[
            (
                "2024-03-01",
                "gone Ven1-a --sold --to \"a buyer\" --on 2024-02-20",
                "Ven1-a",
            ),
            ("2024-03-01", "gone Ven1 --died", "Ven1-b: died"),
            (
                "2024-04-01",
                "list plants",
                "not in the collection any more",
            ),
            ("2024-04-01", "back Ven1-a", "Ven1-a is here again"),
            ("2024-04-01", "show Ven1", "status in the collection"),
        ],
    ]);
}

#[test]
fn what_was_taken_out_is_not_left() {
    play(&[
        SOWN,
        &[
            ("2020-09-01", "count X20-01.S1 --up 33", "33"),
            ("2021-03-01", "prick X20-01.S1 30 --left 1", "X20-01.T1"),
            ("2021-04-01", "prick X20-01.S1 1 --to T1", "X20-01.T1"),
            ("2021-04-01", "show X20-01.S1", "left none"),
            // What came up since was not counted then.
            ("2021-05-01", "count X20-01.S1 --up 35", "35"),
            ("2021-05-01", "show X20-01.S1", "left up to 2"),
        ],
    ]);
}

#[test]
fn a_pot_holds_nothing_before_the_first_is_pricked_into_it() {
    play(&[
        SOWN,
        &[
            ("2020-12-01", "count X20-01.S1 --up 15", "15"),
            ("2021-03-01", "prick X20-01.S1 10", "X20-01.T1"),
            (
                "2021-05-01",
                "count X20-01.T1 --standing 9 --on 2021-01-10",
                "seedlings were first pricked out into it on 2021-03-01",
            ),
            (
                "2021-05-01",
                "number X20-01.T1 1-2 --on 2021-02-01",
                "seedlings were first pricked out into it on 2021-03-01",
            ),
            ("2021-05-01", "count X20-01.T1 --standing 9", "9 alive"),
            (
                "2021-05-01",
                "number X20-01.T1 1-2 --on 2021-03-01",
                "X20-01-2",
            ),
        ],
    ]);
}

#[test]
fn those_numbered_straight_out_of_a_sowing_were_not_pricked_out() {
    play(&[
        SOWN,
        &[
            ("2021-03-01", "count X20-01.S1 --up 20", "20"),
            ("2021-03-01", "prick X20-01.S1 12", "X20-01.T1"),
            ("2021-09-01", "number X20-01.T1 1-6", "X20-01-6"),
            (
                "2021-09-01",
                "siblings X20-01",
                "numbered 6 12 pricked out 50 %",
            ),
            ("2021-09-01", "number X20-01.S1 7-8", "X20-01-8"),
            (
                "2021-09-01",
                "siblings X20-01",
                "numbered 8 20 germinated 40 %",
            ),
        ],
    ]);
}

const PAIR: &[Line] = &[
    (
        "2020-01-01",
        "add Ven1 \"N. ventricosa\" --known-by tag --on 2018",
        "Ven1",
    ),
    (
        "2020-01-01",
        "add Max1 \"N. maxima\" --known-by tag --on 2018",
        "Max1",
    ),
    (
        "2020-01-01",
        "add Spa1 \"N. spathulata\" --known-by tag --on 2018",
        "Spa1",
    ),
    ("2020-04-01", "flower Ven1 --sex female", "Ven1"),
    ("2020-04-01", "flower Max1 --sex female", "Max1"),
    ("2020-04-01", "flower Spa1 --sex male", "Spa1"),
];

#[test]
fn what_was_numbered_before_its_pot_was_mixed_up_is_sure() {
    play(&[
        PAIR,
        &[
            (
                "2020-04-01",
                "pollinate Ven1 --with Spa1 --flowers 5",
                "X20-01",
            ),
            (
                "2020-04-01",
                "pollinate Max1 --with Spa1 --flowers 5",
                "X20-02",
            ),
            (
                "2020-08-01",
                "harvest X20-01 --capsules 3 --seeds 40",
                "X20-01",
            ),
            (
                "2020-08-01",
                "harvest X20-02 --capsules 3 --seeds 40",
                "X20-02",
            ),
            ("2020-09-01", "sow X20-01 --seeds 40", "X20-01.S1"),
            ("2020-09-01", "sow X20-02 --seeds 40", "X20-02.S1"),
            ("2021-03-01", "count X20-01.S1 --up 30", "30"),
            ("2021-03-01", "prick X20-01.S1 20", "X20-01.T1"),
            ("2021-03-01", "prick X20-02.S1 20", "X20-02.T1"),
            ("2021-09-01", "number X20-01.T1 1-10", "X20-01-10"),
            (
                "2021-12-01",
                "gone X20-01-3 --sold --to \"a buyer\"",
                "X20-01-3",
            ),
            (
                "2022-05-01",
                "muddle X20-01.T1 X20-02.T1 --why \"the tray fell\"",
                "mixed up",
            ),
            ("2022-06-01", "number X20-01.T1 11", "X20-01-11"),
            (
                "2022-06-01",
                "name X20-01-3",
                ": N. ventricosa × N. spathulata",
            ),
            ("2022-06-01", "promised", "not: would now read differently"),
            (
                "2022-06-01",
                "siblings X20-01",
                "10 numbered siblings of X20-01",
            ),
            // What was numbered after it may be of either.
            ("2022-06-01", "name X20-01-11", "N. ventricosa or N. maxima"),
            ("2022-06-01", "handover X20-01-3 -o OUT", "X20-01-3"),
        ],
    ]);
}

#[test]
fn pollen_of_one_of_two_plants_on_two_days_need_not_be_of_one() {
    play(&[
        PAIR,
        &[
            ("2020-04-01", "add Vei1 \"N. veitchii\" --on 2018", "Vei1"),
            ("2020-04-01", "flower Vei1 --sex male", "Vei1"),
            (
                "2020-04-02",
                "pollinate Ven1 --one-of Spa1,Vei1 --zone a --flowers 5",
                "X20-01.a",
            ),
            // In the other order they are the same two.
            (
                "2020-04-06",
                "pollinate Ven1 --one-of Vei1,Spa1 --zone a",
                "X20-01.a",
            ),
            (
                "2020-04-06",
                "pollinate Ven1 --one-of Vei1,Spa1 --zone b",
                "X20-01.b",
            ),
            (
                "2020-04-08",
                "pollinate Ven1 --one-of Spa1,Vei1 --zone d --flowers 2",
                "X20-02.d",
            ),
            (
                "2020-04-08",
                "pollinate Ven1 --mixed Spa1,Vei1 --zone e",
                "X20-03.e",
            ),
            (
                "2020-04-09",
                "pollinate Ven1 --mixed Vei1,Spa1 --zone f",
                "X20-03.f",
            ),
            (
                "2020-08-20",
                "harvest X20-01.a --capsules 2 --seeds 12",
                "X20-01",
            ),
            (
                "2020-08-20",
                "harvest X20-02.d --capsules 2 --seeds 13",
                "X20-02",
            ),
            ("2020-08-20", "sow X20-01.L1 --seeds 12", "X20-01.S1"),
            ("2020-08-20", "sow X20-02.L1 --seeds 13", "X20-02.S1"),
            ("2021-05-01", "number X20-01.S1 1", "X20-01-1"),
            ("2021-05-01", "number X20-02.S1 1", "X20-02-1"),
            ("2021-05-01", "kinship X20-01-1 X20-02-1", "0.1875"),
        ],
    ]);
}

#[test]
fn seed_that_is_not_sown_goes_too() {
    play(&[&[
        (
            "2022-01-01",
            "add-seed \"N. ventricosa\" --code X22-01 --seeds 40",
            "X22-01",
        ),
        (
            "2022-01-01",
            "add-seed \"N. maxima\" --code X22-02 --seeds 40",
            "X22-02",
        ),
        ("2023-01-01", "due --full", "X22-01.L1"),
        ("2023-01-01", "due --full", "came 12.0 months ago"),
        (
            "2023-01-01",
            "gone X22-01.L1 --culled --why mould",
            "X22-01.L1: thrown out on 2023-01-01",
        ),
        (
            "2023-01-01",
            "show X22-01.L1",
            "the rest thrown out 2023-01-01 (mould)",
        ),
        ("2023-01-01", "due --full", "not: X22-01.L1"),
        (
            "2023-01-01",
            "gone X22-01.L1 --died",
            "nothing is left of X22-01.L1 on record already",
        ),
        ("2023-01-01", "undo", "Undid"),
        ("2023-01-01", "due --full", "X22-01.L1"),
    ]]);
}

#[test]
fn a_plant_is_added_where_it_stands() {
    play(&[&[
        (
            "2022-01-01",
            "add Ven1 \"N. ventricosa\" --place \"shelf 1\"",
            "Ven1",
        ),
        ("2022-01-01", "list --place \"shelf 1\"", "Ven1"),
        ("2022-01-02", "move Ven1 \"shelf 2\"", "shelf 2"),
        (
            "2022-01-02",
            "show Ven1",
            "Ven1-a the plant itself in the collection shelf 2",
        ),
    ]]);
}

#[test]
fn a_tag_it_was_sold_under_says_nothing_of_its_parents() {
    play(&[
        SOWN,
        &[
            ("2022-06-01", "number X20-01.S1 1", "X20-01-1"),
            (
                "2022-06-01",
                "gone X20-01-1 --sold --to x --label \"maxima cross\"",
                "sold",
            ),
            ("2022-06-01", "check --notes", "label-not-read"),
            ("2022-06-01", "check --notes", "not: counts as unknown"),
        ],
    ]);
}
