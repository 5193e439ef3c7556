//! Mix-ups as growers write them by hand, without the pods that each may be of, or before a plant was used: what the evidence
//! says of plants, pots and their descendants.

use podbook::check;
use podbook::context::Context;
use podbook::evidence::{Evidence, Unit};
use podbook::record::Day;
use podbook::registry::{Registry, build};
use podbook::text::Sources;

fn today() -> Day {
    Day::new(2030, 1, 1).expect("a day")
}

const PARENTS_OF_C: &str = "known(seed: \"Low1\", pollen: \"A-1\")";
const OF_C: &str =
    "pollinations: [(zone: \"a\", on: [\"2022-04-05\"])], seedlings: [(number: \"1\")]";

/// Crosses A (Ven1 × Spa1), B (Low1 × Tru1) and C (Low1 × A-1, dusted on 2022-04-05), with these parts of A and B.
fn of<T>(of_a: &str, of_b: &str, ask: impl Fn(&Registry, &Evidence) -> T) -> T {
    of_three([of_a, of_b, OF_C], PARENTS_OF_C, ask)
}

/// The same with these parts of C, and its parents.
fn of_three<T>(
    [of_a, of_b, of_c]: [&str; 3],
    parents_of_c: &str,
    ask: impl Fn(&Registry, &Evidence) -> T,
) -> T {
    let mut sources = Sources::new();
    sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
    sources.add(
        "species.ron",
        "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\"), (epithet: \"lowii\"), (epithet: \"truncata\")])",
    );
    let founder = |code: &str, name: &str| {
        format!("(code: \"{code}\", received: \"N. {name}\", confidence: tag)")
    };
    let founders = [
        founder("Ven1", "ventricosa"),
        founder("Spa1", "spathulata"),
        founder("Low1", "lowii"),
        founder("Tru1", "truncata"),
    ];
    sources.add("clones.ron", format!("(clones: [{}])", founders.join(", ")));
    let page = |code: &str, parents: &str, parts: &str| {
        let pods = match parts.contains("pods:") {
            true => "",
            false => "pods: [(code: \"P1\")], ",
        };
        format!("(code: \"{code}\", parents: {parents}, confidence: witnessed, {pods}{parts})")
    };
    sources.add(
        "crosses/A.ron",
        page("A", "known(seed: \"Ven1\", pollen: \"Spa1\")", of_a),
    );
    sources.add(
        "crosses/B.ron",
        page("B", "known(seed: \"Low1\", pollen: \"Tru1\")", of_b),
    );
    sources.add("crosses/C.ron", page("C", parents_of_c, of_c));
    let (registry, _) = build(&sources);
    let context = Context::of(&registry, today());
    ask(&registry, context.evidence())
}

fn sentence(registry: &Registry, evidence: &Evidence, code: &str) -> String {
    let unit = Unit::of(registry.target(code).expect("a code"));
    evidence.sentence(unit.expect("a unit"))
}

fn sentences(of_a: &str, of_b: &str, codes: &[&str]) -> Vec<String> {
    of(of_a, of_b, |registry, evidence| {
        let said = codes.iter().map(|code| sentence(registry, evidence, code));
        said.collect()
    })
}

/// The sentence of C-1 where A-1 was mixed up with these, with these parts and parents of C.
fn of_c(with: &str, parents: &str, parts: &str) -> String {
    let of_a = WITH_B.replace("\"B-1\"", with);
    of_three([&of_a, PLAIN, parts], parents, |registry, evidence| {
        sentence(registry, evidence, "C-1")
    })
}

fn findings(of_a: &str, of_b: &str) -> Vec<String> {
    of(of_a, of_b, |registry, _| {
        let found = check::all(registry, today());
        found
            .iter()
            .map(|of| format!("{}: {}", of.code.0, of.title))
            .collect()
    })
}

const WITH_B: &str = "seedlings: [(number: \"1\", muddled: [(on: \"2021-07-01\", with: [\"B-1\"])]), (number: \"2\")]";
const PLAIN: &str = "seedlings: [(number: \"1\"), (number: \"2\")]";

