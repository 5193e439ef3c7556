//! Names as received, opinions on them, doubts of names, and names as text for a tag.

use crate::bench_top::BenchTop;
use crate::demo::demo;

/// One line, so that folding does not matter.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn with_opinion(opinion: &str) -> BenchTop {
    let founder = format!(
        "clones: [(code: \"Odd\", received: \"N. spathulata\", confidence: tag, {opinion}),"
    );
    BenchTop::sound().change("clones.ron", "clones: [", &founder)
}

const BY_VISITOR: &str = "identified: [(on: \"2020-05\", name: \"N. truncata\", by: \"a visiting grower\", confidence: claim)]";
const ACCEPTED: &str = "identified: [(on: \"2020-05\", name: \"N. truncata\", by: \"me\", confidence: claim, accepted: true, note: \"by the lid\")]";

#[test]
fn a_visitors_word_is_shown_and_not_obeyed() {
    let top = with_opinion(BY_VISITOR);
    let name = top.run(&["name", "Odd"]).stdout;
    assert!(name.starts_with("Odd: N. spathulata\n"), "{name}");
    let shown = flat(&top.run(&["show", "Odd"]).stdout);
    assert!(
        shown.contains("\"N. truncata\" by a visiting grower in 2020-05")
            && shown.contains("an opinion, not accepted"),
        "{shown}"
    );
}

#[test]
fn an_accepted_opinion_is_shown_and_the_received_name_stays() {
    let top = with_opinion(ACCEPTED);
    let name = top.run(&["name", "Odd"]).stdout;
    assert!(
        name.starts_with("Odd: N. truncata (received as \"N. spathulata\")\n"),
        "{name}"
    );
    let shown = flat(&top.run(&["show", "Odd"]).stdout);
    assert!(
        shown.contains("(by the lid); accepted, the name shown"),
        "{shown}"
    );
    let back = with_opinion(&format!("{ACCEPTED}, name_as: received"));
    let name = back.run(&["name", "Odd"]).stdout;
    assert!(name.starts_with("Odd: N. spathulata\n"), "{name}");
    let shown = flat(&back.run(&["show", "Odd"]).stdout);
    assert!(shown.contains("shown as received"), "{shown}");
}

#[test]
fn the_starter_list_doubts_without_a_registry() {
    let without = BenchTop::empty().run(&["read", "N. alata"]);
    assert!(without.stdout.contains("graciliflora"), "{without}");
}

#[test]
fn ascii_is_ascii_throughout() {
    let top = BenchTop::sound().change(
        "clones.ron",
        "clones: [",
        "clones: [(code: \"Odd\", received: \"N. spathulata × “Süß ½”\", nickname: \"Trübe Tasse ♀\", confidence: tag),",
    );
    for extra in [&[][..], &["--fit", "60"], &["--sexes"], &["--json"]] {
        let mut question = vec!["name", "Odd", "X22-02", "--style", "ascii"];
        question.extend(extra);
        let told = top.run(&question).stdout;
        assert!(told.is_ascii(), "{told}");
        assert!(
            told.contains("Trube Tasse (f)") || extra.contains(&"--fit"),
            "{told}"
        );
    }
}

#[test]
fn the_name_alone_is_one_line() {
    let told = demo("name X22-02-5 --plain").stdout;
    assert_eq!(told.lines().count(), 1, "{told}");
    assert!(
        told.starts_with('N') || told.starts_with(['♀', '(']),
        "{told}"
    );
    let tag = demo("name X22-02-5 --fit 60 --plain").stdout;
    assert_eq!(tag.lines().count(), 1);
    assert!(tag.trim_end().chars().count() <= 60);
}

#[test]
fn code_and_short_name_stand_together_on_a_tag() {
    for most in ["8", "20", "45", "60", "90"] {
        let told = demo(&format!("name X22-02-5 --fit {most} --with-code --plain")).stdout;
        let tag = told.trim_end();
        assert!(tag.starts_with("X22-02-5"), "{tag}");
        assert!(tag.chars().count() <= most.parse().unwrap(), "{tag}");
    }
    let told = demo("name X22-02-5 --fit 90 --with-code --plain").stdout;
    assert!(told.len() > 20, "{told}");
}

#[test]
fn a_plants_own_epithet_is_no_clash_and_a_checked_one_is() {
    let own = "cultivar: (epithet: \"Wet Tuesday\"), confidence: tag";
    let top = BenchTop::sound()
        .change(
            "clones.ron",
            "clones: [",
            &format!("clones: [(code: \"Odd\", received: \"N. spathulata\", {own}),"),
        )
        .change(
            "species.ron",
            "codes: [",
            "epithets: [(epithet: \"Red Lantern\", source: \"a journal\", formula: \"ventricosa x truncata\")],\n    codes: [",
        );
    let told = top.run(&["epithet", "'Wet Tuesday'", "--for", "Odd"]);
    assert!(
        told.stdout
            .contains("can be used, as far as these rules go"),
        "{told}"
    );
    let told = top.run(&["epithet", "'Wet Tuesday'"]);
    assert!(
        told.stdout.contains("cannot be used as a cultivar epithet"),
        "{told}"
    );
    let told = top.run(&["epithet", "'Red Lantern'"]);
    assert!(
        told.stdout.contains("cannot be used as a cultivar epithet"),
        "{told}"
    );
    let told = top.run(&["read", "N. 'Red Lantern'"]);
    assert!(
        told.stdout
            .starts_with("N. 'Red Lantern' (N. ventricosa × N. truncata, direction unknown)"),
        "{told}"
    );
    assert!(!told.stdout.contains("quoted-not-verified"), "{told}");
}

#[test]
fn a_tag_with_double_quotes_is_quoted_as_it_stands() {
    let founder =
        format!("clones: [(code: \"Odd\", received: \"N. spathulata \\\"red\\\"\", {ACCEPTED}),");
    let top = BenchTop::sound().change("clones.ron", "clones: [", &founder);
    let name = top.run(&["name", "Odd"]).stdout;
    assert!(
        name.starts_with("Odd: N. truncata (received as N. spathulata \"red\")\n"),
        "{name}"
    );
}

/// What a packet says of its parents is in the name of its seed, as it is in that of a plant.
#[test]
fn selfs_and_sibs_on_a_packet_stay_in_the_name() {
    let top = BenchTop::empty();
    let new = top.run(&["new", "."]);
    assert_eq!(new.exit, Some(0), "{new}");
    let cases = [
        ("N. maxima x self", "(N. maxima (self reported)) (claimed)"),
        ("N. maxima sib cross", "(N. maxima sib cross) (claimed)"),
        ("(maxima x veitchii) F2", "F2) (claimed)"),
        ("maxima x veitchii", "N. maxima × N. veitchii) (claimed)"),
    ];
    for (at, (label, name)) in (1..).zip(cases) {
        let added = top.run(&["add-seed", label, "--on", "2024-01-01"]);
        assert_eq!(added.exit, Some(0), "{added}");
        let words = top.run(&["name", &format!("X24-0{at}")]).stdout;
        let words = words.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(words.contains(name), "{label}: {words}");
    }
}

/// A packet without a seed is none.
#[test]
fn no_seed_is_refused() {
    let top = BenchTop::empty();
    let new = top.run(&["new", "."]);
    assert_eq!(new.exit, Some(0), "{new}");
    let run = top.run(&["add-seed", "N. maxima", "--seeds", "0"]);
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(
        run.stderr.contains(
            "--seeds needs at least one seed; leave it out where they were not counted; found `0`"
        ),
        "{run}"
    );
}
