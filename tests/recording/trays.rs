//! What becomes of plants and trays after something was recorded of them: a treatment follows the plants and not the place,
//! seedlings that were mixed up are counted once and nothing is said of them that is not known.

use crate::played::{copied, said};

/// The day after which nothing is on record.
const LATEST: &str = "2025-06-01";

/// Two crosses of one mother, each with a tray.
struct Trays(tempfile::TempDir);

impl Trays {
    fn new() -> Self {
        Trays(copied("tests/recording/two-trays"))
    }

    /// What is answered on a day, in one line.
    fn said(&self, line: &str, today: &str) -> String {
        said(self.0.path(), line, today)
    }
}

/// Plays lines on a day; each answer holds its words, or does not hold those after `not:`.
fn play(today: &str, story: &[(&str, &str)]) {
    play_in(&Trays::new(), today, story);
}

fn play_in(trays: &Trays, today: &str, story: &[(&str, &str)]) {
    for (line, wanted) in story {
        let said = trays.said(line, today);
        match wanted.strip_prefix("not: ") {
            Some(unwanted) => assert!(!said.contains(unwanted), "{line}\n{said}\nnot: {unwanted}"),
            None => assert!(said.contains(wanted), "{line}\n{said}\nwanted: {wanted}"),
        }
    }
    let said = trays.said("check", LATEST);
    assert!(
        said.contains("No faults") || said.contains("0 faults"),
        "{said}"
    );
}

#[test]
fn a_treatment_stays_with_the_plants_that_stood_there() {
    play(
        "2025-06-01",
        &[
            (
                "treat --place \"shelf 1\" \"neem soap\" --against mites",
                "shelf 1 (2 plants): treated with neem soap on 2025-06-01, written on the record of each",
            ),
            // Of Tru1 one piece stands elsewhere.
            ("undo", "Undid"),
            (
                "treat --place \"shelf 1\" \"neem soap\" --against mites",
                "Only some pieces of Tru1 are on record there, so the treatment is recorded for the place, in registry.ron",
            ),
            ("show Tru1", "place treated"),
            (
                "show X24-02-1",
                " treated 2025-06-01 neem soap against mites",
            ),
            ("show X24-02-1", "not: neem soap against mites: whether"),
            ("show X24-02-2", "not: neem soap"),
            ("show X24-02-4", "not: neem soap"),
            ("card X24-02-2", "not: neem soap"),
            // Moved away, it keeps the treatment; what comes there has none of its own.
            ("move X24-02-1 \"shelf 3\"", "moved to shelf 3"),
            (
                "show X24-02-1",
                " treated 2025-06-01 neem soap against mites",
            ),
            (
                "card X24-02-1",
                "last treatment 2025-06-01: neem soap against mites",
            ),
            ("find neem", "X24-02-1 seedling treated neem soap"),
            ("find neem mites", "shelf 1 place treated"),
        ],
    );
}

/// What the place of a tray was treated with stays with its seedlings: when they get their numbers, and when the tray moves.
#[test]
fn a_treatment_that_a_tray_had_perhaps_stays_with_its_seedlings() {
    let perhaps =
        "place treated 2025-06-01 soap bath: whether it stood there then is not on record";
    play(
        "2025-06-01",
        &[
            ("move X24-02.T1 tent", "tent"),
            ("treat --place tent \"soap bath\"", "tent"),
            ("show X24-02.T1", perhaps),
            ("number X24-02.T1 8 --place tent", "X24-02-8"),
            ("show X24-02-8", perhaps),
            (
                "card X24-02-8",
                "its place was treated 2025-06-01: soap bath; whether it stood there then is not on record",
            ),
            ("number X24-02.T1 9 --place bench", "X24-02-9"),
            ("show X24-02-9", perhaps),
            ("move X24-02.T1 bench", "bench"),
            ("show X24-02.T1", perhaps),
            ("show X24-02-9", perhaps),
            ("number X24-02.T1 10 --place bench", "X24-02-10"),
            ("card X24-02-10", "soap bath"),
            // Numbered before.
            ("show X24-02-1", "not: soap bath"),
        ],
    );
}

