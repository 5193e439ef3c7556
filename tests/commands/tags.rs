//! `podbook tags`: which plants get one, what stands on it, and what is said where something found no room.

use crate::bench_top::BenchTop;
use crate::demo::{copied, demo};
use insta::assert_snapshot;

/// The words of an SVG, in painting order.
fn words(svg: &str) -> Vec<String> {
    let texts = svg.split("</text>");
    let texts = texts.filter_map(|piece| piece.rsplit_once("fill-opacity=\"0\">"));
    texts.map(|(_, words)| words.to_owned()).collect()
}

/// The codes of the tags that are written.
fn codes(top: &BenchTop, arguments: &[&str]) -> Vec<String> {
    let run = top.run(&[&["tags"], arguments, &["--json"]].concat());
    assert_eq!(run.exit, Some(0), "{run}");
    let parts = run.stdout.split("\"id\": \"").skip(1);
    parts
        .map(|part| part.split('"').next().unwrap_or("").to_owned())
        .collect()
}

#[test]
fn the_list_says_what_each_tag_would() {
    assert_snapshot!(
        "tags-of-the-demo",
        demo("tags X22-02-5 X18-01-4 X19-02 X20-01 Mir1 Spa1")
    );
}

#[test]
fn one_tag_a_page_says_it_all() {
    let run = demo("tags X22-02-5 --single --size 25x76 --format svg");
    let all = words(&run.stdout).join(" ");
    for said in [
        "X22-02-5",
        "X18-01-4 × Spa1",
        "N. ventricosa",
        "sown 2022-09",
        "tent",
    ] {
        assert!(all.contains(said), "{said}: {all}");
    }
    // Millimetres: 76 by 25.
    assert!(
        run.stdout.contains("width=\"215.43pt\" height=\"70.87pt\""),
        "{}",
        &run.stdout[..300]
    );
    assert_eq!(run.stderr, "");
}

/// A tray has a tag of its own, with the cross it is of and what it holds; a cross gives the trays that still stand, a place
/// those that stand there.
#[test]
fn trays_have_tags_of_their_own() {
    let top = BenchTop::with([
        (
            "registry.ron",
            r#"(genus: "Nepenthes", hemisphere: north, registry: "tent")"#,
        ),
        (
            "species.ron",
            r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata")])"#,
        ),
        (
            "clones.ron",
            r#"(clones: [(code: "V1", received: "N. ventricosa"), (code: "S1", received: "N. spathulata")])"#,
        ),
        (
            "crosses/X24-01.ron",
            r#"(code: "X24-01", parents: known(seed: "V1", pollen: "S1"), confidence: witnessed,
                pods: [(code: "P1")],
                sowings: [
                    (code: "S1", pod: "P1", on: "2023-02-01", seeds: 60, place: "heated bench",
                     pricked_out: [(on: "2023-09-01", moved: 30)]),
                    (code: "S2", pod: "P1", on: "2024-03-05", seeds: 48, place: "heated bench"),
                ],
                community_pots: [
                    (code: "T1", sowing: "S1", alive: [(on: "2023-09-01", count: 30), (on: "2024-01-01", count: 26)], place: "shelf 1"),
                    (code: "T2", sowing: "S1", alive: [(on: "2023-09-01", count: 8)], fate: died(on: "2023-12-01")),
                ])"#,
        ),
    ]);
    let of = |more: &[&str]| codes(&top, &[&["--trays"], more].concat());
    assert_eq!(of(&[]), ["X24-01.S2", "X24-01.T1"]);
    assert_eq!(of(&["X24-01"]), ["X24-01.S2", "X24-01.T1"]);
    assert_eq!(of(&["X24-01.S1", "X24-01.T2"]), ["X24-01.S1", "X24-01.T2"]);
    assert_eq!(of(&["--place", "shelf 1"]), ["X24-01.T1"]);
    assert_eq!(of(&["--since", "2024-03"]), ["X24-01.S2"]);
    let svg = top.run(&[
        "tags", "--trays", "--single", "--size", "25x76", "--format", "svg",
    ]);
    assert_eq!(svg.exit, Some(0), "{svg}");
    let said = words(&svg.stdout).join(" ");
    for part in [
        "X24-01.S2",
        "V1 × S1",
        "N. ventricosa",
        "sown 2024-03",
        "48 seeds",
        "X24-01.T1",
        "sown 2023-02",
        "26 left",
        "tent",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert_snapshot!("tags-of-trays", top.run(&["tags", "--trays"]));
    let refused = top.run(&["tags", "V1", "--trays"]);
    assert_eq!(refused.exit, Some(2), "{refused}");
    assert!(refused.stderr.contains("`V1` has no tray"), "{refused}");
    let gone = top.run(&["tags", "--trays", "--place", "shelf 7"]);
    assert!(
        gone.stderr.contains("no tray asked for is standing"),
        "{gone}"
    );
}

