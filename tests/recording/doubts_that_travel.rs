//! A doubt that only records have which stay at home goes along with a lineage: the folder and the buyer say what the grower's
//! own registry says.

use crate::played::said;
use crate::taking_in::{Pages, empty, handed, sources, take_in};
use podbook::recording::handover::Keep;
use podbook::registry::build;
use std::fs;
use tempfile::TempDir;

const TODAY: &str = "2025-06-01";

/// The registry of a grower with these crosses of some founders; X20-01-1 is handed over.
fn home(crosses: &[(&str, &str)]) -> Pages {
    let founder = |(code, name): (&str, &str)| {
        let flowers = match code {
            "Ven1" => ", flowerings: [(code: \"20a\", opened: \"2020-03-20\", sex: female)]",
            _ => "",
        };
        format!("(code: \"{code}\", received: \"N. {name}\", confidence: tag{flowers})")
    };
    let founders = [
        ("Ven1", "ventricosa"),
        ("Spa1", "spathulata"),
        ("Tru1", "truncata"),
    ];
    let settings = "(genus: \"Nepenthes\", hemisphere: north, registry: \"tent\", format: 2)";
    let names = founders.map(|(_, name)| format!("(epithet: \"{name}\")"));
    let mut pages = Pages::new();
    let mut add = |path: &str, text: String| pages.insert(path.to_owned(), text);
    add("registry.ron", settings.to_owned());
    add("species.ron", format!("(species: [{}])", names.join(", ")));
    let founders = founders.map(founder).join(", ");
    add("clones.ron", format!("(clones: [{founders}])"));
    for (code, fields) in crosses {
        add(
            &format!("crosses/{code}.ron"),
            format!("(code: \"{code}\", confidence: witnessed, {fields})"),
        );
    }
    pages
}

/// Pages in a folder of their own.
fn folder(pages: &Pages) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("crosses")).unwrap();
    for (path, text) in pages {
        fs::write(folder.path().join(path), text).unwrap();
    }
    folder
}

/// What is answered at home, in the folder that is handed over and in the registry it is taken into.
fn everywhere(pages: &Pages, question: &str) -> [String; 3] {
    let home = sources(pages);
    let (registry, findings) = build(&home);
    assert!(findings.is_empty(), "{findings:?}");
    let lineage = handed(&registry, "X20-01-1");
    let mut bought = empty();
    take_in(&mut bought, &lineage, "X20-01-1", Keep::Neither).expect("a lineage");
    [pages, &lineage, &bought].map(|pages| said(folder(pages).path(), question, TODAY))
}

/// Holds all three answers against words, or behind `not: ` against words they must not have.
fn say(pages: &Pages, question: &str, words: &[&str]) {
    for answer in everywhere(pages, question) {
        for wanted in words {
            match wanted.strip_prefix("not: ") {
                Some(unwanted) => assert!(!answer.contains(unwanted), "{unwanted}\n{answer}"),
                None => assert!(answer.contains(wanted), "{wanted}\n{answer}"),
            }
        }
    }
}

const OF_VEN1: &str = "parents: known(seed: \"Ven1\", pollen: \"Spa1\")";

/// Two seedlings of one pod, the second mixed up with the first: as the second's record has it, and the first's.
fn siblings(first: &str, second: &str, second_sex: &str) -> Pages {
    let fields = format!(
        "{OF_VEN1}, pods: [(code: \"P1\")], seedlings: [\
         (number: \"1\", pod: \"P1\", flowerings: [(opened: \"2022-03-25\", sex: male)]{first}), \
         (number: \"2\", pod: \"P1\"{second_sex}{second})]"
    );
    home(&[("X20-01", &fields)])
}

const WITH_SECOND: &str = ", muddled: [(on: \"2024-06-01\", with: [\"X20-01-2\"])]";
const WITH_FIRST: &str = ", muddled: [(on: \"2024-06-01\", with: [\"X20-01-1\"])]";

/// The sibling stays at home, and what it showed with it.
#[test]
fn a_sex_in_doubt_stays_in_doubt() {
    let sexes = [", flowerings: [(opened: \"2023-04-01\", sex: female)]", ""];
    for sex in sexes {
        let pages = siblings(WITH_SECOND, WITH_FIRST, sex);
        let words = "sex female or male: mixed up with X20-01-2 since 2024-06-01";
        for question in ["card X20-01-1", "show X20-01-1"] {
            say(&pages, question, &[words]);
        }
        say(&pages, "list", &["X20-01-1 female or"]);
        let tag = "tags X20-01-1 --format json";
        say(&pages, tag, &["\"sex\": null", "not: male"]);
    }
}

/// What a pot shows now says nothing of which plant it was where it is not known what the other had shown.
#[test]
fn a_plant_that_stays_is_not_told_apart() {
    let pages = siblings(WITH_SECOND, WITH_FIRST, "");
    let answers = everywhere(&pages, "flower X20-01-1 --sex male --opened 2025-05-01");
    for answer in answers {
        assert!(!answer.contains("so the pot"), "{answer}");
    }
}

/// The record of the plant that is handed over is silent, that of the other is not.
#[test]
fn a_mix_up_on_the_record_of_a_plant_that_stays_goes_along() {
    let pages = siblings("", WITH_FIRST, "");
    let words = "sex female or male: mixed up with X20-01-2 since 2024-06-01";
    say(&pages, "card X20-01-1", &[words, "noticed on 2024-06-01"]);
    let settled = WITH_FIRST.replace("])]", "], settled: \"2024-09-01\")]");
    let pages = siblings("", &settled, "");
    say(&pages, "show X20-01-1 --full", &["mixed up", "2024-09-01"]);
}

