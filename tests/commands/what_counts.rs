//! Of which plants and readings a figure is made, and what else is the same where it says "clearly".

use crate::bench_top::BenchTop;
use crate::small_records::{holds, of, said};

/// Seedlings of S1, sown on 2024-01-01, with these fields each.
fn tray(fields: &[&str], rest: &str) -> BenchTop {
    let seedlings: String = (1..)
        .zip(fields)
        .map(|(n, fields)| {
            format!("(number: \"{n}\", sowing: \"S1\", numbered: \"2024-06-01\", {fields}),")
        })
        .collect();
    of(&format!(
        "sowings: [(code: \"S1\", on: \"2024-01-01\")], seedlings: [{seedlings}], {rest}"
    ))
}

/// A sitting of the plants from 1 on; an empty cell is no row.
fn sitting(head: &str, cells: &[&str]) -> String {
    let rows: String = (1..)
        .zip(cells)
        .filter(|(_, cell)| !cell.is_empty())
        .map(|(n, cell)| format!("[\"{n}\", \"{cell}\"],"))
        .collect();
    format!("({head}, rows: [{rows}]),")
}

/// Each piece died, or one was sold: what became of the plant is said, and the rows add up to those numbered.
#[test]
fn a_plant_of_which_every_piece_died_is_a_death() {
    let pieces = |a: &str, b: &str| {
        format!(
            "ramets: [(code: \"a\", made: original, fate: {a}), (code: \"b\", from: \"a\", made: cutting, fate: {b})]"
        )
    };
    let dead = pieces("died(on: \"2025-05-01\")", "died(on: \"2025-06-01\")");
    let sold = pieces("sold(on: \"2025-05-01\")", "died(on: \"2025-06-01\")");
    let top = tray(&[&dead, &sold, ""], "");
    let words = [
        "died 1 3 numbered 33 %",
        "sold 1 3 numbered",
        "here today 1 3 numbered",
    ];
    holds(&said(&top, "siblings K"), &words);
    holds(
        &said(&top, "growth K --json"),
        &["\"alive\": 1, \"died\": 1,", "\"left\": 1,"],
    );
}

#[test]
fn the_last_piece_that_goes_is_said_to_be_the_last() {
    let top = tray(
        &["ramets: [(code: \"a\", made: original), (code: \"b\", from: \"a\", made: cutting)]"],
        "",
    );
    let last = "No piece of K-1 is left here";
    holds(
        &said(&top, "gone K-1-a --died"),
        &["K-1-a: died", &format!("not: {last}")],
    );
    holds(&said(&top, "gone K-1-b --died"), &["K-1-b: died", last]);
}

/// Two sittings of one day, in either order on the page: the answers are the same, of the mean of both readings.
#[test]
fn two_readings_of_one_day_are_their_mean_in_either_order() {
    let one = sitting(
        "on: \"2025-06-01\", by: \"me\", columns: [\"span cm\"]",
        &["4", "5", "6", "7", "8", "9"],
    );
    let other = sitting(
        "on: \"2025-06-01\", by: \"x\", columns: [\"span cm\"]",
        &["9.4", "8.4", "7.4", "6.4", "5.4", "4.0"],
    );
    let tops = [[&*one, &*other], [&*other, &*one]]
        .map(|two| tray(&[""; 6], &format!("sittings: [{}]", two.concat())));
    for question in [
        "siblings K",
        "grade K.S1",
        "select K --weigh span=1 --keep 2",
        "growth K",
    ] {
        let [first, second] = [0, 1].map(|at| said(&tops[at], question));
        assert_eq!(first, second, "{question}");
    }
    holds(
        &said(&tops[0], "siblings K --json"),
        &["\"smallest\": 6.5, \"largest\": 6.7"],
    );
}

/// Of steps there is no mean: where two sittings of a day say unlike things of a plant, neither counts, and both are counted.
#[test]
fn unlike_steps_of_one_day_do_not_count() {
    let one = sitting(
        "on: \"2025-06-01\", columns: [\"banding\"]",
        &["1", "2", "3"],
    );
    let other = sitting(
        "on: \"2025-06-01\", by: \"x\", columns: [\"banding\"]",
        &["1", "3"],
    );
    let top = tray(&[""; 3], &format!("sittings: [{one}{other}]"));
    let words = [
        "left out: 2 readings contradicted by another sitting of the day",
        "n 2",
    ];
    holds(&said(&top, "siblings K"), &words);
}

