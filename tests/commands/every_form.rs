//! One fact is as sure in every form: in text, in a picture, on a card, in a lineage handed over and in an album.

use crate::bench_top::{BenchTop, Run};
use crate::demo::{ask, copied, demo};
use std::path::Path;

/// A file that a run wrote, as text.
fn written(top: &BenchTop, line: &str, file: &str) -> String {
    let words: Vec<&str> = line.split(' ').collect();
    let run = top.run(&words);
    assert_eq!(run.exit, Some(0), "{line}\n{run}");
    top.text(file)
}

/// The letters of a drawn page without its marks, each run of blanks as one.
pub fn letters(picture: &str) -> String {
    let mut is_mark = false;
    let letter = |letter: char| {
        is_mark = (is_mark || letter == '<') && letter != '>';
        match letter {
            '>' => Some(' '),
            _ => (!is_mark).then_some(letter),
        }
    };
    let said: String = picture.chars().filter_map(letter).collect();
    said.split_whitespace().collect::<Vec<_>>().join(" ")
}

const OLD_LABELS: &str = "older labels use the name broadly";

#[test]
fn a_lineage_keeps_the_doubt_of_a_species() {
    let top = copied();
    written(&top, "handover Vta1 -o handed", "handed/species.ron");
    let handed = top.path().join("handed");
    for question in ["card Vta1", "name Vta1", "show Vta1"] {
        let run = ask(&handed, question);
        assert!(run.stdout.contains(OLD_LABELS), "{question}\n{run}");
    }
}

#[test]
fn what_was_said_names_the_doubt_of_a_species() {
    let top = copied();
    let sale = top.run(&["gone", "X22-02-5", "--sold", "--today", "2025-06-01"]);
    assert_eq!(sale.exit, Some(0), "{sale}");
    let holds = ask(top.path(), "promised X22-02-5");
    assert!(
        holds.stdout.contains("would read the same today"),
        "{holds}"
    );
    let list = top.text("species.ron");
    let row = list
        .split("epithet: \"spathulata\"")
        .nth(1)
        .expect("spathulata is in the list");
    assert!(!row[..row.find("epithet").unwrap_or(row.len())].contains("doubt:"));
    let top = top.change(
        "species.ron",
        "epithet: \"spathulata\"",
        "epithet: \"spathulata\", doubt: \"may be two species\"",
    );
    let changed = ask(top.path(), "promised X22-02-5");
    assert_eq!(changed.exit, Some(1), "{changed}");
    let said = changed
        .stdout
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    assert!(
        said.contains("claimed; spathulata: may be two species"),
        "{changed}"
    );
}

#[test]
fn the_picture_of_growth_has_what_makes_its_title_less_sure() {
    let top = copied();
    let said = letters(&written(&top, "growth X22-02 X15-02 -o g.svg", "g.svg"));
    assert!(said.contains("were not grown alike"), "{said}");
    written(
        &top,
        "muddle X22-02-1 X22-02-2 --today 2025-06-01",
        "registry.ron",
    );
    let line = "growth X22-02-1 -o g.svg --today 2025-06-01";
    let said = letters(&written(&top, line, "g.svg"));
    assert!(said.contains("were mixed up"), "{said}");
}

#[test]
fn the_picture_of_a_history_is_no_surer_than_the_screen() {
    let top = copied();
    let said = letters(&written(&top, "show Vta1 -o h.svg", "h.svg"));
    assert!(said.contains(OLD_LABELS), "{said}");
    let said = letters(&written(&top, "show X15-02-3 -o h.svg", "h.svg"));
    assert!(said.contains("(seed parent first)"), "{said}");
    written(
        &top,
        "muddle X22-02-1 X22-02-2 --today 2025-06-01",
        "registry.ron",
    );
    let line = "show X22-02-1 -o h.svg --today 2025-06-01";
    let said = letters(&written(&top, line, "h.svg"));
    assert!(said.contains("may be of either"), "{said}");
}

/// The album's list takes a part of a place for the place, as the list on the screen does.
#[test]
fn a_part_of_a_place_counts_in_the_album_too() {
    let top = copied();
    let album = written(
        &top,
        "album -o album --today 2025-06-10",
        "album/index.html",
    );
    let number = |place: &str| {
        let choice = format!(">{place}</option>");
        let before = &album[..album.find(&choice).expect("the place can be chosen")];
        // Rows name a place by where it stands among the choices, behind the one for any.
        let choices = before.rsplit("<select").next().expect("a list of choices");
        (choices.matches("<option").count() - 2).to_string()
    };
    let row = |code: &str| {
        let at = album
            .find(&format!(">{code}<"))
            .expect("the plant has a row");
        let start = album[..at].rfind("<tr ").expect("a row begins");
        album[start..at].to_owned()
    };
    let places = row("X22-02-5");
    let places = places
        .split("data-p=\"")
        .nth(1)
        .and_then(|rest| rest.split('"').next());
    let places: Vec<&str> = places.expect("the row has places").split(' ').collect();
    for place in ["shelf 1", "shelf 1, front"] {
        assert!(
            places.contains(&number(place).as_str()),
            "{place}: {places:?}"
        );
    }
    assert!(!places.contains(&number("shelf 2").as_str()), "{places:?}");
}

#[test]
fn the_album_names_every_cross_a_seedling_may_be_of() {
    let top = copied();
    let page = written(&top, "album -o album", "album/plants/x20-01-5.html");
    let said = letters(&page);
    assert!(said.contains("A seedling of X20-01 or X20-02"), "{said}");
}

/// A copy of the demo with a seedling whose recorded father was seen female.
fn against_itself() -> BenchTop {
    copied().file(
        "crosses/Y25-01.ron",
        r#"(code: "Y25-01", parents: known(seed: "X15-02-3", pollen: "Ven1"), confidence: witnessed, seedlings: [(number: "1")])"#,
    )
}

