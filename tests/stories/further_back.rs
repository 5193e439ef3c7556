//! Doubts about a plant's ancestors stay with its descendants: in shares, in the chance of two different copies, in names.
//!
//! ```text
//! Max1 × (Ven1 3 : Lab1 1) ── X20-01     Max1 × (Ven1 or Lab1) ── X20-02     Max1 × (Ven1 or Ven2) ── X20-03
//! X20-01-1 × Ven1 ── X22-01              X20-02-1 × Ven1 ── X22-02           X20-03-1 × Ven1 ── X22-04
//! X20-01-1 × X20-02-1 ── X22-03          X22-01-1 × Max1 ── X24-02
//! ```
//! Lab1 is lowii × ventricosa, Ali1 a hybrid by its name alone, Cf1 provisional, Max2 claimed.

use crate::story::Story;
use serde_json::Value;

fn asked(words: &str) -> Value {
    let told = Story::named("further_back").ask(&format!("{words} --json"));
    let found: Value = serde_json::from_str(&told).unwrap_or_else(|_| panic!("JSON: {told}"));
    found.get(0).unwrap_or(&found).clone()
}

fn parentage(code: &str) -> Value {
    asked(&format!("parentage {code}"))
}

/// Shares in order, such as `ventricosa 23/32`.
fn shares(of: &Value) -> Vec<String> {
    let rows = of["parentage"].as_array().expect("shares").iter();
    let text = |row: &Value, field: &str| row[field].as_str().expect("a text").to_owned();
    rows.map(|row| format!("{} {}", text(row, "of"), text(row, "share")))
        .collect()
}

/// The cases listed, each with its chance and shares.
fn cases(of: &Value) -> Vec<String> {
    let rows = of["possibilities"]
        .as_array()
        .expect("possibilities")
        .iter();
    let case = |row: &Value| {
        let parents = row["parents"].as_str().expect("a text");
        format!("{parents} ({}): {}", row["chance"], shares(row).join(", "))
    };
    rows.map(case).collect()
}

/// How many shares have a give or take.
fn given(of: &Value) -> usize {
    let rows = of["parentage"].as_array().expect("shares").iter();
    rows.filter(|row| !row["spread_within_pod"].is_null())
        .count()
}

fn two_copies(of: &Value) -> (f64, f64, bool) {
    let of = &of["heterozygosity"];
    let figure = |field: &str| of[field].as_f64().expect("a number");
    let is_a_mean = of["is_a_mean"].as_bool().expect("yes or no");
    (figure("at_least"), figure("at_most"), is_a_mean)
}

fn cautions(of: &Value) -> String {
    let all = of["cautions"].as_array().expect("cautions").iter();
    let texts = all.map(|text| text.as_str().expect("a text").to_owned());
    texts.collect::<Vec<_>>().join("\n")
}

const FURTHER_BACK: &str = "a plant further back has one of several pairs as parents";

/// Ventricosa 3/4 and two different copies 1/2 (3 in 4), or ventricosa 5/8, lowii 1/8 and 3/4 (1 in 4).
#[test]
fn a_mean_over_possible_grandparents_is_called_so() {
    let told = parentage("X22-01");
    assert_eq!(
        shares(&told),
        ["ventricosa 23/32", "maxima 1/4", "lowii 1/32"]
    );
    assert_eq!(told["parentage_is"], "expected");
    assert_eq!(given(&told), 0, "no range around a mean of cases: {told}");
    assert_eq!(two_copies(&told), (0.5625, 0.5625, true));
    assert_eq!(told["kind"], "open: part of the parentage is not known");
    assert!(cautions(&told).contains(FURTHER_BACK), "{told}");
    assert_eq!(
        cases(&told),
        [
            "X20-01-1 of Max1 × Ven1 (0.75): ventricosa 3/4, maxima 1/4",
            "X20-01-1 of Max1 × Lab1 (0.25): ventricosa 5/8, maxima 1/4, lowii 1/8",
        ]
    );
    let screen = Story::named("further_back").ask("parentage X22-01");
    assert!(
        screen.contains("mean over these, expected share of"),
        "{screen}"
    );
    assert!(
        screen.contains("56.2 % on average over the possible parents"),
        "{screen}"
    );
    // One generation on, and for a pollination that is only intended.
    assert_eq!(parentage("X24-02")["parentage_is"], "expected");
    let pair = asked("pair X22-01-1 Ven1");
    assert_eq!(pair["parentage_is"], "expected", "{pair}");
    assert_eq!(pair["heterozygosity_is_a_mean"], true, "{pair}");
    let screen = Story::named("further_back").ask("pair X22-01-1 Ven1");
    assert!(
        screen.contains("mean over the possible parents further back: ventricosa"),
        "{screen}"
    );
}