/// Of two sittings as near to the age the later counts, also where it stands first on the page.
#[test]
fn the_later_of_two_sittings_counts_in_either_order() {
    let one = sitting(
        "on: \"2025-06-01\", columns: [\"span cm\"]",
        &["4", "5", "6"],
    );
    let other = sitting(
        "on: \"2025-06-05\", columns: [\"span cm\"]",
        &["5", "6", "7"],
    );
    for two in [[&*one, &*other], [&*other, &*one]] {
        let seedlings = "seedlings: [(number: \"1\"), (number: \"2\"), (number: \"3\")]";
        let top = of(&format!("{seedlings}, sittings: [{}]", two.concat()));
        holds(
            &said(&top, "siblings K --json"),
            &["\"smallest\": 5.0, \"largest\": 7.0"],
        );
    }
}

/// Of those alive without a reading at the age, no. 2 was read earlier and no. 8 never.
#[test]
fn those_read_elsewhere_are_counted_among_the_unread() {
    let died = "fate: died(on: \"2025-01-10\")";
    let first = sitting(
        "on: \"2025-01-08\", columns: [\"span cm\"]",
        &["1", "1", "1", "1", "1", "1"],
    );
    let second = sitting(
        "on: \"2026-01-08\", columns: [\"span cm\"]",
        &["", "", "2", "2", "2", "3"],
    );
    let fates = [died, "", "", "", "", "", died, ""];
    let top = tray(&fates, &format!("sittings: [{first}{second}]"));
    let words = "2 plants without a reading that may be compared at this age, 1 of them read at other or unknown ages only";
    holds(&said(&top, "siblings K"), &[words]);
}

/// A remark alone reads nothing of a plant.
#[test]
fn a_remark_is_no_reading() {
    let rows = "rows: [[\"1\", \"3\", \"\"], [\"2\", \"\", \"pale\"]]";
    let head = "(on: \"2025-06-01\", columns: [\"span cm\", \"note\"]";
    let top = tray(&["", ""], &format!("sittings: [{head}, {rows})]"));
    holds(&said(&top, "show K-1"), &["last read 2025-06-01"]);
    holds(&said(&top, "show K-2"), &["not: last read"]);
    let unread = said(&top, "list --unread-since 2025-01-01");
    holds(&unread, &["K-2", "not: K-1"]);
}