#[test]
fn a_place_that_was_treated_says_nothing_surely_of_its_plants() {
    play(
        "2025-06-01",
        &[
            (
                "show X24-02-1",
                "place treated 2025-03-01 lacewings against thrips: whether it stood there then is not on record",
            ),
            (
                "card X24-02-1",
                "its place was treated 2025-03-01: lacewings against thrips; whether it stood there then is not on record",
            ),
            // Sold before.
            ("show X24-02-2", "not: lacewings"),
            ("show X24-02-6", "not: lacewings"),
            (
                "treat --place \"shelf 1\" soap --on 2025-05-25",
                "Written on the plants that stand there today. If others stood there on that day, undo this and name the plants",
            ),
            (
                "treat --place \"shelf 1\" soap --on 2025-01-20",
                "2 plants came there later and are left out",
            ),
            ("show X24-02-1", "not: 2025-01-20"),
            // A plant that was potted elsewhere and then moved stands in one place only.
            ("pot X24-02-5 7cm --place \"shelf 2\"", "shelf 2"),
            (
                "seen --place \"shelf 1\" --except X24-02-5",
                "(its place is shelf 2)",
            ),
            ("move X24-02-5 attic", "moved to attic"),
            ("list --place \"shelf 2\"", "not: X24-02-5"),
        ],
    );
}

#[test]
fn a_pedigree_says_how_a_plant_ended() {
    play(
        "2025-06-01",
        &[
            ("pedigree X24-02-3", " · culled · "),
            ("pedigree X24-02-4", " · lost · "),
            ("pedigree X24-02-7", " · died · "),
            ("pedigree X24-02-2", " · sold · "),
        ],
    );
}

#[test]
fn nothing_is_said_of_a_muddled_plant_that_is_not_known() {
    play(
        "2025-06-01",
        &[
            ("prick X24-01 20 --on 2025-02-01", "X24-01.T2"),
            ("number X24-01.T2 1-2 --on 2025-02-02", "X24-01-1"),
            ("card X24-01-1", "sown 2024-07-15"),
            ("growth X24-02", "3 of 7 plants measured"),
            (
                "muddle X24-01-1 X24-02-1 --why \"tags fell out\"",
                "each may be the other",
            ),
            ("card X24-01-1", "not: sown 2024"),
            // It is of one of two sowings, and its age that of either.
            ("card X24-01-1", "age 9.9–10.5 months from sowing"),
            ("tags X24-01-1", "not: 2024-07"),
            ("tags X24-02-1", "not: 2024-08"),
            ("tags X24-02-5", "2024-08"),
            ("growth X24-02", "2 of 6 plants measured"),
            (
                "growth X24-02",
                "1 numbered seedling may come from another sowing, pod or cross (mixed up): not counted here",
            ),
            ("find fell out", "X24-01-1 seedling mixed up tags fell out"),
        ],
    );
}

#[test]
fn siblings_of_two_sowings_that_were_mixed_up_have_both_days() {
    play(
        "2025-06-01",
        &[
            ("sow X24-02.L1 --seeds 10 --on 2024-08-20", "X24-02.S2"),
            ("count X24-02.S2 --up 5 --on 2024-11-01", "5"),
            ("prick X24-02.S2 5 --on 2025-02-01", "X24-02.T2"),
            ("number X24-02.T2 20-21 --on 2025-02-02", "X24-02-20"),
            ("muddle X24-02-20 X24-02-1", "each may be the other"),
            ("card X24-02-1", "sown 2024-08-05 to 2024-08-20"),
            ("muddle X24-02-20 X24-02-1 --settled", "mix-up settled"),
            ("card X24-02-1", "not: 2024-08-20"),
        ],
    );
}