/// Ventricosa 3/4, or 5/8 with lowii 1/8: at least 5/8, and 1/8 of one or the other.
#[test]
fn a_minimum_over_possible_grandparents_is_called_so() {
    let told = parentage("X22-02");
    let expected = ["ventricosa 5/8", "maxima 1/4", "lowii or ventricosa 1/8"];
    assert_eq!(shares(&told), expected);
    assert_eq!(told["parentage_is"], "at_least");
    assert_eq!(given(&told), 0);
    assert!(cautions(&told).contains(FURTHER_BACK), "{told}");
    let screen = Story::named("further_back").ask("parentage X22-02");
    assert!(screen.contains("whichever it is, at least"), "{screen}");
    // Two fathers with stated chances and two without: four cases, none with a chance of its own.
    let told = parentage("X22-03");
    assert_eq!(told["parentage_is"], "expected_at_least");
    let ways = cases(&told);
    assert_eq!(ways.len(), 4, "{ways:?}");
    let last = "X20-01-1 of Max1 × Lab1; X20-02-1 of Max1 × Lab1 (null): maxima 1/2, lowii 1/4, ventricosa 1/4";
    assert_eq!(ways[3], last);
}

/// Whichever ventricosa was the father, the shares and their give or take are the same.
#[test]
fn grandparents_that_make_no_difference_leave_shares_certain() {
    let told = parentage("X22-04");
    assert_eq!(shares(&told), ["ventricosa 3/4", "maxima 1/4"]);
    assert_eq!(told["parentage_is"], "as_recorded");
    assert!(cases(&told).is_empty(), "{told}");
    assert_eq!(given(&told), 2);
    assert!(!cautions(&told).contains(FURTHER_BACK), "{told}");
}

#[test]
fn a_hybrid_by_its_name_alone_leaves_no_sure_shares_behind_it() {
    let told = parentage("X20-04");
    assert_eq!(
        shares(&told),
        ["ventricosa 1/2", "burbidgeae 1/4", "rajah 1/4"]
    );
    assert_eq!(told["parentage_is"], "by_name");
    assert_eq!(given(&told), 0);
    assert!(
        cautions(&told).contains("known by a hybrid name alone"),
        "{told}"
    );
    // It has no ventricosa, if the name is right.
    assert_eq!(two_copies(&told), (1.0, 1.0, false));
    let pair = asked("pair Ali1 Ven1");
    assert_eq!(pair["parentage_is"], "by_name", "{pair}");
}

#[test]
fn a_provisional_name_is_no_different_species_for_certain() {
    let told = parentage("X20-05");
    assert_eq!(shares(&told), ["cf. maxima 1/2", "maxima 1/2"]);
    assert_eq!(two_copies(&told), (0.0, 1.0, false));
    assert_eq!(told["kind"], "open: a name in the parentage is provisional");
    assert!(
        cautions(&told).contains("may turn out to be any species"),
        "{told}"
    );
    let pair = asked("pair Max1 Cf1");
    assert_eq!(pair["heterozygosity"], serde_json::json!([0.0, 1.0]));
    let screen = Story::named("further_back").ask("pair Max1 Cf1");
    assert!(screen.contains("0.0 % to 100.0 %"), "{screen}");
    assert!(
        screen.contains("none known; part of the descent is not known"),
        "{screen}"
    );
}

/// The fractions of Max2 hold if its name is right, and so do those of its seedlings; there are no parents to doubt.
#[test]
fn a_claimed_founder_is_a_doubt_of_its_name_and_of_its_seedlings() {
    const PARENTS: &str = "the fractions hold only if the recorded parents are the true ones";
    const NAMES: &str = "the fractions hold only if every founder is what its name says";
    for code in ["Max2", "X20-06-1"] {
        let told = cautions(&parentage(code));
        assert!(
            told.contains(NAMES) && !told.contains(PARENTS),
            "{code}: {told}"
        );
    }
    for code in ["Max1", "X20-07-1", "Cf1", "Ali1"] {
        let told = cautions(&parentage(code));
        assert!(
            !told.contains("the fractions hold only if"),
            "{code}: {told}"
        );
    }
    let told = cautions(&parentage("X22-01-1"));
    assert!(told.contains(PARENTS) && !told.contains(NAMES), "{told}");
}

/// Of lowii × ventricosa there is no record, whoever published 'Red Lantern'.
#[test]
fn a_cross_without_a_record_was_witnessed_by_no_one() {
    const THROUGHOUT: &str = "every cross further back witnessed too";
    for (code, throughout) in [("X24-01-1", true), ("X22-05-1", false), ("X24-02-1", false)] {
        let told = asked(&format!("name {code}"))["evidence"].to_string();
        assert_eq!(told.contains(THROUGHOUT), throughout, "{told}");
    }
}

#[test]
fn an_epithet_that_is_not_published_names_no_descendant() {
    let story = Story::named("further_back");
    let told = story.ask("name X22-05-1");
    assert!(!told.contains("Wet Tuesday"), "{told}");
    let told = story.ask("name X22-06-1");
    assert!(told.contains("'Wet Monday'"), "{told}");
}