/// Whichever of the two records says so, neither is surely of its own cross.
#[test]
fn plants_of_two_crosses_without_pods_are_from_one_of_them() {
    let with_a = WITH_B.replace("B-1", "A-1");
    for (of_a, of_b) in [(WITH_B, PLAIN), (PLAIN, with_a.as_str())] {
        let said = sentences(of_a, of_b, &["A-1", "B-1", "A-2", "C-1"]);
        assert!(
            said[0].starts_with(
                "from one of two crosses (mixed up with B-1); A itself witnessed; B itself witnessed; "
            ),
            "{}",
            said[0]
        );
        assert!(
            said[1].starts_with("from one of two crosses (mixed up with A-1); "),
            "{}",
            said[1]
        );
        assert!(
            said[2].starts_with("parents witnessed; founders"),
            "{}",
            said[2]
        );
        assert!(
            said[3]
                .starts_with("parents witnessed; further back, A-1 is from one of two crosses; "),
            "{}",
            said[3]
        );
    }
    let found = findings(WITH_B, &with_a);
    let without = "mix-up-without-pods: A-1 was mixed up with B-1 of another cross, but names no pods that it may be of";
    assert!(found.iter().any(|of| of == without), "{found:?}");
    let settled = with_a.replace("with:", "settled: \"2021-08-01\", with:");
    let found = findings(WITH_B, &settled);
    let open = "mix-up-on-one-side: A-1 is still mixed up with B-1, whose record says that this is settled";
    assert!(found.iter().any(|of| of == open), "{found:?}");
    // Of three one may be known while the other two are not.
    let one_of_three = settled.replace("[\"A-1\"]", "[\"A-1\", \"B-2\"]");
    let found = findings(WITH_B, &one_of_three);
    assert!(!found.iter().any(|of| of == open), "{found:?}");
    // What was settled of another day is another mix-up.
    let found = findings(WITH_B, &settled.replace("2021-07-01", "2021-05-01"));
    let silent = "mix-up-on-one-side: A-1 was mixed up with B-1, whose record does not say so";
    assert!(found.iter().any(|of| of == silent), "{found:?}");
}

/// What was numbered out of a pot after it was mixed up is as unsure as the pot; what had left before is sure.
#[test]
fn pots_of_two_crosses_without_pods_leave_their_seedlings_in_doubt() {
    let seedlings = "seedlings: [(number: \"1\", community_pot: \"T1\", numbered: \"2021-05-01\"), \
         (number: \"2\", community_pot: \"T1\", numbered: \"2021-02-01\")]";
    let of_a = format!(
        "community_pots: [(code: \"T1\", muddled: [(on: \"2021-03-01\", with: [\"B.T1\"])])], {seedlings}"
    );
    let of_b = format!("community_pots: [(code: \"T1\")], {seedlings}");
    let said = sentences(&of_a, &of_b, &["A.T1", "B.T1", "A-1", "B-1", "A-2", "B-2"]);
    for (at, with) in [(0, "B.T1"), (1, "A.T1"), (2, "B.T1"), (3, "A.T1")] {
        let words = format!("from one of two crosses (mixed up with {with}); ");
        assert!(said[at].starts_with(&words), "{}", said[at]);
    }
    for sure in &said[4..] {
        assert!(sure.starts_with("parents witnessed; founders"), "{sure}");
    }
    let found = findings(&of_a, &of_b);
    let silent = "mix-up-on-one-side: A.T1 was mixed up with B.T1, whose record does not say so";
    assert!(found.iter().any(|of| of == silent), "{found:?}");
}

/// A vague mix-up of a pot leads to what its partner was by the day the plant was numbered, and to nothing later.
#[test]
fn what_left_a_pot_leads_to_no_later_mix_up() {
    let of_a = |numbered: &str| {
        format!(
            "community_pots: [(code: \"T1\", muddled: [(on: \"2021\", with: [\"A.T2\"])]), \
             (code: \"T2\", muddled: [(on: \"2021-08-15\", with: [\"B.T1\"])])], \
             seedlings: [(number: \"1\", community_pot: \"T1\", numbered: \"{numbered}\")]"
        )
    };
    let of_b = "community_pots: [(code: \"T1\")]";
    for (numbered, is_sure) in [("2021-03-01", true), ("2021-09-01", false), ("2021", false)] {
        let said = sentences(&of_a(numbered), of_b, &["A-1"]).remove(0);
        let starts = "from one of two crosses (mixed up with B.T1); ";
        assert_eq!(!said.starts_with(starts), is_sure, "{numbered}: {said}");
        assert_eq!(said.starts_with("parents witnessed; "), is_sure, "{said}");
    }
}

