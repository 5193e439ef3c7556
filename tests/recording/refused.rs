//! What is refused, whichever of two records was entered first, and what the refusal says to do. Each story is played on a
//! copy of the demo.

use crate::answers::{Demo, play};

/// Lines asked one after the other, each with words its answer holds; words after `not:` it does not hold.
const STORIES: &[&[(&str, &str)]] = &[
    // Flowers that were dusted, or gave pollen, were not over before, also where no spike was named.
    &[
        ("flower Ven1-b --sex female --opened 2025-05-01", "25a"),
        ("flower Spa1-a --sex male --opened 2025-05-01", "25a"),
        (
            "pollinate Ven1-b --with Spa1 --zone A --flowers 8 --on 2025-05-16",
            "X25-01.A",
        ),
        ("collect Spa1-a --on 2025-05-20", "Spa1-2505"),
        (
            "flower Ven1-b --over 2025-05-10",
            "X25-01.A was pollinated on 2025-05-16, when no other spike of Ven1-b was open",
        ),
        (
            "flower Spa1-a --over 2025-05-10",
            "the pollen of Spa1-2505 was collected on 2025-05-20, when no other spike of Spa1-a was open",
        ),
        ("flower Ven1-b --over 2025-05-16", "over on 2025-05-16"),
        ("flower Spa1-a --over \"May 2025\"", "over in May 2025"),
        // Another spike may have borne it.
        ("flower Ven1-b --opened 2025-05-12 --seen 2025-04-01", "25b"),
        (
            "flower Ven1-b --spike 25a --over 2025-05-10",
            "over on 2025-05-10",
        ),
    ],
    // Open flowers are recorded as the advice says, and the next pollination is taken.
    &[
        (
            "pollinate Mir1 --with Spe1-2105",
            "record its open flowers: podbook flower Mir1 --on 2025-06-01",
        ),
        ("flower Mir1 --on 2025-06-01", "Mir1"),
        (
            "pollinate Mir1 --with Spe1-2105 --zone B",
            "not: without an open flower",
        ),
        (
            "count X21-05 --standing 18",
            "there is more than one sowing or pot: X21-05.S1, X21-05.T1",
        ),
    ],
    // What is lost may be found; what is gone was not looked for.
    &[
        ("gone X22-02-5 --lost --on 2025-05-01", "lost"),
        (
            "keep X22-02-5",
            "if it was found again, record that first: podbook seen X22-02-5",
        ),
        ("gone X22-02-4 --sold --on 2025-05-01", "sold"),
        ("keep X22-02-4", "not: podbook seen"),
        (
            "seen X22-02-3 --except X22-02-4",
            "X22-02-4 was not found, but it is no longer here: sold 2025-05-01",
        ),
        // It was here before.
        ("keep X22-02-4 --on 2025-04-01", "marked to keep"),
        (
            "cutting X22-02-4 --on 2025-04-01",
            "X22-02-4-b is taken to be here",
        ),
    ],
    // Nothing is sown of a lot of which nothing is left, except before.
    &[
        (
            "add-seed \"N. maxima\" --seeds 100 --code X23-01 --on 2023-08-01",
            "X23-01",
        ),
        (
            "gone X23-01.L1 --culled --why mould --on 2025-05-01",
            "X23-01.L1",
        ),
        (
            "sow X23-01.L1 --seeds 10",
            "seed of X23-01.L1 was sown on 2025-06-01, but nothing is left of it",
        ),
        (
            "sow X23-01.L1 --seeds 10 --on 2025-04-01",
            "Nothing is left of X23-01.L1 now; whether there was some on that day is not on record",
        ),
    ],
    // An accepted opinion of an earlier date does not take the name from a later one.
    &[
        (
            "opinion Ven1 \"N. spathulata\" --accept --on 2024",
            "now shown as N. spathulata",
        ),
        (
            "opinion Ven1 \"N. maxima\" --accept --on 2022",
            "the name shown is unchanged: it is that of an accepted opinion of a later date",
        ),
    ],
    // Of one day there is one count, one stock-take and one treatment.
    &[
        (
            "add-seed \"N. maxima\" --seeds 100 --code X23-01 --on 2023-08-01",
            "X23-01",
        ),
        ("sow X23-01 --seeds 100 --on 2023-09-01", "X23-01.S1"),
        ("count X23-01.S1 --up 55 --on 2023-11-01", "55"),
        ("prick X23-01.S1 20 --left 15 --on 2024-03-01", "X23-01.T1"),
        (
            "count X23-01.T1 --standing 19 --on 2024-03-01",
            "19 alive on 2024-03-01",
        ),
        ("count X23-01.T1 --standing 18 --on 2024-05-01", "18 alive"),
        (
            "count X23-01.T1 --standing 17 --on 2024-05-01",
            "17 alive in X23-01.T1 on 2024-05-01, but 18 are on record for that day",
        ),
        ("count X23-01.T1 --standing 17 --on 2024-05-02", "17 alive"),
        // What was left behind bounds what is taken out later.
        (
            "prick X23-01.S1 16 --on 2024-03-05",
            "16 is more than there are: 15 seedlings left behind at an earlier pricking out",
        ),
        ("count X23-01.S1 --up 56 --on 2024-03-04", "56"),
        ("prick X23-01.S1 16 --on 2024-03-05", "X23-01.T2"),
    ],
    &[
        ("seen X22-02-3 --on 2025-05-20", "1 plant found"),
        (
            "seen X22-02-3 --except X22-02-3 --on 2025-05-20",
            "X22-02-3 was not found on 2025-05-20, but a stock-take of that day found it",
        ),
        (
            "seen X22-02-3 --except X22-02-3 --on 2025-05-21",
            "X22-02-3: not found on 2025-05-21",
        ),
        // It may turn up on the same day.
        ("seen X22-02-3 --on 2025-05-21", "1 plant found"),
    ],
    &[
        ("treat X22-02-3 soap --on 2025-05-20", "treated with soap"),
        (
            "treat X22-02-3..5 soap --on 2025-05-20",
            "X22-02-3 is already on record as treated with soap on 2025-05-20",
        ),
        (
            "treat X22-02-3 soap --against gnats --on 2025-05-20",
            "treated with soap",
        ),
        (
            "treat --place attic oil --on 2025-05-20",
            "treated with oil",
        ),
        (
            "treat --place attic oil --on 2025-05-20",
            "attic is already on record as treated with oil on 2025-05-20",
        ),
        ("treat --place \"shelf 1\" oil", "treated with oil"),
        (
            "treat --place \"shelf 1\" oil",
            "already on record as treated with oil on 2025-06-01",
        ),
    ],
];