/// X20-07 and X20-08 are two crosses of maxima and ventricosa; their seedlings made X22-07, and that made X24-01.
#[test]
fn parents_of_one_formula_are_named_where_they_stand_and_by_the_record() {
    let note = |code: &str| {
        let told = asked(&format!("name {code}"));
        let notes = told["notes"].as_array().expect("notes").iter();
        let mut notes = notes.filter(|note| note["code"] == "same-cross-both-sides");
        let text = notes.next().expect("the note")["text"].as_str();
        assert!(notes.next().is_none(), "{told}");
        text.expect("a text").to_owned()
    };
    assert_eq!(
        note("X22-07"),
        "both parents are of the same formula, but not recorded as full siblings, so their offspring is not called F2"
    );
    assert_eq!(
        note("X24-01"),
        "further back, both parents of a cross are of the same formula, but not recorded as full siblings, so their offspring is not called F2"
    );
    let told = Story::named("further_back").ask_words(&[
        "read",
        "((maxima x lowii) x (lowii x maxima)) x (maxima x lowii)",
    ]);
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        told.contains("further back, both parents of a cross are of the same formula, different parents; F2 only if"),
        "{told}"
    );
}

/// The words that `parentage` has for shares which are not those of one plant stand in every other answer with shares.
#[test]
fn shares_of_descendants_are_called_what_they_are_everywhere() {
    let story = Story::named("further_back");
    for (code, words, note) in [
        (
            "X22-01-1",
            "mean 23/32 ventricosa",
            "Means over possible parents, expected of no single seedling: the shares of X20-01-1 and X22-01-1.",
        ),
        (
            "X22-02-1",
            "at least ⅝ ventricosa",
            "Each share of X20-02-1 and X22-02-1 is the least that all possible parents give.",
        ),
        (
            "X20-04-1",
            "if the name is right ½ ventricosa",
            "Only if a hybrid name is right: the shares of Ali1 and X20-04-1.",
        ),
    ] {
        let told = story.ask(&format!("pedigree {code}"));
        let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.contains(words) && told.contains(note), "{told}");
        let picture = story.ask(&format!("pedigree {code} --format svg"));
        let expected = format!("Expected: {}", words.split(' ').next().expect("a word"));
        assert!(picture.contains(&expected), "{expected}: {picture}");
        let chart = story.ask(&format!("parentage {code} --format svg"));
        let kind = words.rsplitn(3, ' ').last().expect("words");
        assert!(chart.contains(&format!("({kind})")), "{kind}: {chart}");
    }
    let told = asked("pedigree X22-01-1");
    let plants = told["plants"].as_array().expect("plants").iter();
    let of = |code: &str| plants.clone().find(|plant| plant["code"] == code);
    let is = |code: &str| of(code).expect("a plant")["parentage_is"].clone();
    assert_eq!(is("X22-01-1"), "expected", "{told}");
    assert_eq!(is("Max1"), "as_recorded", "{told}");
    let told = story.ask("pedigree X22-04-1");
    assert!(!told.contains("mean ¾ ventricosa"), "{told}");
}

/// Cf1 may be no other species than Max1, and Ali1 may be nearly pure of either of its species.
#[test]
fn names_that_may_be_wrong_are_named_where_a_spread_goes_by_them() {
    const CF: &str = "the name of Cf1 is provisional: ";
    const ALI: &str = "Ali1 is known by a hybrid name alone: ";
    const SPREAD: &str = "if such a name is wrong, seedlings may vary more or less than expected";
    let traits = "(genus: \"Nepenthes\", hemisphere: north, traits: [(code: \"span\", name: \"leaf span\", reads: length(cm))])";
    let story = Story::named("further_back").file("registry.ron", traits);
    let full = |question: &str| {
        let told = story.ask(question);
        told.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    for (question, names) in [("siblings X20-05", CF), ("siblings X20-04", ALI)] {
        let told = full(question);
        let words = format!("{names}the formula holds only if each such name is right");
        assert!(told.contains(&words), "{told}");
    }
    let told = full("variation X20-05 X20-04");
    let both = "the name of Cf1 is provisional; Ali1 is known by a hybrid name alone: ";
    assert!(told.contains(&format!("{both}{SPREAD}")), "{told}");
    assert!(full("pair Max1 Cf1").contains(&format!("{CF}{SPREAD}")));
    for question in [
        "siblings X20-07",
        "variation X20-07 X20-08",
        "pair Max1 Ven1",
    ] {
        let told = full(question);
        assert!(!told.contains("such name"), "{question}: {told}");
    }
}

#[test]
fn the_spread_within_a_pod_is_called_that() {
    let told = Story::named("further_back").ask("parentage X22-07");
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        told.contains("around the mean of the pod, which itself strays"),
        "{told}"
    );
}