/// A zone of the plant that is handed over and one of another cross of the same seed parent.
fn two_crosses(first: &str, second: &str) -> Pages {
    let fields = |pollen: &str, zone: &str| {
        format!(
            "parents: known(seed: \"Ven1\", pollen: \"{pollen}\"), pollinations: [({zone}, flowers: 10, set: 5)], \
             seedlings: [(number: \"1\")]"
        )
    };
    let [first, second] = [("Spa1", first), ("Tru1", second)].map(|(of, zone)| fields(of, zone));
    home(&[("X20-01", &first), ("X20-05", &second)])
}

/// The other zone stays at home; that it may be the same flowers leaves the father probable, and the seed parent witnessed.
#[test]
fn a_thread_of_two_crosses_leaves_the_father_probable() {
    let pages = two_crosses(
        "zone: \"red\", on: [\"2020-04-05\"]",
        "zone: \"red\", on: [\"2020-04-08\"]",
    );
    let name = "N. ventricosa × N. spathulata (seed parent first) (father probable)";
    let evidence = "seed parent witnessed; father probable: X20-05.red may be the same flowers, dusted with other pollen";
    say(
        &pages,
        "name X20-01-1",
        &[name, evidence, "not: one of several"],
    );
}

/// The buyer has another cross of that code.
#[test]
fn the_other_cross_of_a_thread_is_not_one_of_the_buyers() {
    let pages = two_crosses(
        "zone: \"red\", on: [\"2020-04-05\"]",
        "zone: \"red\", on: [\"2020-04-08\"]",
    );
    let home = sources(&pages);
    let lineage = handed(&build(&home).0, "X20-01-1");
    let mut bought = empty();
    let own = "(code: \"X20-05\", parents: label_only(\"N. lowii x N. maxima\"))";
    bought.insert("crosses/X20-05.ron".to_owned(), own.to_owned());
    take_in(&mut bought, &lineage, "X20-01-1", Keep::Neither).expect("a lineage");
    let answer = said(folder(&bought).path(), "name X20-01-1", TODAY);
    assert!(
        answer.contains("tent-X20-05.red may be the same flowers"),
        "{answer}"
    );
    take_in(&mut bought, &lineage, "X20-01-1", Keep::Neither).expect("the same again");
}

/// What is said beside the number of controls on other pages goes along with it.
#[test]
fn what_controls_elsewhere_leave_open_stays_open() {
    let controls = ", on: [\"2020-04-08\"], control_flowers: 5, control_set: 0";
    let own = "zone: \"A\", plant: \"Ven1\", spike: \"20a\", on: [\"2020-04-05\"]";
    let none = "none of 5 control flowers set, so stray pollen may have set as many as 43 % of flowers (95 % limit)";
    let other = format!("zone: \"B\", plant: \"Ven1\", spike: \"20a\", covered: true{controls}");
    let covered = format!("{none} (they were covered; that its flowers were is not on record)");
    say(&two_crosses(own, &other), "name X20-01-1", &[&covered]);
    let other = format!("zone: \"B\", plant: \"Ven1\"{controls}");
    let by_days = format!("{none} (no spike named: the same plant in the same days)");
    say(&two_crosses(own, &other), "name X20-01-1", &[&by_days]);
    let other = format!("zone: \"B\", plant: \"Ven1\", spike: \"20a\"{controls}");
    say(
        &two_crosses(own, &other),
        "name X20-01-1",
        &[none, "not: (95 %) ("],
    );
}

/// A mix-up and a thread of two pages that both come along are written once, on the record that has them at home.
#[test]
fn what_comes_along_on_its_own_record_is_not_written_again() {
    let both = |seed: &str, pollen: &str| {
        format!(
            "parents: known(seed: \"{seed}\", pollen: \"{pollen}\"), seedlings: [(number: \"1\")]"
        )
    };
    let mut mixed = siblings("", WITH_FIRST, "");
    let zone = "zone: \"red\", on: [\"2020-04-05\"]";
    let mut thread = two_crosses(zone, &zone.replace("04-05", "04-08"));
    for (pages, parents, field, times) in [
        (&mut mixed, both("X20-01-2", "X20-01-1"), "muddled", 1),
        (&mut thread, both("X20-01-1", "X20-05-1"), "same_flowers", 0),
    ] {
        let page = format!("(code: \"X24-01\", confidence: witnessed, {parents})");
        pages.insert("crosses/X24-01.ron".to_owned(), page);
        let home = sources(pages);
        let (registry, findings) = build(&home);
        assert!(findings.is_empty(), "{findings:?}");
        let handed: String = handed(&registry, "X24-01-1").into_values().collect();
        assert_eq!(handed.matches(field).count(), times, "{handed}");
    }
}

/// Two growers may each have a packet 1. Plants of one of them with the same words stay siblings, as at home.
#[test]
fn a_batch_is_of_one_grower() {
    let fields = format!("{OF_VEN1}, seedlings: [(number: \"1\")]");
    let mut pages = home(&[("X20-01", &fields)]);
    let clones =
        pages["clones.ron"].replace("confidence: tag", "confidence: tag, batch: \"packet 1\"");
    pages.insert("clones.ron".to_owned(), clones);
    say(&pages, "kinship Ven1 Spa1", &["0.25"]);
    let home = sources(&pages);
    let lineage = handed(&build(&home).0, "X20-01-1");
    let mut bought = empty();
    let own = "(clones: [(code: \"Max9\", received: \"N. maxima\", batch: \"packet 1\")])";
    bought.insert("clones.ron".to_owned(), own.to_owned());
    take_in(&mut bought, &lineage, "X20-01-1", Keep::Neither).expect("a lineage");
    let answer = said(folder(&bought).path(), "kinship Max9 Spa1", TODAY);
    assert!(
        !answer.contains("0.25") && !answer.contains("batch"),
        "{answer}"
    );
}