/// Only a sex seen on open flowers is printed: Spa1 is male, the leaf test of a plant stays off.
#[test]
fn a_guess_is_no_sex() {
    let top = BenchTop::sound();
    let all = top.run(&["tags", "--json"]).stdout;
    assert!(
        all.contains("\"sex\": \"♀\"") && all.contains("\"sex\": \"♂\""),
        "{all}"
    );
    let guessed =
        BenchTop::sound().change("clones.ron", "sex: female", "seen_by: buds, sex: female");
    let guessed = guessed.run(&["tags", "--json"]).stdout;
    assert!(
        guessed.matches('♀').count() < all.matches('♀').count(),
        "{guessed}"
    );
}

/// A short tag gives up the QR code first, and says so.
#[test]
fn what_found_no_room_is_said() {
    let run = demo("tags X22-02-5 --size 10x60 --single --format svg");
    assert!(
        run.stderr.contains("no room for the QR code on X22-02-5\n"),
        "{run}"
    );
    assert!(words(&run.stdout).contains(&"X22-02-5".to_owned()));
    let refused = demo("tags X22-02-5 --size 6x12");
    assert_eq!(refused.exit, Some(2));
    assert_snapshot!("tags-too-small", refused);
    assert_snapshot!("tags-bad-size", demo("tags X22-02-5 --size big"));
}

/// A piece, a place, a day, and all that changed.
#[test]
fn plants_are_chosen_by_piece_place_day_and_change() {
    let top = copied();
    assert_eq!(codes(&top, &["X18-01-4-a"]), ["X18-01-4-a"]);
    assert_eq!(codes(&top, &["X18-01-4"]), ["X18-01-4-a", "X18-01-4-b"]);
    assert_eq!(codes(&top, &["--place", "shelf 1", "X22-02"]), ["X22-02-5"]);
    assert_eq!(codes(&top, &["--place", "windowsill", "Ven1"]), ["Ven1-d"]);
    let all = codes(&top, &[]);
    let since = codes(&top, &["--since", "2023-01-01"]);
    assert!(
        since.contains(&"X22-02-5".to_owned()) && since.len() < all.len(),
        "{since:?}"
    );
    let none = top.run(&["tags", "--changed"]);
    assert_eq!(none.exit, Some(2), "{none}");
    assert!(none.stderr.contains("no tag reads differently"), "{none}");

    let flower = [
        "flower",
        "X22-02-1",
        "--sex",
        "female",
        "--opened",
        "2024-05-30",
    ];
    let run = top.run(&flower);
    assert_eq!(run.exit, Some(0), "{run}");
    assert_eq!(codes(&top, &["--changed"]), ["X22-02-1"]);
    // A move shows on no tag; the earlier change still counts from its day on.
    let run = top.run(&["move", "X22-02-2", "windowsill"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert_eq!(top.run(&["tags", "--changed"]).exit, Some(2));
    assert_eq!(
        codes(&top, &["--changed", "--since", "2024-06-01"]),
        ["X22-02-1"]
    );
    let edited = top
        .text("crosses/X22-02.ron")
        .replace("the broad rim", "a broad rim");
    let edited = top.file("crosses/X22-02.ron", &edited);
    let refused = edited.run(&["tags", "--changed"]);
    assert!(
        refused.stderr.contains("was edited by hand after change"),
        "{refused}"
    );
}

/// Places, suppliers, prices, remarks and the grower's name stay off.
#[test]
fn nothing_private_is_on_a_tag() {
    let run = demo("tags --json");
    for private in [
        "shelf",
        "windowsill",
        "the demo's grower",
        "club table",
        "warm box",
    ] {
        assert!(!run.stdout.contains(private), "{private}");
    }
}

/// A label too long for any version of the name is missed on every tag, and that is said, also where the rest of the name
/// has room.
#[test]
fn a_label_that_no_tag_has_room_for_is_said() {
    let words = "very long label words ".repeat(20);
    let top = BenchTop::sound();
    let label = format!("N. (truncata x veitchii) x lowii \"{}\"", words.trim());
    let added = top.run(&["add", "Lon1", &label]);
    assert_eq!(added.exit, Some(0), "{added}");
    let run = top.run(&["tags", "Lon1", "-o", "t.pdf"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(
        run.stderr
            .contains("no room for the full name (a shorter version is on the tag) on Lon1"),
        "{run}"
    );
}
