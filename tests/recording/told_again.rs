//! What the other grower learnt, settled or took back after a lineage came is asked about when it comes again.

use crate::taking_in::{Pages, handed, sources, take_in, take_in_piece};
use podbook::context::Context;
use podbook::observation::presence::{Presence, presence};
use podbook::observation::sex::{SexSeen, sex_seen};
use podbook::record::{Day, Hemisphere, SeenBy, Sex, When};
use podbook::recording::handover::Keep;
use podbook::recording::slip::Slip;
use podbook::registry::build;

fn today() -> Day {
    When::read("2025-06-01", Hemisphere::North).unwrap().first
}

/// A registry with two crosses of two founders each; the plant that is handed over is X20-02-1.
struct Grower {
    low1: &'static str,
    pot: &'static str,
    other_pot: &'static str,
    seedling: &'static str,
}

const PLAIN: Grower = Grower {
    low1: "",
    pot: "",
    other_pot: "",
    seedling: "pod: \"P1\", community_pot: \"T1\"",
};

impl Grower {
    fn pages(&self) -> Pages {
        let cross = |code: &str, parents: &str, pot: &str, seedling: &str| {
            format!(
                "(code: \"{code}\", parents: known({parents}), confidence: witnessed, pods: [(code: \"P1\")], \
                 sowings: [(code: \"S1\", on: \"2020-09-01\")], community_pots: [(code: \"T1\", sowing: \"S1\"{pot})], \
                 seedlings: [(number: \"1\", numbered: \"2021-09-01\", {seedling})])"
            )
        };
        let clones = format!(
            "(clones: [(code: \"Ven1\", received: \"N. ventricosa\", confidence: tag), \
             (code: \"Max1\", received: \"N. maxima\", confidence: tag), \
             (code: \"Low1\", received: \"N. lowii\", confidence: tag{}), \
             (code: \"Ala1\", received: \"N. rafflesiana\", confidence: tag)])",
            self.low1
        );
        let species = "(species: [(epithet: \"ventricosa\"), (epithet: \"maxima\"), (epithet: \"lowii\"), (epithet: \"rafflesiana\")])";
        Pages::from(
            [
                (
                    "registry.ron",
                    "(genus: \"Nepenthes\", hemisphere: north, registry: \"tent\", format: 2)"
                        .to_owned(),
                ),
                ("species.ron", species.to_owned()),
                ("clones.ron", clones),
                (
                    "crosses/X20-01.ron",
                    cross(
                        "X20-01",
                        "seed: \"Ven1\", pollen: \"Max1\"",
                        self.other_pot,
                        PLAIN.seedling,
                    ),
                ),
                (
                    "crosses/X20-02.ron",
                    cross(
                        "X20-02",
                        "seed: \"Low1\", pollen: \"Ala1\"",
                        self.pot,
                        self.seedling,
                    ),
                ),
            ]
            .map(|(path, text)| (path.to_owned(), text)),
        )
    }

    /// The lineage of X20-02-1.
    fn lineage(&self) -> Pages {
        let pages = self.pages();
        let sources = sources(&pages);
        let (registry, findings) = build(&sources);
        assert_eq!(findings.iter().count(), 0, "{findings:?}");
        handed(&registry, "X20-02-1")
    }
}

/// A registry whose own cross has the code of one of theirs.
fn mine() -> Pages {
    let own = "(code: \"X20-01\", parents: label_only(\"N. lowii x N. maxima\"), seedlings: [(number: \"1\")])";
    Pages::from(
        [
            (
                "registry.ron",
                "(genus: \"Nepenthes\", hemisphere: north, registry: \"mine\", format: 2)",
            ),
            (
                "species.ron",
                "(species: [(epithet: \"lowii\"), (epithet: \"maxima\")])",
            ),
            ("crosses/X20-01.ron", own),
        ]
        .map(|(path, text)| (path.to_owned(), text.to_owned())),
    )
}