/// A plant that had been mixed up with a sibling when it was used is one of the two; used before, it is itself.
#[test]
fn a_parent_mixed_up_with_a_sibling_before_its_use_is_one_of_them() {
    let mixed_up = WITH_B.replace("B-1", "A-2");
    let said = sentences(&mixed_up, PLAIN, &["C-1", "A-1"]);
    assert!(
        said[0].starts_with(
            "seed parent witnessed; father one of two (A-1 or A-2, mixed up by then); founders"
        ),
        "{}",
        said[0]
    );
    assert!(
        said[1].starts_with("parents witnessed; founders"),
        "{}",
        said[1]
    );
    for known in [
        "on: \"2022-05-01\"",
        "settled: \"2021-09-01\", on: \"2021-07-01\"",
    ] {
        let said = sentences(
            &mixed_up.replace("on: \"2021-07-01\"", known),
            PLAIN,
            &["C-1"],
        );
        assert!(
            said[0].starts_with("parents witnessed; every cross further back witnessed too; "),
            "{}",
            said[0]
        );
    }
}

/// Seed that was harvested, or sown, before the mix-up is of the plant itself; a zone that was dusted after it is not, whatever
/// was dusted before.
#[test]
fn a_parent_is_itself_where_all_was_done_before_the_mix_up() {
    let said = |parts: &str| {
        of_c(
            "\"A-2\"",
            PARENTS_OF_C,
            &format!("{parts}, seedlings: [(number: \"1\")]"),
        )
    };
    for before in [
        "pods: [(code: \"P1\", harvested: \"2021-03-01\")]",
        "sowings: [(code: \"S1\", on: \"2021-05-01\")]",
        "pollinations: [(zone: \"a\", on: [\"2021-04-05\"])]",
    ] {
        let said = said(before);
        assert!(said.starts_with("parents witnessed; every"), "{said}");
    }
    for after in [
        "pods: [(code: \"P1\", harvested: \"2021-08-01\")]",
        "pollinations: [(zone: \"a\", on: [\"2021-06-01\", \"2021-07-09\"])]",
        "pollinations: [(zone: \"a\", on: [\"2021-06-01\"]), (zone: \"b\", on: [\"2021-07-09\"])]",
    ] {
        let said = said(after);
        assert!(said.contains("; father one of two (A-1 or A-2"), "{said}");
    }
}

/// A-1 was mixed up with A-2 on 2021-07-01; what A-2 may have been by then, A-1 may be. What came later is of A-2 alone.
#[test]
fn a_mix_up_leads_to_those_before_it() {
    let chain = |with: &str, on: &str| {
        let of_a = WITH_B.replace("B-1", "A-2").replace(
            "(number: \"2\")",
            &format!(
                "(number: \"2\", muddled: [(on: \"{on}\", with: [\"{with}\"])]), (number: \"3\")"
            ),
        );
        sentences(&of_a, PLAIN, &["A-1", "C-1"])
    };
    for (with, on, of_a, of_c) in [
        (
            "B-1",
            "2021-06-01",
            "from one of two crosses (mixed up with B-1); ",
            "parents witnessed; further back, A-1 is from one of two",
        ),
        (
            "B-7",
            "2021-06-01",
            "from one of two crosses (mixed up with B-7); ",
            "parents witnessed; further back, A-1 is from one of two",
        ),
        (
            "B-1",
            "2021-08-01",
            "parents witnessed; ",
            "seed parent witnessed; father one of two (A-1 or A-2, ",
        ),
        (
            "A-3",
            "2021-06-01",
            "parents witnessed; ",
            "seed parent witnessed; father one of three (A-1, A-2 or A-3, ",
        ),
        (
            "A-3",
            "2021-08-01",
            "parents witnessed; ",
            "seed parent witnessed; father one of two (A-1 or A-2, ",
        ),
    ] {
        let said = chain(with, on);
        assert!(said[0].starts_with(of_a), "{with} {on}: {}", said[0]);
        assert!(said[1].starts_with(of_c), "{with} {on}: {}", said[1]);
    }
}

