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

/// Crosses A (Ven1 × Spa1), B (Low1 × Tru1) and C (Low1 × A-1, dusted on 2022-04-05), with these parts of A and B.
fn of<T>(of_a: &str, of_b: &str, ask: impl Fn(&Registry, &Evidence) -> T) -> T {
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
        format!(
            "(code: \"{code}\", parents: known({parents}), confidence: witnessed, pods: [(code: \"P1\")], {parts})"
        )
    };
    sources.add(
        "crosses/A.ron",
        page("A", "seed: \"Ven1\", pollen: \"Spa1\"", of_a),
    );
    sources.add(
        "crosses/B.ron",
        page("B", "seed: \"Low1\", pollen: \"Tru1\"", of_b),
    );
    let of_c = "pollinations: [(zone: \"a\", on: [\"2022-04-05\"])], seedlings: [(number: \"1\")]";
    sources.add(
        "crosses/C.ron",
        page("C", "seed: \"Low1\", pollen: \"A-1\"", of_c),
    );
    let (registry, _) = build(&sources);
    let context = Context::of(&registry, today());
    ask(&registry, context.evidence())
}

fn sentences(of_a: &str, of_b: &str, codes: &[&str]) -> Vec<String> {
    of(of_a, of_b, |registry, evidence| {
        let unit = |code: &&str| Unit::of(registry.target(code).expect("a code")).expect("a unit");
        codes
            .iter()
            .map(|code| evidence.sentence(unit(code)))
            .collect()
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