fn name(pages: &Pages) -> String {
    let sources = sources(pages);
    let (registry, _) = build(&sources);
    let plant = registry.plant("X20-02-1").expect("the plant");
    let context = Context::of(&registry, today());
    podbook::analysis::promised::statement(context.evidence(), plant)
}

/// Takes in one lineage, then another, which is asked about with these words; what it says then stays.
fn is_asked_about(was: &Grower, is: &Grower, words: &[&str]) {
    let mut ours = mine();
    take_in(&mut ours, &was.lineage(), "X20-02-1", Keep::Neither).expect("the first");
    let once = ours.clone();
    let asked = take_in(&mut ours, &is.lineage(), "X20-02-1", Keep::Neither);
    let asked = asked.expect_err("two words").to_string();
    for words in words {
        assert!(asked.contains(words), "{words}\n{asked}");
    }
    assert_eq!(ours, once);
    take_in(&mut ours, &is.lineage(), "X20-02-1", Keep::Theirs).expect("theirs");
    let mut fresh = mine();
    take_in(&mut fresh, &is.lineage(), "X20-02-1", Keep::Neither).expect("into another registry");
    assert_eq!(name(&ours), name(&fresh));
    assert_ne!(name(&ours), name(&once));
    let settled = ours.clone();
    take_in(&mut ours, &is.lineage(), "X20-02-1", Keep::Neither).expect("nothing new");
    assert_eq!(ours, settled);
}

#[test]
fn a_tray_mixed_up_comes_later() {
    let mixed = Grower {
        pot: ", one_of: [\"X20-01.P1\", \"P1\"], muddled: [(on: \"2021-07-01\", with: [\"X20-01.T1\"])]",
        other_pot: ", one_of: [\"P1\", \"X20-02.P1\"], muddled: [(on: \"2021-07-01\", with: [\"X20-02.T1\"])]",
        seedling: "community_pot: \"T1\"",
        ..PLAIN
    };
    is_asked_about(
        &PLAIN,
        &mixed,
        &["X20-02-1, pod: here \"P1\", in the lineage nothing"],
    );
    is_asked_about(&mixed, &PLAIN, &["X20-02, community_pots T1, one_of: here"]);
}

#[test]
fn a_mix_up_settled_comes_later() {
    let open = Grower {
        seedling: "pod: \"P1\", one_of: [\"X20-01.P1\", \"P1\"], muddled: [(on: \"2022-01-01\", with: [\"X20-01-1\"])]",
        ..PLAIN
    };
    let settled = Grower {
        seedling: "pod: \"P1\", muddled: [(on: \"2022-01-01\", with: [\"X20-01-1\"], settled: \"2024-07-01\")]",
        ..PLAIN
    };
    is_asked_about(&open, &settled, &["X20-02-1, one_of: here"]);
    let mut ours = mine();
    take_in(&mut ours, &open.lineage(), "X20-02-1", Keep::Neither).expect("the first");
    take_in(&mut ours, &settled.lineage(), "X20-02-1", Keep::Theirs).expect("the second");
    let page = &ours["crosses/X20-02.ron"];
    // The other plant is theirs, not the one here with its code.
    assert!(
        page.contains("with: [\"tent-X20-01-1\"], settled: \"2024-07-01\")"),
        "{page}"
    );
    assert_eq!(page.matches("2022-01-01").count(), 1, "{page}");
}

#[test]
fn an_opinion_or_an_epithet_taken_back_comes_later() {
    let with = |low1: &'static str| Grower { low1, ..PLAIN };
    let accepted = with(", identified: [(on: \"2020\", name: \"N. maxima\", accepted: true)]");
    is_asked_about(&accepted, &PLAIN, &["Low1, identified: here"]);
    let shown = with(", identified: [(on: \"2020\", name: \"N. maxima\")]");
    is_asked_about(
        &accepted,
        &shown,
        &["Low1, identified 2020, N. maxima, accepted: here true, in the lineage nothing"],
    );
    let named = with(", cultivar: (epithet: \"Wet Tuesday\", published: \"x\")");
    is_asked_about(&named, &PLAIN, &["Low1, cultivar: here"]);
}