/// What is said of the other parent stays. A founder is no sibling, and where the cross is open that is said instead.
#[test]
fn a_mix_up_leaves_what_is_known_of_the_other_parent() {
    let begins = |said: String, words: &str| assert!(said.starts_with(words), "{said}");
    let mother = "known(seed: \"A-1\", pollen: \"Low1\")";
    begins(
        of_c("\"A-2\"", mother, OF_C),
        "pollen parent witnessed; seed parent one of two (A-1 or A-2, mixed up by then); ",
    );
    let mothers = "seed_one_of(seed: [\"A-1\", \"Ven1\"], pollen: \"Low1\")";
    begins(
        of_c("\"A-2\"", mothers, OF_C),
        "pollen parent witnessed; seed parent ",
    );
    begins(of_c("\"Ven1\"", PARENTS_OF_C, OF_C), "parents witnessed; ");
    let two = of_c("\"A-2\", \"B-1\"", PARENTS_OF_C, OF_C);
    assert!(
        two.starts_with("parents witnessed; further back, A-1 is from one of two crosses"),
        "{two}"
    );
}

/// A code that is not on record is of another cross unless it begins with the code of this one and a sign.
#[test]
fn a_code_of_a_cross_that_is_not_here_is_of_another() {
    let with = |other: &str| sentences(&WITH_B.replace("B-1", other), PLAIN, &["A-1"]).remove(0);
    let said = with("A2-7");
    assert!(
        said.starts_with("from one of two crosses (mixed up with A2-7); "),
        "{said}"
    );
    let said = with("A-7");
    assert!(said.starts_with("parents witnessed; "), "{said}");
}

/// A page that another grower told of has its mix-ups on its own records; ours name only our own plants in doubt.
#[test]
fn a_told_plant_is_in_doubt_by_its_own_record_only() {
    let told = |seedlings: &str| format!("told_by: (registry: \"tent\", code: \"A\"), {seedlings}");
    let with_a = WITH_B.replace("B-1", "A-1");
    let said = sentences(&told(PLAIN), &with_a, &["A-1", "B-1"]);
    assert!(!said[0].contains("one of two crosses"), "{}", said[0]);
    assert!(
        said[1].starts_with("from one of two crosses"),
        "{}",
        said[1]
    );
    let said = sentences(&told(WITH_B), PLAIN, &["A-1"]);
    assert!(
        said[0].starts_with("from one of two crosses"),
        "{}",
        said[0]
    );
}

/// What has the pods it may be of on its record is known by them, and of the other cross only those of the other plant count.
#[test]
fn pods_say_more_than_the_mix_up() {
    let pot = "community_pots: [(code: \"T1\", one_of: [\"P1\", \"B.P1\"], muddled: [(on: \"2021-03-01\", with: [\"B.T1\"])])]";
    let of_b = "community_pots: [(code: \"T1\")]";
    let said = sentences(pot, of_b, &["A.T1"]).remove(0);
    assert!(
        said.starts_with("from one of two crosses (pod A.P1 or B.P1)"),
        "{said}"
    );
    let found = findings(pot, of_b);
    let without = found
        .iter()
        .any(|of| of.starts_with("mix-up-without-pods: A.T1"));
    assert!(!without, "{found:?}");
    let of_b = "pollinations: [(zone: \"a\", spike: \"s1\", control_set: 0, control_flowers: 4), \
         (zone: \"b\", spike: \"s2\", control_set: 3, control_flowers: 4)], \
         pods: [(code: \"P1\", zone: \"a\"), (code: \"P2\", zone: \"b\")], seedlings: [(number: \"1\", pod: \"P1\")]";
    let said = sentences(WITH_B, of_b, &["A-1"]).remove(0);
    assert!(
        said.starts_with("from one of two crosses (mixed up with B-1)"),
        "{said}"
    );
    assert!(!said.contains("probable"), "{said}");
}