/// A pricking out that names no pot, written by hand: the pot that held as many on that day is no count of what was left.
#[test]
fn what_was_left_in_a_sowing_is_not_the_pot_that_was_filled() {
    let demo = Demo::new();
    for line in [
        "add-seed \"N. maxima\" --seeds 100 --code X24-09 --on 2024-08-01",
        "sow X24-09 --seeds 100 --on 2024-09-01",
        "count X24-09.S1 --up 55 --on 2024-11-01",
        "prick X24-09.S1 20 --left 15 --on 2025-03-01",
    ] {
        let said = demo.said(line);
        assert!(said.contains("X24-09"), "{said}");
    }
    let page = demo.folder().join("crosses/X24-09.ron");
    let text = std::fs::read_to_string(&page).expect("a page");
    let bare = text.replace(", to: \"T1\"", "");
    assert_ne!(bare, text);
    std::fs::write(&page, bare).expect("a page can be written");
    let said = demo.said("show X24-09.S1");
    assert!(
        said.contains("left 15, less those that died since"),
        "{said}"
    );
}

#[test]
fn what_cannot_be_is_refused_in_either_order() {
    play(STORIES);
}

/// A doubt beside a number is no unit, and a line break in a remark is a blank.
#[test]
fn what_stands_beside_a_number_or_a_remark() {
    let demo = Demo::new();
    let table = demo.folder().join("read.csv");
    std::fs::write(&table, "plant,span cm\nX22-02-3,1.9?\n").expect("a table can be written");
    let said = demo.said(&format!(
        "measure --from \"{}\" --on 2025-05-20",
        table.display()
    ));
    assert!(said.contains("the number alone, with its unit"), "{said}");
    assert!(!said.contains("unit is not known"), "{said}");
    demo.said("keep X22-02-3 --why \"fast\nred\"");
    let page = demo.folder().join("crosses/X22-02.ron");
    let text = std::fs::read_to_string(page).expect("a page");
    assert!(text.contains("why: \"fast red\""), "{text}");
}