/// What a newer lineage adds comes in without a question, and what came before stays.
#[test]
fn what_is_new_of_a_founder_comes_beside_what_was_there() {
    let with = |low1: &'static str| Grower { low1, ..PLAIN };
    let opinion = |on: &str| format!("(on: \"2020\", name: \"N. maxima\", basis: \"{on}\")");
    let [pitcher, flower] = ["the pitcher", "the flower"].map(opinion);
    let one = with(format!(", identified: [{pitcher}]").leak());
    let both = with(format!(", identified: [{flower}, {pitcher}]").leak());
    let of_third = with(", told_by: (registry: \"oak\", code: \"L9\", on: \"2024\")");
    for (was, is, opinions) in [(&one, &both, 2), (&PLAIN, &of_third, 0)] {
        let mut ours = mine();
        take_in(&mut ours, &was.lineage(), "X20-02-1", Keep::Neither).expect("the first");
        take_in(&mut ours, &is.lineage(), "X20-02-1", Keep::Neither).expect("the second");
        let page = &ours["clones.ron"];
        assert_eq!(page.matches("received: \"N. lowii\"").count(), 1, "{page}");
        assert_eq!(page.matches("basis: ").count(), opinions, "{page}");
    }
}

/// The grower's own mix-ups, opinions and epithets stay without a question.
#[test]
fn own_records_of_the_plant_are_not_asked_about() {
    let mut ours = mine();
    let theirs = PLAIN.lineage();
    take_in(&mut ours, &theirs, "X20-02-1", Keep::Neither).expect("taken in");
    let page = ours.get_mut("crosses/X20-02.ron").unwrap();
    let mixed = "numbered: \"2021-09-01\", one_of: [\"P1\", \"X20-01.P1\"], muddled: [(on: \"2025-06-01\", with: [\"X20-01-1\"])], \
                 identified: [(on: \"2025-06-01\", name: \"N. lowii\", by: \"me\")], cultivar: (epithet: \"Dry Monday\")";
    *page = page.replace("numbered: \"2021-09-01\"", mixed);
    assert!(page.contains("Dry Monday"), "{page}");
    let once = ours.clone();
    take_in(&mut ours, &theirs, "X20-02-1", Keep::Neither).expect("nothing new");
    assert_eq!(ours, once);
}

/// Two growers may each have thought of one name for a plant: it comes in, and `check` warns of it.
#[test]
fn an_epithet_of_two_growers_bars_no_lineage() {
    let theirs = Grower {
        low1: ", cultivar: (epithet: \"Wet Tuesday\")",
        ..PLAIN
    };
    let mut ours = mine();
    let own = "(clones: [(code: \"Max9\", received: \"N. maxima\", cultivar: (epithet: \"Wet Tuesday\"))])";
    ours.insert("clones.ron".to_owned(), own.to_owned());
    take_in(&mut ours, &theirs.lineage(), "X20-02-1", Keep::Neither).expect("taken in");
    let sources = sources(&ours);
    let (registry, _) = build(&sources);
    assert_eq!(podbook::check::faults(&registry, today()), 0);
    let found = podbook::check::all(&registry, today());
    let of_two = |of: &podbook::diagnostic::Finding| of.code.0 == "epithet-of-two-growers";
    assert_eq!(found.iter().filter(|of| of_two(of)).count(), 1);
}