#[test]
fn a_card_says_where_the_record_contradicts_itself() {
    let top = against_itself();
    let words = "The record contradicts itself: the pollen parent Ven1 was seen female.";
    let card = ask(top.path(), "card Y25-01-1");
    let said = card.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains(words), "{card}");
    let page = letters(&written(&top, "card Y25-01-1 -o c.html", "c.html"));
    assert!(page.contains(words), "{page}");
    let sound = demo("card X22-02-5");
    assert!(!sound.stdout.contains("contradicts"), "{sound}");
}

#[test]
fn a_lineage_that_contradicts_itself_is_not_handed_over() {
    let top = against_itself();
    let run = top.run(&["handover", "Y25-01-1", "-o", "handed"]);
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(
        run.stderr
            .contains("the pollen parent Ven1 was seen female"),
        "{run}"
    );
    assert!(!top.path().join("handed").exists());
}

#[test]
fn a_picture_says_which_letters_it_cannot_draw() {
    let top = copied().change(
        "clones.ron",
        "N. ventricosa \\\"red\\\"",
        "N. ventricosa \\\"赤 red\\\"",
    );
    for file in ["p.png", "p.pdf", "p.svg"] {
        let run = top.run(&["pedigree", "Ven1", "-o", file]);
        let words = "lacks 赤: a box stands for each letter; the answer as text shows them";
        assert!(run.stderr.contains(words), "{run}");
    }
    let run = top.run(&["pedigree", "Ven1"]);
    assert!(
        !run.stderr.contains("a box stands") && run.stdout.contains('赤'),
        "{run}"
    );
    let run: Run = demo("pedigree Ven1 -o /dev/null --format png");
    assert!(!run.stderr.contains("a box stands"), "{run}");
}

/// Two crosses of which a seedling may be, stray pollen seen beside one only.
fn of_two_crosses() -> BenchTop {
    BenchTop::with([
        ("registry.ron", include_str!("sound/registry.ron")),
        ("species.ron", include_str!("sound/species.ron")),
        (
            "clones.ron",
            r#"(clones: [(code: "V1", received: "N. ventricosa", confidence: tag), (code: "S1", received: "N. spathulata", confidence: tag), (code: "T1", received: "N. truncata", confidence: tag)])"#,
        ),
        (
            "crosses/Y24-01.ron",
            r#"(code: "Y24-01", parents: known(seed: "V1", pollen: "S1"), confidence: tag,
                pollinations: [(zone: "A", on: ["2022-03"], flowers: 5, set: 5, control_flowers: 4, control_set: 2)],
                pods: [(code: "P1", zone: "A")], seedlings: [(number: "1", pod: "P1"), (number: "2", one_of: ["P1", "Y24-02.P1"])])"#,
        ),
        (
            "crosses/Y24-02.ron",
            r#"(code: "Y24-02", parents: known(seed: "T1", pollen: "V1"), confidence: tag, pods: [(code: "P1")], seedlings: [(number: "1", pod: "P1")])"#,
        ),
    ])
}

#[test]
fn stray_pollen_beside_one_possible_cross_is_not_seen_beside_the_other() {
    let top = of_two_crosses();
    let run = top.run(&["pedigree", "Y24-01-2", "--json"]);
    let drawing: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
    let crosses = drawing["crosses"].as_array().expect("crosses are drawn");
    let doubts: Vec<(&str, bool, bool)> = crosses
        .iter()
        .map(|cross| {
            let is = |field: &str| cross[field].as_bool().expect("a doubt is true or false");
            let code = cross["code"].as_str().expect("a cross has a code");
            (code, is("father_probable"), is("pollen_doubtful"))
        })
        .collect();
    let of_first = doubts.iter().find(|(code, ..)| code.starts_with("Y24-01"));
    let of_second = doubts.iter().find(|(code, ..)| code.starts_with("Y24-02"));
    assert!(of_first.is_some_and(|of| of.1 && of.2), "{doubts:?}");
    assert!(of_second.is_some_and(|of| !of.1 && !of.2), "{doubts:?}");
}

#[test]
fn a_doubt_stays_at_the_parent_that_has_it() {
    for (label, order) in [
        ("N. lowii (?) x N. veitchii", "N. lowii (?) × N. veitchii"),
        ("N. veitchii x N. lowii (?)", "(N. lowii × N. veitchii) (?)"),
        ("N. veitchii x (N. lowii?)", "N. lowii (?) × N. veitchii"),
        (
            "(N. lowii x N. veitchii) (?)",
            "(N. lowii × N. veitchii) (?)",
        ),
        (
            "(N. lowii x N. truncata)? x N. veitchii",
            "(N. lowii × N. truncata) (?) × N. veitchii",
        ),
        (
            "(N. lowii (?) x N. veitchii) x N. veitchii",
            "N. veitchii × (N. lowii (?) × N. veitchii)",
        ),
    ] {
        let top = BenchTop::empty();
        let run = top.run(&["read", label]);
        let words = format!("botanical order     {order}\n");
        assert!(run.stdout.contains(&words), "{label}\n{run}");
    }
}

#[test]
fn words_of_a_cross_are_understood_at_first_hearing() {
    let run = demo("pedigree Jac1 --down");
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    let words = "with ♂ mixed pollen of Ham1 and N. talangensis:";
    assert!(said.contains(words), "{run}");
    let top = copied();
    let drawn = letters(&written(&top, "pedigree X20-01-5 -o p.svg", "p.svg"));
    let words = "Expected: no share is common to all its possible parents";
    assert!(drawn.contains(words), "{drawn}");
    assert!(Path::new(&top.path().join("p.svg")).exists());
}