#[test]
fn seedlings_of_two_trays_that_were_mixed_up_are_counted_once() {
    play(
        "2025-06-01",
        &[
            ("prick X24-01 20 --on 2025-02-01", "X24-01.T2"),
            (
                "muddle X24-01.T2 X24-02.T1 --rows 8 --on 2025-03-01",
                "8 seedlings mixed up on 2025-03-01; each may be of either pot. Count what is left in both pots",
            ),
            (
                "show X24-02.T1",
                "13–21 left: 28 alive on 2025-02-01, 7 numbered since, up to 8 seedlings put into X24-01.T3 on 2025-03-01, from this pot and others: count again",
            ),
            ("show X24-01.T2", "12–20 left"),
            (
                "show X24-01.T3",
                "mixed up with X24-01.T2, X24-02.T1 on 2025-03-01",
            ),
            // Those that stayed are what they were, and so are the seedlings numbered from them.
            ("check --full", "not: mix-up-on-one-side"),
            ("show X24-02.T1", "not: mixed up"),
            ("number X24-01.T2 50 --on 2025-03-02", "X24-01-50"),
            ("name X24-01-50", "not: mixed up"),
            ("number X24-01.T3 51 --on 2025-03-02", "X24-01-51"),
            ("name X24-01-51", "one of"),
            ("undo", "Undid"),
            ("undo", "Undid"),
            ("show X24-01.T3", "alive 8 on 2025-03-01"),
            (
                "pedigree Ven1 --down",
                "X24-01.T3 · N. ventricosa × (N. spathulata or N. truncata), 8 seedlings without a number",
            ),
            ("count X24-02.T1 --standing 17 --on 2025-03-08", "17"),
            ("show X24-02.T1", "not: count again"),
            ("show X24-01.T2", "count again"),
            ("pedigree Ven1 --down --json", "\"children\": ["),
            ("pedigree Ven1 --down --json", "not: \"children\": []"),
            // None is left of the pot: nothing stands behind its cross.
            ("count X24-01.T3 --standing 0", "0"),
            ("pedigree Ven1 --down", "not: X24-01.T3"),
            ("pedigree Ven1 --down --json", "not: \"children\": []"),
        ],
    );
}

#[test]
fn what_was_pricked_out_is_not_to_be_pricked_out() {
    play(
        "2025-02-01",
        &[
            ("due --full", "prick out X24-01.S1 20 seedlings"),
            (
                "prick X24-01.T1 20",
                "X24-01.T1 is the count of those still standing in X24-01.S1 name the sowing: podbook prick X24-01.S1 20",
            ),
            ("due --full", "not: prick out X24-02.T1"),
            ("prick X24-01 20", "X24-01.T2"),
            ("due --full", "not: prick out X24-01"),
            ("muddle X24-01.T2 X24-02.T1 --rows 8", "X24-01.T3"),
            ("due --full", "not: prick out"),
        ],
    );
}

#[test]
fn more_than_stood_there_cannot_be_pricked_out_unnoticed() {
    play(
        "2025-02-01",
        &[
            (
                "prick X24-01 28",
                "28 seedlings pricked out, 20 alive at the last count",
            ),
            ("check --full", "more-pricked-out-than-standing"),
            ("undo", "Undid"),
            ("prick X24-01 20", "not: alive at the last count"),
        ],
    );
}

#[test]
fn an_empty_pod_has_no_seed_to_sow() {
    play(
        "2025-06-01",
        &[
            (
                "harvest X24-01.red --capsules 1 --seeds 0 --on 2024-07-20",
                "X24-01.P2: harvested from X24-01.red on 2024-07-20, 1 capsule; empty, no seed in it",
            ),
            ("show X24-01.P2", "seeds 0"),
            ("show X24-01.L2", "no record has the code"),
            ("due --full", "not: X24-01.P2"),
            (
                "harvest X24-02.blue --capsules 1 --seeds 0 --stored fridge --on 2024-07-20",
                "--seeds 0 says that the pod was empty",
            ),
            (
                "sow X24-01.L1 --seeds 0",
                "--seeds needs at least one seed; found `0`",
            ),
            (
                "measure X24-02-7",
                "X24-02-7 is no longer here: died 2025-05-03",
            ),
            ("sow X24-01.L1 --seeds 19", "X24-01.S2"),
            (
                "sow X24-01.L1 --seeds 2",
                "2 is more than there is: 1 seed left in X24-01.L1",
            ),
            // How many went into a third pot is not known, so that there may be fewer.
            ("sow X24-01.L1 --on 2025-05-31", "X24-01.S3"),
            (
                "sow X24-01.L1 --seeds 2",
                "1 seed left in X24-01.L1 at most; how many X24-01.S3 took is not on record",
            ),
            (
                "count X24-01.S2 --up -3",
                "needed a whole number, not below 0",
            ),
        ],
    );
}