/// A plant of one's own that comes back in a lineage of another grower has not come.
#[test]
fn an_own_plant_in_a_lineage_changes_nothing() {
    let own = "(clones: [(code: \"Low1\", received: \"N. lowii\", confidence: tag)])";
    let mut ours = mine();
    ours.insert("clones.ron".to_owned(), own.to_owned());
    ours.insert(
        "registry.ron".to_owned(),
        "(genus: \"Nepenthes\", hemisphere: north, registry: \"mine\")".to_owned(),
    );
    let once = ours.clone();
    let mut theirs = Pages::new();
    theirs.insert(
        "registry.ron".to_owned(),
        "(genus: \"Nepenthes\", hemisphere: north, registry: \"tent\", format: 2)".to_owned(),
    );
    theirs.insert(
        "species.ron".to_owned(),
        "(species: [(epithet: \"lowii\")])".to_owned(),
    );
    theirs.insert(
        "clones.ron".to_owned(),
        own.replace(
            "confidence",
            "told_by: (registry: \"mine\", code: \"Low1\", on: \"2024\"), confidence",
        ),
    );
    take_in(&mut ours, &theirs, "Low1", Keep::Neither).expect("nothing new");
    assert_eq!(ours, once);
}

/// A cutting of the piece one gave away comes home after one's own died: what backups at a friend's are for.
#[test]
fn a_cutting_of_a_piece_given_away_comes_home() {
    let pieces = "(code: \"a\", made: original{a}), (code: \"b\", from: \"a\", made: cutting, cut: \"2024-01-10\"{b})";
    let own = |a: &str, b: &str| {
        let pieces = pieces.replace("{a}", a).replace("{b}", b);
        format!("(clones: [(code: \"Low1\", received: \"N. lowii\", ramets: [{pieces}])])")
    };
    let mut ours = mine();
    let clones = own(
        ", fate: died(on: \"2024-03-01\")",
        ", fate: given(on: \"2024-02-01\", to: \"tent\")",
    );
    ours.insert("clones.ron".to_owned(), clones);
    let cutting = ", (code: \"c\", from: \"b\", made: cutting, cut: \"2024-03-01\")";
    let theirs = own("", "").replace(
        ")])])",
        &format!("){cutting}], told_by: (registry: \"mine\", code: \"Low1\"))])"),
    );
    let theirs = Pages::from(
        [
            (
                "registry.ron",
                "(genus: \"Nepenthes\", hemisphere: north, registry: \"tent\", format: 2)",
            ),
            ("species.ron", "(species: [(epithet: \"lowii\")])"),
            ("clones.ron", &theirs),
        ]
        .map(|(path, text)| (path.to_owned(), text.to_owned())),
    );
    let recorded =
        take_in_piece(&mut ours, &theirs, ("Low1", 2), Keep::Neither).expect("it comes home");
    assert_eq!(recorded.tags[0].code, "Low1-c");
    let page = &ours["clones.ron"];
    assert!(
        page.contains("(code: \"c\", from: \"b\", made: cutting, cut: \"2024-03-01\", note: \"as told by the registry tent\")"),
        "{page}"
    );
    let sources = sources(&ours);
    let (registry, _) = build(&sources);
    assert_eq!(podbook::check::faults(&registry, today()), 0);
    let plant = registry.plant("Low1").expect("the plant");
    assert_eq!(presence(&registry, plant, today()), Presence::Here);
    let once = ours.clone();
    take_in_piece(&mut ours, &theirs, ("Low1", 2), Keep::Neither).expect("nothing new");
    assert_eq!(ours, once);
}

const SPIKE: &str = "code: \"22a\", opened: \"2022-03-25\"";

/// What is known of a plant's sex after one lineage came, and after another, whose words are to stay or not.
fn sexed(was: &Grower, is: &Grower, (code, keep): (&str, Keep)) -> Result<(SexSeen, Pages), Slip> {
    let mut ours = mine();
    take_in(&mut ours, &was.lineage(), "X20-02-1", Keep::Neither).expect("the first");
    take_in(&mut ours, &is.lineage(), "X20-02-1", keep)?;
    let here = sources(&ours);
    let (registry, _) = build(&here);
    let seen = sex_seen(&registry, registry.plant(code).expect("a plant"));
    assert_eq!(podbook::check::faults(&registry, today()), 0);
    Ok((seen, ours.clone()))
}