/// A reading of another grower keeps its words, and a plant that stands there is not found here.
#[test]
fn what_another_grower_told_stays_as_it_was_told() {
    let demo = Demo::new();
    for (page, from, new) in [
        (
            "clones.ron",
            "clones: [",
            r#"(code: "Zed1", received: "N. ventricosa", told_by: (registry: "aa", code: "Zed1"), fate: elsewhere),"#,
        ),
        (
            "crosses/X22-02.ron",
            "sittings: [",
            r#"(on: "2025-05-20", by: "aa, a helper", columns: ["span cm"], rows: [["3", "9.1"]]),"#,
        ),
    ] {
        let path = demo.folder().join(page);
        let text = std::fs::read_to_string(&path).expect("a page");
        let text = text.replacen(from, &format!("{from}\n        {new}"), 1);
        std::fs::write(&path, text).expect("a page can be written");
    }
    let said = demo.said("correct X22-02-3 span \"3 cm\" --on 2025-05-20");
    assert!(
        said.contains("that reading came from the registry aa"),
        "{said}"
    );
    let said = demo.said("seen Zed1");
    assert!(
        said.contains("it is on record as another grower's, never here"),
        "{said}"
    );
    let said = demo.said("correct X22-02-3 span \"6.8 cm\" --on 2024-05-11");
    assert!(said.contains("now 6.8 cm"), "{said}");
}

/// What is left out because of a slip of the pen is there all the same: its code is on a tag, and is given to nothing else.
#[test]
fn a_code_that_stands_in_what_was_left_out_is_not_given_again() {
    let demo = Demo::new();
    let path = |page: &str| demo.folder().join(page);
    let slip = |page: &str, from: &str, to: &str| {
        let text = std::fs::read_to_string(path(page)).expect("a page");
        assert!(text.contains(from), "{page}: {from}");
        std::fs::write(path(page), text.replacen(from, to, 1)).expect("a page can be written");
    };
    let taken = |line: &str, code: &str, page: &str| {
        let said = demo.said(line);
        let refused = format!("{code} was to be a new code, but it stands in {page}");
        assert!(said.contains(&refused), "{line}: {said}");
        assert!(said.contains("mend that first"), "{line}: {said}");
    };
    demo.said("add \"N. maxima\" --on 2020");
    slip("clones.ron", "(code: \"Max1\"", "(Code: \"Max1\"");
    taken("add \"N. maxima\"", "Max1", "clones.ron");
    assert!(demo.said("add Max2 \"N. maxima\"").contains("Max2"));
    demo.said("collect Spa1 --on 2025-04-02");
    slip(
        "pollen.ron",
        "(code: \"Spa1-2504\", from: plant(",
        "(code: \"Spa1-2504\", from: plnt(",
    );
    taken("collect Spa1 --on 2025-04-02", "Spa1-2504", "pollen.ron");
    slip("crosses/X22-02.ron", "(number: \"6\", ", "(Number: \"6\", ");
    taken("number X22-02.S1 6", "X22-02-6", "crosses/X22-02.ron");
    // A page that is not read, for its name or for its place.
    let page = std::fs::read(path("crosses/X13-01.ron")).expect("a page");
    std::fs::create_dir(path("crosses/old")).expect("a folder");
    for (to, code, unread) in [
        (
            "crosses/X25-01.ron.txt",
            "X25-01.A",
            "crosses/X25-01.ron.txt",
        ),
        ("X25-01.ron", "X25-01.A", "X25-01.ron"),
        ("crosses/old/X25-01.ron", "X25-01.A", "crosses/old"),
    ] {
        std::fs::write(path(to), &page).expect("a page can be written");
        let line = "pollinate X18-01-4-a --with Spa1 --zone A --flowers 5 --on 2025-05-20";
        taken(line, code, unread);
        std::fs::remove_file(path(to)).expect("a page can be removed");
    }
}

/// Of two readings of one day, from two greenhouses or by two methods, none is taken for the one that is meant.
#[test]
fn one_of_two_readings_of_a_day_is_not_corrected_by_a_guess() {
    let demo = Demo::new();
    let path = demo.folder().join("crosses/X22-02.ron");
    let text = std::fs::read_to_string(&path).expect("a page");
    let sitting = |method: &str| {
        format!(
            "\n        (on: \"2025-05-30\", method: \"{method}\", columns: [\"span cm\"], rows: [[\"3\", \"9.1\"]]),"
        )
    };
    let two = ["ruler", "photo"].map(sitting).concat();
    let text = text.replacen("sittings: [", &format!("sittings: [{two}"), 1);
    std::fs::write(&path, &text).expect("a page can be written");
    for on in ["", " --on 2025-05-30"] {
        let said = demo.said(&format!("correct X22-02-3 span \"9.4 cm\"{on}"));
        let words = "X22-02-3 was read more than once on 2025-05-30";
        assert!(said.contains(words), "{said}");
    }
    assert_eq!(std::fs::read_to_string(&path).expect("a page"), text);
    let said = demo.said("correct X22-02-3 span \"6.8 cm\" --on 2024-05-11");
    assert!(said.contains("now 6.8 cm"), "{said}");
}