/// The caution is of the groups that may hold the mixed-up plant: of pod P1, not of P2 and its sowing.
#[test]
fn only_groups_that_may_hold_a_mixed_up_plant_are_cautioned() {
    let parts = "pods: [(code: \"P1\"), (code: \"P2\"), (code: \"P3\")],
        sowings: [(code: \"S1\", pod: \"P1\", on: \"2024-01-01\"), (code: \"S2\", pod: \"P2\", on: \"2024-01-01\"),
            (code: \"S3\", pod: \"P3\", on: \"2024-01-01\")],
        seedlings: [(number: \"1\", sowing: \"S1\"), (number: \"2\", sowing: \"S2\"), (number: \"3\", sowing: \"S3\"),
            (number: \"4\", one_of: [\"P1\", \"P3\"])]";
    let top = of(parts);
    for question in ["siblings", "growth"] {
        for (of, is_there) in [
            ("P1", true),
            ("P2", false),
            ("P3", true),
            ("S1", true),
            ("S2", false),
        ] {
            let words = said(&top, &format!("{question} K.{of}"));
            assert_eq!(
                words.contains("not counted here"),
                is_there,
                "{question} {of}\n{words}"
            );
        }
    }
}

/// Two pods of four plants, 4 cm apart, everything on record the same; each of these fields is of one pod.
struct Pods<'a> {
    sown: [&'a str; 2],
    sowing: [&'a str; 2],
    plant: [&'a str; 2],
    read: &'a str,
}

const ALIKE: Pods = Pods {
    sown: ["2025-01-01"; 2],
    sowing: ["medium: \"a\", place: \"shelf 1\""; 2],
    plant: ["place: \"shelf 1\", pots: [(on: \"2025-06-01\", pot: \"5 cm\")]"; 2],
    read: "2026-01-01",
};

impl Pods<'_> {
    fn verdict(&self) -> String {
        let sowing = |at: usize| {
            let (sown, fields) = (self.sown[at], self.sowing[at]);
            let n = at + 1;
            format!("(code: \"S{n}\", pod: \"P{n}\", on: \"{sown}\", {fields}),")
        };
        let plant = |n: usize| {
            format!(
                "(number: \"{n}\", sowing: \"S{}\", {}),",
                n / 5 + 1,
                self.plant[n / 5]
            )
        };
        let seedlings: String = (1..=8).map(plant).collect();
        let sizes = ["5.0", "5.2", "5.4", "5.6", "9.0", "9.2", "9.4", "9.6"];
        let head = format!(
            "on: \"{}\", place: \"shelf 1\", light: \"LED\", method: \"ruler\", by: \"me\", columns: [\"span cm\"]",
            self.read
        );
        let top = of(&format!(
            "pods: [(code: \"P1\"), (code: \"P2\")], sowings: [{}{}], seedlings: [{seedlings}], sittings: [{}]",
            sowing(0),
            sowing(1),
            sitting(&head, &sizes)
        ));
        said(&top, "growth K.P1 K.P2")
    }
}

#[test]
fn clearly_is_said_only_where_all_on_record_is_the_same() {
    holds(
        &ALIKE.verdict(),
        &[
            "K.P2 is clearly larger than K.P1",
            "sowing mix a the same yes",
        ],
    );
    let pot = "pots: [(on: \"2025-06-01\", pot: \"5 cm\")]";
    let plain = format!("place: \"shelf 1\", {pot}");
    let treated = format!("{plain}, treatments: [(on: \"2025-08-01\", product: \"soap\")]");
    let elsewhere = format!("place: \"shelf 2\", {pot}");
    let late = "place: \"shelf 1\", pots: [(on: \"2025-12-20\", pot: \"5 cm\")]";
    let unknown = "place: \"shelf 1\", pots: [(on: \"?\", pot: \"5 cm\")]";
    let sowing = "medium: \"a\", place: \"shelf 1\"";
    let unlike = [
        (
            Pods {
                sowing: [sowing, "medium: \"b\", place: \"shelf 1\""],
                ..ALIKE
            },
            "sowing mix a b no",
        ),
        (
            Pods {
                sowing: [sowing, "medium: \"a\", place: \"box\""],
                ..ALIKE
            },
            "place of sowing shelf 1 box no",
        ),
        (
            Pods {
                sowing: [sowing, "place: \"shelf 1\""],
                ..ALIKE
            },
            "sowing mix a – not recorded",
        ),
        (
            Pods {
                plant: [&plain, &treated],
                ..ALIKE
            },
            "treatments – soap 2025-08-01 not recorded",
        ),
        (
            Pods {
                plant: [&plain, &elsewhere],
                ..ALIKE
            },
            "where they stand shelf 1 shelf 2 no",
        ),
        (
            Pods {
                plant: [&plain, late],
                ..ALIKE
            },
            "day of potting 2025-06-01 2025-12-20 no",
        ),
        (
            Pods {
                plant: [&plain, unknown],
                ..ALIKE
            },
            "pot 5 cm – not recorded",
        ),
        (
            Pods {
                sown: ["2025-01"; 2],
                ..ALIKE
            },
            "not recorded: sown to the day",
        ),
    ];
    for (pods, words) in unlike {
        holds(
            &pods.verdict(),
            &["K.P2 is probably larger than K.P1", words],
        );
    }
    // One sitting was on one day, whichever of the month.
    let month = Pods {
        read: "2026-01",
        ..ALIKE
    };
    holds(&month.verdict(), &["K.P2 is clearly larger than K.P1"]);
}

/// A second reading of the day is asked about as one of the day before would be.
#[test]
fn a_second_reading_of_the_day_is_asked_about() {
    let read = sitting("on: \"2026-06-01\", columns: [\"span cm\"]", &["10"]);
    for answer in ["51", "4", "8.9", "12.6"] {
        let top = tray(&[""], &format!("sittings: [{read}]"));
        let command = [
            "measure",
            "K-1",
            "--traits",
            "span",
            "--place",
            "x",
            "--today",
            "2026-06-01",
        ];
        let run = top.run_with(&format!("{answer}\n"), &command);
        let asked = format!("{}{}", run.stdout, run.stderr);
        assert!(asked.contains("10.0 cm on 2026-06-01"), "{answer}: {run}");
    }
    let top = tray(&[""], &format!("sittings: [{read}]"));
    let command = [
        "measure",
        "K-1",
        "--traits",
        "span",
        "--place",
        "x",
        "--today",
        "2026-06-01",
    ];
    let run = top.run_with("10.2\n", &command);
    assert!(run.stdout.starts_with("Recorded 1 plant"), "{run}");
}