/// A newer lineage that corrects the sex of flowers, or how it was seen, is asked about, and can be taken in.
#[test]
fn flowers_corrected_come_later() {
    for spike in [SPIKE, "opened: \"2022-03-25\"", "over: \"2022-03-25\""] {
        let with =
            |sex: &str| -> &'static str { format!(", flowerings: [({spike}, {sex})]").leak() };
        let of_plant = |sex: &str| Grower {
            seedling: format!("pod: \"P1\"{}", with(sex)).leak(),
            ..PLAIN
        };
        let of_ancestor = |sex: &str| Grower {
            low1: with(sex),
            ..PLAIN
        };
        let female = |grower: &dyn Fn(&str) -> Grower, code: &str| {
            let (was, is) = (grower("sex: male"), grower("sex: female"));
            let asked = sexed(&was, &is, (code, Keep::Neither)).expect_err("two words");
            let words = "sex: here male, in the lineage female";
            assert!(asked.to_string().contains(words), "{asked}");
            let theirs = sexed(&was, &is, (code, Keep::Theirs)).expect("theirs").0;
            assert_eq!(theirs, SexSeen::Certain(Sex::Female), "{spike}");
        };
        female(&of_plant, "X20-02-1");
        female(&of_ancestor, "Low1");
        let (was, is) = (
            of_plant("sex: male"),
            of_plant("sex: male, seen_by: supplier"),
        );
        let seen = sexed(&was, &is, ("X20-02-1", Keep::Theirs))
            .expect("theirs")
            .0;
        assert_eq!(seen, SexSeen::Guess(Sex::Male, SeenBy::Supplier));
    }
}

/// Flowers of an ancestor that the lineage no longer has are asked about; those of the plant may be the grower's own.
#[test]
fn flowers_taken_back_come_later() {
    let guess = ", flowerings: [(code: \"22a\", sex: male, seen_by: buds)]";
    let was = Grower {
        low1: guess,
        ..PLAIN
    };
    // The flowers of another piece are not those that were seen before.
    let pieces = "ramets: [(code: \"a\"), (code: \"b\", from: \"a\")], flowerings";
    let [of_a, of_b] = ["ramet: \"a\", sex: male", "ramet: \"b\", sex: female"].map(|of| Grower {
        low1: format!(", {pieces}: [(code: \"22a\", {of})]").leak(),
        ..PLAIN
    });
    for (was, is) in [(&was, &PLAIN), (&of_a, &of_b)] {
        let asked = sexed(was, is, ("Low1", Keep::Neither)).expect_err("two words");
        assert!(
            asked.to_string().contains("Low1, flowerings: here"),
            "{asked}"
        );
    }
    let (seen, _) = sexed(&was, &PLAIN, ("Low1", Keep::Theirs)).expect("theirs");
    assert_eq!(seen, SexSeen::Unsexed);
}

/// What the grower saw of a spike that came with the plant stays.
#[test]
fn flowers_seen_here_stay() {
    let with = |entries: &str| Grower {
        seedling: format!("pod: \"P1\", flowerings: [{entries}]").leak(),
        ..PLAIN
    };
    let theirs = with("(code: \"25a\", spike: \"2025-05-01\")").lineage();
    let mut ours = mine();
    take_in(&mut ours, &theirs, "X20-02-1", Keep::Neither).expect("the first");
    let page = ours.get_mut("crosses/X20-02.ron").unwrap();
    let seen = "spike: \"2025-05-01\", opened: \"2025-06-01\", sex: male";
    *page = page.replace("spike: \"2025-05-01\"", seen);
    assert!(page.contains("sex: male"), "{page}");
    let once = ours.clone();
    take_in(&mut ours, &theirs, "X20-02-1", Keep::Theirs).expect("nothing new");
    assert_eq!(ours, once);
}