/// Seed that was sold is not there to be sown, and no more seedlings stand than seeds were sown.
#[test]
fn seed_that_left_is_not_sown() {
    play_in(
        &Trays(copied("registry-demo")),
        LATEST,
        &[
            (
                "add-seed \"N. maxima\" --seeds 40 --code X25-50 --on 2024-09-01",
                "X25-50",
            ),
            (
                "gone X25-50.L1 --sold --seeds 30 --to Ann",
                "X25-50.L1: 30 seeds sold on 2025-06-01",
            ),
            ("find Ann", "X25-50.L1 seed lot to Ann"),
            (
                "sow X25-50.L1 --seeds 11",
                "11 is more than there are: 10 seeds left in X25-50.L1",
            ),
            (
                "gone X25-50.L1 X22-02-5 --given --seeds 5",
                "--seeds was given, but it needs exactly one seed lot",
            ),
            (
                "gone X22-02-5 --given --seeds 5",
                "--seeds was given, but it needs exactly one seed lot",
            ),
            ("sow X25-50.L1 --seeds 10 --on 2024-10-02", "X25-50.S1"),
            (
                "sow X25-50.L1",
                "By the counts on record nothing was left of X25-50.L1",
            ),
            (
                "count X25-50.S1 --standing 11",
                "11 is more than there are: 10 seeds sown in X25-50.S1",
            ),
            ("count X25-50.S1 --standing 10", "not: more than there are"),
            ("list sold", "seed of 1 lot"),
            (
                "add-seed \"N. maxima\" --seeds 40 --estimated --code X25-51 --on 2024-09-01",
                "X25-51",
            ),
            (
                "gone X25-50.L1 X25-51.L1 --given --seeds 5",
                "--seeds was given, but it needs exactly one seed lot",
            ),
            ("sow X25-51.L1 --seeds 40 --on 2024-10-03", "X25-51.S1"),
            ("sow X25-51.L1", "not: nothing was left"),
            ("gone X22-02-5 --died --on 2025-05", "died in 2025-05"),
            ("seen X22-02-5 --on 2025-05", "not: the same day"),
        ],
    );
}

/// A tray has a treatment of its place on its own record once it has left that place, and once only.
#[test]
fn a_tray_that_moves_to_and_fro_has_a_treatment_once() {
    let demo = copied("registry-demo");
    let page = |lines: &[&str]| {
        for line in lines {
            let said = said(demo.path(), line, "2025-06-01");
            assert!(said.contains("X25-50") || said.contains("soap"), "{said}");
        }
        let page = std::fs::read_to_string(demo.path().join("crosses/X25-50.ron"));
        page.unwrap().matches("soap").count()
    };
    let within = page(&[
        "add-seed \"N. maxima\" --seeds 40 --code X25-50 --on 2025-05-01",
        "sow X25-50.L1 --seeds 10 --on 2025-05-02 --place tent",
        "treat --place tent soap --on 2025-05-20",
        "move X25-50.S1 \"tent, shelf 1\"",
    ]);
    assert_eq!(within, 0);
    assert_eq!(page(&["move X25-50.S1 bench"]), 1);
    assert_eq!(page(&["move X25-50.S1 tent", "move X25-50.S1 bench"]), 1);
}
